#include "light/places.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "garden/bodies.h"
#include "garden/faces.h"
#include "ground/ground.h"
#include "light/face_places.h"
#include "light/place_parts.h"

namespace spadework::light {
namespace {

using geometry::Polygon;
using geometry::Vec2;
using geometry::Vec3;

constexpr std::size_t kMostStems = 60;  // of a row that are measured
constexpr double kCell = 0.1;           // metres, beds and seats

/// The same for a place that has leaves of its own, which do not shade it. Those take the place of
/// the bed among what is left out: to what lies over its rim the whole bed is as good as its parts.
void stand_with_leaves(const Scenery& scenery, Vec2 at, const std::string& leaves, Place& place) {
  stand_on(scenery, at, place);
  place.replaces = {leaves};
}

/// The thing whose leaves are a plant's own: itself, or the support that it grows on; empty if its
/// leaves have no body.
std::string own_leaves(const Scenery& scenery, const garden::Plant& plant,
                       const facts::Crop& crop) {
  if (const garden::Support* support = garden::support_of(scenery.garden, scenery.catalogue, plant))
    return support->id;
  const bool shades =
      garden::casts_shade(garden::plant_size(scenery.garden, scenery.catalogue, crop));
  return shades ? plant.id : std::string();
}

/// Whether a point of a bed lies on its boards: there a spot stands on the rim.
bool on_boards(const garden::Bed& bed, Vec2 at) {
  if (!bed.boards) return false;
  const Polygon inner = geometry::inset(bed.outline, in_metres(bed.boards->thickness));
  return !inner.empty() && !geometry::contains(inner, at);
}

Place bed_place(const Scenery& scenery, std::size_t i) {
  const garden::Bed& bed = scenery.garden.beds[i];
  Polygon soil = bed.outline;
  if (bed.boards) {
    Polygon inner = geometry::inset(bed.outline, in_metres(bed.boards->thickness));
    if (!inner.empty()) soil = std::move(inner);
  }
  Place place;
  place.id = bed.id;
  place.kind = PlaceKind::kBed;
  place.area = square_metres(geometry::area(soil));
  place.level_m = scenery.bed_levels_m[i];
  place.receivers = {receiver_over(soil, bed.along, place.level_m + kLift, kCell)};
  place.own = bed_surroundings(scenery, i);
  place.replaces = {bed.id};
  return place;
}

Place seat_place(const Scenery& scenery, const garden::Seat& seat) {
  const Vec2 along = geometry::left_of(seat.facing) * -1.0;
  const double turn = std::atan2(along.y, along.x);
  Place place;
  place.id = seat.id;
  place.kind = PlaceKind::kSeat;
  place.area = square_metres(seat.size.x * seat.size.y);
  place.level_m = level_at(scenery, seat.at) + in_metres(seat.eye);
  place.receivers = {receiver_over(geometry::rectangle_about(seat.at, seat.size, turn), along,
                                   place.level_m, kCell)};
  stand_on(scenery, seat.at, place);
  return place;
}

/// Planes that follow the ground under an outline, `up` above it; level over a bed.
std::vector<Receiver> receivers_over_ground(const Scenery& scenery, const Polygon& outline,
                                            double up) {
  const Vec2 middle = geometry::centroid(outline);
  if (garden::bed_at(scenery.garden, middle) != garden::kNoBed)
    return {receiver_over(outline, {1, 0}, level_at(scenery, middle) + up, kCell)};
  const geometry::Box2 box = geometry::bounds(outline);
  const int columns = std::max(1, static_cast<int>(std::ceil(box.width() / kCell - 1e-9)));
  const int rows = std::max(1, static_cast<int>(std::ceil(box.height() / kCell - 1e-9)));
  std::map<int, Receiver> by_plane;
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      const Vec2 p = box.low + Vec2{(column + 0.5) * kCell, (row + 0.5) * kCell};
      if (!geometry::contains(outline, p)) continue;
      const geometry::Facet& facet = scenery.surface.facet_at(p);
      auto found = by_plane.find(facet.plane);
      if (found == by_plane.end()) {
        Receiver receiver = ground_receiver(box.low, facet.incline.level + up, facet.incline.slope,
                                            kCell, columns, rows);
        std::fill(receiver.counted.begin(), receiver.counted.end(), std::uint8_t{0});
        found = by_plane.emplace(facet.plane, std::move(receiver)).first;
      }
      found->second.counted[static_cast<std::size_t>(row * columns + column)] = 1;
    }
  }
  std::vector<Receiver> receivers;
  for (auto& [plane, receiver] : by_plane) receivers.push_back(std::move(receiver));
  if (receivers.empty())
    receivers.push_back(spot_receiver({middle.x, middle.y, level_at(scenery, middle) + up}));
  return receivers;
}

