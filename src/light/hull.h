// Convex solids as the caster draws them: corners, and the edges whose shadows can bound the
// shadow of the whole.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "geometry/solid.h"

namespace spadework::light {

/// A segment between two corners. Where exactly two faces meet at it, it bounds the shadow only
/// when the beam meets one of them from the front and the other from behind. With −1 for both its
/// faces are not known.
struct HullEdge {
  std::uint32_t from = 0, to = 0;
  std::int32_t face_a = -1, face_b = -1;
};

struct Hull {
  std::vector<geometry::Vec3> corners;     // no two within a tenth of a micrometre
  std::vector<geometry::HalfSpace> faces;  // unit normals
  std::vector<HullEdge> edges;             // every edge of the solid is among them
  /// For each corner the faces it lies on: `words_each` words of bits, with room for one face more.
  std::vector<std::uint64_t> touching;
  std::size_t words_each = 1;
  /// False where the faces do not fit the corners: then every pair of corners is an edge.
  bool told_by_faces = true;
};

/// The hull of a convex solid. Repeated corners and faces without a normal are dropped. Out:
/// nothing when the corners lie in one plane: what has no volume takes no light.
[[nodiscard]] std::optional<Hull> hull_of(const geometry::Solid& solid);

/// The part of the hull on the side of the plane through `origin` to which `normal` points; nothing
/// when no corner stands more than `ignore_m` off the plane on that side.
[[nodiscard]] std::optional<Hull> part_above(const Hull& hull, geometry::Vec3 origin,
                                             geometry::Vec3 normal, double ignore_m);

}  // namespace spadework::light
