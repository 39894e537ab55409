// Convex solids: what walls, roofs and boards are made of. Each knows its corners (for shadows) and
// its faces (for rays).
#pragma once

#include <algorithm>
#include <limits>
#include <optional>
#include <utility>
#include <vector>

#include "geometry/vec.h"

namespace spadework::geometry {

/// z = level + slope · (p − origin of the plan).
struct Incline {
  double level = 0;
  Vec2 slope;
  [[nodiscard]] double at(Vec2 p) const { return level + dot(slope, p); }
  /// The incline through three points that are not in line in the plan.
  static Incline through(Vec3 a, Vec3 b, Vec3 c);
  friend bool operator==(const Incline&, const Incline&) = default;
};

/// The side of a plane where dot(normal, p) <= offset.
struct HalfSpace {
  Vec3 normal;
  double offset = 0;
  friend bool operator==(const HalfSpace&, const HalfSpace&) = default;
};

struct Solid {
  std::vector<Vec3> corners;
  std::vector<HalfSpace> faces;
  friend bool operator==(const Solid&, const Solid&) = default;
};

/// An upright prism over a convex footprint (anticlockwise), between two inclines; where the upper
/// one dips below the lower within the footprint the solid is not defined: cut the footprint first.
[[nodiscard]] Solid prism(const std::vector<Vec2>& footprint, Incline bottom, Incline top);
/// A pyramid or frustum: the footprint at `bottom_z` shrinks towards `apex` by `share` (1: to a
/// point).
[[nodiscard]] Solid frustum(const std::vector<Vec2>& footprint, double bottom_z, Vec3 apex,
                            double share);

/// Where a ray from `from` along `direction` (any length) is inside the solid: the two ray
/// parameters, the first clipped to 0; nothing if it misses or the stretch is empty.
[[nodiscard]] std::optional<std::pair<double, double>> ray_inside(const Solid& solid, Vec3 from,
                                                                  Vec3 direction);

/// Solids of revolution about an upright axis: crowns.
enum class RoundShape {
  kEllipsoid,  // widest half way up
  kColumn,     // a cylinder
  kCone,       // widest at the foot
  kDome,       // the upper half of an ellipsoid: flat below, widest at the foot
};
struct RoundSolid {
  RoundShape shape = RoundShape::kEllipsoid;
  Vec2 axis;
  double bottom_z = 0, top_z = 0, radius = 0;
  /// A crown that was lifted or topped: nothing of the shape is left below or above these.
  double cut_below_z = -std::numeric_limits<double>::infinity();
  double cut_above_z = std::numeric_limits<double>::infinity();

  [[nodiscard]] double low_z() const { return std::max(bottom_z, cut_below_z); }
  [[nodiscard]] double high_z() const { return std::min(top_z, cut_above_z); }
  [[nodiscard]] bool is_cut() const { return low_z() > bottom_z || high_z() < top_z; }
  friend bool operator==(const RoundSolid&, const RoundSolid&) = default;
};
[[nodiscard]] std::optional<std::pair<double, double>> ray_inside(const RoundSolid& solid,
                                                                  Vec3 from, Vec3 direction);
/// Corners whose hull encloses the solid closely (circumscribed rings), for bounding its shadow.
[[nodiscard]] std::vector<Vec3> enclosing_corners(const RoundSolid& solid);

}  // namespace spadework::geometry
