// Results as CSV: metric, the unit in each column's name, a point for decimals.
#pragma once

#include <string>
#include <vector>

#include "study/study.h"

namespace spadework::exchange {

/// The places of a scheme, and which of them rest on guesses.
struct PlacesOf {
  std::string scheme;
  const study::PlacesYear& year;
  const study::OnGuesses& on_guesses;
};
/// A line for each scheme, place and month.
[[nodiscard]] std::string places_csv(const std::vector<PlacesOf>& schemes);
/// A line for each scheme and place; the years are of that day alone.
[[nodiscard]] std::string places_day_csv(const std::vector<PlacesOf>& schemes, LocalDate date);
/// A line for each cell of the field: every month, and the mean of the `growing` ones (0 to 11).
[[nodiscard]] std::string field_csv(const study::Stand& stand, const light::Field& field,
                                    const std::vector<int>& growing);
[[nodiscard]] std::string day_field_csv(const study::Stand& stand, const light::Field& field,
                                        LocalDate date);

}  // namespace spadework::exchange
