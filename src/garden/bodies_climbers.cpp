// Climbers: the leaves on a support, as deep as they stand out from its frame.
#include <algorithm>

#include "garden/body_makers.h"

namespace spadework::garden {
namespace {

using facts::Crop;
using facts::Growth;
using geometry::Incline;

/// A climber on its support: how far it goes, and how its leaves come and go.
struct Climb {
  std::string thing;
  Growth growth;
  double reach;  // of the grown plant, along what it climbs
  bool southern;
  std::vector<Body>& out;

  [[nodiscard]] std::vector<LeafLayer> layers(double within) const {
    return leaf_layers(growth, reach, within, southern);
  }
  /// Depth of full growth of leaves over a square metre of face.
  [[nodiscard]] double face_depth() const {
    return growth.extinction.value * growth.leaf_area.value;
  }
  void add(geometry::Solid solid, const LeafLayer& layer, double depth) const {
    out.push_back({thing, std::move(solid), Through::kPerMetre, times(layer.share, depth)});
  }
};

/// Leaves on both sides of an upright face from a to b.
void cover_face(const Climb& climb, Vec2 a, double a_z, Vec2 b, double b_z, double high) {
  const double top = std::min(climb.reach, high);
  const Vec2 along = geometry::unit(b - a);
  const Polygon foot = footprint((a + b) * 0.5, along, geometry::length(b - a), kLeavesDeep_m);
  const Incline ground = rising(a, a_z, b, b_z);
  const auto at = [&](double share) { return Incline{ground.level + top * share, ground.slope}; };
  for (const LeafLayer& layer : climb.layers(top)) {
    climb.add(geometry::prism(foot, at(layer.low), at(layer.high)), layer,
              climb.face_depth() / kLeavesDeep_m);
  }
}

/// Two sides, and the top as far as the climber goes over it from both.
void cover_arch(const Climb& climb, const SupportFrame& frame, double z) {
  cover_face(climb, frame.foot[0], z, frame.foot[3], z, frame.high);
  cover_face(climb, frame.foot[1], z, frame.foot[2], z, frame.high);
  if (climb.reach <= frame.high) return;
  const double half = frame.wide / 2;
  LeafLayer top{0, 1, {}};
  for (int day = 1; day <= 366; ++day) {
    const facts::Grown now = grown(climb.growth, day, climb.southern);
    const double over = std::clamp((now.height * climb.reach - frame.high) / half, 0.0, 1.0);
    top.share.push_back(static_cast<float>(over * now.depth));
  }
  climb.add(geometry::prism(frame.foot, Incline{z + frame.high, {}},
                            Incline{z + frame.high + kLeavesDeep_m, {}}),
            top, climb.face_depth() / kLeavesDeep_m);
}

/// A tapering body around an obelisk or wigwam that holds the leaves of all its sides.
void cover_cone(const Climb& climb, const SupportFrame& frame, double z, double tapers_to) {
  const double top = std::min(climb.reach, frame.high);
  // Width at a height, as a share of that at the foot: of the bare frame, and with its leaves.
  const double base_wide = frame.wide + kLeavesDeep_m, base_deep = frame.deep + kLeavesDeep_m;
  const double tip = (frame.wide * tapers_to + kLeavesDeep_m) / base_wide;
  const auto bare = [&](double h) { return 1 - (1 - tapers_to) * h / frame.high; };
  const auto leafy = [&](double h) { return 1 - (1 - tip) * h / frame.high; };
  const double face_m2 = (frame.wide + frame.deep) * (bare(0) + bare(top)) * top;
  const double end = leafy(top);
  const double volume_m3 = base_wide * base_deep * top * (1 + end + end * end) / 3;
  const double apex_z = z + frame.high / (1 - tip);
  for (const LeafLayer& layer : climb.layers(top)) {
    const double low = leafy(layer.low * top), high = leafy(layer.high * top);
    climb.add(geometry::frustum(
                  footprint(frame.middle, frame.along, base_wide * low, base_deep * low),
                  z + layer.low * top, {frame.middle.x, frame.middle.y, apex_z}, 1 - high / low),
              layer, climb.face_depth() * face_m2 / volume_m3);
  }
}

/// A cage is filled from the ground up.
void fill_cage(const Climb& climb, const SupportFrame& frame, double z) {
  const double top = std::min(climb.reach, frame.high);
  for (const LeafLayer& layer : climb.layers(top)) {
    climb.add(geometry::prism(frame.foot, Incline{z + layer.low * top, {}},
                              Incline{z + layer.high * top, {}}),
              layer, climb.face_depth() / climb.reach);
  }
}

}  // namespace

void BodyMaker::climber(const Support& support) const {
  const Crop* crop = support.crop.empty() ? nullptr : catalogue.crops.find(support.crop);
  if (crop == nullptr) return;  // undecided
  const facts::SupportKind* kind = catalogue.supports.find(support.kind);
  SW_CHECK(kind != nullptr);
  const SupportFrame frame = frame_of(support, *kind);
  // As far as it is let; its bare foot is clothed by the ties.
  const Length own = plant_size(garden, catalogue, *crop).height;
  const Climb climb{support.id, growth_at(crop->growth, leaf_place()),
                    in_metres(std::max(own, crop->height.value.max)), southern(), out};
  const double z = standing(frame.middle);
  if (frame.wide < 1e-6 || frame.high < 1e-6) return;
  if (kind->id == "arch") {
    cover_arch(climb, frame, z);
  } else if (kind->id == "obelisk") {
    cover_cone(climb, frame, z, 0.1);
  } else if (kind->id == "wigwam") {
    cover_cone(climb, frame, z, 0);
  } else if (kind->id == "cage") {
    fill_cage(climb, frame, z);
  } else {
    for (std::size_t i = 0; i + 1 < frame.line.size(); ++i) {
      const Vec2 a = frame.line[i], b = frame.line[i + 1];
      if (geometry::length(b - a) > 1e-6)
        cover_face(climb, a, standing(a), b, standing(b), frame.high);
    }
  }
}

}  // namespace spadework::garden
