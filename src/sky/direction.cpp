#include "sky/direction.h"

#include <cmath>

namespace spadework::sky {

geometry::Vec3 direction_towards(Angle azimuth, Angle elevation, Angle plan_north) {
  const double from_up_the_page = in_radians(azimuth - plan_north);
  const double level = std::cos(in_radians(elevation));
  return {level * std::sin(from_up_the_page), level * std::cos(from_up_the_page),
          std::sin(in_radians(elevation))};
}

geometry::Vec3 direction_from_hour_angle(Angle latitude, Angle declination, Angle hour_angle,
                                         Angle plan_north) {
  const double sin_l = std::sin(in_radians(latitude)), cos_l = std::cos(in_radians(latitude));
  const double sin_d = std::sin(in_radians(declination)), cos_d = std::cos(in_radians(declination));
  const double sin_h = std::sin(in_radians(hour_angle)), cos_h = std::cos(in_radians(hour_angle));
  const double east = -cos_d * sin_h;
  const double north = cos_l * sin_d - sin_l * cos_d * cos_h;
  const double up = sin_l * sin_d + cos_l * cos_d * cos_h;
  const double sin_p = std::sin(in_radians(plan_north)), cos_p = std::cos(in_radians(plan_north));
  return {east * cos_p - north * sin_p, north * cos_p + east * sin_p, up};
}

}  // namespace spadework::sky
