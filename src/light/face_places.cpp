#include "light/face_places.h"

#include <algorithm>
#include <cmath>

#include "garden/bodies.h"
#include "light/faces.h"
#include "light/place_parts.h"

namespace spadework::light {
namespace {

using garden::FacePiece;
using geometry::dot;
using geometry::Polygon;
using geometry::Vec2;
using geometry::Vec3;

constexpr double kBed_m = 0.15;  // a bed so near before a face covers its foot
constexpr double kLeastCell_m = 0.02, kLargestCell_m = 0.25;
constexpr double kEnoughCells = 400;    // of one piece
constexpr double kMostCells = 20'000;   // of one piece
constexpr double kLevelsApart_m = 0.5;  // at most, in a support that is grown over all around

double length_of(const FacePiece& piece) {
  return geometry::length(piece.outline[1] - piece.outline[0]);
}

bool holds(const geometry::Solid& solid, Vec3 p) {
  return std::all_of(solid.faces.begin(), solid.faces.end(), [&](const geometry::HalfSpace& face) {
    return dot(face.normal, p) < face.offset;
  });
}

/// A piece's plane with its cells.
class PieceReceiver {
 public:
  PieceReceiver(const Scenery& scenery, const std::vector<garden::Body>& walls,
                const FacePiece& piece, std::size_t own_bed)
      : scenery_(scenery),
        walls_(walls),
        own_bed_(own_bed),
        out_{piece.out.x, piece.out.y, 0},
        foot_(piece.outline[0] + out_ * kLift),
        wide_(length_of(piece)) {
    right_ = (piece.outline[1] - piece.outline[0]) * (1 / wide_);
    for (const Vec3& p : piece.outline) {
      const Vec3 from = p - piece.outline[0];
      flat_.push_back({dot(right_, from), from.z});
      high_ = std::max(high_, from.z);
    }
    lay();
    count();
  }

  Receiver receiver;
  double area_m2 = 0;
  int counted = 0;

 private:
  /// The ground or the soil before the face, above its own foot.
  [[nodiscard]] double covered(double u) const {
    const auto level = [&](Vec2 q) {
      const bool in_own = garden::bed_at(scenery_.garden, q) == own_bed_;
      return in_own ? level_at(scenery_, q) : rim_at(scenery_, q);
    };
    const Vec2 p = (foot_ + right_ * u).plan(), ahead = p + out_.plan() * kBed_m;
    double z = level(p);
    if (garden::bed_at(scenery_.garden, ahead) != garden::kNoBed) z = std::max(z, level(ahead));
    return std::max(0.0, z - foot_.z);
  }
  /// The top, above its own foot.
  [[nodiscard]] double top(double u) const {
    double high = 0;
    for (std::size_t i = 0; i < flat_.size(); ++i) {
      const Vec2 a = flat_[i], b = flat_[(i + 1) % flat_.size()];
      if ((a.x <= u) != (b.x <= u))
        high = std::max(high, a.y + (b.y - a.y) * (u - a.x) / (b.x - a.x));
    }
    return high;
  }

  void lay() {
    double low = high_;
    const int steps = std::max(2, static_cast<int>(std::ceil(wide_ / kCell)));
    for (int i = 0; i <= steps; ++i) low = std::min(low, covered(wide_ * i / steps));
    const double high = high_ - low;
    // A few hundred cells tell the mean of a large face.
    double cell = std::clamp(std::sqrt(wide_ * high / kEnoughCells), kCell, kLargestCell_m);
    cell = std::clamp(high / 2, kLeastCell_m, cell);
    cell = std::max(cell, std::sqrt(wide_ * high / kMostCells));
    const int columns = std::max(1, static_cast<int>(std::ceil(wide_ / cell - 1e-9)));
    cell = std::max(kLeastCell_m, wide_ / columns);
    const int rows = std::max(1, static_cast<int>(std::ceil(high / cell - 1e-9)));
    const double left = (wide_ - columns * cell) / 2;
    receiver = face_receiver(foot_ + right_ * left + Vec3{0, 0, low}, out_, cell, columns, rows);
  }

