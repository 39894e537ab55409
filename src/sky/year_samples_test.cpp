#include "sky/year_samples.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <set>

#include "sky/direction.h"

namespace spadework::sky {
namespace {

Site site_at(double latitude, double longitude = 0) {
  return Site{degrees(latitude), degrees(longitude), metres(50)};
}

TEST(YearSampleTimes, AreAllTheHoursOfTheYear) {
  for (const auto& [year, hours] : {std::pair{2026, 8760}, std::pair{2028, 8784}}) {
    std::array<int, 13> in_month{};
    std::set<std::pair<int, int>> day_hours;
    double before = -1e18;
    for (const SampleTime& at : year_sample_times(year, degrees(147.2))) {
      ++in_month[static_cast<unsigned>(at.date.month())];
      day_hours.insert({day_of_year(at.date), static_cast<int>(at.hour_of_day)});
      EXPECT_GT(at.time.unix_s, before);
      EXPECT_EQ(static_cast<int>(at.date.year()), year);
      // Local mean time: 4 minutes a degree of longitude ahead of Greenwich.
      EXPECT_NEAR(at.time.unix_s,
                  utc_midnight(at.date).unix_s + (at.hour_of_day - 147.2 / 15) * 3600, 1e-3);
      before = at.time.unix_s;
    }
    EXPECT_EQ(day_hours.size(), static_cast<std::size_t>(hours));
    int sum = 0;
    for (unsigned month = 1; month <= 12; ++month) {
      EXPECT_EQ(in_month[month], days_in_month(year, month) * 24);
      sum += in_month[month];
    }
    EXPECT_EQ(sum, hours);
  }
}

TEST(YearSampleTimes, FillTheHourEvenlyWithinAMonth) {
  // The golden ratio leaves no gap between n phases wider than about 2.2 / n of the hour.
  std::set<double> phases;
  for (const SampleTime& at : year_sample_times(2026, Angle{})) {
    if (at.date.month() == std::chrono::June) {
      phases.insert(at.hour_of_day - std::floor(at.hour_of_day));
    }
  }
  double before = *phases.rbegin() - 1, widest = 0;
  for (double phase : phases) {
    widest = std::max(widest, phase - before);
    before = phase;
  }
  EXPECT_LT(widest, 2.3 / 30);
}

TEST(YearSamples, AreTheSunWhileItIsUp) {
  const Site site = site_at(48.41, -4.6);
  const Angle plan_north = degrees(340);
  const YearSamples year = year_samples(2026, site, plan_north);
  EXPECT_EQ(year.days_in_month[1], 28);
  EXPECT_GT(year.samples.size(), 4300u);
  EXPECT_LT(year.samples.size(), 4600u);
  for (const SunSample& s : year.samples) {
    EXPECT_NEAR(length(s.towards), 1, 1e-12);
    EXPECT_GT(s.towards.z, 0);
    EXPECT_NEAR(s.towards.z, std::sin(in_radians(s.elevation)), 1e-12);
    EXPECT_EQ(s.weight_h, 1);
    EXPECT_GT(s.clear.direct_normal, Irradiance{});
    const SunPosition sun = sun_position(s.time, site);
    const geometry::Vec3 exact = direction_towards(sun.azimuth, sun.apparent_elevation, plan_north);
    EXPECT_LT(length(s.towards + exact * -1.0), 1e-7);
    EXPECT_NEAR(in_watts_per_m2(s.clear.direct_normal),
                in_watts_per_m2(clear_sky(sun, site).direct_normal), 1e-3);
  }
}

TEST(YearSamples, PartsOfTheDayMeetTwoHoursEitherSideOfSolarNoon) {
  EXPECT_EQ(part_of_day(9.99), PartOfDay::kMorning);
  EXPECT_EQ(part_of_day(10), PartOfDay::kMidday);
  EXPECT_EQ(part_of_day(13.99), PartOfDay::kMidday);
  EXPECT_EQ(part_of_day(14), PartOfDay::kAfternoon);
  // North of the tropic the morning's sun is never west of south, nor the afternoon's east of it.
  double midday_h = 0;
  for (const SunSample& s : year_samples(2026, site_at(44.5, 8), Angle{}).samples) {
    if (s.part == PartOfDay::kMorning) {
      EXPECT_GT(s.towards.x, 0);
    } else if (s.part == PartOfDay::kAfternoon) {
      EXPECT_LT(s.towards.x, 0);
    } else {
      midday_h += s.weight_h;
    }
  }
  EXPECT_NEAR(midday_h / 365, 4, 0.01);
}

std::array<double, 12> hours_a_day(const YearSamples& year) {
  std::array<double, 12> hours{};
  for (const SunSample& s : year.samples) {
    hours[s.month() - 1] += s.weight_h / year.days_in_month[s.month() - 1];
  }
  return hours;
}

/// Hours a day with the apparent elevation above 0, by 2-minute steps through the same days.
std::array<double, 12> fine_hours_a_day(int year, const Site& site) {
  const Almanac almanac = Almanac::of_year(year);
  std::array<double, 12> hours{};
  for (int day = 1; day <= days_in_year(year); ++day) {
    const LocalDate date = date_of_day(year, day);
    const auto month = static_cast<unsigned>(date.month());
    const double start_s = utc_midnight(date).unix_s - in_degrees(site.longitude) * 240;
    for (int i = 0; i < 720; ++i) {
      const SunPosition sun = almanac.sun_position(UtcTime{start_s + i * 120 + 60}, site);
      if (sun.apparent_elevation > Angle{}) {
        hours[month - 1] += 1.0 / 30 / days_in_month(year, month);
      }
    }
  }
  return hours;
}

TEST(YearSamples, MonthlyHoursAreAsGoodAsTwoMinuteSteps) {
  for (double latitude : {-67.6, -43.1, -20.0, 0.0, 30.0, 44.5, 48.41, 57.0, 71.29}) {
    const Site site = site_at(latitude, -4.6);
    const std::array<double, 12> sampled = hours_a_day(year_samples(2026, site, Angle{}));
    const std::array<double, 12> fine = fine_hours_a_day(2026, site);
    double error = 0;
    for (std::size_t m = 0; m < 12; ++m) {
      error += std::abs(sampled[m] - fine[m]) / 12;
      EXPECT_LT(std::abs(sampled[m] - fine[m]), 0.12) << latitude << " month " << m + 1;
    }
    EXPECT_LE(error, 0.04) << latitude;
  }
}

TEST(YearSamples, PolarNightHasNoSamplesAndPolarDayAll) {
  const YearSamples year = year_samples(2026, site_at(71.29, -156.79), Angle{});
  const std::array<double, 12> hours = hours_a_day(year);
  EXPECT_EQ(hours[11], 0);
  EXPECT_NEAR(hours[5], 24, 1e-9);
}

TEST(YearSamples, EastAndWestMirrorMorningAndAfternoon) {
  double morning = 0, afternoon = 0;
  for (const SunSample& s : year_samples(2026, site_at(52), Angle{}).samples) {
    if (s.part == PartOfDay::kMorning) morning += s.weight_h;
    if (s.part == PartOfDay::kAfternoon) afternoon += s.weight_h;
  }
  EXPECT_NEAR(morning / afternoon, 1, 0.005);
}

TEST(YearSamples, TurningThePlanTurnsEveryDirectionAlike) {
  const YearSamples north_up = year_samples(2026, site_at(48), Angle{});
  const YearSamples turned = year_samples(2026, site_at(48), degrees(30));
  ASSERT_EQ(north_up.samples.size(), turned.samples.size());
  for (std::size_t i = 0; i < turned.samples.size(); i += 97) {
    const geometry::Vec2 by_hand =
        geometry::turned(north_up.samples[i].towards.plan(), in_radians(degrees(30)));
    EXPECT_LT(length(by_hand - turned.samples[i].towards.plan()), 1e-12);
    EXPECT_EQ(north_up.samples[i].towards.z, turned.samples[i].towards.z);
  }
}

UtcTime utc(int year, unsigned month, unsigned day, double hour) {
  return UtcTime{utc_midnight(make_date(year, month, day)).unix_s + hour * 3600};
}

TEST(DaySamples, WeighTheHoursBetweenRiseAndSet) {
  const Site site = site_at(48.8566, 2.3522);
  const TimeZone paris("Europe/Paris", {{UtcTime{-1e12}, 3600, false},
                                        {utc(2026, 3, 29, 1), 7200, true},
                                        {utc(2026, 10, 25, 1), 3600, false}});
  const DaySamples day = day_samples(make_date(2026, 6, 21), paris, site, Angle{}, 120);
  EXPECT_DOUBLE_EQ(day.step_h, 1.0 / 30);
  EXPECT_DOUBLE_EQ(day.length_h, 24);
  double hours = 0;
  for (const SunSample& s : day.samples) {
    hours += s.weight_h;
    EXPECT_DOUBLE_EQ(s.hour_of_day, paris.clock_hour(day.date, s.time));
    EXPECT_EQ(s.date, day.date);
  }
  // Rise 05:47 and set 21:58 by the clock there, with the centre seen on the horizon a little
  // later and earlier than the upper limb.
  EXPECT_NEAR(hours, 16.1, 0.1);
  EXPECT_NEAR(day.samples.front().hour_of_day, 5.83, 0.05);
  EXPECT_NEAR(day.samples.back().hour_of_day, 21.92, 0.05);
}

TEST(DaySamples, ADayOfTwentyThreeHoursSkipsOneAndOfTwentyFiveRepeatsOne) {
  // Clocks that change under a midnight sun, so that every step shows.
  const Site site = site_at(71.29, 20);
  const TimeZone spring("made", {{UtcTime{-1e12}, 3600, false}, {utc(2026, 6, 21, 1), 7200, true}});
  const TimeZone autumn("made", {{UtcTime{-1e12}, 7200, true}, {utc(2026, 6, 21, 1), 3600, false}});
  const auto in_the_hour_of_two = [](const DaySamples& day) {
    int n = 0;
    for (const SunSample& s : day.samples) n += s.hour_of_day >= 2 && s.hour_of_day < 3;
    return n;
  };
  const DaySamples shorter = day_samples(make_date(2026, 6, 21), spring, site, Angle{}, 300);
  EXPECT_EQ(shorter.samples.size(), 23u * 12u);
  EXPECT_DOUBLE_EQ(shorter.length_h, 23);
  EXPECT_EQ(in_the_hour_of_two(shorter), 0);
  const DaySamples longer = day_samples(make_date(2026, 6, 21), autumn, site, Angle{}, 300);
  EXPECT_EQ(longer.samples.size(), 25u * 12u);
  EXPECT_DOUBLE_EQ(longer.length_h, 25);
  EXPECT_EQ(in_the_hour_of_two(longer), 24);
}

TEST(DaySamples, TakeTheNextFinerStepThatDividesTheDay) {
  const DaySamples day =
      day_samples(make_date(2026, 6, 21), TimeZone(), site_at(80), Angle{}, 7 * 60);
  EXPECT_EQ(day.samples.size(), 206u);  // 24 h over 7 min is 205.7
  EXPECT_DOUBLE_EQ(day.step_h * 206, 24);
}

TEST(DaySamples, ASampleIsTheSameAsTheSunAtItsInstant) {
  const Site site = site_at(-43.1, 147.2);
  const Almanac almanac = Almanac::of_year(2026);
  const LocalDate date = make_date(2026, 1, 5);
  const TimeZone zone("fixed", {{UtcTime{-1e12}, 11 * 3600, true}});
  for (const SunSample& s : day_samples(date, zone, site, degrees(12), 300).samples) {
    const SunSample again = sun_sample(s.time, date, site, degrees(12), almanac);
    EXPECT_EQ(s.towards, again.towards);
    EXPECT_EQ(s.part, again.part);
    EXPECT_EQ(s.clear.direct_normal, again.clear.direct_normal);
  }
}

TEST(DaySamplesDeathTest, RefusesAStepOfNoTime) {
  EXPECT_DEATH((void)day_samples(make_date(2026, 6, 21), TimeZone(), Site{}, Angle{}, 0), "");
}

}  // namespace
}  // namespace spadework::sky
