// The small change of SVG: rounded figures, escaped words, base64. Inside the room only.
#pragma once

#include <string>
#include <string_view>

namespace spadework::sheets {

/// At most `places` decimals, no trailing zeros, never "-0": 12.5, 0.333, 7.
[[nodiscard]] std::string decimal(double value, int places = 3);
/// For text and for attributes in double quotes; letters that XML forbids are left out.
[[nodiscard]] std::string escaped(std::string_view words);
/// Source: [rfc4648] section 4.
[[nodiscard]] std::string base64(std::string_view bytes);

}  // namespace spadework::sheets
