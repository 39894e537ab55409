// The faces of walls, buildings and supports: the planes against which plants are trained.
#pragma once

#include <string>
#include <vector>

#include "facts/facts.h"
#include "garden/body.h"
#include "garden/garden.h"
#include "geometry/surface.h"

namespace spadework::garden {

/// On which side of its thing's line a face lies, as one walks along it; an outline is walked
/// anticlockwise.
enum class FaceSide { kLeft, kRight };

/// A straight piece of a face, upright.
struct FacePiece {
  std::string thing;
  FaceSide side = FaceSide::kRight;
  /// Anticlockwise for who looks at it; the first two corners are its foot, from left to right.
  std::vector<Vec3> outline;
  Vec2 out;             // unit, away from the thing
  bool inside = false;  // on the side towards which the line bends
};

/// The faces of walls, buildings (up to the eaves), trellises and wires, in that order; a piece for
/// each leg of a line. Where the ground slopes a piece follows the top of its thing.
/// In:  `bed_levels_m`: the finished soil of each bed, in the garden's order of beds.
/// Out: pieces lie on the surface and reach down into the ground: what the ground or the soil
///      before them covers is for the caller to leave out. Nothing for what has no length or
///      height.
[[nodiscard]] std::vector<FacePiece> face_pieces(const Garden& garden,
                                                 const geometry::Surface& ground,
                                                 const std::vector<double>& bed_levels_m,
                                                 const facts::Catalogue& catalogue);

/// A support that is grown over on all sides: an arch, an obelisk, a wigwam or a cage.
struct RoundSupport {
  std::string thing;
  Polygon foot;                  // anticlockwise
  double low_m = 0, high_m = 0;  // above the datum
};
/// In the garden's order. Nothing for what has no width, depth or height.
[[nodiscard]] std::vector<RoundSupport> round_supports(const Garden& garden,
                                                       const geometry::Surface& ground,
                                                       const std::vector<double>& bed_levels_m,
                                                       const facts::Catalogue& catalogue);

/// The walls and buildings alone, as bodies() has them: what a face can disappear into.
[[nodiscard]] std::vector<Body> wall_bodies(const Garden& garden, const geometry::Surface& ground,
                                            const std::vector<double>& bed_levels_m,
                                            const facts::Catalogue& catalogue);

}  // namespace spadework::garden
