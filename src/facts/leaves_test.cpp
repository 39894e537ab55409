#include "facts/leaves.h"

#include <gtest/gtest.h>

#include <cmath>

namespace spadework::facts {
namespace {

LeafDates four_days(int out_start, int full, int fall_start, int bare) {
  LeafDates dates;
  dates.habit = LeafHabit::kDeciduous;
  dates.out_start.value = {out_start};
  dates.full.value = {full};
  dates.fall_start.value = {fall_start};
  dates.bare.value = {bare};
  return dates;
}

const LeafDates kMedlar = four_days(102, 132, 293, 319);

TEST(LeafShare, IsNoneInWinterAndWholeInSummer) {
  for (int day : {1, 50, 102, 319, 340, 365}) EXPECT_EQ(leaf_share(kMedlar, day, false), 0) << day;
  for (int day : {132, 200, 293}) EXPECT_EQ(leaf_share(kMedlar, day, false), 1) << day;
}

TEST(LeafShare, IsHalfInTheMiddleOfEachRamp) {
  EXPECT_DOUBLE_EQ(leaf_share(kMedlar, (102 + 132) / 2, false), 0.5);
  EXPECT_DOUBLE_EQ(leaf_share(kMedlar, (293 + 319) / 2, false), 0.5);
}

TEST(LeafShare, NeverJumpsMoreThanOneDayOfTheSteepestRamp) {
  const double steepest = 1.0 / (319 - 293) + 1e-12;
  for (bool southern : {false, true}) {
    for (int day = 1; day <= 730; ++day) {
      const double today = leaf_share(kMedlar, day, southern);
      EXPECT_GE(today, 0);
      EXPECT_LE(today, 1);
      EXPECT_LE(std::abs(leaf_share(kMedlar, day + 1, southern) - today), steepest) << day;
    }
  }
}

TEST(LeafShare, ComesRoundEveryYear) {
  for (bool southern : {false, true}) {
    for (int day = 1; day <= 366; ++day) {
      EXPECT_DOUBLE_EQ(leaf_share(kMedlar, day, southern),
                       leaf_share(kMedlar, day + 365, southern));
      EXPECT_DOUBLE_EQ(leaf_share(kMedlar, day, southern),
                       leaf_share(kMedlar, day - 730, southern));
    }
  }
}

TEST(LeafShare, IsTurnedByHalfAYearInTheSouth) {
  // Half of 365 days lies between two whole days: the mean of the neighbours, on straight ramps.
  for (int day = 1; day <= 365; ++day) {
    const double north = leaf_share(kMedlar, day, false);
    const double south_before = leaf_share(kMedlar, day + 182, true);
    const double south_after = leaf_share(kMedlar, day + 183, true);
    EXPECT_NEAR(north, (south_before + south_after) / 2, 0.5 / (319 - 293)) << day;
  }
  EXPECT_EQ(leaf_share(kMedlar, 20, true), 1);   // January
  EXPECT_EQ(leaf_share(kMedlar, 200, true), 0);  // July
}

TEST(LeafShare, OfTheYearSumsToTheDaysInLeafInEitherHemisphere) {
  // Trapezium: full days and half of each ramp.
  const double days = (293 - 132) + ((132 - 102) + (319 - 293)) / 2.0;
  for (bool southern : {false, true}) {
    double sum = 0;
    for (int day = 1; day <= 365; ++day) sum += leaf_share(kMedlar, day, southern);
    EXPECT_NEAR(sum, days, 1e-9);
  }
}

TEST(LeafShare, OfAnEvergreenIsWholeOnEveryDay) {
  const LeafDates holly;
  for (int day = 1; day <= 366; ++day) {
    EXPECT_EQ(leaf_share(holly, day, false), 1);
    EXPECT_EQ(leaf_share(holly, day, true), 1);
  }
}

TEST(LeafShare, OfAMarcescentHedgeFollowsItsDatesLikeAnyOther) {
  LeafDates beech = kMedlar;
  beech.habit = LeafHabit::kMarcescent;
  for (int day = 1; day <= 365; ++day) {
    EXPECT_EQ(leaf_share(beech, day, false), leaf_share(kMedlar, day, false));
  }
}

}  // namespace
}  // namespace spadework::facts
