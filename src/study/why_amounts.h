// The chains behind amounts of light. For the study room alone.
#pragma once

#include "study/why.h"

namespace spadework::study {

/// Light in the open: the DLI of a level plane without a thing or a skyline.
/// In: month 0 to 11; `sun` of a year, or of the day.
[[nodiscard]] Trace open_light_trace(const climate::PlaceClimate& climate,
                                     const light::SunYear& sun, std::size_t month,
                                     std::optional<LocalDate> day);
/// The same, summed over the year: one month's chain to its end, the others' figures.
[[nodiscard]] Trace open_light_of_year(const climate::PlaceClimate& climate,
                                       const light::SunYear& sun);

/// The sunshine to expect with the month's cloud.
[[nodiscard]] Trace sunshine_trace(const Asked& asked, std::size_t month);
[[nodiscard]] Trace dli_trace(const Asked& asked, std::size_t month);
[[nodiscard]] Trace share_trace(const Asked& asked, std::size_t month);

}  // namespace spadework::study
