// Light under the clouds of a place: from a month's mean radiation to the beam and the sky of each
// hour.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <vector>

#include "sky/year_samples.h"

namespace spadework::sky {

/// Radiant energy on a plane, J/m². Months' means are in MJ/m² a day.
/// What a month brings to a level, open plane: a mean day.
struct MonthRadiation {
  double global_mj_m2_d = 0;
  std::optional<double> diffuse_mj_m2_d;  // measured; else from the clearness of the month
};
using YearRadiation = std::array<MonthRadiation, 12>;

/// From noon to sunset on a level plain: 0° in polar night, 180° in polar day.
/// Errors: none.
/// Source: [fao56] Eq. 25; [duffie-beckman] Eq. 1.6.10.
[[nodiscard]] Angle sunset_hour_angle(Angle latitude, Angle declination);

/// Radiation of a day on a level plane above the air, MJ/m².
/// In:     the beam above the air on that day.
/// Errors: none.
/// Tested: golden/sky/fao56_radiation.
/// Source: [fao56] Eq. 21; [duffie-beckman] Eq. 1.10.3.
[[nodiscard]] double daily_extraterrestrial_mj_m2(Angle latitude, Angle declination,
                                                  Irradiance beam);

/// The share of a day's global radiation that falls in the hour around an hour angle.
/// Out:    1/h; never negative; 0 outside daylight.
/// Errors: none.
/// Tested: golden/sky/hours_of_a_day.
/// Source: [collares-pereira-rabl] the equation for r_t.
[[nodiscard]] double hour_share_of_global(Angle hour_angle, Angle sunset);
/// The same of diffuse radiation.
/// Tested: golden/sky/hours_of_a_day.
/// Source: [liu-jordan] the equation for r_d.
[[nodiscard]] double hour_share_of_diffuse(Angle hour_angle, Angle sunset);

/// The share of a month's mean global radiation that comes from the sky rather than the beam.
/// In:     clearness: global over extraterrestrial; sunset of the month's middle day.
/// Out:    0 to 1. Beyond the clearness of the fit (0.3 to 0.8) as at its ends.
/// Errors: none.
/// Tested: golden/sky/diffuse_of_a_month.
/// Source: [erbs] the monthly average correlations for two seasons.
[[nodiscard]] double diffuse_share_of_month(double clearness, Angle sunset);

/// The light of one sample on planes that are open to the sky.
struct CloudySun {
  double normal_mj_m2 = 0;  // beam and the bright sky about the sun, on a plane that faces it
  double sky_mj_m2 = 0;     // the rest of the sky, on a level plane
};

/// The light of the suns of a year or a day, in the samples' order: each month's means shared out
/// over its hours, the diffuse part into what comes from about the sun and the rest.
/// In:     samples of whole days; a month that has samples gets what its mean day brings times the
///         days it has among them, the radiation of each day following that above the air.
/// Out:    on a level plane beam, bright sky and rest add up to the months' sums exactly.
/// Errors: none; a month without light brings none.
/// Source: [collares-pereira-rabl]; [liu-jordan]; [erbs]; [hay-davies] the anisotropy index.
[[nodiscard]] std::vector<CloudySun> cloudy_suns(std::span<const SunSample> samples, int year,
                                                 Angle latitude, const YearRadiation& radiation);

/// Radiance of an overcast sky over that of a uniform one with the same light on a level plane.
/// In:     sine of the elevation.
/// Source: [cie-overcast] (1 + 2 sin e) / 3 of the zenith's, which gives 7π/9 on a level plane.
[[nodiscard]] constexpr double overcast_radiance(double sine) { return (1 + 2 * sine) * 3 / 7; }

}  // namespace spadework::sky
