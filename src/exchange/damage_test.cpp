// Broken files in tests/damage/weather, each with what must be told of it beside it:
// `line:column code | piece of the message | piece of the hint`.
#include <algorithm>
#include <sstream>

#include "exchange/exchange_testing.h"

namespace spadework::exchange {
namespace {

std::vector<std::filesystem::path> files() {
  std::vector<std::filesystem::path> out;
  const auto folder = std::filesystem::path(SPADEWORK_SOURCE_DIR) / "tests/damage/weather";
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() != ".expect") out.push_back(entry.path());
  }
  std::sort(out.begin(), out.end());
  return out;
}

class BrokenWeather : public testing::TestWithParam<std::filesystem::path> {};

TEST_P(BrokenWeather, IsToldWithLineColumnCodeAndHint) {
  std::filesystem::path beside = GetParam();
  std::string expected = file_text(beside.replace_extension(".expect"));
  ASSERT_FALSE(expected.empty());
  expected.pop_back();
  const std::size_t first = expected.find(" | "), second = expected.find(" | ", first + 3);
  const std::size_t space = expected.find(' ');
  ASSERT_NE(second, std::string::npos);
  const auto read = read_weather(file_text(GetParam()), "weather.csv");
  ASSERT_FALSE(read);
  const Error& error = read.error();
  EXPECT_EQ(error.where, "weather.csv:" + expected.substr(0, space)) << error.message;
  EXPECT_EQ(code_name(error.code), expected.substr(space + 1, first - space - 1)) << error.message;
  EXPECT_NE(error.message.find(expected.substr(first + 3, second - first - 3)), std::string::npos)
      << error.message;
  EXPECT_NE(error.hint.find(expected.substr(second + 3)), std::string::npos) << error.hint;
}

