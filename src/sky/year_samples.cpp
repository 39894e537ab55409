#include "sky/year_samples.h"

#include <cmath>

#include "base/check.h"
#include "sky/direction.h"

namespace spadework::sky {
namespace {

constexpr double kGoldenRatio = 1.6180339887498949;

double fraction(double x) { return x - std::floor(x); }

LocalDate next_day(LocalDate date) {
  return LocalDate(std::chrono::sys_days(date) + std::chrono::days(1));
}

SunSample sample_of(const SunPosition& sun, UtcTime t, LocalDate date, const Site& site,
                    Angle plan_north) {
  SunSample sample;
  sample.towards = direction_towards(sun.azimuth, sun.apparent_elevation, plan_north);
  sample.clear = clear_sky(sun, site);
  sample.elevation = sun.apparent_elevation;
  sample.azimuth = sun.azimuth;
  sample.declination = sun.declination;
  sample.extraterrestrial = extraterrestrial_irradiance(sun.distance_au);
  sample.solar_time_h = sun.solar_time_h;
  sample.time = t;
  sample.date = date;
  sample.part = part_of_day(sun.solar_time_h);
  return sample;
}

}  // namespace

PartOfDay part_of_day(double solar_time_h) {
  if (solar_time_h < 10) return PartOfDay::kMorning;
  return solar_time_h < 14 ? PartOfDay::kMidday : PartOfDay::kAfternoon;
}

SunSample sun_sample(UtcTime t, LocalDate date, const Site& site, Angle plan_north,
                     const Almanac& almanac) {
  return sample_of(almanac.sun_position(t, site), t, date, site, plan_north);
}

std::vector<SampleTime> year_sample_times(int year, Angle longitude) {
  std::vector<SampleTime> times;
  const int days = days_in_year(year);
  times.reserve(static_cast<std::size_t>(days) * 24);
  const double behind_s = in_degrees(longitude) / 15 * 3600;  // local mean time is ahead by this
  for (int day = 0; day < days; ++day) {
    const LocalDate date = date_of_day(year, day + 1);
    const double midnight_s = utc_midnight(date).unix_s - behind_s;
    const double phase_h = fraction(day * kGoldenRatio);
    for (int hour = 0; hour < 24; ++hour) {
      const double hour_of_day = hour + phase_h;
      times.push_back({UtcTime{midnight_s + hour_of_day * 3600}, date, hour_of_day});
    }
  }
  return times;
}

YearSamples year_samples(int year, const Site& site, Angle plan_north, const SunOptions& options) {
  YearSamples of_year;
  of_year.year = year;
  for (unsigned month = 1; month <= 12; ++month) {
    of_year.days_in_month[month - 1] = days_in_month(year, month);
  }
  const Almanac almanac = Almanac::of_year(year, options);
  of_year.samples.reserve(4600);
  for (const SampleTime& at : year_sample_times(year, site.longitude)) {
    const SunPosition sun = almanac.sun_position(at.time, site);
    if (sun.apparent_elevation <= Angle{}) continue;
    SunSample sample = sample_of(sun, at.time, at.date, site, plan_north);
    sample.hour_of_day = at.hour_of_day;
    sample.weight_h = 1;
    of_year.samples.push_back(sample);
  }
  return of_year;
}

DaySamples day_samples(LocalDate date, const TimeZone& zone, const Site& site, Angle plan_north,
                       double step_s, const SunOptions& options) {
  SW_CHECK(step_s >= 1 && step_s <= 3600);
  DaySamples day;
  day.date = date;
  day.starts = zone.at_clock(date, 0);
  day.ends = zone.at_clock(next_day(date), 0);
  const double length_s = day.ends.unix_s - day.starts.unix_s;
  const int steps = static_cast<int>(std::ceil(length_s / step_s - 1e-9));
  day.length_h = length_s / 3600;
  day.step_h = day.length_h / steps;
  const Almanac almanac(day.starts, day.ends, options);
  for (int i = 0; i < steps; ++i) {
    const UtcTime t{day.starts.unix_s + (i + 0.5) * day.step_h * 3600};
    const SunPosition sun = almanac.sun_position(t, site);
    if (sun.apparent_elevation <= Angle{}) continue;
    SunSample sample = sample_of(sun, t, date, site, plan_north);
    sample.hour_of_day = zone.clock_hour(date, t);
    sample.weight_h = day.step_h;
    day.samples.push_back(sample);
  }
  return day;
}

}  // namespace spadework::sky
