#include "geometry/solid.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace spadework::geometry {
namespace {

using Stretch = std::optional<std::pair<double, double>>;
constexpr double kFar = std::numeric_limits<double>::infinity();

HalfSpace upright_face(Vec2 from, Vec2 to) {
  const Vec2 outward{to.y - from.y, from.x - to.x};
  return {{outward.x, outward.y, 0}, dot(outward, from)};
}

/// Narrows [near, far] to where a + b t + c t² <= 0; false if nothing is left. c >= 0 or the set is
/// taken as one stretch (true for the round shapes here).
bool narrow_by_quadratic(double a, double b, double c, double& near, double& far) {
  if (std::abs(c) < 1e-14) {
    if (std::abs(b) < 1e-14) return a <= 0;
    const double t = -a / b;
    if (b > 0)
      far = std::min(far, t);
    else
      near = std::max(near, t);
    return near < far;
  }
  const double disc = b * b - 4 * a * c;
  if (disc <= 0) return false;
  const double root = std::sqrt(disc);
  near = std::max(near, (-b - root) / (2 * c));
  far = std::min(far, (-b + root) / (2 * c));
  return near < far;
}

void narrow_by_heights(double from_z, double dz, double low, double high, double& near,
                       double& far) {
  if (std::abs(dz) < 1e-14) {
    if (from_z < low || from_z > high) far = -kFar;
    return;
  }
  const double a = (low - from_z) / dz, b = (high - from_z) / dz;
  near = std::max(near, std::min(a, b));
  far = std::min(far, std::max(a, b));
}

Stretch inside_cone(const RoundSolid& s, Vec3 from, Vec3 d, double near, double far) {
  // |p.xy - axis| <= radius (top - z) / height, below the top.
  narrow_by_heights(from.z, d.z, s.low_z(), s.high_z(), near, far);
  if (near >= far) return std::nullopt;
  const double k = s.radius / (s.top_z - s.bottom_z);
  const Vec2 p = from.plan() - s.axis, e = d.plan();
  const double r0 = k * (s.top_z - from.z), r1 = -k * d.z;  // radius at t: r0 + r1 t >= 0 here
  const double a = dot(p, p) - r0 * r0, b = 2 * (dot(p, e) - r0 * r1), c = dot(e, e) - r1 * r1;
  if (c > 1e-14) {
    if (!narrow_by_quadratic(a, b, c, near, far)) return std::nullopt;
    return std::pair(near, far);
  }
  if (std::abs(c) <= 1e-14) {
    if (!narrow_by_quadratic(a, b, 0, near, far)) return std::nullopt;
    return std::pair(near, far);
  }
  // Steeper than the cone's side: inside outside the roots; within the heights one side remains.
  const double disc = b * b - 4 * a * c;
  if (disc <= 0) return std::pair(near, far);
  const double root = std::sqrt(disc);
  const double t1 = (-b + root) / (2 * c), t2 = (-b - root) / (2 * c);  // t1 < t2
  if (near < t1)
    far = std::min(far, t1);
  else
    near = std::max(near, t2);
  if (near >= far) return std::nullopt;
  return std::pair(near, far);
}

double ring_radius(const RoundSolid& s, double share_up) {
  switch (s.shape) {
    case RoundShape::kColumn:
      return s.radius;
    case RoundShape::kCone:
      return s.radius * (1 - share_up);
    case RoundShape::kDome:
      return s.radius * std::sqrt(std::max(0.0, 1 - share_up * share_up));
    case RoundShape::kEllipsoid: {
      const double v = 2 * share_up - 1;
      return s.radius * std::sqrt(std::max(0.0, 1 - v * v));
    }
  }
  return s.radius;
}

}  // namespace

Incline Incline::through(Vec3 a, Vec3 b, Vec3 c) {
  const Vec3 n = cross(b - a, c - a);
  const Vec2 slope{-n.x / n.z, -n.y / n.z};
  return {a.z - dot(slope, a.plan()), slope};
}

