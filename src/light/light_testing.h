// Suns and invented bodies for tests of the light. Not part of the program.
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "base/random.h"
#include "light/receiver.h"
#include "light/samples.h"
#include "light/scene.h"

namespace spadework::light::testing {

using garden::Body;
using garden::Through;
using geometry::Incline;
using geometry::RoundShape;
using geometry::RoundSolid;
using geometry::Solid;
using geometry::Vec2;
using geometry::Vec3;

inline double rad(double degrees) { return degrees * std::numbers::pi / 180; }

/// Towards a sun at a height and a bearing (clockwise from the page's up), degrees.
inline Vec3 toward(double elevation_deg, double bearing_deg) {
  const double el = rad(elevation_deg), az = rad(bearing_deg);
  return {std::cos(el) * std::sin(az), std::cos(el) * std::cos(az), std::sin(el)};
}

/// The sun at a declination and hour angle (negative before noon) over a latitude: x east, y north.
/// Source: closed form (spherical triangle). [closed-form]
inline Vec3 sun_at(double latitude_deg, double declination_deg, double hour_angle_deg) {
  const double lat = rad(latitude_deg), dec = rad(declination_deg), h = rad(hour_angle_deg);
  return {-std::cos(dec) * std::sin(h),
          std::cos(lat) * std::sin(dec) - std::sin(lat) * std::cos(dec) * std::cos(h),
          std::sin(lat) * std::sin(dec) + std::cos(lat) * std::cos(dec) * std::cos(h)};
}

inline SunSample sample(Vec3 toward_sun, int day = 1, int month = 0, int part = 1) {
  SunSample s;
  s.toward_sun = toward_sun;
  s.beam_w_m2 = 800;
  s.day_of_year = static_cast<std::uint16_t>(day);
  s.month = static_cast<std::uint8_t>(month);
  s.part = static_cast<std::uint8_t>(part);
  return s;
}

/// Hourly suns of a year over a latitude, each day shifted by the golden ratio.
inline std::vector<SunSample> year_of_suns(double latitude_deg) {
  constexpr int kDaysBefore[] = {0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365};
  std::vector<SunSample> suns;
  for (int day = 1; day <= 365; ++day) {
    const double declination = -23.44 * std::cos(rad(360.0 * (day + 10) / 365.25));
    const double shift = std::fmod(day * 0.6180339887498949, 1.0);
    int month = 0;
    while (day > kDaysBefore[month + 1]) ++month;
    for (int hour = 0; hour < 24; ++hour) {
      const double time = hour + shift;
      const Vec3 sun = sun_at(latitude_deg, declination, 15 * (time - 12));
      if (sun.z > 0.02) suns.push_back(sample(sun, day, month, time < 10 ? 0 : time < 14 ? 1 : 2));
    }
  }
  return suns;
}

inline std::vector<Vec2> rectangle(Vec2 corner, double along, double across, double turn_rad) {
  const Vec2 u = geometry::turned({1, 0}, turn_rad), v = geometry::left_of(u);
  return {corner, corner + u * along, corner + u * along + v * across, corner + v * across};
}

inline Solid box(Vec2 corner, double along, double across, double low, double high,
                 double turn_rad = 0) {
  return geometry::prism(rectangle(corner, along, across, turn_rad), {low, {}}, {high, {}});
}

inline Body opaque(std::string thing, std::variant<Solid, RoundSolid> shape) {
  return {std::move(thing), std::move(shape), Through::kOpaque, {1.0F}};
}

/// A convex footprint: corners at random turns on an ellipse.
inline std::vector<Vec2> random_footprint(Random& random, Vec2 middle, double size, int corners) {
  std::vector<double> turns;
  for (int i = 0; i < corners; ++i)
    turns.push_back(2 * std::numbers::pi * (i + random.between(0, 0.8)) / corners);
  const double flat = random.between(0.3, 1), lie = random.between(0, 3);
  std::vector<Vec2> footprint;
  for (const double turn : turns)
    footprint.push_back(
        middle + geometry::turned({size * std::cos(turn), flat * size * std::sin(turn)}, lie));
  return footprint;
}

}  // namespace spadework::light::testing
