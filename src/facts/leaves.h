// Leaves by date: when a kind comes into leaf and when it is bare.
#pragma once

#include "facts/fact.h"

namespace spadework::facts {

enum class LeafHabit {
  kDeciduous,   // bare in winter
  kMarcescent,  // keeps its dead leaves through the winter; its leaf-off figures count them
  kEvergreen,   // the same all year (walls too)
};
[[nodiscard]] std::string_view leaf_habit_name(LeafHabit habit);  // "deciduous", …

/// Of an ordinary year in the northern hemisphere, at `reference_latitude` and near sea level, in
/// this order. An evergreen has no dates.
struct LeafDates {
  LeafHabit habit = LeafHabit::kEvergreen;
  Fact<YearDay> out_start;   // the first leaves unfold
  Fact<YearDay> full;        // the crown is as dense as it becomes
  Fact<YearDay> fall_start;  // it begins to thin
  Fact<YearDay> bare;        // the last leaves are down
  Fact<Angle> reference_latitude;
};

/// The share of the full leaf that a plant wears on a day: 0 bare, 1 in full leaf, in between a
/// straight line; an evergreen wears 1. South of the equator the year is turned by half.
/// In:  day_of_year, 1 for 1 January; other whole numbers wrap round a year of 365 days, so that
///      day 366 is 1 January. A dead tree is the caller's to know.
/// Out: from 0 to 1; never fails.
[[nodiscard]] double leaf_share(const LeafDates& dates, int day_of_year, bool southern);

}  // namespace spadework::facts
