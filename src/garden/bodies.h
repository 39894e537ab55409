// Standing the garden's things on its ground, as bodies that take light.
#pragma once

#include <vector>

#include "facts/facts.h"
#include "garden/body.h"
#include "garden/garden.h"
#include "geometry/surface.h"

namespace spadework::garden {

/// Every thing with a body, in the garden's order: walls and hedges cut where the ground under them
/// bends, roofs, crowns and stems, supports, seats' roofs and sides, covers, containers, tanks,
/// objects and the boards of beds. In:  `bed_levels_m`: the finished soil of each bed, in the
/// garden's order of beds. Out: opaque bodies stand whole; see-through ones carry their optical
/// depth for each day.
[[nodiscard]] std::vector<Body> bodies(const Garden& garden, const geometry::Surface& ground,
                                       const std::vector<double>& bed_levels_m,
                                       const facts::Catalogue& catalogue);

/// The boards of a bed, each by itself: what the bed's own soil sees. To all else the bed is one
/// block up to its rim, since a ray that rises from outside meets the nearer board before the soil.
/// Out: none for a bed without boards.
[[nodiscard]] std::vector<Body> bed_boards(const Bed& bed, double soil_m,
                                           const geometry::Surface& ground);

/// The bed that a point lies in, or kNoBed.
inline constexpr std::size_t kNoBed = static_cast<std::size_t>(-1);
[[nodiscard]] std::size_t bed_at(const Garden& garden, Vec2 p);

/// What a thing at a point stands on: the soil of the bed there, or the ground; above the datum.
[[nodiscard]] double standing_level(const Garden& garden, const geometry::Surface& ground,
                                    const std::vector<double>& bed_levels_m, Vec2 p);

/// The optical depth per metre of a crown whose mean beam transmission over its shadow, as a sphere
/// `across` wide, is `through`: the x of 2 (1 − (1 + x) e^−x) / x² = through, over the width.
/// In: 0 < through < 1. Source: closed form (Beer–Lambert over the chords of a sphere).
/// [closed-form]
[[nodiscard]] double crown_depth_per_m(double through, Length across);

/// How wide a container or tank of that volume is, for its height.
[[nodiscard]] Length round_width(Volume volume, Length height);
[[nodiscard]] Length tank_height(Volume holds);

/// The figures of a tree that its kind fills in when the document does not give them.
struct TreeFigures {
  Length crown_base, stem;
  CrownForm form;
};
[[nodiscard]] TreeFigures tree_figures(const Tree& tree, const facts::TreeKind& kind);

/// The roof over an outline as convex pieces, each with the level of its top: eaves at `eaves_z`.
struct RoofPiece {
  geometry::Polygon footprint;
  geometry::Incline top;
};
[[nodiscard]] std::vector<RoofPiece> roof_pieces(const Building& building, double eaves_z,
                                                 Angle plan_north);

}  // namespace spadework::garden
