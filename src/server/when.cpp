#include "server/when.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

namespace spadework::server {
namespace {

/// `3,4,5`: months from 0; nothing for anything else.
std::vector<int> months_in(const std::string& text) {
  std::vector<int> months;
  for (const char *at = text.data(), *end = at + text.size(); at < end;) {
    int month = -1;
    const auto [stop, error] = std::from_chars(at, end, month);
    if (error != std::errc() || month < 0 || month > 11) return {};
    if (std::find(months.begin(), months.end(), month) == months.end()) months.push_back(month);
    if (stop < end && (*stop != ',' || stop + 1 == end)) return {};
    at = stop + 1;
  }
  return months;
}

/// What a request says of it, in words.
struct WhenAsked {
  std::string months, day;
  std::optional<double> clock_h;
  bool quick = false;
};

/// About as many suns, however many months are asked for: so that Ker Avel's growing months follow
/// the hand. Where a thing is dragged, the mean over the cells that change is off by less than
/// 0.15 h.
int every_when_quick(const std::vector<int>& months) {
  return std::clamp(static_cast<int>(months.size()) * 8 / 3, 1, 24);
}

Result<When> when_of(const WhenAsked& asked, const study::Stand& stand) {
  When when;
  const auto day = day_of(asked.day);
  if (!day) return tl::unexpected<Error>(day.error());
  when.day = *day;
  if (!when.day) {
    const auto months = months_of(asked.months, stand);
    if (!months) return tl::unexpected<Error>(months.error());
    when.months = *months;
    if (asked.quick) when.every = every_when_quick(when.months);
    return when;
  }
  when.months = {static_cast<int>(static_cast<unsigned>(when.day->month())) - 1};
  when.clock_h = asked.clock_h;
  if (when.clock_h && !(*when.clock_h >= 0 && *when.clock_h <= 24))
    return fail(ErrorCode::kWrongUse, "clock", "That is no hour of the day.",
                "A number from 0 to 24.");
  return when;
}

}  // namespace

Result<When> when_of(const Request& request, const study::Stand& stand) {
  WhenAsked asked{word_of(request, "months", ""),
                  word_of(request, "day", ""),
                  {},
                  word_of(request, "quick", "") == "true"};
  const std::string clock = word_of(request, "clock", "");
  double hour = 0;
  const auto [end, error] = std::from_chars(clock.data(), clock.data() + clock.size(), hour);
  if (!clock.empty())
    asked.clock_h = error == std::errc() && end == clock.data() + clock.size() ? hour : -1;
  return when_of(asked, stand);
}

Result<When> when_of(const Json& body, const study::Stand& stand) {
  const auto text = [&](const char* key) {
    return body.contains(key) && body[key].is_string() ? body[key].get<std::string>()
                                                       : std::string();
  };
  WhenAsked asked{text("months"), text("day"), {}, body.value("quick", false)};
  if (body.contains("clock"))
    asked.clock_h = body["clock"].is_number() ? body["clock"].get<double>() : -1;
  return when_of(asked, stand);
}

Result<std::vector<int>> months_of(const std::string& text, const study::Stand& stand) {
  auto months = text.empty() ? light::growing_months(stand.garden.site.latitude) : months_in(text);
  if (months.empty())
    return fail(ErrorCode::kWrongUse, "months", fmt::format("“{}” are no months.", text),
                "Numbers from 0 to 11 with commas between.");
  return months;
}

Result<std::optional<LocalDate>> day_of(const std::string& text) {
  if (text.empty()) return std::optional<LocalDate>();
  std::optional<LocalDate> day = parse_date(text);
  if (!day) {
    if (const auto any = parse_month_day(text))
      day = LocalDate(std::chrono::year(kReferenceYear), any->month(), any->day());
  }
  if (!day || static_cast<int>(day->year()) < 1990 || static_cast<int>(day->year()) > 2060)
    return fail(ErrorCode::kWrongUse, "day", fmt::format("“{}” is no such date.", text),
                "Such as 06-21, or 2026-06-21.");
  return day;
}

}  // namespace spadework::server
