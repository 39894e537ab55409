#include "climate/nearby.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "climate/radiation.h"
#include "climate/test_stations.h"

namespace spadework::climate {
namespace {

/// A table of our own: id, latitude, longitude, height, the same temperature and sunshine all year.
struct Own {
  const char* id;
  double latitude, longitude, elevation, tmax_c, sunshine_h;
};

std::string table_of(const std::vector<Own>& stations) {
  std::string out = table_header();
  for (const Own& own : stations) {
    out += fmt::format("{},{},X,{},{},{},12,2003-2021,DWD-CLIMAT", own.id, own.id, own.latitude,
                       own.longitude, own.elevation);
    for (int element = 0; element < 9; ++element) {
      for (int month = 0; month < 12; ++month) {
        out += ",";
        if (element == 0) out += fmt::format("{}", own.tmax_c);
        if (element == 4 && own.sunshine_h >= 0) out += fmt::format("{}", own.sunshine_h);
      }
    }
    out += ",,,\n";
  }
  return out;
}

Blend blend_at(const std::string& table, const Place& place, Element element,
               const Choice& choice = {}) {
  const auto stations = read_stations(table);
  EXPECT_TRUE(stations);
  const auto blend = Neighbours(*stations, place).blend(element, choice);
  EXPECT_TRUE(blend && *blend);
  return blend && *blend ? **blend : Blend{};
}

TEST(Blend, OfOneStationIsThatStationBroughtToThePlacesHeight) {
  const std::string table = table_of({{"a", 48, 2, 100, 15, -1}});
  const Blend blend = blend_at(table, {degrees(48), degrees(2), metres(1100)}, Element::kTmax);
  EXPECT_NEAR(blend.value[6], 15 - 6.5, 1e-12);
  EXPECT_NEAR(blend.far_km, 100, 1e-9) << "1,000 m count as 100 km";
  EXPECT_NEAR(blend.height_m, -1000, 1e-9);
}

TEST(Blend, OfTwoStationsAlikeFarIsTheirMean) {
  const std::string table = table_of({{"a", 0, 1, 0, 10, -1}, {"b", 0, -1, 0, 20, -1}});
  const Blend blend = blend_at(table, {degrees(0), degrees(0), metres(0)}, Element::kTmax);
  EXPECT_NEAR(blend.value[0], 15, 1e-9);
  EXPECT_NEAR(blend.stations[0].weight, 0.5, 1e-9);
}

// Weights one over the square of 111.19 km and of twice that, 25 km added in square.
TEST(Blend, TheNearerWeighsByTheSquareOfDistance) {
  const std::string table = table_of({{"a", 0, 1, 0, 10, -1}, {"b", 0, -2, 0, 20, -1}});
  const Blend blend = blend_at(table, {degrees(0), degrees(0), metres(0)}, Element::kTmax);
  const double near = 1 / (111.1949 * 111.1949 + 625), far = 1 / (222.3899 * 222.3899 + 625);
  EXPECT_NEAR(blend.value[0], (10 * near + 20 * far) / (near + far), 1e-5);
}

TEST(Blend, StationsWithoutTheElementArePassedOver) {
  const std::string table = table_of({{"a", 0, 1, 0, 10, -1}, {"b", 0, -2, 0, 20, 6}});
  const Blend blend = blend_at(table, {degrees(0), degrees(0), metres(0)}, Element::kSunshine);
  ASSERT_EQ(blend.stations.size(), 1u);
  EXPECT_EQ(blend.stations[0].id, "b");
}

TEST(Blend, SunshineGoesAsAShareOfTheDay) {
  const std::string table = table_of({{"a", 40, 0, 0, 10, 4}});
  const Blend blend = blend_at(table, {degrees(55), degrees(0), metres(0)}, Element::kSunshine);
  const double there = sky_of_month(degrees(40), 12).day_length_h;
  const double here = sky_of_month(degrees(55), 12).day_length_h;
  EXPECT_NEAR(blend.value[11], 4 / there * here, 1e-9);
}

TEST(Blend, LeavesOutWhatTheChoiceLeavesOut) {
  const std::string table = table_of({{"a", 0, 1, 0, 10, -1}, {"b", 0, -2, 0, 20, -1}});
  const Place place{degrees(0), degrees(0), metres(0)};
  EXPECT_EQ(blend_at(table, place, Element::kTmax, {1, std::nullopt, 0}).stations[0].id, "b");
  EXPECT_EQ(blend_at(table, place, Element::kTmax, {std::nullopt, 0, 0}).stations[0].id, "b");
  EXPECT_EQ(
      blend_at(table, place, Element::kTmax, {std::nullopt, std::nullopt, 150}).stations[0].id,
      "b");
  const auto stations = read_stations(table);
  const auto none = Neighbours(*stations, place).blend(Element::kRain, {});
  ASSERT_TRUE(none);
  EXPECT_FALSE(*none);
}

TEST(Blend, LiesBetweenItsStationsAndItsWeightsAddUpToOne) {
  const Stations stations = shipped_stations();
  Random random(7);
  for (int i = 0; i < 200; ++i) {
    const Place place{degrees(random.between(-60, 75)), degrees(random.between(-180, 180)),
                      metres(random.between(0, 2000))};
    const Neighbours around(stations, place);
    const auto rain = around.blend(Element::kRain, {});
    ASSERT_TRUE(rain && *rain);
    double weights = 0, low = 1e9, high = -1;
    for (const StationUse& use : (*rain)->stations) {
      weights += use.weight;
      low = std::min(low, use.reported[3]);
      high = std::max(high, use.reported[3]);
    }
    EXPECT_NEAR(weights, 1, 1e-12);
    EXPECT_GE((*rain)->value[3], low - 1e-9);
    EXPECT_LE((*rain)->value[3], high + 1e-9);
    const auto sunshine = around.blend(Element::kSunshine, {});
    ASSERT_TRUE(sunshine && *sunshine);
    for (unsigned m = 1; m <= 12; ++m)
      EXPECT_LE((*sunshine)->value[m - 1], sky_of_month(place.latitude, m).day_length_h + 1e-9);
  }
}

}  // namespace
}  // namespace spadework::climate
