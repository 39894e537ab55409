// A year of sun: how many hours reach each place, month by month, by parts of the day.
#pragma once

#include <array>
#include <span>
#include <string>
#include <vector>

#include "base/base.h"
#include "garden/body.h"
#include "light/caster.h"
#include "light/places.h"
#include "light/samples.h"
#include "sky/sky.h"

namespace spadework::light {

/// The clear sun of a year over the skyline of a garden: what the caster wants.
struct SunYear {
  std::vector<SunSample> samples;  // over the far skyline and over the sunshine threshold
  std::array<int, 12> days_in_month{};
  double hours_each = 1;      // the time that a sample stands for
  double lowest_tangent = 0;  // of the elevation of the lowest of them
};
/// Source: [spa] positions; [ineichen-perez] beam; [wmo8] threshold.
[[nodiscard]] SunYear sun_year(const garden::Garden& garden, int year = kReferenceYear);
/// The sun of one date in 4-minute steps: its month holds that day alone, the others nothing.
[[nodiscard]] SunYear sun_of_day(const garden::Garden& garden, LocalDate date);

/// Mean hours a day of sun, and its parts: midday is the four hours around the sun's noon.
struct MonthSun {
  double sun_h_per_day = 0, morning_h = 0, midday_h = 0, afternoon_h = 0;
};
using YearSun = std::array<MonthSun, 12>;

struct PlaceSun {
  Place place;
  YearSun months;
};

/// The sun of places through a year.
/// In:     places with their receivers; bodies of the whole garden.
/// Out:    in the order of the places; equal to the last bit whatever `threads` is.
/// Errors: kNoAnswer when the bodies in reach of all places are over 500,000, or when it was
/// cancelled. Tested: oracle/embree_light_test.cpp, golden/light/analytic.csv.
[[nodiscard]] Result<std::vector<PlaceSun>> sun_of_places(std::vector<Place> places,
                                                          const std::vector<garden::Body>& bodies,
                                                          const SunYear& year, int threads,
                                                          Progress* progress);

/// Means over growing months (April to September, October to March south of the equator) or all.
[[nodiscard]] double mean_sun_h(const YearSun& year, const std::array<int, 12>& days_in_month,
                                std::span<const int> months);
[[nodiscard]] std::vector<int> growing_months(Angle latitude);  // 0 to 11, in the season's order

/// What shades receivers: of the garden's bodies those that can take any of the year's sun (that
/// rise above the lowest sun from the lowest corner of the grids), with `own` in the stead of
/// `replaces`.
[[nodiscard]] std::vector<garden::Body> bodies_in_reach(std::span<const Receiver> receivers,
                                                        const std::vector<garden::Body>& bodies,
                                                        const std::vector<garden::Body>& own,
                                                        const std::string& replaces,
                                                        double lowest_tangent);

}  // namespace spadework::light