  void count() {
    for (int column = 0; column < receiver.columns; ++column) {
      const double u = dot(right_, cell_centre(receiver, column, 0) - foot_);
      const double low = covered(u), high = top(u);
      int clear = 0, buried = 0;
      for (int row = 0; row < receiver.rows; ++row) {
        const Vec3 p = cell_centre(receiver, column, row);
        const bool in = p.z - foot_.z > low && p.z - foot_.z < high;
        const bool gone = in && is_buried(p);
        receiver.counted[static_cast<std::size_t>(row * receiver.columns + column)] = in && !gone;
        clear += in && !gone;
        buried += gone;
      }
      counted += clear;
      if (clear > 0) area_m2 += (high - low) * wide_ / receiver.columns * clear / (clear + buried);
    }
  }
  [[nodiscard]] bool is_buried(Vec3 p) const {
    return std::any_of(walls_.begin(), walls_.end(), [&](const garden::Body& wall) {
      return wall.through == garden::Through::kOpaque &&
             holds(std::get<geometry::Solid>(wall.shape), p);
    });
  }

  const Scenery& scenery_;
  const std::vector<garden::Body>& walls_;
  std::size_t own_bed_;
  Vec3 out_, foot_, right_;  // foot_: its lower left
  double wide_, high_ = 0;
  Polygon flat_;  // the outline on its own plane, from the foot
};

double mean_level(const std::vector<Receiver>& receivers) {
  double sum = 0, cells = 0;
  for (const Receiver& receiver : receivers) {
    for (int row = 0; row < receiver.rows; ++row) {
      for (int column = 0; column < receiver.columns; ++column) {
        if (!receiver.counted[static_cast<std::size_t>(row * receiver.columns + column)]) continue;
        sum += cell_centre(receiver, column, row).z;
        cells += 1;
      }
    }
  }
  return sum / cells;
}

/// A face that has disappeared altogether: one cell in its middle stands for it.
Receiver buried_receiver(const FacePiece& piece) {
  const Vec3 middle = (piece.outline[0] + piece.outline[2]) * 0.5;
  const Vec3 out{piece.out.x, piece.out.y, 0};
  Receiver cell = face_receiver({}, out, kLeastCell_m, 1, 1);
  cell.origin = middle + out * kLift - cell_centre(cell, 0, 0);
  return cell;
}

/// What a plant grows over: about its stems, up to its height.
struct Patch {
  const garden::Plant& plant;
  double radius_m, high_m;
};

/// Leaves out what is not in a patch. Out: the share of the cells that stays.
double keep_patch(const Scenery& scenery, const FacePiece& piece, const Patch& patch,
                  Receiver& receiver) {
  const Vec2 right = geometry::unit((piece.outline[1] - piece.outline[0]).plan());
  double before = 0, kept = 0;
  for (int row = 0; row < receiver.rows; ++row) {
    for (int column = 0; column < receiver.columns; ++column) {
      auto& counts = receiver.counted[static_cast<std::size_t>(row * receiver.columns + column)];
      if (counts == 0) continue;
      const Vec3 p = cell_centre(receiver, column, row);
      const auto reaches = [&](Vec2 stem) {
        return std::abs(dot(right, p.plan() - stem)) <= patch.radius_m &&
               p.z - level_at(scenery, stem) <= patch.high_m;
      };
      before += 1;
      counts = std::any_of(patch.plant.stems.begin(), patch.plant.stems.end(), reaches);
      kept += counts;
    }
  }
  return before > 0 ? kept / before : 0;
}

/// A face, or the patch of it that a plant grows over.
Place face_place(const Scenery& scenery, const std::vector<garden::Body>& walls, const Face& face,
                 const Patch* patch = nullptr) {
  Place place;
  place.id = face.id;
  place.kind = PlaceKind::kFace;
  place.thing = face.thing;
  const FacePiece& longest =
      **std::max_element(face.pieces.begin(), face.pieces.end(),
                         [](auto* a, auto* b) { return length_of(*a) < length_of(*b); });
  Vec2 foot = ((longest.outline[0] + longest.outline[1]) * 0.5).plan() + longest.out * kLift;
  if (patch != nullptr) foot = patch->plant.stems.front();
  stand_on(scenery, foot, place);
  if (face.of_support) place.replaces.push_back(face.thing);
  place.replaces.insert(place.replaces.end(), face.trained.begin(), face.trained.end());
  double area = 0;
  Vec2 looks;
  for (const FacePiece* piece : face.pieces) {
    PieceReceiver made(scenery, walls, *piece, garden::bed_at(scenery.garden, foot));
    if (made.counted == 0) continue;
    if (patch != nullptr) made.area_m2 *= keep_patch(scenery, *piece, *patch, made.receiver);
    if (!(made.area_m2 > 0)) continue;
    area += made.area_m2;
    looks = looks + piece->out * made.area_m2;
    place.receivers.push_back(std::move(made.receiver));
  }
  place.area = square_metres(area);
  if (place.receivers.empty()) {
    place.receivers = {buried_receiver(longest)};
    looks = longest.out;
  }
  place.level_m = mean_level(place.receivers);
  place.bearing = bearing_of(scenery.garden, looks);
  return place;
}

/// Leaves out the cells that lie under the ground, unless all do.
void leave_out_buried(const Scenery& scenery, Receiver& receiver) {
  std::vector<std::uint8_t> counted = receiver.counted;
  for (int row = 0; row < receiver.rows; ++row) {
    for (int column = 0; column < receiver.columns; ++column) {
      const Vec3 p = cell_centre(receiver, column, row);
      if (p.z <= level_at(scenery, p.plan()))
        counted[static_cast<std::size_t>(row * receiver.columns + column)] = 0;
    }
  }
  if (std::find(counted.begin(), counted.end(), 1) != counted.end())
    receiver.counted = std::move(counted);
}

/// Level planes over its foot, spread evenly over its height.
Place round_place(const Scenery& scenery, const garden::RoundSupport& support,
                  std::vector<std::string> grown_on) {
  Place place;
  place.id = support.thing;
  place.kind = PlaceKind::kSupport;
  place.thing = support.thing;
  place.area = square_metres(geometry::area(support.foot));
  const double high = support.high_m - support.low_m;
  const int levels = std::max(2, static_cast<int>(std::ceil(high / kLevelsApart_m - 1e-9)));
  for (int i = 0; i < levels; ++i) {
    const double z = support.low_m + high * (i + 0.5) / levels;
    place.receivers.push_back(
        receiver_over(support.foot, geometry::unit(support.foot[1] - support.foot[0]), z, kCell));
    leave_out_buried(scenery, place.receivers.back());
  }
  place.level_m = (support.low_m + support.high_m) / 2;
  stand_on(scenery, geometry::centroid(support.foot), place);
  place.replaces.push_back(support.thing);
  for (std::string& plant : grown_on) place.replaces.push_back(std::move(plant));
  return place;
}

}  // namespace

std::vector<Place> face_places(const Scenery& scenery, const std::vector<std::string>& also) {
  const Faces faces(scenery);
  const auto walls =
      garden::wall_bodies(scenery.garden, scenery.surface, scenery.bed_levels_m, scenery.catalogue);
  std::vector<Place> places;
  const auto add_faces = [&](const std::string* of) {  // of one support, or of all else
    for (const Face& face : faces.all()) {
      if (of != nullptr ? face.thing != *of : face.of_support) continue;
      const bool named = std::find(also.begin(), also.end(), face.id) != also.end();
      if (!face.listed && !named) continue;
      Place place = face_place(scenery, walls, face);
      if (named || in_square_metres(place.area) > 0) places.push_back(std::move(place));
    }
  };
  const auto round = garden::round_supports(scenery.garden, scenery.surface, scenery.bed_levels_m,
                                            scenery.catalogue);
  for (const garden::Support& support : scenery.garden.supports) {
    add_faces(&support.id);
    for (const garden::RoundSupport& one : round) {
      if (one.thing == support.id)
        places.push_back(round_place(scenery, one, faces.grown_on(support.id)));
    }
  }
  add_faces(nullptr);
  return places;
}

std::vector<Place> trained_places(const Scenery& scenery) {
  const Faces faces(scenery);
  const auto walls =
      garden::wall_bodies(scenery.garden, scenery.surface, scenery.bed_levels_m, scenery.catalogue);
  std::vector<Place> places;
  for (const garden::Plant& plant : scenery.garden.plants) {
    const Face* face = faces.before_wall(plant.id);
    const facts::Crop* crop = scenery.catalogue.crops.find(plant.crop);
    if (face == nullptr || crop == nullptr || plant.stems.empty()) continue;
    const Patch patch{plant, std::max(0.05, in_metres(crop->spread.value.max) / 2),
                      in_metres(crop->height.value.max)};
    Place place = face_place(scenery, walls, *face, &patch);
    if (!(in_square_metres(place.area) > 0)) continue;
    place.id = plant.id;
    place.kind = PlaceKind::kPlant;
    places.push_back(std::move(place));
  }
  return places;
}

std::vector<std::string> face_ids(const Scenery& scenery) {
  std::vector<std::string> ids;
  for (const garden::RoundSupport& round : garden::round_supports(
           scenery.garden, scenery.surface, scenery.bed_levels_m, scenery.catalogue))
    ids.push_back(round.thing);
  const Faces faces(scenery);
  for (const Face& face : faces.all()) ids.push_back(face.id);
  return ids;
}

}  // namespace spadework::light
