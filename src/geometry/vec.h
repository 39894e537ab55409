// Points and vectors in the plan and in space: metres, x to the right of the page, y up the page,
// z up from the garden's datum.
#pragma once

#include <cmath>

namespace spadework::geometry {

struct Vec2 {
  double x = 0, y = 0;
  friend constexpr Vec2 operator+(Vec2 a, Vec2 b) { return {a.x + b.x, a.y + b.y}; }
  friend constexpr Vec2 operator-(Vec2 a, Vec2 b) { return {a.x - b.x, a.y - b.y}; }
  friend constexpr Vec2 operator*(Vec2 a, double k) { return {a.x * k, a.y * k}; }
  friend constexpr Vec2 operator*(double k, Vec2 a) { return a * k; }
  friend constexpr bool operator==(Vec2 a, Vec2 b) = default;
};
constexpr double dot(Vec2 a, Vec2 b) { return a.x * b.x + a.y * b.y; }
/// Positive when b lies anticlockwise of a.
constexpr double cross(Vec2 a, Vec2 b) { return a.x * b.y - a.y * b.x; }
inline double length(Vec2 a) { return std::hypot(a.x, a.y); }
inline Vec2 unit(Vec2 a) { return a * (1.0 / length(a)); }
/// A quarter turn anticlockwise.
constexpr Vec2 left_of(Vec2 a) { return {-a.y, a.x}; }
/// Anticlockwise by the angle.
inline Vec2 turned(Vec2 a, double radians) {
  const double c = std::cos(radians), s = std::sin(radians);
  return {a.x * c - a.y * s, a.x * s + a.y * c};
}

struct Vec3 {
  double x = 0, y = 0, z = 0;
  [[nodiscard]] constexpr Vec2 plan() const { return {x, y}; }
  friend constexpr Vec3 operator+(Vec3 a, Vec3 b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
  friend constexpr Vec3 operator-(Vec3 a, Vec3 b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
  friend constexpr Vec3 operator*(Vec3 a, double k) { return {a.x * k, a.y * k, a.z * k}; }
  friend constexpr bool operator==(Vec3 a, Vec3 b) = default;
};
constexpr double dot(Vec3 a, Vec3 b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
constexpr Vec3 cross(Vec3 a, Vec3 b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
inline double length(Vec3 a) { return std::sqrt(dot(a, a)); }

}  // namespace spadework::geometry
