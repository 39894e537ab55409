#include "sky/spa.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <numbers>

#include "sky/delta_t.h"
#include "sky/direction.h"
#include "sky/solar_position.h"
#include "sky/spa_terms.h"
#include "tests/golden/sky/read_csv.h"

namespace spadework::sky {
namespace {

using golden::Row;
using golden::sky_table;

constexpr double kExampleDay = 2452930.0 + (19.5 + 0.5 / 60) / 24 - 0.5;

SpaInput example() {
  SpaInput in;
  in.julian_day = kExampleDay;
  in.delta_t_s = 67;
  in.latitude_deg = 39.742476;
  in.longitude_deg = -105.1786;
  in.elevation_m = 1830.14;
  in.pressure_hpa = 820;
  in.air_c = 11;
  return in;
}

/// The angle between the sun and the normal of a plane, through the plan's own axes.
double incidence_deg(const SpaSteps& sun, double slope_deg, double faces_deg) {
  const geometry::Vec3 towards =
      direction_towards(degrees(sun.azimuth_deg), degrees(sun.apparent_elevation_deg), degrees(25));
  const geometry::Vec3 normal =
      direction_towards(degrees(faces_deg), degrees(90 - slope_deg), degrees(25));
  return in_degrees(radians(std::acos(dot(towards, normal))));
}

std::map<std::string, double> by_symbol(const SpaInput& in, const SpaSteps& s) {
  return {{"JD", in.julian_day},
          {"JC", s.julian_century},
          {"JDE", s.julian_ephemeris_day},
          {"JCE", s.julian_ephemeris_century},
          {"JME", s.julian_ephemeris_millennium},
          {"L", s.heliocentric_longitude_deg},
          {"B", s.heliocentric_latitude_deg},
          {"R", s.distance_au},
          {"Theta", s.geocentric_longitude_deg},
          {"beta", s.geocentric_latitude_deg},
          {"X0", s.nutation_arguments_deg[0]},
          {"X1", s.nutation_arguments_deg[1]},
          {"X2", s.nutation_arguments_deg[2]},
          {"X3", s.nutation_arguments_deg[3]},
          {"X4", s.nutation_arguments_deg[4]},
          {"dPsi", s.nutation_longitude_deg},
          {"dEps", s.nutation_obliquity_deg},
          {"eps0_arcsec", s.mean_obliquity_arcsec},
          {"eps", s.obliquity_deg},
          {"dTau", s.aberration_deg},
          {"lambda", s.apparent_longitude_deg},
          {"nu0", s.mean_sidereal_time_deg},
          {"nu", s.sidereal_time_deg},
          {"alpha", s.right_ascension_deg},
          {"delta", s.declination_deg},
          {"H", s.hour_angle_deg},
          {"xi", s.parallax_deg},
          {"dAlpha", s.right_ascension_parallax_deg},
          {"alpha_p", s.topocentric_right_ascension_deg},
          {"delta_p", s.topocentric_declination_deg},
          {"H_p", s.topocentric_hour_angle_deg},
          {"e0", s.true_elevation_deg},
          {"de", s.refraction_deg},
          {"e", s.apparent_elevation_deg},
          {"zenith", 90 - s.apparent_elevation_deg},
          {"azimuth", s.azimuth_deg},
          {"incidence", incidence_deg(s, 30, 170)},
          {"EoT_min", s.equation_of_time_min}};
}

// golden/sky/spa_example: Reda and Andreas 2008, Table A5.1.
TEST(SpaGolden, EveryStepOfTheReportsExample) {
  const std::map<std::string, double> ours = by_symbol(example(), spa(example()));
  const std::vector<Row> rows = sky_table("spa_example/data.csv");
  EXPECT_EQ(rows.size(), ours.size());
  for (const Row& row : rows) {
    ASSERT_TRUE(ours.contains(row.text("symbol"))) << row.text("symbol");
    EXPECT_NEAR(ours.at(row.text("symbol")), row.number("value"), row.number("tolerance"))
        << row.text("symbol");
  }
}

UtcTime utc(const std::string& text) {
  const auto date = parse_date(text.substr(0, 10));
  EXPECT_TRUE(date) << text;
  return UtcTime{utc_midnight(*date).unix_s + std::stoi(text.substr(11, 2)) * 3600 +
                 std::stoi(text.substr(14, 2)) * 60 + std::stoi(text.substr(17, 2))};
}

// golden/sky/spa_more: further figures of NREL's calculator.
TEST(SpaGolden, NearbyDayPressureDistanceAndDeltaT) {
  for (const Row& row : sky_table("spa_more/data.csv")) {
    const Site site{degrees(row.number("latitude_deg")), degrees(row.number("longitude_deg")),
                    metres(row.number("elevation_m"))};
    SunOptions options;
    options.pressure = pascals(100 * row.number("pressure_hpa"));
    options.air = celsius(row.number("air_c"));
    if (row.has("delta_t_s")) options.delta_t_s = row.number("delta_t_s");
    const SunPosition sun = sun_position(utc(row.text("time_utc")), site, options);
    const std::map<std::string, double> ours = {
        {"elevation_apparent_deg", in_degrees(sun.apparent_elevation)},
        {"elevation_true_deg", in_degrees(sun.true_elevation)},
        {"azimuth_deg", in_degrees(sun.azimuth)},
        {"distance_au", sun.distance_au}};
    EXPECT_NEAR(ours.at(row.text("what")), row.number("value"), row.number("tolerance"))
        << row.text("what") << " " << row.text("time_utc");
  }
}

// The mean motion of the Earth is 2π a Julian year and a little; L must follow it through the
// centuries, or a term of the higher powers is wrong.
TEST(SpaSeries, LongitudeGainsATurnEveryTropicalYear) {
  constexpr double kTropicalYear_d = 365.242190;  // mean, J2000
  for (int century : {-20, -10, -5, -1, 1, 5, 10}) {
    const double span_d = century * 36525.0;
    const double turns = (earth_state(2451545.0 + span_d).heliocentric_longitude_rad -
                          earth_state(2451545.0).heliocentric_longitude_rad) /
                         (2 * std::numbers::pi);
    // The equation of the centre shifts by its precession: at most 2 e = 0.034 rad either way.
    EXPECT_NEAR(turns, span_d / kTropicalYear_d, 0.011 + 5e-5 * century * century) << century;
  }
}

TEST(SpaSeries, TheEarthIsNearestInEarlyJanuary) {
  const double january = earth_state(2461044.5).distance_au;  // 2026-01-04
  const double july = earth_state(2461227.5).distance_au;     // 2026-07-06
  EXPECT_NEAR(january, 0.9833, 0.0002);
  EXPECT_NEAR(july, 1.0167, 0.0002);
}

TEST(SpaTerms, HaveTheReportsCounts) {
  EXPECT_EQ(terms::kLongitude0.size() + terms::kLongitude1.size() + terms::kLongitude2.size() +
                terms::kLongitude3.size() + terms::kLongitude4.size() + terms::kLongitude5.size(),
            64u + 34u + 20u + 7u + 3u + 1u);
  EXPECT_EQ(terms::kLatitude0.size() + terms::kLatitude1.size(), 5u + 2u);
  EXPECT_EQ(terms::kDistance0.size() + terms::kDistance1.size() + terms::kDistance2.size() +
                terms::kDistance3.size() + terms::kDistance4.size(),
            40u + 10u + 6u + 2u + 1u);
  EXPECT_EQ(terms::kNutation.size(), 63u);
}

// golden/sky/delta_t.
TEST(DeltaTGolden, AgreesWithPrintedAndOtherProgramsValues) {
  for (const Row& row : sky_table("delta_t/data.csv")) {
    const int year = static_cast<int>(row.number("year"));
    EXPECT_NEAR(delta_t_s(year, static_cast<unsigned>(row.number("month"))),
                row.number("delta_t_s"), row.number("tolerance_s"))
        << year << " " << row.text("source");
  }
}

TEST(DeltaT, ItsPiecesMeet) {
  for (int year : {1600, 1700, 1800, 1860, 1900, 1920, 1941, 1961, 1986, 2005, 2050, 2150}) {
    EXPECT_NEAR(delta_t_s(year - 1, 12), delta_t_s(year, 1), 0.4) << year;
  }
}

}  // namespace
}  // namespace spadework::sky
