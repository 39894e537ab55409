#include "garden/overlaps.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace spadework::garden {
namespace {

using geometry::Box2;
using geometry::Polygon;
using geometry::Vec2;

bool boxes_meet(const Box2& a, const Box2& b) {
  return a.low.x < b.high.x && b.low.x < a.high.x && a.low.y < b.high.y && b.low.y < a.high.y;
}

/// How wide a convex polygon is where it is narrowest: one of its edges lies along it.
double least_width(const Polygon& convex) {
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < convex.size(); ++i) {
    const Vec2 a = convex[i], step = convex[(i + 1) % convex.size()] - a;
    if (length(step) < 1e-9) continue;
    const Vec2 across = left_of(unit(step));
    double farthest = 0;
    for (const Vec2 p : convex) farthest = std::max(farthest, std::abs(dot(across, p - a)));
    least = std::min(least, farthest);
  }
  return std::isinf(least) ? 0 : least;
}

std::vector<Polygon> legs_of(const std::vector<Vec2>& line, double width_m) {
  std::vector<Polygon> legs;
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const Vec2 a = line[i], b = line[i + 1];
    if (length(b - a) < 1e-9) continue;
    const Vec2 off = left_of(unit(b - a)) * (width_m / 2);
    legs.push_back({a - off, b - off, b + off, a + off});
  }
  return legs;
}

/// The same ground in parts of which none lies over another.
std::vector<Polygon> apart(const std::vector<Polygon>& convex) {
  std::vector<Polygon> out;
  for (std::size_t i = 0; i < convex.size(); ++i) {
    std::vector<Polygon> left{convex[i]};
    for (std::size_t before = 0; before < i; ++before) {
      std::vector<Polygon> rest;
      for (const Polygon& part : left) {
        for (Polygon& piece : geometry::outside_parts(part, convex[before]))
          rest.push_back(std::move(piece));
      }
      left = std::move(rest);
    }
    for (Polygon& part : left) out.push_back(std::move(part));
  }
  return out;
}

double area_of(const std::vector<Polygon>& parts) {
  double sum = 0;
  for (const Polygon& part : parts) sum += geometry::area(part);
  return sum;
}

Box2 box_of(const std::vector<Polygon>& outlines) {
  std::vector<Vec2> corners;
  for (const Polygon& outline : outlines)
    corners.insert(corners.end(), outline.begin(), outline.end());
  return corners.empty() ? Box2{} : geometry::bounds(corners);
}

}  // namespace

Footing::Footing(std::string id, const Polygon& outline)
    : id_(std::move(id)), outlines_{outline}, parts_(geometry::convex_parts(outline)) {
  area_ = area_of(parts_);
  box_ = box_of(outlines_);
}

Footing::Footing(std::string id, const std::vector<Vec2>& line, double width_m)
    : id_(std::move(id)), outlines_(legs_of(line, width_m)), parts_(apart(outlines_)) {
  area_ = area_of(parts_);
  box_ = box_of(outlines_);
}

double Footing::shared(const Footing& other) const {
  if (!boxes_meet(box_, other.box_)) return 0;
  double sum = 0;
  for (const Polygon& part : parts_) {
    for (const Polygon& piece : other.parts_) {
      const Polygon both = geometry::shared_part(part, piece);
      if (!both.empty()) sum += geometry::area(both);
    }
  }
  return sum;
}

double Footing::overlap(const Footing& other) const {
  if (!boxes_meet(box_, other.box_)) return 0;
  double sum = 0, widest = 0;
  for (const Polygon& part : parts_) {
    for (const Polygon& piece : other.parts_) {
      const Polygon both = geometry::shared_part(part, piece);
      if (both.empty()) continue;
      sum += geometry::area(both);
      widest = std::max(widest, least_width(both));
    }
  }
  return sum >= kTouching_m2 && widest > kTouching_m ? sum : 0;
}

bool Footing::holds(Vec2 p) const {
  return std::any_of(outlines_.begin(), outlines_.end(), [&](const Polygon& outline) {
    return geometry::contains(outline, p) &&
           geometry::distance_to_outline(p, outline) > kTouching_m;
  });
}

double Footing::held_length(const std::vector<Vec2>& line) const {
  constexpr double kStep_m = 0.02;
  double sum = 0;
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const Vec2 a = line[i], step = line[i + 1] - a;
    const double far = length(step);
    if (far < 1e-9) continue;
    // The stretch within the box about it, by the nearer and the farther side of each axis.
    double from = 0, to = 1;
    const auto clip = [&](double at, double by, double low, double high) {
      if (std::abs(by) < 1e-12) {
        if (at < low || at > high) to = -1;
        return;
      }
      const auto [first, last] = std::minmax({(low - at) / by, (high - at) / by});
      from = std::max(from, first);
      to = std::min(to, last);
    };
    clip(a.x, step.x, box_.low.x, box_.high.x);
    clip(a.y, step.y, box_.low.y, box_.high.y);
    if (to <= from) continue;
    const int steps = std::max(1, static_cast<int>(std::ceil((to - from) * far / kStep_m)));
    const double each = (to - from) / steps;
    for (int k = 0; k < steps; ++k)
      if (holds(a + step * (from + each * (k + 0.5)))) sum += each * far;
  }
  return sum;
}

}  // namespace spadework::garden
