// Results as CSV: metric, the unit in each column's name, a point for decimals.
#pragma once

#include <string>
#include <vector>

#include "study/study.h"

namespace spadework::exchange {

/// A line for each place and month.
[[nodiscard]] std::string places_csv(const study::PlacesYear& year);
/// A line for each cell of the field: every month, and the mean of the `growing` ones (0 to 11).
[[nodiscard]] std::string field_csv(const study::Stand& stand, const light::Field& field,
                                    const std::vector<int>& growing);
[[nodiscard]] std::string day_field_csv(const study::Stand& stand, const light::Field& field,
                                        LocalDate date);

}  // namespace spadework::exchange
