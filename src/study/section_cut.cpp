#include "study/section_cut.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace spadework::study {
namespace {

using geometry::RoundShape;
using geometry::RoundSolid;
using geometry::Solid;
using geometry::Vec2;
using geometry::Vec3;

/// The part of a convex ring where dot(normal, p) <= offset.
Ring kept(const Ring& ring, Vec2 normal, double offset) {
  Ring out;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec2 p = ring[i], q = ring[(i + 1) % ring.size()];
    const double a = dot(normal, p) - offset, b = dot(normal, q) - offset;
    if (a <= 0) out.push_back(p);
    if ((a < 0 && b > 0) || (a > 0 && b < 0)) out.push_back(p + (q - p) * (a / (a - b)));
  }
  return out;
}

/// Nothing for what is no wider or higher than a tenth of a millimetre.
Ring of_some_size(Ring ring) {
  constexpr double kLeast = 1e-4;
  if (ring.size() < 3) return {};
  const geometry::Box2 box = geometry::bounds(ring);
  if (box.width() < kLeast || box.height() < kLeast) return {};
  return ring;
}

Ring cut_of(const Solid& solid, const SectionPlane& plane) {
  if (solid.corners.empty()) return {};
  double low = solid.corners[0].z, high = low;
  for (const Vec3& c : solid.corners) low = std::min(low, c.z), high = std::max(high, c.z);
  Ring ring{{0, low - 1}, {plane.length_m, low - 1}, {plane.length_m, high + 1}, {0, high + 1}};
  for (const geometry::HalfSpace& face : solid.faces) {
    const Vec2 flat = face.normal.plan();
    ring = kept(ring, {dot(flat, plane.along), face.normal.z}, face.offset - dot(flat, plane.from));
  }
  return of_some_size(std::move(ring));
}

/// How far the shape reaches from its axis at a level.
double radius_at(const RoundSolid& solid, double z) {
  const double share = (z - solid.bottom_z) / (solid.top_z - solid.bottom_z);
  const auto bow = [](double x) { return std::sqrt(std::max(0.0, 1 - x * x)); };
  switch (solid.shape) {
    case RoundShape::kEllipsoid:
      return solid.radius * bow(2 * share - 1);
    case RoundShape::kColumn:
      return solid.radius;
    case RoundShape::kCone:
      return solid.radius * std::max(0.0, 1 - share);
    case RoundShape::kDome:
      return solid.radius * bow(share);
  }
  return 0;
}

/// The levels between which the plane at `off` from the axis is within the shape.
std::optional<std::pair<double, double>> levels_at(const RoundSolid& solid, double off) {
  const double d = std::abs(off) / solid.radius, high = solid.top_z - solid.bottom_z;
  if (!(solid.radius > 0) || !(high > 0) || d >= 1) return std::nullopt;
  double low_z = solid.bottom_z, top_z = solid.top_z;
  const double bow = std::sqrt(1 - d * d);
  if (solid.shape == RoundShape::kEllipsoid) {
    low_z = solid.bottom_z + high * (1 - bow) / 2;
    top_z = solid.bottom_z + high * (1 + bow) / 2;
  } else if (solid.shape == RoundShape::kCone) {
    top_z = solid.bottom_z + high * (1 - d);
  } else if (solid.shape == RoundShape::kDome) {
    top_z = solid.bottom_z + high * bow;
  }
  low_z = std::max(low_z, solid.low_z());
  top_z = std::min(top_z, solid.high_z());
  if (low_z >= top_z) return std::nullopt;
  return std::pair{low_z, top_z};
}

/// Without regard to the line's ends.
Ring round_ring(const RoundSolid& solid, double middle, double off) {
  const auto levels = levels_at(solid, off);
  if (!levels) return {};
  constexpr int kSteps = 64;  // even: one of them half way up, where an ellipse is widest
  Ring right, left;
  for (int i = 0; i <= kSteps; ++i) {
    // Closer together at both ends, where the outline turns.
    const double share = (1 - std::cos(std::numbers::pi * i / kSteps)) / 2;
    const double z = levels->first + (levels->second - levels->first) * share;
    const double r = radius_at(solid, z);
    const double half = std::sqrt(std::max(0.0, r * r - off * off));
    right.push_back({middle + half, z});
    left.push_back({middle - half, z});
  }
  right.insert(right.end(), left.rbegin(), left.rend());
  return right;
}

Ring cut_of(const RoundSolid& solid, const SectionPlane& plane) {
  Ring ring = round_ring(solid, plane.along_of(solid.axis), plane.off(solid.axis));
  ring = kept(ring, {-1, 0}, 0);
  ring = kept(ring, {1, 0}, plane.length_m);
  return of_some_size(std::move(ring));
}

/// The lowest and highest level of a convex ring at a place along the line.
std::pair<double, double> span_at(const Ring& ring, double s) {
  double low = 1e300, high = -1e300;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec2 p = ring[i], q = ring[(i + 1) % ring.size()];
    if (std::min(p.x, q.x) > s || std::max(p.x, q.x) < s) continue;
    const bool upright = std::abs(q.x - p.x) < 1e-12;
    for (const double z : {upright ? p.y : p.y + (q.y - p.y) * (s - p.x) / (q.x - p.x),
                           upright ? q.y : p.y + (q.y - p.y) * (s - p.x) / (q.x - p.x)})
      low = std::min(low, z), high = std::max(high, z);
  }
  return {low, high};
}

/// Where the tops of two rings cross between two places at which both are straight.
void add_crossing(const Ring& a, const Ring& b, double s0, double s1, std::vector<double>& out) {
  const double e = (s1 - s0) * 1e-6;
  const double d0 = span_at(a, s0 + e).second - span_at(b, s0 + e).second;
  const double d1 = span_at(a, s1 - e).second - span_at(b, s1 - e).second;
  if ((d0 < -1e-9 && d1 > 1e-9) || (d0 > 1e-9 && d1 < -1e-9))
    out.push_back(s0 + (s1 - s0) * (d0 / (d0 - d1)));
}

