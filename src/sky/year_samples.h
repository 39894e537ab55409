// The sun directions of a year, and of one day: what shadows are cast with.
#pragma once

#include <array>
#include <vector>

#include "base/date.h"
#include "base/quantity.h"
#include "geometry/vec.h"
#include "sky/clear_sky.h"
#include "sky/solar_position.h"

namespace spadework::sky {

enum class PartOfDay {
  kMorning,    // before 10 h solar time
  kMidday,     // from 10 h to 14 h solar time: within 2 h of the sun's noon
  kAfternoon,  // from 14 h solar time
};

/// In: local apparent solar time, hours.
[[nodiscard]] PartOfDay part_of_day(double solar_time_h);

/// The sun at one instant, standing for `weight_h` of time around it.
struct SunSample {
  geometry::Vec3 towards;  // unit vector to the sun as seen (with refraction), in the plan's axes
  ClearSky clear;          // of the fixed clear day
  Angle elevation;         // apparent
  Angle azimuth;           // true bearing
  Angle declination;
  Irradiance extraterrestrial;  // the beam above the air
  double solar_time_h = 0;
  double hour_of_day = 0;  // since the day's midnight: by the clock in a day's samples, in local
                           // mean time in a year's
  double weight_h = 0;
  UtcTime time;
  LocalDate date;  // the local day it belongs to
  PartOfDay part = PartOfDay::kMidday;
  [[nodiscard]] unsigned month() const { return static_cast<unsigned>(date.month()); }
};

/// The sun at an instant as a sample, `hour_of_day` and `weight_h` left 0. For ends of intervals
/// that want refining: the elevation may be below the horizon.
/// Source: [spa] position; [ineichen-perez] beam.
[[nodiscard]] SunSample sun_sample(UtcTime t, LocalDate date, const Site& site, Angle plan_north,
                                   const Almanac& almanac);

/// One instant of a year's samples, before those with the sun down are dropped.
struct SampleTime {
  UtcTime time;
  LocalDate date;
  double hour_of_day = 0;
};

/// 24 instants for every day of the year, hourly, the k-th day's (k from 0) shifted by the
/// fractional part of k times the golden ratio, so that a month's instants fall evenly over the
/// hour. A day here is 24 hours of local mean time, the longitude's own: it needs no time zone,
/// knows no daylight saving, and every month has exactly its days times 24 instants.
[[nodiscard]] std::vector<SampleTime> year_sample_times(int year, Angle longitude);

struct YearSamples {
  int year = 0;
  std::array<int, 12> days_in_month{};  // of each month, for means a day
  std::vector<SunSample> samples;       // in order of time; apparent elevation above 0, 1 h each
};

/// The year's sun: about 4,400 samples. Sums of `weight_h` over a month divided by its days are
/// hours a day.
/// Out:    monthly hours above the horizon to a mean error of 0.04 h a day.
/// Errors: none: a month of polar night has no samples.
/// Tested: YearSamplesTest against 2-minute steps, at nine latitudes.
/// Source: [spa] position; [ineichen-perez] beam.
[[nodiscard]] YearSamples year_samples(int year, const Site& site, Angle plan_north,
                                       const SunOptions& options = {});

struct DaySamples {
  LocalDate date;
  double length_h = 24;            // 23 or 25 where the clocks change
  double step_h = 0;               // the step taken
  UtcTime starts, ends;            // the two midnights
  std::vector<SunSample> samples;  // in order of time; apparent elevation above 0, `step_h` each
};

/// The sun of a named date, from midnight to midnight of the zone's clocks, at the middle of each
/// step. Where the step does not divide the day, the next finer one that does is taken.
/// In:     step of 1 s to 1 h; 2 to 5 minutes is usual.
/// Errors: none; another step is a broken invariant.
/// Source: [spa] position; [ineichen-perez] beam.
[[nodiscard]] DaySamples day_samples(LocalDate date, const TimeZone& zone, const Site& site,
                                     Angle plan_north, double step_s,
                                     const SunOptions& options = {});

}  // namespace spadework::sky
