// Candidates: what one thing would take of a place's light at each of many positions, for whoever
// looks for the best.
#pragma once

#include <span>
#include <vector>

#include "light/caster.h"
#include "light/places.h"
#include "light/scene.h"
#include "light/sun_year.h"

namespace spadework::light {

/// Means over a place's counted cells, for a year.
struct Loss {
  double sun_h = 0;         // clear-sky hours
  double light_mol_m2 = 0;  // under the months' cloud
};

struct CandidateOptions {
  /// Of the year's suns and the sky's directions every so manieth stands for as many: 1 is exact.
  int every = 1;
  int threads = 1;
  Backend backend = Backend::kAuto;
};

/// What the place would lose to the thing if it stood as each of the candidates, alone.
/// In:     a place; the scene of all else that can shade it; the bodies of each candidate (several
///         for a tree with its stem); the year's sun.
/// Out:    in the candidates' order; equal to the last bit whatever `threads` is.
/// Errors: none.
/// Tested: candidates_test.cpp, against casting the year again with each candidate.
/// Source: the definition; caster.h and sky_light.h for the light. [closed-form]
[[nodiscard]] std::vector<Loss> losses(const garden::Garden& garden, const Place& place,
                                       const Scene& scene,
                                       std::span<const std::vector<garden::Body>> candidates,
                                       const SunYear& year, const CandidateOptions& options = {});

}  // namespace spadework::light
