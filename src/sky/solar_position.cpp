#include "sky/solar_position.h"

#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "sky/atmosphere.h"
#include "sky/delta_t.h"

namespace spadework::sky {
namespace {

double julian_day(UtcTime t) { return t.unix_s / 86400.0 + 2440587.5; }

double delta_t_at(UtcTime t, const SunOptions& options) {
  if (options.delta_t_s) return *options.delta_t_s;
  const LocalDate date = utc_date(t);
  return delta_t_s(static_cast<int>(date.year()), static_cast<unsigned>(date.month()));
}

SpaInput input_of(UtcTime t, const Site& site, const SunOptions& options) {
  SpaInput in;
  in.julian_day = julian_day(t);
  in.delta_t_s = delta_t_at(t, options);
  in.latitude_deg = in_degrees(site.latitude);
  in.longitude_deg = in_degrees(site.longitude);
  in.elevation_m = in_metres(site.elevation);
  in.pressure_hpa =
      in_pascals(options.pressure ? *options.pressure : standard_pressure(site.elevation)) / 100;
  in.air_c = in_celsius(options.air);
  SW_CHECK_LE(std::abs(in.latitude_deg), 90.0000001);
  return in;
}

SunPosition position_of(const SpaSteps& steps) {
  SunPosition sun;
  sun.azimuth = degrees(steps.azimuth_deg);
  sun.true_elevation = degrees(steps.true_elevation_deg);
  sun.apparent_elevation = degrees(steps.apparent_elevation_deg);
  sun.hour_angle = degrees(steps.topocentric_hour_angle_deg);
  sun.solar_time_h = 12 + steps.topocentric_hour_angle_deg / 15;
  sun.declination = degrees(steps.topocentric_declination_deg);
  sun.distance_au = steps.distance_au;
  return sun;
}

/// Cubic through four nodes at −1, 0, 1, 2.
struct CubicWeights {
  double a, b, c, d;
  explicit CubicWeights(double u)
      : a(-u * (u - 1) * (u - 2) / 6),
        b((u + 1) * (u - 1) * (u - 2) / 2),
        c(-(u + 1) * u * (u - 2) / 2),
        d((u + 1) * u * (u - 1) / 6) {}
};

EarthState between(const EarthState* nodes, double u) {
  const CubicWeights w(u);
  const auto mix = [&](double EarthState::*field) {
    return w.a * nodes[0].*field + w.b * nodes[1].*field + w.c * nodes[2].*field +
           w.d * nodes[3].*field;
  };
  EarthState earth;
  earth.heliocentric_longitude_rad = mix(&EarthState::heliocentric_longitude_rad);
  earth.heliocentric_latitude_rad = mix(&EarthState::heliocentric_latitude_rad);
  earth.distance_au = mix(&EarthState::distance_au);
  earth.nutation_longitude_deg = mix(&EarthState::nutation_longitude_deg);
  earth.nutation_obliquity_deg = mix(&EarthState::nutation_obliquity_deg);
  return earth;
}

}  // namespace

SpaSteps sun_steps(UtcTime t, const Site& site, const SunOptions& options) {
  return spa(input_of(t, site, options));
}

SunPosition sun_position(UtcTime t, const Site& site, const SunOptions& options) {
  return position_of(sun_steps(t, site, options));
}

Almanac::Almanac(UtcTime from, UtcTime to, const SunOptions& options)
    : from_(from), to_(to), options_(options) {
  SW_CHECK_LE(from.unix_s, to.unix_s);
  SW_CHECK_LE(to.unix_s - from.unix_s, 200 * 366.0 * 86400.0);
  const auto day_of = [&](UtcTime t) {
    return std::floor(julian_day(t) + delta_t_at(t, options) / 86400.0);
  };
  first_day_ = day_of(from) - 1;
  const int count = static_cast<int>(day_of(to) - first_day_) + 3;
  nodes_.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) nodes_.push_back(earth_state(first_day_ + i));
}

Almanac Almanac::of_year(int year, const SunOptions& options) {
  constexpr double kMargin_s = 2 * 86400.0;
  return Almanac(UtcTime{utc_midnight(make_date(year, 1, 1)).unix_s - kMargin_s},
                 UtcTime{utc_midnight(make_date(year + 1, 1, 1)).unix_s + kMargin_s}, options);
}

SunPosition Almanac::sun_position(UtcTime t, const Site& site) const {
  SW_CHECK_LE(from_.unix_s, t.unix_s);
  SW_CHECK_LE(t.unix_s, to_.unix_s);
  const SpaInput in = input_of(t, site, options_);
  const double at = in.julian_day + in.delta_t_s / 86400.0 - first_day_;
  // ΔT steps from month to month, by less than a second: the ends may be passed by as little.
  const int before =
      std::clamp(static_cast<int>(std::floor(at)) - 1, 0, static_cast<int>(nodes_.size()) - 4);
  return position_of(spa(in, between(&nodes_[static_cast<std::size_t>(before)], at - before - 1)));
}

}  // namespace spadework::sky
