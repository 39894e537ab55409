#include "facts/leaves.h"

#include <algorithm>
#include <cmath>
#include <string_view>

namespace spadework::facts {
namespace {

constexpr int kYear = 365;

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

double days_later(const LeafPlace& place, Angle reference_latitude) {
  constexpr double kPerDegree = 4, kMetresPerDegree = 121.92, kMost = 40;  // 400 ft
  const double degrees_on =
      std::abs(in_degrees(place.latitude)) - std::abs(in_degrees(reference_latitude));
  const double rise = in_metres(place.elevation) / kMetresPerDegree;
  return std::clamp(kPerDegree * (degrees_on + rise), -kMost, kMost);
}

void move_date(Fact<YearDay>& date, double later_d) {
  const int by = static_cast<int>(std::lround(later_d));
  date.value.number = (date.value.number - 1 + by + kYear) % kYear + 1;
  date.sources.insert(date.sources.end(), {"hopkins1920", "richardson2019"});
  date.standing = Standing::kDerived;
}

LeafDates leaf_dates_at(LeafDates dates, const LeafPlace& place) {
  if (dates.habit == LeafHabit::kEvergreen) return dates;
  constexpr int kLastOfAugust = 243;
  double later = days_later(place, dates.reference_latitude.value);
  const double whole_d =
      days_since(dates.full.value, dates.fall_start.value.number, /*southern=*/false);
  const bool in_autumn = dates.fall_start.value.number > kLastOfAugust;
  if (in_autumn) later = std::min(later, std::floor((whole_d - 1) / 2));
  move_date(dates.out_start, later);
  move_date(dates.full, later);
  move_date(dates.fall_start, in_autumn ? -later : later);
  move_date(dates.bare, in_autumn ? -later : later);
  return dates;
}

double days_since(YearDay start, int day_of_year, bool southern) {
  const double days = day_of_year - start.number + (southern ? kYear / 2.0 : 0.0);
  return days - kYear * std::floor(days / kYear);
}

double leaf_share(const LeafDates& dates, int day_of_year, bool southern) {
  if (dates.habit == LeafHabit::kEvergreen) return 1;
  const YearDay start = dates.out_start.value;
  const auto after = [&](const Fact<YearDay>& day) {
    return days_since(start, day.value.number, false);
  };
  const double day = days_since(start, day_of_year, southern);
  const double full = after(dates.full), fall_start = after(dates.fall_start),
               bare = after(dates.bare);
  if (day >= bare) return 0;
  if (day < full) return day / full;
  if (day <= fall_start) return 1;
  return 1 - (day - fall_start) / (bare - fall_start);
}

}  // namespace spadework::facts
