// The rule with which a zone goes on after the changes that its file lists: POSIX.1-2017 §8.3, TZ.
#include <algorithm>
#include <cctype>
#include <optional>

#include "document/time_zone.h"

namespace spadework::document {
namespace {

/// Reads a rule from left to right.
class RuleText {
 public:
  explicit RuleText(std::string_view text) : rest_(text) {}
  [[nodiscard]] bool done() const { return rest_.empty(); }
  bool take(char c) {
    if (rest_.empty() || rest_[0] != c) return false;
    rest_.remove_prefix(1);
    return true;
  }
  /// `CET` or `<+0330>`.
  bool name() {
    const bool quoted = take('<');
    std::size_t n = 0;
    while (n < rest_.size() && (quoted ? rest_[n] != '>' : letter(rest_[n]))) ++n;
    rest_.remove_prefix(n);
    return n > 0 && (!quoted || take('>'));
  }
  std::optional<int> whole() {
    int value = 0;
    std::size_t n = 0;
    for (; n < rest_.size() && n < 4 && std::isdigit(static_cast<unsigned char>(rest_[n])); ++n) {
      value = value * 10 + (rest_[n] - '0');
    }
    rest_.remove_prefix(n);
    if (n == 0) return std::nullopt;
    return value;
  }
  /// `[+-]h[:mm[:ss]]` in seconds.
  std::optional<int> time_s() {
    const int sign = take('-') ? -1 : (take('+'), 1);
    const auto hours = whole();
    if (!hours) return std::nullopt;
    int seconds = *hours * 3600;
    if (take(':')) seconds += whole().value_or(0) * 60;
    if (take(':')) seconds += whole().value_or(0);
    return sign * seconds;
  }

 private:
  static bool letter(char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; }
  std::string_view rest_;
};

/// `Mm.w.d[/time]`: weekday d (0 is Sunday) of week w (5 is the last) of month m, or `Jn` / `n`.
struct ChangeDay {
  int month = 0, week = 0, weekday = 0;
  int day_of_year = 0;       // when month is 0; from 1
  bool counts_leap = false;  // whether 29 February is counted
  int local_time_s = 7200;
};

std::optional<ChangeDay> read_change_day(RuleText& text) {
  ChangeDay out;
  if (text.take('M')) {
    const auto month = text.whole();
    const bool dot1 = text.take('.');
    const auto week = text.whole();
    const bool dot2 = text.take('.');
    const auto weekday = text.whole();
    if (!month || !dot1 || !week || !dot2 || !weekday) return std::nullopt;
    if (*month < 1 || *month > 12 || *week < 1 || *week > 5 || *weekday > 6) return std::nullopt;
    out.month = *month;
    out.week = *week;
    out.weekday = *weekday;
  } else {
    out.counts_leap = !text.take('J');
    const auto day = text.whole();
    if (!day || *day > 366) return std::nullopt;
    out.day_of_year = *day + (out.counts_leap ? 1 : 0);
  }
  if (text.take('/')) {
    const auto time = text.time_s();
    if (!time) return std::nullopt;
    out.local_time_s = *time;
  }
  return out;
}

LocalDate date_in(const ChangeDay& day, int year) {
  using namespace std::chrono;
  if (day.month == 0) {
    const bool shift = !day.counts_leap && days_in_year(year) == 366 && day.day_of_year > 59;
    return date_of_day(year, day.day_of_year + (shift ? 1 : 0));
  }
  const std::chrono::year y(year);
  const std::chrono::month m(static_cast<unsigned>(day.month));
  const std::chrono::weekday w(static_cast<unsigned>(day.weekday));
  if (day.week == 5) return year_month_day(sys_days(y / m / w[last]));
  return year_month_day(sys_days(y / m / w[static_cast<unsigned>(day.week)]));
}

}  // namespace

std::vector<TimeZone::Period> periods_of_rule(std::string_view rule, UtcTime after, int last_year) {
  RuleText text(rule);
  if (!text.name()) return {};
  const auto west_s = text.time_s();  // POSIX counts west of Greenwich as positive
  if (!west_s || text.done() || !text.name()) return {};
  const int standard_s = -*west_s;
  int summer_s = standard_s + 3600;
  if (!text.take(',')) {
    const auto summer_west_s = text.time_s();
    if (!summer_west_s || !text.take(',')) return {};
    summer_s = -*summer_west_s;
  }
  const auto start = read_change_day(text);
  if (!start || !text.take(',')) return {};
  const auto end = read_change_day(text);
  if (!end || !text.done()) return {};

  std::vector<TimeZone::Period> out;
  for (int year = static_cast<int>(utc_date(after).year()); year <= last_year; ++year) {
    const double starts = utc_midnight(date_in(*start, year)).unix_s + start->local_time_s;
    const double ends = utc_midnight(date_in(*end, year)).unix_s + end->local_time_s;
    out.push_back({UtcTime{starts - standard_s}, summer_s, true});
    out.push_back({UtcTime{ends - summer_s}, standard_s, false});
  }
  std::erase_if(out, [&](const TimeZone::Period& period) { return period.since <= after; });
  std::sort(out.begin(), out.end(),
            [](const TimeZone::Period& a, const TimeZone::Period& b) { return a.since < b.since; });
  return out;
}

}  // namespace spadework::document
