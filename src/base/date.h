// Calendar days and clock times. A LocalDate and a UtcTime never mix by accident.
#pragma once

#include <array>
#include <chrono>
#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace spadework {

using LocalDate = std::chrono::year_month_day;

/// An instant: seconds since 1970-01-01T00:00:00Z, leap seconds not counted.
struct UtcTime {
  double unix_s = 0;
  friend auto operator<=>(const UtcTime&, const UtcTime&) = default;
};

/// `2026-03-01`; nothing if it is no such day.
[[nodiscard]] std::optional<LocalDate> parse_date(std::string_view text);
/// `03-01`: a day of any year (29 February is refused).
[[nodiscard]] std::optional<std::chrono::month_day> parse_month_day(std::string_view text);
[[nodiscard]] std::string iso_date(LocalDate date);
[[nodiscard]] LocalDate make_date(int year, unsigned month, unsigned day);

/// 1 for 1 January … 365 or 366.
[[nodiscard]] int day_of_year(LocalDate date);
[[nodiscard]] LocalDate date_of_day(int year, int day_of_year);
[[nodiscard]] int days_in_year(int year);
[[nodiscard]] int days_in_month(int year, unsigned month);
[[nodiscard]] std::string_view month_name(unsigned month);        // "January"
[[nodiscard]] std::string_view short_month_name(unsigned month);  // "Jan"

/// Midnight UTC at the start of the date.
[[nodiscard]] UtcTime utc_midnight(LocalDate date);
[[nodiscard]] LocalDate utc_date(UtcTime t);

/// A time zone as plain data: the offsets from UTC and since when each holds. Pure; it is filled
/// from the system's tz database at the edge (`document/time_zone.h`).
class TimeZone {
 public:
  struct Period {
    UtcTime since;
    int offset_s = 0;  // local minus UTC
    bool daylight_saving = false;
  };
  TimeZone() = default;
  TimeZone(std::string name, std::vector<Period> periods);

  [[nodiscard]] const std::string& name() const { return name_; }
  [[nodiscard]] const std::vector<Period>& periods() const { return periods_; }
  [[nodiscard]] int offset_s(UtcTime t) const;
  /// Clock time in hours since local midnight of `date`; may be below 0 or above 24 when the
  /// instant belongs to the day before or after.
  [[nodiscard]] double clock_hour(LocalDate date, UtcTime t) const;
  /// The instant at which clocks show `hour` on `date`. A time that is skipped in spring gives the
  /// instant after the gap; one that comes twice in autumn gives the first.
  [[nodiscard]] UtcTime at_clock(LocalDate date, double hour) const;
  [[nodiscard]] LocalDate local_date(UtcTime t) const;

 private:
  std::string name_ = "UTC";
  std::vector<Period> periods_ = {Period{}};
};

/// `13:20:05` (or `13:20` without seconds), rounded to the nearest; 24:00 stays 24:00.
[[nodiscard]] std::string clock_text(double hour, bool with_seconds);

/// The year in which days without a year are computed.
inline constexpr int kReferenceYear = 2026;

}  // namespace spadework
