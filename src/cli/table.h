// Text for people: aligned tables, wrapped sentences, bold and dim on terminals only.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace spadework::cli {

/// Whether standard output is a terminal that understands styles (and NO_COLOR is not set).
[[nodiscard]] bool styled();
[[nodiscard]] std::string bold(std::string_view text);
[[nodiscard]] std::string dim(std::string_view text);

/// Padded with spaces to `width` columns; longer text stays as it is.
[[nodiscard]] std::string left(std::string_view text, int width);
[[nodiscard]] std::string right(std::string_view text, int width);

/// Broken between words at `width` columns, every line after the first indented.
[[nodiscard]] std::string wrapped(std::string_view text, int width, int indent);

/// The terminal's width, between 60 and 110; 100 when output is no terminal.
[[nodiscard]] int page_width();

}  // namespace spadework::cli
