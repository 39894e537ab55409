#include "climate/weather_months.h"

#include <gtest/gtest.h>

#include <set>

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

TEST(WeatherMonths, AreNothingWithoutDays) {
  for (const WeatherMonth& month : weather_months({})) {
    EXPECT_FALSE(month.tmax_c || month.tmin_c || month.rain_mm || month.sunshine_h_d ||
                 month.global_mj_m2_d || month.diffuse_mj_m2_d);
  }
}

TEST(WeatherMonths, OfEqualDaysAreThatDayAndRainIsTheSum) {
  const WeatherMonths months = weather_months(month_without(2019, 2, {}));
  const WeatherMonth& february = months[1];
  EXPECT_DOUBLE_EQ(february.tmax_c.value().value, 20);
  EXPECT_DOUBLE_EQ(february.tmin_c.value().value, 10);
  EXPECT_DOUBLE_EQ(february.rain_mm.value().value, 56);
  EXPECT_DOUBLE_EQ(february.sunshine_h_d.value().value, 6);
  EXPECT_DOUBLE_EQ(february.global_mj_m2_d.value().value, 15);
  EXPECT_EQ(february.rain_mm->years, 1);
  EXPECT_FALSE(february.diffuse_mj_m2_d);
  EXPECT_FALSE(months[0].tmax_c);
}

TEST(WeatherMonths, BearTenDaysMissingButNotEleven) {
  const std::set<unsigned> ten = {1, 2, 3, 4, 6, 7, 8, 9, 11, 12};
  std::set<unsigned> eleven = ten;
  eleven.insert(20);
  EXPECT_TRUE(weather_months(month_without(2019, 7, ten))[6].tmax_c);
  EXPECT_FALSE(weather_months(month_without(2019, 7, eleven))[6].tmax_c);
}

TEST(WeatherMonths, BearFourDaysMissingInARowButNotFive) {
  EXPECT_TRUE(weather_months(month_without(2019, 7, {28, 29, 30, 31}))[6].sunshine_h_d);
  EXPECT_FALSE(weather_months(month_without(2019, 7, {27, 28, 29, 30, 31}))[6].sunshine_h_d);
}

TEST(WeatherMonths, HaveNoRainWhereOneDayLacks) {
  const WeatherMonth july = weather_months(month_without(2019, 7, {17}))[6];
  EXPECT_FALSE(july.rain_mm);
  EXPECT_TRUE(july.tmin_c);
}

TEST(WeatherMonths, CountADayThatIsNotInTheFileAsLacking) {
  Weather weather = month_without(2019, 7, {});
  weather.days.resize(26);  // the last five are gone
  EXPECT_FALSE(weather_months(weather)[6].tmax_c);
}

TEST(WeatherMonths, WeighYearsAlikeAndLeaveOutThoseThatLack) {
  Weather weather = month_without(2018, 7, {});
  for (WeatherDay& day : weather.days) day.tmax = celsius(26);
  const Weather whole = month_without(2019, 7, {3}),
                broken = month_without(2020, 7, {1, 2, 3, 4, 5});
  weather.days.insert(weather.days.end(), whole.days.begin(), whole.days.end());
  weather.days.insert(weather.days.end(), broken.days.begin(), broken.days.end());
  const auto tmax = weather_months(weather)[6].tmax_c;
  ASSERT_TRUE(tmax);
  EXPECT_EQ(tmax->years, 2);
  EXPECT_DOUBLE_EQ(tmax->value, 23);
}

}  // namespace
}  // namespace spadework::climate
