// Real weather files against sums and means that others worked out.
#include <cmath>

#include "climate/file_months.h"
#include "exchange/exchange_testing.h"

namespace spadework::exchange {
namespace {

using climate::DayFigure;
using climate::Weather;
using climate::WeatherDay;

Weather golden_weather(const std::string& name) {
  return weather_of(file_text(golden(name)), std::filesystem::path(name).filename().string());
}

/// Annual sums: golden/weather/denver, published.
TEST(Denver, GivesThePublishedSumsOfTheYear) {
  const Weather weather = golden_weather("denver/denver_tmy3_thinned.epw");
  ASSERT_EQ(weather.days.size(), 365u);
  double global = 0, diffuse = 0;
  for (const WeatherDay& day : weather.days) {
    global += day.global_mj_m2.value() / 0.0036;
    diffuse += day.diffuse_mj_m2.value() / 0.0036;
  }
  const auto published = table_rows(file_text(golden("denver/annual.csv")));
  EXPECT_NEAR(global, std::stod(published[0][1]), 0.5);
  EXPECT_NEAR(diffuse, std::stod(published[1][1]), 0.5);
}

TEST(Denver, IsATypicalYearWithItsPlace) {
  const Weather weather = golden_weather("denver/denver_tmy3_thinned.epw");
  EXPECT_TRUE(weather.typical_year);
  EXPECT_EQ(weather.days.front().date, make_date(kReferenceYear, 1, 1));
  EXPECT_EQ(weather.days.back().date, make_date(kReferenceYear, 12, 31));
  EXPECT_NEAR(in_degrees(weather.latitude.value()), 39.833, 1e-9);
  EXPECT_NEAR(in_degrees(weather.longitude.value()), -104.65, 1e-9);
  EXPECT_EQ(in_metres(weather.elevation.value()), 1650);
  EXPECT_EQ(weather.says, "Denver Intl AP, CO, USA · TMY3, hours of 1991 to 2005");
  EXPECT_EQ(weather.notes, std::vector<std::string>({"The file has no rain."}));
  EXPECT_TRUE(file_doubts(weather, degrees(39.7), degrees(-104.9), metres(1600)).empty());
}

/// Each day of a cut against sums made elsewhere: golden/weather, independent program.
void expect_days(const std::string& file, const std::string& table) {
  const Weather weather = golden_weather(file);
  const auto rows = table_rows(file_text(golden(table)));
  ASSERT_EQ(weather.days.size(), rows.size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const WeatherDay& day = weather.days[i];
    const std::vector<std::string>& row = rows[i];
    EXPECT_EQ(day.date, make_date(kReferenceYear, static_cast<unsigned>(std::stoi(row[0])),
                                  static_cast<unsigned>(std::stoi(row[1]))));
    EXPECT_NEAR(in_celsius(day.tmax.value()), std::stod(row[2]), 0.001);
    EXPECT_NEAR(in_celsius(day.tmin.value()), std::stod(row[3]), 0.001);
    EXPECT_EQ(day.rain_mm.has_value(), !row[4].empty());
    if (day.rain_mm && !row[4].empty()) {
      EXPECT_NEAR(*day.rain_mm, std::stod(row[4]), 0.001);
    }
    EXPECT_EQ(day.sunshine_h.value(), std::stod(row[5]));
    EXPECT_NEAR(day.global_mj_m2.value() / 0.0036, std::stod(row[6]), 0.001);
    EXPECT_NEAR(day.diffuse_mj_m2.value() / 0.0036, std::stod(row[7]), 0.001);
  }
}

TEST(Denver, GivesTheWettestDaysRainAndSun) {
  expect_days("denver/denver_tmy3_wet_days.epw", "denver/wet_days.csv");
}

TEST(Piedmont, GivesItsDaysAcrossAChangeOfYear) {
  expect_days("piedmont/pvgis_45_8_cut.epw", "piedmont/days.csv");
}

TEST(Piedmont, SaysThatItHasNoRainAndThatItsSunIsEarly) {
  const Weather weather = golden_weather("piedmont/pvgis_45_8_cut.epw");
  EXPECT_TRUE(weather.typical_year);
  EXPECT_NEAR(weather.told_sun_offset_h.value(), -0.8239, 1e-12);
  ASSERT_EQ(weather.notes.size(), 2u);
  EXPECT_NE(weather.notes[0].find("0.82 h ahead of its clocks"), std::string::npos);
  EXPECT_EQ(weather.notes[1], "The file has no rain.");
  for (const WeatherDay& day : weather.days) EXPECT_FALSE(std::signbit(day.global_mj_m2.value()));
  EXPECT_TRUE(file_doubts(weather, degrees(45.1), degrees(7.7), metres(240)).empty());
}

int years_of(const climate::FileMonth& month, DayFigure figure) {
  return month.years[static_cast<std::size_t>(figure)];
}

/// golden/weather/dublin: means by another program.
TEST(Dublin, GivesTheMeansOfThirtyYears) {
  const Weather weather = golden_weather("dublin/dublin_1991_2020_jan_feb_jul.csv");
  const auto months = climate::months_of(weather);
  for (const auto& row : table_rows(file_text(golden("dublin/means.csv")))) {
    const int number = std::stoi(row[0]);
    const climate::FileMonth& month = months[static_cast<std::size_t>(number) - 1];
    const double tolerance = number == 2 ? 0.02 : 0.005 + 1e-9;
    EXPECT_NEAR(month.of(DayFigure::kTmax).value(), std::stod(row[1]), tolerance) << number;
    EXPECT_NEAR(month.of(DayFigure::kTmin).value(), std::stod(row[2]), tolerance) << number;
    EXPECT_NEAR(month.of(DayFigure::kRain).value(), std::stod(row[3]), 0.05 + 1e-9) << number;
    EXPECT_NEAR(month.of(DayFigure::kGlobal).value(), std::stod(row[4]), tolerance) << number;
    EXPECT_EQ(years_of(month, DayFigure::kTmax), 30);
    EXPECT_EQ(years_of(month, DayFigure::kSunshine), 30);
  }
  EXPECT_EQ(years_of(months[0], DayFigure::kGlobal), 30);  // a day of 1999 is missing
  EXPECT_EQ(years_of(months[1], DayFigure::kGlobal), 29);  // seven days on end of 2008
  EXPECT_FALSE(months[2].of(DayFigure::kTmax));
}

TEST(Dublin, NotesWhatIsNotUsedAndWhatIsNotThere) {
  const Weather weather = golden_weather("dublin/dublin_1991_2020_jan_feb_jul.csv");
  ASSERT_EQ(weather.notes.size(), 3u);
  EXPECT_EQ(weather.notes[0], "Not used: wind_ms.");
  EXPECT_EQ(weather.notes[2], "8 of 2708 days have no global radiation.");
  EXPECT_NE(weather.notes[1].find("days between 1991-01-01 and 2020-07-31 are not in the file."),
            std::string::npos);
}

}  // namespace
}  // namespace spadework::exchange
