// What the symbols are built from. Inside the room only.
#pragma once

#include <string>
#include <vector>

#include "base/random.h"
#include "geometry/symbols.h"

namespace spadework::geometry::parts {

/// What can be drawn: finite, of some extent, and no larger than any sheet (100 m).
[[nodiscard]] bool is_extent(double mm);
[[nodiscard]] bool is_line(const std::vector<Vec2>& line);
[[nodiscard]] bool is_ring(const Polygon& outline);
[[nodiscard]] Group& group_of(Group& into, const Mark& mark);
void draw(Group& into, Path path, const Stroke& stroke);
void fill(Group& into, Path path, Fill with);
void fill_and_draw(Group& into, Path path, Fill with, const Stroke& stroke);

/// A line drawn with a width. Closed when its first and last points are the same.
struct Ribbon {
  std::vector<Vec2> left, right;
  bool closed = false;
  [[nodiscard]] Path outline() const;
};
/// Points that repeat are dropped; empty if fewer than two remain.
[[nodiscard]] Ribbon ribbon(std::vector<Vec2> line, double width_mm);

[[nodiscard]] double line_length(const std::vector<Vec2>& line);
struct Station {
  Vec2 at, along;  // along: unit length
};
[[nodiscard]] Station station(const std::vector<Vec2>& line, double at_mm);
/// The stretch of a line between two lengths along it.
[[nodiscard]] std::vector<Vec2> stretch(const std::vector<Vec2>& line, double from_mm,
                                        double to_mm);
/// Strokes through a removed line.
void strike_line(Group& into, const std::vector<Vec2>& line, double width_mm);
/// An angle to write along a direction so that it is read from below or from the right.
[[nodiscard]] double reading_angle(Vec2 along);
/// A rosette of `leaves` leaves.
void rosette(Group& into, const Mark& mark, Vec2 at, double radius_mm, int leaves);

}  // namespace spadework::geometry::parts
