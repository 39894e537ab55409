// Bodies: everything that can take light or hide a view, as shapes with an optical depth by date.
// Light, views and perspective see only bodies.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "geometry/solid.h"

namespace spadework::garden {

/// How much of a beam a body takes.
enum class Through {
  kOpaque,       // nothing passes
  kPerCrossing,  // a thin skin with holes: the same share passes whatever the way through
  kPerMetre,     // leaves and twigs: Beer–Lambert along the way inside
};

struct Body {
  std::string thing;  // id of the thing that it belongs to; "ground" for the ground itself
  std::variant<geometry::Solid, geometry::RoundSolid> shape;
  Through through = Through::kOpaque;
  /// Optical depth for the direct beam (per crossing, or per metre) by day of the year: one value
  /// for all days, or 366 of them (index day − 1). An opaque body has one value; 0 on a day means
  /// it is not there.
  std::vector<float> depth{1.0F};

  [[nodiscard]] float depth_on(int day_of_year) const {
    return depth.size() == 1 ? depth[0] : depth[static_cast<std::size_t>(day_of_year - 1)];
  }
  friend bool operator==(const Body&, const Body&) = default;
};

}  // namespace spadework::garden
