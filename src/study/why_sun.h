// The chains behind hours of sun, and behind what things take. For the study room alone.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "study/why.h"

namespace spadework::study {

/// The place's id, or "this spot".
[[nodiscard]] std::string place_says(const Asked& asked);

/// A stretch of the year, and of its days: 0 morning, 1 midday, 2 afternoon, or all.
struct Span {
  std::vector<int> months;  // 0 to 11
  std::optional<std::size_t> part;
};
[[nodiscard]] Span whole_year();
[[nodiscard]] double days_of(const Span& span, const light::SunYear& sun);
/// "in June", "from April to September", "on 2026-06-21", "in a year".
[[nodiscard]] std::string when_says(const Asked& asked, const Span& span);

/// Hours of sun, or light.
enum class Taken { kHours, kLight };

/// A span's sums as they are told: of a mean day, of the one day asked for, or of the year.
struct Rate {
  double over = 1;        // what a sum is divided by
  const char* says = "";  // " a day", "", " a year"
  double least = 0.05;    // less is not told by itself
};
[[nodiscard]] Rate a_day(const Asked& asked, const Span& span);
[[nodiscard]] Rate a_year();

/// The samples of a span, with the light of its months alone, or with none.
[[nodiscard]] light::SunYear sun_in(const light::SunYear& sun, const Span& span, Taken what);

/// What is taken in a span, found as the year's takers are; without light, hours alone.
[[nodiscard]] light::Takers takers_in(const Asked& asked, const Span& span, Taken what);

/// What things and the skyline take, the most first, each with all that is known of it.
[[nodiscard]] Trace taken_trace(const Asked& asked, const light::Takers& takers, Taken what,
                                const Rate& rate);

/// `hours` of sun a day, from what the open has and what is taken.
[[nodiscard]] Trace sun_trace(const Asked& asked, const Span& span, double hours);

/// `takers/ID/KEY`, `lost_h` and `taken_twice_h`.
[[nodiscard]] Result<Trace> why_taken(const Asked& asked, const light::Takers& takers,
                                      const Pointer& pointer);

}  // namespace spadework::study
