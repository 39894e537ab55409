// The light of the sky: which share of it comes to each cell of a receiver, through crowns and past
// walls and the far skyline.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "base/quantity.h"
#include "garden/garden.h"
#include "light/caster.h"

namespace spadework::light {

/// A direction of the sky and what it brings to a receiver's plane when nothing is in the way, as
/// shares of what the whole sky brings to a level plane.
struct SkyDirection {
  geometry::Vec3 toward;
  float uniform = 0, overcast = 0;
  bool behind = false;  // the far skyline hides it
};

/// How many directions the sky is taken by: their mean error in a sky view is under 0.003, the
/// largest under 0.01 (sky_light_test.cpp).
inline constexpr int kSkyDirections = 961;

/// The sky over a receiver, without what lies below the level.
/// Out:    on a level plane both shares add up to 1.
/// Errors: none.
/// Source: [closed-form] a uniform sky; [cie-overcast] an overcast one.
[[nodiscard]] std::vector<SkyDirection> sky_over(
    const Receiver& receiver, const std::vector<garden::Ground::HorizonPoint>& horizon,
    Angle plan_north, int directions = kSkyDirections);

/// Shares by cell, for each state of the leaves that differs; a month's state is that of its
/// middle.
struct SkyLight {
  std::array<int, 12> state_of_month{};
  std::vector<std::vector<float>> uniform, overcast;  // by state and cell
};

/// In:     directions that sky_over() gave for this receiver.
/// Out:    0 to 1 on a level plane.
/// Errors: none.
/// Tested: sky_light_test.cpp, against closed forms and single rays.
/// Source: closed form (parallel projection); Beer–Lambert for crowns. [closed-form]
[[nodiscard]] SkyLight cast_sky(const Scene& scene, const Receiver& receiver,
                                std::span<const SkyDirection> sky, const CastOptions& options = {});

}  // namespace spadework::light
