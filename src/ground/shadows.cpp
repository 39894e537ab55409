#include "ground/shadows.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "ground/day_of_sun.h"

namespace spadework::ground {
namespace {

constexpr double kDegree = std::numbers::pi / 180;
constexpr double kHalfDisc_deg = 0.26667;  // at the mean distance; Source: [spa] A.2
constexpr double kHourStep_h = 0.5;        // of the search for a better hour

/// The parts of a direction's sigma, degrees.
struct NorthParts {
  double clock_deg = 0, tip_deg = 0, place_deg = 0;
  [[nodiscard]] double all() const { return std::hypot(clock_deg, tip_deg, place_deg); }
};

/// In: the sun, the shadow's length in the plan, clock and shadow's end.
NorthParts north_parts(const SunAt& sun, double shadow_m, double clock_min, Length tip) {
  return {std::abs(sun.azimuth_deg_per_min) * clock_min, in_metres(tip) / shadow_m / kDegree,
          sun.azimuth_by_place_deg};
}

/// The remedies that noon and any other hour share.
std::vector<Remedy<Angle>> north_remedies(const NorthParts& now, const SunAt& sun, double shadow_m,
                                          const ShadowErrors& errors) {
  std::vector<Remedy<Angle>> out;
  const auto add = [&](Better by, const char* at, const NorthParts& then) {
    out.push_back({by, at, degrees(then.all())});
  };
  add(Better::kSetClock, "/clock", north_parts(sun, shadow_m, errors.set_clock_min, errors.tip));
  add(Better::kMarkTip, "/tip", north_parts(sun, shadow_m, errors.clock_min, errors.pegged));
  NorthParts exact = now;
  exact.place_deg = 0;
  add(Better::kExactPlace, "/place", exact);
  return out;
}

/// The hour of the day at which `sigma_at(sun)` is least, if any hour will do.
template <class Q, class SigmaAt>
std::optional<Remedy<Q>> better_hour(const DayOfSun& day, Angle lowest, const SigmaAt& sigma_at) {
  std::optional<Remedy<Q>> best;
  for (double clock_h = 0; clock_h < 24; clock_h += kHourStep_h) {
    const SunAt sun = day.at_clock(clock_h);
    if (sun.sun.apparent_elevation < lowest || sun.sun.apparent_elevation > kHighestForShadows)
      continue;
    const Q sigma = sigma_at(sun);
    if (!best || sigma < best->sigma_after) best = {Better::kOtherHour, "/clock", sigma, clock_h};
  }
  return best;
}

double shadow_of(double height_m, const SunAt& sun) {
  return height_m / std::tan(sun.elevation_deg() * kDegree);
}

/// Why noon tells no north, however carefully it is done; or nothing.
std::optional<Error> why_not_at_noon(const SunAt& sun, double shadow_m,
                                     const ShadowErrors& errors) {
  const NorthParts parts = north_parts(sun, shadow_m, errors.set_clock_min, errors.pegged);
  const auto no = [](std::string message, std::string hint) {
    return Error{ErrorCode::kNoAnswer, "/date", std::move(message), std::move(hint)};
  };
  if (sun.elevation_deg() < 0)
    return no("on that day the sun does not rise", "take a day when it does");
  if (sun.sun.apparent_elevation < kLowestForNorth) {
    return no(fmt::format("on that day the sun stands only {:.1f}° high at noon: shadows are too "
                          "long and too faint",
                          sun.elevation_deg()),
              "take a day when it stands higher");
  }
  if (sun.sun.apparent_elevation > kHighestForShadows ||
      parts.all() > in_degrees(kLeastSureNorth)) {
    return no(fmt::format("on that day the sun stands {:.0f}° high at noon: the stick's shadow is "
                          "only {:.0f} cm long and turns quickly",
                          sun.elevation_deg(), shadow_m * 100),
              "draw a shadow of the morning or the afternoon on the plan and tell its time");
  }
  return std::nullopt;
}

Error too_short(double shadow_m, const ShadowErrors& errors) {
  return {ErrorCode::kNoAnswer, "/tip",
          fmt::format("a shadow of {:.2f} m is too short to tell north: if its end is {:.0f} cm "
                      "beside the mark it points elsewhere by {:.0f}°",
                      shadow_m, in_metres(errors.tip) * 100,
                      std::min(90.0, std::atan2(in_metres(errors.tip), shadow_m) / kDegree)),
          "take the shadow of something taller, or when the sun is lower"};
}

Error turns_quickly(double clock_h, const NorthParts& parts, const ShadowErrors& errors) {
  return {ErrorCode::kNoAnswer, "/clock",
          fmt::format("at {} the shadow turns by {:.0f}° in {:.0f} minutes, and the clock may be "
                      "as much off",
                      clock_text(clock_h, false), parts.clock_deg, errors.clock_min),
          "take a shadow of the morning or the afternoon"};
}

/// The sigma of a height, metres, and what it hangs on.
struct HeightErrors {
  double along_m = 0, rise_m = 0, clock_min = 0;
  /// In: the sun, the shadow's length in the plan.
  [[nodiscard]] Length sigma(const SunAt& sun, double shadow_m) const {
    const double up = sun.elevation_deg() * kDegree;
    const double blur_deg = kHalfDisc_deg / sun.sun.distance_au / std::sqrt(3.0);  // evenly within
    const double up_deg =
        std::hypot(sun.elevation_deg_per_min * clock_min, sun.elevation_by_place_deg, blur_deg);
    const double by_angle_m = shadow_m * up_deg * kDegree / (std::cos(up) * std::cos(up));
    return metres(std::hypot(std::tan(up) * along_m, by_angle_m, rise_m));
  }
};

HeightErrors height_errors(const TapedShadow& shadow, const ShadowErrors& errors) {
  return {std::hypot(in_metres(tape_sigma(shadow.along, errors.tape)), in_metres(errors.tip)),
          in_metres(shadow.rise.sigma), errors.clock_min};
}

std::vector<Remedy<Length>> height_remedies(const DayOfSun& day, const SunAt& sun,
                                            const TapedShadow& shadow, const ShadowErrors& errors,
                                            const Measured<Length>& now) {
  const double along_m = in_metres(shadow.along);
  std::vector<Remedy<Length>> out;
  const auto add = [&](Better by, const char* at, TapedShadow s, ShadowErrors e) {
    out.push_back({by, at, height_errors(s, e).sigma(sun, along_m)});
  };
  ShadowErrors set = errors, pegged = errors;
  set.clock_min = errors.set_clock_min;
  pegged.tip = errors.pegged;
  TapedShadow levelled = shadow;
  levelled.rise.sigma = std::min(shadow.rise.sigma, metres(0.02));
  add(Better::kSetClock, "/clock", shadow, set);
  add(Better::kMarkTip, "/along_m", shadow, pegged);
  add(Better::kLevelTip, "/rise_m", levelled, errors);
  SunAt exact = sun;
  exact.elevation_by_place_deg = 0;
  out.push_back(
      {Better::kExactPlace, "/place", height_errors(shadow, errors).sigma(exact, along_m)});
  const auto hour = better_hour<Length>(day, kLowestForHeight, [&](const SunAt& other) {
    TapedShadow then = shadow;
    then.along = metres(shadow_of(in_metres(now.value), other));
    return height_errors(then, errors).sigma(other, in_metres(then.along));
  });
  if (hour) out.push_back(*hour);
  return worth_doing(std::move(out), now.sigma);
}

}  // namespace

Result<geometry::Vec2> shadow_on_level(const ShadowPlace& place, geometry::Vec2 foot, Length height,
                                       Angle plan_north, LocalDate date, double clock_h) {
  const DayOfSun day(place, date);
  if (auto error = day.why_not(clock_h, kLowestForNorth))
    return tl::unexpected<Error>(std::move(*error));
  const SunAt sun = day.at_clock(clock_h);
  const double turn = in_radians(sun.sun.azimuth + degrees(180) - plan_north);
  const double long_m = shadow_of(in_metres(height), sun);
  return foot + geometry::Vec2{std::sin(turn), std::cos(turn)} * long_m;
}

Result<NoonShadow> noon_shadow(const ShadowPlace& place, LocalDate date, Length stick,
                               const ShadowErrors& errors) {
  if (!(stick >= metres(0.1))) {
    return fail(ErrorCode::kImpossibleValue, "/stick_m",
                "a stick that short casts no useful shadow", "take one of a metre or more");
  }
  const DayOfSun day(place, date);
  const auto transit = day.events().transit;
  if (!transit) {
    return fail(ErrorCode::kNoAnswer, "/date", "on that day the sun's noon falls on midnight",
                "take the day before or after");
  }
  const SunAt sun = day.at(*transit);
  const double shadow_m = shadow_of(in_metres(stick), sun);
  const NorthParts parts = north_parts(sun, shadow_m, errors.clock_min, errors.tip);
  if (auto error = why_not_at_noon(sun, shadow_m, errors))
    return tl::unexpected<Error>(std::move(*error));
  NoonShadow noon;
  noon.at = *transit;
  noon.clock_h = place.time_zone.clock_hour(date, *transit);
  noon.points_north = std::cos(in_radians(sun.sun.azimuth)) < 0;  // away from the sun
  noon.bearing = {degrees(noon.points_north ? 0 : 180), degrees(parts.all())};
  // The sun's bearing there moves with the place as it moves with time.
  noon.clock_sigma_min = sun.azimuth_by_place_deg / std::abs(sun.azimuth_deg_per_min);
  noon.elevation = sun.sun.apparent_elevation;
  noon.shadow = metres(shadow_m);
  noon.remedies = north_remedies(parts, sun, shadow_m, errors);
  noon.remedies.push_back(
      {Better::kTallerStick, "/stick_m",
       degrees(north_parts(sun, 2 * shadow_m, errors.clock_min, errors.tip).all())});
  noon.remedies = worth_doing(std::move(noon.remedies), noon.bearing.sigma);
  return noon;
}

Result<NorthFromShadow> plan_north_from_shadow(const ShadowPlace& place, const ShadowOnPlan& shadow,
                                               const ShadowErrors& errors) {
  const DayOfSun day(place, shadow.date);
  if (auto error = day.why_not(shadow.clock_h, kLowestForNorth))
    return tl::unexpected<Error>(std::move(*error));
  const geometry::Vec2 way = shadow.tip - shadow.foot;
  const double shadow_m = geometry::length(way);
  const SunAt sun = day.at_clock(shadow.clock_h);
  const NorthParts parts = north_parts(sun, std::max(shadow_m, 1e-9), errors.clock_min, errors.tip);
  const double most_deg = in_degrees(kLeastSureNorth);
  if (!(parts.tip_deg <= most_deg)) return tl::unexpected<Error>(too_short(shadow_m, errors));
  if (parts.all() > most_deg)
    return tl::unexpected<Error>(turns_quickly(shadow.clock_h, parts, errors));
  NorthFromShadow north;
  north.sun = sun.sun;
  north.shadow_bearing = turned_round(sun.sun.azimuth + degrees(180));
  // On the page the shadow lies at its true bearing less the page's.
  north.plan_north = {turned_round(north.shadow_bearing - bearing_on_plan(way, degrees(0))),
                      degrees(parts.all())};
  north.remedies = north_remedies(parts, sun, shadow_m, errors);
  const double height_m = shadow_m * std::tan(sun.elevation_deg() * kDegree);
  const auto hour = better_hour<Angle>(day, kLowestForNorth, [&](const SunAt& other) {
    return degrees(
        north_parts(other, shadow_of(height_m, other), errors.clock_min, errors.tip).all());
  });
  if (hour) north.remedies.push_back(*hour);
  north.remedies = worth_doing(std::move(north.remedies), north.plan_north.sigma);
  return north;
}

Result<HeightFromShadow> height_from_shadow(const ShadowPlace& place, const TapedShadow& shadow,
                                            const ShadowErrors& errors) {
  const DayOfSun day(place, shadow.date);
  if (auto error = day.why_not(shadow.clock_h, kLowestForHeight))
    return tl::unexpected<Error>(std::move(*error));
  const double along_m = in_metres(shadow.along);
  if (!(along_m >= 0.1 && along_m <= 2000)) {
    return fail(ErrorCode::kImpossibleValue, "/along_m",
                fmt::format("a shadow of {:.2f} m tells no height", along_m),
                "tape from below the thing's top to its shadow's end, 0.1 m or more");
  }
  const SunAt sun = day.at_clock(shadow.clock_h);
  const double height_m =
      along_m * std::tan(sun.elevation_deg() * kDegree) + in_metres(shadow.rise.value);
  if (!(height_m > 0)) {
    return fail(ErrorCode::kImpossibleValue, "/rise_m",
                fmt::format("the shadow's end cannot lie {:.2f} m below the foot: the thing would "
                            "not stand above the ground",
                            -in_metres(shadow.rise.value)),
                "give how much higher the shadow's end lies than the foot, below zero if it is "
                "lower");
  }
  HeightFromShadow out;
  out.sun = sun.sun;
  out.height = {metres(height_m), height_errors(shadow, errors).sigma(sun, along_m)};
  out.remedies = height_remedies(day, sun, shadow, errors, out.height);
  return out;
}

}  // namespace spadework::ground
