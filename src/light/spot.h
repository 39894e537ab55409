// One place on one day: when exactly the sun is on it.
#pragma once

#include <string>
#include <vector>

#include "light/places.h"
#include "light/scene.h"
#include "sky/sky.h"

namespace spadework::light {

/// A stretch of sun, in hours by the clock since the day's midnight.
struct SunInterval {
  double start_h = 0, end_h = 0;
};

struct SpotDay {
  double sun_h = 0;
  std::vector<SunInterval> intervals;
  sky::SunEvents events;
};

/// When the sun reaches a point on a date: over the sunshine threshold, above the skyline, before
/// the plane that the point lies on, and no more than half taken on the way. In:     a place with
/// one receiver of one cell; 2-minute steps, ends refined to a second. Errors: none; polar night
/// gives no intervals. Source: [spa] positions; [ineichen-perez] beam; [wmo8] threshold.
[[nodiscard]] SpotDay spot_day(const garden::Garden& garden, const Scene& scene,
                               const Receiver& receiver, LocalDate date);

}  // namespace spadework::light
