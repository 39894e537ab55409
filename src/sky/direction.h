// Directions towards the sun in the plan's own axes: x to the right of the page, y up the page, z
// up.
#pragma once

#include "base/quantity.h"
#include "geometry/vec.h"

namespace spadework::sky {

/// The unit vector towards a bearing and elevation.
/// In:     azimuth: true bearing, clockwise from north; plan_north: the true bearing of the page's
/// up. Out:    with plan_north 0, x is east and y north. Errors: none.
[[nodiscard]] geometry::Vec3 direction_towards(Angle azimuth, Angle elevation, Angle plan_north);

/// The unit vector towards a sun of the given declination and hour angle, without air or parallax:
/// what closed forms are stated in.
/// In:     hour_angle: 0 on the meridian, positive after noon, 15° an hour.
/// Errors: none.
/// Source: [spa] Eq. 41 and 45, with the declination and hour angle given.
[[nodiscard]] geometry::Vec3 direction_from_hour_angle(Angle latitude, Angle declination,
                                                       Angle hour_angle, Angle plan_north);

}  // namespace spadework::sky