/// Leaves out the cells that a plant cannot grow to: beyond a wall or a building, as its stem sees
/// them, or within.
void keep_before_walls(const std::vector<garden::Body>& walls, Vec2 stem, Receiver& receiver) {
  std::vector<std::uint8_t> counted = receiver.counted;
  bool any = false;
  for (int row = 0; row < receiver.rows; ++row) {
    for (int column = 0; column < receiver.columns; ++column) {
      auto& counts = counted[static_cast<std::size_t>(row * receiver.columns + column)];
      const Vec3 p = cell_centre(receiver, column, row);
      const Vec3 from{stem.x, stem.y, p.z}, way = p - from;
      const auto hides = [&](const garden::Body& wall) {
        if (wall.through != garden::Through::kOpaque) return false;
        const auto within = ray_inside(std::get<geometry::Solid>(wall.shape), from, way);
        return within && within->first < 1;
      };
      if (counts != 0 && std::any_of(walls.begin(), walls.end(), hides)) counts = 0;
      any |= counts != 0;
    }
  }
  if (any) receiver.counted = std::move(counted);
}

Place plant_place(const Scenery& scenery, const std::vector<garden::Body>& walls,
                  const garden::Plant& plant) {
  const facts::Crop* crop = scenery.catalogue.crops.find(plant.crop);
  SW_CHECK(crop != nullptr);
  const double radius = std::max(0.05, in_metres(crop->spread.value.max) / 2);
  const double up = in_metres(plant_light_height(*crop));
  const std::string leaves = own_leaves(scenery, plant, *crop);
  Place place;
  place.id = plant.id;
  place.kind = PlaceKind::kPlant;
  place.area =
      square_metres(std::numbers::pi * radius * radius * static_cast<double>(plant.stems.size()));
  if (!plant.outline.empty()) {
    place.area = square_metres(geometry::area(plant.outline));
    place.level_m = level_at(scenery, plant.stems.front()) + up;
    const double rim =
        rim_at(scenery, plant.stems.front()) - level_at(scenery, plant.stems.front());
    place.receivers =
        receivers_over_ground(scenery, plant.outline, leaves.empty() ? up : std::max(up, rim));
  } else {
    // Of a long row a share of its plants, spread evenly, stand for all.
    const std::size_t every = (plant.stems.size() + kMostStems - 1) / kMostStems;
    for (std::size_t i = every / 2; i < plant.stems.size(); i += every) {
      const Vec2 stem = plant.stems[i];
      double z = level_at(scenery, stem) + up;
      if (!leaves.empty()) z = std::max(z, rim_at(scenery, stem));
      if (place.receivers.empty()) place.level_m = z;
      place.receivers.push_back(
          receiver_over(geometry::round_polygon(stem, radius, 12), {1, 0}, z, radius / 2.5));
      keep_before_walls(walls, stem, place.receivers.back());
    }
  }
  if (leaves.empty())
    stand_on(scenery, plant.stems.front(), place);
  else
    stand_with_leaves(scenery, plant.stems.front(), leaves, place);
  return place;
}

Place container_place(const Scenery& scenery, const garden::Container& container) {
  const double width = in_metres(garden::round_width(container.volume, container.height));
  Place place;
  place.id = container.id;
  place.kind = PlaceKind::kContainer;
  place.area = square_metres(std::numbers::pi * width * width / 4);
  const Polygon rim = geometry::round_polygon(container.at, width / 2, 12);
  const bool in_bed = garden::bed_at(scenery.garden, container.at) != garden::kNoBed;
  const double foot =
      in_bed ? level_at(scenery, container.at) : scenery.surface.range_under(rim).high;
  place.level_m = foot + in_metres(container.height);
  if (in_bed) place.level_m = std::max(place.level_m, rim_at(scenery, container.at));
  place.receivers = {receiver_over(rim, {1, 0}, place.level_m + kLift, width / 5)};
  // Its pot is left out with its plant: it lies under the receiver.
  stand_with_leaves(scenery, container.at, container.id, place);
  return place;
}

}  // namespace

std::string_view place_kind_name(PlaceKind kind) {
  switch (kind) {
    case PlaceKind::kBed:
      return "bed";
    case PlaceKind::kSeat:
      return "seat";
    case PlaceKind::kPlant:
      return "plant";
    case PlaceKind::kContainer:
      return "container";
    case PlaceKind::kSupport:
      return "support";
    case PlaceKind::kFace:
      return "face";
    case PlaceKind::kSpot:
      return "spot";
  }
  return "spot";
}

double level_at(const Scenery& scenery, Vec2 p) {
  return garden::standing_level(scenery.garden, scenery.surface, scenery.bed_levels_m, p);
}

double rim_at(const Scenery& scenery, Vec2 at) {
  const std::size_t bed = garden::bed_at(scenery.garden, at);
  if (bed == garden::kNoBed || !scenery.garden.beds[bed].boards) return level_at(scenery, at);
  return level_at(scenery, at) + in_metres(scenery.garden.beds[bed].freeboard) + kLift;
}

