// Plants: bodies of leaves, alone, in rows, over the ground or in containers.
#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>

#include "garden/body_makers.h"

namespace spadework::garden {
namespace {

using facts::Crop;
using facts::Growth;
using facts::GrowthWay;
using facts::LifeForm;
using geometry::Incline;
using geometry::left_of;
using geometry::length;
using geometry::RoundShape;
using geometry::RoundSolid;
using geometry::unit;

constexpr double kLowest_m = 0.3;        // plants below have no body
constexpr double kAtSupport_m = 0.5;     // a stem so near a support grows on it
constexpr double kAtWall_m = 0.8;        // a stem so near a wall is trained on it
constexpr std::size_t kMostAlone = 12;   // of a row whose plants do not touch
constexpr double kBendInLevel_m = 0.15;  // a row that strays so far from a straight slope is cut

/// A plant in its place: what grows, how large, and how its leaves come and go.
struct Planting {
  std::string thing;
  const Crop* crop;
  double height, spread;
  Growth growth;
  bool southern = false;
  bool flat = false;  // trained flat
};

/// Optical depth of full growth per metre, when the leaves over a square metre of ground (or of a
/// face) share `thick` metres of height (or depth).
double depth_per_m(const Growth& growth, double thick) {
  return growth.extinction.value * growth.leaf_area.value / thick;
}

/// The height that bears leaves.
double leafy_height(const Planting& p) { return p.height * (1 - p.growth.foot_share.value); }

double level_of(const Planting& p, double foot_z, double share) {
  return foot_z + p.height - leafy_height(p) * (1 - share);
}

bool is_bush(const Crop& crop) {
  return crop.life_form != LifeForm::kAnnual && crop.life_form != LifeForm::kBiennial &&
         crop.life_form != LifeForm::kPerennial;
}

/// One plant by itself: a bush's crown is an ellipsoid, other plants stand as columns.
void add_alone(const Planting& p, Vec2 at, double foot_z, std::vector<Body>& out) {
  // An ellipsoid holds two thirds of the column around it.
  const bool bush = is_bush(*p.crop);
  const double depth = depth_per_m(p.growth, leafy_height(p) * (bush ? 2.0 / 3 : 1));
  for (const LeafLayer& layer : leaf_layers(p.growth, p.height, p.height, p.southern)) {
    out.push_back(
        {p.thing,
         RoundSolid{bush ? RoundShape::kEllipsoid : RoundShape::kColumn, at,
                    level_of(p, foot_z, layer.low), level_of(p, foot_z, layer.high), p.spread / 2},
         Through::kPerMetre, times(layer.share, depth)});
  }
}

/// A body of leaves over a convex footprint. `thinned`: the share of full density.
void add_block(const Planting& p, const Polygon& footprint, Incline foot, double thick,
               double thinned, std::vector<Body>& out) {
  const double depth = depth_per_m(p.growth, thick) * thinned;
  const auto at = [&](double share) {
    return Incline{foot.level + level_of(p, 0, share), foot.slope};
  };
  for (const LeafLayer& layer : leaf_layers(p.growth, p.height, p.height, p.southern)) {
    out.push_back({p.thing, geometry::prism(footprint, at(layer.low), at(layer.high)),
                   Through::kPerMetre, times(layer.share, depth)});
  }
}

/// A stretch of a row: `plants` of them from a to b, which may be one point.
void add_stretch(const Planting& p, Vec2 a, double a_z, Vec2 b, double b_z, Vec2 along,
                 std::size_t plants, std::vector<Body>& out) {
  const double run = length(b - a) + p.spread;
  const Vec2 middle = (a + b) * 0.5;
  const double deep = p.flat ? kLeavesDeep_m : p.spread;
  const Polygon foot = footprint(middle, along, run, deep);
  const Incline ground = length(b - a) > 1e-6 ? rising(a, a_z, b, b_z) : Incline{a_z, {}};
  // The leaves of all plants, as discs or as faces, shared out over the stretch.
  const double each = p.flat ? p.spread : std::numbers::pi / 4 * p.spread;
  const double thinned = std::min(1.0, static_cast<double>(plants) * each / run);
  add_block(p, foot, ground, p.flat ? kLeavesDeep_m : leafy_height(p), thinned, out);
}

struct Stem {
  Vec2 at;
  double z;
};

/// Cuts a run of stems where it bends, in the plan (by over `stray`) or in height; told to `use` as
/// first and last.
template <class Use>
void cut_where_bent(const std::vector<Stem>& stems, std::size_t first, std::size_t last,
                    double stray, Use use) {
  const Stem &a = stems[first], &b = stems[last];
  const double run = length(b.at - a.at);
  double worst = 1;
  std::size_t where = first;
  for (std::size_t i = first + 1; i < last; ++i) {
    const double t = run > 1e-9 ? dot(stems[i].at - a.at, b.at - a.at) / (run * run) : 0;
    const double bend = geometry::distance_to_segment(stems[i].at, a.at, b.at) / stray;
    const double rise = std::abs(stems[i].z - (a.z + (b.z - a.z) * t)) / kBendInLevel_m;
    if (std::max(bend, rise) > worst) worst = std::max(bend, rise), where = i;
  }
  if (where == first) return use(first, last);
  cut_where_bent(stems, first, where, stray, use);
  cut_where_bent(stems, where, last, stray, use);
}

/// Along which wall or building a point lies close by; nothing if none.
std::optional<Vec2> wall_beside(const Garden& garden, Vec2 p) {
  double nearest = kAtWall_m;
  std::optional<Vec2> along;
  const auto look = [&](Vec2 a, Vec2 b) {
    const double away = geometry::distance_to_segment(p, a, b);
    if (away > nearest || length(b - a) < 1e-6) return;
    nearest = away;
    along = unit(b - a);
  };
  for (const Wall& wall : garden.walls) {
    for (std::size_t i = 0; i + 1 < wall.line.size(); ++i) look(wall.line[i], wall.line[i + 1]);
  }
  for (const Building& building : garden.buildings) {
    const Polygon& outline = building.outline;
    for (std::size_t i = 0; i < outline.size(); ++i)
      look(outline[i], outline[(i + 1) % outline.size()]);
  }
  return along;
}

std::optional<int> planted_day(const Entry& entry) {
  const Value* planted = entry.find("planted");
  if (planted == nullptr || planted->date() == nullptr) return std::nullopt;
  return day_of_year(*planted->date());
}

Planting planting_of(const BodyMaker& make, const std::string& thing, const Crop& crop,
                     PlantSize size) {
  return {thing,
          &crop,
          in_metres(size.height),
          in_metres(size.spread),
          growth_at(crop.growth, make.leaf_place()),
          make.southern(),
          false};
}

/// A row: stretches of plants that touch, and plants by themselves.
void add_row(const Planting& p, const std::vector<Stem>& stems, std::vector<Body>& out) {
  const auto touches = [&](std::size_t i) {
    return length(stems[i + 1].at - stems[i].at) <= p.spread * 1.001;
  };
  std::size_t alone = 0;
  for (std::size_t i = 0; i + 1 < stems.size(); ++i) alone += !touches(i);
  const bool all_one = alone >= kMostAlone;
  std::size_t first = 0;
  while (first < stems.size()) {
    std::size_t last = first;
    while (last + 1 < stems.size() && (all_one || touches(last))) ++last;
    if (first == last && !p.flat) {
      add_alone(p, stems[first].at, stems[first].z, out);
    } else if (first == last) {
      const Vec2 along = stems.size() > 1 ? unit(stems.back().at - stems.front().at) : Vec2{1, 0};
      add_stretch(p, stems[first].at, stems[first].z, stems[first].at, stems[first].z, along, 1,
                  out);
    } else {
      cut_where_bent(stems, first, last, p.spread / 2, [&](std::size_t from, std::size_t to) {
        const Vec2 a = stems[from].at, b = stems[to].at;
        const Vec2 along = length(b - a) > 1e-6 ? unit(b - a) : Vec2{1, 0};
        add_stretch(p, a, stems[from].z, b, stems[to].z, along, to - from + 1, out);
      });
    }
    first = last + 1;
  }
}

}  // namespace

PlantSize plant_size(const Garden& garden, const facts::Catalogue& catalogue, const Crop& crop) {
  PlantSize size{(crop.height.value.min + crop.height.value.max) / 2,
                 (crop.spread.value.min + crop.spread.value.max) / 2};
  for (const Entry& entry : garden.entries) {
    if (entry.table != "crop" || catalogue.crops.find(entry.id) != &crop) continue;
    const auto own = [&](const char* key, Length& into) {
      const Value* value = entry.find(key);
      if (value != nullptr && value->number() != nullptr) into = metres(*value->number());
    };
    own("height_m", size.height);
    own("spread_m", size.spread);
  }
  return size;
}

bool casts_shade(const PlantSize& size) { return in_metres(size.height) >= kLowest_m - 1e-9; }

const Support* support_of(const Garden& garden, const facts::Catalogue& catalogue,
                          const Plant& plant) {
  const Crop* crop = catalogue.crops.find(plant.crop);
  if (crop == nullptr || !plant.outline.empty()) return nullptr;
  for (const Support& support : garden.supports) {
    if (catalogue.crops.find(support.crop) != crop) continue;
    const facts::SupportKind* kind = catalogue.supports.find(support.kind);
    if (kind == nullptr) continue;
    const SupportFrame frame = frame_of(support, *kind);
    for (const Vec2 stem : plant.stems) {
      if (geometry::contains(frame.foot, stem) ||
          geometry::distance_to_outline(stem, frame.foot) <= kAtSupport_m)
        return &support;
      for (std::size_t i = 0; i + 1 < frame.line.size(); ++i) {
        if (geometry::distance_to_segment(stem, frame.line[i], frame.line[i + 1]) <= kAtSupport_m)
          return &support;
      }
    }
  }
  return nullptr;
}

std::vector<LeafLayer> leaf_layers(const Growth& growth, double reach, double within,
                                   bool southern) {
  const bool grows = growth.way == GrowthWay::kSown || growth.way == GrowthWay::kDiesDown;
  const int count = !grows || within < 0.6 ? 1 : within < 1.2 ? 2 : 3;
  const int days = growth.way == GrowthWay::kEvergreen ? 1 : 366;
  std::vector<LeafLayer> layers;
  for (int k = 0; k < count; ++k) {
    LeafLayer layer{static_cast<double>(k) / count, static_cast<double>(k + 1) / count, {}};
    for (int day = 1; day <= days; ++day) {
      const facts::Grown now = grown(growth, day, southern);
      const double filled = std::clamp(now.height * reach / within * count - k, 0.0, 1.0);
      layer.share.push_back(static_cast<float>(filled * now.depth));
    }
    layers.push_back(std::move(layer));
  }
  return layers;
}

std::vector<float> times(std::vector<float> share, double depth) {
  for (float& value : share) value *= static_cast<float>(depth);
  return share;
}

void BodyMaker::plant(const Plant& plant) const {
  const Crop* crop = catalogue.crops.find(plant.crop);
  SW_CHECK(crop != nullptr);
  const PlantSize size = plant_size(garden, catalogue, *crop);
  if (!casts_shade(size) || support_of(garden, catalogue, plant) != nullptr) return;
  Planting planting = planting_of(*this, plant.id, *crop, size);
  if (const auto day = planted_day(garden.entry_of(plant)))
    planting.growth = planted_on(std::move(planting.growth), *day, southern());
  if (!plant.outline.empty()) {
    for (const Polygon& part : geometry::convex_parts(plant.outline)) {
      const Vec2 middle = geometry::centroid(part);
      const std::size_t bed = bed_at(garden, middle);
      const Incline foot =
          bed == kNoBed ? ground.facet_at(middle).incline : Incline{bed_levels_m[bed], {}};
      add_block(planting, part, foot, leafy_height(planting), 1, out);
    }
    return;
  }
  std::vector<Stem> stems;
  for (const Vec2 at : plant.stems) stems.push_back({at, standing(at)});
  const auto wall = crop->flat || crop->life_form == LifeForm::kVine
                        ? wall_beside(garden, plant.stems.front())
                        : std::nullopt;
  planting.flat = wall.has_value();
  if (wall && stems.size() == 1)
    return add_stretch(planting, stems[0].at, stems[0].z, stems[0].at, stems[0].z, *wall, 1, out);
  add_row(planting, stems, out);
}

void BodyMaker::container(const Container& container) const {
  const Crop* crop = container.crop.empty() ? nullptr : catalogue.crops.find(container.crop);
  if (crop == nullptr) return;
  PlantSize size = plant_size(garden, catalogue, *crop);
  // A pot keeps a plant small: no larger than the least that the catalogue has.
  size.height = std::min(size.height, crop->height.value.min);
  size.spread = std::min(size.spread, crop->spread.value.min);
  if (!casts_shade(size)) return;
  const double radius = in_metres(round_width(container.volume, container.height)) / 2;
  const std::size_t bed = bed_at(garden, container.at);
  const double foot_z =
      bed == kNoBed ? ground.range_under(geometry::round_polygon(container.at, radius, 12)).high
                    : bed_levels_m[bed];
  add_alone(planting_of(*this, container.id, *crop, size), container.at,
            foot_z + in_metres(container.height), out);
}

}  // namespace spadework::garden
