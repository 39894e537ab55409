#include "geometry/polygon.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace spadework::geometry {
namespace {

constexpr double kTiny = 1e-12;

double turn_at(Vec2 a, Vec2 b, Vec2 c) { return cross(b - a, c - b); }

bool between(double v, double a, double b) { return v >= std::min(a, b) && v <= std::max(a, b); }

bool touches(Vec2 p, Vec2 a, Vec2 b) {
  return std::abs(cross(b - a, p - a)) <= kTiny * (1 + length(b - a)) && between(p.x, a.x, b.x) &&
         between(p.y, a.y, b.y);
}

bool segments_meet(Vec2 a, Vec2 b, Vec2 c, Vec2 d) {
  const double d1 = cross(b - a, c - a), d2 = cross(b - a, d - a);
  const double d3 = cross(d - c, a - c), d4 = cross(d - c, b - c);
  if (((d1 > 0) != (d2 > 0)) && ((d3 > 0) != (d4 > 0)) && d1 != 0 && d2 != 0 && d3 != 0 && d4 != 0)
    return true;
  return touches(c, a, b) || touches(d, a, b) || touches(a, c, d) || touches(b, c, d);
}

bool in_triangle(Vec2 p, Vec2 a, Vec2 b, Vec2 c) {
  return cross(b - a, p - a) >= 0 && cross(c - b, p - b) >= 0 && cross(a - c, p - c) >= 0;
}

bool is_ear(const Polygon& ring, std::size_t i) {
  const std::size_t n = ring.size();
  const Vec2 a = ring[(i + n - 1) % n], b = ring[i], c = ring[(i + 1) % n];
  if (turn_at(a, b, c) <= kTiny) return false;
  for (const Vec2& p : ring) {
    if (p == a || p == b || p == c) continue;
    if (in_triangle(p, a, b, c)) return false;
  }
  return true;
}

std::vector<Polygon> ear_triangles(Polygon ring) {
  std::vector<Polygon> triangles;
  while (ring.size() > 3) {
    const std::size_t n = ring.size();
    std::size_t best = n;
    for (std::size_t i = 0; i < n && best == n; ++i) {
      if (is_ear(ring, i)) best = i;
    }
    if (best == n) {  // only flat corners are left: drop the flattest
      best = 0;
      for (std::size_t i = 1; i < n; ++i) {
        const auto flat = [&](std::size_t k) {
          return std::abs(turn_at(ring[(k + n - 1) % n], ring[k], ring[(k + 1) % n]));
        };
        if (flat(i) < flat(best)) best = i;
      }
    } else {
      triangles.push_back({ring[(best + n - 1) % n], ring[best], ring[(best + 1) % n]});
    }
    ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(best));
  }
  if (std::abs(signed_area(ring)) > kTiny) triangles.push_back(ring);
  return triangles;
}

/// Joins b to a along a shared edge if what comes of it is convex.
bool join(Polygon& a, const Polygon& b) {
  for (std::size_t i = 0; i < a.size(); ++i) {
    const Vec2 p = a[i], q = a[(i + 1) % a.size()];
    for (std::size_t j = 0; j < b.size(); ++j) {
      if (!(b[j] == q && b[(j + 1) % b.size()] == p)) continue;
      Polygon joined;
      for (std::size_t k = 0; k < a.size(); ++k) joined.push_back(a[(i + 1 + k) % a.size()]);
      for (std::size_t k = 2; k < b.size(); ++k) joined.push_back(b[(j + k) % b.size()]);
      if (!is_convex(joined)) return false;
      a = joined;
      return true;
    }
  }
  return false;
}

/// The polygon cut by the whole line through a reflex corner's edge: the two rings it falls into at
/// the first place the line meets the outline ahead. Empty if it does not.
std::vector<Polygon> split_at(const Polygon& ring, std::size_t corner, Vec2 along) {
  const std::size_t n = ring.size();
  const Vec2 from = ring[corner];
  double best = std::numeric_limits<double>::infinity();
  std::size_t hit = n;
  for (std::size_t j = 0; j < n; ++j) {
    if (j == corner || (j + 1) % n == corner) continue;
    const Vec2 c = ring[j], d = ring[(j + 1) % n];
    const double bend = cross(along, d - c);
    if (std::abs(bend) < kTiny) continue;
    const double t = cross(c - from, d - c) / bend;
    const double s = cross(c - from, along) / bend;
    if (t > 1e-9 && s >= -1e-9 && s < 1 - 1e-9 && t < best) best = t, hit = j;
  }
  if (hit == n) return {};
  const Vec2 meet = from + along * best;
  Polygon one{from}, other{meet};
  for (std::size_t k = (corner + 1) % n; k != (hit + 1) % n; k = (k + 1) % n)
    one.push_back(ring[k]);
  one.push_back(meet);
  for (std::size_t k = (hit + 1) % n; k != (corner + 1) % n; k = (k + 1) % n)
    other.push_back(ring[k]);
  return {anticlockwise(one), anticlockwise(other)};
}

