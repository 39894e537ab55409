// Front door of the ground room: the surface of the ground and the level of every bed.
//
// The surface goes straight through the spot levels of the document, as triangles; without spots it
// is the fall that the document tells, and without that it is level 0. Beds are level: each at its
// own height.
//
// How a plot, its north, its heights and its fall are come by in the first ten minutes is
// first_measures.h.
#pragma once

#include <vector>

#include "garden/body.h"
#include "garden/garden.h"
#include "geometry/surface.h"
#include "ground/first_measures.h"

namespace spadework::ground {

/// The ground of a garden over all that is drawn and 10 m around it.
/// Out: through each spot level; where a fall is given, a plane that is 0 at the plan's origin.
[[nodiscard]] geometry::Surface ground_surface(const garden::Garden& garden);

/// How the level of a bed's finished soil was found.
enum class LevelBy { kGiven, kLevelWith, kMeanGround };
struct BedLevel {
  double level_m = 0;  // above the datum
  LevelBy by = LevelBy::kMeanGround;
};
/// The finished soil of each bed, in the garden's order: the given level, that of the bed it is
/// level with, or the mean ground under its outline, where as much is dug as is filled.
[[nodiscard]] std::vector<BedLevel> bed_levels(const garden::Garden& garden,
                                               const geometry::Surface& surface);

/// The ground itself as opaque bodies, for what lies lower than the ground beside it.
/// In:  `plane`: the facets' plane that the receiver lies on, whose facets are left out (they
/// cannot
///      shade it), or −1; `hole`: the outline of a bed that is dug into the ground, or empty.
[[nodiscard]] std::vector<garden::Body> ground_bodies(const geometry::Surface& surface, int plane,
                                                      const geometry::Polygon& hole);

/// Whether the ground bends: more than one plane.
[[nodiscard]] inline bool is_rolling(const geometry::Surface& surface) {
  return surface.planes() > 1;
}

/// The id under which the ground itself takes light.
inline constexpr const char* kGroundId = "ground";

}  // namespace spadework::ground
