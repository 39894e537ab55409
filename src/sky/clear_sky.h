// The beam of a clear day. The model, the turbidity and the threshold named here define Spadework's
// sun hour: time in which the sun stands clear of every thing, faces the receiver, and
// `clear_sky(...).direct_normal` is over `kSunshineThreshold`. At the sea that starts with the sun
// about 3.9° above a level horizon.
#pragma once

#include "base/quantity.h"
#include "sky/solar_position.h"

namespace spadework::sky {

/// Sunshine is a direct-normal beam above this. Closed forms are tested with 0 instead.
/// Source: [wmo8] sunshine duration: direct solar irradiance exceeding 120 W/m².
inline constexpr Irradiance kSunshineThreshold = watts_per_m2(120);

/// The haze of the fixed clear day: Linke turbidity 3, about the yearly mean of Europe's
/// countryside and towns. One value for every place and month, so that a sun hour means the same
/// everywhere. Source: [r-sun] its default, "near the annual average for rural-city areas in
/// Europe".
inline constexpr double kLinkeTurbidity = 3.0;

/// The sun's beam above the air at one astronomical unit, as the clear-sky model takes it.
/// Source: [cimo-1981] 1,367 W/m².
inline constexpr Irradiance kSolarConstant = watts_per_m2(1367);

/// The beam above the air.
/// In:     the distance to the sun, astronomical units.
/// Out:    1,322 W/m² in early July to 1,414 in early January.
/// Errors: none.
/// Source: [cimo-1981] solar constant, over the distance squared.
[[nodiscard]] Irradiance extraterrestrial_irradiance(double distance_au);

/// The same by the day of any year, for sums over days where no instant is at hand.
/// In:     1 for 1 January to 366.
/// Out:    within 0.15 % of the true distance's.
/// Errors: none.
/// Source: [spencer] eccentricity correction; [cimo-1981] solar constant.
[[nodiscard]] Irradiance extraterrestrial_irradiance_of_day(int day_of_year);

struct ClearSky {
  Irradiance direct_normal;       // on a plane that faces the sun
  Irradiance global_horizontal;   // on a level plane, beam and sky
  Irradiance diffuse_horizontal;  // on a level plane, sky alone
};

/// The clear sky of Ineichen and Perez (2002), without the later enhancement of thin beams.
/// In:     apparent elevation; air mass for the site's pressure; Linke turbidity 1 to 10; altitude
///         above the sea; beam above the air.
/// Out:    all three 0 with the sun's centre at or below the horizon.
/// Errors: none.
/// Tested: golden/sky/ineichen_perez, golden/sky/clearsky_grid.
/// Source: [ineichen-perez] Eq. 8 and 11 and the limit of p. 157, in the form of [perez-2002]
///         p. 311–312 (which mends a misprint in Eq. 11).
[[nodiscard]] ClearSky ineichen_perez(Angle apparent_elevation, double absolute_air_mass,
                                      double linke_turbidity, Length altitude,
                                      Irradiance extraterrestrial);

/// The fixed clear day at a site: the model above with `kLinkeTurbidity`, the standard pressure at
/// the site's elevation and the distance to the sun.
/// Errors: none.
/// Source: [ineichen-perez] with [kasten-young] air mass and [standard-atmosphere] pressure.
[[nodiscard]] ClearSky clear_sky(const SunPosition& sun, const Site& site);

}  // namespace spadework::sky
