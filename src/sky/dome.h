// Directions over the sky.
#pragma once

#include <vector>

#include "geometry/vec.h"

namespace spadework::sky {

/// Directions over the upper half of the sphere, as many to a solid angle as its cosine asks for:
/// each stands for an equal share of what a uniform sky brings to a level plane. Vogel's spiral on
/// the unit disc, lifted to the sphere (Nusselt's analogue).
/// In:     how many, at least 1.
/// Out:    unit vectors, z up.
/// Errors: none.
/// Tested: light/sky_light_test.cpp: sky views before walls, in canyons and clearings.
/// Source: [vogel] the spiral; [closed-form] the lift.
[[nodiscard]] std::vector<geometry::Vec3> cosine_dome(int n);

}  // namespace spadework::sky
