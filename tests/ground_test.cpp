// The surface of the ground and the level of every bed.
#include "ground/ground.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/scenes.h"

namespace spadework::testing {
namespace {

TEST(Ground, WithoutAnySayingIsLevelZero) {
  const auto surface = ground::ground_surface(garden_of(head(48, 0, "UTC")));
  EXPECT_EQ(surface.at({3, 8}), 0);
  EXPECT_EQ(surface.planes(), 1);
}

TEST(Ground, FallsTowardATrueBearingWhateverThePagesUp) {
  // 1 m over 20 m toward the south; the page's up is 90° (east): south is to the right of the page.
  const auto surface = ground::ground_surface(
      garden_of(head(48, 0, "UTC", 90) + "[ground]\nfalls_m = 1\ntoward_deg = 180\nover = 20\n"));
  EXPECT_NEAR(surface.at({0, 0}), 0, 1e-12);
  EXPECT_NEAR(surface.at({8, 0}), -0.4, 1e-9);
  EXPECT_NEAR(surface.at({0, 8}), 0, 1e-9);
}

const std::string kSlope = head(48, 0, "UTC") + R"(
[ground]
spots = [[0,0,0],[20,0,0],[20,20,2],[0,20,2]]
)";

std::vector<ground::BedLevel> levels_of(const std::string& beds) {
  const garden::Garden garden = garden_of(kSlope + beds);
  return ground::bed_levels(garden, ground::ground_surface(garden));
}

TEST(BedLevel, IsTheMeanGroundUnlessGiven) {
  const auto levels = levels_of(R"(
[[bed]]
id = "a"
at = [4, 4]
size = [3, 2]
[[bed]]
id = "b"
at = [4, 8]
size = [3, 2]
level_m = 1.25
)");
  EXPECT_NEAR(levels[0].level_m, 0.5, 1e-9);  // 1 in 10, its middle at y = 5
  EXPECT_EQ(levels[0].by, ground::LevelBy::kMeanGround);
  EXPECT_NEAR(levels[1].level_m, 1.25, 1e-12);
  EXPECT_EQ(levels[1].by, ground::LevelBy::kGiven);
}

TEST(BedLevel, FollowsAChainOfLevelWithAndLeavesARingAlone) {
  const auto levels = levels_of(R"(
[[bed]]
id = "a"
at = [1, 4]
size = [2, 1]
level_with = "b"
[[bed]]
id = "b"
at = [4, 8]
size = [2, 1]
level_with = "c"
[[bed]]
id = "c"
at = [8, 2]
size = [2, 1]
level_m = 0.9
)");
  EXPECT_NEAR(levels[0].level_m, 0.9, 1e-12);
  EXPECT_NEAR(levels[1].level_m, 0.9, 1e-12);
  EXPECT_EQ(levels[0].by, ground::LevelBy::kLevelWith);
}

TEST(GroundBodies, LeaveTheHoleOfABedOpenAndNothingElse) {
  const garden::Garden garden = garden_of(kSlope);
  const auto surface = ground::ground_surface(garden);
  const auto hole = geometry::rectangle({5, 5}, {3, 1.2}, 0.2);
  const auto covered = [&](const std::vector<garden::Body>& bodies) {
    double sum = 0;
    for (const garden::Body& body : bodies) {
      // The footprint of a prism: every second corner, in order.
      geometry::Polygon foot;
      const auto& corners = std::get<geometry::Solid>(body.shape).corners;
      for (std::size_t i = 0; i < corners.size(); i += 2) foot.push_back(corners[i].plan());
      sum += geometry::area(foot);
    }
    return sum;
  };
  const double whole = covered(ground::ground_bodies(surface, -1, {}));
  EXPECT_NEAR(whole, surface.domain().width() * surface.domain().height(), 1e-6);
  EXPECT_NEAR(whole - covered(ground::ground_bodies(surface, -1, hole)), 3.6, 1e-6);
  EXPECT_TRUE(ground::ground_bodies(surface, 0, {}).empty());  // one plane: it cannot shade itself
}

}  // namespace
}  // namespace spadework::testing
