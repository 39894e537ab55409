// What the parts of the study share. For the study room alone.
#pragma once

#include <string>

#include "study/study.h"

namespace spadework::study {

/// Raised when the light's method changes its results.
inline constexpr const char* kLightVersion = "light-2";

inline light::Scenery scenery_of(const Stand& stand, const facts::Catalogue& catalogue) {
  return {stand.garden, stand.surface, stand.bed_levels_m, catalogue};
}

inline std::string date_key(LocalDate date) { return iso_date(date); }

}  // namespace spadework::study
