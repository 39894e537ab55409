#include "base/coordinates.h"

#include <gtest/gtest.h>

namespace spadework {
namespace {

void expect_place(const char* text, double latitude, double longitude) {
  const auto place = coordinates_in(text);
  ASSERT_TRUE(place.has_value()) << text;
  EXPECT_NEAR(in_degrees(place->latitude), latitude, 1e-9) << text;
  EXPECT_NEAR(in_degrees(place->longitude), longitude, 1e-9) << text;
}

TEST(Coordinates, AreReadAsPeoplePasteThem) {
  for (const char* text : {"48.41, -4.36",
                           "48.41,-4.36",
                           "48.41 -4.36",
                           " 48.41 ; -4.36 ",
                           "48,41 -4,36",
                           "48,41; -4,36",
                           "48.41N 4.36W",
                           "48.41 N, 4.36 W",
                           "48.41° N 4.36° W",
                           "4.36W 48.41N",
                           "N48.41 W4.36",
                           "N 48.41, W 4.36",
                           "48.41°, −4.36°",
                           "48°24'36\"N, 4°21'36\"W",
                           "48° 24′ 36″ N 4° 21′ 36″ W",
                           "48 24 36 N 4 21 36 W",
                           "N 48° 24.6' W 4° 21.6'",
                           "48d24m36s N 4d21m36s W",
                           "48°24.6'N 4°21.6'W",
                           "+48.41 -4.36"})
    expect_place(text, 48.41, -4.36);
  expect_place("-36.9 174.8", -36.9, 174.8);
  expect_place("36.9 S 174.8 E", -36.9, 174.8);
  expect_place("0 0", 0, 0);
  expect_place("90, 180", 90, 180);
}

TEST(Coordinates, OfOtherTextsAreNone) {
  for (const char* text : {"",
                           " ",
                           ",",
                           "48.41",
                           "48.41,",
                           "48.41 N",
                           "Brest",
                           "91, 0",
                           "48, 181",
                           "48 N 4 N",
                           "48 E 4 W",
                           "48.41, -4.36, 7",
                           "48 N -4",
                           "48 61 N 4 0 W",
                           "48.5 30 N 4 W",
                           "-48 N 4 E",
                           "1e3, 4",
                           "nan nan",
                           "48°24\"N 4°W",
                           "48 N N 4 W",
                           "--48 4",
                           "48 4 N W"})
    EXPECT_FALSE(coordinates_in(text).has_value()) << text;
  EXPECT_FALSE(coordinates_in(std::string(5000, '1')).has_value());
}

}  // namespace
}  // namespace spadework
