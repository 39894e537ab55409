#include <gtest/gtest.h>

#include <set>

#include "climate/file_months.h"

namespace spadework::climate {
namespace {

/// Days of a month, each with the same figures, without those named.
Weather month_without(int year, unsigned month, const std::set<unsigned>& lacking) {
  Weather out;
  for (unsigned d = 1; d <= static_cast<unsigned>(days_in_month(year, month)); ++d) {
    WeatherDay day;
    day.date = make_date(year, month, d);
    if (lacking.count(d) == 0) {
      day.tmax = celsius(20);
      day.tmin = celsius(10);
      day.rain_mm = 2;
      day.sunshine_h = 6;
      day.global_mj_m2 = 15;
    }
    out.days.push_back(day);
  }
  return out;
}

TEST(FileMonthGaps, AreNothingWithoutDays) {
  for (const FileMonth& month : months_of({})) {
    EXPECT_FALSE(month.of(DayFigure::kTmax) || month.of(DayFigure::kTmin) ||
                 month.of(DayFigure::kRain) || month.of(DayFigure::kSunshine) ||
                 month.of(DayFigure::kGlobal) || month.of(DayFigure::kDiffuse));
  }
}

TEST(FileMonthGaps, OfEqualDaysAreThatDayAndRainIsTheSum) {
  const auto months = months_of(month_without(2019, 2, {}));
  const FileMonth& february = months[1];
  EXPECT_DOUBLE_EQ(february.of(DayFigure::kTmax).value(), 20);
  EXPECT_DOUBLE_EQ(february.of(DayFigure::kTmin).value(), 10);
  EXPECT_DOUBLE_EQ(february.of(DayFigure::kRain).value(), 56);
  EXPECT_DOUBLE_EQ(february.of(DayFigure::kSunshine).value(), 6);
  EXPECT_DOUBLE_EQ(february.of(DayFigure::kGlobal).value(), 15);
  EXPECT_EQ(february.years[static_cast<std::size_t>(DayFigure::kRain)], 1);
  EXPECT_FALSE(february.of(DayFigure::kDiffuse));
  EXPECT_FALSE(months[0].of(DayFigure::kTmax));
}

TEST(FileMonthGaps, BearTenDaysMissingButNotEleven) {
  const std::set<unsigned> ten = {1, 2, 3, 4, 6, 7, 8, 9, 11, 12};
  std::set<unsigned> eleven = ten;
  eleven.insert(20);
  EXPECT_TRUE(months_of(month_without(2019, 7, ten))[6].of(DayFigure::kTmax));
  EXPECT_FALSE(months_of(month_without(2019, 7, eleven))[6].of(DayFigure::kTmax));
}

TEST(FileMonthGaps, BearFourDaysMissingInARowButNotFive) {
  EXPECT_TRUE(months_of(month_without(2019, 7, {28, 29, 30, 31}))[6].of(DayFigure::kSunshine));
  EXPECT_FALSE(months_of(month_without(2019, 7, {27, 28, 29, 30, 31}))[6].of(DayFigure::kSunshine));
}

TEST(FileMonthGaps, HaveNoRainWhereOneDayLacks) {
  const FileMonth july = months_of(month_without(2019, 7, {17}))[6];
  EXPECT_FALSE(july.of(DayFigure::kRain));
  EXPECT_TRUE(july.of(DayFigure::kTmin));
}

TEST(FileMonthGaps, CountADayThatIsNotInTheFileAsLacking) {
  Weather weather = month_without(2019, 7, {});
  weather.days.resize(26);  // the last five are gone
  EXPECT_FALSE(months_of(weather)[6].of(DayFigure::kTmax));
}

TEST(FileMonthGaps, WeighYearsAlikeAndLeaveOutThoseThatLack) {
  Weather weather = month_without(2018, 7, {});
  for (WeatherDay& day : weather.days) day.tmax = celsius(26);
  const Weather whole = month_without(2019, 7, {3}),
                broken = month_without(2020, 7, {1, 2, 3, 4, 5});
  weather.days.insert(weather.days.end(), whole.days.begin(), whole.days.end());
  weather.days.insert(weather.days.end(), broken.days.begin(), broken.days.end());
  const FileMonth july = months_of(weather)[6];
  ASSERT_TRUE(july.of(DayFigure::kTmax));
  EXPECT_EQ(july.years[static_cast<std::size_t>(DayFigure::kTmax)], 2);
  EXPECT_DOUBLE_EQ(*july.of(DayFigure::kTmax), 23);
}

}  // namespace
}  // namespace spadework::climate
