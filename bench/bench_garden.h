// The garden that the benchmarks measure: 20 × 15 m, 60 prisms (walls and boxes) and 12 crowns on
// level ground, at 48.41° north.
#pragma once

#include <string>
#include <vector>

#include "base/random.h"
#include "light/light.h"

namespace spadework::bench {

/// `wider`: how many times as far apart the things stand.
inline std::vector<garden::Body> bodies(double wider = 1) {
  using geometry::Incline;
  using geometry::Vec2;
  Random random(20260117);
  std::vector<garden::Body> out;
  for (int i = 0; i < 60; ++i) {
    const Vec2 middle = Vec2{random.between(0, 20), random.between(0, 15)} * wider;
    const bool wall = i % 2 == 0;
    const Vec2 size = wall ? Vec2{random.between(2, 8), 0.2}
                           : Vec2{random.between(0.5, 2), random.between(0.5, 2)};
    out.push_back({"b" + std::to_string(i),
                   geometry::prism(geometry::rectangle_about(middle, size, random.between(0, 3)),
                                   Incline{-0.2, {}}, Incline{random.between(0.4, 2.4), {}}),
                   garden::Through::kOpaque,
                   {1.0F}});
  }
  for (int i = 0; i < 12; ++i) {
    const geometry::RoundSolid crown{geometry::RoundShape::kEllipsoid,
                                     Vec2{random.between(0, 20), random.between(0, 15)} * wider,
                                     random.between(1, 2), random.between(4, 7),
                                     random.between(1, 2.5)};
    out.push_back({"c" + std::to_string(i), crown, garden::Through::kPerMetre, {0.6F}});
  }
  return out;
}

/// The whole garden in cells, just above the ground.
inline light::Receiver ground(double cell_m = 0.1, double wider = 1) {
  return light::level_receiver({0, 0}, 0, 0.002, cell_m,
                               static_cast<int>(20 * wider / cell_m + 0.5),
                               static_cast<int>(15 * wider / cell_m + 0.5));
}

inline garden::Garden site() {
  garden::Garden garden;
  garden.site.latitude = degrees(48.41);
  garden.site.longitude = degrees(-4.36);
  return garden;
}

/// The same cloud all year, so that every sun brings light.
inline light::Cloud cloud() {
  light::Cloud cloud;
  for (auto& month : cloud.radiation) month.global_mj_m2_d = 10;
  cloud.sunshine_h_per_day.fill(4);
  return cloud;
}

}  // namespace spadework::bench
