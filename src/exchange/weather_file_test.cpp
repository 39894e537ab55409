// What readers accept, and what they say of it.
#include <cmath>

#include "exchange/columns.h"
#include "exchange/exchange_testing.h"

namespace spadework::exchange {
namespace {

using climate::Weather;

TEST(DailyCsv, TakesColumnsInAnyOrderAndCase) {
  const Weather weather =
      weather_of("Rain_MM,Station,TMIN_C,Date,tmax_c\n0.2,x,-1.5,2020-02-29,7\n");
  ASSERT_EQ(weather.days.size(), 1u);
  EXPECT_EQ(weather.days[0].date, make_date(2020, 2, 29));
  EXPECT_EQ(weather.days[0].rain_mm, 0.2);
  EXPECT_EQ(in_celsius(weather.days[0].tmin.value()), -1.5);
  EXPECT_EQ(in_celsius(weather.days[0].tmax.value()), 7);
  EXPECT_FALSE(weather.days[0].sunshine_h);
  EXPECT_FALSE(weather.typical_year);
}

TEST(DailyCsv, ConvertsUnits) {
  const Weather weather = weather_of(
      "date,Tmax (°F),rain in,sun_min,glorad_j_cm2,diffuse (kWh/m²)\n2020-07-01,50,1,90,1800,2\n");
  ASSERT_EQ(weather.days.size(), 1u);
  EXPECT_NEAR(in_celsius(weather.days[0].tmax.value()), 10, 1e-9);
  EXPECT_NEAR(weather.days[0].rain_mm.value(), 25.4, 1e-9);
  EXPECT_NEAR(weather.days[0].sunshine_h.value(), 1.5, 1e-9);
  EXPECT_NEAR(weather.days[0].global_mj_m2.value(), 18, 1e-9);
  EXPECT_NEAR(weather.days[0].diffuse_mj_m2.value(), 7.2, 1e-9);
}

TEST(DailyCsv, CountsMarksOfGapsAsMissing) {
  for (const char* mark : {"", "NA", "n/a", "-", "-999", "9999", "-9999.0", "NaN", "null"}) {
    const Weather weather =
        weather_of(std::string("date,tmax_c,rain_mm\n2020-01-01,") + mark + ",1\n");
    ASSERT_EQ(weather.days.size(), 1u) << mark;
    EXPECT_FALSE(weather.days[0].tmax) << mark;
    EXPECT_EQ(weather.days[0].rain_mm, 1) << mark;
  }
}

TEST(DailyCsv, TakesMarksOfOrderCarriageReturnsQuotesAndBlankLines) {
  const Weather weather = weather_of(
      "\xEF\xBB\xBF# made up\r\n\r\n\"date\",\"rain_mm\"\r\n\"2020-01-01\", 1.5 \r\n\r\n"
      "2020-01-02,\"+2\"");
  ASSERT_EQ(weather.days.size(), 2u);
  EXPECT_EQ(weather.days[0].rain_mm, 1.5);
  EXPECT_EQ(weather.days[1].rain_mm, 2);
}

TEST(DailyCsv, SortsDaysThatComeNewestFirst) {
  const Weather weather = weather_of("date,rain_mm\n2020-01-03,3\n2020-01-01,1\n");
  ASSERT_EQ(weather.days.size(), 2u);
  EXPECT_EQ(weather.days[0].rain_mm, 1);
  EXPECT_EQ(weather.says, "days from 2020-01-01 to 2020-01-03");
}

TEST(DailyCsv, NotesWhatItLacks) {
  const Weather weather = weather_of(
      "date,rain_mm,tmax,a,b,c,d,e,f,g\n2020-01-01,3,1,,,,,,,\n2020-01-02,,1,,,,,,,\n"
      "2020-01-04,1,1,,,,,,,\n");
  const std::vector<std::string> expected = {
      "Not used: a, b, c, d, e, f and 1 more.",
      "Not used, for the name says no unit: tmax.",
      "A day between 2020-01-01 and 2020-01-04 is not in the file.",
      "The file has no highest and lowest temperature.",
      "1 of 3 days has no rain.",
      "The file has no sunshine.",
      "The file has no global radiation."};
  EXPECT_EQ(weather.notes, expected);
}

TEST(DailyCsv, ReadsMinusZeroAsZero) {
  const Weather weather = weather_of("date,rain_mm\n2020-01-03,-0.00\n");
  ASSERT_EQ(weather.days.size(), 1u);
  EXPECT_FALSE(std::signbit(weather.days[0].rain_mm.value()));
}

TEST(ColumnNames, OfEveryFigureReadBack) {
  for (std::size_t i = 0; i < kFigures; ++i) {
    const auto figure = static_cast<Figure>(i);
    const ColumnName name = read_column_name(figure_column(figure));
    ASSERT_TRUE(name.column) << figure_column(figure);
    EXPECT_EQ(name.column->figure, figure);
    EXPECT_EQ(name.column->times, 1);
    EXPECT_EQ(name.column->plus, 0);
  }
}

TEST(ColumnNames, OfOtherThingsAreNotTaken) {
  for (const char* name : {"tmax_sd", "grass_min_c", "tmin_10cm_c", "tmean_c", "rain_ind", "sunny",
                           "", "_", "date_of_reading", "glorad"}) {
    EXPECT_FALSE(read_column_name(name).column) << name;
  }
  EXPECT_TRUE(read_column_name("Glorad [MJ/m²]").column);
}

TEST(Epw, GivesDaysOfRealHours) {
  const Weather weather = weather_of(EpwText().text(), "h.epw");
  ASSERT_EQ(weather.days.size(), 3u);
  EXPECT_FALSE(weather.typical_year);
  EXPECT_EQ(weather.says, "Somewhere · made, hours of 2019");
  const climate::WeatherDay& day = weather.days[1];
  EXPECT_EQ(day.date, make_date(2019, 3, 2));
  EXPECT_EQ(in_celsius(day.tmax.value()), 15);
  EXPECT_EQ(in_celsius(day.tmin.value()), 5);
  EXPECT_NEAR(day.rain_mm.value(), 1.5, 1e-12);
  EXPECT_NEAR(day.global_mj_m2.value(), 10 * 300 * 0.0036, 1e-9);
  EXPECT_NEAR(day.diffuse_mj_m2.value(), 10 * 150 * 0.0036, 1e-9);
  EXPECT_EQ(day.sunshine_h, 10);
  EXPECT_TRUE(weather.notes.empty());
}

TEST(Epw, ReadsAlikeWithCarriageReturnsAndAMarkOfOrder) {
  const Weather plain = weather_of(EpwText().text(), "h.epw");
  const Weather other = weather_of("\xEF\xBB\xBF" + EpwText().text("\r\n"), "h.epw");
  ASSERT_EQ(other.days.size(), plain.days.size());
  EXPECT_EQ(other.days[2].global_mj_m2, plain.days[2].global_mj_m2);
  EXPECT_EQ(other.says, plain.says);
}

TEST(Epw, LeavesOutADayWithAMissingHour) {
  EpwText text;
  for (const auto& [row, field, mark] :
       {std::tuple(0, 6, "99.9"), std::tuple(25, 13, "9999"), std::tuple(30, 33, "999"),
        std::tuple(60, 15, "99999"), std::tuple(60, 14, "")}) {
    text.put(static_cast<std::size_t>(row), field, mark);
  }
  const Weather weather = weather_of(text.text(), "h.epw");
  ASSERT_EQ(weather.days.size(), 3u);
  EXPECT_FALSE(weather.days[0].tmax || weather.days[0].tmin);
  EXPECT_TRUE(weather.days[0].global_mj_m2 && weather.days[1].tmax);
  EXPECT_FALSE(weather.days[1].global_mj_m2 || weather.days[1].rain_mm);
  EXPECT_TRUE(weather.days[1].diffuse_mj_m2);
  EXPECT_FALSE(weather.days[2].diffuse_mj_m2 || weather.days[2].sunshine_h);
  EXPECT_EQ(weather.notes.size(), 5u);
}

TEST(Epw, CountsSunshineAboveTheThresholdOnly) {
  EpwText text(1);
  text.period = "DATA PERIODS,1,1,Data,Friday, 3/ 1, 3/ 1";
  text.put(8, 14, "120");
  text.put(9, 14, "120.5");
  text.put(0, 14, "9999");  // not known, but it is night
  EXPECT_EQ(weather_of(text.text(), "h.epw").days[0].sunshine_h, 9);
}

TEST(Epw, TakesAYearOfDryHoursAsNotKnown) {
  EpwText text(0);
  text.period = "DATA PERIODS,1,1,Data,Tuesday, 1/ 1,12/31";
  for (int day = 1; day <= 365; ++day) {
    const LocalDate date = date_of_day(2019, day);
    for (int hour = 1; hour <= 24; ++hour) {
      text.rows.push_back(EpwText::row(2019, static_cast<int>(static_cast<unsigned>(date.month())),
                                       static_cast<int>(static_cast<unsigned>(date.day())), hour));
      text.put(text.rows.size() - 1, 13, "9999");
    }
  }
  EXPECT_TRUE(weather_of(text.text(), "h.epw").days[99].rain_mm);
  for (std::size_t row = 0; row < text.rows.size(); ++row) text.put(row, 33, "0");
  const Weather dry = weather_of(text.text(), "h.epw");
  ASSERT_EQ(dry.days.size(), 365u);
  EXPECT_FALSE(dry.days[99].rain_mm);
  EXPECT_EQ(dry.notes[0], "Every hour's rain is 0 in the file: taken as not known.");
}

TEST(Epw, TakesALeapDayOfARealYearAndNotOfATypicalOne) {
  EpwText text(0);
  text.period = "DATA PERIODS,1,1,Data,Friday, 2/28, 3/ 1";
  for (const auto& [month, day] : {std::pair(2, 28), std::pair(2, 29), std::pair(3, 1)}) {
    for (int hour = 1; hour <= 24; ++hour)
      text.rows.push_back(EpwText::row(2020, month, day, hour));
  }
  EXPECT_EQ(weather_of(text.text(), "h.epw").days.size(), 3u);
  text.location = "LOCATION,Somewhere,-,-,TMY3,-,48.0,-4.5,0.0,60";
  const Weather typical = weather_of(text.text(), "h.epw");
  EXPECT_EQ(typical.days.size(), 2u);
  EXPECT_EQ(typical.notes, std::vector<std::string>({"29 February is left out."}));
  text.location = "LOCATION,Somewhere,-,-,made,-,48.0,-4.5,0.0,60";
  text.rows.erase(text.rows.begin() + 24, text.rows.begin() + 48);
  const Weather without = weather_of(text.text(), "h.epw");
  EXPECT_EQ(without.days.size(), 2u);
  EXPECT_EQ(without.notes, std::vector<std::string>({"A day between 2020-02-28 and 2020-03-01 is "
                                                     "not in the file."}));
}

/// A month of hours with noon at 12 by its clocks.
Weather month_at(const std::string& latitude, const std::string& longitude, const std::string& zone,
                 const std::string& comment = "COMMENTS 2,") {
  EpwText text(31);
  text.period = "DATA PERIODS,1,1,Data,Friday, 3/ 1, 3/31";
  text.location =
      "LOCATION,Somewhere,-,-,made,-," + latitude + "," + longitude + "," + zone + ",60";
  text.comment = comment;
  return weather_of(text.text(), "h.epw");
}

std::vector<std::string> doubts_at(const Weather& weather, double latitude, double longitude) {
  return file_doubts(weather, degrees(latitude), degrees(longitude), metres(60));
}

TEST(FileDoubts, AreNoneForTheGardensOwnFile) {
  EXPECT_TRUE(doubts_at(month_at("48.0", "0", "0"), 48, 0.1).empty());
}

TEST(FileDoubts, SayHowFarTheFilesPlaceIs) {
  const auto doubts = doubts_at(month_at("48.0", "0", "0"), 49, 0);
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_EQ(doubts[0], "The weather file is of a place 111 km from the garden.");
}

TEST(FileDoubts, SayHowMuchHigherTheFilesPlaceIs) {
  const auto doubts = file_doubts(month_at("48.0", "0", "0"), degrees(48), degrees(0), metres(560));
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_EQ(doubts[0], "The weather file's place lies 500 m lower than the garden.");
}

TEST(FileDoubts, TellClocksThatDoNotFitTheLongitude) {
  const auto doubts = doubts_at(month_at("48.0", "-105", "7"), 48, -105);  // the sign is lost
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_NE(doubts[0].find("do not fit its longitude: they are +7 h from UTC"), std::string::npos);
  EXPECT_NE(doubts[0].find("105.00° west the sun is at -7.0 h"), std::string::npos);
}

TEST(FileDoubts, AllowClocksAcrossTheDateLine) {
  EXPECT_TRUE(doubts_at(month_at("48.0", "-179", "12"), 48, -179).empty());
}

TEST(FileDoubts, TellLightAtTheWrongHour) {
  const auto doubts = doubts_at(month_at("48.0", "0", "1"), 48, 0);  // noon would be at 13
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_NE(doubts[0].find("comes 1.0 h too early"), std::string::npos);
}

TEST(FileDoubts, KnowTheOffsetThatTheFileItselfTells) {
  EXPECT_TRUE(
      doubts_at(month_at("48.0", "0", "1", "COMMENTS 2,Irradiance Time Offset (h):-1.0"), 48, 0)
          .empty());
}

TEST(FileDoubts, TellMoreLightThanTheGardensSkyHas) {
  std::string text = "date,sunshine_h,global_mj_m2\n";
  for (int day = 1; day <= 31; ++day) text += fmt::format("2020-06-{:02},15,30\n", day % 30 + 1);
  text.resize(text.rfind("2020"));  // 30 days
  const Weather june = weather_of(text);
  ASSERT_EQ(june.days.size(), 30u);
  EXPECT_TRUE(doubts_at(june, 50, 0).empty());
  const auto doubts = doubts_at(june, -50, 0);
  ASSERT_EQ(doubts.size(), 2u);
  EXPECT_NE(doubts[0].find("On 30 days the weather file has more sunshine"), std::string::npos);
  EXPECT_NE(doubts[1].find("On 30 days the weather file has more radiation"), std::string::npos);
}

TEST(WeatherFiles, LargerThanTheLimitAreRefused) {
  std::string large(65u << 20, 'x');
  const auto read = read_weather(large, "w.csv");
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().code, ErrorCode::kTooLarge);
}

}  // namespace
}  // namespace spadework::exchange
