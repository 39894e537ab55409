#include "sky/clear_sky.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sky/atmosphere.h"

namespace spadework::sky {

Irradiance extraterrestrial_irradiance(double distance_au) {
  return kSolarConstant / (distance_au * distance_au);
}

Irradiance extraterrestrial_irradiance_of_day(int day_of_year) {
  const double g = 2 * std::numbers::pi * (day_of_year - 1) / 365;
  return kSolarConstant * (1.000110 + 0.034221 * std::cos(g) + 0.001280 * std::sin(g) +
                           0.000719 * std::cos(2 * g) + 0.000077 * std::sin(2 * g));
}

ClearSky ineichen_perez(Angle apparent_elevation, double absolute_air_mass, double linke_turbidity,
                        Length altitude, Irradiance extraterrestrial) {
  const double sine = std::sin(in_radians(apparent_elevation));
  if (sine <= 0) return {};
  const double altitude_m = in_metres(altitude);
  const double fh1 = std::exp(-altitude_m / 8000);
  const double fh2 = std::exp(-altitude_m / 1250);
  const double cg1 = 5.09e-5 * altitude_m + 0.868;
  const double cg2 = 3.92e-5 * altitude_m + 0.0387;
  const Irradiance global =
      cg1 * sine * extraterrestrial *
      std::exp(-cg2 * absolute_air_mass * (fh1 + fh2 * (linke_turbidity - 1)));  // Eq. 11
  const double b = 0.664 + 0.163 / fh1;
  const Irradiance beam =
      b * extraterrestrial * std::exp(-0.09 * absolute_air_mass * (linke_turbidity - 1));  // Eq. 8
  const double diffuse_least = (0.1 - 0.2 * std::exp(-linke_turbidity)) / (0.1 + 0.882 / fh1);
  const Irradiance beam_most = global * ((1 - diffuse_least) / sine);  // p. 157
  const Irradiance direct = std::min(beam, beam_most);
  return {direct, global, global - direct * sine};
}

ClearSky clear_sky(const SunPosition& sun, const Site& site) {
  const double air_mass =
      absolute_air_mass(sun.apparent_elevation, standard_pressure(site.elevation));
  return ineichen_perez(sun.apparent_elevation, air_mass, kLinkeTurbidity, site.elevation,
                        extraterrestrial_irradiance(sun.distance_au));
}

}  // namespace spadework::sky
