// Supports, seats and covers: frames and skins that let part of the beam through.
#include <algorithm>

#include "garden/body_makers.h"

namespace spadework::garden {
namespace {

using geometry::Incline;
using geometry::left_of;
using geometry::unit;

}  // namespace

Polygon footprint(Vec2 middle, Vec2 along, double wide, double deep) {
  const Vec2 half = along * (wide / 2), back = left_of(along) * (deep / 2);
  return {middle - half - back, middle + half - back, middle + half + back, middle - half + back};
}

SupportFrame frame_of(const Support& support, const facts::SupportKind& kind) {
  SupportFrame frame;
  const bool on_line = support.line.size() >= 2;
  const bool tapers = kind.id == "obelisk" || kind.id == "wigwam";
  frame.along = support.along;
  frame.middle = (support.line.front() + support.line.back()) * 0.5;
  frame.high = in_metres(support.height);
  frame.wide = in_metres(support.width.value_or(kind.width.value));
  frame.deep = in_metres(support.depth.value_or(kind.depth.value));
  if (tapers && !support.depth) frame.deep = frame.wide;
  if (on_line && !tapers) frame.wide = geometry::length(support.line.back() - support.line.front());
  const Vec2 half = frame.along * (frame.wide / 2);
  frame.line = on_line ? support.line : std::vector<Vec2>{frame.middle - half, frame.middle + half};
  frame.foot = footprint(frame.middle, frame.along, frame.wide, frame.deep);
  return frame;
}

void BodyMaker::support(const Support& support) const {
  const facts::SupportKind* kind = catalogue.supports.find(support.kind);
  SW_CHECK(kind != nullptr);
  const SupportFrame frame = frame_of(support, *kind);
  const float side = depth_of(kind->light_through.value);
  const auto add = [&](geometry::Solid solid, float depth) {
    out.push_back({support.id, std::move(solid), Through::kPerCrossing, {depth}});
  };
  const double z = standing(frame.middle), high = frame.high;
  if (kind->id == "trellis" || kind->id == "wires") {
    for (std::size_t i = 0; i + 1 < frame.line.size(); ++i) {
      const Vec2 a = frame.line[i], b = frame.line[i + 1];
      if (a == b) continue;
      const double low = std::min(standing(a), standing(b));
      const double top = std::max(standing(a), standing(b)) + high;
      add(panel(a, b, kSheet_m, low - 0.1, top), side);
    }
    return;
  }
  if (kind->id == "obelisk" || kind->id == "wigwam") {
    const double taper = kind->id == "obelisk" ? 0.9 : 1.0;  // an obelisk ends in a small square
    const double foot_z = z - 0.1;
    add(geometry::frustum(frame.foot, foot_z,
                          {frame.middle.x, frame.middle.y, foot_z + (z + high - foot_z) / taper},
                          taper),
        2 * side);  // in by one side and out by another
    return;
  }
  const Polygon& foot = frame.foot;
  add(panel(foot[0], foot[3], kSheet_m, z - 0.1, z + high), side);
  add(panel(foot[1], foot[2], kSheet_m, z - 0.1, z + high), side);
  if (kind->id == "cage") {
    add(panel(foot[0], foot[1], kSheet_m, z - 0.1, z + high), side);
    add(panel(foot[3], foot[2], kSheet_m, z - 0.1, z + high), side);
  }
  add(geometry::prism(foot, Incline{z + high - kSheet_m, {}}, Incline{z + high, {}}), side);
}

void BodyMaker::seat(const Seat& seat) const {
  const double z = standing(seat.at);
  const Vec2 along = left_of(seat.facing) * -1.0;  // the sitter's left to right
  const Polygon foot = footprint(seat.at, along, seat.size.x, seat.size.y);
  if (seat.roof) {
    const double reach = 2 * in_metres(seat.roof->overhang), top = z + in_metres(seat.roof->height);
    out.push_back(
        {seat.id,
         geometry::prism(footprint(seat.at, along, seat.size.x + reach, seat.size.y + reach),
                         Incline{top, {}}, Incline{top + 0.05, {}}),
         Through::kOpaque,
         {1.0F}});
  }
  if (seat.sides == Sides::kOpen) return;
  const facts::SideKind* kind =
      catalogue.sides.find(seat.sides == Sides::kTrellis ? "trellis" : "solid");
  SW_CHECK(kind != nullptr);
  const double through = kind->light_through.value;
  const double top = z + (seat.roof ? in_metres(seat.roof->height) : 1.8);
  // Left, right and back; the front is open. foot[0..1] is behind, foot[2..3] before the sitter.
  const auto add = [&](Vec2 a, Vec2 b) {
    out.push_back({seat.id,
                   panel(a, b, kSheet_m, z - 0.1, top),
                   through <= 0 ? Through::kOpaque : Through::kPerCrossing,
                   {through <= 0 ? 1.0F : depth_of(through)}});
  };
  add(foot[0], foot[1]);
  add(foot[0], foot[3]);
  add(foot[1], foot[2]);
}

void BodyMaker::cover(const Cover& cover) const {
  const facts::CoverKind* kind = catalogue.covers.find(cover.kind.empty() ? "net" : cover.kind);
  SW_CHECK(kind != nullptr);
  const float skin = depth_of(kind->light_through.value);
  std::vector<float> depth{skin};
  if (cover.days) {
    const auto [from, until] = *cover.days;
    depth.assign(366, 0.0F);
    for (int day = 1; day <= 366; ++day) {
      const bool on = from <= until ? day >= from && day <= until : day >= from || day <= until;
      if (on) depth[static_cast<std::size_t>(day - 1)] = skin;
    }
  }
  const double high = in_metres(cover.height.value_or(kind->height.value));
  for (const Polygon& outline : cover.outlines) {
    const auto range = ground.range_under(outline);
    // Over a bed it stands above the soil, elsewhere above the highest ground under it.
    const std::size_t bed = bed_at(garden, geometry::centroid(outline));
    const double top = (bed == kNoBed ? range.high : bed_levels_m[bed]) + high;
    const auto add = [&](geometry::Solid solid) {
      out.push_back({cover.id, std::move(solid), Through::kPerCrossing, depth});
    };
    for (const Polygon& part : geometry::convex_parts(outline))
      add(geometry::prism(part, Incline{top - 0.02, {}}, Incline{top, {}}));
    for (std::size_t i = 0; i < outline.size(); ++i)
      add(panel(outline[i], outline[(i + 1) % outline.size()], 0.02, range.low - 0.1, top - 0.02));
  }
}

}  // namespace spadework::garden
