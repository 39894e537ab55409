#include "light/caster_outline.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace spadework::light {
namespace {

constexpr std::uint32_t kNone = ~std::uint32_t{0};
constexpr double kThin = 1e-9;  // cells²: a shadow that is no more than a line

}  // namespace

Outlines::Outlines(const Standing& standing, int first_column, const Kernels& kernels)
    : standing_(standing), first_column_(first_column), kernels_(kernels) {
  known_.resize(standing.bodies().size());
  for (const CastBody& cast : standing.bodies()) most_ = std::max(most_, cast.corners);
}

Outline Outlines::of(std::size_t body, const Beam& beam) {
  const CastBody& cast = standing_.bodies()[body];
  std::vector<Known>& known = known_[body];
  std::uint64_t lit = 0;
  if (cast.faces > 0) {
    lit = kernels_.facing(standing_.faces(cast), beam.toward.x, beam.toward.y, beam.toward.z);
    for (std::size_t i = 0; i < known.size(); ++i) {
      if (known[i].lit != lit) continue;
      if (i > 0) std::swap(known[i], known[0]);
      return outline(known[0]);
    }
    if (ring_of_faces(cast, lit, beam)) {
      Known ring = keep_ring(cast);
      ring.lit = lit;
      known.insert(known.begin(), ring);
      return outline(ring);
    }
  }
  ring_of_corners(cast, beam);
  if (ring_.size() < 3) return {};
  const std::size_t end = x_.size();
  const Outline once = outline(keep_ring(cast));
  x_.resize(end), y_.resize(end), w_.resize(end);  // the memory stays until the next is kept
  return once;
}

bool Outlines::ring_of_faces(const CastBody& cast, std::uint64_t lit, const Beam& beam) {
  const auto corners = standing_.corners(cast);
  next_.assign(2 * corners.size(), kNone);
  std::size_t sides = 0;
  const auto is_lit = [&](std::int32_t face) { return (lit >> face & 1) != 0; };
  const auto join = [&](std::uint32_t from, std::uint32_t to) {
    if (next_[2 * from + 1] != kNone) return false;
    next_[2 * from + (next_[2 * from] == kNone ? 0 : 1)] = to;
    return true;
  };
  for (const HullEdge& edge : standing_.edges(cast)) {
    if (is_lit(edge.face_a) == is_lit(edge.face_b)) continue;
    if (!join(edge.from, edge.to) || !join(edge.to, edge.from)) return false;
    ++sides;
  }
  ring_.clear();
  std::uint32_t at = 0;
  while (at < corners.size() && next_[2 * at] == kNone) ++at;
  if (at == corners.size()) return false;
  const std::uint32_t start = at;
  for (std::uint32_t before = kNone;;) {
    if (next_[2 * at + 1] == kNone || ring_.size() > corners.size()) return false;
    ring_.push_back(at);
    const std::uint32_t on = next_[2 * at] == before ? next_[2 * at + 1] : next_[2 * at];
    before = std::exchange(at, on);
    if (at == start) break;
  }
  if (ring_.size() != sides || sides < 3) return false;
  double twice_area = 0;
  for (std::size_t k = 0; k < ring_.size(); ++k) {
    const geometry::Vec3 p = corners[ring_[k]], q = corners[ring_[(k + 1) % ring_.size()]];
    const double px = p.x - beam.shift.x_per_w * p.z, py = p.y - beam.shift.y_per_w * p.z;
    const double qx = q.x - beam.shift.x_per_w * q.z, qy = q.y - beam.shift.y_per_w * q.z;
    twice_area += px * qy - py * qx;
  }
  if (std::abs(twice_area) < 1e-6) return false;
  if (twice_area < 0) std::reverse(ring_.begin(), ring_.end());
  return true;
}

void Outlines::ring_of_corners(const CastBody& cast, const Beam& beam) {
  const auto corners = standing_.corners(cast);
  seen_.clear();
  for (std::uint32_t k = 0; k < corners.size(); ++k)
    seen_.push_back({corners[k].x - beam.shift.x_per_w * corners[k].z,
                     corners[k].y - beam.shift.y_per_w * corners[k].z, k});
  std::sort(seen_.begin(), seen_.end(),
            [](const Seen& a, const Seen& b) { return a.x < b.x || (a.x == b.x && a.y < b.y); });
  const auto turns_left = [](const Seen& a, const Seen& b, const Seen& c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x) > kThin;
  };
  std::vector<Seen> ring;  // Andrew's chain: the lower side, then the upper
  for (int side = 0; side < 2; ++side) {
    const std::size_t first = ring.size();
    for (const Seen& p : seen_) {
      while (ring.size() >= first + 2 && !turns_left(ring[ring.size() - 2], ring.back(), p))
        ring.pop_back();
      ring.push_back(p);
    }
    ring.pop_back();
    std::reverse(seen_.begin(), seen_.end());
  }
  ring_.clear();
  for (const Seen& p : ring) ring_.push_back(p.corner);
}

Outlines::Known Outlines::keep_ring(const CastBody& cast) {
  const auto corners = standing_.corners(cast);
  Known known{0, x_.size(), static_cast<int>(ring_.size())};
  for (std::size_t k = 0; k < ring_.size() + 4; ++k) {
    const geometry::Vec3& p = corners[ring_[k % ring_.size()]];
    x_.push_back(p.x - first_column_);
    y_.push_back(p.y);
    w_.push_back(p.z);
  }
  return known;
}

}  // namespace spadework::light
