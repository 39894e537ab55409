#include "sky/spa.h"

#include <cmath>
#include <initializer_list>
#include <numbers>

#include "sky/spa_terms.h"

namespace spadework::sky {
namespace {

constexpr double kDegree = std::numbers::pi / 180;
constexpr double kEpoch2000 = 2451545.0;  // Julian day of 2000-01-01 12:00

double turned_into(double degrees, double turn) {
  return degrees - turn * std::floor(degrees / turn);
}

double polynomial(double x, std::initializer_list<double> from_constant) {
  double sum = 0;
  for (auto c = std::rbegin(from_constant); c != std::rend(from_constant); ++c) sum = sum * x + *c;
  return sum;
}

template <std::size_t N>
double series(const std::array<terms::Periodic, N>& of, double t) {
  double sum = 0;
  for (const terms::Periodic& term : of)
    sum += term.a * std::cos(term.b + term.c * t);  // Eq. 9, 10
  return sum;
}

double longitude_rad(double t) {  // Eq. 11
  using namespace terms;
  return 1e-8 *
         polynomial(t, {series(kLongitude0, t), series(kLongitude1, t), series(kLongitude2, t),
                        series(kLongitude3, t), series(kLongitude4, t), series(kLongitude5, t)});
}

double latitude_rad(double t) {
  return 1e-8 * polynomial(t, {series(terms::kLatitude0, t), series(terms::kLatitude1, t)});
}

double distance_au(double t) {
  using namespace terms;
  return 1e-8 * polynomial(t, {series(kDistance0, t), series(kDistance1, t), series(kDistance2, t),
                               series(kDistance3, t), series(kDistance4, t)});
}

std::array<double, 5> nutation_arguments_deg(double century) {
  return {
      polynomial(century, {297.85036, 445267.111480, -0.0019142, 1.0 / 189474}),  // Eq. 15
      polynomial(century, {357.52772, 35999.050340, -0.0001603, -1.0 / 300000}),  // Eq. 16
      polynomial(century, {134.96298, 477198.867398, 0.0086972, 1.0 / 56250}),    // Eq. 17
      polynomial(century, {93.27191, 483202.017538, -0.0036825, 1.0 / 327270}),   // Eq. 18
      polynomial(century, {125.04452, -1934.136261, 0.0020708, 1.0 / 450000}),    // Eq. 19
  };
}

void add_nutation(double century, EarthState& earth) {
  const std::array<double, 5> x = nutation_arguments_deg(century);
  double longitude = 0, obliquity = 0;
  for (const terms::Nutation& term : terms::kNutation) {
    double argument = 0;
    for (std::size_t i = 0; i < x.size(); ++i) argument += term.y[i] * x[i];
    longitude += (term.a + term.b * century) * std::sin(argument * kDegree);  // Eq. 20
    obliquity += (term.c + term.d * century) * std::cos(argument * kDegree);  // Eq. 21
  }
  earth.nutation_longitude_deg = longitude / 36000000.0;  // Eq. 22
  earth.nutation_obliquity_deg = obliquity / 36000000.0;  // Eq. 23
}

double century_of(double julian_day) { return (julian_day - kEpoch2000) / 36525.0; }

void add_time(const SpaInput& in, SpaSteps& s) {
  s.julian_century = century_of(in.julian_day);                     // Eq. 6
  s.julian_ephemeris_day = in.julian_day + in.delta_t_s / 86400.0;  // Eq. 5
  s.julian_ephemeris_century = century_of(s.julian_ephemeris_day);  // Eq. 7
  s.julian_ephemeris_millennium = s.julian_ephemeris_century / 10;  // Eq. 8
}

void add_apparent_longitude(const EarthState& earth, SpaSteps& s) {
  s.heliocentric_longitude_deg = turned_into(earth.heliocentric_longitude_rad / kDegree, 360);
  s.heliocentric_latitude_deg = earth.heliocentric_latitude_rad / kDegree;
  s.distance_au = earth.distance_au;
  s.geocentric_longitude_deg = turned_into(s.heliocentric_longitude_deg + 180, 360);  // Eq. 13
  s.geocentric_latitude_deg = -s.heliocentric_latitude_deg;                           // Eq. 14
  s.nutation_arguments_deg = nutation_arguments_deg(s.julian_ephemeris_century);
  s.nutation_longitude_deg = earth.nutation_longitude_deg;
  s.nutation_obliquity_deg = earth.nutation_obliquity_deg;
  s.mean_obliquity_arcsec = polynomial(s.julian_ephemeris_millennium / 10,
                                       {84381.448, -4680.93, -1.55, 1999.25, -51.38, -249.67,
                                        -39.05, 7.12, 27.87, 5.79, 2.45});      // Eq. 24
  s.obliquity_deg = s.mean_obliquity_arcsec / 3600 + s.nutation_obliquity_deg;  // Eq. 25
  s.aberration_deg = -20.4898 / (3600 * s.distance_au);                         // Eq. 26
  s.apparent_longitude_deg =
      s.geocentric_longitude_deg + s.nutation_longitude_deg + s.aberration_deg;  // Eq. 27
}

void add_geocentric_place(const SpaInput& in, SpaSteps& s) {
  const double days = in.julian_day - kEpoch2000;
  const double jc = s.julian_century;
  s.mean_sidereal_time_deg = turned_into(
      280.46061837 + 360.98564736629 * days + 0.000387933 * jc * jc - jc * jc * jc / 38710000,
      360);  // Eq. 28
  const double sin_e = std::sin(s.obliquity_deg * kDegree);
  const double cos_e = std::cos(s.obliquity_deg * kDegree);
  const double sin_l = std::sin(s.apparent_longitude_deg * kDegree);
  const double cos_l = std::cos(s.apparent_longitude_deg * kDegree);
  const double sin_b = std::sin(s.geocentric_latitude_deg * kDegree);
  const double cos_b = std::cos(s.geocentric_latitude_deg * kDegree);
  s.sidereal_time_deg = s.mean_sidereal_time_deg + s.nutation_longitude_deg * cos_e;  // Eq. 29
  s.right_ascension_deg =
      turned_into(std::atan2(sin_l * cos_e - sin_b / cos_b * sin_e, cos_l) / kDegree, 360);  // 30
  s.declination_deg = std::asin(sin_b * cos_e + cos_b * sin_e * sin_l) / kDegree;  // Eq. 31
  s.hour_angle_deg =
      turned_into(s.sidereal_time_deg + in.longitude_deg - s.right_ascension_deg, 360);  // Eq. 32
}

void add_topocentric_place(const SpaInput& in, double sin_lat, double cos_lat, SpaSteps& s) {
  s.parallax_deg = 8.794 / (3600 * s.distance_au);  // Eq. 33
  const double sin_xi = std::sin(s.parallax_deg * kDegree);
  const double u = std::atan2(0.99664719 * sin_lat, cos_lat);                      // Eq. 34
  const double x = std::cos(u) + in.elevation_m / 6378140 * cos_lat;               // Eq. 35
  const double y = 0.99664719 * std::sin(u) + in.elevation_m / 6378140 * sin_lat;  // Eq. 36
  const double sin_h = std::sin(s.hour_angle_deg * kDegree);
  const double cos_h = std::cos(s.hour_angle_deg * kDegree);
  const double sin_d = std::sin(s.declination_deg * kDegree);
  const double cos_d = std::cos(s.declination_deg * kDegree);
  const double across = cos_d - x * sin_xi * cos_h;
  const double shift = std::atan2(-x * sin_xi * sin_h, across);  // Eq. 37
  s.right_ascension_parallax_deg = shift / kDegree;
  s.topocentric_right_ascension_deg = s.right_ascension_deg + s.right_ascension_parallax_deg;
  s.topocentric_declination_deg =
      std::atan2((sin_d - y * sin_xi) * std::cos(shift), across) / kDegree;     // Eq. 39
  const double hour_angle = s.hour_angle_deg - s.right_ascension_parallax_deg;  // Eq. 40
  s.topocentric_hour_angle_deg = hour_angle > 180 ? hour_angle - 360 : hour_angle;
}

/// Nothing is bent once the disc's upper limb is below the horizon: its half width and the usual
/// refraction there, degrees.
constexpr double kDiscBelow = 0.26667 + 0.5667;

double refraction_deg(const SpaInput& in, double e0_deg) {
  if (e0_deg < -kDiscBelow) return 0;
  const double bent = e0_deg + 10.3 / (e0_deg + 5.11);
  return in.pressure_hpa / 1010 * (283 / (273 + in.air_c)) * 1.02 /
         (60 * std::tan(bent * kDegree));  // Eq. 42
}

void add_horizontal_place(const SpaInput& in, double sin_lat, double cos_lat, SpaSteps& s) {
  const double h = s.topocentric_hour_angle_deg * kDegree;
  const double d = s.topocentric_declination_deg * kDegree;
  const double sin_d = std::sin(d), cos_d = std::cos(d), cos_h = std::cos(h);
  const double up = sin_lat * sin_d + cos_lat * cos_d * cos_h;
  const double north = cos_lat * sin_d - sin_lat * cos_d * cos_h;
  const double east = -cos_d * std::sin(h);
  s.true_elevation_deg = std::atan2(up, std::hypot(east, north)) / kDegree;  // Eq. 41
  s.refraction_deg = refraction_deg(in, s.true_elevation_deg);
  s.apparent_elevation_deg = s.true_elevation_deg + s.refraction_deg;   // Eq. 43
  s.azimuth_deg = turned_into(std::atan2(east, north) / kDegree, 360);  // Eq. 45, 46
}

void add_equation_of_time(SpaSteps& s) {
  const double mean_longitude_deg = polynomial(
      s.julian_ephemeris_millennium,
      {280.4664567, 360007.6982779, 0.03032028, 1.0 / 49931, -1.0 / 15300, -1.0 / 2000000});  // A2
  const double degrees = mean_longitude_deg - 0.0057183 - s.right_ascension_deg +
                         s.sidereal_time_deg - s.mean_sidereal_time_deg;  // A1: ν − ν0 = Δψ cos ε
  s.equation_of_time_min = 4 * (turned_into(degrees + 180, 360) - 180);
}

}  // namespace

EarthState earth_state(double julian_ephemeris_day) {
  const double century = century_of(julian_ephemeris_day);
  EarthState earth;
  earth.heliocentric_longitude_rad = longitude_rad(century / 10);
  earth.heliocentric_latitude_rad = latitude_rad(century / 10);
  earth.distance_au = distance_au(century / 10);
  add_nutation(century, earth);
  return earth;
}

SpaSteps spa(const SpaInput& input, const EarthState& earth) {
  const double sin_lat = std::sin(input.latitude_deg * kDegree);
  const double cos_lat = std::cos(input.latitude_deg * kDegree);
  SpaSteps steps;
  add_time(input, steps);
  add_apparent_longitude(earth, steps);
  add_geocentric_place(input, steps);
  add_topocentric_place(input, sin_lat, cos_lat, steps);
  add_horizontal_place(input, sin_lat, cos_lat, steps);
  add_equation_of_time(steps);
  return steps;
}

SpaSteps spa(const SpaInput& input) {
  return spa(input, earth_state(input.julian_day + input.delta_t_s / 86400.0));
}

}  // namespace spadework::sky
