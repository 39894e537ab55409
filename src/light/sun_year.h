// The sun and the sky of a year over a garden: the directions that shadows are cast with, and what
// each brings under the month's cloud.
#pragma once

#include <array>
#include <vector>

#include "base/base.h"
#include "garden/garden.h"
#include "light/samples.h"
#include "sky/sky.h"

namespace spadework::light {

/// Photons that plants can use in a megajoule of sun and sky, mol: 45 % of the energy at
/// 4.48 µmol/J. Source: [faust-logan] 0.007265 mol per Wh.
inline constexpr double kMolPerMj = 2.018;

/// What the months' clouds leave of the light. Without radiation there is no light, only hours.
struct Cloud {
  sky::YearRadiation radiation;
  std::array<double, 12> sunshine_h_per_day{};  // to expect in the open
};

/// By month 0 to 11, a mean day; "open" is level, without a thing or a skyline.
struct SunYear {
  std::vector<SunSample> samples;  // over the far skyline; in order of time
  std::vector<SunSample> behind;   // those that the skyline hides
  std::array<int, 12> days_in_month{};
  double hours_each = 1;                   // the time that a sample stands for
  double lowest_tangent = 0;               // of the lowest elevation that things are looked for
  std::array<double, 12> open_sun_h{};     // of a clear day
  std::array<double, 12> sunshine_h{};     // to expect
  std::array<double, 12> open_mol_m2_d{};  // DLI
  std::array<double, 12> sky_mol_m2_d{};   // of it, what comes from the sky but for about the sun
  std::array<double, 12> overcast{};       // share of that sky that is overcast, the rest uniform

  [[nodiscard]] bool has_light() const;
  /// Hours alone are asked for: they are quicker without.
  void leave_out_light() { open_mol_m2_d = sky_mol_m2_d = {}; }
  /// Only these months (0 to 11) are asked for: the others have no samples.
  void leave_out_all_but(const std::vector<int>& months);
  /// Of the samples every so manieth, spread evenly over the day's course in each month: each then
  /// stands for as much more time.
  void look_at_every(int every);
};
/// Errors: none.
/// Source: [spa] positions; [ineichen-perez] beam; [wmo8] threshold; sky/cloudy_sky.h for the
///         light; [faust-logan] photons.
[[nodiscard]] SunYear sun_year(const garden::Garden& garden, const Cloud& cloud = {},
                               int year = kReferenceYear);
/// The sun of one date in 4-minute steps: its month holds that day alone, the others nothing. The
/// light is that of a mean day of its month, as long as that day.
[[nodiscard]] SunYear sun_of_day(const garden::Garden& garden, LocalDate date,
                                 const Cloud& cloud = {});

/// The sun at an instant: one sample, which stands for an hour of its month and for a day of one
/// hour, so that a field of it is 1 where the sun shines and 0 elsewhere. No sample when the sun is
/// down, too weak to count, or behind the far skyline.
[[nodiscard]] SunYear sun_of_moment(const garden::Garden& garden, LocalDate date, double clock_h);

}  // namespace spadework::light
