// Polygons in the plan: corner lists without a repeated last corner, metres. Unless said otherwise
// they may be wound either way and must not cross themselves.
#pragma once

#include <array>
#include <vector>

#include "geometry/vec.h"

namespace spadework::geometry {

using Polygon = std::vector<Vec2>;

struct Box2 {
  Vec2 low, high;
  [[nodiscard]] double width() const { return high.x - low.x; }
  [[nodiscard]] double height() const { return high.y - low.y; }
};

/// Square metres, positive when wound anticlockwise (the shoelace formula). Source: [shoelace]
[[nodiscard]] double signed_area(const Polygon& polygon);
[[nodiscard]] double area(const Polygon& polygon);
[[nodiscard]] Vec2 centroid(const Polygon& polygon);
[[nodiscard]] Box2 bounds(const std::vector<Vec2>& points);
/// The same polygon, wound anticlockwise, without repeated corners.
[[nodiscard]] Polygon anticlockwise(const Polygon& polygon);
/// True inside; on the edge either may be told, but neighbours that share the edge never both.
[[nodiscard]] bool contains(const Polygon& polygon, Vec2 p);
/// True if two edges cross or touch other than neighbours at their corner.
[[nodiscard]] bool crosses_itself(const Polygon& polygon);
[[nodiscard]] bool is_convex(const Polygon& polygon);
/// The convex polygon around points, anticlockwise; of points in one line their ends alone.
/// Source: [andrew1979]
[[nodiscard]] Polygon convex_hull(std::vector<Vec2> points);
/// Convex parts that cover the polygon without overlapping, each wound anticlockwise: triangles cut
/// off ear by ear, then joined where the join stays convex. Source: [hertel1983]
[[nodiscard]] std::vector<Polygon> convex_parts(const Polygon& polygon);
/// Convex parts that together cover the polygon and may overlap, each as large as it can be: a
/// roof hipped over each gives the hipped roof of the whole where walls meet at right angles. At
/// most 64 of them; beyond that the same as `convex_parts`.
[[nodiscard]] std::vector<Polygon> convex_cover(const Polygon& polygon);
/// The part of a convex polygon to the left of the line from a to b; empty if none.
[[nodiscard]] Polygon left_part(const Polygon& convex, Vec2 a, Vec2 b);
/// The parts of a convex polygon outside another convex polygon (anticlockwise), without overlap.
[[nodiscard]] std::vector<Polygon> outside_parts(const Polygon& convex, const Polygon& hole);
/// The convex polygon that two convex polygons share; empty if none.
[[nodiscard]] Polygon shared_part(const Polygon& convex, const Polygon& other);
/// The polygon with each edge moved inwards; empty when nothing is left. Mitred corners.
[[nodiscard]] Polygon inset(const Polygon& polygon, double by_m);
/// A rectangle from its corner `at`, `size` to the right and up, turned anticlockwise about `at`.
[[nodiscard]] Polygon rectangle(Vec2 at, Vec2 size, double turn_rad);
/// A rectangle about its middle.
[[nodiscard]] Polygon rectangle_about(Vec2 middle, Vec2 size, double turn_rad);
/// A quadrilateral from its four sides in order and the diagonal from its first corner to its
/// third: the first corner at 0, 0, the first side along x, the third corner above it and the
/// fourth beyond the diagonal. Lengths that cannot close give their flattest triangles. Source:
/// [closed-form]
[[nodiscard]] Polygon quadrilateral(const std::array<double, 4>& sides_m, double diagonal_m);
/// A regular polygon about its middle whose area is that of the circle. Source: closed form.
[[nodiscard]] Polygon round_polygon(Vec2 middle, double radius, int sides);
[[nodiscard]] double distance_to_segment(Vec2 p, Vec2 a, Vec2 b);
[[nodiscard]] double distance_to_outline(Vec2 p, const Polygon& polygon);
/// The direction (unit) of the long side of the smallest rectangle that holds the polygon.
[[nodiscard]] Vec2 long_direction(const Polygon& polygon);

}  // namespace spadework::geometry
