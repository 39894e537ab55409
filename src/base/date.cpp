#include "base/date.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/check.h"

namespace spadework {
namespace {

using std::chrono::days;
using std::chrono::sys_days;

std::optional<int> digits(std::string_view text) {
  if (text.empty()) return std::nullopt;
  int value = 0;
  for (char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    value = value * 10 + (c - '0');
  }
  return value;
}

constexpr std::array<std::string_view, 12> kMonths = {
    "January", "February", "March",     "April",   "May",      "June",
    "July",    "August",   "September", "October", "November", "December"};

}  // namespace

LocalDate make_date(int year, unsigned month, unsigned day) {
  return LocalDate(std::chrono::year(year), std::chrono::month(month), std::chrono::day(day));
}

std::optional<LocalDate> parse_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto y = digits(text.substr(0, 4));
  const auto m = digits(text.substr(5, 2));
  const auto d = digits(text.substr(8, 2));
  if (!y || !m || !d) return std::nullopt;
  const LocalDate date = make_date(*y, static_cast<unsigned>(*m), static_cast<unsigned>(*d));
  if (!date.ok()) return std::nullopt;
  return date;
}

std::optional<std::chrono::month_day> parse_month_day(std::string_view text) {
  if (text.size() != 5) return std::nullopt;
  const auto date = parse_date(fmt::format("{}-{}", kReferenceYear, text));
  if (!date) return std::nullopt;
  return std::chrono::month_day(date->month(), date->day());
}

std::string iso_date(LocalDate date) {
  return fmt::format("{:04d}-{:02d}-{:02d}", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

int day_of_year(LocalDate date) {
  const LocalDate first(date.year(), std::chrono::month(1), std::chrono::day(1));
  return static_cast<int>((sys_days(date) - sys_days(first)).count()) + 1;
}

LocalDate date_of_day(int year, int day) {
  return LocalDate(sys_days(make_date(year, 1, 1)) + days(day - 1));
}

int days_in_year(int year) { return std::chrono::year(year).is_leap() ? 366 : 365; }

int days_in_month(int year, unsigned month) {
  const std::chrono::year_month_day_last last{
      std::chrono::year{year}, std::chrono::month_day_last{std::chrono::month{month}}};
  return static_cast<int>(static_cast<unsigned>(last.day()));
}

std::string_view month_name(unsigned month) {
  SW_CHECK(month >= 1 && month <= 12);
  return kMonths[month - 1];
}

std::string_view short_month_name(unsigned month) { return month_name(month).substr(0, 3); }

UtcTime utc_midnight(LocalDate date) {
  return UtcTime{static_cast<double>(sys_days(date).time_since_epoch().count()) * 86400.0};
}

LocalDate utc_date(UtcTime t) {
  return LocalDate(sys_days(days(static_cast<int>(std::floor(t.unix_s / 86400.0)))));
}

TimeZone::TimeZone(std::string name, std::vector<Period> periods)
    : name_(std::move(name)), periods_(std::move(periods)) {
  SW_CHECK(!periods_.empty());
  SW_CHECK(std::is_sorted(periods_.begin(), periods_.end(),
                          [](const Period& a, const Period& b) { return a.since < b.since; }));
}

int TimeZone::offset_s(UtcTime t) const {
  const auto after = std::upper_bound(
      periods_.begin(), periods_.end(), t,
      [](UtcTime instant, const Period& period) { return instant < period.since; });
  return after == periods_.begin() ? periods_.front().offset_s : std::prev(after)->offset_s;
}

double TimeZone::clock_hour(LocalDate date, UtcTime t) const {
  return (t.unix_s + offset_s(t) - utc_midnight(date).unix_s) / 3600.0;
}

UtcTime TimeZone::at_clock(LocalDate date, double hour) const {
  const double local_s = utc_midnight(date).unix_s + hour * 3600.0;
  // The earliest instant whose clock shows this; failing that, the end of the gap that skipped it.
  const int before = offset_s(UtcTime{local_s - 86400.0});
  const int after = offset_s(UtcTime{local_s + 86400.0});
  const UtcTime early{local_s - std::max(before, after)};
  const UtcTime late{local_s - std::min(before, after)};
  if (early.unix_s + offset_s(early) == local_s) return early;
  if (late.unix_s + offset_s(late) == local_s) return late;
  for (const Period& period : periods_) {
    if (period.since > early && period.since <= late) return period.since;
  }
  return late;
}

LocalDate TimeZone::local_date(UtcTime t) const {
  return utc_date(UtcTime{t.unix_s + offset_s(t)});
}

std::string clock_text(double hour, bool with_seconds) {
  if (with_seconds) {
    const long s = std::lround(hour * 3600);
    return fmt::format("{:02d}:{:02d}:{:02d}", s / 3600, s / 60 % 60, s % 60);
  }
  const long m = std::lround(hour * 60);
  return fmt::format("{:02d}:{:02d}", m / 60, m % 60);
}

}  // namespace spadework
