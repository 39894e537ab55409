#include "exchange/file_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "climate/csv_row.h"

namespace spadework::exchange {
namespace {

/// Bytes of the UTF-8 letter that begins the text, or 0 if none does.
std::size_t letter_bytes(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char first = byte(0);
  const std::size_t n = first < 0x80   ? 1
                        : first < 0xC2 ? 0
                        : first < 0xE0 ? 2
                        : first < 0xF0 ? 3
                                       : 4;
  if (n == 0 || n > text.size() || first > 0xF4) return 0;
  for (std::size_t i = 1; i < n; ++i) {
    if ((byte(i) & 0xC0) != 0x80) return 0;
  }
  if (n == 3 && ((first == 0xE0 && byte(1) < 0xA0) || (first == 0xED && byte(1) > 0x9F))) return 0;
  if (n == 4 && ((first == 0xF0 && byte(1) < 0x90) || (first == 0xF4 && byte(1) > 0x8F))) return 0;
  return n;
}

/// Whether its first sound asks for “an”.
bool spoken_vowel(std::string_view word) {
  return word.substr(0, 4) == "hour" || word.find_first_of("aeio") == 0;
}

}  // namespace

std::string shown(std::string_view text) {
  constexpr std::size_t kLongest = 60;
  std::string out;
  text = trimmed(text);
  while (!text.empty()) {
    if (out.size() >= kLongest) return out + "…";
    const std::size_t n = letter_bytes(text);
    const bool plain = n > 1 || (n == 1 && text[0] >= ' ' && text[0] != '\x7f');
    out += plain ? text.substr(0, n) : "?";
    text.remove_prefix(std::max<std::size_t>(n, 1));
  }
  return out;
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return out;
}

std::string FileLine::where(std::string_view field) const {
  return fmt::format("{}:{}:{}", file, number, field.data() - text.data() + 1);
}

std::string FileLine::where_end() const {
  return fmt::format("{}:{}:{}", file, number, text.size() + 1);
}

std::vector<std::string_view> fields_of(std::string_view row) {
  std::vector<std::string_view> out;
  climate::CsvRow reader(row);
  std::string_view field;
  while (out.size() <= kMostColumns && reader.next(field)) out.push_back(trimmed(field));
  return out;
}

std::optional<double> plain_number(std::string_view text) {
  double value = 0;
  if (text.size() > 1 && text[0] == '+' && text[1] != '-') text.remove_prefix(1);
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value))
    return std::nullopt;
  return value;
}

Result<double> bounded_number(const FileLine& line, std::string_view field, std::string_view what,
                              double low, double high) {
  const auto value = plain_number(trimmed(field));
  if (!value) {
    const bool comma = field.find(',') != std::string_view::npos;
    return fail(ErrorCode::kWrongType, line.where(field),
                fmt::format("“{}” is no number; the {} stands here.", shown(field), what),
                comma ? "Write decimals with a point, as in 12.5, not with a comma."
                      : "Write a number with a point, as in 12.5, or leave the field empty.");
  }
  const double slack = 1e-9 * (1 + std::max(std::abs(low), std::abs(high)));
  if (*value < low - slack || *value > high + slack)
    return fail(
        ErrorCode::kImpossibleValue, line.where(field),
        fmt::format("{} {} of {} cannot be.", spoken_vowel(what) ? "An" : "A", what, shown(field)),
        fmt::format("It lies between {:g} and {:g}. If the figure marks a gap, leave the "
                    "field empty; if it is in another unit, convert it.",
                    low, high));
  return *value;
}

void note_missing(std::vector<std::string>& notes, std::size_t missing, std::size_t of,
                  std::string_view what) {
  if (missing == 0) return;
  if (missing == of)
    notes.push_back(fmt::format("The file has no {}.", what));
  else
    notes.push_back(
        fmt::format("{} of {} days {} no {}.", missing, of, missing == 1 ? "has" : "have", what));
}

std::optional<Error> not_a_text(std::string_view bytes, std::string_view name) {
  const auto begins = [&](std::string_view with) { return bytes.substr(0, with.size()) == with; };
  const auto error = [&](std::string where, std::string message, std::string hint) {
    return Error{ErrorCode::kSyntax, std::move(where), std::move(message), std::move(hint)};
  };
  const std::string start = fmt::format("{}:1:1", name);
  if (bytes.size() > kMostBytes)
    return Error{ErrorCode::kTooLarge, start, "The weather file is over 64 MB.",
                 "A hundred years of days take some 4 MB: leave out what is older."};
  if (bytes.find_first_not_of(" \t\r\n") == std::string_view::npos)
    return error(start, "The weather file is empty.", "Fetch it again, or name another.");
  if (begins("PK\x03\x04") || begins("\xD0\xCF\x11\xE0") || begins("\x1F\x8B"))
    return error(start, "This is a packed file or a spreadsheet, not a weather file as text.",
                 "Unpack it, or export the sheet as CSV with commas, and name that file.");
  if (begins("\xFF\xFE") || begins("\xFE\xFF"))
    return error(start, "The file is saved in a wide encoding (UTF-16).",
                 "Save it again as plain text in UTF-8.");
  const std::size_t nul = bytes.find('\0');
  if (nul != std::string_view::npos) {
    const std::string_view before = bytes.substr(0, nul);
    const std::size_t line_start = before.rfind('\n') + 1;  // npos + 1 is 0
    return error(fmt::format("{}:{}:{}", name, 1 + std::count(before.begin(), before.end(), '\n'),
                             nul - line_start + 1),
                 "The file holds bytes that no text has.",
                 "It is damaged or not a text. Fetch it again, or save it as plain text.");
  }
  return std::nullopt;
}

}  // namespace spadework::exchange