bool cover(const Polygon& ring, int depth, std::vector<Polygon>& out) {
  if (ring.size() < 3) return true;
  const std::size_t n = ring.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Vec2 a = ring[(i + n - 1) % n], b = ring[i], c = ring[(i + 1) % n];
    if (turn_at(a, b, c) >= -kTiny) continue;
    if (depth == 0 || out.size() > 64) return false;
    for (const Vec2 along : {unit(b - a), unit(b - c)}) {
      const auto halves = split_at(ring, i, along);
      if (halves.empty()) return false;
      for (const Polygon& half : halves) {
        if (!cover(half, depth - 1, out)) return false;
      }
    }
    return true;
  }
  out.push_back(ring);
  return out.size() <= 64;
}

}  // namespace

double signed_area(const Polygon& polygon) {
  double twice = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i)
    twice += cross(polygon[i] - polygon[0], polygon[(i + 1) % polygon.size()] - polygon[0]);
  return twice / 2;
}

double area(const Polygon& polygon) { return std::abs(signed_area(polygon)); }

Vec2 centroid(const Polygon& polygon) {
  double twice = 0;
  Vec2 sum;
  const Vec2 o = polygon[0];
  for (std::size_t i = 1; i + 1 < polygon.size(); ++i) {
    const Vec2 a = polygon[i] - o, b = polygon[i + 1] - o;
    const double w = cross(a, b);
    twice += w;
    sum = sum + (a + b) * (w / 3);
  }
  if (std::abs(twice) < kTiny) return bounds(polygon).low;
  return o + sum * (1 / twice);
}

Box2 bounds(const std::vector<Vec2>& points) {
  Box2 box{points[0], points[0]};
  for (const Vec2& p : points) {
    box.low = {std::min(box.low.x, p.x), std::min(box.low.y, p.y)};
    box.high = {std::max(box.high.x, p.x), std::max(box.high.y, p.y)};
  }
  return box;
}

Polygon anticlockwise(const Polygon& polygon) {
  Polygon out;
  for (const Vec2& p : polygon) {
    if (out.empty() || length(p - out.back()) > 1e-9) out.push_back(p);
  }
  while (out.size() > 1 && length(out.front() - out.back()) <= 1e-9) out.pop_back();
  if (out.size() >= 3 && signed_area(out) < 0) std::reverse(out.begin(), out.end());
  return out;
}

bool contains(const Polygon& polygon, Vec2 p) {
  bool inside = false;
  for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++) {
    const Vec2 a = polygon[i], b = polygon[j];
    if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x)
      inside = !inside;
  }
  return inside;
}

bool crosses_itself(const Polygon& polygon) {
  const std::size_t n = polygon.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Vec2 a = polygon[i], b = polygon[(i + 1) % n];
    for (std::size_t j = i + 1; j < n; ++j) {
      const Vec2 c = polygon[j], d = polygon[(j + 1) % n];
      if (j == i + 1 || (i == 0 && j == n - 1)) {
        // Neighbours share a corner; they cross only by folding back on each other.
        const Vec2 shared = j == i + 1 ? b : a;
        const Vec2 p = j == i + 1 ? a : b, q = j == i + 1 ? d : c;
        if (std::abs(cross(p - shared, q - shared)) <= kTiny && dot(p - shared, q - shared) > 0)
          return true;
        continue;
      }
      if (segments_meet(a, b, c, d)) return true;
    }
  }
  return false;
}

bool is_convex(const Polygon& polygon) {
  const std::size_t n = polygon.size();
  for (std::size_t i = 0; i < n; ++i) {
    if (turn_at(polygon[i], polygon[(i + 1) % n], polygon[(i + 2) % n]) < -1e-9) return false;
  }
  return true;
}

/// Andrew's monotone chain: the points that turn left, from the left and back.
Polygon convex_hull(std::vector<Vec2> points) {
  std::sort(points.begin(), points.end(),
            [](Vec2 a, Vec2 b) { return a.x != b.x ? a.x < b.x : a.y < b.y; });
  Polygon hull;
  for (int pass = 0; pass < 2; ++pass) {
    const std::size_t start = hull.size();
    for (const Vec2 p : points) {
      while (hull.size() >= start + 2 &&
             cross(hull.back() - hull[hull.size() - 2], p - hull.back()) <= 0)
        hull.pop_back();
      hull.push_back(p);
    }
    if (!hull.empty()) hull.pop_back();
    std::reverse(points.begin(), points.end());
  }
  return hull;
}

std::vector<Polygon> convex_parts(const Polygon& polygon) {
  const Polygon ring = anticlockwise(polygon);
  if (ring.size() < 3) return {};
  if (is_convex(ring)) return {ring};
  std::vector<Polygon> parts = ear_triangles(ring);
  for (std::size_t i = 0; i < parts.size(); ++i) {
    for (std::size_t j = i + 1; j < parts.size();) {
      if (join(parts[i], parts[j])) {
        parts.erase(parts.begin() + static_cast<std::ptrdiff_t>(j));
        j = i + 1;
      } else {
        ++j;
      }
    }
  }
  return parts;
}

std::vector<Polygon> convex_cover(const Polygon& polygon) {
  const Polygon ring = anticlockwise(polygon);
  std::vector<Polygon> parts;
  if (ring.size() < 3) return {};
  if (!cover(ring, 6, parts)) return convex_parts(ring);
  return parts;
}

