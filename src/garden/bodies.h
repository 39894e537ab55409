// Standing the garden's things on its ground, as bodies that take light.
#pragma once

#include <vector>

#include "facts/facts.h"
#include "garden/body.h"
#include "garden/garden.h"
#include "geometry/surface.h"

namespace spadework::garden {

/// Every thing with a body, in the garden's order: walls and hedges cut where the ground under them
/// bends, roofs, crowns and stems, supports with what climbs on them, plants, seats' roofs and
/// sides, covers, containers with what grows in them, tanks, objects and the boards of beds.
/// In:  `bed_levels_m`: the finished soil of each bed, in the garden's order of beds.
/// Out: opaque bodies stand whole; see-through ones carry their optical depth for each day, with
///      leaf dates and growth as they are at the garden's latitude and height.
///
/// Plants and climbers are bodies of leaves. Beer and Lambert's law holds along a ray, with K times
/// the leaf area in a cubic metre as depth per metre: the leaf area that the catalogue has over a
/// square metre, shared out over the height of a plant or the depth of a climber. What grows up
/// within its year stands in one layer, two from 0.6 m of full height or three from 1.2 m, each
/// filled as the plant grows past it. Plants that touch in a row are one long body, and so are more
/// than a dozen that do not, thinned by the gaps between them. Long-lived plants are full grown,
/// whatever their planting date; `planted` moves what is sown or planted each year. Plants under
/// 0.3 m have no body: their shade hardly leaves the ground that they cover.
/// Source: [monsi1953]; closed form for the shares of leaf area.
[[nodiscard]] std::vector<Body> bodies(const Garden& garden, const geometry::Surface& ground,
                                       const std::vector<double>& bed_levels_m,
                                       const facts::Catalogue& catalogue);

/// The size of a plant that is full grown: the document's own `[crop."…"]` figures, or else the
/// middle of what the catalogue has.
struct PlantSize {
  Length height, spread;
};
[[nodiscard]] PlantSize plant_size(const Garden& garden, const facts::Catalogue& catalogue,
                                   const facts::Crop& crop);
/// Whether plants of that size are tall enough (0.3 m) to have bodies.
[[nodiscard]] bool casts_shade(const PlantSize& size);

/// The support that a plant grows on: one that carries the same crop within half a metre of one of
/// its stems; nothing if there is none. Its leaves are then the support's, and not counted twice.
[[nodiscard]] const Support* support_of(const Garden& garden, const facts::Catalogue& catalogue,
                                        const Plant& plant);

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
