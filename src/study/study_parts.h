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

template <class T>
Result<Shared<T>> Study::once(const std::string& key, const std::function<Result<T>()>& compute) {
  if (const auto found = kept_.find(key); found != kept_.end()) {
    found->second.asked = ++asked_;
    return std::static_pointer_cast<const T>(found->second.result);
  }
  Result<T> made = compute();
  if (!made) return tl::unexpected<Error>(made.error());
  ++computed_;
  auto shared = std::make_shared<const T>(std::move(*made));
  kept_[key] = {shared, ++asked_};
  forget_the_oldest(key.substr(0, key.find(' ') + 1));
  return shared;
}

}  // namespace spadework::study