Polygon left_part(const Polygon& convex, Vec2 a, Vec2 b) {
  Polygon out;
  const Vec2 along = unit(b - a);
  const std::size_t n = convex.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Vec2 p = convex[i], q = convex[(i + 1) % n];
    const double dp = cross(along, p - a), dq = cross(along, q - a);
    if (dp >= 0) out.push_back(p);
    if ((dp > 0 && dq < 0) || (dp < 0 && dq > 0)) out.push_back(p + (q - p) * (dp / (dp - dq)));
  }
  out = anticlockwise(out);
  if (out.size() < 3 || area(out) < 1e-10) return {};
  return out;
}

std::vector<Polygon> outside_parts(const Polygon& convex, const Polygon& hole) {
  if (shared_part(convex, hole).empty()) return {convex};
  std::vector<Polygon> parts;
  Polygon rest = convex;
  for (std::size_t i = 0; i < hole.size() && !rest.empty(); ++i) {
    const Vec2 a = hole[i], b = hole[(i + 1) % hole.size()];
    Polygon cut = left_part(rest, b, a);
    if (!cut.empty()) parts.push_back(std::move(cut));
    rest = left_part(rest, a, b);
  }
  return parts;
}

Polygon shared_part(const Polygon& convex, const Polygon& other) {
  Polygon rest = convex;
  for (std::size_t i = 0; i < other.size() && !rest.empty(); ++i)
    rest = left_part(rest, other[i], other[(i + 1) % other.size()]);
  return rest;
}

Polygon inset(const Polygon& polygon, double by_m) {
  const Polygon ring = anticlockwise(polygon);
  const std::size_t n = ring.size();
  if (n < 3) return {};
  Polygon out;
  for (std::size_t i = 0; i < n; ++i) {
    const Vec2 before = unit(ring[i] - ring[(i + n - 1) % n]);
    const Vec2 after = unit(ring[(i + 1) % n] - ring[i]);
    const double bend = 1 + dot(before, after);
    if (bend < 1e-6) return {};
    out.push_back(ring[i] + (left_of(before) + left_of(after)) * (by_m / bend));
  }
  for (std::size_t i = 0; i < n; ++i) {  // an edge that has turned round: nothing is left
    if (dot(out[(i + 1) % n] - out[i], ring[(i + 1) % n] - ring[i]) <= 0) return {};
  }
  return out;
}

Polygon rectangle(Vec2 at, Vec2 size, double turn_rad) {
  return {at, at + turned({size.x, 0}, turn_rad), at + turned(size, turn_rad),
          at + turned({0, size.y}, turn_rad)};
}

Polygon rectangle_about(Vec2 middle, Vec2 size, double turn_rad) {
  return rectangle(middle - turned(size * 0.5, turn_rad), size, turn_rad);
}

Polygon quadrilateral(const std::array<double, 4>& sides_m, double diagonal_m) {
  const auto [a, b, c, d] = sides_m;
  const double p = diagonal_m;
  const double x = (a * a + p * p - b * b) / (2 * a);
  const Vec2 third{x, std::sqrt(std::max(0.0, p * p - x * x))};
  const double along = (d * d + p * p - c * c) / (2 * p);
  const double off = std::sqrt(std::max(0.0, d * d - along * along));
  const Vec2 u = unit(third);
  return {{0, 0}, {a, 0}, third, u * along + left_of(u) * off};
}

Polygon round_polygon(Vec2 middle, double radius, int sides) {
  const double step = 2 * std::numbers::pi / sides;
  const double r = radius * std::sqrt(step / std::sin(step));  // area n/2 r² sin(step) = π radius²
  Polygon out;
  for (int i = 0; i < sides; ++i)
    out.push_back(middle + Vec2{r * std::cos(i * step), r * std::sin(i * step)});
  return out;
}

double distance_to_segment(Vec2 p, Vec2 a, Vec2 b) {
  const double along = dot(b - a, b - a);
  const double t = along == 0 ? 0 : std::clamp(dot(p - a, b - a) / along, 0.0, 1.0);
  return length(p - (a + (b - a) * t));
}

double distance_to_outline(Vec2 p, const Polygon& polygon) {
  double best = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < polygon.size(); ++i)
    best = std::min(best, distance_to_segment(p, polygon[i], polygon[(i + 1) % polygon.size()]));
  return best;
}

Vec2 long_direction(const Polygon& polygon) {
  Vec2 best{1, 0};
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Vec2 edge = polygon[(i + 1) % polygon.size()] - polygon[i];
    if (length(edge) < 1e-9) continue;
    const Vec2 along = unit(edge);
    Polygon turned_ring;
    for (const Vec2& p : polygon) turned_ring.push_back({dot(along, p), cross(along, p)});
    const Box2 box = bounds(turned_ring);
    const double size = box.width() * box.height();
    if (size < least - 1e-9) {
      least = size;
      best = box.width() >= box.height() ? along : left_of(along);
    }
  }
  return best;
}

}  // namespace spadework::geometry
