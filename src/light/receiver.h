// Receiving planes: where light is measured. A plane of any lie with a grid of cells on it.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "geometry/vec.h"

namespace spadework::light {

/// An affine map takes a point p of the garden to the receiver's own coordinates
///   u = dot(u_axis, p − origin), v = dot(v_axis, p − origin), w = dot(w_axis, p − origin):
/// u and v run along the grid, w > 0 is the side that faces the sky. A level bed has an upright
/// w_axis; open ground on a slope is sheared (w_axis = (−slope.x, −slope.y, 1), u and v in the
/// plan); a wall's face has v_axis upright. A direction towards the sun faces the receiver when its
/// w > 0. Cell (i, j) has its centre at u = (i + ½) cell_m, v = (j + ½) cell_m.
struct Receiver {
  geometry::Vec3 origin;
  geometry::Vec3 u_axis{1, 0, 0}, v_axis{0, 1, 0}, w_axis{0, 0, 1};
  double cell_m = 0.1;
  int columns = 0, rows = 0;
  std::vector<std::uint8_t> counted;  // columns × rows, row by row: 1 where the cell belongs to it

  [[nodiscard]] int cells() const { return columns * rows; }
};

/// A level rectangle at height z: `corner` its lower left, `turn_rad` anticlockwise.
[[nodiscard]] Receiver level_receiver(geometry::Vec2 corner, double turn_rad, double z,
                                      double cell_m, int columns, int rows);
/// Ground that lies on z = level + slope · p (plan coordinates), over a plan-aligned rectangle.
[[nodiscard]] Receiver ground_receiver(geometry::Vec2 corner, double level, geometry::Vec2 slope,
                                       double cell_m, int columns, int rows);
/// A face: `corner` is its lower left for who looks at it, `out` (unit, not upright) the way that
/// it looks. Upright where `out` is level; else it leans.
[[nodiscard]] Receiver face_receiver(geometry::Vec3 corner, geometry::Vec3 out, double cell_m,
                                     int columns, int rows);
/// One cell at a point: a spot at any height.
[[nodiscard]] Receiver spot_receiver(geometry::Vec3 at);
/// The point of the garden at the centre of a cell.
[[nodiscard]] geometry::Vec3 cell_centre(const Receiver& receiver, int column, int row);

}  // namespace spadework::light
