#include "climate/file_months.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace spadework::climate {
namespace {

constexpr double kWetDay_mm = 1;
constexpr int kMostMissing = 10;       // WMO-No. 1203: not 11 days …
constexpr int kMostMissingInARow = 4;  // … and not 5 in a row

/// One month of one year, day by day.
using Days = std::array<const WeatherDay*, 31>;

std::optional<double> figure_of(const WeatherDay& day, DayFigure figure) {
  const auto warmth = [](const std::optional<Temperature>& t) {
    return t ? std::optional<double>(in_celsius(*t)) : std::nullopt;
  };
  switch (figure) {
    case DayFigure::kTmax:
      return warmth(day.tmax);
    case DayFigure::kTmin:
      return warmth(day.tmin);
    case DayFigure::kRain:
      return day.rain_mm;
    case DayFigure::kSunshine:
      return day.sunshine_h;
    case DayFigure::kGlobal:
      return day.global_mj_m2;
    case DayFigure::kDiffuse:
      break;
  }
  return day.diffuse_mj_m2;
}

bool whole_enough(const Days& days, int length, DayFigure figure) {
  int missing = 0, in_a_row = 0, longest = 0;
  for (int i = 0; i < length; ++i) {
    const WeatherDay* day = days[static_cast<std::size_t>(i)];
    if (day != nullptr && figure_of(*day, figure)) {
      in_a_row = 0;
      continue;
    }
    ++missing;
    longest = std::max(longest, ++in_a_row);
  }
  if (figure == DayFigure::kRain) return missing == 0;
  return missing <= kMostMissing && longest <= kMostMissingInARow;
}

struct Sum {
  double sum = 0;  // of the years' means, or of their rain
  int years = 0, wet = 0;
};

void add_month(const Days& days, int length, DayFigure figure, Sum& sum) {
  if (!whole_enough(days, length, figure)) return;
  double of_month = 0;
  int known = 0;
  for (const WeatherDay* day : days) {
    const auto value = day == nullptr ? std::nullopt : figure_of(*day, figure);
    if (!value) continue;
    of_month += *value;
    ++known;
    if (*value >= kWetDay_mm) ++sum.wet;
  }
  ++sum.years;
  sum.sum += figure == DayFigure::kRain ? of_month : of_month / known;
}

}  // namespace

std::array<FileMonth, 12> months_of(const Weather& weather) {
  std::map<std::pair<int, unsigned>, Days> by_month;
  for (const WeatherDay& day : weather.days) {
    if (!day.date.ok()) continue;
    by_month[{static_cast<int>(day.date.year()), static_cast<unsigned>(day.date.month())}]
            [static_cast<unsigned>(day.date.day()) - 1] = &day;
  }
  std::array<FileMonth, 12> out;
  for (std::size_t f = 0; f < kDayFigures; ++f) {
    const auto figure = static_cast<DayFigure>(f);
    std::array<Sum, 12> sums{};
    for (const auto& [when, days] : by_month) {
      // A typical year leaves out 29 February, whatever year its February is of.
      const int length =
          weather.typical_year && when.second == 2 ? 28 : days_in_month(when.first, when.second);
      add_month(days, length, figure, sums[when.second - 1]);
    }
    for (std::size_t m = 0; m < 12; ++m) {
      out[m].years[f] = sums[m].years;
      if (sums[m].years == 0) continue;
      out[m].mean[f] = sums[m].sum / sums[m].years;
      if (figure == DayFigure::kRain)
        out[m].wet_days = static_cast<double>(sums[m].wet) / sums[m].years;
    }
  }
  return out;
}

std::string years_says(const Weather& weather) {
  if (weather.typical_year) return "a typical year";
  if (weather.days.empty()) return "no days";
  const int first = static_cast<int>(weather.days.front().date.year());
  const int last = static_cast<int>(weather.days.back().date.year());
  return first == last ? fmt::format("{}", first) : fmt::format("{} to {}", first, last);
}

}  // namespace spadework::climate
