#include "sky/cloudy_sky.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace spadework::sky {
namespace {

constexpr double kPi = std::numbers::pi;

/// Declination by the day alone, for means over months. Source: [fao56] Eq. 24.
Angle declination_of_day(int day) { return radians(0.409 * std::sin(2 * kPi / 365 * day - 1.39)); }

/// What a month brings above the air on its mean day, and its clearness.
struct MonthAbove {
  double mean_mj_m2_d = 0;
  double clearness = 0;
  double diffuse_share = 0;
};

double extraterrestrial_of_day(int day, Angle latitude) {
  return daily_extraterrestrial_mj_m2(latitude, declination_of_day(day),
                                      extraterrestrial_irradiance_of_day(day));
}

std::array<MonthAbove, 12> months_above(int year, Angle latitude, const YearRadiation& radiation) {
  std::array<MonthAbove, 12> months;
  int day = 0;
  for (unsigned m = 0; m < 12; ++m) {
    const int days = days_in_month(year, m + 1);
    MonthAbove& month = months[m];
    for (int d = 1; d <= days; ++d)
      month.mean_mj_m2_d += extraterrestrial_of_day(day + d, latitude);
    month.mean_mj_m2_d /= days;
    const Angle sunset = sunset_hour_angle(latitude, declination_of_day(day + days / 2));
    day += days;
    const MonthRadiation& mean = radiation[m];
    if (month.mean_mj_m2_d <= 0 || mean.global_mj_m2_d <= 0) continue;
    month.clearness = mean.global_mj_m2_d / month.mean_mj_m2_d;
    month.diffuse_share = mean.diffuse_mj_m2_d
                              ? std::clamp(*mean.diffuse_mj_m2_d / mean.global_mj_m2_d, 0.0, 1.0)
                              : diffuse_share_of_month(month.clearness, sunset);
  }
  return months;
}

/// One sample before the months are scaled to their sums: on a level plane.
struct Raw {
  double beam = 0, diffuse = 0, sine = 0;
};

Raw raw_of(const SunSample& sun, Angle latitude, const MonthAbove& month) {
  const Angle hour_angle = degrees(15 * (sun.solar_time_h - 12));
  const Angle sunset = sunset_hour_angle(latitude, sun.declination);
  const double day = month.clearness *
                     daily_extraterrestrial_mj_m2(latitude, sun.declination, sun.extraterrestrial);
  Raw raw;
  raw.sine = std::sin(in_radians(sun.elevation));
  const double global = day * hour_share_of_global(hour_angle, sunset) * sun.weight_h;
  raw.diffuse =
      day * month.diffuse_share * hour_share_of_diffuse(hour_angle, sunset) * sun.weight_h;
  // No more than comes down from above the air.
  const double most = in_watts_per_m2(sun.extraterrestrial) * 3600e-6 * sun.weight_h * raw.sine;
  raw.beam = std::clamp(global - raw.diffuse, 0.0, most);
  return raw;
}

}  // namespace

Angle sunset_hour_angle(Angle latitude, Angle declination) {
  const double cosine = -std::tan(in_radians(latitude)) * std::tan(in_radians(declination));
  return radians(std::acos(std::clamp(cosine, -1.0, 1.0)));
}

double daily_extraterrestrial_mj_m2(Angle latitude, Angle declination, Irradiance beam) {
  const double ws = in_radians(sunset_hour_angle(latitude, declination));
  const double phi = in_radians(latitude), delta = in_radians(declination);
  const double sum =  // FAO-56 Eq. 21
      ws * std::sin(phi) * std::sin(delta) + std::cos(phi) * std::cos(delta) * std::sin(ws);
  return std::max(0.0, 86400 / kPi * in_watts_per_m2(beam) * sum * 1e-6);
}

double hour_share_of_diffuse(Angle hour_angle, Angle sunset) {
  const double w = in_radians(hour_angle), ws = in_radians(sunset);
  if (std::abs(w) >= ws) return 0;
  return kPi / 24 * (std::cos(w) - std::cos(ws)) / (std::sin(ws) - ws * std::cos(ws));
}

double hour_share_of_global(Angle hour_angle, Angle sunset) {
  const double shifted = in_radians(sunset) - kPi / 3;
  const double a = 0.409 + 0.5016 * std::sin(shifted);
  const double b = 0.6609 - 0.4767 * std::sin(shifted);
  return std::max(0.0, a + b * std::cos(in_radians(hour_angle))) *
         hour_share_of_diffuse(hour_angle, sunset);
}

double diffuse_share_of_month(double clearness, Angle sunset) {
  const double k = std::clamp(clearness, 0.3, 0.8);
  constexpr double kWinter_deg = 81.4;
  const double share = in_degrees(sunset) <= kWinter_deg
                           ? 1.391 - 3.560 * k + 4.189 * k * k - 2.137 * k * k * k
                           : 1.311 - 3.022 * k + 3.427 * k * k - 1.821 * k * k * k;
  return std::clamp(share, 0.0, 1.0);
}

std::vector<CloudySun> cloudy_suns(std::span<const SunSample> samples, int year, Angle latitude,
                                   const YearRadiation& radiation) {
  const auto above = months_above(year, latitude, radiation);
  std::vector<Raw> raws;
  std::array<double, 12> beam{}, diffuse{}, wanted{};
  LocalDate date{};
  for (const SunSample& sun : samples) {
    const unsigned m = sun.month() - 1;
    raws.push_back(raw_of(sun, latitude, above[m]));
    beam[m] += raws.back().beam;
    diffuse[m] += raws.back().diffuse;
    if (raws.size() == 1 || sun.date != date)
      wanted[m] += above[m].clearness * extraterrestrial_of_day(day_of_year(sun.date), latitude);
    date = sun.date;
  }
  std::vector<CloudySun> suns;
  for (std::size_t i = 0; i < samples.size(); ++i) {
    const unsigned m = samples[i].month() - 1;
    Raw raw = raws[i];
    const double sky = wanted[m] * above[m].diffuse_share, sun = wanted[m] - sky;
    raw.beam *= beam[m] > 0 ? sun / beam[m] : 0;
    raw.diffuse *= diffuse[m] > 0 ? sky / diffuse[m] : 0;
    const double top = in_watts_per_m2(samples[i].extraterrestrial) * 3600e-6 * samples[i].weight_h;
    // Hay and Davies: the diffuse light from about the sun is to all of it as the beam to that
    // above the air.
    const double about_sun = std::clamp(raw.beam / (top * raw.sine), 0.0, 1.0) * raw.diffuse;
    // No more comes from about the sun than comes down from above the air: the rest is the sky's.
    const double level = std::min(raw.beam + about_sun, top * raw.sine);
    suns.push_back({level / raw.sine, raw.beam + raw.diffuse - level});
  }
  return suns;
}

}  // namespace spadework::sky
