// What shadows tell at a told time: where north is, and how high a thing stands.
//
// The thing must be upright. It and the sun's rays over its top then lie in one upright plane, and
// whatever the ground between, its shadow runs where that plane cuts the ground: in the plan a
// straight line from the foot, away from the sun's bearing. So on a slope the shadow is longer or
// shorter, but its direction in the plan is as on the level.
#pragma once

#include <optional>
#include <vector>

#include "base/date.h"
#include "base/result.h"
#include "geometry/vec.h"
#include "ground/measured.h"
#include "sky/solar_position.h"

namespace spadework::ground {

/// Where the plot lies, and whose clock is read.
struct ShadowPlace {
  sky::Site site;
  TimeZone time_zone;
  Length place_sigma;  // how far off the site may be, each way: of a nearby town, kilometres
};

/// How far off clock and shadow's end may be, one standard deviation.
struct ShadowErrors {
  double clock_min = 2;          // judgement, no source: a watch that is not set by a time signal
  Length tip = metres(0.05);     // judgement, no source: the shadow's end on grass, each way
  TapeErrors tape{};             // of the shadow's length
  double set_clock_min = 0.1;    // after setting it by a time signal
  Length pegged = metres(0.01);  // after marking the end with a peg
};

/// The sun of shadows lower than this is too faint, and its shadow too long, to tell north.
inline constexpr Angle kLowestForNorth = degrees(3);  // judgement, no source
/// Below this a height is not told: at 5° the shadow is 11 times as long as the thing is high, half
/// a degree of sun's disc blurs it by a tenth, and the bending of the rays varies with the air.
inline constexpr Angle kLowestForHeight = degrees(5);  // judgement, no source
/// Above this the shadow is under a tenth of the height, and the sun's bearing turns by a degree in
/// less than half a minute.
inline constexpr Angle kHighestForShadows = degrees(85);  // judgement, no source
/// A north that is less sure than this is no answer.
inline constexpr Angle kLeastSureNorth = degrees(10);  // judgement, no source

struct NoonShadow {
  UtcTime at;
  double clock_h = 12;         // what the clock shows then, hours since midnight
  double clock_sigma_min = 0;  // by how much place_sigma moves it
  bool points_north = true;    // the shadow; false: south
  Measured<Angle> bearing;     // of the shadow, if drawn when the clock shows clock_h: 0 or 180°
  Angle elevation;             // apparent
  Length shadow;               // of the stick, on the level
  std::vector<Remedy<Angle>> remedies;
};

/// When the shadow of an upright stick points true north (north of the tropics) or true south
/// (south of them; between the tropics the one or the other by season): solar noon.
/// In:     a date; the stick's height above the ground.
/// Out:    the clock's time; the shadow's bearing with the sigma that clock, place and shadow's end
///         give.
/// Errors: kImpossibleValue at `/stick_m` for a stick under 0.1 m; kNoAnswer at `/date` when at
///         noon the sun is down or too low, or so high that even with clock set and end pegged the
///         shadow is too short or turns too quickly, each with what to do instead.
/// Tested: NoonShadow (golden/sky/sunrise_sunset: published transits).
/// Source: [spa] the sun's position, by `sky::sun_events`; [closed-form] the sigma.
[[nodiscard]] Result<NoonShadow> noon_shadow(const ShadowPlace& place, LocalDate date,
                                             Length stick = metres(1),
                                             const ShadowErrors& errors = {});

/// "At 15:10 this shadow should end here": an upright thing's shadow as it lies on the plan.
/// Where the shadow of something upright ends on level ground.
/// In:     its foot in the plan, metres; its height over the foot; the true bearing of the page's
///         up; clock_h in hours since midnight by the clock, 0 to 24.
/// Errors: kNoAnswer where the sun is under kLowestForNorth or over kHighestForShadows, with the
///         hours of that day that will do.
/// Tested: shadows_test.cpp: north from such a shadow is the north it was drawn with.
[[nodiscard]] Result<geometry::Vec2> shadow_on_level(const ShadowPlace& place, geometry::Vec2 foot,
                                                     Length height, Angle plan_north,
                                                     LocalDate date, double clock_h);

struct ShadowOnPlan {
  geometry::Vec2 foot, tip;  // plan coordinates, metres
  LocalDate date;
  double clock_h = 12;  // hours since midnight by the clock, 0 to 24
};

struct NorthFromShadow {
  Measured<Angle> plan_north;  // the true bearing of the page's up, 0 to 360°
  Angle shadow_bearing;        // true bearing of the shadow, away from the sun
  sky::SunPosition sun;
  std::vector<Remedy<Angle>> remedies;
};

/// The page's true bearing from one shadow.
/// Out:    plan north and its sigma by clock, place and the shadow's end over its length.
/// Errors: kImpossibleValue at `/clock` outside 0 to 24; kNoAnswer at `/clock` when the sun is down
///         or too low, or too high; at `/tip` when the shadow is so short that its direction is
///         less sure than `kLeastSureNorth`.
/// Tested: NorthFromShadow; FirstMeasures (simulated plots, sloping ground).
/// Source: [spa] the sun's azimuth; [closed-form] the rest.
[[nodiscard]] Result<NorthFromShadow> plan_north_from_shadow(const ShadowPlace& place,
                                                             const ShadowOnPlan& shadow,
                                                             const ShadowErrors& errors = {});

/// How far ground that looks level may be off, one standard deviation.
inline constexpr Length kLooksLevel = metres(0.1);  // judgement, no source

/// A thing's shadow as it was taped.
struct TapedShadow {
  Length along;  // in the plan, from below the thing's top (a trunk, a ridge) to the shadow's end
  Measured<Length> rise{metres(0), kLooksLevel};  // shadow's end above the foot; negative: below it
  LocalDate date;
  double clock_h = 12;  // hours since midnight by the clock, 0 to 24
};

struct HeightFromShadow {
  Measured<Length> height;  // above the foot
  sky::SunPosition sun;
  std::vector<Remedy<Length>> remedies;
};

/// The height of an upright thing: length · tan(elevation) + rise, by the sun's apparent elevation.
/// Out:    the height and its sigma by tape, shadow's end, clock, place, rise, and the half-shadow:
///         the eye takes the end for some point in the half degree over which the sun's disc goes
///         down behind the top (evenly, by judgement).
/// Errors: kImpossibleValue at `/clock` outside 0 to 24, at `/along_m` for a shadow under 0.1 m or
///         over 2000 m, at `/rise_m` when the height would not be above the ground; kNoAnswer at
///         `/clock` when the sun is down, too low or too high.
/// Tested: HeightFromShadow (golden/light: noon shadows); FirstMeasures (simulated plots).
/// Source: [spa] elevation and the disc's half width; [closed-form] the rest.
[[nodiscard]] Result<HeightFromShadow> height_from_shadow(const ShadowPlace& place,
                                                          const TapedShadow& shadow,
                                                          const ShadowErrors& errors = {});

}  // namespace spadework::ground