void stand_on(const Scenery& scenery, Vec2 at, Place& place) {
  const std::size_t bed = garden::bed_at(scenery.garden, at);
  if (bed == garden::kNoBed) {
    place.own = ground::ground_bodies(scenery.surface, -1, {});
    return;
  }
  place.own = bed_surroundings(scenery, bed);
  place.replaces = {scenery.garden.beds[bed].id};
}

bool is_replaced(const garden::Body& body, const std::vector<std::string>& replaces) {
  return std::find(replaces.begin(), replaces.end(), body.thing) != replaces.end();
}

std::vector<garden::Body> with_own(const std::vector<garden::Body>& bodies,
                                   const std::vector<garden::Body>& own,
                                   const std::vector<std::string>& replaces) {
  std::vector<garden::Body> all;
  for (const garden::Body& body : bodies) {
    if (!is_replaced(body, replaces)) all.push_back(body);
  }
  all.insert(all.end(), own.begin(), own.end());
  return all;
}

std::vector<garden::Body> bed_surroundings(const Scenery& scenery, std::size_t i) {
  const garden::Bed& bed = scenery.garden.beds[i];
  std::vector<garden::Body> own = ground::ground_bodies(scenery.surface, -1, bed.outline);
  for (garden::Body& board : garden::bed_boards(bed, scenery.bed_levels_m[i], scenery.surface))
    own.push_back(std::move(board));
  return own;
}

Length plant_light_height(const facts::Crop& crop) { return crop.height.value.max * 0.5; }

Receiver receiver_over(const Polygon& polygon, Vec2 along, double z, double cell_m) {
  const Vec2 across = geometry::left_of(along);
  std::vector<Vec2> turned;
  for (const Vec2 p : polygon) turned.push_back({dot(along, p), dot(across, p)});
  const geometry::Box2 box = geometry::bounds(turned);
  // A whole number of cells each way, none larger than asked for: the cell is square, so the longer
  // side decides and the other is centred.
  const int columns = std::max(1, static_cast<int>(std::ceil(box.width() / cell_m - 1e-9)));
  const int rows = std::max(1, static_cast<int>(std::ceil(box.height() / cell_m - 1e-9)));
  const Vec2 middle = (box.low + box.high) * 0.5;
  const Vec2 low = middle - Vec2{columns * cell_m / 2, rows * cell_m / 2};
  const Vec2 corner = along * low.x + across * low.y;
  Receiver receiver =
      level_receiver(corner, std::atan2(along.y, along.x), z, cell_m, columns, rows);
  bool any = false;
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      const bool in = geometry::contains(polygon, cell_centre(receiver, column, row).plan());
      receiver.counted[static_cast<std::size_t>(row * columns + column)] = in;
      any = any || in;
    }
  }
  if (!any) {
    const Vec2 at = geometry::centroid(polygon);
    return spot_receiver({at.x, at.y, z});
  }
  return receiver;
}

std::vector<Place> places(const Scenery& scenery, const std::vector<std::string>& also) {
  std::vector<Place> out;
  for (std::size_t i = 0; i < scenery.garden.beds.size(); ++i) out.push_back(bed_place(scenery, i));
  for (const garden::Seat& seat : scenery.garden.seats) out.push_back(seat_place(scenery, seat));
  const std::vector<Place> trained = trained_places(scenery);
  const auto walls =
      garden::wall_bodies(scenery.garden, scenery.surface, scenery.bed_levels_m, scenery.catalogue);
  for (const garden::Plant& plant : scenery.garden.plants) {
    const auto own = std::find_if(trained.begin(), trained.end(),
                                  [&](const Place& place) { return place.id == plant.id; });
    out.push_back(own != trained.end() ? *own : plant_place(scenery, walls, plant));
  }
  for (const garden::Container& container : scenery.garden.containers) {
    if (!container.crop.empty()) out.push_back(container_place(scenery, container));
  }
  for (Place& face : face_places(scenery, also)) out.push_back(std::move(face));
  return out;
}

Place spot_place(const Scenery& scenery, Vec2 at, Length above_ground) {
  Place place;
  place.id = "spot";
  place.kind = PlaceKind::kSpot;
  stand_on(scenery, at, place);
  const std::size_t bed = garden::bed_at(scenery.garden, at);
  place.level_m = level_at(scenery, at) + in_metres(above_ground);
  if (bed != garden::kNoBed && on_boards(scenery.garden.beds[bed], at))
    place.level_m += in_metres(scenery.garden.beds[bed].freeboard);
  place.receivers = {spot_receiver({at.x, at.y, place.level_m + kLift})};
  // On the ground itself the plane is the ground's own: its facet cannot shade it.
  if (in_metres(above_ground) <= 0 && bed == garden::kNoBed) {
    const geometry::Facet& facet = scenery.surface.facet_at(at);
    place.receivers = {ground_receiver(at - Vec2{0.05, 0.05}, facet.incline.level + 2 * kLift,
                                       facet.incline.slope, 0.1, 1, 1)};
    place.own = ground::ground_bodies(scenery.surface, facet.plane, {});
  }
  return place;
}

}  // namespace spadework::light
