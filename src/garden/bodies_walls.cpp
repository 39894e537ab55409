// Walls, fences, hedges and buildings.
#include <algorithm>
#include <cmath>
#include <limits>

#include "garden/body_makers.h"

namespace spadework::garden {
namespace {

using geometry::Incline;
using geometry::left_of;
using geometry::left_part;
using geometry::length;
using geometry::unit;

/// How far the edges of a wall's leg lie from its centre line at its two ends; mitred with its
/// neighbours where the line turns and where it closes. A sharp turn would mitre far out: there
/// both legs end square.
struct Leg {
  Vec2 start_off, end_off;  // to the left
};

Vec2 mitre(Vec2 before, Vec2 after, Vec2 own, double half) {
  constexpr double kSharp = 0.5;  // 1 + cos of the turn: inner angles under 60°
  const double bend = 1 + dot(before, after);
  if (bend < kSharp) return left_of(own) * half;
  return (left_of(before) + left_of(after)) * (half / bend);
}

std::vector<Leg> legs_of(const std::vector<Vec2>& line, double half) {
  std::vector<Leg> legs;
  const std::size_t n = line.size();
  const bool closed = n > 3 && length(line.front() - line.back()) < 1e-6;
  const auto along = [&](std::size_t i) { return unit(line[i + 1] - line[i]); };
  for (std::size_t i = 0; i + 1 < n; ++i) {
    const Vec2 own = along(i);
    const Vec2 before = i > 0 ? along(i - 1) : closed ? along(n - 2) : own;
    const Vec2 after = i + 2 < n ? along(i + 1) : closed ? along(0) : own;
    legs.push_back({mitre(before, own, own, half), mitre(own, after, own, half)});
  }
  return legs;
}

std::vector<Vec2> without_repeats(const std::vector<Vec2>& line) {
  std::vector<Vec2> out;
  for (const Vec2& p : line) {
    if (out.empty() || length(p - out.back()) > 1e-6) out.push_back(p);
  }
  return out;
}

struct Porosity {
  Through through = Through::kOpaque;
  std::vector<float> depth{1.0F};
};

Porosity porosity_of(const Wall& wall, const facts::BarrierKind& kind, double thickness,
                     const facts::LeafPlace& place, bool southern) {
  const double on = wall.light_through.value_or(kind.light_through.leaf_on.value);
  const double off = wall.light_through.value_or(kind.light_through.leaf_off.value);
  if (on <= 0 && off <= 0) return {};
  // The kind's share holds at its own thickness; a thicker hedge lets less through. A share that
  // the user gives holds for the wall as it stands.
  const double across = wall.light_through ? thickness : in_metres(kind.thickness.value);
  return {Through::kPerMetre, leafy_depth(static_cast<double>(depth_of(on)) / across,
                                          static_cast<double>(depth_of(off)) / across,
                                          leaf_dates_at(kind.leaves, place), southern)};
}

/// Roof over a convex part: each edge carries a slope rising inwards; the part is shared out
/// between the edges by which is nearest.
std::vector<RoofPiece> hip_pieces(const Polygon& part, double eaves_z, double steep) {
  std::vector<RoofPiece> pieces;
  const std::size_t n = part.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Vec2 inward = left_of(unit(part[(i + 1) % n] - part[i]));
    Polygon cell = part;
    for (std::size_t j = 0; j < n && !cell.empty(); ++j) {
      if (j == i) continue;
      const Vec2 other = left_of(unit(part[(j + 1) % n] - part[j]));
      const Vec2 apart = inward - other;  // keep where dot(apart, p) <= offset
      if (length(apart) < 1e-9) continue;
      const double offset = dot(inward, part[i]) - dot(other, part[j]);
      const Vec2 on_line = apart * (offset / dot(apart, apart));
      cell = left_part(cell, on_line, on_line + left_of(apart));
    }
    if (cell.empty()) continue;
    const Vec2 slope = inward * steep;
    pieces.push_back({cell, Incline{eaves_z - dot(slope, part[i]), slope}});
  }
  return pieces;
}

double inradius(const Polygon& part) {
  double best = 0;
  for (const RoofPiece& piece : hip_pieces(part, 0, 1)) {
    for (const Vec2& p : piece.footprint) best = std::max(best, piece.top.at(p));
  }
  return best;
}

std::vector<RoofPiece> hip_roof(const Building& building, double eaves_z, double rise) {
  const auto cover = geometry::convex_cover(building.outline);
  double widest = 0;
  for (const Polygon& part : cover) widest = std::max(widest, inradius(part));
  std::vector<RoofPiece> pieces;
  for (const Polygon& part : cover) {
    for (RoofPiece& piece : hip_pieces(part, eaves_z, rise / widest))
      pieces.push_back(std::move(piece));
  }
  return pieces;
}

struct Reach {
  double low = std::numeric_limits<double>::infinity();
  double high = -std::numeric_limits<double>::infinity();
};
Reach reach_along(const Polygon& outline, Vec2 direction) {
  Reach reach;
  for (const Vec2& p : outline) {
    reach.low = std::min(reach.low, dot(direction, p));
    reach.high = std::max(reach.high, dot(direction, p));
  }
  return reach;
}

std::vector<RoofPiece> gable_roof(const Building& building, double eaves_z, double rise,
                                  Angle plan_north) {
  Vec2 ridge = geometry::long_direction(building.outline);
  if (building.ridge_along) ridge = toward_bearing(*building.ridge_along, plan_north);
  const Vec2 across = left_of(ridge);
  const Reach reach = reach_along(building.outline, across);
  const double middle = (reach.low + reach.high) / 2, half = (reach.high - reach.low) / 2;
  const Vec2 on_ridge = across * middle;
  const double steep = rise / half;
  std::vector<RoofPiece> pieces;
  for (const Polygon& part : geometry::convex_parts(building.outline)) {
    const Polygon beyond = left_part(part, on_ridge, on_ridge + ridge);
    const Polygon before = left_part(part, on_ridge + ridge, on_ridge);
    const double ridge_z = eaves_z + rise;
    if (!beyond.empty())
      pieces.push_back({beyond, Incline{ridge_z + steep * middle, across * -steep}});
    if (!before.empty())
      pieces.push_back({before, Incline{ridge_z - steep * middle, across * steep}});
  }
  return pieces;
}

std::vector<RoofPiece> mono_roof(const Building& building, double eaves_z, double rise,
                                 Angle plan_north) {
  Vec2 up = left_of(geometry::long_direction(building.outline));
  if (building.high_side) up = toward_bearing(*building.high_side, plan_north);
  const Reach reach = reach_along(building.outline, up);
  const double steep = rise / (reach.high - reach.low);
  std::vector<RoofPiece> pieces;
  for (const Polygon& part : geometry::convex_parts(building.outline))
    pieces.push_back({part, Incline{eaves_z - steep * reach.low, up * steep}});
  return pieces;
}

}  // namespace

