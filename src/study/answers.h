// Answers in sentences: what a grower asks of a place or a garden, said in a line.
#pragma once

#include <span>
#include <string>

#include "study/study.h"

namespace spadework::study {

[[nodiscard]] std::string scheme_says(const std::string& scheme);  // "as proposed", "scheme x"

/// Hours as one says them: "5½ hours", "1 hour", "20 minutes", "no sun".
[[nodiscard]] std::string hours_says(double hours);

/// "About 5½ hours of sun on a clear day, April to September, mostly in the morning. Part sun. The
/// hedge takes 1½ hours."
/// In: `months`: 0 to 11, in order. `takers`: of the place in those months; nothing: not told.
[[nodiscard]] std::string place_answer(const light::PlaceSun& place, const light::SunYear& sun,
                                       const light::Takers* takers, std::span<const int> months);
/// The one thing to do next: mend the worst finding, measure what was guessed, or look around.
[[nodiscard]] std::string next_step(const Stand& stand,
                                    const std::vector<garden::Finding>& findings);
/// Of all beds together, else of all places.
[[nodiscard]] std::string garden_answer(const PlacesYear& year, std::span<const int> months);

}  // namespace spadework::study
