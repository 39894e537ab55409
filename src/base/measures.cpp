#include "base/measures.h"

#include <fmt/format.h>

#include <algorithm>

namespace spadework {
namespace {

constexpr double kMetresInMile = 1609.344;
constexpr double kMetresInFoot = 0.3048;
constexpr double kFahrenheitInCelsius = 1.8;

std::string figure(double value, int digits, const char* unit) {
  return fmt::format("{:.{}f} {}", value, digits, unit);
}

}  // namespace

std::string far_says(Length length, Units units) {
  if (units == Units::kMetric) return figure(in_metres(length) / 1000, 0, "km");
  return figure(in_metres(length) / kMetresInMile, 0, "miles");
}

std::string length_says(Length length, Units units, int digits) {
  if (units == Units::kMetric) return figure(in_metres(length), digits, "m");
  return figure(in_metres(length) / kMetresInFoot, std::max(0, digits - 1), "ft");
}

std::string area_says(Area area, Units units, int digits) {
  if (units == Units::kMetric) return figure(in_square_metres(area), digits, "m²");
  return figure(in_square_metres(area) / (kMetresInFoot * kMetresInFoot), std::max(0, digits - 1),
                "sq ft");
}

std::string warmth_says(Temperature warmth, Units units) {
  if (units == Units::kMetric) return figure(in_celsius(warmth), 1, "°C");
  return figure(in_celsius(warmth) * kFahrenheitInCelsius + 32, 1, "°F");
}

std::string warmer_says(TemperatureDelta step, Units units) {
  if (units == Units::kMetric) return figure(in_kelvins(step), 1, "°C");
  return figure(in_kelvins(step) * kFahrenheitInCelsius, 1, "°F");
}

}  // namespace spadework
