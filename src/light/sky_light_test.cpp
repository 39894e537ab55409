// The sky's light against closed forms: tests/golden/light/analytic.csv (see case.toml beside it
// for the formulas).
#include "light/sky_light.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "light/light_testing.h"
#include "light/ray.h"
#include "sky/cloudy_sky.h"
#include "sky/dome.h"
#include "tests/golden/light/read_analytic.h"

namespace spadework::light {
namespace {

using namespace testing;  // NOLINT: suns and bodies
using golden::Case;
using golden::cases;

constexpr double kLong_m = 20000;  // half the length of a wall that stands for an endless one
constexpr double kThin_m = 0.01;
const std::vector<garden::Ground::HorizonPoint> kLevelHorizon;

/// As the program takes it, over a level plane.
SkyLight sky_at(const std::vector<Body>& bodies, const Receiver& receiver) {
  return cast_sky(Scene(bodies), receiver, sky_over(receiver, kLevelHorizon, degrees(0)));
}
double view_at_the_origin(const std::vector<Body>& bodies) {
  return static_cast<double>(sky_at(bodies, spot_receiver({0, 0, 0})).uniform[0][0]);
}

Body wall_to_the_south(double half_length, double distance, double height) {
  return opaque("wall",
                box({-half_length, -distance - kThin_m}, 2 * half_length, kThin_m, 0, height));
}

constexpr double kWithin = 0.01;  // 961 directions; the caster's own test takes 40,000

TEST(SkyLight, BeforeWallsAndInCanyonsIsTheClosedForm) {
  double errors = 0;
  int n = 0;
  const auto check = [&](const std::vector<Body>& bodies, const Case& c) {
    const double error = view_at_the_origin(bodies) - c.value;
    EXPECT_LE(std::abs(error), kWithin) << c.line;
    errors += std::abs(error), ++n;
  };
  for (const Case& c : cases("SVF_infinite_wall_h=2", 5))
    check({wall_to_the_south(kLong_m, c.of.at("d"), 2)}, c);
  for (const Case& c : cases("SVF_finite_wall_h=2_d=1_centred", 5))
    check({wall_to_the_south(c.of.at("len") / 2, 1, 2)}, c);
  for (const Case& c : cases("SVF_canyon_centre", 4)) {
    const double h = 2 * c.of.at("H/W");
    check({opaque("north", box({-kLong_m, 1}, 2 * kLong_m, kThin_m, 0, h)),
           wall_to_the_south(kLong_m, 1, h)},
          c);
  }
  EXPECT_LT(errors / n, 0.003);
}

TEST(SkyLight, InACircularClearingIsTheClosedForm) {
  constexpr int kBoards = 180;  // their inner faces touch a circle of 1 m
  const double half = std::tan(std::numbers::pi / kBoards);
  for (const Case& c : cases("SVF_circular_clearing_centre", 4)) {
    std::vector<Body> ring;
    for (int i = 0; i < kBoards; ++i) {
      const double turn = 2 * std::numbers::pi * i / kBoards;
      const Vec2 corner = geometry::turned({1, -half}, turn);
      ring.push_back(opaque("ring", box(corner, kThin_m, 2 * half, 0, c.of.at("h/R"), turn)));
    }
    EXPECT_NEAR(view_at_the_origin(ring), c.value, kWithin) << c.line;
  }
}

TEST(OvercastSky, BringsWhatTheClosedFormSays) {  // [cie-overcast] Lz (1 + 2 sin e) / 3
  // E over Lz of the whole sky: by the ratio of the radiances at the zenith.
  for (const Case& c : cases("CIE_overcast_Eh_over_Lz", 1))
    EXPECT_NEAR(std::numbers::pi / sky::overcast_radiance(1), c.value, 1e-5) << c.line;
}

TEST(OvercastSky, OverARoundHorizonIsTheClosedForm) {
  for (const Case& c : cases("CIE_overcast_circular_horizon_fraction", 4)) {
    const std::vector<garden::Ground::HorizonPoint> hills{{degrees(0), degrees(c.of.at("b"))}};
    const Receiver spot = spot_receiver({0, 0, 0});
    const SkyLight light = cast_sky(Scene(), spot, sky_over(spot, hills, degrees(0)));
    EXPECT_NEAR(static_cast<double>(light.overcast[0][0]), c.value, 0.002) << c.line;
    // A uniform sky: cos² b.
    const double cosine = std::cos(rad(c.of.at("b")));
    EXPECT_NEAR(static_cast<double>(light.uniform[0][0]), cosine * cosine, 0.002) << c.line;
  }
}

TEST(SkyLight, OfTheOpenSkyIsOne) {
  const Receiver bed = level_receiver({0, 0}, 0.4, 0.2, 0.1, 12, 36);
  const SkyLight light = sky_at({}, bed);
  for (const float share : light.uniform[0]) EXPECT_FLOAT_EQ(share, 1);
  for (const float share : light.overcast[0]) EXPECT_FLOAT_EQ(share, 1);
}

TEST(SkyLight, OnASlopeIsTheShareOfTheDomeBeforeIt) {  // closed form: (1 + cos b) / 2
  for (const double slope : {0.1, 0.5, 1.5}) {
    const Receiver bank = ground_receiver({0, 0}, 0, {slope, 0}, 0.1, 1, 1);
    const double cosine = 1 / std::hypot(1, slope);
    EXPECT_NEAR(static_cast<double>(sky_at({}, bank).uniform[0][0]), (1 + cosine) / 2, 0.003)
        << slope;
  }
}

TEST(SkyLight, IsWhatSingleRaysBring) {
  Random random(20260331);
  for (int garden = 0; garden < 20; ++garden) {
    std::vector<Body> bodies;
    for (int i = 0; i < 4; ++i) {
      const Vec2 at{random.between(-4, 4), random.between(-4, 4)};
      bodies.push_back(opaque("box" + std::to_string(i),
                              box(at, random.between(0.3, 3), random.between(0.2, 1), 0,
                                  random.between(0.5, 2.5), random.between(0, 3))));
      const RoundShape shape = static_cast<RoundShape>(i);
      bodies.push_back({"tree" + std::to_string(i),
                        RoundSolid{shape,
                                   {random.between(-4, 4), random.between(-4, 4)},
                                   random.between(-0.5, 1),
                                   random.between(2, 4),
                                   random.between(0.5, 2)},
                        i == 2 ? Through::kPerCrossing : Through::kPerMetre,
                        {static_cast<float>(random.between(0.1, 1.2))}});
    }
    const Scene scene(bodies);
    const Receiver bed = level_receiver({-1, -1}, 0.3, 0.2, 0.25, 8, 8);
    const auto sky = sky_over(bed, kLevelHorizon, degrees(0));
    const SkyLight light = cast_sky(scene, bed, sky);
    for (int cell = 0; cell < 64; cell += 7) {
      double uniform = 0, overcast = 0;
      for (const SkyDirection& d : sky) {
        const double depth =
            along_ray(scene, cell_centre(bed, cell % 8, cell / 8), d.toward, 16).depth;
        uniform += static_cast<double>(d.uniform) * std::exp(-depth);
        overcast += static_cast<double>(d.overcast) * std::exp(-depth);
      }
      // A direction or two may graze an edge.
      EXPECT_NEAR(static_cast<double>(light.uniform[0][static_cast<std::size_t>(cell)]), uniform,
                  0.0025);
      EXPECT_NEAR(static_cast<double>(light.overcast[0][static_cast<std::size_t>(cell)]), overcast,
                  0.0025);
    }
  }
}

TEST(SkyLight, FollowsTheLeavesMonthByMonth) {
  Body tree{"tree", RoundSolid{RoundShape::kEllipsoid, {0, 0}, 1, 4, 3}, Through::kPerMetre, {}};
  tree.depth.assign(366, 0.1F);
  for (std::size_t day = 120; day < 300; ++day) tree.depth[day] = 0.8F;
  const SkyLight light = sky_at({tree}, spot_receiver({0, 0, 0}));
  ASSERT_EQ(light.uniform.size(), 2U);
  for (const int month : {0, 1, 2, 3, 10, 11}) EXPECT_EQ(light.state_of_month.at(month), 0);
  for (const int month : {4, 5, 6, 7, 8, 9}) EXPECT_EQ(light.state_of_month.at(month), 1);
  EXPECT_GT(light.uniform[0][0], light.uniform[1][0] + 0.2F);
}

}  // namespace
}  // namespace spadework::light
