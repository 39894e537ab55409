#include "sky/sun_events.h"

#include <gtest/gtest.h>

#include <cmath>
#include <sstream>

#include "tests/golden/sky/read_csv.h"

namespace spadework::sky {
namespace {

using golden::Row;
using golden::sky_table;

UtcTime utc(const std::string& text) {
  return UtcTime{utc_midnight(parse_date(text.substr(0, 10)).value()).unix_s +
                 std::stoi(text.substr(11, 2)) * 3600 + std::stoi(text.substr(14, 2)) * 60 +
                 std::stoi(text.substr(17, 2))};
}

LocalDate date_of(const Row& row) { return parse_date(row.text("local_date")).value(); }

LocalDate next_day(LocalDate date) {
  return LocalDate(std::chrono::sys_days(date) + std::chrono::days(1));
}

TimeZone fixed_zone(double hours) {
  return TimeZone("fixed", {{UtcTime{-1e12}, static_cast<int>(std::lround(hours * 3600)), false}});
}

/// Europe/Paris in 2026: the clocks change on 29 March and 25 October at 01:00 UTC.
TimeZone paris() {
  return TimeZone("Europe/Paris", {{UtcTime{-1e12}, 3600, false},
                                   {utc("2026-03-29T01:00:00Z"), 7200, true},
                                   {utc("2026-10-25T01:00:00Z"), 3600, false}});
}

// golden/sky/sunrise_sunset: 56 days at seven sites, PyEphem.
TEST(SunEventsGolden, WithinTwentySecondsOfAnotherProgramIn2024) {
  int compared = 0;
  for (const Row& row : sky_table("sunrise_sunset/ephem_2024.csv")) {
    const bool iceland = row.text("site") == "Reykjavik";
    const TimeZone zone = fixed_zone(iceland ? 0 : std::round(row.number("lon") / 15));
    const Site site{degrees(row.number("lat")), degrees(row.number("lon")), metres(0)};
    const SunEvents day = sun_events(date_of(row), zone, site);
    ASSERT_TRUE(day.rise && day.set && day.transit) << row.text("site");
    EXPECT_EQ(day.kind, DayKind::kRisesAndSets);
    EXPECT_NEAR(day.rise->unix_s, utc(row.text("ephem_sunrise")).unix_s, 20) << row.text("site");
    EXPECT_NEAR(day.transit->unix_s, utc(row.text("spa_transit")).unix_s, 1) << row.text("site");
    // At midsummer Iceland's sun sets past midnight: on the next date.
    const UtcTime set = *day.set < *day.rise
                            ? sun_events(next_day(date_of(row)), zone, site).crossings.at(0).time
                            : *day.set;
    EXPECT_NEAR(set.unix_s, utc(row.text("ephem_sunset")).unix_s, 20) << row.text("site");
    ++compared;
  }
  EXPECT_EQ(compared, 56);
}

// golden/sky/sunrise_sunset: NREL's calculator, the Naval Observatory, and the report's example.
// NREL's set belongs to the UT date, which in Colorado's summer is the evening before.
TEST(SunEventsGolden, WithinTwentySecondsOfPublishedTimes) {
  for (const Row& row : sky_table("sunrise_sunset/published.csv")) {
    const TimeZone zone = fixed_zone(row.number("utc_offset_h"));
    const Site site{degrees(row.number("latitude_deg")), degrees(row.number("longitude_deg")),
                    metres(0)};
    const SunEvents day = sun_events(date_of(row), zone, site);
    const LocalDate set_date = parse_date(row.text("set_local_date")).value();
    const SunEvents set_day = sun_events(set_date, zone, site);
    ASSERT_TRUE(day.rise && day.transit && set_day.set);
    const double tolerance_s = 20 + (row.number("printed_to_s") > 1 ? 30 : 0);
    const auto compare = [&](const char* column, LocalDate date, UtcTime ours) {
      if (!row.has(column)) return;
      const double local_s = utc(iso_date(date) + "T" + row.text(column)).unix_s;
      EXPECT_NEAR(ours.unix_s + row.number("utc_offset_h") * 3600, local_s, tolerance_s)
          << row.text("place") << " " << iso_date(date) << " " << column;
    };
    compare("rise_local", date_of(row), *day.rise);
    compare("transit_local", date_of(row), *day.transit);
    compare("set_local", set_date, *set_day.set);
  }
}

DayKind kind_from(bool up_at_start, const std::vector<SunCrossing>& crossings) {
  bool rises = false, sets = false;
  for (const SunCrossing& c : crossings) (c.rising ? rises : sets) = true;
  if (rises && sets) return DayKind::kRisesAndSets;
  if (rises || sets) return rises ? DayKind::kOnlyRises : DayKind::kOnlySets;
  return up_at_start ? DayKind::kUpAllDay : DayKind::kDownAllDay;
}

std::vector<SunCrossing> crossings_from(const std::string& text) {
  std::vector<SunCrossing> crossings;
  std::istringstream in(text);
  for (std::string word; in >> word;) {
    const auto equals = word.find('=');
    crossings.push_back({utc(word.substr(equals + 1)), word.substr(0, equals) == "rise"});
  }
  return crossings;
}

/// A zone in which the day of the row has the row's midnights.
TimeZone zone_of(const Row& row) {
  if (row.text("place") == "paris") return paris();
  return fixed_zone((utc_midnight(date_of(row)).unix_s - utc(row.text("day_starts_utc")).unix_s) /
                    3600);
}

// golden/sky/rise_set_ephem: days on which the clocks change, polar day and night and the days at
// their edges (only a rise, only a set, two sets, a dip of eight minutes), the southern hemisphere,
// the equator and the date line.
TEST(SunEventsGolden, EveryCrossingOfUnusualDays) {
  for (const Row& row : sky_table("rise_set_ephem/data.csv")) {
    const std::string what = row.text("place") + " " + row.text("local_date");
    const Site site{degrees(row.number("latitude_deg")), degrees(row.number("longitude_deg")),
                    metres(0)};
    const SunEvents day = sun_events(date_of(row), zone_of(row), site);
    const std::vector<SunCrossing> theirs = crossings_from(row.text("crossings_utc"));
    EXPECT_EQ(day.starts, utc(row.text("day_starts_utc"))) << what;
    EXPECT_EQ(day.ends, utc(row.text("day_ends_utc"))) << what;
    ASSERT_EQ(day.crossings.size(), theirs.size()) << what;
    const bool skims = std::abs(row.number("latitude_deg")) > 60;
    for (std::size_t i = 0; i < theirs.size(); ++i) {
      EXPECT_EQ(day.crossings[i].rising, theirs[i].rising) << what;
      EXPECT_NEAR(day.crossings[i].time.unix_s, theirs[i].time.unix_s, skims ? 20 : 2) << what;
    }
    EXPECT_EQ(day.kind, kind_from(row.text("up_at_start") == "yes", theirs)) << what;
  }
}

TEST(SunEvents, RiseAndSetAreWhereTheCentreIsAtTheRiseElevation) {
  const Site site{degrees(48.41), degrees(-4.6), metres(40)};
  const Almanac almanac = Almanac::of_year(2026);
  for (int d = 1; d <= 365; d += 13) {
    const SunEvents day = sun_events(date_of_day(2026, d), fixed_zone(0), site, almanac);
    ASSERT_TRUE(day.rise && day.set);
    for (const UtcTime t : {*day.rise, *day.set}) {
      EXPECT_NEAR(in_degrees(almanac.sun_position(t, site).true_elevation), -0.8333, 1e-5);
    }
    EXPECT_NEAR(day.up_h, (day.set->unix_s - day.rise->unix_s) / 3600, 1e-9);
    EXPECT_NEAR(in_degrees(day.highest),
                in_degrees(almanac.sun_position(*day.transit, site).true_elevation), 1e-3);
  }
}

TEST(SunEvents, PolarDayAndNightAt71NorthLastTheirWeeks) {
  // golden/sky/rise_set_ephem has the days at the edges: 11 May to 1 August up, 19 November to
  // 21 January down.
  const Site site{degrees(71.29), degrees(-156.79), metres(0)};
  const Almanac almanac = Almanac::of_year(2026);
  int up = 0, down = 0;
  for (int d = 1; d <= 365; ++d) {
    const SunEvents day = sun_events(date_of_day(2026, d), fixed_zone(-9), site, almanac);
    if (day.kind == DayKind::kUpAllDay) {
      ++up;
      EXPECT_DOUBLE_EQ(day.up_h, 24);
    }
    if (day.kind == DayKind::kDownAllDay) {
      ++down;
      EXPECT_EQ(day.up_h, 0);
      EXPECT_LT(day.highest, kRiseElevation);
    }
    EXPECT_EQ(day.kind == DayKind::kUpAllDay || day.kind == DayKind::kDownAllDay,
              !day.rise && !day.set);
    EXPECT_TRUE(day.transit);
  }
  EXPECT_EQ(up, 21 + 30 + 31 + 1);
  EXPECT_EQ(down, 21 + 12 + 31);
}

TEST(SunEvents, HemispheresMirrorTheSolstices) {
  const auto hours = [](double latitude, LocalDate date) {
    return sun_events(date, fixed_zone(0), Site{degrees(latitude), degrees(0), metres(0)}).up_h;
  };
  // The solstice declinations differ only by the moment of the day.
  EXPECT_NEAR(hours(50, make_date(2026, 6, 21)), hours(-50, make_date(2026, 12, 21)), 0.01);
  EXPECT_NEAR(hours(50, make_date(2026, 12, 21)), hours(-50, make_date(2026, 6, 21)), 0.01);
}

TEST(SunEvents, ClocksMoveTheHourButNotTheSun) {
  const Site site{degrees(48.8566), degrees(2.3522), metres(0)};
  const TimeZone zone = paris();
  const auto noon = [&](unsigned month, unsigned day) {
    const LocalDate date = make_date(2026, month, day);
    return zone.clock_hour(date, *sun_events(date, zone, site).transit);
  };
  EXPECT_NEAR(noon(3, 29) - noon(3, 28), 1, 0.01);
  EXPECT_NEAR(noon(10, 25) - noon(10, 24), -1, 0.01);
  const SunEvents spring = sun_events(make_date(2026, 3, 29), zone, site);
  const SunEvents autumn = sun_events(make_date(2026, 10, 25), zone, site);
  EXPECT_EQ(spring.ends.unix_s - spring.starts.unix_s, 23 * 3600);
  EXPECT_EQ(autumn.ends.unix_s - autumn.starts.unix_s, 25 * 3600);
}

TEST(SunEvents, ThePolesHaveOneDayAYear) {
  for (double latitude : {90.0, -90.0}) {
    const Site site{degrees(latitude), degrees(0), metres(0)};
    const bool north = latitude > 0;
    EXPECT_EQ(sun_events(make_date(2026, 6, 21), TimeZone(), site).kind,
              north ? DayKind::kUpAllDay : DayKind::kDownAllDay);
    EXPECT_EQ(sun_events(make_date(2026, 12, 21), TimeZone(), site).kind,
              north ? DayKind::kDownAllDay : DayKind::kUpAllDay);
    int crossings = 0;
    const Almanac almanac = Almanac::of_year(2026);
    for (int d = 1; d <= 365; ++d) {
      crossings += static_cast<int>(
          sun_events(date_of_day(2026, d), TimeZone(), site, almanac).crossings.size());
    }
    EXPECT_EQ(crossings, 2);
  }
}

}  // namespace
}  // namespace spadework::sky
