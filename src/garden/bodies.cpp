#include "garden/bodies.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "garden/body_makers.h"

namespace spadework::garden {

using geometry::Incline;
using geometry::Solid;

std::vector<Body> bodies(const Garden& garden, const geometry::Surface& ground,
                         const std::vector<double>& bed_levels_m,
                         const facts::Catalogue& catalogue) {
  SW_CHECK_EQ(bed_levels_m.size(), garden.beds.size());
  std::vector<Body> out;
  const BodyMaker make{garden, ground, bed_levels_m, catalogue, out};
  for (const Wall& wall : garden.walls) make.wall(wall);
  for (const Building& building : garden.buildings) make.building(building);
  for (const Tree& tree : garden.trees) make.tree(tree);
  for (const Support& support : garden.supports) {
    make.support(support);
    make.climber(support);
  }
  for (const Plant& plant : garden.plants) make.plant(plant);
  for (const Seat& seat : garden.seats) make.seat(seat);
  for (const Cover& cover : garden.covers) make.cover(cover);
  for (const Container& container : garden.containers) {
    const Length width = round_width(container.volume, container.height);
    make.upright(container.id, geometry::round_polygon(container.at, in_metres(width) / 2, 12),
                 container.height);
    make.container(container);
  }
  for (const Tank& tank : garden.tanks) {
    const Length height = tank_height(tank.holds);
    const Length width = round_width(tank.holds, height);
    make.upright(tank.id, geometry::round_polygon(tank.at, in_metres(width) / 2, 12), height);
  }
  for (const Object& object : garden.objects)
    make.upright(object.id, object.outline, object.height);
  for (std::size_t i = 0; i < garden.beds.size(); ++i)
    make.bed_frame(garden.beds[i], bed_levels_m[i]);
  return out;
}

double crown_depth_per_m(double through, Length across) {
  const auto mean_through = [](double x) {
    if (x < 1e-4) return 1 - 2 * x / 3;
    return 2 * (1 - (1 + x) * std::exp(-x)) / (x * x);
  };
  double low = 0, high = 1000;  // mean_through falls from 1 towards 0
  for (int i = 0; i < 200; ++i) {
    const double middle = (low + high) / 2;
    (mean_through(middle) > through ? low : high) = middle;
  }
  return low / in_metres(across);
}

Length round_width(Volume volume, Length height) {
  return metres(std::sqrt(4 * in_cubic_metres(volume) / (std::numbers::pi * in_metres(height))));
}

Length tank_height(Volume holds) {
  constexpr double kHeightOverWidth = 1.2;  // common practice of the trade, no source
  return metres(kHeightOverWidth *
                std::cbrt(4 * in_cubic_metres(holds) / (std::numbers::pi * kHeightOverWidth)));
}

float depth_of(double through) {
  return static_cast<float>(-std::log(std::clamp(through, 1e-6, 1.0)));
}

std::vector<float> leafy_depth(double full, double bare, const facts::LeafDates& leaves,
                               bool southern) {
  if (leaves.habit == facts::LeafHabit::kEvergreen || full == bare)
    return {static_cast<float>(full)};
  std::vector<float> depth(366);
  for (int day = 1; day <= 366; ++day) {
    const double share = facts::leaf_share(leaves, day, southern);
    depth[static_cast<std::size_t>(day - 1)] = static_cast<float>(bare + (full - bare) * share);
  }
  return depth;
}

Solid panel(Vec2 a, Vec2 b, double thickness, double low_z, double high_z) {
  const Vec2 off = geometry::left_of(geometry::unit(b - a)) * (thickness / 2);
  return geometry::prism({a - off, b - off, b + off, a + off}, Incline{low_z, {}},
                         Incline{high_z, {}});
}

void BodyMaker::upright(const std::string& thing, const Polygon& footprint, Length height) const {
  const auto range = ground.range_under(footprint);
  const std::size_t bed = bed_at(garden, geometry::centroid(footprint));
  const double foot_z = bed == kNoBed ? range.high : bed_levels_m[bed];
  const Incline top{foot_z + in_metres(height), {}};
  const Incline bottom{std::min(range.low, foot_z) - 0.5, {}};
  for (const Polygon& part : geometry::convex_parts(footprint))
    out.push_back({thing, geometry::prism(part, bottom, top), Through::kOpaque, {1.0F}});
}

namespace {

struct FrameLevels {
  Incline foot, rim;
};
FrameLevels frame_levels(const Bed& bed, double soil_z, const geometry::Surface& ground) {
  const double rim_z = soil_z + in_metres(bed.freeboard);
  const double foot_z = std::min(rim_z - in_metres(bed.boards->height) * bed.boards->courses,
                                 ground.range_under(bed.outline).low) -
                        0.1;
  return {Incline{foot_z, {}}, Incline{rim_z, {}}};
}

}  // namespace

void BodyMaker::bed_frame(const Bed& bed, double soil_z) const {
  if (!bed.boards) return;
  const FrameLevels levels = frame_levels(bed, soil_z, ground);
  for (const Polygon& part : geometry::convex_parts(bed.outline))
    out.push_back(
        {bed.id, geometry::prism(part, levels.foot, levels.rim), Through::kOpaque, {1.0F}});
}

std::vector<Body> bed_boards(const Bed& bed, double soil_m, const geometry::Surface& ground) {
  std::vector<Body> boards;
  if (!bed.boards) return boards;
  const Polygon inner = geometry::inset(bed.outline, in_metres(bed.boards->thickness));
  if (inner.empty()) return boards;
  const FrameLevels levels = frame_levels(bed, soil_m, ground);
  for (std::size_t i = 0; i < bed.outline.size(); ++i) {
    const std::size_t j = (i + 1) % bed.outline.size();
    boards.push_back({bed.id,
                      geometry::prism({bed.outline[i], bed.outline[j], inner[j], inner[i]},
                                      levels.foot, levels.rim),
                      Through::kOpaque,
                      {1.0F}});
  }
  return boards;
}

std::size_t bed_at(const Garden& garden, Vec2 p) {
  for (std::size_t i = 0; i < garden.beds.size(); ++i) {
    if (geometry::contains(garden.beds[i].outline, p)) return i;
  }
  return kNoBed;
}

double standing_level(const Garden& garden, const geometry::Surface& ground,
                      const std::vector<double>& bed_levels_m, Vec2 p) {
  const std::size_t bed = bed_at(garden, p);
  return bed == kNoBed ? ground.at(p) : bed_levels_m[bed];
}

}  // namespace spadework::garden
