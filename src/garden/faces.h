// The faces of walls, buildings and supports: the planes against which plants are trained.
#pragma once

#include <string>
#include <vector>

#include "facts/facts.h"
#include "garden/body.h"
#include "garden/garden.h"
#include "geometry/surface.h"

namespace spadework::garden {

/// On which side of its thing a face lies, as one walks along the line; an outline is walked
/// anticlockwise. What grows over an arch, an obelisk, a wigwam or a cage does so all around.
enum class FaceSide { kLeft, kRight, kAround };

/// A plane piece of a thing's surface, seen from outside.
struct FacePiece {
  std::string thing;
  FaceSide side = FaceSide::kAround;
  /// Convex or not, anticlockwise for who looks at it; the first two corners are its foot, from
  /// left to right.
  std::vector<Vec3> outline;
  Vec3 out;             // unit, away from the thing
  bool inside = false;  // of two faces that look the same way, the one towards which the line bends
};

/// The faces of all walls, buildings (up to the eaves) and supports, in that order; one piece for
/// each leg of a line. Where the ground slopes a piece follows the top of its thing.
/// In:  `bed_levels_m`: the finished soil of each bed, in the garden's order of beds.
/// Out: pieces lie on the surface and reach down into the ground: what the ground or the soil
///      before them covers is for the caller to leave out. Nothing for what has no length or
///      height.
[[nodiscard]] std::vector<FacePiece> face_pieces(const Garden& garden,
                                                 const geometry::Surface& ground,
                                                 const std::vector<double>& bed_levels_m,
                                                 const facts::Catalogue& catalogue);

/// The walls and buildings alone, as bodies() has them: what a face can disappear into.
[[nodiscard]] std::vector<Body> wall_bodies(const Garden& garden, const geometry::Surface& ground,
                                            const std::vector<double>& bed_levels_m,
                                            const facts::Catalogue& catalogue);

}  // namespace spadework::garden
