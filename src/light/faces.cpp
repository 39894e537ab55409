#include "light/faces.h"

#include <algorithm>
#include <cmath>

#include "garden/bodies.h"

namespace spadework::light {
namespace {

using garden::FacePiece;
using geometry::dot;
using geometry::unit;
using geometry::Vec2;

constexpr double kTrained_m = 0.4;      // a stem so near before a wall is trained on it
constexpr double kTrainedFlat_m = 0.6;  // of a vine, or what the catalogue has as trained flat
constexpr double kAtSupport_m = 0.5;    // a stem so near an undecided support grows on it

std::string_view compass_name(Angle bearing) {
  static constexpr std::string_view names[] = {"north", "north-east", "east", "south-east",
                                               "south", "south-west", "west", "north-west"};
  return names[static_cast<std::size_t>(std::lround(in_degrees(bearing) / 45) % 8)];
}

double length_of(const FacePiece& piece) {
  return geometry::length(piece.outline[1] - piece.outline[0]);
}

/// Whether a point lies before a piece, no farther than `reach`.
bool lies_before(const FacePiece& piece, Vec2 p, double reach) {
  constexpr double kSpare_m = 0.05;
  const Vec2 a = piece.outline[0].plan(), b = piece.outline[1].plan();
  const double away = dot(p - a, piece.out), along = dot(p - a, unit(b - a));
  return away >= -kSpare_m && away <= reach && along >= -kSpare_m &&
         along <= length_of(piece) + kSpare_m;
}

bool can_be_trained(const facts::Crop& crop) {
  using facts::LifeForm;
  return crop.climber || crop.flat || crop.life_form == LifeForm::kShrub ||
         crop.life_form == LifeForm::kCane || crop.life_form == LifeForm::kVine ||
         crop.life_form == LifeForm::kTree;
}

bool any_before(const Face& face, const garden::Plant& plant, double reach) {
  for (const FacePiece* piece : face.pieces) {
    for (const Vec2 stem : plant.stems) {
      if (lies_before(*piece, stem, reach)) return true;
    }
  }
  return false;
}

const garden::Support* support_called(const garden::Garden& garden, const std::string& id) {
  for (const garden::Support& support : garden.supports) {
    if (support.id == id) return &support;
  }
  return nullptr;
}

}  // namespace

Angle bearing_of(const garden::Garden& garden, Vec2 way) {
  const double deg = in_degrees(radians(std::atan2(way.x, way.y)) + garden.site.plan_north);
  return degrees(std::fmod(deg + 720, 360.0));
}

Faces::Faces(const Scenery& scenery)
    : scenery_(scenery),
      pieces_(garden::face_pieces(scenery.garden, scenery.surface, scenery.bed_levels_m,
                                  scenery.catalogue)),
      round_(garden::round_supports(scenery.garden, scenery.surface, scenery.bed_levels_m,
                                    scenery.catalogue)) {
  gather();
  name();
  train();
  list();
}

std::vector<std::string> Faces::grown_on(const std::string& support) const {
  std::vector<std::string> plants;
  for (const auto& [on, plant] : grown_on_) {
    if (on == support) plants.push_back(plant);
  }
  return plants;
}

const Face* Faces::before_wall(const std::string& plant) const {
  for (const Face& face : faces_) {
    if (std::find(face.trained.begin(), face.trained.end(), plant) == face.trained.end()) continue;
    const auto is_back = [&](const Face& other) {
      return other.thing == face.thing && &other != &face && has_back_to_wall(other);
    };
    if (face.listed && (!face.of_support || std::any_of(faces_.begin(), faces_.end(), is_back)))
      return &face;
  }
  return nullptr;
}

void Faces::gather() {
  const auto looks = [&](const FacePiece& piece) {
    return compass_name(bearing_of(scenery_.garden, piece.out));
  };
  for (const FacePiece& piece : pieces_) {
    auto found = std::find_if(faces_.begin(), faces_.end(), [&](const Face& face) {
      const FacePiece& first = *face.pieces.front();
      return face.thing == piece.thing && first.side == piece.side && looks(first) == looks(piece);
    });
    if (found == faces_.end()) {
      const bool of_support = support_called(scenery_.garden, piece.thing) != nullptr;
      faces_.push_back({"", piece.thing, of_support, false, {}, {}});
      found = faces_.end() - 1;
    }
    found->pieces.push_back(&piece);
  }
  std::stable_partition(faces_.begin(), faces_.end(),
                        [](const Face& face) { return face.of_support; });
}

void Faces::name() {
  for (Face& face : faces_) {
    const Angle bearing = bearing_of(scenery_.garden, face.pieces.front()->out);
    face.id = face.thing + "." + std::string(compass_name(bearing));
  }
  std::vector<Face*> alike;
  for (Face& face : faces_) {
    const auto same = [&](const Face& other) { return other.id == face.id; };
    if (std::count_if(faces_.begin(), faces_.end(), same) > 1) alike.push_back(&face);
  }
  for (Face* face : alike) face->id += face->pieces.front()->inside ? "-inside" : "-outside";
}

void Faces::train() {
  for (const garden::Plant& plant : scenery_.garden.plants) {
    const facts::Crop* crop = scenery_.catalogue.crops.find(plant.crop);
    if (crop == nullptr || !plant.outline.empty() || !can_be_trained(*crop)) continue;
    const bool flat = crop->flat || crop->life_form == facts::LifeForm::kVine;
    const double reach = flat ? kTrainedFlat_m : kTrained_m;
    const garden::Support* on = support_under(plant);
    if (on != nullptr) grown_on_.emplace_back(on->id, plant.id);
    for (Face& face : faces_) {
      const bool here =
          on != nullptr ? face.thing == on->id : !face.of_support && any_before(face, plant, reach);
      if (here) face.trained.push_back(plant.id);
    }
  }
}

/// Of the plant's own crop, or one still undecided.
const garden::Support* Faces::support_under(const garden::Plant& plant) const {
  if (const auto* own = garden::support_of(scenery_.garden, scenery_.catalogue, plant)) return own;
  const auto any_stem = [&](auto distance) {
    return std::any_of(plant.stems.begin(), plant.stems.end(),
                       [&](Vec2 stem) { return distance(stem) <= kAtSupport_m; });
  };
  const auto undecided = [&](const std::string& id) {
    const garden::Support* support = support_called(scenery_.garden, id);
    const bool is = support != nullptr && scenery_.catalogue.crops.find(support->crop) == nullptr;
    return is ? support : nullptr;
  };
  for (const FacePiece& piece : pieces_) {
    const garden::Support* of = undecided(piece.thing);
    if (of != nullptr && any_stem([&](Vec2 stem) {
          return geometry::distance_to_segment(stem, piece.outline[0].plan(),
                                               piece.outline[1].plan());
        }))
      return of;
  }
  for (const garden::RoundSupport& round : round_) {
    const garden::Support* of = undecided(round.thing);
    if (of != nullptr && any_stem([&](Vec2 stem) {
          return geometry::contains(round.foot, stem)
                     ? 0.0
                     : geometry::distance_to_outline(stem, round.foot);
        }))
      return of;
  }
  return nullptr;
}

void Faces::list() {
  for (Face& face : faces_)
    face.listed = face.of_support ? !has_back_to_wall(face) : !face.trained.empty();
  // Between two walls both of its faces are all that a support has.
  for (Face& face : faces_) {
    const auto shown = [&](const Face& other) { return other.thing == face.thing && other.listed; };
    if (!face.of_support || std::any_of(faces_.begin(), faces_.end(), shown)) continue;
    for (Face& other : faces_) other.listed = other.listed || other.thing == face.thing;
  }
}

/// Whether more than half of a support's face looks at a wall no farther than a hand.
bool Faces::has_back_to_wall(const Face& face) const {
  constexpr int kPoints = 8;
  double all = 0, blind = 0;
  for (const FacePiece* piece : face.pieces) {
    const Vec2 a = piece->outline[0].plan(), b = piece->outline[1].plan();
    for (int i = 0; i < kPoints; ++i) {
      all += length_of(*piece);
      if (looks_at_wall(*piece, a + (b - a) * ((i + 0.5) / kPoints))) blind += length_of(*piece);
    }
  }
  return blind > all / 2;
}

bool Faces::looks_at_wall(const FacePiece& piece, Vec2 p) const {
  constexpr double kFacing = -0.7;  // within about 45° of square
  const double middle = (piece.outline[0].z + piece.outline[2].z) / 2;
  return std::any_of(pieces_.begin(), pieces_.end(), [&](const FacePiece& wall) {
    return dot(wall.out, piece.out) < kFacing && wall.outline[2].z > middle &&
           lies_before(wall, p, kTrained_m) &&
           support_called(scenery_.garden, wall.thing) == nullptr;
  });
}

}  // namespace spadework::light
