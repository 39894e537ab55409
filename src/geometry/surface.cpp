#include "geometry/surface.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>

#include "base/check.h"

namespace spadework::geometry {
namespace {

// Exact tests on whole millimetres: with coordinates below 2^26 every product fits 128 bits.
__extension__ using Wide = __int128;

struct GridPoint {
  std::int64_t x, y;
};
GridPoint on_grid(Vec2 p) { return {std::llround(p.x * 1000), std::llround(p.y * 1000)}; }

Wide turn(GridPoint a, GridPoint b, GridPoint c) {
  return static_cast<Wide>(b.x - a.x) * (c.y - a.y) - static_cast<Wide>(b.y - a.y) * (c.x - a.x);
}

/// Positive when d lies inside the circle through a, b, c (anticlockwise).
Wide in_circle(GridPoint a, GridPoint b, GridPoint c, GridPoint d) {
  const Wide ax = a.x - d.x, ay = a.y - d.y, bx = b.x - d.x, by = b.y - d.y;
  const Wide cx = c.x - d.x, cy = c.y - d.y;
  const Wide a2 = ax * ax + ay * ay, b2 = bx * bx + by * by, c2 = cx * cx + cy * cy;
  return ax * (by * c2 - cy * b2) - ay * (bx * c2 - cx * b2) + a2 * (bx * cy - cx * by);
}

using Triangle = std::array<int, 3>;

void insert_point(const std::vector<GridPoint>& points, int p, std::vector<Triangle>& triangles) {
  std::vector<std::array<int, 2>> rim;
  std::vector<Triangle> kept;
  const GridPoint at = points[static_cast<std::size_t>(p)];
  const auto point = [&](int i) { return points[static_cast<std::size_t>(i)]; };
  for (const Triangle& t : triangles) {
    const bool holds = turn(point(t[0]), point(t[1]), at) >= 0 &&
                       turn(point(t[1]), point(t[2]), at) >= 0 &&
                       turn(point(t[2]), point(t[0]), at) >= 0;
    if (!holds && in_circle(point(t[0]), point(t[1]), point(t[2]), at) <= 0) {
      kept.push_back(t);
      continue;
    }
    for (int k = 0; k < 3; ++k) {
      const std::array<int, 2> edge{t[static_cast<std::size_t>(k)],
                                    t[static_cast<std::size_t>((k + 1) % 3)]};
      const auto twin = std::find(rim.begin(), rim.end(), std::array<int, 2>{edge[1], edge[0]});
      if (twin == rim.end())
        rim.push_back(edge);
      else
        rim.erase(twin);
    }
  }
  for (const auto& edge : rim) {
    if (turn(point(edge[0]), point(edge[1]), at) > 0) kept.push_back({edge[0], edge[1], p});
  }
  triangles = std::move(kept);
}

/// The plane nearest to the points by least squares of the heights; level if they are too few.
Incline fitted(const std::vector<Vec3>& points) {
  Vec3 mean;
  for (const Vec3& p : points) mean = mean + p * (1.0 / static_cast<double>(points.size()));
  double xx = 0, xy = 0, yy = 0, xz = 0, yz = 0;
  for (const Vec3& p : points) {
    const Vec3 d = p - mean;
    xx += d.x * d.x, xy += d.x * d.y, yy += d.y * d.y, xz += d.x * d.z, yz += d.y * d.z;
  }
  const double det = xx * yy - xy * xy;
  Vec2 slope;
  if (det > 1e-9 * (xx + yy) * (xx + yy) && det > 0) {
    slope = {(xz * yy - yz * xy) / det, (yz * xx - xz * xy) / det};
  } else if (xx + yy > 0) {  // all in one line: the slope along it, level across
    slope = {xz / (xx + yy), yz / (xx + yy)};
  }
  return {mean.z - dot(slope, mean.plan()), slope};
}

bool inside(const Facet& f, Vec2 p) {
  for (std::size_t k = 0; k < 3; ++k) {
    if (cross(f.corners[(k + 1) % 3] - f.corners[k], p - f.corners[k]) < -1e-9) return false;
  }
  return true;
}

/// Whether a box and a facet share nothing, not even a line.
bool lies_off(const Facet& f, const Box2& box) {
  const auto [a, b, c] = f.corners;
  return std::max({a.x, b.x, c.x}) < box.low.x || std::min({a.x, b.x, c.x}) > box.high.x ||
         std::max({a.y, b.y, c.y}) < box.low.y || std::min({a.y, b.y, c.y}) > box.high.y;
}

Polygon ring_of(const Facet& f) { return {f.corners[0], f.corners[1], f.corners[2]}; }

}  // namespace

Surface::Surface() : Surface(Incline{}, Box2{{-1, -1}, {1, 1}}) {}

Surface::Surface(Incline incline, Box2 domain) : domain_(domain) {
  const Vec2 a = domain.low, c = domain.high, b{c.x, a.y}, d{a.x, c.y};
  facets_ = {Facet{{a, b, c}, incline, 0}, Facet{{a, c, d}, incline, 0}};
}

Surface::Surface(const std::vector<Vec3>& spots, Box2 domain) : domain_(domain) {
  SW_CHECK(!spots.empty());
  SW_CHECK_LE(spots.size(), 4000u);
  std::vector<Vec2> plan;
  for (const Vec3& p : spots) plan.push_back(p.plan());
  const Box2 box = bounds(plan);
  domain_.low = {std::min(domain.low.x, box.low.x - 1), std::min(domain.low.y, box.low.y - 1)};
  domain_.high = {std::max(domain.high.x, box.high.x + 1), std::max(domain.high.y, box.high.y + 1)};
  const Incline plane = fitted(spots);

  std::vector<GridPoint> grid;
  std::vector<double> level;
  const Vec2 low = domain_.low, high = domain_.high;
  for (const Vec2 corner : {low, Vec2{high.x, low.y}, high, Vec2{low.x, high.y}}) {
    grid.push_back(on_grid(corner));
    level.push_back(plane.at(corner));
  }
  std::vector<Triangle> triangles{{0, 1, 2}, {0, 2, 3}};
  for (const Vec3& p : spots) {
    const GridPoint g = on_grid(p.plan());
    const bool known = std::any_of(grid.begin(), grid.end(),
                                   [&](GridPoint q) { return q.x == g.x && q.y == g.y; });
    if (known) continue;
    grid.push_back(g);
    level.push_back(p.z);
    insert_point(grid, static_cast<int>(grid.size()) - 1, triangles);
  }
  for (const Triangle& t : triangles) {
    std::array<Vec3, 3> c;
    for (std::size_t k = 0; k < 3; ++k) {
      const auto i = static_cast<std::size_t>(t[k]);
      c[k] = {static_cast<double>(grid[i].x) / 1000, static_cast<double>(grid[i].y) / 1000,
              level[i]};
    }
    facets_.push_back(
        {{c[0].plan(), c[1].plan(), c[2].plan()}, Incline::through(c[0], c[1], c[2])});
  }
  number_planes();
}

void Surface::number_planes() {
  constexpr double kSame = 0.001;  // metres, at the corners
  std::vector<Incline> found;
  for (Facet& f : facets_) {
    std::size_t k = 0;
    for (; k < found.size(); ++k) {
      const bool same = std::all_of(f.corners.begin(), f.corners.end(), [&](Vec2 p) {
        return std::abs(found[k].at(p) - f.incline.at(p)) <= kSame;
      });
      if (same) break;
    }
    if (k == found.size()) found.push_back(f.incline);
    f.plane = static_cast<int>(k);
    f.incline = found[k];
  }
  planes_ = static_cast<int>(found.size());
}

const Facet& Surface::facet_at(Vec2 p) const {
  p.x = std::clamp(p.x, domain_.low.x, domain_.high.x);
  p.y = std::clamp(p.y, domain_.low.y, domain_.high.y);
  for (const Facet& f : facets_)
    if (inside(f, p)) return f;
  const Facet* nearest = &facets_.front();
  double least = std::numeric_limits<double>::infinity();
  for (const Facet& f : facets_) {
    const double away = distance_to_outline(p, ring_of(f));
    if (away < least) least = away, nearest = &f;
  }
  return *nearest;
}

double Surface::at(Vec2 p) const {
  const Vec2 held{std::clamp(p.x, domain_.low.x, domain_.high.x),
                  std::clamp(p.y, domain_.low.y, domain_.high.y)};
  return facet_at(held).incline.at(held);
}

Surface::Range Surface::range_under(const Polygon& polygon) const {
  Range range{std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
  const auto take = [&](double z) {
    range.low = std::min(range.low, z);
    range.high = std::max(range.high, z);
  };
  for (const Vec2& p : polygon) take(at(p));
  for (const Polygon& part : convex_parts(polygon)) {
    const Box2 box = bounds(part);
    for (const Facet& f : facets_) {
      if (lies_off(f, box)) continue;
      for (const Vec2& p : shared_part(part, ring_of(f))) take(f.incline.at(p));
    }
  }
  return range;
}

double Surface::mean_under(const Polygon& polygon) const {
  double sum = 0, whole = 0;
  for (const Polygon& part : convex_parts(polygon)) {
    const Box2 box = bounds(part);
    for (const Facet& f : facets_) {
      if (lies_off(f, box)) continue;
      const Polygon shared = shared_part(part, ring_of(f));
      if (shared.empty()) continue;
      const double a = area(shared);
      sum += a * f.incline.at(centroid(shared));
      whole += a;
    }
  }
  return whole > 0 ? sum / whole : at(centroid(polygon));
}

std::vector<double> Surface::breaks_along(Vec2 a, Vec2 b) const {
  std::vector<double> shares{0.0, 1.0};
  const Vec2 along = b - a;
  for (const Facet& f : facets_) {
    for (std::size_t k = 0; k < 3; ++k) {
      const Vec2 c = f.corners[k], d = f.corners[(k + 1) % 3];
      const double bend = cross(along, d - c);
      if (std::abs(bend) < 1e-12) continue;
      const double t = cross(c - a, d - c) / bend, s = cross(c - a, along) / bend;
      if (t > 1e-6 && t < 1 - 1e-6 && s >= 0 && s <= 1) shares.push_back(t);
    }
  }
  std::sort(shares.begin(), shares.end());
  shares.erase(
      std::unique(shares.begin(), shares.end(), [](double p, double q) { return q - p < 1e-6; }),
      shares.end());
  return shares;
}

}  // namespace spadework::geometry
