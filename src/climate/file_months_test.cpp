#include "climate/file_months.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace spadework::climate {
namespace {

/// Days of a month with the same figures, but for those left out.
void add_days(Weather& file, int year, unsigned month, double tmax_c, double rain_mm,
              const std::vector<unsigned>& without = {}) {
  for (unsigned d = 1; d <= static_cast<unsigned>(days_in_month(year, month)); ++d) {
    if (std::find(without.begin(), without.end(), d) != without.end()) continue;
    WeatherDay day;
    day.date = make_date(year, month, d);
    day.tmax = celsius(tmax_c);
    day.rain_mm = rain_mm;
    file.days.push_back(day);
  }
}

TEST(FileMonths, MeansRunOverTheDaysOfAllYears) {
  Weather file;
  add_days(file, 2001, 6, 20, 1.5);
  add_days(file, 2002, 6, 24, 0.5);
  const auto months = months_of(file);
  EXPECT_NEAR(*months[5].of(DayFigure::kTmax), 22, 1e-12);
  EXPECT_NEAR(*months[5].of(DayFigure::kRain), 30, 1e-12) << "of the month";
  EXPECT_NEAR(*months[5].wet_days, 15, 1e-12) << "1 mm or more";
  EXPECT_EQ(months[5].years[0], 2);
  EXPECT_FALSE(months[5].of(DayFigure::kGlobal));
  EXPECT_FALSE(months[6].of(DayFigure::kTmax));
  EXPECT_EQ(years_says(file), "2001 to 2002");
}

// Source: [wmo-1203]: not 11 days, not 5 in a row; of rain not one.
TEST(FileMonths, AMonthWithTooManyGapsDoesNotCount) {
  const auto means = [](const std::vector<unsigned>& without) {
    Weather file;
    add_days(file, 2001, 6, 20, 1, without);
    return months_of(file)[5];
  };
  EXPECT_TRUE(means({1, 2, 3, 4, 6, 8, 10, 12, 14, 16}).of(DayFigure::kTmax)) << "ten";
  EXPECT_FALSE(means({1, 2, 3, 4, 6, 8, 10, 12, 14, 16, 18}).of(DayFigure::kTmax)) << "eleven";
  EXPECT_TRUE(means({5, 6, 7, 8}).of(DayFigure::kTmax)) << "four in a row";
  EXPECT_FALSE(means({5, 6, 7, 8, 9}).of(DayFigure::kTmax)) << "five in a row";
  EXPECT_FALSE(means({5}).of(DayFigure::kRain));
  EXPECT_TRUE(means({}).of(DayFigure::kRain));
}

TEST(FileMonths, ATypicalFebruaryHas28DaysWhateverItsYear) {
  Weather file;
  add_days(file, 2004, 2, 5, 1, {29});
  EXPECT_FALSE(months_of(file)[1].of(DayFigure::kRain));
  file.typical_year = true;
  EXPECT_NEAR(*months_of(file)[1].of(DayFigure::kRain), 28, 1e-12);
  EXPECT_EQ(years_says(file), "a typical year");
}

TEST(FileMonths, OfNoDaysAreNone) {
  EXPECT_FALSE(months_of(Weather{})[0].of(DayFigure::kTmax));
  EXPECT_EQ(years_says(Weather{}), "no days");
}

}  // namespace
}  // namespace spadework::climate
