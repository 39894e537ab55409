#include "server/typed_date.h"

#include <fmt/format.h>

#include <cctype>
#include <charconv>
#include <optional>
#include <vector>

#include "base/date.h"
#include "document/document.h"

namespace spadework::server {
namespace {

using garden::ValueType;

struct Typed {
  int year = kReferenceYear;
  unsigned month = 0, day = 0;
  bool has_year = false;
};

std::optional<int> whole(std::string_view text, std::size_t most_digits) {
  int value = 0;
  const char* const end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data(), end, value);
  const bool fits = !text.empty() && text.size() <= most_digits && error == std::errc();
  return fits && stop == end && value >= 0 ? std::optional<int>(value) : std::nullopt;
}

/// By its first three letters or more.
std::optional<unsigned> month_of(std::string_view word) {
  if (word.size() < 3) return std::nullopt;
  for (unsigned month = 1; month <= 12; ++month) {
    const std::string_view name = month_name(month);
    bool is_it = word.size() <= name.size();
    for (std::size_t i = 0; is_it && i < word.size(); ++i)
      is_it = std::tolower(static_cast<unsigned char>(word[i])) ==
              std::tolower(static_cast<unsigned char>(name[i]));
    if (is_it || (month == 9 && (word == "Sept" || word == "sept"))) return month;
  }
  return std::nullopt;
}

/// Its words, without commas and without the point behind a day or a shortened month.
std::vector<std::string_view> words_of(std::string_view text) {
  std::vector<std::string_view> words;
  while (true) {
    const std::size_t from = text.find_first_not_of(" ,");
    if (from == std::string_view::npos) return words;
    text.remove_prefix(from);
    std::string_view word = text.substr(0, text.find_first_of(" ,"));
    text.remove_prefix(word.size());
    if (word.ends_with('.')) word.remove_suffix(1);
    words.push_back(word);
  }
}

/// Year, month, day, as 2026-1-17.
std::optional<Typed> by_figures(std::string_view text) {
  const std::size_t first = text.find('-');
  const std::size_t second = first == std::string_view::npos ? first : text.find('-', first + 1);
  if (second == std::string_view::npos || first != 4) return std::nullopt;
  const auto year = whole(text.substr(0, first), 4);
  const auto month = whole(text.substr(first + 1, second - first - 1), 2);
  const auto day = whole(text.substr(second + 1), 2);
  if (!year || !month || !day || *month < 1 || *month > 12) return std::nullopt;
  return Typed{*year, static_cast<unsigned>(*month), static_cast<unsigned>(*day), true};
}

/// With the month's name, the day or the month first, the year last or left out.
std::optional<Typed> by_name(std::string_view text) {
  const auto words = words_of(text);
  if (words.size() < 2 || words.size() > 3) return std::nullopt;
  const bool day_first = whole(words[0], 2).has_value();
  const auto day = whole(words[day_first ? 0 : 1], 2);
  const auto month = month_of(words[day_first ? 1 : 0]);
  if (!day || !month) return std::nullopt;
  Typed typed{kReferenceYear, *month, static_cast<unsigned>(*day), words.size() == 3};
  if (!typed.has_year) return typed;
  const auto year = words[2].size() == 4 ? whole(words[2], 4) : std::nullopt;
  if (!year) return std::nullopt;
  typed.year = *year;
  return typed;
}

std::string_view trimmed(std::string_view text) {
  const std::size_t from = text.find_first_not_of(' ');
  return from == std::string_view::npos ? std::string_view{}
                                        : text.substr(from, text.find_last_not_of(' ') - from + 1);
}

}  // namespace

Result<std::string> date_toml(std::string_view text, ValueType type) {
  text = trimmed(text);
  const bool is_day = type == ValueType::kDay;
  if (is_day && parse_month_day(text)) return document::toml_text(text);
  auto typed = by_figures(text);
  if (!typed) typed = by_name(text);
  if (!typed || (!typed->has_year && !is_day)) {
    if (is_day)
      return fail(ErrorCode::kWrongType, "", "That is no day of the year.",
                  "Such as 03-01, or 1 March.");
    return fail(ErrorCode::kWrongType, "", "That is no date.", "Such as 2026-03-01.");
  }
  const int days = days_in_month(typed->year, typed->month);
  if (typed->day < 1 || static_cast<int>(typed->day) > days) {
    const std::string month(month_name(typed->month));
    return fail(ErrorCode::kImpossibleValue, "",
                fmt::format("{} has no day {}.", month, typed->day),
                typed->has_year ? fmt::format("It has {} days in {}.", days, typed->year)
                                : fmt::format("It has {} days.", days));
  }
  if (!typed->has_year)
    return document::toml_text(fmt::format("{:02}-{:02}", typed->month, typed->day));
  return iso_date(make_date(typed->year, typed->month, typed->day));
}

}  // namespace spadework::server
