// Takers: the things that take a place's light, each by what the place would win back if that thing
// alone were gone.
#pragma once

#include <string>
#include <vector>

#include "light/caster.h"
#include "light/places.h"
#include "light/scene.h"
#include "light/sun_year.h"

namespace spadework::light {

/// The far skyline's id among takers.
inline constexpr const char* kSkylineId = "skyline";

struct Taker {
  std::string id;
  double sun_h_per_year = 0;         // clear-sky hours, mean over the place
  double light_mol_m2_per_year = 0;  // under the months' cloud
};

struct Takers {
  std::vector<Taker> takers;  // by light won back, most first; those that take nothing left out
  double lost_h = 0;          // clear-sky hours a year that things and skyline take in all
  double lost_mol_m2 = 0;     // light, the same
  double taken_twice_h = 0;   // of lost_h, those that no thing alone would give back
};

/// In:     a place and the scene of all that can shade it; the year's sun.
/// Out:    means over the place's counted cells. No taker's gain is over what is lost.
/// Errors: none.
/// Tested: takers_test.cpp, against casting the year again without each thing.
/// Source: the definition; caster.h and sky_light.h for the light. [closed-form]
[[nodiscard]] Takers takers_of(const garden::Garden& garden, const Place& place, const Scene& scene,
                               const SunYear& year, Backend backend = Backend::kAuto);

}  // namespace spadework::light
