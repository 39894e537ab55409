// Fists, knees and waists.
#include "ground/by_eye.h"

#include <gtest/gtest.h>

#include <cmath>

#include "ground/ground.h"

namespace spadework::ground {
namespace {

TEST(Fists, AreTenDegreesEachAndNineReachOverhead) {
  EXPECT_NEAR(in_degrees(altitude_of_fists(2.5)->value), 25, 1e-12);
  EXPECT_NEAR(in_degrees(altitude_of_fists(0)->value), 0, 1e-12);
  EXPECT_NEAR(in_degrees(own_fist(9)->wide), 10, 1e-12);
  EXPECT_NEAR(in_degrees(altitude_of_fists(4, *own_fist(8))->value), 45, 1e-12);
  EXPECT_EQ(own_fist(2).error().where, "/fists_overhead");
  EXPECT_EQ(altitude_of_fists(-1).error().where, "/fists");
  EXPECT_FALSE(altitude_of_fists(9.5));
  EXPECT_FALSE(altitude_of_fists(std::nan("")));
}

// A tenth of 40° for the fist, and an even quarter of a fist for the reading.
TEST(Fists, AreLessSureTheHigher) {
  EXPECT_NEAR(in_degrees(altitude_of_fists(4)->sigma), std::hypot(4.0, 2.5 / std::sqrt(3.0)), 1e-9);
  EXPECT_NEAR(in_degrees(altitude_of_fists(0)->sigma), 2.5 / std::sqrt(3.0), 1e-9);
  EXPECT_LT(altitude_of_fists(4, *own_fist(9))->sigma, altitude_of_fists(4)->sigma);
}

TEST(Fists, MakeASkylineByBearing) {
  const auto skyline = skyline_of_fists(
      {{degrees(270), 0.5}, {degrees(-180), 1}, {degrees(90), 3}, {degrees(20), 0}});
  ASSERT_TRUE(skyline);
  ASSERT_EQ(skyline->points.size(), 4U);
  const double bearings[] = {20, 90, 180, 270}, altitudes[] = {0, 30, 10, 5};
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(in_degrees(skyline->points[i].bearing), bearings[i], 1e-9);
    EXPECT_NEAR(in_degrees(skyline->points[i].altitude), altitudes[i], 1e-9);
  }
  ASSERT_EQ(skyline->remedies.size(), 1U);
  EXPECT_EQ(skyline->remedies[0].by, Better::kOwnFist);
  EXPECT_EQ(skyline->remedies[0].sigma_after, altitude_of_fists(3, *own_fist(9))->sigma);
}

TEST(Fists, AreRefusedWhereTheyCannotBe) {
  EXPECT_EQ(skyline_of_fists({{degrees(10), 1}, {degrees(20), 12}}).error().where, "/1/fists");
  const Error twice = skyline_of_fists({{degrees(0), 1}, {degrees(360), 2}}).error();
  EXPECT_EQ(twice.where, "/1/bearing");
  EXPECT_EQ(twice.code, ErrorCode::kConflict);
  EXPECT_FALSE(skyline_of_fists({}));
}

TEST(Fall, IsAKneeAWaistOrAHead) {
  EXPECT_EQ(in_metres(body_mark(BodyMark::kAnkle)), 0.1);
  EXPECT_EQ(in_metres(fall_by_body(BodyMark::kKnee)->value), 0.5);
  EXPECT_EQ(in_metres(fall_by_body(BodyMark::kWaist)->value), 1.0);
  EXPECT_NEAR(in_metres(fall_by_body(BodyMark::kHead, 2)->value), 3.4, 1e-12);
  // A knee: anything from 0.3 to 0.75 m, evenly; and bodies that differ by a tenth.
  EXPECT_NEAR(in_metres(fall_by_body(BodyMark::kKnee)->sigma),
              std::hypot(0.45 / std::sqrt(12.0), 0.05), 1e-12);
  EXPECT_FALSE(fall_by_body(BodyMark::kHead, 0));
  EXPECT_EQ(fall_by_body(BodyMark::kHead, 50).error().where, "/times");
  EXPECT_EQ(in_metres(fall_by_eye(metres(2)).sigma), 0.5);
  EXPECT_EQ(in_metres(fall_by_level(metres(2)).sigma), 0.02);
  EXPECT_EQ(in_metres(over_by_pacing(metres(30)).sigma), 3);
}

// The figures told make the ground that ground_surface makes of the document's.
TEST(Fall, IsTheDocumentsPlane) {
  const Angle plan_north = degrees(340);
  const geometry::Vec2 arrow{4, -3};
  FallTold told;
  told.falls = *fall_by_body(BodyMark::kWaist);
  told.toward.value = bearing_on_plan(arrow, plan_north);
  told.over = over_by_pacing(metres(20));
  const auto fall = fall_told(told);
  ASSERT_TRUE(fall);
  EXPECT_NEAR(fall->grade.value, 0.05, 1e-12);
  garden::Garden garden;
  garden.site.plan_north = plan_north;
  garden.ground.fall = garden::toward_bearing(degrees(fall->toward_deg), plan_north) *
                       (fall->falls_m / fall->over_m);
  const auto surface = ground_surface(garden);
  EXPECT_NEAR(surface.at(geometry::unit(arrow) * 5), -0.25, 1e-9);
  EXPECT_NEAR(surface.at(geometry::left_of(geometry::unit(arrow)) * 5), 0, 1e-9);
  EXPECT_EQ(fall->guessed, (std::vector<std::string>{"falls_m", "toward_deg", "over"}));
}

TEST(Fall, IsAsSureAsItsParts) {
  FallTold told;
  told.falls = {metres(1), metres(0.2)};
  told.over = {metres(20), metres(2)};
  const auto fall = fall_told(told);
  EXPECT_NEAR(fall->grade.sigma, std::hypot(0.2 / 20, 0.05 * 0.1), 1e-12);
  ASSERT_FALSE(fall->remedies.empty());
  EXPECT_EQ(fall->remedies.front().by, Better::kLevelFall);
  EXPECT_NEAR(fall->remedies.front().sigma_after, std::hypot(0.02 / 20, 0.05 * 0.1), 1e-12);
}

TEST(Fall, ThatIsMeasuredIsNoGuess) {
  const auto fall = fall_told({fall_by_level(metres(1.2)),
                               {degrees(190), degrees(3)},
                               {metres(20), tape_sigma(metres(20))}});
  EXPECT_TRUE(fall->guessed.empty());
  EXPECT_EQ(fall->toward_deg, in_degrees(degrees(190)));
}

TEST(Fall, IsRefusedWhereItCannotBe) {
  EXPECT_EQ(fall_told({{metres(-1), {}}, {}, {metres(20), {}}}).error().where, "/falls_m");
  EXPECT_EQ(fall_told({{metres(1), {}}, {}, {metres(0), {}}}).error().where, "/over");
  EXPECT_FALSE(fall_told({{metres(std::nan("")), {}}, {}, {metres(9), {}}}));
  EXPECT_TRUE(fall_told({{metres(0), {}}, {}, {metres(20), {}}}));
}

TEST(Bearing, OnThePlanIsTheInverseOfTowardBearing) {
  for (double bearing = 0; bearing < 360; bearing += 17) {
    const auto direction = garden::toward_bearing(degrees(bearing), degrees(73));
    EXPECT_NEAR(in_degrees(bearing_on_plan(direction * 4, degrees(73))), bearing, 1e-9);
  }
  EXPECT_EQ(in_degrees(turned_round(degrees(-90))), 270);
  EXPECT_EQ(in_degrees(turned_round(degrees(720))), 0);
}

}  // namespace
}  // namespace spadework::ground
