// Which places rest on guessed figures.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "tests/scenes.h"

namespace spadework::testing {
namespace {

const std::vector<int> kGrowing{3, 4, 5, 6, 7, 8};

/// Two beds, one close behind a wall to the south, one 30 m off it in the open.
std::string near_and_far(const std::string& wall_more, const std::string& garden_more = "") {
  return head(48.41, -4.36, "Europe/Paris") + garden_more + R"(
[[wall]]
id = "lane-wall"
line = [[-4,-2],[4,-2]]
height_m = 1.8
kind = "brick"
)" + wall_more +
         R"(
[[bed]]
id = "near"
at = [-1.5, -1.2]
size = [3, 1.2]
[[bed]]
id = "far"
at = [-1.5, 30]
size = [3, 1.2]
)";
}

TEST(OnGuesses, ArePlacesInTheWayOfGuessedThings) {
  study::Study measured = study_of(near_and_far(""));
  EXPECT_FALSE((*measured.on_guesses("found"))->rests("near", kGrowing));
  study::Study study = study_of(near_and_far("guessed = [\"height_m\"]"));
  const auto on = study.on_guesses("found");
  ASSERT_TRUE(on);
  EXPECT_TRUE((*on)->rests("near", kGrowing));
  EXPECT_FALSE((*on)->rests("far", kGrowing));
  EXPECT_FALSE((*on)->rests("nowhere", kGrowing));
  // What the wall takes is what is there without it less what is there with it.
  study::Study open = study_of(near_and_far("removed = true"));
  const auto with = study.places_year("found"), without = open.places_year("proposed");
  for (std::size_t m = 0; m < 12; ++m)
    EXPECT_NEAR((*on)->hours.at("near")[m],
                (*without)->find("near")->months[m].sun_h_per_day -
                    (*with)->find("near")->months[m].sun_h_per_day,
                1e-9);
}

TEST(OnGuesses, AreAllPlacesWhereNorthIsGuessed) {
  study::Study study = study_of(near_and_far("", "guessed = [\"plan_north_deg\"]\n"));
  EXPECT_TRUE((*study.on_guesses("found"))->rests("far", kGrowing));
}

// [closed-form] The longest day's half is acos(−tan φ tan δ): half a degree of latitude changes it
// by 3 minutes at 48°.
TEST(OnGuesses, AreNotPlacesInATownNearby) {
  study::Study study = study_of(near_and_far("", "guessed = [\"latitude_deg\"]\n"));
  EXPECT_FALSE((*study.on_guesses("found"))->rests("far", kGrowing));
  const auto half_day_h = [](double latitude_deg) {
    const double radians = std::numbers::pi / 180;
    return std::acos(-std::tan(latitude_deg * radians) * std::tan(23.44 * radians)) / radians / 15;
  };
  EXPECT_LT(2 * (half_day_h(48.91) - half_day_h(48.41)), 0.25);
}

TEST(OnGuesses, IsABedThatIsGuessedItself) {
  study::Study study = study_of(near_and_far("") + "guessed = [\"at\"]\n");
  EXPECT_TRUE((*study.on_guesses("found"))->rests("far", kGrowing));
  EXPECT_FALSE((*study.on_guesses("found"))->rests("near", kGrowing));
}

}  // namespace
}  // namespace spadework::testing
