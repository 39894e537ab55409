// The sun's energy on level ground, by the equations of FAO Irrigation and Drainage Paper 56: what
// arrives above the air, how long the day is, and what sunshine or the swing of temperature between
// night and day leave of it. All energies are MJ/m² in a day.
#pragma once

#include "base/base.h"

namespace spadework::climate {

/// Above the air, and between geometric sunrise and sunset.
struct Sky {
  double extraterrestrial_mj_m2_d = 0;  // Ra
  double day_length_h = 0;              // N
};

/// In:     latitude -90° to 90°; day of the year 1 to 366.
/// Out:    both 0 in the polar night; 24 h in the polar day.
/// Source: [fao56] Eq. 21 to 25 and 34.
[[nodiscard]] Sky sky_of_day(Angle latitude, int day_of_year);

/// The mean over all days of a month (1 to 12) of an ordinary year. Source: [fao56] Eq. 21 to
/// 25, 34.
[[nodiscard]] Sky sky_of_month(Angle latitude, unsigned month);

/// Of what arrives above the air, an overcast day lets through a quarter; full sunshine adds a
/// half.
inline constexpr double kOvercastShare = 0.25;  // a_s of Eq. 35
inline constexpr double kBeamShare = 0.50;      // b_s

/// Global radiation from bright sunshine, the equation of Ångström and Prescott with the general
/// coefficients 0.25 and 0.50.
/// In:     hours of sunshine a day; more than the day has count as the whole day.
/// Out:    MJ/m² a day, between 0.25 and 0.75 of what arrives above the air.
/// Source: [fao56] Eq. 35.
[[nodiscard]] double radiation_from_sunshine(double sunshine_h, const Sky& sky);

/// The sunshine that goes with a radiation: the same equation turned round.
/// Out:    hours a day from 0 to the day's length.
/// Source: [fao56] Eq. 35.
[[nodiscard]] double sunshine_from_radiation(double global_mj_m2_d, const Sky& sky);

/// How much of the sky's energy a swing of one square-root degree lets expect.
inline constexpr double kInlandSwing = 0.16;  // FAO-56 Eq. 50, interior locations
inline constexpr double kCoastSwing = 0.19;   // on or beside the coast of a large land mass

/// Global radiation from the swing of temperature between night and day (Hargreaves); at most the
/// clear sky's.
/// In:     mean highest and lowest temperature of the day, the swing's coefficient (K^-0.5),
///         elevation above the sea.
/// Out:    MJ/m² a day; 0 if the highest is not above the lowest.
/// Source: [fao56] Eq. 50.
[[nodiscard]] double radiation_from_swing(Temperature tmax, Temperature tmin, double coefficient,
                                          Length elevation, const Sky& sky);

/// Conrad's index of continentality: about 0 on an ocean's coast, 100 in the middle of Siberia.
/// In:     warmest less coldest month's mean temperature. Source: [conrad1946].
[[nodiscard]] double continentality(TemperatureDelta yearly_range, Angle latitude);

/// Global radiation under a cloudless sky. Out: MJ/m² a day. Source: [fao56] Eq. 37.
[[nodiscard]] double clear_sky_radiation(Length elevation, const Sky& sky);

/// What level grass loses to the sky in long waves.
/// In:     mean highest and lowest temperature, vapour pressure in kPa, global radiation and that
///         of a clear sky in MJ/m² a day.
/// Out:    MJ/m² a day, outwards positive.
/// Source: [fao56] Eq. 39.
[[nodiscard]] double net_long_wave(Temperature tmax, Temperature tmin, double vapour_pressure_kpa,
                                   double global_mj_m2_d, double clear_sky_mj_m2_d);

/// Pressure of vapour in saturated air. Out: kPa. Source: [fao56] Eq. 11.
[[nodiscard]] double saturation_kpa(Temperature temperature);

}  // namespace spadework::climate
