#include "server/typed_figure.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <optional>
#include <utility>

#include "document/document.h"

namespace spadework::server {
namespace {

using garden::ValueType;

bool is_digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

void replace_all(std::string& text, std::string_view what, std::string_view by) {
  for (std::size_t at = 0; (at = text.find(what, at)) != std::string::npos; at += by.size())
    text.replace(at, what.size(), by);
}

/// Without spaces around it, with plain signs for those of print.
std::string tidy(std::string_view typed) {
  std::string text(typed);
  for (const std::string_view sign : {"’", "‘", "′", "´"}) replace_all(text, sign, "'");
  for (const std::string_view sign : {"”", "“", "″", "''"}) replace_all(text, sign, "\"");
  for (const std::string_view minus : {"−", "–"}) replace_all(text, minus, "-");
  replace_all(text, "\u00A0", " ");
  text.erase(0, text.find_first_not_of(' '));
  text.erase(text.find_last_not_of(' ') + 1);
  return text;
}

/// A run of digits, commas and points.
struct Run {
  std::size_t from = 0, size = 0;
};
Run next_run(const std::string& text, std::size_t from) {
  while (from < text.size() && !is_digit(text[from])) ++from;
  std::size_t end = from;
  while (end < text.size() && (is_digit(text[end]) || text[end] == ',' || text[end] == '.')) ++end;
  return {from, end - from};
}

tl::unexpected<Error> unclear(const std::string& run, std::string question) {
  return fail(ErrorCode::kWrongType, "", fmt::format("“{}” can be read in two ways", run),
              std::move(question));
}

/// One figure with a point for its comma. A comma before three digits may part thousands, unless
/// what stands before it is nought.
Result<std::string> with_point(std::string run) {
  const std::size_t comma = run.find(',');
  if (comma == std::string::npos) return run;
  std::string pointed = run, bare = run;
  std::erase(bare, ',');
  pointed[comma] = '.';
  const bool one_comma = run.find(',', comma + 1) == std::string::npos;
  const std::size_t point = run.find('.');
  if (point != std::string::npos) {
    // The later of the two parts the decimals.
    const std::size_t last = run.find_last_of(",.");
    std::string plain;
    for (std::size_t i = 0; i < run.size(); ++i) {
      if (is_digit(run[i])) plain += run[i];
      if (i == last) plain += '.';
    }
    return unclear(run, fmt::format("Write nothing between thousands: {}.", plain));
  }
  if (!one_comma) return unclear(run, fmt::format("Write nothing between thousands: {}.", bare));
  if (run.size() - comma - 1 == 3 && run.front() != '0') {
    std::string rounded = pointed;
    rounded.erase(rounded.find_last_not_of('0') + 1);
    if (rounded.back() == '.') rounded.pop_back();
    return unclear(run, fmt::format("{} or {}?", bare, rounded));
  }
  return pointed;
}

Result<std::string> with_points(std::string text) {
  std::size_t from = 0;
  while (true) {
    const Run run = next_run(text, from);
    if (run.size == 0) return text;
    auto mended = with_point(text.substr(run.from, run.size));
    if (!mended) return tl::unexpected<Error>(mended.error());
    text.replace(run.from, run.size, *mended);
    from = run.from + mended->size();
  }
}

/// Whether it is a length, whose units may be written in capitals.
bool is_length(ValueType type) { return type == ValueType::kLength || type == ValueType::kStem; }

/// The unit of a bare figure in an imperial garden; empty: none.
std::string_view imperial_unit(ValueType type) {
  if (is_length(type)) return " ft";
  return type == ValueType::kTemperature ? " F" : "";
}

std::string in_small_letters(std::string text) {
  for (char& c : text) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return text;
}

/// A walk through a figure without a unit.
struct Bare {
  std::string_view rest;

  void skip_spaces() { rest.remove_prefix(std::min(rest.find_first_not_of(' '), rest.size())); }
  bool take(std::string_view what) {
    if (!rest.starts_with(what)) return false;
    rest.remove_prefix(what.size());
    skip_spaces();
    return true;
  }
  std::optional<double> digits() {
    if (rest.empty() || (!is_digit(rest[0]) && rest[0] != '.')) return std::nullopt;
    double value = 0;
    const char* const end = rest.data() + rest.size();
    const auto [stop, error] = std::from_chars(rest.data(), end, value, std::chars_format::fixed);
    if (error != std::errc()) return std::nullopt;
    rest.remove_prefix(static_cast<std::size_t>(stop - rest.data()));
    skip_spaces();
    return value;
  }
};

constexpr std::pair<std::string_view, double> kSigns[] = {
    {"½", 0.5}, {"¼", 0.25}, {"¾", 0.75}, {"⅛", 0.125}, {"⅜", 0.375}, {"⅝", 0.625}, {"⅞", 0.875}};

/// "43.5", "-43 1/2", "12½", "1/2"; nothing for what is more or less than a figure.
std::optional<double> bare_figure(std::string_view text) {
  Bare walk{text};
  const bool below = walk.take("-");
  if (!below) walk.take("+");
  std::optional<double> value = walk.digits();
  if (value && !walk.rest.empty() && walk.rest[0] != '/' && is_digit(walk.rest[0])) {
    const auto above = walk.digits();
    const bool parted = walk.take("/");
    const auto under = parted ? walk.digits() : std::nullopt;
    if (!above || !under || *under == 0) return std::nullopt;
    value = *value + *above / *under;
  } else if (value && walk.take("/")) {
    const auto under = walk.digits();
    if (!under || *under == 0) return std::nullopt;
    value = *value / *under;
  } else {
    for (const auto& [sign, part] : kSigns)
      if (walk.take(sign)) {
        value = value.value_or(0) + part;
        break;
      }
  }
  if (!value || !walk.rest.empty()) return std::nullopt;
  return below ? -*value : *value;
}

}  // namespace

bool is_figure(ValueType type) {
  switch (type) {
    case ValueType::kNumber:
    case ValueType::kWhole:
    case ValueType::kShare:
    case ValueType::kLength:
    case ValueType::kStem:
    case ValueType::kAngle:
    case ValueType::kTemperature:
      return true;
    default:
      return false;
  }
}

Result<std::string> figure_toml(std::string_view typed, ValueType type, bool imperial) {
  auto text = with_points(tidy(typed));
  if (!text) return text;
  if (is_length(type)) text = in_small_letters(*text);
  const std::optional<double> figure = bare_figure(*text);
  if (!figure) return document::toml_text(*text);
  const std::string_view unit = imperial ? imperial_unit(type) : "";
  if (!unit.empty()) return document::toml_text(*text + std::string(unit));
  return document::toml_number(*figure);
}

Result<std::string> amount_toml(std::string_view typed) {
  const auto text = with_points(tidy(typed));
  if (!text) return text;
  return document::toml_text(*text);
}

}  // namespace spadework::server
