// Paths on paper: lines and curves in paper millimetres, x to the right, y DOWN the paper from its
// upper left corner. Angles are radians, anticlockwise as the reader sees them, from the right.
#pragma once

#include <functional>
#include <vector>

#include "geometry/polygon.h"
#include "geometry/vec.h"

namespace spadework::geometry {

/// The direction of an angle on paper, unit length: a quarter turn points up the paper (0, −1).
[[nodiscard]] Vec2 paper_direction(double angle_rad);
/// The angle of a direction on paper; the reverse of `paper_direction`.
[[nodiscard]] double paper_angle(Vec2 direction);

/// Takes (i, j) to origin + i·along + j·down.
struct Affine {
  Vec2 origin, along{1, 0}, down{0, 1};
  [[nodiscard]] Vec2 at(double i, double j) const { return origin + along * i + down * j; }
};

/// Where a plan stands on paper: `origin` is the paper place of the plan's (0, 0).
struct PlanOnPaper {
  Vec2 origin;
  double mm_per_m = 20;
  [[nodiscard]] Vec2 paper(Vec2 plan_m) const {
    return {origin.x + plan_m.x * mm_per_m, origin.y - plan_m.y * mm_per_m};
  }
  [[nodiscard]] double paper(double metres) const { return metres * mm_per_m; }
  [[nodiscard]] Polygon paper(const Polygon& plan_m) const;
};

struct PathStep {
  enum class Kind { kMove, kLine, kCurve, kClose };
  Kind kind = Kind::kMove;
  Vec2 to;                      // unused by kClose
  Vec2 handle_from, handle_to;  // kCurve: the two control points of a cubic Bézier
};

/// One or more lines, open or closed. Filled by the even-odd rule: a ring within a ring is a hole.
class Path {
 public:
  static Path polyline(const std::vector<Vec2>& points);
  static Path polygon(const Polygon& corners);
  static Path segment(Vec2 a, Vec2 b);
  static Path box(Vec2 corner, double width_mm, double height_mm, double round_mm = 0);
  static Path circle(Vec2 middle, double radius_mm);
  static Path ellipse(Vec2 middle, double radius_x_mm, double radius_y_mm, double turn_rad = 0);
  /// Anticlockwise as seen when `to_rad` > `from_rad`.
  static Path arc(Vec2 middle, double radius_mm, double from_rad, double to_rad);
  /// A smooth line through all points (Catmull–Rom, centripetal); closed: a smooth ring.
  /// Source: [yuksel2011]
  static Path smooth(const std::vector<Vec2>& points, bool closed = false);

  Path& move_to(Vec2 to);
  Path& line_to(Vec2 to);
  Path& curve_to(Vec2 handle_from, Vec2 handle_to, Vec2 to);
  Path& close();
  Path& add(const Path& other);

  [[nodiscard]] const std::vector<PathStep>& steps() const { return steps_; }
  [[nodiscard]] bool empty() const { return steps_.empty(); }

 private:
  std::vector<PathStep> steps_;
};

/// One line of a path, its curves broken into straight pieces.
struct FlatLine {
  std::vector<Vec2> points;
  bool closed = false;
};
/// No point of a curve lies farther than `within_mm` from its pieces.
[[nodiscard]] std::vector<FlatLine> flattened(const Path& path, double within_mm = 0.02);
[[nodiscard]] bool is_finite(const std::vector<FlatLine>& lines);
/// Even-odd.
[[nodiscard]] bool inside(const std::vector<FlatLine>& rings, Vec2 p);

/// The outline of the cells for which `in(column, row)` holds, as rings with inside to their left;
/// cells that meet only at a corner stay apart. `placement` takes cell corners to paper.
[[nodiscard]] Path outline_of_cells(int columns, int rows, const std::function<bool(int, int)>& in,
                                    const Affine& placement);

}  // namespace spadework::geometry
