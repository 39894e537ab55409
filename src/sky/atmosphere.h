// The air above a site, as far as it bends and weakens the sun.
#pragma once

#include "base/quantity.h"

namespace spadework::sky {

/// The mean pressure at an elevation above the sea, of the standard atmosphere.
/// In:     elevation, valid −500 to 11,000 m.
/// Out:    101,325 Pa at the sea.
/// Errors: none.
/// Source: [standard-atmosphere] hydrostatic equation of the troposphere, solved for pressure.
[[nodiscard]] Pressure standard_pressure(Length elevation);

/// How many times the air straight overhead the beam comes through, at the sea's pressure.
/// In:     the sun's apparent elevation (with refraction), 0 to 90°.
/// Out:    1 overhead, 38 at the horizon; below the horizon, the value at the horizon.
/// Errors: none.
/// Source: [kasten-young] the fitted formula (a = 0.50572, b = 6.07995°, c = 1.6364).
[[nodiscard]] double relative_air_mass(Angle apparent_elevation);

/// The same for the thinner air at a pressure.
/// Source: [kasten-young] the fitted formula, times pressure over 101,325 Pa.
[[nodiscard]] double absolute_air_mass(Angle apparent_elevation, Pressure pressure);

}  // namespace spadework::sky
