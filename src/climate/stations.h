// The weather stations of data/stations.csv: where they are, and the months of the few that are
// wanted. The table is large and an answer must be quick: reading it finds only where each row
// begins and where its station stands; a row's months are read when it is chosen.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/base.h"

namespace spadework::climate {

/// What a station reports by month.
enum class Element {
  kTmax,            // mean of the days' highest temperatures, °C
  kTmin,            // mean of the nights' lowest temperatures, °C
  kRain,            // mm in the month
  kWetDays,         // days with 1 mm or more
  kSunshine,        // hours a day
  kVapourPressure,  // hPa
  kFrostDays,       // days with a lowest temperature under 0 °C
  kLowest,          // mean over the years of the month's lowest temperature, °C
  kLowestSpread,    // its standard deviation, K
};
inline constexpr std::size_t kElements = 9;
[[nodiscard]] std::string_view element_says(Element element);  // "highest temperature", …
[[nodiscard]] std::string_view element_unit(Element element);  // "°C", "mm", …

using MonthValues = std::array<std::optional<double>, 12>;

/// Where a station stands. The words are views into the table's bytes.
struct Station {
  std::string_view id, name, country;
  Angle latitude, longitude;
  Length elevation;
};

/// All that a station's row says.
struct StationRecord {
  std::array<MonthValues, kElements> months;
  std::string period;  // "2003-2021"
  std::string source;  // a key of data/sources.toml: "dwd-climat", "ukmo-historic"
  int years = 0;       // the fewest behind any of the temperatures and rain
  /// Of each winter's lowest temperature: its mean and the lowest of all, °C, and how many winters.
  std::optional<double> winter_lowest_mean_c, winter_lowest_c;
  int winters = 0;

  [[nodiscard]] const MonthValues& of(Element element) const {
    return months[static_cast<std::size_t>(element)];
  }
};

class Stations {
 public:
  [[nodiscard]] const std::vector<Station>& all() const { return stations_; }
  /// The number of the station of that id, or nothing.
  [[nodiscard]] std::optional<std::size_t> find(std::string_view id) const;
  [[nodiscard]] std::vector<std::string> ids() const;
  /// Whether the row of a station has the element in all twelve months; quick.
  [[nodiscard]] bool has_all_months(std::size_t station, Element element) const;
  /// One element of a row.
  /// Errors: kWrongType for a figure that is none, kImpossibleValue for one that cannot be; `where`
  ///         is "stations.csv:41:120".
  [[nodiscard]] Result<MonthValues> months(std::size_t station, Element element) const;
  /// The whole row. Errors: as `months`.
  [[nodiscard]] Result<StationRecord> record(std::size_t station) const;

 private:
  friend Result<Stations> read_stations(std::string_view bytes);
  struct Columns {
    std::array<int, kElements> january{};
    int years = -1, period = -1, source = -1;
    int winter_mean = -1, winter_lowest = -1, winters = -1;
  };
  [[nodiscard]] std::optional<Error> find_columns(const std::vector<std::string_view>& header);
  [[nodiscard]] std::string_view row(std::size_t station) const;
  [[nodiscard]] Result<std::optional<double>> number(std::size_t station, std::string_view rest,
                                                     Element element) const;

  std::vector<Station> stations_;
  std::vector<std::string_view> rows_;
  std::vector<int> lines_;
  Columns columns_;
};

/// In:     the bytes of data/stations.csv, which must outlive what is made of them.
/// Errors: kMissingKey for a column that is not there; kWrongType, kImpossibleValue for a place
///         that is none; kSyntax for an empty table; kTooLarge over 64 MB. `where` is
///         "stations.csv:41:7".
[[nodiscard]] Result<Stations> read_stations(std::string_view bytes);

/// Along the great circle, on a sphere of 6,371 km. Source: [closed-form] haversine.
[[nodiscard]] Length distance_between(Angle latitude_a, Angle longitude_a, Angle latitude_b,
                                      Angle longitude_b);

}  // namespace spadework::climate
