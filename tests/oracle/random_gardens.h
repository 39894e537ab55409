// Random things for the oracle tests.
#pragma once

#include <string>
#include <vector>

#include "light/light_testing.h"

namespace spadework::oracle {

using namespace light::testing;  // NOLINT: suns and bodies
using geometry::dot;
using geometry::frustum;
using geometry::prism;

inline Incline through_height(Vec2 middle, double height, Vec2 slope) {
  return {height - dot(slope, middle), slope};
}

/// Something opaque somewhere on the ground: a shed with a slanting top, a slab on high, a box, a
/// tent, a wall.
inline Solid random_solid(Random& random, Vec2 ground_slope) {
  const Vec2 middle{random.between(-2, 14), random.between(-2, 14)};
  const double ground = dot(ground_slope, middle), high = random.between(1.5, 5);
  const auto footprint =
      random_footprint(random, middle, random.between(0.3, 2), 3 + random.below(6));
  const Vec2 slope{random.between(-0.4, 0.4), random.between(-0.4, 0.4)};
  switch (random.below(5)) {
    case 0:
      return prism(footprint, {ground - 1.5, {}}, through_height(middle, ground + high, slope));
    case 1:
      return prism(footprint,
                   through_height(middle, ground + high - random.between(0.02, 1), slope),
                   through_height(middle, ground + high, slope));
    case 2:
      return frustum(footprint, ground + random.between(-1, 1),
                     {middle.x + random.between(-0.3, 0.3), middle.y + random.between(-0.3, 0.3),
                      ground + high},
                     random.below(2) == 0 ? 1 : random.between(0.2, 0.95));
    case 3:
      return box(middle, random.between(0.2, 3), random.between(0.2, 3), ground - 1, ground + high,
                 random.between(0, 7));
    default:
      return box(middle, random.between(2, 12), random.between(0.05, 0.3), ground - 2,
                 ground + high / 2, random.between(0, 7));
  }
}

}  // namespace spadework::oracle
