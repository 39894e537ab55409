// Syntax errors in plain words: what stands there, and what would be right.
#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <optional>

#include "document/toml_text.h"
#include "document/toml_tree.h"

namespace spadework::document {
namespace {

using garden::TextPlace;

struct Line {
  std::string_view all;
  std::string_view key, value;  // around the first `=`, without spaces at the ends
  bool has_equals = false;
  std::size_t indent = 0;  // spaces before it
};

std::string_view trimmed(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(" \t\r");
  if (begin == std::string_view::npos) return {};
  return text.substr(begin, text.find_last_not_of(" \t\r") + 1 - begin);
}

Line line_at(std::string_view text, int number) {
  std::size_t begin = text.substr(0, 3) == "\xEF\xBB\xBF" ? 3 : 0;
  for (int i = 1; i < number; ++i) {
    const std::size_t end = text.find('\n', begin);
    if (end == std::string_view::npos) return {};
    begin = end + 1;
  }
  Line line;
  const std::string_view whole = text.substr(begin, text.find('\n', begin) - begin);
  line.all = trimmed(whole);
  line.indent = std::min(whole.find_first_not_of(" \t"), whole.size());
  const std::size_t equals = line.all.find('=');
  line.has_equals = equals != std::string_view::npos;
  line.key = trimmed(line.all.substr(0, equals));
  if (line.has_equals) line.value = trimmed(line.all.substr(equals + 1));
  return line;
}

bool has(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}
bool is_digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }
/// A sign of more than one byte: é, °.
bool is_beyond_ascii(char c) { return static_cast<unsigned char>(c) >= 0x80; }
bool is_letter(char c) {
  return std::isalpha(static_cast<unsigned char>(c)) != 0 || is_beyond_ascii(c);
}

std::string shortened(std::string_view text) {
  if (text.size() <= 40) return std::string(text);
  std::size_t n = 37;
  while (n > 0 && (static_cast<unsigned char>(text[n]) & 0xC0) == 0x80) --n;
  return std::string(text.substr(0, n)) + "…";
}

/// 1,4 or 1,4 m: a comma where the decimals begin.
bool has_decimal_comma(std::string_view value) {
  const std::size_t comma = value.find(',');
  return comma != std::string_view::npos && comma > 0 && comma + 1 < value.size() &&
         is_digit(value[comma - 1]) && is_digit(value[comma + 1]) && value[0] != '[' &&
         value[0] != '"' && value[0] != '\'';
}

/// A figure with a unit, but without quotes: 7 ft, 1.4m.
bool is_bare_measure(std::string_view value) {
  if (value.empty() || !(is_digit(value[0]) || value[0] == '-' || value[0] == '+')) return false;
  const std::size_t letters = value.find_first_not_of("+-0123456789._ ");
  return letters != std::string_view::npos &&
         (is_letter(value[letters]) || value[letters] == '\'' || value[letters] == '"');
}

std::string without_comment(std::string_view value) {
  return std::string(trimmed(value.substr(0, value.find('#'))));
}

struct Plain {
  std::string message, hint;
};

/// A figure in a list that begins with its point: `[.3, .3]`.
bool has_bare_point(std::string_view value) {
  if (has(value, "\"")) return false;
  for (std::size_t i = 1; i + 1 < value.size(); ++i) {
    const char before = value[i - 1];
    if (value[i] == '.' && is_digit(value[i + 1]) &&
        (before == '[' || before == ',' || before == ' '))
      return true;
  }
  return false;
}

std::optional<Plain> by_value(const Line& line) {
  if (!line.has_equals) return std::nullopt;
  const std::string value = without_comment(line.value);
  if (value.empty()) {
    return Plain{fmt::format("{} has no value", shortened(line.key)),
                 fmt::format("write one after the `=`, or put # before the line to leave it out")};
  }
  if (has(value, "“") || has(value, "”") || has(value, "„") || has(value, "‘") || has(value, "’")) {
    return Plain{"these quotes are curved", "text stands between straight quotes: \"…\""};
  }
  if (has_decimal_comma(value)) {
    std::string mended = value;
    mended[mended.find(',')] = '.';
    return Plain{fmt::format("{} has a comma in its figure", shortened(line.key)),
                 fmt::format("write a point before the decimals: {} = {}", shortened(line.key),
                             shortened(mended))};
  }
  if (value == "True" || value == "False" || value == "yes" || value == "no" || value == "TRUE" ||
      value == "FALSE" || value == "Yes" || value == "No") {
    return Plain{
        fmt::format("{} is neither true nor false", value),
        fmt::format("write {} = {}", shortened(line.key),
                    value[0] == 'T' || value[0] == 'y' || value[0] == 'Y' ? "true" : "false")};
  }
  if (value[0] == '.' || value.back() == '.' || has_bare_point(value)) {
    return Plain{"a figure has a digit before and after its point", "write 0.5 or 5.0"};
  }
  if (value.size() > 1 && value[0] == '0' && is_digit(value[1])) {
    return Plain{"a figure does not begin with 0", "leave the 0 out"};
  }
  if (is_bare_measure(value)) {
    return Plain{fmt::format("{} is a figure with a unit, but has no quotes", shortened(value)),
                 fmt::format("write {} = \"{}\"", shortened(line.key), shortened(value))};
  }
  if (is_letter(value[0]) && value.find('"') == std::string::npos) {
    return Plain{fmt::format("{} is text, but has no quotes", shortened(value)),
                 fmt::format("write {} = \"{}\"", shortened(line.key), shortened(value))};
  }
  return std::nullopt;
}

std::string quoted_name(std::string_view about) {
  const std::size_t begin = about.find('\'');
  const std::size_t end = about.find('\'', begin + 1);
  if (begin == std::string_view::npos || end == std::string_view::npos) return "this";
  return std::string(about.substr(begin + 1, end - begin - 1));
}

std::optional<Plain> by_parser_words(std::string_view about, const Line& line) {
  if (has(about, "utf-8")) {
    return Plain{"a letter here is not written as UTF-8", "save the document as UTF-8"};
  }
  if (has(about, "cannot redefine") || has(about, "cannot insert")) {
    const std::string name = quoted_name(about);
    if (line.all.substr(0, 1) == "[") {
      return Plain{fmt::format("[{}] is there a second time", shortened(name)),
                   "put its keys together under the first; things that there are many of stand in "
                   "double brackets, like [[wall]]"};
    }
    return Plain{fmt::format("{} is there a second time", shortened(name)),
                 "leave one of the two out"};
  }
  if (has(about, "parsing date") || has(about, "parsing time")) {
    return Plain{"this is no day that there is",
                 "dates are written year-month-day: 2026-03-01; a day of any year "
                 "in quotes: \"03-01\""};
  }
  if (has(about, "not representable") || has(about, "could not be interpreted")) {
    return Plain{"the figure is too large to be read", "write a smaller one"};
  }
  if (has(about, "escape sequence")) {
    return Plain{"a backslash in text between \" marks has a meaning of its own",
                 "write \\\\ for a backslash, or put the text between ' marks"};
  }
  return std::nullopt;
}

std::optional<Plain> by_shape(std::string_view about, const Line& line) {
  if (has(about, "table header")) {
    return Plain{"a bracket of the table's name is missing or too many",
                 "write [garden] for what there is one of, [[wall]] for what there are many of"};
  }
  if (has(about, "literal string") || has(about, "parsing string")) {
    return Plain{"the text is not closed: a quote is missing at its end",
                 "put the same quote before and after it, on one line"};
  }
  if (has(about, "inline table")) {
    return Plain{"what stands between { and } is not closed or has a comma too many",
                 "write { height = 0.2, courses = 2 } on one line, without a comma at its end"};
  }
  if (has(about, "parsing array")) {
    return Plain{"a list is not closed, or a comma is missing or too many in it",
                 "write [1, 2, 3], lists in a list [[0, 0], [4, 0]]"};
  }
  if (has(about, "expected '='") || !line.has_equals) {
    const std::string key(line.all.substr(0, line.all.find_first_of(": \t=")));
    if (std::any_of(key.begin(), key.end(), is_beyond_ascii)) {
      return Plain{
          fmt::format("{} cannot be a key: keys are written with a-z and _", shortened(key)),
          "docs/document.md names all keys; names of your own stand in quotes"};
    }
    return Plain{"a key and its value want a = between them",
                 fmt::format("write {} = …, or put # before the line if it is a remark",
                             key.empty() ? "key" : shortened(key))};
  }
  return std::nullopt;
}

}  // namespace

SyntaxError plain_syntax_error(std::string_view text, TextPlace where, std::string_view about) {
  const Line line = line_at(text, where.line);
  auto plain = by_parser_words(about, line);
  if (!plain && !has(about, "array") && !has(about, "string")) plain = by_value(line);
  if (has(about, "key-value pair: cannot redefine") && line.has_equals && line.all[0] != '[') {
    where.column = static_cast<int>(line.indent) + 1;  // at the key
  }
  if (!plain) plain = by_shape(about, line);
  if (!plain) plain = by_value(line);
  if (!plain) {
    plain =
        Plain{"this is not TOML",
              "write key = value, with text in quotes: kind = \"stone\"; docs/document.md shows "
              "how"};
  }
  return {where, ErrorCode::kSyntax, plain->message + "; nothing after this is read",
          std::move(plain->hint)};
}

}  // namespace spadework::document
