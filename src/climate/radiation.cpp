#include "climate/radiation.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace spadework::climate {
namespace {

using std::numbers::pi;

constexpr double kSolarConstant_mj_m2_min = 0.0820;

}  // namespace

Sky sky_of_day(Angle latitude, int day_of_year) {
  const double phi = in_radians(latitude);                                   // Eq. 22
  const double distance = 1 + 0.033 * std::cos(2 * pi / 365 * day_of_year);  // Eq. 23
  const double delta = 0.409 * std::sin(2 * pi / 365 * day_of_year - 1.39);  // Eq. 24
  const double cosine = std::clamp(-std::tan(phi) * std::tan(delta), -1.0, 1.0);
  const double sunset = std::acos(cosine);  // Eq. 25
  const double a = sunset * std::sin(phi) * std::sin(delta);
  const double b = std::cos(phi) * std::cos(delta) * std::sin(sunset);
  return {std::max(0.0, 24 * 60 / pi * kSolarConstant_mj_m2_min * distance * (a + b)),  // Eq. 21
          24 / pi * sunset};                                                            // Eq. 34
}

Sky sky_of_month(Angle latitude, unsigned month) {
  const int first = day_of_year(make_date(kReferenceYear, month, 1));
  const int days = days_in_month(kReferenceYear, month);
  Sky sum;
  for (int day = first; day < first + days; ++day) {
    const Sky sky = sky_of_day(latitude, day);
    sum.extraterrestrial_mj_m2_d += sky.extraterrestrial_mj_m2_d / days;
    sum.day_length_h += sky.day_length_h / days;
  }
  return sum;
}

double radiation_from_sunshine(double sunshine_h, const Sky& sky) {
  if (sky.day_length_h <= 0) return 0;
  const double share = std::clamp(sunshine_h / sky.day_length_h, 0.0, 1.0);
  return (kOvercastShare + kBeamShare * share) * sky.extraterrestrial_mj_m2_d;  // Eq. 35
}

double sunshine_from_radiation(double global_mj_m2_d, const Sky& sky) {
  if (sky.extraterrestrial_mj_m2_d <= 0) return 0;
  const double through = global_mj_m2_d / sky.extraterrestrial_mj_m2_d;
  return sky.day_length_h * std::clamp((through - kOvercastShare) / kBeamShare, 0.0, 1.0);
}

double radiation_from_swing(Temperature tmax, Temperature tmin, double coefficient,
                            Length elevation, const Sky& sky) {
  const double swing_k = std::max(0.0, in_kelvins(tmax - tmin));
  return std::min(coefficient * std::sqrt(swing_k) * sky.extraterrestrial_mj_m2_d,  // Eq. 50
                  clear_sky_radiation(elevation, sky));
}

double continentality(TemperatureDelta yearly_range, Angle latitude) {
  return 1.7 * in_kelvins(yearly_range) / std::sin(std::abs(in_radians(latitude)) + pi / 18) - 14;
}

double clear_sky_radiation(Length elevation, const Sky& sky) {
  return (0.75 + 2e-5 * in_metres(elevation)) * sky.extraterrestrial_mj_m2_d;  // Eq. 37
}

double net_long_wave(Temperature tmax, Temperature tmin, double vapour_pressure_kpa,
                     double global_mj_m2_d, double clear_sky_mj_m2_d) {
  constexpr double kStefanBoltzmann_mj_k4_m2_d = 4.903e-9;
  const auto fourth = [](Temperature t) { return std::pow(in_celsius(t) + 273.16, 4); };
  const double clearness =
      clear_sky_mj_m2_d > 0 ? std::min(1.0, global_mj_m2_d / clear_sky_mj_m2_d) : 0;
  return kStefanBoltzmann_mj_k4_m2_d * (fourth(tmax) + fourth(tmin)) / 2 *
         (0.34 - 0.14 * std::sqrt(vapour_pressure_kpa)) * (1.35 * clearness - 0.35);  // Eq. 39
}

double saturation_kpa(Temperature temperature) {
  const double t = in_celsius(temperature);
  return 0.6108 * std::exp(17.27 * t / (t + 237.3));  // Eq. 11
}

}  // namespace spadework::climate
