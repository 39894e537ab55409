#include "sheets/xml.h"

#include <cmath>
#include <cstdint>

namespace spadework::sheets {

std::string decimal(double value, int places) {
  std::int64_t scale = 1;
  for (int i = 0; i < places; ++i) scale *= 10;
  const std::int64_t whole = std::llround(value * static_cast<double>(scale));
  const std::int64_t size = whole < 0 ? -whole : whole;
  std::string out = (whole < 0 ? "-" : "") + std::to_string(size / scale);
  std::string part = std::to_string(size % scale + scale).substr(1);
  while (!part.empty() && part.back() == '0') part.pop_back();
  return part.empty() ? out : out + '.' + part;
}

std::string escaped(std::string_view words) {
  std::string out;
  out.reserve(words.size());
  for (const char c : words) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      default:
        if (static_cast<unsigned char>(c) >= 0x20 || c == '\n' || c == '\t') out += c;
    }
  }
  return out;
}

std::string base64(std::string_view bytes) {
  constexpr std::string_view kLetters =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  out.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    std::uint32_t three = 0;
    for (std::size_t k = 0; k < 3; ++k)
      three = (three << 8) | (i + k < bytes.size() ? static_cast<unsigned char>(bytes[i + k]) : 0U);
    for (std::size_t k = 0; k < 4; ++k)
      out += i + k > bytes.size() ? '=' : kLetters[(three >> (18 - 6 * k)) & 63U];
  }
  return out;
}

}  // namespace spadework::sheets
