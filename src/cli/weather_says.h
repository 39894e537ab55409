// What is told of the weather behind the light. For the cli room alone.
#pragma once

#include <string>
#include <vector>

#include "climate/climate.h"

namespace spadework::cli {

/// The months as columns, in the season's order: from January, or from July in the south.
[[nodiscard]] std::vector<int> month_order(const garden::Site& site);

/// What is behind the light under cloud: whose months they are and how sure the year is.
[[nodiscard]] std::string climate_says(const climate::PlaceClimate& climate,
                                       const std::vector<int>& order, Units units);

/// "good to ±8 %", that it rests on figures that were given, or that nothing is near enough to say.
[[nodiscard]] std::string year_sure_says(const climate::PlaceClimate& climate);

}  // namespace spadework::cli
