// A year of sun and light at places: hours by parts of the day, sunshine to expect, amounts.
#pragma once

#include <array>
#include <span>
#include <string>
#include <vector>

#include "base/base.h"
#include "garden/body.h"
#include "light/caster.h"
#include "light/places.h"
#include "light/sky_light.h"
#include "light/sun_year.h"

namespace spadework::light {

/// A mean day of a month. Sun hours are those of clear days, with their parts (midday is the four
/// hours around the sun's noon); the rest carries the month's cloud.
struct MonthSun {
  double sun_h_per_day = 0, morning_h = 0, midday_h = 0, afternoon_h = 0;
  double sunshine_h_per_day = 0;  // to expect
  double dli_mol_m2_d = 0;
  double share_of_open = 0;  // of the DLI; NaN in a month without light
};
using YearSun = std::array<MonthSun, 12>;

/// The DLI of a cell in a month (0 to 11), mol/m² a day: its beam, and its share of the sky.
[[nodiscard]] double dli_of(const SunYear& year, const BeamLight& sun, const SkyLight& sky,
                            std::size_t month, std::size_t cell);

struct PlaceSun {
  Place place;
  YearSun months;
};

/// The sun and the light of places through a year.
/// In:     places with their receivers; bodies of the whole garden; the garden for its skyline.
/// Out:    in the order of the places; equal to the last bit whatever `threads` is.
/// Errors: kNoAnswer when the bodies in reach of all places are over 500,000, or when it was
/// cancelled. Tested: oracle/embree_light_test.cpp, golden/light/analytic.csv.
[[nodiscard]] Result<std::vector<PlaceSun>> sun_of_places(const garden::Garden& garden,
                                                          std::vector<Place> places,
                                                          const std::vector<garden::Body>& bodies,
                                                          const SunYear& year, int threads,
                                                          Progress* progress);

/// Means over growing months (April to September, October to March south of the equator) or all.
[[nodiscard]] double mean_sun_h(const YearSun& year, const std::array<int, 12>& days_in_month,
                                std::span<const int> months);
/// Of any figure; months that do not have it (NaN) are passed over.
[[nodiscard]] double mean_of(const YearSun& year, const std::array<int, 12>& days_in_month,
                             std::span<const int> months, double MonthSun::*figure);
[[nodiscard]] std::vector<int> growing_months(Angle latitude);  // 0 to 11, in the season's order

/// What shades receivers: of the garden's bodies those that can take any of the year's sun (that
/// rise above the lowest sun from the lowest corner of the grids), with `own` in the stead of
/// `replaces`.
[[nodiscard]] std::vector<garden::Body> bodies_in_reach(std::span<const Receiver> receivers,
                                                        const std::vector<garden::Body>& bodies,
                                                        const std::vector<garden::Body>& own,
                                                        const std::vector<std::string>& replaces,
                                                        double lowest_tangent);

}  // namespace spadework::light
