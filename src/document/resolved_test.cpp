// Documents as they are read and then resolved: points, and changes that say a thing's place in
// another way.
#include <gtest/gtest.h>

#include "document/test_support.h"
#include "garden/garden.h"

namespace spadework::document {
namespace {

using geometry::Vec2;

Result<garden::Garden> resolved(const std::string& text, const std::string& scheme = "proposed") {
  const ReadDocument read = read_test(std::string(kHead) + text);
  EXPECT_TRUE(read.problems.empty()) << problems_text(read);
  return garden::resolve(read.draft, scheme);
}
void expect_place(Vec2 place, double x, double y) {
  EXPECT_NEAR(place.x, x, 1e-9);
  EXPECT_NEAR(place.y, y, 1e-9);
}

TEST(AFixedPointOfTheSurvey, IsAPlace) {
  const auto garden = resolved(R"([survey]
fixed = { nail = [1, 2], post = ["20 ft", 0] }
[[wall]]
id = "w"
line = ["nail", "post"]
height_m = 1
kind = "stone"
)");
  ASSERT_TRUE(garden.has_value()) << garden.error().message;
  expect_place(garden->walls[0].line[0], 1, 2);
  expect_place(garden->walls[0].line[1], 6.096, 0);
}

TEST(AChainOfPoints, IsFollowedHoweverLong) {
  std::string text = "[[point]]\nid = \"p0\"\nat = [3, 4]\n";
  for (int i = 40; i >= 1; --i) {
    text +=
        "[[point]]\nid = \"p" + std::to_string(i) + "\"\nat = \"p" + std::to_string(i - 1) + "\"\n";
  }
  const auto garden = resolved(text);
  ASSERT_TRUE(garden.has_value()) << garden.error().message;
  for (const garden::Spot& spot : garden->marks) expect_place(spot.at, 3, 4);
}

TEST(APointThatIsMoved, MovesWhatStandsAtIt) {
  const std::string text = R"([[point]]
id = "peg"
at = [3, 4]
[[tree]]
id = "t"
kind = "oak"
at = "peg"
height_m = 5
crown_width_m = 3
[[change]]
thing = "peg"
at = [7, 8]
)";
  expect_place(resolved(text, "found")->trees[0].at, 3, 4);
  expect_place(resolved(text)->trees[0].at, 7, 8);
}

TEST(APointKnownByTapeAlone, IsNoAnswerAndSaysWhere) {
  const auto garden = resolved(R"([survey]
fixed = { nail = [0, 0], post = [12.4, 0] }
ties = [["ash", "nail", 5], ["ash", "post", 9]]
[[tree]]
id = "t"
kind = "oak"
at = "ash"
height_m = 5
crown_width_m = 3
)");
  ASSERT_FALSE(garden.has_value());
  EXPECT_EQ(garden.error().code, ErrorCode::kNoAnswer);
  EXPECT_EQ(garden.error().where, "garden.toml:13:1");
  EXPECT_NE(garden.error().message.find("ash"), std::string::npos);
  EXPECT_FALSE(garden.error().hint.empty());
}

TEST(PointsThatChangesPutAtEachOther, AreNoAnswer) {
  const auto garden = resolved(R"([[point]]
id = "a"
at = [0, 0]
[[point]]
id = "b"
at = "a"
[[change]]
thing = "a"
at = "b"
)");
  ASSERT_FALSE(garden.has_value());
  EXPECT_EQ(garden.error().code, ErrorCode::kNoAnswer);
}

TEST(AChangedPlace, TakesTheOutlinesPlace) {
  const auto garden = resolved(R"([[bed]]
id = "b"
outline = [[0, 0], [1, 0], [1, 1]]
[[change]]
thing = "b"
at = [10, 10]
size = [2, 4]
[[plant]]
id = "p"
crop = "pea"
outline = [[0, 5], [1, 5], [1, 6]]
[[change]]
thing = "p"
at = [20, 20]
[[plant]]
id = "q"
crop = "pea"
row = [[0, 5], [1, 5]]
count = 3
[[change]]
thing = "q"
outline = [[30, 30], [33, 30], [33, 33]]
)");
  ASSERT_TRUE(garden.has_value()) << garden.error().message;
  ASSERT_EQ(garden->beds[0].outline.size(), 4u);
  expect_place(garden->beds[0].at, 10, 10);
  expect_place(garden->plants[0].stems.at(0), 20, 20);
  ASSERT_EQ(garden->plants[1].stems.size(), 1u);
  expect_place(garden->plants[1].stems[0], 32, 31);
}

TEST(AChangedHighSide, TakesTheRidgesPlace) {
  const auto garden = resolved(R"([[building]]
id = "b"
outline = [[0, 0], [4, 0], [4, 3]]
eaves_m = 2
ridge_m = 3
roof = "gable"
ridge_deg = 90
[[change]]
thing = "b"
roof = "mono"
high_side = "south"
)");
  ASSERT_TRUE(garden.has_value()) << garden.error().message;
  EXPECT_FALSE(garden->buildings[0].ridge_along.has_value());
  EXPECT_NEAR(in_degrees(garden->buildings[0].high_side.value()), 180, 1e-9);
}

}  // namespace
}  // namespace spadework::document
