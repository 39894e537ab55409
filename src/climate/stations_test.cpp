#include "climate/stations.h"

#include <gtest/gtest.h>

#include <numbers>

#include "climate/test_stations.h"

namespace spadework::climate {
namespace {

/// A row with 15 °C in every month and nothing else.
std::string row(const std::string& place) {
  std::string out = place + ",12,2003-2021,DWD-CLIMAT";
  for (int field = 0; field < 108; ++field) out += field < 12 ? ",15" : ",";
  return out + ",,,\n";
}

Error error_of(const std::string& text) {
  const auto stations = read_stations(text);
  EXPECT_FALSE(stations.has_value());
  return stations ? Error{} : stations.error();
}

TEST(Stations, HoldsTheWholeTable) {
  const Stations stations = shipped_stations();
  EXPECT_EQ(stations.all().size(), 2561u);
  std::size_t sunny = 0;
  for (std::size_t i = 0; i < stations.all().size(); ++i) {
    EXPECT_TRUE(stations.has_all_months(i, Element::kTmax)) << stations.all()[i].id;
    EXPECT_TRUE(stations.record(i).has_value()) << stations.all()[i].id;
    if (stations.has_all_months(i, Element::kSunshine)) ++sunny;
  }
  EXPECT_EQ(sunny, 1584u);
}

// The figures were read off the table by hand.
TEST(Stations, FindsJanMayen) {
  const Stations stations = shipped_stations();
  const auto found = stations.find("01001");
  ASSERT_TRUE(found);
  const Station& station = stations.all()[*found];
  EXPECT_EQ(station.name, "Jan Mayen");
  EXPECT_NEAR(in_degrees(station.latitude), 70.94, 1e-9);
  EXPECT_NEAR(in_degrees(station.longitude), -8.67, 1e-9);
  EXPECT_EQ(in_metres(station.elevation), 9);
  const auto record = stations.record(*found);
  ASSERT_TRUE(record);
  EXPECT_EQ(record->of(Element::kTmax)[7], 8.2);
  EXPECT_EQ(record->of(Element::kTmin)[1], -4.7);
  EXPECT_EQ(record->source, "dwd-climat");
  EXPECT_EQ(record->period, "2003-2021");
  EXPECT_FALSE(stations.find("1001")) << "an id keeps its leading noughts";
}

TEST(Stations, SaysWhereATableIsBroken) {
  EXPECT_EQ(error_of("").code, ErrorCode::kSyntax);
  EXPECT_EQ(error_of(table_header()).code, ErrorCode::kSyntax);
  EXPECT_EQ(error_of("wmo_id,station\n").code, ErrorCode::kMissingKey);
  const Error wrong = error_of(table_header() + row("1,A,B,48,north,10"));
  EXPECT_EQ(wrong.code, ErrorCode::kWrongType);
  EXPECT_EQ(wrong.where, "stations.csv:2:10");
  EXPECT_EQ(error_of(table_header() + row("1,A,B,91,0,10")).code, ErrorCode::kImpossibleValue);
  EXPECT_EQ(error_of(table_header() + row("1,A,B,48,200,10")).code, ErrorCode::kImpossibleValue);
  EXPECT_EQ(error_of(table_header() + row("1,A,B,48,2,nan")).code, ErrorCode::kWrongType);
  EXPECT_EQ(error_of(table_header() + row(",A,B,48,2,10")).code, ErrorCode::kMissingKey);
  EXPECT_EQ(error_of(table_header() + "1,A,B,48\n").code, ErrorCode::kSyntax);
  std::string no_june = table_header();
  no_june.replace(no_june.find("tmin_6"), 6, "tmin_x");
  EXPECT_EQ(error_of(no_june + row("1,A,B,48,2,10")).code, ErrorCode::kMissingKey);
}

TEST(Stations, ABrokenMonthIsAnErrorOnlyWhenItIsRead) {
  std::string text = table_header() + row("1,A,B,48,2,10");
  text.replace(text.rfind(",15,"), 4, ",1x,");
  const auto stations = read_stations(text);
  ASSERT_TRUE(stations);
  const auto months = stations->months(0, Element::kTmax);
  ASSERT_FALSE(months);
  EXPECT_EQ(months.error().code, ErrorCode::kWrongType);
  EXPECT_EQ(months.error().where.substr(0, 15), "stations.csv:2:");
  EXPECT_FALSE(stations->record(0));
  EXPECT_TRUE(stations->months(0, Element::kTmin));
}

TEST(Stations, AnImpossibleMonthIsAnError) {
  std::string text = table_header() + row("1,A,B,48,2,10");
  text.replace(text.rfind(",15,"), 4, ",1e9,");
  const auto stations = read_stations(text);
  ASSERT_TRUE(stations);
  const auto months = stations->months(0, Element::kTmax);
  ASSERT_FALSE(months);
  EXPECT_EQ(months.error().code, ErrorCode::kImpossibleValue);
}

TEST(Stations, ARowThatEndsEarlyHasNoMoreMonths) {
  const std::string text = table_header() + "1,A,B,48,2,10,12,2003-2021,DWD-CLIMAT,15,15\r\n";
  const auto stations = read_stations(text);
  ASSERT_TRUE(stations);
  EXPECT_FALSE(stations->has_all_months(0, Element::kTmax));
  const auto months = stations->months(0, Element::kTmax);
  ASSERT_TRUE(months);
  EXPECT_EQ((*months)[1], 15);
  EXPECT_FALSE((*months)[2]);
}

TEST(Stations, QuotesMayHoldACommaAndAMarkMayComeFirst) {
  const std::string text = "\xEF\xBB\xBF" + table_header() + row("1,\"Mount, North\",B,48,2,10");
  const auto stations = read_stations(text);
  ASSERT_TRUE(stations);
  EXPECT_EQ(stations->all()[0].name, "Mount, North");
  EXPECT_TRUE(stations->has_all_months(0, Element::kTmax));
}

/// Every cut of a table, and every byte of it turned into another, is read or refused, never more.
TEST(Stations, NothingBreaksTheReader) {
  const std::string whole = table_header() + row("1,\"A\",B,48,2,10") + row("2,A,B,48,2,10");
  const auto read = [](const std::string& text) {
    const auto stations = read_stations(text);
    if (!stations) return;
    for (std::size_t i = 0; i < stations->all().size(); ++i) {
      (void)stations->record(i);
      (void)stations->has_all_months(i, Element::kSunshine);
    }
  };
  for (std::size_t end = 0; end <= whole.size(); ++end) read(whole.substr(0, end));
  for (std::size_t at = 0; at < whole.size(); ++at) {
    for (const char byte : {'"', ',', '\n', '\0', '-', '\xff'}) {
      std::string text = whole;
      text[at] = byte;
      read(text);
    }
  }
}

// The great circle between two meridians on the equator, and from pole to pole.
TEST(DistanceBetween, IsThatOfTheCircle) {
  constexpr double kPi = std::numbers::pi;
  EXPECT_NEAR(in_metres(distance_between(degrees(0), degrees(10), degrees(0), degrees(11))),
              6371000 * kPi / 180, 1e-3);
  EXPECT_NEAR(in_metres(distance_between(degrees(90), degrees(0), degrees(-90), degrees(77))),
              6371000 * kPi, 1e-3);
  EXPECT_NEAR(in_metres(distance_between(degrees(0), degrees(179.5), degrees(0), degrees(-179.5))),
              6371000 * kPi / 180, 1e-3)
      << "across the date line";
}

}  // namespace
}  // namespace spadework::climate
