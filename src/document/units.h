// Figures with units as growers write them: "7 ft", "6 ft 6 in", "195 mm", "28 F", "6 kg".
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/quantity.h"
#include "base/result.h"

namespace spadework::document {

/// "1.4 m", "40 cm", "195 mm", "7 ft", "6 ft 6 in", `6' 6 1/2"`, "2 yd"; at most two or three
/// parts, from the larger unit to the smaller, of one system. Errors: kWrongUnit (none, or one that
/// measures something else), kWrongType (no figure, a decimal comma).
[[nodiscard]] Result<Length> parse_length(std::string_view text);
/// As a length, with "girth" or "width" before it; a girth is turned into the width of a round
/// stem.
[[nodiscard]] Result<Length> parse_stem(std::string_view text);
/// Metres in feet and inches, as they are taped: "27 ft 6 in", "9 1/4 in", "-3 ft"; inches in
/// halves to sixteenths, or else, where none of them is within 0.1 mm, with decimals to that:
/// "27 ft 9.937 in".
[[nodiscard]] std::string feet_says(double metres);
/// Whether it is so many feet and inches, the inches in halves to sixteenths, within 0.1 mm.
[[nodiscard]] bool is_taped_in_feet(double metres);
/// "12 deg", "12°". Errors as of `parse_length`.
[[nodiscard]] Result<Angle> parse_angle(std::string_view text);
/// "28 F", "-2 °C". Errors as of `parse_length`.
[[nodiscard]] Result<Temperature> parse_temperature(std::string_view text);

/// "6 kg", "30 heads", "2 meals a week", "some".
struct Amount {
  double number = 0;  // 0 for "some"
  std::string unit;   // as in `units`: "kg", "heads"; empty for "some"
  std::string per;    // "week", "month", "year" or empty
};
/// `units` are those that may stand there; a singular is understood. Errors: kWrongUnit,
/// kWrongType, kImpossibleValue (not above 0).
[[nodiscard]] Result<Amount> parse_amount(std::string_view text,
                                          const std::vector<std::string>& units);

}  // namespace spadework::document
