#include "facts/growth.h"

#include <algorithm>
#include <cmath>

namespace spadework::facts {
namespace {

constexpr int kYear = 365;

Grown sown_grown(const Growth& growth, int day_of_year, bool southern) {
  constexpr double kInitialHeight = 0.1;  // FAO-56: the initial stage ends at a tenth of full cover
  const Stages& stages = growth.stages.value;
  const double day = days_since(growth.planted.value, day_of_year, southern);
  double ends = std::min(stages.sum_d(), static_cast<double>(kYear));
  if (growth.until) {
    const double cut =
        days_since(growth.planted.value, growth.until->value.number, /*southern=*/false);
    ends = std::min(ends, cut);
  }
  if (day >= ends) return {};
  const double full = stages.initial_d + stages.development_d;
  if (day < stages.initial_d) return {kInitialHeight * day / stages.initial_d, 1};
  if (day < full)
    return {kInitialHeight + (1 - kInitialHeight) * (day - stages.initial_d) / stages.development_d,
            1};
  const double late = full + stages.mid_d;
  if (!growth.fades || day <= late) return {1, 1};
  return {1, std::max(0.0, 1 - (day - late) / stages.late_d)};
}

Grown dying_down(const Growth& growth, int day_of_year, bool southern) {
  const double share = leaf_share(growth.leaves, day_of_year, southern);
  if (share <= 0) return {};
  const YearDay start = growth.leaves.out_start.value;
  const bool rising = days_since(start, day_of_year, southern) <
                      days_since(start, growth.leaves.full.value.number, /*southern=*/false);
  return rising ? Grown{share, 1} : Grown{1, share};
}

}  // namespace

std::string_view growth_way_name(GrowthWay way) {
  switch (way) {
    case GrowthWay::kSown:
      return "sown";
    case GrowthWay::kDiesDown:
      return "dies down";
    case GrowthWay::kWoody:
      return "woody";
    case GrowthWay::kEvergreen:
      return "evergreen";
  }
  return "sown";
}

Growth growth_at(Growth growth, const LeafPlace& place) {
  constexpr double kMostPlanting_d = 21;
  constexpr int kLastOfJuly = 212;
  growth.leaves = leaf_dates_at(std::move(growth.leaves), place);
  if (growth.way != GrowthWay::kSown) return growth;
  const double later = days_later(place, growth.reference_latitude.value);
  const double planting = std::clamp(later, -kMostPlanting_d, kMostPlanting_d);
  move_date(growth.planted, growth.planted.value.number <= kLastOfJuly ? planting : -planting);
  if (growth.until) move_date(*growth.until, -later);
  return growth;
}

Growth planted_on(Growth growth, int day_of_year, bool southern) {
  if (growth.way != GrowthWay::kSown) return growth;
  growth.planted.standing = Standing::kMeasured;
  const int turned = southern ? day_of_year + kYear / 2 : day_of_year;
  growth.planted.value.number = (turned - 1 + kYear) % kYear + 1;
  return growth;
}

Grown grown(const Growth& growth, int day_of_year, bool southern) {
  switch (growth.way) {
    case GrowthWay::kSown:
      return sown_grown(growth, day_of_year, southern);
    case GrowthWay::kDiesDown:
      return dying_down(growth, day_of_year, southern);
    case GrowthWay::kWoody: {
      const double bare = growth.bare_share.value;
      return {1, bare + (1 - bare) * leaf_share(growth.leaves, day_of_year, southern)};
    }
    case GrowthWay::kEvergreen:
      return {1, 1};
  }
  return {};
}

}  // namespace spadework::facts
