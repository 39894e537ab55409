#include "garden/faces.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "garden/body_makers.h"

namespace spadework::garden {
namespace {

using geometry::cross;
using geometry::left_of;
using geometry::length;
using geometry::unit;

constexpr double kLeast_m = 1e-6;  // shorter pieces are none

Vec3 above(Vec2 p, double z) { return {p.x, p.y, z}; }

/// An upright rectangle to the right of the way from a to b.
FacePiece upright(const std::string& thing, FaceSide side, Vec2 a, Vec2 b, double low,
                  double high) {
  const Vec2 out = left_of(unit(b - a)) * -1.0;
  return {thing, side, {above(a, low), above(b, low), above(b, high), above(a, high)}, out};
}

/// Whether a line bends more to the left than to the right.
bool bends_left(const std::vector<Vec2>& line) {
  double turn = 0;
  for (std::size_t i = 1; i + 1 < line.size(); ++i) {
    const Vec2 before = line[i] - line[i - 1], after = line[i + 1] - line[i];
    turn += std::atan2(cross(before, after), dot(before, after));
  }
  return turn > 0;
}

bool lies_inside(FaceSide side, const std::vector<Vec2>& line) {
  return (side == FaceSide::kLeft) == bends_left(line);
}

/// One leg of a wall, from its stretches: both its faces.
void add_leg(const Wall& wall, const WallStretch* first, const WallStretch* last,
             std::vector<FacePiece>& out) {
  if (length(last->b - first->a) < kLeast_m) return;
  const Vec2 left = left_of(unit(last->b - first->a));
  for (const FaceSide side : {FaceSide::kRight, FaceSide::kLeft}) {
    const double way = side == FaceSide::kLeft ? 1 : -1;
    std::vector<Vec3> top;  // along the line
    double low = first->bottom.level;
    for (const WallStretch* s = first; s <= last; ++s) {
      const Vec2 a = s->a + s->a_off * way, b = s->b + s->b_off * way;
      top.push_back(above(a, s->top.at(a)));
      top.push_back(above(b, s->top.at(b)));
      low = std::min(low, s->bottom.level);
    }
    // Between two sharp turns nothing may be left of the inner face.
    if (dot(top.back().plan() - top.front().plan(), last->b - first->a) <= 0) continue;
    if (side == FaceSide::kRight) std::reverse(top.begin(), top.end());
    FacePiece piece{wall.id, side, {}, left * way, lies_inside(side, wall.line)};
    piece.outline = {above(top.back().plan(), low), above(top.front().plan(), low)};
    piece.outline.insert(piece.outline.end(), top.begin(), top.end());
    out.push_back(std::move(piece));
  }
}

void add_wall(const BodyMaker& make, const Wall& wall, std::vector<FacePiece>& out) {
  const auto stretches = make.stretches_of(wall);
  for (std::size_t first = 0, end = 0; first < stretches.size(); first = end) {
    while (end < stretches.size() && stretches[end].leg == stretches[first].leg) ++end;
    add_leg(wall, &stretches[first], &stretches[end - 1], out);
  }
}

void add_building(const BodyMaker& make, const Building& building, std::vector<FacePiece>& out) {
  const auto range = make.ground.range_under(building.outline);
  const std::size_t n = building.outline.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Vec2 a = building.outline[i], b = building.outline[(i + 1) % n];
    if (length(b - a) < kLeast_m) continue;
    out.push_back(upright(building.id, FaceSide::kRight, a, b, range.low - 0.5,
                          range.high + in_metres(building.eaves)));
  }
}

/// The sheet of a trellis or of wires: both its sides, leg by leg.
void add_sheet(const BodyMaker& make, const Support& support, const SupportFrame& frame,
               std::vector<FacePiece>& out) {
  for (std::size_t i = 0; i + 1 < frame.line.size(); ++i) {
    const Vec2 a = frame.line[i], b = frame.line[i + 1];
    if (length(b - a) < kLeast_m) continue;
    const double low = std::min(make.standing(a), make.standing(b)) - 0.1;
    const double high = std::max(make.standing(a), make.standing(b)) + frame.high;
    const Vec2 off = left_of(unit(b - a)) * (kSheet_m / 2);
    out.push_back(upright(support.id, FaceSide::kRight, a - off, b - off, low, high));
    out.push_back(upright(support.id, FaceSide::kLeft, b + off, a + off, low, high));
    for (FacePiece* piece : {&out[out.size() - 2], &out.back()})
      piece->inside = lies_inside(piece->side, frame.line);
  }
}

bool is_sheet(const facts::SupportKind& kind) { return kind.id == "trellis" || kind.id == "wires"; }

SupportFrame frame_in(const facts::Catalogue& catalogue, const Support& support) {
  const facts::SupportKind* kind = catalogue.supports.find(support.kind);
  SW_CHECK(kind != nullptr);
  return frame_of(support, *kind);
}

}  // namespace

std::vector<FacePiece> face_pieces(const Garden& garden, const geometry::Surface& ground,
                                   const std::vector<double>& bed_levels_m,
                                   const facts::Catalogue& catalogue) {
  std::vector<Body> none;
  const BodyMaker make{garden, ground, bed_levels_m, catalogue, none};
  std::vector<FacePiece> out;
  for (const Wall& wall : garden.walls) add_wall(make, wall, out);
  for (const Building& building : garden.buildings) add_building(make, building, out);
  for (const Support& support : garden.supports) {
    const SupportFrame frame = frame_in(catalogue, support);
    if (is_sheet(*catalogue.supports.find(support.kind)) && frame.high >= kLeast_m)
      add_sheet(make, support, frame, out);
  }
  return out;
}

std::vector<RoundSupport> round_supports(const Garden& garden, const geometry::Surface& ground,
                                         const std::vector<double>& bed_levels_m,
                                         const facts::Catalogue& catalogue) {
  std::vector<RoundSupport> out;
  for (const Support& support : garden.supports) {
    const SupportFrame frame = frame_in(catalogue, support);
    if (is_sheet(*catalogue.supports.find(support.kind))) continue;
    if (std::min({frame.wide, frame.deep, frame.high}) < kLeast_m) continue;
    const double z = standing_level(garden, ground, bed_levels_m, frame.middle);
    out.push_back({support.id, frame.foot, z, z + frame.high});
  }
  return out;
}

std::vector<Body> wall_bodies(const Garden& garden, const geometry::Surface& ground,
                              const std::vector<double>& bed_levels_m,
                              const facts::Catalogue& catalogue) {
  std::vector<Body> out;
  const BodyMaker make{garden, ground, bed_levels_m, catalogue, out};
  for (const Wall& wall : garden.walls) make.wall(wall);
  for (const Building& building : garden.buildings) make.building(building);
  return out;
}

}  // namespace spadework::garden
