// Figures as people are told them, in metric or in imperial units. JSON is metric always.
#pragma once

#include <string>

#include "base/quantity.h"

namespace spadework {

enum class Units { kMetric, kImperial };

/// A way over land: "412 km", "256 miles".
[[nodiscard]] std::string far_says(Length length, Units units);
/// A length or a height: "120 m", "394 ft". In: digits after the point, of metres; a foot has one
/// digit fewer.
[[nodiscard]] std::string length_says(Length length, Units units, int digits = 0);
/// "1.2 m²", "13 sq ft". In: digits after the point, of square metres; a square foot has one fewer.
[[nodiscard]] std::string area_says(Area area, Units units, int digits = 1);
/// "12.3 °C", "54.1 °F".
[[nodiscard]] std::string warmth_says(Temperature warmth, Units units);
/// By how much warmer: "1.6 °C", "2.9 °F".
[[nodiscard]] std::string warmer_says(TemperatureDelta step, Units units);

}  // namespace spadework
