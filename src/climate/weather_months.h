// The months of a weather file: what its days come to, year by year and in the mean.
#pragma once

#include <array>
#include <optional>

#include "climate/weather.h"

namespace spadework::climate {

/// The mean over the years whose month is whole enough, and how many they are.
struct MonthMean {
  double value = 0;
  int years = 0;
};

struct WeatherMonth {
  std::optional<MonthMean> tmax_c, tmin_c;   // mean of the days, °C
  std::optional<MonthMean> rain_mm;          // sum of the month, mm
  std::optional<MonthMean> sunshine_h_d;     // h a day
  std::optional<MonthMean> global_mj_m2_d;   // on level ground, MJ/m² a day
  std::optional<MonthMean> diffuse_mj_m2_d;  // the same
};

using WeatherMonths = std::array<WeatherMonth, 12>;  // January first

/// A month of a year counts for a mean if it lacks fewer than 11 days and fewer than 5 in a row,
/// for the sum of rain if it lacks none. Each such month weighs alike. Where no year has such a
/// month there is nothing.
/// In:     days by date, each once, as the readers of weather files give them.
/// Source: [wmo-1203] for what is whole enough.
[[nodiscard]] WeatherMonths weather_months(const Weather& weather);

}  // namespace spadework::climate
