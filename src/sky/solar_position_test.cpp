#include "sky/solar_position.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sky/direction.h"
#include "tests/golden/sky/read_csv.h"

namespace spadework::sky {
namespace {

using geometry::Vec3;
using golden::Row;
using golden::sky_table;

UtcTime utc(const std::string& text) {
  return UtcTime{utc_midnight(parse_date(text.substr(0, 10)).value()).unix_s +
                 std::stoi(text.substr(11, 2)) * 3600 + std::stoi(text.substr(14, 2)) * 60 +
                 std::stoi(text.substr(17, 2))};
}

/// Exact for small angles too.
double angle_between_deg(Vec3 a, Vec3 b) {
  return in_degrees(radians(2 * std::asin(std::min(1.0, length(a + b * -1.0) / 2))));
}

Vec3 pointing(double azimuth_deg, double elevation_deg) {
  return direction_towards(degrees(azimuth_deg), degrees(elevation_deg), Angle{});
}

struct Other {
  const char *azimuth, *elevation;
  double tolerance_deg;
};

// golden/sky/solar_positions: six other programs; tolerances and reasons in its case.toml.
TEST(SolarPositionGolden, AgreesWithSixOtherProgramsWhileTheSunIsUp) {
  const std::vector<Other> others = {{"spa_azimuth", "spa_elev_true", 0.00002},
                                     {"ephem_az", "ephem_alt", 0.0005},
                                     {"ae_az", "ae_alt", 0.001},
                                     {"noaa_az", "noaa_alt", 0.02},
                                     {"suncalc_az", "suncalc_alt", 0.35},
                                     {"spencer_az", "spencer_alt", 0.7}};
  const std::vector<Row> rows = sky_table("solar_positions/data.csv");
  EXPECT_EQ(rows.size(), 504u);
  std::vector<double> worst(others.size(), 0.0);
  for (const Row& row : rows) {
    if (row.number("spa_elev_true") < 0) continue;
    const Site site{degrees(row.number("lat")), degrees(row.number("lon")), metres(0)};
    const SunPosition sun = sun_position(utc(row.text("utc")), site);
    const Vec3 ours = direction_towards(sun.azimuth, sun.true_elevation, Angle{});
    for (std::size_t i = 0; i < others.size(); ++i) {
      const Vec3 theirs = pointing(row.number(others[i].azimuth), row.number(others[i].elevation));
      worst[i] = std::max(worst[i], angle_between_deg(ours, theirs));
    }
  }
  for (std::size_t i = 0; i < others.size(); ++i) {
    EXPECT_LT(worst[i], others[i].tolerance_deg) << others[i].azimuth;
    EXPECT_GT(worst[i], 0) << others[i].azimuth;
  }
}

TEST(SolarPositionGolden, RefractionAndEquationOfTimeAgreeWithAnotherSpa) {
  for (const Row& row : sky_table("solar_positions/data.csv")) {
    const Site site{degrees(row.number("lat")), degrees(row.number("lon")), metres(0)};
    SunOptions options;
    options.pressure = pascals(101000);
    const SpaSteps sun = sun_steps(utc(row.text("utc")), site, options);
    EXPECT_NEAR(sun.equation_of_time_min, row.number("eot_min"), 0.0001) << row.text("utc");
    EXPECT_NEAR(sun.apparent_elevation_deg, row.number("spa_elev_apparent_1010hPa_10C"), 0.00002)
        << row.text("utc");
  }
}

// golden/sky/eot_declination.
TEST(SolarPositionGolden, DeclinationEquationOfTimeAndDistanceThrough2024) {
  for (const Row& row : sky_table("eot_declination/data.csv")) {
    const SpaSteps sun = sun_steps(utc(row.text("date") + "T12:00:00"), Site{});
    EXPECT_NEAR(sun.declination_deg, row.number("spa_decl_deg"), 0.00001) << row.text("date");
    EXPECT_NEAR(sun.equation_of_time_min, row.number("spa_eot_min"), 0.0001) << row.text("date");
    EXPECT_NEAR(sun.distance_au, row.number("spa_R_AU"), 0.000001) << row.text("date");
  }
}

constexpr double kJune2026 = 1781956800;  // 2026-06-20 12:00 UTC

TEST(SunPosition, SolarTimeIsTwelveWhenTheSunStandsSouth) {
  const Site site{degrees(48.41), degrees(-4.6), metres(40)};
  double before = kJune2026, after = kJune2026 + 3600;
  for (int i = 0; i < 40; ++i) {
    const double middle = (before + after) / 2;
    (sun_position(UtcTime{middle}, site).solar_time_h < 12 ? before : after) = middle;
  }
  const SunPosition noon = sun_position(UtcTime{after}, site);
  EXPECT_NEAR(in_degrees(noon.azimuth), 180, 1e-4);
  EXPECT_NEAR(in_degrees(noon.hour_angle), 0, 1e-5);
  // 90° − latitude + declination, less 0.002° of parallax that the declination already has.
  EXPECT_NEAR(in_degrees(noon.true_elevation), 90 - 48.41 + in_degrees(noon.declination), 1e-6);
}

TEST(SunPosition, MorningAndAfternoonMirrorEachOtherAboutNoon) {
  const Site site{degrees(-43.1), degrees(147.2), metres(10)};
  for (double hours : {1.0, 2.5, 4.0}) {
    // At the solstice the declination is still: the same time either side of solar noon.
    double noon_s = kJune2026 + 12 * 3600;
    for (int i = 0; i < 5; ++i) {
      noon_s -= (sun_position(UtcTime{noon_s}, site).solar_time_h - 12) * 3600;
    }
    const SunPosition a = sun_position(UtcTime{noon_s - hours * 3600}, site);
    const SunPosition b = sun_position(UtcTime{noon_s + hours * 3600}, site);
    EXPECT_NEAR(a.solar_time_h + b.solar_time_h, 24, 0.001);
    EXPECT_NEAR(in_degrees(a.true_elevation), in_degrees(b.true_elevation), 0.01);
    EXPECT_NEAR(std::remainder(in_degrees(a.azimuth) + in_degrees(b.azimuth), 360), 0, 0.01);
  }
}

TEST(SunPosition, HourAngleAndDeclinationGiveBackTheDirection) {
  for (double latitude : {-90.0, -33.87, 0.0, 52.0, 90.0}) {
    const Site site{degrees(latitude), degrees(21), metres(300)};
    for (int hour = 0; hour < 24; ++hour) {
      const SunPosition sun = sun_position(UtcTime{kJune2026 + hour * 3600}, site);
      const Vec3 a = direction_towards(sun.azimuth, sun.true_elevation, degrees(70));
      const Vec3 b =
          direction_from_hour_angle(site.latitude, sun.declination, sun.hour_angle, degrees(70));
      EXPECT_LT(angle_between_deg(a, b), 1e-9) << latitude << " " << hour;
    }
  }
}

TEST(SunPosition, HighGroundAndWarmAirBendTheBeamLess) {
  const UtcTime t{kJune2026 + 7 * 3600};
  const auto bent = [&](double elevation_m, double air_c) {
    SunOptions options;
    options.air = celsius(air_c);
    const SunPosition sun =
        sun_position(t, Site{degrees(52), degrees(0), metres(elevation_m)}, options);
    return in_degrees(sun.apparent_elevation - sun.true_elevation);
  };
  EXPECT_GT(bent(0, 10), bent(1500, 10));
  EXPECT_GT(bent(0, 10), bent(0, 25));
  EXPECT_GT(bent(1500, 25), 0);
}

TEST(SunPosition, DeltaTOverridesThePolynomials) {
  const Site site{degrees(40), degrees(-80), metres(0)};
  SunOptions none;
  none.delta_t_s = 0;
  const double with = in_degrees(sun_position(UtcTime{kJune2026}, site).azimuth);
  EXPECT_GT(std::abs(with - in_degrees(sun_position(UtcTime{kJune2026}, site, none).azimuth)),
            1e-6);
}

TEST(AlmanacTest, IsWithinAMillionthOfADegreeOfTheWholeAlgorithm) {
  const Site site{degrees(48.41), degrees(-4.6), metres(40)};
  for (int year : {1900, 2003, 2026, 2100}) {
    const Almanac almanac = Almanac::of_year(year);
    double worst_deg = 0;
    for (double s = almanac.from().unix_s; s <= almanac.to().unix_s; s += 41234.5) {
      const SunPosition a = almanac.sun_position(UtcTime{s}, site);
      const SunPosition b = sun_position(UtcTime{s}, site);
      const Vec3 p = direction_towards(a.azimuth, a.true_elevation, Angle{});
      const Vec3 q = direction_towards(b.azimuth, b.true_elevation, Angle{});
      worst_deg = std::max(worst_deg, angle_between_deg(p, q));
      EXPECT_NEAR(a.distance_au, b.distance_au, 1e-8);
    }
    EXPECT_LT(worst_deg, 1e-6) << year;
  }
}

TEST(AlmanacTest, DoesNotDependOnWhereItsSpanStarts) {
  const Site site{degrees(52), degrees(0), metres(0)};
  const UtcTime t{kJune2026 + 1234};
  const Almanac year = Almanac::of_year(2026);
  const Almanac hour(t, UtcTime{t.unix_s + 3600});
  EXPECT_EQ(year.sun_position(t, site).azimuth, hour.sun_position(t, site).azimuth);
}

TEST(AlmanacTest, AnswersAtBothItsEnds) {
  const Site site{degrees(52), degrees(0), metres(0)};
  // ΔT falls from month to month in these years: the last instant is asked with less of it.
  for (const char* start : {"1720-02-29T23:59:59", "2026-03-31T23:59:59"}) {
    const UtcTime from = utc(start), to{from.unix_s + 2};
    const Almanac almanac(from, to);
    for (const UtcTime t : {from, to}) {
      EXPECT_NEAR(in_degrees(almanac.sun_position(t, site).azimuth),
                  in_degrees(sun_position(t, site).azimuth), 1e-5);
    }
  }
}

TEST(AlmanacDeathTest, StopsOutsideItsSpan) {
  const Almanac almanac(UtcTime{kJune2026}, UtcTime{kJune2026 + 10});
  EXPECT_DEATH((void)almanac.sun_position(UtcTime{kJune2026 + 11}, Site{}), "");
}

TEST(Direction, BearingsTurnWithThePlan) {
  const auto near = [](Vec3 a, Vec3 b) { return length(a + b * -1.0) < 1e-12; };
  EXPECT_TRUE(near(direction_towards(degrees(90), Angle{}, Angle{}), {1, 0, 0}));
  EXPECT_TRUE(near(direction_towards(degrees(0), Angle{}, Angle{}), {0, 1, 0}));
  EXPECT_TRUE(near(direction_towards(degrees(123), degrees(90), degrees(45)), {0, 0, 1}));
  // The page's up points east: the east is up the page, the south to the right of it.
  EXPECT_TRUE(near(direction_towards(degrees(90), Angle{}, degrees(90)), {0, 1, 0}));
  EXPECT_TRUE(near(direction_towards(degrees(180), Angle{}, degrees(90)), {1, 0, 0}));
  // North to the west of the page's up.
  EXPECT_TRUE(near(direction_towards(degrees(340), Angle{}, degrees(340)), {0, 1, 0}));
}

TEST(Direction, ClosedFormsOfHourAngle) {
  const auto near = [](Vec3 a, Vec3 b) { return length(a + b * -1.0) < 1e-12; };
  for (double latitude : {-60.0, 0.0, 48.0}) {
    // At the equinox the sun rises due east, everywhere.
    EXPECT_TRUE(near(direction_from_hour_angle(degrees(latitude), Angle{}, degrees(-90), Angle{}),
                     {1, 0, 0}));
    // At noon it stands 90° − latitude + declination high, in the south.
    const Vec3 noon = direction_from_hour_angle(degrees(latitude), degrees(10), Angle{}, Angle{});
    EXPECT_NEAR(noon.x, 0, 1e-12);
    EXPECT_NEAR(noon.y, -std::sin(in_radians(degrees(latitude - 10))), 1e-12);
    EXPECT_NEAR(noon.z, std::cos(in_radians(degrees(latitude - 10))), 1e-12);
  }
}

TEST(Direction, SouthernHemisphereIsTheNorthernTurnedOver) {
  for (double hour_angle : {-80.0, -15.0, 40.0}) {
    const Vec3 north =
        direction_from_hour_angle(degrees(40), degrees(20), degrees(hour_angle), Angle{});
    const Vec3 south =
        direction_from_hour_angle(degrees(-40), degrees(-20), degrees(hour_angle), Angle{});
    EXPECT_NEAR(north.x, south.x, 1e-14);
    EXPECT_NEAR(north.y, -south.y, 1e-14);
    EXPECT_NEAR(north.z, south.z, 1e-14);
    EXPECT_NEAR(length(north), 1, 1e-14);
  }
}

}  // namespace
}  // namespace spadework::sky
