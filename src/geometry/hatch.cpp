#include "geometry/hatch.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace spadework::geometry {

namespace {

constexpr double kPi = std::numbers::pi;

constexpr long kMostLines = 20000;

// In the hatch's own frame lines are level, one apart; of_line[k] belongs to line first + k.
struct Crossings {
  long first = 0;
  std::vector<std::vector<double>> of_line;
};

Crossings find_crossings(const std::vector<FlatLine>& rings) {
  double low = 1e300, high = -1e300;
  for (const FlatLine& ring : rings)
    for (const Vec2 p : ring.points) low = std::min(low, p.y), high = std::max(high, p.y);
  Crossings found;
  if (!(low <= high) || low < -1e9 || high > 1e9) return found;
  found.first = static_cast<long>(std::ceil(low));
  const long last = static_cast<long>(std::floor(high));
  if (last < found.first || last - found.first > kMostLines) return found;
  found.of_line.resize(static_cast<std::size_t>(last - found.first + 1));
  for (const FlatLine& ring : rings) {
    for (std::size_t i = 0, n = ring.points.size(); i < n; ++i) {
      Vec2 a = ring.points[i], b = ring.points[(i + 1) % n];
      if (a.y > b.y) std::swap(a, b);
      // Half-open, so that a corner on a line counts once.
      for (long k = static_cast<long>(std::ceil(a.y)); static_cast<double>(k) < b.y; ++k) {
        const double t = (static_cast<double>(k) - a.y) / (b.y - a.y);
        found.of_line[static_cast<std::size_t>(k - found.first)].push_back(a.x + (b.x - a.x) * t);
      }
    }
  }
  return found;
}

void add_lines(std::vector<Segment>& out, std::vector<FlatLine> rings, const LineHatch& hatch,
               double angle_rad) {
  const double spacing = hatch.spacing_mm > 0.05 ? hatch.spacing_mm : 0.05;
  const Vec2 along = paper_direction(angle_rad), across = left_of(along);
  for (FlatLine& ring : rings)
    for (Vec2& p : ring.points)
      p = Vec2{dot(p - hatch.anchor, along), dot(p - hatch.anchor, across)} * (1 / spacing);
  if (!is_finite(rings)) return;
  Crossings crossings = find_crossings(rings);
  for (std::size_t k = 0; k < crossings.of_line.size(); ++k) {
    std::vector<double>& xs = crossings.of_line[k];
    std::sort(xs.begin(), xs.end());
    const Vec2 base =
        hatch.anchor +
        across * (spacing * static_cast<double>(crossings.first + static_cast<long>(k)));
    for (std::size_t i = 0; i + 1 < xs.size(); i += 2) {
      const double start = xs[i];
      while (i + 3 < xs.size() && xs[i + 2] - xs[i + 1] < 1e-6) i += 2;  // cells side by side
      if (xs[i + 1] - start < 1e-6) continue;
      out.emplace_back(base + along * (start * spacing), base + along * (xs[i + 1] * spacing));
    }
  }
}

}  // namespace

LineHatch diagonal_hatch(Paint ink, double spacing_mm) {
  return {kPi / 4, spacing_mm, kFineMm, ink, {}, false};
}
LineHatch level_hatch(Paint ink, double spacing_mm) {
  return {0, spacing_mm, kFineMm, ink, {}, false};
}
LineHatch cross_hatch(Paint ink, double spacing_mm) {
  return {kPi / 4, spacing_mm, kFineMm, ink, {}, true};
}
LineHatch half_hatch(Paint ink) { return {kPi / 4, 1.0, 0.5, ink, {}, false}; }

Paint taker_ink(int taker) {
  if (taker < 0) return Role::kSkyline;
  if (taker < static_cast<int>(kTakerInks.size()))
    return kTakerInks[static_cast<std::size_t>(taker)];
  return Role::kGraphite;
}

Fill taker_fill(int taker) {
  const Paint ink = taker_ink(taker);
  switch (taker) {
    case -1:
      return LineHatch{0, 0.7, kFineMm, ink, {}, false};
    case 0:
      return LineHatch{kPi / 4, 0.8, 0.25, ink, {}, false};
    case 1:
      return LineHatch{kPi / 4, 1.0, 0.22, ink, {}, true};
    case 2:
      return LineHatch{-kPi / 4, 0.8, 0.25, ink, {}, false};
    case 3:
      return LineHatch{kPi / 2, 0.8, 0.25, ink, {}, false};
    case 4:
      return LineHatch{0, 1.0, 0.22, ink, {}, true};
    default:
      break;
  }
  Stipple dotted;
  dotted.per_mm2 = 1.6;
  dotted.dot_mm = 0.28;
  dotted.ink = ink;
  dotted.keep_off_mm = 0.15;
  return dotted;
}

std::vector<Segment> hatch_lines(const Path& path, const LineHatch& hatch) {
  std::vector<Segment> out;
  const std::vector<FlatLine> rings = flattened(path);
  add_lines(out, rings, hatch, hatch.angle_rad);
  if (hatch.crossed) add_lines(out, rings, hatch, hatch.angle_rad + kPi / 2);
  return out;
}

}  // namespace spadework::geometry