Solid prism(const std::vector<Vec2>& footprint, Incline bottom, Incline top) {
  Solid solid;
  const std::size_t n = footprint.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Vec2 p = footprint[i];
    solid.corners.push_back({p.x, p.y, bottom.at(p)});
    solid.corners.push_back({p.x, p.y, top.at(p)});
    solid.faces.push_back(upright_face(p, footprint[(i + 1) % n]));
  }
  solid.faces.push_back({{-top.slope.x, -top.slope.y, 1}, top.level});
  solid.faces.push_back({{bottom.slope.x, bottom.slope.y, -1}, -bottom.level});
  return solid;
}

Solid frustum(const std::vector<Vec2>& footprint, double bottom_z, Vec3 apex, double share) {
  Solid solid;
  const std::size_t n = footprint.size();
  const double top_z = bottom_z + (apex.z - bottom_z) * share;
  for (std::size_t i = 0; i < n; ++i) {
    const Vec2 p = footprint[i], q = footprint[(i + 1) % n];
    const Vec2 upper = p + (apex.plan() - p) * share;
    solid.corners.push_back({p.x, p.y, bottom_z});
    solid.corners.push_back({upper.x, upper.y, top_z});
    const Vec3 a{p.x, p.y, bottom_z}, b{q.x, q.y, bottom_z};
    const Vec3 normal = cross(b - a, apex - a);
    solid.faces.push_back({normal, dot(normal, a)});
  }
  solid.faces.push_back({{0, 0, 1}, top_z});
  solid.faces.push_back({{0, 0, -1}, -bottom_z});
  return solid;
}

Stretch ray_inside(const Solid& solid, Vec3 from, Vec3 direction) {
  double near = 0, far = kFar;
  for (const HalfSpace& face : solid.faces) {
    const double ahead = dot(face.normal, direction);
    const double room = face.offset - dot(face.normal, from);
    if (ahead > 0) {
      far = std::min(far, room / ahead);
    } else if (ahead < 0) {
      near = std::max(near, room / ahead);
    } else if (room < 0) {
      return std::nullopt;
    }
    if (near >= far) return std::nullopt;
  }
  return std::pair(near, far);
}

Stretch ray_inside(const RoundSolid& s, Vec3 from, Vec3 d) {
  double near = 0, far = kFar;
  const Vec2 p = from.plan() - s.axis, e = d.plan();
  if (s.shape == RoundShape::kCone) return inside_cone(s, from, d, near, far);
  const double r2 = s.radius * s.radius;
  double a = dot(p, p) / r2 - 1, b = 2 * dot(p, e) / r2, c = dot(e, e) / r2;
  if (s.shape != RoundShape::kEllipsoid || s.is_cut())
    narrow_by_heights(from.z, d.z, s.low_z(), s.high_z(), near, far);
  if (s.shape != RoundShape::kColumn) {
    const bool dome = s.shape == RoundShape::kDome;
    const double centre = dome ? s.bottom_z : (s.bottom_z + s.top_z) / 2;
    const double half = s.top_z - centre;
    const double z = (from.z - centre) / half, dz = d.z / half;
    a += z * z, b += 2 * z * dz, c += dz * dz;
  }
  if (near >= far || !narrow_by_quadratic(a, b, c, near, far)) return std::nullopt;
  return std::pair(near, far);
}

std::vector<Vec3> enclosing_corners(const RoundSolid& s) {
  constexpr int kSides = 16;
  constexpr int kRings = 12;
  const double outward = 1 / std::cos(std::numbers::pi / kSides);
  std::vector<Vec3> corners;
  for (int i = 0; i < kRings; ++i) {
    // Each slab between two rings is enclosed by the wider of its two rims, or the equator.
    const double low = static_cast<double>(i) / kRings, high = static_cast<double>(i + 1) / kRings;
    const double r = outward * std::max({ring_radius(s, low), ring_radius(s, high)});
    for (int k = 0; k < kSides; ++k) {
      const double turn = 2 * std::numbers::pi * k / kSides;
      const Vec2 q = s.axis + Vec2{r * std::cos(turn), r * std::sin(turn)};
      corners.push_back({q.x, q.y, s.bottom_z + low * (s.top_z - s.bottom_z)});
      corners.push_back({q.x, q.y, s.bottom_z + high * (s.top_z - s.bottom_z)});
    }
  }
  return corners;
}

}  // namespace spadework::geometry
