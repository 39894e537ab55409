#include <fmt/format.h>

#include "document/patch.h"

namespace spadework::document {

std::string toml_text(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    const auto u = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (c == '\n') {
      out += "\\n";
    } else if (c == '\t') {
      out += "\\t";
    } else if (u < 0x20 || u == 0x7F) {
      out += fmt::format("\\u{:04X}", u);
    } else {
      out += c;
    }
  }
  return out + "\"";
}

std::string toml_number(double value) {
  if (value == 0) return "0";
  std::string out = fmt::format("{}", value);
  // 5.0 is written 5; TOML wants a digit after a point and knows 1e+20.
  if (out.size() > 2 && out.compare(out.size() - 2, 2, ".0") == 0) out.resize(out.size() - 2);
  return out;
}

std::string toml_key(std::string_view name) {
  const bool bare = !name.empty() && name.find_first_not_of(
                                         "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                         "0123456789_-") == std::string_view::npos;
  return bare ? std::string(name) : toml_text(name);
}

}  // namespace spadework::document
