// The tables of `light`. For the cli room alone.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "cli/verbs.h"

namespace spadework::cli {

[[nodiscard]] std::string scheme_says(const std::string& scheme);  // "as proposed", "scheme x"

/// What of a year is shown: places in order, those asked for only.
struct PlacesView {
  const study::Stand& stand;
  Units units;
  const study::PlacesYear& year;
  std::vector<const light::PlaceSun*> places;
  study::Shared<study::TakersYear> takers;  // nothing for a day
};

[[nodiscard]] std::string year_table(const PlacesView& view);
/// In: the same places in `then`; those that are only in one are told so.
[[nodiscard]] std::string difference_table(const PlacesView& now, const PlacesView& then);
/// The same for one date: hours now, then, and the change.
[[nodiscard]] std::string day_difference_table(const PlacesView& now, const PlacesView& then,
                                               LocalDate date);
[[nodiscard]] std::string day_table(const PlacesView& view, LocalDate date);
[[nodiscard]] std::string spot_year_table(const study::Stand& stand, const study::SpotYear& spot,
                                          const std::string& at);
[[nodiscard]] std::string spot_day_text(const study::Stand& stand, const study::SpotDay& day,
                                        const std::string& at, LocalDate date);
[[nodiscard]] std::string field_csv(const study::Stand& stand, const light::Field& field,
                                    const std::vector<int>& growing);

[[nodiscard]] std::string day_field_csv(const study::Stand& stand, const light::Field& field,
                                        LocalDate date);

[[nodiscard]] nlohmann::json place_json(const study::Stand& stand, const light::PlaceSun& place,
                                        const std::array<int, 12>& days_in_month,
                                        const light::Takers& takers);
[[nodiscard]] nlohmann::json months_json(const light::YearSun& months);
[[nodiscard]] nlohmann::json guessed_json(const study::Stand& stand);

}  // namespace spadework::cli
