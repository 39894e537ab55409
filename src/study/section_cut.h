// Bodies cut by an upright plane, in (along, level). For the study room alone.
#pragma once

#include <optional>
#include <vector>

#include "garden/body.h"
#include "study/section.h"

namespace spadework::study {

/// The upright plane of a section's line, and a way along it.
struct SectionPlane {
  geometry::Vec2 from, along;  // along: unit
  double length_m = 0;

  [[nodiscard]] geometry::Vec2 at(double s) const { return from + along * s; }
  [[nodiscard]] double along_of(geometry::Vec2 p) const { return dot(p - from, along); }
  [[nodiscard]] double off(geometry::Vec2 p) const { return cross(along, p - from); }
};

using Ring = std::vector<geometry::Vec2>;  // (along, level), anticlockwise

/// Where the plane cuts a body, within the line's ends; empty where it does not.
/// Source: [closed-form] a ball r wide at d from its middle: half √(r² − d²) wide, and the like of
/// each level of the other round shapes.
[[nodiscard]] Ring cut_of(const garden::Body& body, const SectionPlane& plane);
/// The body's outline seen square to the plane; nothing if it lies farther than `within_m` from the
/// line's stretch.
[[nodiscard]] Ring seen_beside(const garden::Body& body, const SectionPlane& plane,
                               double within_m);
/// The part of a convex ring that is not below a level.
[[nodiscard]] Ring not_below(const Ring& ring, double level_m);
/// Rings that stand side by side or overlap, joined: from the lowest foot to the highest top.
[[nodiscard]] std::vector<Ring> joined(const std::vector<Ring>& rings);
/// The stretches of the line within a polygon.
[[nodiscard]] std::vector<SectionStretch> stretches_within(const geometry::Polygon& polygon,
                                                           const SectionPlane& plane);

}  // namespace spadework::study
