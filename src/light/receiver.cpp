#include "light/receiver.h"

#include <cmath>

#include "base/check.h"

namespace spadework::light {
namespace {

using geometry::cross;
using geometry::dot;
using geometry::Vec2;
using geometry::Vec3;

Receiver grid(double cell_m, int columns, int rows) {
  SW_CHECK_LT(0.0, cell_m);
  SW_CHECK_LE(0, columns);
  SW_CHECK_LE(0, rows);
  Receiver receiver;
  receiver.cell_m = cell_m;
  receiver.columns = columns;
  receiver.rows = rows;
  receiver.counted.assign(static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows), 1);
  return receiver;
}

}  // namespace

Receiver level_receiver(Vec2 corner, double turn_rad, double z, double cell_m, int columns,
                        int rows) {
  Receiver receiver = grid(cell_m, columns, rows);
  const double c = std::cos(turn_rad), s = std::sin(turn_rad);
  receiver.origin = {corner.x, corner.y, z};
  receiver.u_axis = {c, s, 0};
  receiver.v_axis = {-s, c, 0};
  return receiver;
}

Receiver ground_receiver(Vec2 corner, double level, Vec2 slope, double cell_m, int columns,
                         int rows) {
  Receiver receiver = grid(cell_m, columns, rows);
  receiver.origin = {corner.x, corner.y, level + dot(slope, corner)};
  receiver.w_axis = {-slope.x, -slope.y, 1};
  return receiver;
}

Receiver face_receiver(Vec3 corner, Vec3 out, double cell_m, int columns, int rows) {
  const Vec3 right = cross({0, 0, 1}, out);
  SW_CHECK_LT(1e-9, geometry::length(right));
  Receiver receiver = grid(cell_m, columns, rows);
  receiver.origin = corner;
  receiver.u_axis = right * (1 / geometry::length(right));
  receiver.v_axis = cross(out, receiver.u_axis);
  receiver.w_axis = out;
  return receiver;
}

Receiver spot_receiver(Vec3 at) {
  Receiver receiver = grid(0.1, 1, 1);
  receiver.origin = at - Vec3{receiver.cell_m / 2, receiver.cell_m / 2, 0};
  return receiver;
}

Vec3 cell_centre(const Receiver& receiver, int column, int row) {
  // The inverse of the affine map, by Cramer's rule, at w = 0.
  const Vec3 vw = cross(receiver.v_axis, receiver.w_axis);
  const Vec3 wu = cross(receiver.w_axis, receiver.u_axis);
  const double det = dot(receiver.u_axis, vw);
  const double u = (column + 0.5) * receiver.cell_m, v = (row + 0.5) * receiver.cell_m;
  return receiver.origin + vw * (u / det) + wu * (v / det);
}

}  // namespace spadework::light
