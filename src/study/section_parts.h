// What the parts of a section share. For the study room alone.
#pragma once

#include "study/section_cut.h"

namespace spadework::study {

/// The sun at the moment, and where it reaches along the line.
void add_sun(const Stand& stand, const facts::Catalogue& catalogue, const SectionPlane& plane,
             const SectionMoment& moment, Section& section);

/// What one digs or walks on, from A to B: the ground, or within a bed its soil. Two levels at one
/// place where they meet in a step.
[[nodiscard]] std::vector<geometry::Vec2> top_line(const Section& section);
/// A level on a line of (along, level).
[[nodiscard]] double level_on(const std::vector<geometry::Vec2>& line, double along_m);
/// The part of such a line between two places.
[[nodiscard]] std::vector<geometry::Vec2> part_of(const std::vector<geometry::Vec2>& line,
                                                  double from_m, double to_m);

}  // namespace spadework::study
