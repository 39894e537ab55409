// Stipples: one endless field of dots, spread evenly and ordered so that any first part of them is
// spread evenly too. A density takes the dots up to a rank, so dots come and go one by one and
// never shift.
#include <algorithm>
#include <array>
#include <cmath>

#include "base/random.h"
#include "geometry/hatch.h"

namespace spadework::geometry {

namespace {

constexpr int kTileDots = 1024;
using Tile = std::array<Vec2, kTileDots>;  // in the unit square, which repeats

double wrapped_distance_squared(Vec2 a, Vec2 b) {
  double dx = std::abs(a.x - b.x), dy = std::abs(a.y - b.y);
  dx = std::min(dx, 1 - dx), dy = std::min(dy, 1 - dy);
  return dx * dx + dy * dy;
}

// Each dot is the farthest from all before it among a few thrown at random. Source: [mitchell1991]
Tile make_tile() {
  constexpr int kThrows = 40;
  Random random(0x5eed0d07);
  Tile tile;
  for (int n = 0; n < kTileDots; ++n) {
    double best = -1;
    for (int t = 0; t < kThrows; ++t) {
      const Vec2 thrown{random.unit(), random.unit()};
      double nearest = 2;
      for (int i = 0; i < n && nearest > best; ++i)
        nearest =
            std::min(nearest, wrapped_distance_squared(thrown, tile[static_cast<std::size_t>(i)]));
      if (nearest > best) best = nearest, tile[static_cast<std::size_t>(n)] = thrown;
    }
  }
  return tile;
}

const Tile& dot_tile() {
  static const Tile tile = make_tile();
  return tile;
}

bool clear_of_edges(const std::vector<FlatLine>& rings, Vec2 p, double keep_off_mm) {
  if (keep_off_mm <= 0) return true;
  for (const FlatLine& ring : rings)
    for (std::size_t i = 0, n = ring.points.size(); i < n; ++i)
      if (distance_to_segment(p, ring.points[i], ring.points[(i + 1) % n]) < keep_off_mm)
        return false;
  return true;
}

Box2 box_of(const std::vector<FlatLine>& rings) {
  std::vector<Vec2> all;
  for (const FlatLine& ring : rings) all.insert(all.end(), ring.points.begin(), ring.points.end());
  return all.empty() ? Box2{} : bounds(all);
}

}  // namespace

std::uint64_t seed_of(std::string_view name) {
  std::uint64_t hash = 0xcbf29ce484222325ULL;
  for (const char c : name) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3ULL;
  return hash;
}

std::vector<Vec2> stipple_dots(const Path& path, const Stipple& stipple,
                               const std::function<double(Vec2)>& share) {
  const std::vector<FlatLine> rings = flattened(path, 0.05);
  std::vector<Vec2> out;
  if (rings.empty() || !is_finite(rings) || !(stipple.per_mm2 > 0)) return out;
  const double side_mm = std::sqrt(kTileDots / std::min(stipple.per_mm2, 40.0));
  Random random(stipple.seed);
  const Vec2 origin = stipple.anchor + Vec2{random.unit() * side_mm, random.unit() * side_mm};
  const Box2 box = box_of(rings);
  const double to_look_at =
      (box.width() + 2 * side_mm) * (box.height() + 2 * side_mm) * stipple.per_mm2;
  if (!(to_look_at < 4e6)) return out;
  const auto tiles = [&](double at, double from) {
    return static_cast<long>(std::floor((at - from) / side_mm));
  };
  for (long row = tiles(box.low.y, origin.y); row <= tiles(box.high.y, origin.y); ++row) {
    for (long column = tiles(box.low.x, origin.x); column <= tiles(box.high.x, origin.x);
         ++column) {
      for (int rank = 0; rank < kTileDots; ++rank) {
        const Vec2 in_tile = dot_tile()[static_cast<std::size_t>(rank)];
        const Vec2 p = origin + Vec2{static_cast<double>(column) + in_tile.x,
                                     static_cast<double>(row) + in_tile.y} *
                                    side_mm;
        if (p.x < box.low.x || p.x > box.high.x || p.y < box.low.y || p.y > box.high.y) continue;
        if (!inside(rings, p) || rank >= share(p) * kTileDots) continue;
        if (clear_of_edges(rings, p, stipple.keep_off_mm)) out.push_back(p);
      }
    }
  }
  return out;
}

std::vector<Vec2> stipple_dots(const Path& path, const Stipple& stipple) {
  if (stipple.toward == Vec2{}) return stipple_dots(path, stipple, [](Vec2) { return 1.0; });
  double low = 1e300, high = -1e300;
  for (const FlatLine& ring : flattened(path, 0.05))
    for (const Vec2 p : ring.points) {
      low = std::min(low, dot(p, stipple.toward));
      high = std::max(high, dot(p, stipple.toward));
    }
  const double span = std::max(high - low, 1e-9);
  return stipple_dots(path, stipple, [&](Vec2 p) {
    const double along = (dot(p, stipple.toward) - low) / span;
    return stipple.thin_share + (1 - stipple.thin_share) * along;
  });
}

}  // namespace spadework::geometry
