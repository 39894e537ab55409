// Months out of a weather file's days.
#pragma once

#include <array>

#include "climate/weather.h"

namespace spadework::climate {

enum class DayFigure { kTmax, kTmin, kRain, kSunshine, kGlobal, kDiffuse };
inline constexpr std::size_t kDayFigures = 6;

/// A month's means over the years of a weather file.
struct FileMonth {
  std::array<std::optional<double>, kDayFigures> mean;  // °C, h, MJ/m² a day; rain: mm a month
  std::array<int, kDayFigures> years{};                 // how many stand behind each
  std::optional<double> wet_days;                       // days with 1 mm or more

  [[nodiscard]] const std::optional<double>& of(DayFigure figure) const {
    return mean[static_cast<std::size_t>(figure)];
  }
};

/// The means of a file by month. A year's month counts if fewer than 11 of its days lack the figure
/// and never 5 in a row, and for rain if no day does; all years whose month counts weigh alike.
/// Out:    figures that no year has whole enough are nothing.
/// Source: [wmo-1203].
[[nodiscard]] std::array<FileMonth, 12> months_of(const Weather& weather);

/// "2003 to 2021", "2012", or "a typical year".
[[nodiscard]] std::string years_says(const Weather& weather);

}  // namespace spadework::climate
