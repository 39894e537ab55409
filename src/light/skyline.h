// The far skyline: hills and woods beyond the garden, told as altitudes by bearing.
#pragma once

#include <vector>

#include "garden/garden.h"

namespace spadework::light {

/// The altitude of the skyline at a bearing: straight between the points that are given, joined
/// round the circle; 0 without points, the one altitude all around with one.
[[nodiscard]] Angle skyline_altitude(const std::vector<garden::Ground::HorizonPoint>& horizon,
                                     Angle bearing);

}  // namespace spadework::light
