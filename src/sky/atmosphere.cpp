#include "sky/atmosphere.h"

#include <algorithm>
#include <cmath>

namespace spadework::sky {

Pressure standard_pressure(Length elevation) {
  // p = p0 (1 − L h / T0)^(g M / R L) with the standard's constants, in the rounding in which the
  // formula is usually printed: 44,331.514 m is T0 / L, and 11,880.516 takes in p0 (hPa).
  return pascals(100 * std::pow((44331.514 - in_metres(elevation)) / 11880.516, 1 / 0.1902632));
}

double relative_air_mass(Angle apparent_elevation) {
  const double elevation_deg = std::max(0.0, in_degrees(apparent_elevation));
  return 1 / (std::sin(in_radians(degrees(elevation_deg))) +
              0.50572 * std::pow(elevation_deg + 6.07995, -1.6364));
}

double absolute_air_mass(Angle apparent_elevation, Pressure pressure) {
  return relative_air_mass(apparent_elevation) * (pressure / pascals(101325));
}

}  // namespace spadework::sky
