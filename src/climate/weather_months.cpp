#include "climate/weather_months.h"

#include <algorithm>

namespace spadework::climate {
namespace {

constexpr int kLackingTooMany = 11, kLackingTooManyInARow = 5;

/// The figures of one month of one year, by day of the month.
using Days = std::array<std::optional<double>, 31>;

bool is_whole_for_mean(const Days& days, int length) {
  int lacking = 0, in_a_row = 0;
  for (int i = 0; i < length; ++i) {
    in_a_row = days[static_cast<std::size_t>(i)] ? 0 : in_a_row + 1;
    lacking += in_a_row > 0 ? 1 : 0;
    if (in_a_row >= kLackingTooManyInARow) return false;
  }
  return lacking < kLackingTooMany;
}

bool is_whole_for_sum(const Days& days, int length) {
  return std::all_of(days.begin(), days.begin() + length,
                     [](const std::optional<double>& day) { return day.has_value(); });
}

struct Tally {
  double sum = 0;
  int years = 0;
  [[nodiscard]] std::optional<MonthMean> mean() const {
    if (years == 0) return std::nullopt;
    return MonthMean{sum / years, years};
  }
};

template <class Get>
Days figures(const WeatherDay* begin, const WeatherDay* end, Get get) {
  Days out;
  for (const WeatherDay* day = begin; day != end; ++day)
    out[static_cast<unsigned>(day->date.day()) - 1] = get(*day);
  return out;
}

struct MonthTally {
  Tally tmax, tmin, rain, sunshine, global, diffuse;

  void add(const WeatherDay* begin, const WeatherDay* end) {
    const int length = days_in_month(static_cast<int>(begin->date.year()),
                                     static_cast<unsigned>(begin->date.month()));
    const auto add_mean = [&](Tally& to, auto get) {
      const Days days = figures(begin, end, get);
      if (is_whole_for_mean(days, length)) add_to(to, days, true);
    };
    const auto warmth = [](const std::optional<Temperature>& t) {
      return t ? std::optional<double>(in_celsius(*t)) : std::nullopt;
    };
    add_mean(tmax, [&](const WeatherDay& day) { return warmth(day.tmax); });
    add_mean(tmin, [&](const WeatherDay& day) { return warmth(day.tmin); });
    add_mean(sunshine, [](const WeatherDay& day) { return day.sunshine_h; });
    add_mean(global, [](const WeatherDay& day) { return day.global_mj_m2; });
    add_mean(diffuse, [](const WeatherDay& day) { return day.diffuse_mj_m2; });
    const Days fell = figures(begin, end, [](const WeatherDay& day) { return day.rain_mm; });
    if (is_whole_for_sum(fell, length)) add_to(rain, fell, false);
  }

 private:
  static void add_to(Tally& to, const Days& days, bool mean) {
    double sum = 0;
    int known = 0;
    for (const std::optional<double>& day : days) {
      sum += day.value_or(0);
      known += day ? 1 : 0;
    }
    to.sum += mean ? sum / known : sum;
    ++to.years;
  }
};

}  // namespace

WeatherMonths weather_months(const Weather& weather) {
  std::array<MonthTally, 12> tallies;
  const WeatherDay* const end = weather.days.data() + weather.days.size();
  for (const WeatherDay* day = weather.days.data(); day != end;) {
    const WeatherDay* next = std::find_if(day, end, [&](const WeatherDay& other) {
      return other.date.year() != day->date.year() || other.date.month() != day->date.month();
    });
    tallies[static_cast<unsigned>(day->date.month()) - 1].add(day, next);
    day = next;
  }
  WeatherMonths out;
  for (std::size_t i = 0; i < out.size(); ++i) {
    const MonthTally& of = tallies[i];
    out[i] = {of.tmax.mean(),     of.tmin.mean(),   of.rain.mean(),
              of.sunshine.mean(), of.global.mean(), of.diffuse.mean()};
  }
  return out;
}

}  // namespace spadework::climate
