#include "facts/leaves.h"

#include <cmath>
#include <string_view>

namespace spadework::facts {
namespace {

constexpr double kYearDays = 365;

/// From 0 at `start` to 1 at `end`.
double ramp(double day, double start, double end) { return (day - start) / (end - start); }

}  // namespace

std::string_view leaf_habit_name(LeafHabit habit) {
  switch (habit) {
    case LeafHabit::kDeciduous:
      return "deciduous";
    case LeafHabit::kMarcescent:
      return "marcescent";
    case LeafHabit::kEvergreen:
      return "evergreen";
  }
  return "evergreen";
}

double leaf_share(const LeafDates& dates, int day_of_year, bool southern) {
  if (dates.habit == LeafHabit::kEvergreen) return 1;
  double day = day_of_year + (southern ? kYearDays / 2 : 0);
  day -= kYearDays * std::floor((day - 1) / kYearDays);  // into [1, 366)
  const double out_start = dates.out_start.value.number, full = dates.full.value.number;
  const double fall_start = dates.fall_start.value.number, bare = dates.bare.value.number;
  if (day <= out_start || day >= bare) return 0;
  if (day < full) return ramp(day, out_start, full);
  if (day <= fall_start) return 1;
  return 1 - ramp(day, fall_start, bare);
}

}  // namespace spadework::facts
