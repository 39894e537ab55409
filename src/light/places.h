// Places: everything that gets a light figure, and the receiving planes that measure it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "facts/facts.h"
#include "garden/body.h"
#include "garden/garden.h"
#include "geometry/surface.h"
#include "light/receiver.h"

namespace spadework::light {

enum class PlaceKind { kBed, kSeat, kPlant, kContainer, kSupport, kFace, kSpot };
[[nodiscard]] std::string_view place_kind_name(PlaceKind kind);  // "bed", …

/// A place's receivers and the bodies that are there for it alone. A row of plants has one receiver
/// for each plant; the place's figure is the mean over all counted cells.
struct Place {
  std::string id;
  PlaceKind kind = PlaceKind::kBed;
  Area area;           // of the soil within the boards, of the seat, of the plants' spread, …
  double level_m = 0;  // above the datum, of the (first) receiver
  std::vector<Receiver> receivers;
  std::vector<garden::Body> own;  // the ground beside it; a bed's boards, each by itself
  /// The things that are left out among what shades it: the bed for which its parts stand in
  /// `own`; the plants, the pot or the support whose leaves are the place's own.
  std::vector<std::string> replaces;
  std::string thing;             // of a face or support: what it belongs to
  std::optional<Angle> bearing;  // of a face that looks one way: the true bearing, 0 to 360°
};

/// The garden as the light room sees it.
struct Scenery {
  const garden::Garden& garden;
  const geometry::Surface& surface;
  const std::vector<double>& bed_levels_m;
  const facts::Catalogue& catalogue;
};

/// Every bed (its soil, level), seat (at the sitter's eyes, over the seat), plant (half way up,
/// over its spread, above the rim of its bed) and planted container (its top), in the garden's
/// order; then supports and the faces on which something grows or can (face_places.h), and those
/// faces that are named in `also`. A plant's light is what reaches it from outside: neither its own
/// leaves nor those of the other plants of its row shade it, nor what it is tied to; a plant by a
/// wall spreads on its own side of it, and one that is trained against it has the light of the face
/// that it grows over. A bed's light counts what stands in it.
[[nodiscard]] std::vector<Place> places(const Scenery& scenery,
                                        const std::vector<std::string>& also = {});

/// One point, `above_ground` over the ground there or over the soil of the bed that it lies in.
[[nodiscard]] Place spot_place(const Scenery& scenery, geometry::Vec2 at, Length above_ground);

/// What shades a place: the garden's bodies, with those of the place itself in their stead.
[[nodiscard]] std::vector<garden::Body> with_own(const std::vector<garden::Body>& bodies,
                                                 const std::vector<garden::Body>& own,
                                                 const std::vector<std::string>& replaces);

/// The ground around a bed, without the hole it lies in, and its boards.
[[nodiscard]] std::vector<garden::Body> bed_surroundings(const Scenery& scenery, std::size_t bed);

/// The height above the ground at which a plant's light is measured: half of its full height.
[[nodiscard]] Length plant_light_height(const facts::Crop& crop);

/// A level grid over a polygon at height z, along `along`, in cells no larger than `cell_m`: cells
/// whose middles lie inside are counted. A polygon too small for any has its middle as one cell.
[[nodiscard]] Receiver receiver_over(const geometry::Polygon& polygon, geometry::Vec2 along,
                                     double z, double cell_m);

}  // namespace spadework::light
