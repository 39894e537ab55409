// Results as CSV: metric, the unit in each column's name, a point for decimals.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "study/study.h"

namespace spadework::exchange {

/// The places of a scheme, and which of them rest on guesses.
struct PlacesOf {
  std::string scheme;
  const study::PlacesYear& year;
  const study::OnGuesses& on_guesses;
  std::vector<int> growing;  // months, 0 to 11, in the season's order
};
/// A line for each scheme, place and month, and one for the mean of the growing months.
[[nodiscard]] std::string places_csv(const std::vector<PlacesOf>& schemes);
/// A line for each scheme and place; the years are of that day alone.
[[nodiscard]] std::string places_day_csv(const std::vector<PlacesOf>& schemes, LocalDate date);
/// How much of each bed is in the sun at a moment.
struct BedsOf {
  std::string scheme;
  std::vector<std::string> beds;
  std::vector<std::optional<double>> share_in_sun;  // of each bed; nothing: it has no cell
  const study::OnGuesses& on_guesses;
};
/// A line for each scheme and bed.
[[nodiscard]] std::string beds_moment_csv(const std::vector<BedsOf>& schemes, LocalDate date,
                                          double clock_h);
/// A line for each cell of the field: every month, and the mean of the `growing` ones (0 to 11).
[[nodiscard]] std::string field_csv(const study::Stand& stand, const light::Field& field,
                                    const std::vector<int>& growing);
[[nodiscard]] std::string day_field_csv(const study::Stand& stand, const light::Field& field,
                                        LocalDate date);

}  // namespace spadework::exchange
