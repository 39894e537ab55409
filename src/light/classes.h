// How sunny a place is, in the words of seed packets and plant labels.
#pragma once

#include <string_view>

namespace spadework::light {

enum class LightClass { kFullSun, kPartSun, kPartShade, kShade };

/// By the clear-sky sun hours a day in the growing months: full sun from 6, part sun from 4, part
/// shade from 2, shade below.
/// Source: [psu-light] hour limits; the hours need not be in one piece.
[[nodiscard]] constexpr LightClass light_class(double sun_h_per_day) {
  if (sun_h_per_day >= 6) return LightClass::kFullSun;
  if (sun_h_per_day >= 4) return LightClass::kPartSun;
  if (sun_h_per_day >= 2) return LightClass::kPartShade;
  return LightClass::kShade;
}

[[nodiscard]] constexpr std::string_view light_class_name(LightClass light_class) {
  switch (light_class) {
    case LightClass::kFullSun:
      return "full sun";
    case LightClass::kPartSun:
      return "part sun";
    case LightClass::kPartShade:
      return "part shade";
    case LightClass::kShade:
      break;
  }
  return "shade";
}

}  // namespace spadework::light