INSTANTIATE_TEST_SUITE_P(Damage, BrokenWeather, testing::ValuesIn(files()), [](const auto& each) {
  std::string name = each.param.stem().string();
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

TEST(BrokenWeatherFiles, AreThirtyAndMore) { EXPECT_GE(files().size(), 30u); }

/// What is told of an hourly file.
void expect_told(const EpwText& text, const std::string& where, ErrorCode code,
                 const std::string& message, const std::string& end = "\n") {
  const auto read = read_weather(text.text(end), "h.epw");
  ASSERT_FALSE(read) << "expected: " << message;
  EXPECT_EQ(read.error().where, "h.epw:" + where) << read.error().message;
  EXPECT_EQ(code_name(read.error().code), code_name(code)) << read.error().message;
  EXPECT_NE(read.error().message.find(message), std::string::npos) << read.error().message;
  EXPECT_FALSE(read.error().hint.empty());
}

TEST(BrokenHours, MissingAreCounted) {
  EpwText text;
  text.rows.erase(text.rows.begin() + 30, text.rows.begin() + 35);
  expect_told(text, "39:1", ErrorCode::kSyntax,
              "5 hours are missing between 2 March hour 6 and 2 March hour 12");
  EpwText one;
  one.rows.erase(one.rows.begin() + 30);
  expect_told(one, "39:1", ErrorCode::kSyntax, "An hour is missing");
}

TEST(BrokenHours, TwiceOrOutOfOrderAreTold) {
  EpwText twice;
  twice.rows.insert(twice.rows.begin() + 30, twice.rows[30]);
  expect_told(twice, "40:1", ErrorCode::kConflict, "there twice: 2 March hour 7");
  EpwText turned;
  std::swap(turned.rows[30], turned.rows[40]);
  expect_told(turned, "39:1", ErrorCode::kSyntax, "10 hours are missing");
  EpwText back;
  back.rows.insert(back.rows.begin() + 30, back.rows[20]);
  expect_told(back, "39:1", ErrorCode::kSyntax,
              "out of order: 1 March hour 21 comes after 2 March");
}

TEST(BrokenHours, OfHalfDaysAreTold) {
  EpwText late;
  late.rows.erase(late.rows.begin(), late.rows.begin() + 5);
  expect_told(late, "9:1", ErrorCode::kSyntax, "begins with 1 March hour 6");
  EpwText early;
  early.rows.resize(70);
  expect_told(early, "78:1", ErrorCode::kSyntax, "2 hours of that day are missing");
}

TEST(BrokenHours, FewerOrMoreThanTheHeaderSaysAreTold) {
  EpwText text;
  text.rows.resize(48);
  expect_told(text, "56:1", ErrorCode::kSyntax, "end on 3 March, and they end on 2 March");
  text.period = "DATA PERIODS,1,1,Data,Friday, 1/ 1, 3/ 2";
  expect_told(text, "9:1", ErrorCode::kSyntax, "begin on 1 January, and they begin on 1 March");
}

TEST(BrokenHours, CutInTheLastLineAreTold) {
  EpwText text;
  text.rows.back() = text.rows.back().substr(0, 40);
  expect_told(text, "80:41", ErrorCode::kSyntax, "fields and not 35 like the first");
}

TEST(BrokenHours, WithDecimalCommasAreTold) {
  EpwText text;
  text.put(10, 6, "12,5");
  const std::string at = "19:" + std::to_string(text.rows[10].size() + 1);
  expect_told(text, at, ErrorCode::kSyntax, "has 36 fields");
}

TEST(BrokenHours, WithoutRowsOrHeaderAreTold) {
  EpwText none(0);
  expect_told(none, "9:1", ErrorCode::kSyntax, "a header and no hours");
  EpwText headless;
  headless.period = headless.rows[0];
  expect_told(headless, "8:1", ErrorCode::kSyntax, "no line DATA PERIODS");
  EpwText short_rows(1);
  for (std::string& row : short_rows.rows) row = row.substr(0, 30);
  expect_told(short_rows, "9:31", ErrorCode::kSyntax, "The first hour has");
}

TEST(BrokenHours, OfSeveralRowsAnHourAreRefused) {
  EpwText text;
  text.period = "DATA PERIODS,1,4,Data,Friday, 3/ 1, 3/ 3";
  expect_told(text, "8:16", ErrorCode::kSyntax, "“4” rows an hour");
}

TEST(BrokenHours, OfOddDatesAreTold) {
  const auto with = [](int field, const std::string& value) {
    EpwText text;
    text.put(0, field, value);
    return text;
  };
  expect_told(with(0, "19"), "9:1", ErrorCode::kImpossibleValue, "year of 19");
  expect_told(with(1, "13"), "9:6", ErrorCode::kImpossibleValue, "month of 13");
  expect_told(with(2, "32"), "9:8", ErrorCode::kImpossibleValue, "day of the month of 32");
  expect_told(with(2, "1.5"), "9:8", ErrorCode::kWrongType, "no whole number");
  expect_told(with(3, "0"), "9:10", ErrorCode::kImpossibleValue, "hour (1 to 24) of 0");
  EpwText june(1);
  for (std::size_t row = 0; row < june.rows.size(); ++row) {
    june.put(row, 1, "6");
    june.put(row, 2, "31");
  }
  expect_told(june, "9:8", ErrorCode::kImpossibleValue, "June has no day 31");
}

TEST(BrokenHours, WithFiguresThatCannotBeAreTold) {
  const auto with = [](int field, const std::string& value) {
    EpwText text;
    text.put(11, field, value);
    return text;
  };
  const std::string row = EpwText().rows[11];
  const auto column = [&](int field) {
    std::size_t from = 0;
    for (int i = 0; i < field; ++i) from = row.find(',', from) + 1;
    return "20:" + std::to_string(from + 1);
  };
  expect_told(with(6, "-120"), column(6), ErrorCode::kImpossibleValue, "temperature of -120");
  expect_told(with(6, "nan"), column(6), ErrorCode::kWrongType, "“nan” is no number");
  expect_told(with(13, "-40"), column(13), ErrorCode::kImpossibleValue, "global radiation of -40");
  expect_told(with(13, "2400"), column(13), ErrorCode::kImpossibleValue, "global radiation");
  expect_told(with(14, "1e400"), column(14), ErrorCode::kWrongType, "“1e400” is no number");
  expect_told(with(33, "-1"), column(33), ErrorCode::kImpossibleValue, "rainfall of -1");
}

TEST(BrokenHours, WithMoreLightThanReachesTheAirAreTold) {
  EpwText text;
  for (std::size_t row = 0; row < 72; ++row) text.put(row, 13, "900");  // night and day
  expect_told(text, "9:1", ErrorCode::kImpossibleValue, "that reaches the air above latitude 48");
}

TEST(BrokenHours, WithMoreDiffuseThanGlobalLightAreTold) {
  EpwText text;
  for (int hour = 6; hour < 18; ++hour) text.put(static_cast<std::size_t>(hour), 15, "400");
  expect_told(text, "9:1", ErrorCode::kImpossibleValue, "diffuse radiation of 1 March");
}

TEST(BrokenHours, OfAPlaceThatCannotBeAreTold) {
  EpwText text;
  text.location = "LOCATION,Somewhere,-,-,made,-,98.0,-4.5,0.0,60";
  expect_told(text, "1:31", ErrorCode::kImpossibleValue, "latitude of 98.0");
  text.location = "LOCATION,Somewhere,-,-,made,-,48.0,-4.5,25,60";
  expect_told(text, "1:41", ErrorCode::kImpossibleValue, "clock offset of 25");
  text.location = "LOCATION;Somewhere";
  expect_told(text, "1:9", ErrorCode::kSyntax, "not separated by commas");
}

TEST(BrokenHours, OfADayTwiceInATypicalYearAreTold) {
  EpwText text(0);
  text.period = "DATA PERIODS,1,1,Data,Friday,,";
  text.location = "LOCATION,Somewhere,-,-,TMY,-,48.0,-4.5,0.0,60";
  for (int day = 0; day < 367; ++day) {
    const LocalDate date = date_of_day(day < 365 ? 2018 : 2019, day < 365 ? day + 1 : day - 364);
    for (int hour = 1; hour <= 24; ++hour) {
      text.rows.push_back(EpwText::row(2018, static_cast<int>(static_cast<unsigned>(date.month())),
                                       static_cast<int>(static_cast<unsigned>(date.day())), hour));
      text.put(text.rows.size() - 1, 13, "9999");
    }
  }
  expect_told(text, std::to_string(8 + 365 * 24 + 1) + ":1", ErrorCode::kConflict,
              "The day is there twice: 1 January");
}

}  // namespace
}  // namespace spadework::exchange
