// Leaves by date: when a kind comes into leaf and when it is bare.
#pragma once

#include "base/quantity.h"
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

/// Where a plant grows, as far as its dates depend on it.
struct LeafPlace {
  Angle latitude;    // negative south of the equator
  Length elevation;  // above the sea
};

/// Days by which spring comes later and autumn earlier than at the reference: 4 days for each
/// degree of latitude towards the pole and for each 122 m (400 ft) of height; negative nearer the
/// equator. The rule was made for the temperate parts of North America, and the greening of its
/// broad-leaved woods follows it; beech in Slovenia moves by 2.6 days in 100 m in spring and 1.9 in
/// autumn, where it says 3.3. It knows nothing of seas, frost hollows or towns, so that it is bound
/// to 40 days either way (10 degrees, or 1,220 m).
/// Source: [hopkins1920] [richardson2019] [cufar2012]
[[nodiscard]] double days_later(const LeafPlace& place, Angle reference_latitude);

/// Moves a date by whole days; it then stands as derived from what it was and Hopkins' law.
void move_date(Fact<YearDay>& date, double later_d);

/// The dates at a place: out_start and full moved by `days_later`, fall_start and bare by as much
/// the other way, to whole days, as far as a day of full leaf is left between them; leaves that
/// fail before the end of August, as of spring flowers, go with the spring. They stand as derived,
/// and still are of the northern hemisphere: `leaf_share` turns the year. `bare` may pass into
/// January: then its number is the smallest.
[[nodiscard]] LeafDates leaf_dates_at(LeafDates dates, const LeafPlace& place);

/// The share of the full leaf that a plant wears on a day: 0 bare, 1 in full leaf, in between a
/// straight line; an evergreen wears 1. South of the equator the year is turned by half.
/// In:  day_of_year, 1 for 1 January; other whole numbers wrap round a year of 365 days, so that
///      day 366 is 1 January. A dead tree is the caller's to know. Dates as of their reference;
///      those of a place from `leaf_dates_at`.
/// Out: from 0 to 1; never fails.
[[nodiscard]] double leaf_share(const LeafDates& dates, int day_of_year, bool southern);

/// Days from `start` until `day` in a year of 365 days that is turned by half in the south: from 0
/// to under 365.
[[nodiscard]] double days_since(YearDay start, int day_of_year, bool southern);

}  // namespace spadework::facts
