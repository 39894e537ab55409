// North and heights from shadows: published noons, another program's suns, closed forms, refusals.
#include "ground/shadows.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sky/direction.h"
#include "sky/sun_events.h"
#include "tests/golden/sky/read_csv.h"

namespace spadework::ground {
namespace {

using geometry::Vec2;
using golden::Row;
using golden::sky_table;
using ::testing::HasSubstr;

constexpr double kDegree = std::numbers::pi / 180;

TimeZone fixed_zone(double hours) {
  return TimeZone("fixed", {{UtcTime{-1e12}, static_cast<int>(std::lround(hours * 3600)), false}});
}

ShadowPlace place_at(double latitude_deg, double longitude_deg, double zone_h = 0) {
  return {{degrees(latitude_deg), degrees(longitude_deg), metres(0)}, fixed_zone(zone_h), {}};
}

double hour_of(const std::string& hms) {
  return std::stoi(hms.substr(0, 2)) + std::stoi(hms.substr(3, 2)) / 60.0 +
         std::stoi(hms.substr(6, 2)) / 3600.0;
}

// golden/sky/sunrise_sunset: NREL's calculator and the report's own example.
TEST(NoonShadowGolden, AtPublishedTransits) {
  int compared = 0;
  for (const Row& row : sky_table("sunrise_sunset/published.csv")) {
    if (!row.has("transit_local")) continue;
    const double latitude_deg = row.number("latitude_deg");
    const auto noon =
        noon_shadow(place_at(latitude_deg, row.number("longitude_deg"), row.number("utc_offset_h")),
                    *parse_date(row.text("local_date")));
    ASSERT_TRUE(noon) << row.text("place");
    EXPECT_NEAR(noon->clock_h * 3600, hour_of(row.text("transit_local")) * 3600, 2)
        << row.text("place");
    EXPECT_EQ(noon->points_north, latitude_deg > 0);
    EXPECT_EQ(in_degrees(noon->bearing.value), latitude_deg > 0 ? 0 : 180);
    ++compared;
  }
  EXPECT_EQ(compared, 5);
}

// golden/sky/sunrise_sunset: 56 days at seven sites, those with a noon high enough.
TEST(NoonShadowGolden, AtTheTransitsOfAYear) {
  int compared = 0;
  for (const Row& row : sky_table("sunrise_sunset/ephem_2024.csv")) {
    const LocalDate date = *parse_date(row.text("local_date"));
    const double zone_h = std::round(row.number("lon") / 15);
    const auto noon =
        noon_shadow(place_at(row.number("lat"), row.number("lon"), zone_h), date, metres(2));
    if (!noon) continue;
    const double utc_h = hour_of(row.text("spa_transit").substr(11));
    EXPECT_NEAR(noon->clock_h * 3600, (utc_h + zone_h) * 3600, 1) << row.text("site");
    ++compared;
  }
  EXPECT_GE(compared, 50);
}

// At the meridian the bearing turns by 15.04°/h · cos δ / cos(elevation).
TEST(NoonShadow, IsAsSureAsClockAndStickAllow) {
  const ShadowPlace place = place_at(48.41, -4.36);
  const auto noon = noon_shadow(place, make_date(2026, 4, 20), metres(1.5));
  ASSERT_TRUE(noon);
  const sky::SunPosition sun = sky::sun_position(noon->at, place.site);
  const double per_min =
      15.04 / 60 * std::cos(in_radians(sun.declination)) / std::cos(in_radians(sun.true_elevation));
  const double shadow_m = 1.5 / std::tan(in_radians(sun.apparent_elevation));
  EXPECT_NEAR(in_metres(noon->shadow), shadow_m, 1e-6);
  EXPECT_NEAR(in_degrees(noon->bearing.sigma), std::hypot(2 * per_min, 0.05 / shadow_m / kDegree),
              0.005);
  EXPECT_EQ(noon->clock_sigma_min, 0);
}

TEST(NoonShadow, PointsEitherWayBetweenTheTropicsBySeason) {
  const ShadowPlace place = place_at(8, 100, 7);
  EXPECT_FALSE(noon_shadow(place, make_date(2026, 6, 21))->points_north);
  EXPECT_TRUE(noon_shadow(place, make_date(2026, 12, 21))->points_north);
  EXPECT_FALSE(noon_shadow(place_at(-40, 0), make_date(2026, 6, 21))->points_north);
  EXPECT_TRUE(noon_shadow(place_at(40, 0), make_date(2026, 6, 21))->points_north);
}

// A town 10 km away, each way: 10 km are 0.134° of longitude at 48°, and 4 minutes a degree.
TEST(NoonShadow, TellsHowFarATownsNoonMayBeOff) {
  ShadowPlace place = place_at(48, 0);
  place.place_sigma = metres(10000);
  const auto noon = noon_shadow(place, make_date(2026, 4, 20));
  ASSERT_TRUE(noon);
  const double off_deg = 10 / (6371 * kDegree * std::cos(48 * kDegree));
  EXPECT_NEAR(noon->clock_sigma_min, 4 * off_deg, 0.01);
  EXPECT_GT(noon->bearing.sigma,
            noon_shadow(place_at(48, 0), make_date(2026, 4, 20))->bearing.sigma);
}

TEST(NoonShadow, RefusesDaysThatTellNothing) {
  const auto error_of = [](double latitude_deg, LocalDate date) {
    const auto noon = noon_shadow(place_at(latitude_deg, 0), date);
    EXPECT_FALSE(noon);
    return noon ? Error{} : noon.error();
  };
  const Error overhead = error_of(22, make_date(2026, 6, 21));
  EXPECT_EQ(overhead.code, ErrorCode::kNoAnswer);
  EXPECT_EQ(overhead.where, "/date");
  EXPECT_THAT(overhead.message, HasSubstr("cm long and turns quickly"));
  EXPECT_THAT(error_of(71, make_date(2026, 12, 21)).message, HasSubstr("does not rise"));
  EXPECT_THAT(error_of(65, make_date(2026, 12, 21)).message, HasSubstr("° high at noon"));
  EXPECT_EQ(noon_shadow(place_at(48, 0), make_date(2026, 4, 20), metres(0)).error().where,
            "/stick_m");
}

// golden/sky/solar_positions, PyEphem's bearings: a shadow straight up the page means that the
// page's up is away from the sun.
TEST(NorthFromShadowGolden, IsAwayFromAnotherProgramsSun) {
  int compared = 0;
  for (const Row& row : sky_table("solar_positions/data.csv")) {
    const double up_deg = row.number("spa_elev_apparent_1010hPa_10C");
    if (up_deg < 5 || up_deg > 70) continue;
    const std::string when = row.text("utc");
    const auto north = plan_north_from_shadow(
        place_at(row.number("lat"), row.number("lon")),
        {{3, 4}, {3, 9}, *parse_date(when.substr(0, 10)), hour_of(when.substr(11))});
    ASSERT_TRUE(north) << when << " " << north.error().message;
    const double off = in_degrees(north->plan_north.value) - (row.number("ephem_az") + 180);
    EXPECT_NEAR(off - 360 * std::round(off / 360), 0, 0.002) << when;
    ++compared;
  }
  EXPECT_GT(compared, 150);
}

TEST(NorthFromShadow, GivesBackTheNorthThatThePlanWasDrawnWith) {
  const ShadowPlace place = place_at(-33.9, 151.2, 10);
  const LocalDate date = make_date(2026, 8, 3);
  for (const double plan_north_deg : {0.0, 17.0, 95.0, 181.0, 340.0}) {
    const auto sun = sky::sun_position(place.time_zone.at_clock(date, 15.5), place.site);
    const auto d =
        sky::direction_towards(sun.azimuth, sun.apparent_elevation, degrees(plan_north_deg));
    const Vec2 foot{5, 7}, tip = foot - Vec2{d.x, d.y} * (3 / d.z);
    const auto north = plan_north_from_shadow(place, {foot, tip, date, 15.5});
    ASSERT_TRUE(north);
    EXPECT_NEAR(in_degrees(north->plan_north.value), plan_north_deg, 1e-4);
    EXPECT_NEAR(in_degrees(bearing_on_plan(tip - foot, north->plan_north.value)),
                in_degrees(north->shadow_bearing), 1e-9);
  }
}

TEST(NorthFromShadow, IsAsSureAsMovingClockAndTipSays) {
  const ShadowPlace place = place_at(51.5, 0);
  const ShadowOnPlan shadow{{0, 0}, {1.2, 2.1}, make_date(2026, 5, 9), 10.25};
  const auto north_deg = [&](double clock_h, Vec2 tip) {
    ShadowOnPlan moved = shadow;
    moved.clock_h = clock_h, moved.tip = tip;
    return in_degrees(plan_north_from_shadow(place, moved)->plan_north.value);
  };
  const double by_clock =
      (north_deg(10.25 + 2 / 60.0, shadow.tip) - north_deg(10.25 - 2 / 60.0, shadow.tip)) / 2;
  const Vec2 across = geometry::left_of(geometry::unit(shadow.tip)) * 0.05;
  const double by_tip =
      (north_deg(10.25, shadow.tip + across) - north_deg(10.25, shadow.tip - across)) / 2;
  EXPECT_NEAR(in_degrees(plan_north_from_shadow(place, shadow)->plan_north.sigma),
              std::hypot(by_clock, by_tip), 0.002);
}

TEST(NorthFromShadow, TellsWhatWouldNarrowIt) {
  const ShadowPlace place = place_at(51.5, 0);
  const ShadowOnPlan shadow{{0, 0}, {0, 0.9}, make_date(2026, 6, 9), 12.5};
  const auto north = plan_north_from_shadow(place, shadow);
  ASSERT_TRUE(north);
  ASSERT_FALSE(north->remedies.empty());
  EXPECT_LE(north->remedies.size(), 3U);
  bool other_hour = false;
  for (const Remedy<Angle>& remedy : north->remedies) {
    EXPECT_LE(remedy.sigma_after, north->plan_north.sigma * 0.9);
    if (remedy.by == Better::kMarkTip) {
      ShadowErrors pegged;
      pegged.tip = metres(0.01);
      EXPECT_NEAR(in_degrees(remedy.sigma_after),
                  in_degrees(plan_north_from_shadow(place, shadow, pegged)->plan_north.sigma),
                  1e-9);
    }
    if (remedy.by != Better::kOtherHour) continue;
    other_hour = true;
    ASSERT_TRUE(remedy.clock_h);
    const double high = 0.9 * std::tan(in_radians(north->sun.apparent_elevation));
    const auto sun =
        sky::sun_position(place.time_zone.at_clock(shadow.date, *remedy.clock_h), place.site);
    const ShadowOnPlan then{{0, 0},
                            {0, high / std::tan(in_radians(sun.apparent_elevation))},
                            shadow.date,
                            *remedy.clock_h};
    EXPECT_NEAR(in_degrees(remedy.sigma_after),
                in_degrees(plan_north_from_shadow(place, then)->plan_north.sigma), 1e-6);
  }
  EXPECT_TRUE(other_hour);  // a short shadow at noon: any lower sun is better
}

TEST(NorthFromShadow, RefusesWithAReasonAndAWayOut) {
  const LocalDate june = make_date(2026, 6, 21);
  const auto error_of = [&](const ShadowPlace& place, double clock_h, Vec2 tip) {
    const auto north = plan_north_from_shadow(place, {{0, 0}, tip, june, clock_h});
    EXPECT_FALSE(north);
    return north ? Error{} : north.error();
  };
  const ShadowPlace north50 = place_at(50, 0), tropic = place_at(23, 0), pole = place_at(-75, 0);
  const Error down = error_of(north50, 23, {0, 3});
  EXPECT_EQ(down.where, "/clock");
  EXPECT_THAT(down.message, HasSubstr("at 23:00 the sun is down"));
  EXPECT_THAT(down.hint, HasSubstr("high enough from 04:"));
  EXPECT_THAT(error_of(pole, 12, {0, 3}).hint, HasSubstr("take another day"));
  EXPECT_THAT(error_of(north50, 4.1, {0, 30}).message, HasSubstr("stands only 1° high"));
  EXPECT_THAT(error_of(tropic, 12, {0, 0.1}).message, HasSubstr("almost overhead"));
  const Error brief = error_of(north50, 12, {0, 0.2});
  EXPECT_EQ(brief.where, "/tip");
  EXPECT_THAT(brief.message, HasSubstr("too short to tell north"));
  EXPECT_EQ(error_of(north50, 12, {0, 0}).where, "/tip");
  ShadowErrors slow_clock;
  slow_clock.clock_min = 8;
  const auto quick =
      plan_north_from_shadow(place_at(17, 0), {{0, 0}, {0, 1}, june, 12.03}, slow_clock);
  ASSERT_FALSE(quick);
  EXPECT_EQ(quick.error().where, "/clock");
  EXPECT_THAT(quick.error().message, HasSubstr("the shadow turns by"));
  EXPECT_EQ(error_of(north50, 25, {0, 3}).code, ErrorCode::kImpossibleValue);
  EXPECT_EQ(error_of(north50, std::nan(""), {0, 3}).where, "/clock");
}

TapedShadow shadow_of(double along_m, LocalDate date, double clock_h, double rise_m = 0,
                      double rise_sigma_m = 0) {
  return {metres(along_m), {metres(rise_m), metres(rise_sigma_m)}, date, clock_h};
}

// golden/sky/solar_positions: another program's elevation through the air, at 1010 hPa.
TEST(HeightFromShadowGolden, IsLengthTimesTheTangentOfAnotherProgramsElevation) {
  int compared = 0;
  for (const Row& row : sky_table("solar_positions/data.csv")) {
    const double up_deg = row.number("spa_elev_apparent_1010hPa_10C");
    if (up_deg < 6 || up_deg > 80) continue;
    const std::string when = row.text("utc");
    const auto height = height_from_shadow(
        place_at(row.number("lat"), row.number("lon")),
        shadow_of(10, *parse_date(when.substr(0, 10)), hour_of(when.substr(11)), -0.4));
    ASSERT_TRUE(height) << when;
    const double expected_m = 10 * std::tan(up_deg * kDegree) - 0.4;
    EXPECT_NEAR(in_metres(height->height.value), expected_m, 1e-3 + 1e-4 * expected_m) << when;
    ++compared;
  }
  EXPECT_GT(compared, 150);
}

TEST(HeightFromShadow, EqualsTheShadowAt45Degrees) {
  const ShadowPlace place = place_at(48, 0);
  const LocalDate date = make_date(2026, 5, 20);
  double low = 6, high = 12;  // the morning hour at which the sun passes 45°
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    const auto sun = sky::sun_position(place.time_zone.at_clock(date, middle), place.site);
    (in_degrees(sun.apparent_elevation) < 45 ? low : high) = middle;
  }
  const auto height = height_from_shadow(place, shadow_of(7.3, date, low));
  ASSERT_TRUE(height);
  EXPECT_NEAR(in_metres(height->height.value), 7.3, 1e-4);
  const auto uphill = height_from_shadow(place, shadow_of(7.3, date, low, 0.8));
  EXPECT_NEAR(in_metres(uphill->height.value), 8.1, 1e-4);
}

// Sharp in all else, the disc's blur alone is left: half its width over √3, by the slope of the
// tangent.
TEST(HeightFromShadow, IsNeverSurerThanTheHalfShadow) {
  const ShadowPlace place = place_at(48, 0);
  ShadowErrors sharp;
  sharp.clock_min = 0, sharp.tip = {}, sharp.tape = {metres(0), 0};
  const auto height = height_from_shadow(place, shadow_of(10, make_date(2026, 4, 4), 9), sharp);
  ASSERT_TRUE(height);
  const double up = in_radians(height->sun.apparent_elevation);
  EXPECT_NEAR(in_metres(height->height.sigma),
              10 / std::pow(std::cos(up), 2) * 0.26667 * kDegree / std::sqrt(3.0), 0.0005);
}

TEST(ShadowOnLevel, IsTheOneThatTellsHeightAndNorth) {
  for (const double latitude : {-41.0, 12.0, 52.0}) {
    const ShadowPlace place = place_at(latitude, 0);
    const LocalDate date = make_date(2026, 9, 12);
    for (const double turn : {0.0, 75.0, 340.0}) {
      const auto tip = shadow_on_level(place, {3, 4}, metres(5), degrees(turn), date, 15.5);
      ASSERT_TRUE(tip) << tip.error().message;
      const auto north = plan_north_from_shadow(place, {{3, 4}, *tip, date, 15.5});
      ASSERT_TRUE(north);
      EXPECT_NEAR(std::remainder(in_degrees(north->plan_north.value) - turn, 360), 0, 1e-6);
      const double long_m = geometry::length(*tip - geometry::Vec2{3, 4});
      const auto height = height_from_shadow(place, shadow_of(long_m, date, 15.5));
      ASSERT_TRUE(height);
      EXPECT_NEAR(in_metres(height->height.value), 5, 1e-6);
    }
  }
  EXPECT_FALSE(
      shadow_on_level(place_at(52, 0), {}, metres(5), degrees(0), make_date(2026, 9, 12), 2));
}

TEST(HeightFromShadow, IsAsSureAsMovingEachInputSays) {
  const ShadowPlace place = place_at(52, 0);
  const LocalDate date = make_date(2026, 9, 12);
  const auto height_m = [&](double along_m, double clock_h) {
    return in_metres(height_from_shadow(place, shadow_of(along_m, date, clock_h))->height.value);
  };
  const double by_clock = (height_m(12, 9.5 + 2 / 60.0) - height_m(12, 9.5 - 2 / 60.0)) / 2;
  const double along_m = std::hypot(0.02 + 0.012, 0.05);
  const double by_along = (height_m(12 + along_m, 9.5) - height_m(12 - along_m, 9.5)) / 2;
  ShadowErrors sharp;
  sharp.clock_min = 0, sharp.tip = {}, sharp.tape = {metres(0), 0};
  const double blur =
      in_metres(height_from_shadow(place, shadow_of(12, date, 9.5), sharp)->height.sigma);
  const auto height = height_from_shadow(place, shadow_of(12, date, 9.5, 0, 0.1));
  EXPECT_NEAR(in_metres(height->height.sigma),
              std::hypot(std::hypot(by_clock, by_along), blur, 0.1), 0.001);
  // The place: 20 km north or south are 0.18° of elevation at noon.
  ShadowPlace far = place;
  far.place_sigma = metres(20000);
  EXPECT_GT(height_from_shadow(far, shadow_of(12, date, 9.5, 0, 0.1))->height.sigma,
            height->height.sigma);
}

TEST(HeightFromShadow, TellsWhatWouldNarrowIt) {
  const ShadowPlace place = place_at(52, 0);
  const auto height = height_from_shadow(place, shadow_of(30, make_date(2026, 9, 12), 7.2, 0, 0.1));
  ASSERT_TRUE(height);
  ASSERT_FALSE(height->remedies.empty());
  EXPECT_EQ(height->remedies.front().by, Better::kOtherHour);  // the sun is low: wait
  for (const Remedy<Length>& remedy : height->remedies)
    EXPECT_LE(remedy.sigma_after, height->height.sigma * 0.9);
  EXPECT_TRUE(
      std::is_sorted(height->remedies.begin(), height->remedies.end(),
                     [](const auto& a, const auto& b) { return a.sigma_after < b.sigma_after; }));
}

TEST(HeightFromShadow, RefusesWithAReason) {
  const ShadowPlace place = place_at(52, 0);
  const LocalDate date = make_date(2026, 9, 12);
  const auto error_of = [&](const TapedShadow& shadow) {
    const auto height = height_from_shadow(place, shadow);
    EXPECT_FALSE(height);
    return height ? Error{} : height.error();
  };
  EXPECT_THAT(error_of(shadow_of(10, date, 2)).message, HasSubstr("at 02:00 the sun is down"));
  EXPECT_THAT(error_of(shadow_of(80, date, 6)).message, HasSubstr("° high"));
  EXPECT_EQ(error_of(shadow_of(0, date, 12)).where, "/along_m");
  EXPECT_EQ(error_of(shadow_of(std::nan(""), date, 12)).where, "/along_m");
  const Error below = error_of(shadow_of(2, date, 12, -3));
  EXPECT_EQ(below.where, "/rise_m");
  EXPECT_EQ(below.code, ErrorCode::kImpossibleValue);
}

}  // namespace
}  // namespace spadework::ground