bool covers(const Ring& ring, double s0, double s1) {
  const geometry::Box2 box = geometry::bounds(ring);
  const double middle = (s0 + s1) / 2;
  return box.low.x < middle && middle < box.high.x;
}

std::vector<double> breaks_of(const std::vector<Ring>& rings) {
  std::vector<double> at;
  for (const Ring& ring : rings)
    for (const Vec2 p : ring) at.push_back(p.x);
  std::sort(at.begin(), at.end());
  const auto near = [](double a, double b) { return b - a < 1e-7; };
  at.erase(std::unique(at.begin(), at.end(), near), at.end());
  std::vector<double> crossings;
  for (std::size_t k = 0; k + 1 < at.size(); ++k) {
    for (std::size_t i = 0; i < rings.size(); ++i) {
      for (std::size_t j = i + 1; j < rings.size(); ++j) {
        if (covers(rings[i], at[k], at[k + 1]) && covers(rings[j], at[k], at[k + 1]))
          add_crossing(rings[i], rings[j], at[k], at[k + 1], crossings);
      }
    }
  }
  at.insert(at.end(), crossings.begin(), crossings.end());
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end(), near), at.end());
  return at;
}

void push_apart(Ring& line, Vec2 p) {
  if (line.empty() || geometry::length(line.back() - p) > 1e-6) line.push_back(p);
}

}  // namespace

Ring cut_of(const garden::Body& body, const SectionPlane& plane) {
  return std::visit([&](const auto& shape) { return cut_of(shape, plane); }, body.shape);
}

Ring seen_beside(const garden::Body& body, const SectionPlane& plane, double within_m) {
  const Vec2 end = plane.at(plane.length_m);
  if (const auto* round = std::get_if<RoundSolid>(&body.shape)) {
    const double away = geometry::distance_to_segment(round->axis, plane.from, end);
    if (away - round->radius > within_m) return {};
    Ring ring = kept(round_ring(*round, plane.along_of(round->axis), 0), {-1, 0}, 0);
    return of_some_size(kept(ring, {1, 0}, plane.length_m));
  }
  const auto& solid = std::get<Solid>(body.shape);
  if (solid.corners.size() < 4) return {};
  std::vector<Vec2> seen, foot;
  for (const Vec3& c : solid.corners) {
    seen.push_back({plane.along_of(c.plan()), c.z});
    foot.push_back(c.plan());
  }
  foot = geometry::convex_hull(foot);
  double nearest = std::min(geometry::distance_to_outline(plane.from, foot),
                            geometry::distance_to_outline(end, foot));
  for (const Vec2 c : foot)
    nearest = std::min(nearest, geometry::distance_to_segment(c, plane.from, end));
  if (nearest > within_m) return {};
  Ring ring = kept(geometry::convex_hull(seen), {-1, 0}, 0);
  return of_some_size(kept(ring, {1, 0}, plane.length_m));
}

Ring not_below(const Ring& ring, double level_m) {
  return of_some_size(kept(ring, {0, -1}, -level_m));
}

std::vector<Ring> joined(const std::vector<Ring>& rings) {
  const std::vector<double> at = breaks_of(rings);
  std::vector<Ring> out;
  Ring tops, feet;
  const auto finish = [&] {
    if (tops.empty()) return;
    Ring ring = feet;
    for (auto p = tops.rbegin(); p != tops.rend(); ++p) push_apart(ring, *p);
    out.push_back(std::move(ring));
    tops.clear(), feet.clear();
  };
  for (std::size_t k = 0; k + 1 < at.size(); ++k) {
    const double e = (at[k + 1] - at[k]) * 1e-6;
    double low[2] = {1e300, 1e300}, high[2] = {-1e300, -1e300};
    bool any = false;
    for (const Ring& ring : rings) {
      if (!covers(ring, at[k], at[k + 1])) continue;
      any = true;
      for (int end = 0; end < 2; ++end) {
        const auto span = span_at(ring, end == 0 ? at[k] + e : at[k + 1] - e);
        low[end] = std::min(low[end], span.first), high[end] = std::max(high[end], span.second);
      }
    }
    if (!any) {
      finish();
      continue;
    }
    for (int end = 0; end < 2; ++end) {
      push_apart(tops, {at[k + static_cast<std::size_t>(end)], high[end]});
      push_apart(feet, {at[k + static_cast<std::size_t>(end)], low[end]});
    }
  }
  finish();
  return out;
}

std::vector<SectionStretch> stretches_within(const geometry::Polygon& polygon,
                                             const SectionPlane& plane) {
  std::vector<double> at{0, plane.length_m};
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Vec2 p = polygon[i], q = polygon[(i + 1) % polygon.size()];
    const double a = plane.off(p), b = plane.off(q);
    if ((a < 0) == (b < 0)) continue;
    at.push_back(std::clamp(plane.along_of(p + (q - p) * (a / (a - b))), 0.0, plane.length_m));
  }
  std::sort(at.begin(), at.end());
  std::vector<SectionStretch> out;
  for (std::size_t k = 0; k + 1 < at.size(); ++k) {
    if (at[k + 1] - at[k] < 1e-6) continue;
    if (!geometry::contains(polygon, plane.at((at[k] + at[k + 1]) / 2))) continue;
    if (!out.empty() && at[k] - out.back().to_m < 1e-6)
      out.back().to_m = at[k + 1];
    else
      out.push_back({at[k], at[k + 1]});
  }
  return out;
}

}  // namespace spadework::study
