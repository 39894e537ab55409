// How crops grow by date, and how dates move with latitude and height.
#include "facts/growth.h"

#include <gtest/gtest.h>

#include <cmath>

#include "facts/test_catalogue.h"

namespace spadework::facts {
namespace {

LeafPlace at(double latitude_deg, double elevation_m = 0) {
  return {degrees(latitude_deg), metres(elevation_m)};
}
const Angle kFifty = degrees(50);

const Crop& crop(const char* name) {
  const Crop* found = shipped().crops.find(name);
  EXPECT_NE(found, nullptr) << name;
  return *found;
}

// Hopkins 1920: 4 days for a degree of latitude, 4 for 400 ft (121.92 m). [hopkins1920]
TEST(DaysLater, AreHopkinsFourForADegreeAndFourForFourHundredFeet) {
  EXPECT_DOUBLE_EQ(days_later(at(50), kFifty), 0);
  EXPECT_DOUBLE_EQ(days_later(at(51), kFifty), 4);
  EXPECT_DOUBLE_EQ(days_later(at(47), kFifty), -12);
  EXPECT_NEAR(days_later(at(50, 121.92), kFifty), 4, 1e-9);
  EXPECT_NEAR(days_later(at(46, 4 * 121.92), kFifty), 0, 1e-9);  // height makes up for latitude
}

TEST(DaysLater, AreAlikeNorthAndSouth) {
  for (double latitude = 0; latitude <= 66; latitude += 3)
    EXPECT_EQ(days_later(at(latitude, 200), kFifty), days_later(at(-latitude, 200), kFifty));
}

TEST(DaysLater, AreNeverOverForty) {
  for (double latitude = -89; latitude <= 89; latitude += 0.5) {
    for (double elevation : {-400.0, 0.0, 900.0, 4000.0}) {
      EXPECT_LE(std::abs(days_later(at(latitude, elevation), kFifty)), 40);
    }
  }
}

// Čufar et al. 2012, beech on 47 sites in Slovenia. [cufar2012]
TEST(DaysLaterGolden, AreWithinADayAndAHalfOfBeechInSloveniaForAHundredMetres) {
  const double law = days_later(at(46, 600), kFifty) - days_later(at(46, 500), kFifty);
  EXPECT_NEAR(law, 2.6, 1.5);  // leaves unfold later
  EXPECT_NEAR(law, 1.9, 1.5);  // and colour earlier
}

TEST(LeafDatesAt, MoveSpringAndAutumnApartAndStandAsDerived) {
  const LeafDates& here = shipped().trees.find("apple")->leaves;
  const LeafDates there = leaf_dates_at(here, at(55, 121.92));
  EXPECT_EQ(there.out_start.value.number, here.out_start.value.number + 24);
  EXPECT_EQ(there.full.value.number, here.full.value.number + 24);
  EXPECT_EQ(there.fall_start.value.number, here.fall_start.value.number - 24);
  EXPECT_EQ(there.bare.value.number, here.bare.value.number - 24);
  EXPECT_EQ(there.full.standing, Standing::kDerived);
  for (const std::string& key : there.full.sources) EXPECT_NE(shipped().source(key), nullptr);
}

/// Every set of leaf dates in the catalogue.
template <class Use>
void each_leaf_dates(Use use) {
  for (const TreeKind& tree : shipped().trees.all()) use(tree.id, tree.leaves);
  for (const BarrierKind& hedge : shipped().barriers.all()) use(hedge.id, hedge.leaves);
  for (const Crop& one : shipped().crops.all()) use(one.id, one.growth.leaves);
}

TEST(LeafDatesAt, KeepTheirOrderAtEveryPlace) {
  for (double latitude : {-66.0, -35.0, 0.0, 35.0, 42.0, 50.0, 60.0, 70.0}) {
    for (double elevation : {0.0, 600.0, 2500.0}) {
      each_leaf_dates([&](const std::string& id, const LeafDates& dates) {
        if (dates.habit == LeafHabit::kEvergreen) return;
        const LeafDates there = leaf_dates_at(dates, at(latitude, elevation));
        const auto since = [&](const Fact<YearDay>& day) {
          return days_since(there.out_start.value, day.value.number, false);
        };
        EXPECT_LT(0, since(there.full)) << id << latitude;
        EXPECT_LT(since(there.full), since(there.fall_start)) << id << latitude;
        EXPECT_LT(since(there.fall_start), since(there.bare)) << id << latitude;
      });
    }
  }
}

TEST(LeafShare, LastsThroughNewYearWhereAutumnIsLate) {
  LeafDates dates = shipped().barriers.find("living willow")->leaves;
  dates = leaf_dates_at(dates, at(38));
  EXPECT_LT(dates.bare.value.number, 32);
  EXPECT_GT(leaf_share(dates, 364, false), leaf_share(dates, 3, false));
  EXPECT_GT(leaf_share(dates, 3, false), 0);
  EXPECT_EQ(leaf_share(dates, 35, false), 0);
}

TEST(LeafShare, IsNoLongerTheFartherFromTheEquator) {
  const LeafDates& apple = shipped().trees.find("apple")->leaves;
  double before = 366;
  for (double latitude = 35; latitude <= 65; latitude += 1) {
    double days = 0;
    for (int day = 1; day <= 365; ++day)
      days += leaf_share(leaf_dates_at(apple, at(latitude)), day, false);
    EXPECT_LE(days, before + 1e-9) << latitude;
    before = days;
  }
}

// FAO-56 chapter 6: a tenth of full cover ends the initial stage, full cover the development.
TEST(Grown, ReachesATenthAndThenAllOfTheHeightAtTheEndsOfTheirStages) {
  const Growth& potato = crop("potato").growth;
  const int planted = potato.planted.value.number;  // stages 30, 35, 50, 30
  EXPECT_EQ(grown(potato, planted - 1, false).height, 0);
  EXPECT_NEAR(grown(potato, planted + 30, false).height, 0.1, 1e-12);
  EXPECT_NEAR(grown(potato, planted + 65, false).height, 1, 1e-12);
  EXPECT_EQ(grown(potato, planted + 100, false).depth, 1);
  EXPECT_NEAR(grown(potato, planted + 130, false).depth, 0.5, 1e-12);  // fades through the late
  EXPECT_EQ(grown(potato, planted + 145, false).height, 0);
}

TEST(Grown, OfEveryCropIsAShareAndComesRoundEachYear) {
  for (const Crop& one : shipped().crops.all()) {
    double most = 0;
    for (const LeafPlace& place : {at(50), at(60, 300), at(-35)}) {
      const Growth growth = growth_at(one.growth, place);
      for (int day = 1; day <= 365; ++day) {
        for (bool southern : {false, true}) {
          const Grown now = grown(growth, day, southern);
          EXPECT_GE(now.height, 0) << one.id;
          EXPECT_LE(now.height, 1) << one.id;
          EXPECT_GE(now.depth, 0) << one.id;
          EXPECT_LE(now.depth, 1) << one.id;
          EXPECT_NEAR(now.height, grown(growth, day + 365, southern).height, 1e-12) << one.id;
          most = std::max(most, now.height * now.depth);
        }
      }
    }
    EXPECT_GT(most, 0.95) << one.id;  // each is full grown at some time
  }
}

// The year of a southern garden is that of its mirror in the north, half a year later.
TEST(Grown, InTheSouthIsTheNorthHalfAYearLater) {
  for (const Crop& one : shipped().crops.all()) {
    double north = 0, south = 0, apart = 0;
    for (int day = 1; day <= 365; ++day) {
      const auto amount = [&](double latitude, int on, bool southern) {
        const Grown now = grown(growth_at(one.growth, at(latitude)), on, southern);
        return now.height * now.depth;
      };
      const double here = amount(52, day, false);
      const double there = (amount(-52, day + 182, true) + amount(-52, day + 183, true)) / 2;
      apart = std::max(apart, std::abs(here - there));
      north += here;
      south += there;
    }
    EXPECT_NEAR(north, south, 1) << one.id;  // half of 365 days lies between two days
    EXPECT_LE(apart, 0.55) << one.id;        // a harvest lies half a day off
  }
}

TEST(PlantedOn, IsTheDayOfTheGardensOwnCalendar) {
  const Growth& pea = crop("pea").growth;
  const Growth north = planted_on(growth_at(pea, at(52)), 120, false);
  const Growth south = planted_on(growth_at(pea, at(-38)), 270, true);
  for (int later : {10, 30, 60}) {
    EXPECT_NEAR(grown(north, 120 + later, false).height, grown(south, 270 + later, true).height,
                0.02)
        << later;
  }
  EXPECT_EQ(grown(north, 118, false).height, 0);
  EXPECT_EQ(grown(south, 268, true).height, 0);
}

TEST(GrowthAt, CutsTenderCropsOffAtTheirFrosts) {
  const Growth bean = growth_at(crop("runner bean").growth, at(58));
  EXPECT_GT(grown(bean, 250, false).height, 0);
  EXPECT_EQ(grown(bean, 260, false).height, 0);  // 15 October less 32 days is 13 September
}

TEST(LightThrough, KeepsTheQuantitiesApart) {
  const TreeKind& maple = *shipped().trees.find("red-maple");
  const auto* beam = light_through(maple, LightQuantity::kBeam, true);
  const auto* total = light_through(maple, LightQuantity::kTotalSolar, true);
  ASSERT_NE(beam, nullptr);
  ASSERT_NE(total, nullptr);
  EXPECT_EQ(total->value, 0.31);  // Gardner and Sydnor 1984 [gardner1984]
  EXPECT_LT(beam->value, total->value);
  EXPECT_EQ(light_through(*shipped().trees.find("medlar"), LightQuantity::kTotalSolar, true),
            nullptr);
}

}  // namespace
}  // namespace spadework::facts
