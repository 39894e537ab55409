// How far things lie over each other in the plan. For the garden room alone.
#pragma once

#include <string>
#include <vector>

#include "geometry/polygon.h"

namespace spadework::garden {

/// What lies no farther over another only touches it: lines are drawn and tapes read to some
/// centimetres. Common practice, no source.
inline constexpr double kTouching_m = 0.05;
inline constexpr double kTouching_m2 = 0.02;

/// What a thing covers of the plan; areas in square metres, lengths in metres.
class Footing {
 public:
  Footing(std::string id, const geometry::Polygon& outline);
  /// A path's: `width_m` about each leg of its line.
  Footing(std::string id, const std::vector<geometry::Vec2>& line, double width_m);

  [[nodiscard]] const std::string& id() const { return id_; }
  [[nodiscard]] double area() const { return area_; }
  [[nodiscard]] double shared(const Footing& other) const;
  /// What both cover, or 0 where they only touch: less than `kTouching_m2`, or nowhere wider than
  /// `kTouching_m`.
  [[nodiscard]] double overlap(const Footing& other) const;
  /// Farther inside than `kTouching_m`.
  [[nodiscard]] bool holds(geometry::Vec2 p) const;
  /// How much of a line runs farther inside than that; to 2 cm.
  [[nodiscard]] double held_length(const std::vector<geometry::Vec2>& line) const;

 private:
  std::string id_;
  double area_ = 0;
  geometry::Box2 box_;
  std::vector<geometry::Polygon> outlines_;
  std::vector<geometry::Polygon> parts_;  // convex, none over another
};

}  // namespace spadework::garden
