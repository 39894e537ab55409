#include "ground/day_of_sun.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace spadework::ground {
namespace {

constexpr double kEarth_m = 6371000;  // mean radius: an angle of place as a way on the ground
constexpr double kMargin_s = 7200;

double turn_deg(Angle from, Angle to) {
  const double turn = in_degrees(to - from);
  return turn - 360 * std::round(turn / 360);
}

std::string hour_says(double clock_h) { return clock_text(clock_h, false); }

}  // namespace

DayOfSun::DayOfSun(const ShadowPlace& place, LocalDate date)
    : place_(place),
      date_(date),
      almanac_(UtcTime{place.time_zone.at_clock(date, 0).unix_s - kMargin_s},
               UtcTime{place.time_zone.at_clock(date, 24).unix_s + kMargin_s}) {}

SunAt DayOfSun::at(UtcTime t) const {
  constexpr double kStep_s = 30, kStep_deg = 0.01;
  const auto sun = [&](double dt_s, double north_deg, double east_deg) {
    sky::Site site = place_.site;
    site.latitude = degrees(std::clamp(in_degrees(site.latitude) + north_deg, -90.0, 90.0));
    site.longitude = site.longitude + degrees(east_deg);
    return almanac_.sun_position(UtcTime{t.unix_s + dt_s}, site);
  };
  SunAt out;
  out.sun = sun(0, 0, 0);
  const auto before = sun(-kStep_s, 0, 0), after = sun(kStep_s, 0, 0);
  constexpr double kMinutes = 2 * kStep_s / 60;
  out.azimuth_deg_per_min = turn_deg(before.azimuth, after.azimuth) / kMinutes;
  out.elevation_deg_per_min =
      in_degrees(after.apparent_elevation - before.apparent_elevation) / kMinutes;
  if (place_.place_sigma <= metres(0)) return out;
  const double off_deg = in_metres(place_.place_sigma) / kEarth_m * 180 / std::numbers::pi;
  const double north = off_deg / (2 * kStep_deg);
  const double east = north / std::max(1e-3, std::cos(in_radians(place_.site.latitude)));
  const auto s = sun(0, -kStep_deg, 0), n = sun(0, kStep_deg, 0);
  const auto w = sun(0, 0, -kStep_deg), e = sun(0, 0, kStep_deg);
  out.azimuth_by_place_deg =
      std::hypot(turn_deg(s.azimuth, n.azimuth) * north, turn_deg(w.azimuth, e.azimuth) * east);
  out.elevation_by_place_deg =
      std::hypot(in_degrees(n.apparent_elevation - s.apparent_elevation) * north,
                 in_degrees(e.apparent_elevation - w.apparent_elevation) * east);
  return out;
}

sky::SunEvents DayOfSun::events() const {
  return sky::sun_events(date_, place_.time_zone, place_.site, almanac_);
}

/// The first and the last time by the clock at which the sun stands so high, to five minutes.
std::optional<std::pair<double, double>> DayOfSun::hours_above(double elevation_deg) const {
  std::optional<std::pair<double, double>> hours;
  for (int step = 0; step <= 288; ++step) {
    const double clock_h = step / 12.0;
    const UtcTime t = place_.time_zone.at_clock(date_, clock_h);
    if (in_degrees(almanac_.sun_position(t, place_.site).apparent_elevation) < elevation_deg)
      continue;
    hours = {hours ? hours->first : clock_h, clock_h};
  }
  return hours;
}

std::optional<Error> DayOfSun::why_not(double clock_h, Angle lowest) const {
  if (!(clock_h >= 0 && clock_h <= 24)) {
    return Error{ErrorCode::kImpossibleValue, "/clock", "that is no time of the day",
                 "give the hour from 0:00 to 24:00, as your clock shows it"};
  }
  const UtcTime t = place_.time_zone.at_clock(date_, clock_h);
  const double up_deg = in_degrees(almanac_.sun_position(t, place_.site).apparent_elevation);
  const std::string when = hour_says(clock_h);
  if (up_deg > in_degrees(kHighestForShadows)) {
    return Error{ErrorCode::kNoAnswer, "/clock",
                 fmt::format("at {} the sun stands almost overhead: shadows are too short to tell "
                             "anything",
                             when),
                 "take the shadow two hours earlier or later"};
  }
  if (up_deg >= in_degrees(lowest)) return std::nullopt;
  const auto hours = hours_above(in_degrees(lowest));
  const std::string hint = hours ? fmt::format("on that day it stands high enough from {} to {}",
                                               hour_says(hours->first), hour_says(hours->second))
                                 : "on that day it never stands high enough: take another day";
  if (up_deg < 0)
    return Error{ErrorCode::kNoAnswer, "/clock", fmt::format("at {} the sun is down", when), hint};
  return Error{ErrorCode::kNoAnswer, "/clock",
               fmt::format("at {} the sun stands only {:.0f}° high: shadows are too long and too "
                           "blurred to measure by",
                           when, up_deg),
               hint};
}

}  // namespace spadework::ground