Incline rising(Vec2 a, double a_z, Vec2 b, double b_z) {
  const double run = length(b - a);
  const Vec2 slope = unit(b - a) * ((b_z - a_z) / run);
  return {a_z - dot(slope, a), slope};
}

double BodyMaker::thickness_of(const Wall& wall) const {
  const facts::BarrierKind* kind = catalogue.barriers.find(wall.kind);
  SW_CHECK(kind != nullptr);
  return in_metres(wall.thickness.value_or(kind->thickness.value));
}

std::vector<WallStretch> BodyMaker::stretches_of(const Wall& wall) const {
  const std::vector<Vec2> line = without_repeats(wall.line);
  std::vector<WallStretch> stretches;
  if (line.size() < 2) return stretches;
  const std::vector<Leg> legs = legs_of(line, thickness_of(wall) / 2);
  double highest = -std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    for (const double t : ground.breaks_along(line[i], line[i + 1]))
      highest = std::max(highest, foot_of(line[i] + (line[i + 1] - line[i]) * t, line));
  }
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const Vec2 step = line[i + 1] - line[i];
    const auto breaks = ground.breaks_along(line[i], line[i + 1]);
    for (std::size_t k = 0; k + 1 < breaks.size(); ++k) {
      const Vec2 a = line[i] + step * breaks[k], b = line[i] + step * breaks[k + 1];
      const auto off = [&](double t) {
        return legs[i].start_off + (legs[i].end_off - legs[i].start_off) * t;
      };
      const double a_z = foot_of(a, line), b_z = foot_of(b, line), h = in_metres(wall.height);
      stretches.push_back(
          {i, a, b, off(breaks[k]), off(breaks[k + 1]), Incline{std::min(a_z, b_z) - 0.3, {}},
           wall.level_top ? Incline{highest + h, {}} : rising(a, a_z + h, b, b_z + h)});
    }
  }
  return stretches;
}

void BodyMaker::wall(const Wall& wall) const {
  const facts::BarrierKind* kind = catalogue.barriers.find(wall.kind);
  SW_CHECK(kind != nullptr);
  const Porosity porosity = porosity_of(wall, *kind, thickness_of(wall), leaf_place(), southern());
  for (const WallStretch& s : stretches_of(wall)) {
    out.push_back({wall.id,
                   geometry::prism({s.a - s.a_off, s.b - s.b_off, s.b + s.b_off, s.a + s.a_off},
                                   s.bottom, s.top),
                   porosity.through, porosity.depth});
  }
}

/// What a wall stands on at a point: the soil when the whole line lies in one bed.
double BodyMaker::foot_of(Vec2 p, const std::vector<Vec2>& line) const {
  const std::size_t bed = bed_at(garden, line.front());
  const bool within = bed != kNoBed && std::all_of(line.begin(), line.end(), [&](Vec2 q) {
                        return bed_at(garden, q) == bed;
                      });
  return within ? bed_levels_m[bed] : ground.at(p);
}

std::vector<RoofPiece> roof_pieces(const Building& building, double eaves_z, Angle plan_north) {
  const double rise = in_metres(building.ridge - building.eaves);
  switch (building.roof) {
    case RoofForm::kGable:
      return gable_roof(building, eaves_z, rise, plan_north);
    case RoofForm::kHip:
      return hip_roof(building, eaves_z, rise);
    case RoofForm::kMono:
      return mono_roof(building, eaves_z, rise, plan_north);
    case RoofForm::kFlat:
      break;
  }
  std::vector<RoofPiece> pieces;
  for (const Polygon& part : geometry::convex_parts(building.outline))
    pieces.push_back({part, Incline{eaves_z, {}}});
  return pieces;
}

void BodyMaker::building(const Building& building) const {
  const auto range = ground.range_under(building.outline);
  const Incline foot{range.low - 0.5, {}};
  const double eaves_z = range.high + in_metres(building.eaves);
  for (const RoofPiece& piece : roof_pieces(building, eaves_z, garden.site.plan_north))
    out.push_back(
        {building.id, geometry::prism(piece.footprint, foot, piece.top), Through::kOpaque, {1.0F}});
}

}  // namespace spadework::garden
