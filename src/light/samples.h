// The sun at one instant, as the shadow caster wants it.
#pragma once

#include <cstdint>

#include "geometry/vec.h"

namespace spadework::light {

/// One direction of the sun. Samples of a cast stand for equal stretches of time.
struct SunSample {
  geometry::Vec3 toward_sun;      // in the plan's axes, unit length
  float beam_w_m2 = 0;            // clear-sky direct-normal beam
  std::uint16_t day_of_year = 1;  // 1 to 366: which leaves are on
  std::uint8_t month = 0;         // 0 to 11
  std::uint8_t part = 0;          // 0 morning, 1 midday, 2 afternoon
  float light = 0;  // what its stretch of time brings on a plane that faces it, under the month's
                    // cloud: mol/m² of photons
};

}  // namespace spadework::light
