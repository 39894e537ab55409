#include "light/hull.h"

#include <algorithm>
#include <bit>
#include <cmath>

#include "base/check.h"

namespace spadework::light {
namespace {

using geometry::cross;
using geometry::dot;
using geometry::HalfSpace;
using geometry::length;
using geometry::Vec3;

constexpr double kSameCorner_m = 1e-7;
constexpr double kOnFace_m = 1e-6;
constexpr double kFlat_m = 1e-9;
constexpr double kOnPlane_m = 1e-9;

bool finite(Vec3 p) { return std::isfinite(p.x) && std::isfinite(p.y) && std::isfinite(p.z); }

void add_corner(Hull& hull, Vec3 p) {
  const auto same = [&](Vec3 q) { return length(p - q) < kSameCorner_m; };
  if (std::none_of(hull.corners.begin(), hull.corners.end(), same)) hull.corners.push_back(p);
}

/// Whether some corner lies off every plane that could hold the others.
bool has_volume(const std::vector<Vec3>& corners) {
  if (corners.size() < 4) return false;
  const auto farthest = [&](auto distance) {
    return *std::max_element(corners.begin(), corners.end(),
                             [&](Vec3 a, Vec3 b) { return distance(a) < distance(b); });
  };
  const Vec3 a = corners[0];
  const Vec3 along = farthest([&](Vec3 p) { return length(p - a); }) - a;
  const Vec3 third = farthest([&](Vec3 p) { return length(cross(along, p - a)); });
  const Vec3 normal = cross(along, third - a);
  const auto off = [&](Vec3 p) { return std::abs(dot(normal, p - a)); };
  return off(farthest(off)) > kFlat_m * length(normal);
}

std::uint64_t& touching_word(Hull& hull, std::size_t corner, std::size_t face) {
  return hull.touching[corner * hull.words_each + face / 64];
}
void touch(Hull& hull, std::size_t corner, std::size_t face) {
  touching_word(hull, corner, face) |= std::uint64_t{1} << (face % 64);
}

void connect_all(Hull& hull) {
  hull.told_by_faces = false;
  hull.edges.clear();
  const auto n = static_cast<std::uint32_t>(hull.corners.size());
  for (std::uint32_t i = 0; i < n; ++i) {
    for (std::uint32_t j = i + 1; j < n; ++j) hull.edges.push_back({i, j, -1, -1});
  }
}

/// The edge between two corners that share at least two faces.
std::optional<HullEdge> edge_between(const Hull& hull, std::uint32_t i, std::uint32_t j) {
  HullEdge edge{i, j, -1, -1};
  int shared = 0;
  for (std::size_t word = 0; word < hull.words_each; ++word) {
    std::uint64_t common =
        hull.touching[i * hull.words_each + word] & hull.touching[j * hull.words_each + word];
    for (; common != 0; common &= common - 1) {
      const int face = static_cast<int>(word * 64) + std::countr_zero(common);
      (shared++ == 0 ? edge.face_a : edge.face_b) = face;
    }
  }
  if (shared < 2) return std::nullopt;
  if (shared > 2) edge.face_a = edge.face_b = -1;
  return edge;
}

/// A corner with fewer than three edges says that the faces do not tell the whole story.
void connect(Hull& hull) {
  hull.edges.clear();
  const auto n = static_cast<std::uint32_t>(hull.corners.size());
  std::vector<int> met(n, 0);
  for (std::uint32_t i = 0; i < n; ++i) {
    for (std::uint32_t j = i + 1; j < n; ++j) {
      if (const auto edge = edge_between(hull, i, j)) {
        hull.edges.push_back(*edge);
        ++met[i], ++met[j];
      }
    }
  }
  if (std::any_of(met.begin(), met.end(), [](int edges) { return edges < 3; })) connect_all(hull);
}

/// The corners on the good side, and where edges cross the plane; `cut` is the plane's own face.
void cut_corners(const Hull& hull, const std::vector<double>& height, std::size_t cut, Hull& part) {
  const auto faces_of = [&](std::size_t corner) {
    return hull.touching.begin() + static_cast<std::ptrdiff_t>(corner * hull.words_each);
  };
  const auto words = static_cast<std::ptrdiff_t>(hull.words_each);
  for (std::size_t i = 0; i < hull.corners.size(); ++i) {
    if (height[i] < 0) continue;
    part.corners.push_back(hull.corners[i]);
    part.touching.insert(part.touching.end(), faces_of(i), faces_of(i) + words);
    if (height[i] == 0) touch(part, part.corners.size() - 1, cut);
  }
  for (const HullEdge& edge : hull.edges) {
    const double a = height[edge.from], b = height[edge.to];
    if ((a < 0) == (b < 0) || a == 0 || b == 0) continue;
    const Vec3 p = hull.corners[edge.from], q = hull.corners[edge.to];
    part.corners.push_back(p + (q - p) * (a / (a - b)));
    const auto from = faces_of(edge.from), to = faces_of(edge.to);
    for (std::ptrdiff_t word = 0; word < words; ++word)
      part.touching.push_back(from[word] & to[word]);
    touch(part, part.corners.size() - 1, cut);
  }
}

}  // namespace

std::optional<Hull> hull_of(const geometry::Solid& solid) {
  Hull hull;
  for (const Vec3& p : solid.corners) {
    SW_CHECK(finite(p));
    add_corner(hull, p);
  }
  if (!has_volume(hull.corners)) return std::nullopt;
  for (const HalfSpace& face : solid.faces) {
    const double size = length(face.normal);
    if (size > 1e-12) hull.faces.push_back({face.normal * (1 / size), face.offset / size});
  }
  hull.words_each = hull.faces.size() / 64 + 1;
  hull.touching.assign(hull.corners.size() * hull.words_each, 0);
  for (std::size_t i = 0; i < hull.corners.size(); ++i) {
    for (std::size_t f = 0; f < hull.faces.size(); ++f) {
      const double off = dot(hull.faces[f].normal, hull.corners[i]) - hull.faces[f].offset;
      if (std::abs(off) <= kOnFace_m) touch(hull, i, f);
    }
  }
  connect(hull);
  return hull;
}

std::optional<Hull> part_above(const Hull& hull, Vec3 origin, Vec3 normal, double ignore_m) {
  const Vec3 up = normal * (1 / length(normal));
  std::vector<double> height;
  height.reserve(hull.corners.size());
  for (const Vec3& p : hull.corners) {
    const double w = dot(up, p - origin);
    height.push_back(std::abs(w) <= kOnPlane_m ? 0 : w);
  }
  if (*std::max_element(height.begin(), height.end()) <= ignore_m) return std::nullopt;
  if (*std::min_element(height.begin(), height.end()) >= 0) return hull;
  Hull part;
  part.words_each = hull.words_each;
  part.faces = hull.faces;
  part.faces.push_back({up * -1, -dot(up, origin)});
  cut_corners(hull, height, part.faces.size() - 1, part);
  if (hull.told_by_faces) {
    connect(part);
  } else {
    connect_all(part);
  }
  return part;
}

}  // namespace spadework::light
