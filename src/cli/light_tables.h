// The tables of `light`. For the cli room alone.
#pragma once

#include "cli/verbs.h"

namespace spadework::cli {

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

}  // namespace spadework::cli
