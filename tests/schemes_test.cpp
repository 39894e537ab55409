// Schemes and changes, as the document's rules tell them.
#include <gtest/gtest.h>

#include <algorithm>

#include "tests/scenes.h"

namespace spadework::testing {
namespace {

const std::string kGarden = head(48, -4, "Europe/Paris") + R"(
[[tree]]
id = "medlar"
kind = "medlar"
at = [2, 9]
height_m = 5
crown_base_m = 1.7
crown_width_m = 4.6
[[bed]]
id = "old"
at = [0, 0]
size = [3, 1.2]
removed = true
[[bed]]
id = "new"
status = "proposed"
at = [4, 0]
size = [3, 1.2]
[[bed]]
id = "bold"
status = "proposed"
scheme = "wild"
at = [8, 0]
size = [3, 1.2]
[[building]]
id = "shed"
outline = [[12, 0], [14, 0], [14, 2], [12, 2]]
eaves_m = 2
[[change]]
thing = "medlar"
crown_base_m = 2.3
[[change]]
thing = "medlar"
scheme = "wild"
at = [3, 9]
[[change]]
thing = "shed"
scheme = "wild"
removed = true
[[scheme]]
id = "wild"
)";

std::vector<std::string> beds_of(const garden::Garden& garden) {
  std::vector<std::string> ids;
  for (const garden::Bed& bed : garden.beds) ids.push_back(bed.id);
  return ids;
}
using Ids = std::vector<std::string>;

TEST(Scheme, FoundIsEveryExistingEntryWithoutChanges) {
  const garden::Garden found = garden_of(kGarden, "found");
  EXPECT_EQ(beds_of(found), Ids{"old"});
  EXPECT_DOUBLE_EQ(in_metres(*found.trees[0].crown_base), 1.7);
  EXPECT_EQ(found.buildings.size(), 1u);
  EXPECT_EQ(found.trees[0].mark, garden::Mark::kExisting);
}

TEST(Scheme, ProposedIsExistingLessRemovedPlusProposedWithChanges) {
  const garden::Garden proposed = garden_of(kGarden, "proposed");
  EXPECT_EQ(beds_of(proposed), Ids{"new"});
  EXPECT_DOUBLE_EQ(in_metres(*proposed.trees[0].crown_base), 2.3);
  EXPECT_DOUBLE_EQ(proposed.trees[0].at.x, 2);
  EXPECT_EQ(proposed.trees[0].mark, garden::Mark::kChanged);
  EXPECT_EQ(proposed.beds[0].mark, garden::Mark::kProposed);
  EXPECT_EQ(proposed.buildings.size(), 1u);
}

TEST(Scheme, ANamedOneHasItsOwnEntriesAndChangesBesideTheProposals) {
  const garden::Garden wild = garden_of(kGarden, "wild");
  EXPECT_EQ(beds_of(wild), (Ids{"new", "bold"}));
  EXPECT_DOUBLE_EQ(in_metres(*wild.trees[0].crown_base), 2.3);
  EXPECT_DOUBLE_EQ(wild.trees[0].at.x, 3);
  EXPECT_TRUE(wild.buildings.empty());
}

TEST(Scheme, AnUnknownNameIsWrongUseWithTheNearest) {
  const auto none = garden::resolve(draft_of(kGarden), "wilde");
  ASSERT_FALSE(none);
  EXPECT_EQ(none.error().code, ErrorCode::kWrongUse);
  EXPECT_NE(none.error().hint.find("wild"), std::string::npos);
}

TEST(Change, OfALevelTakesTheOtherWayOfSayingItAway) {
  const std::string text = head(48, 0, "UTC") + R"(
[[bed]]
id = "a"
at = [0, 0]
size = [3, 1.2]
level_m = 0.4
[[change]]
thing = "a"
level = "auto"
)";
  EXPECT_TRUE(garden_of(text, "found").beds[0].level.has_value());
  EXPECT_FALSE(garden_of(text, "proposed").beds[0].level.has_value());
}

TEST(Guess, StaysWithTheThingThatItIsOf) {
  const garden::Garden garden = garden_of(head(48, 0, "UTC") + R"(
[[object]]
id = "oil-tank"
outline = [[0, 0], [1, 0], [1, 1], [0, 1]]
height_m = 1.5
what = "oil tank"
guessed = ["height_m"]
)");
  ASSERT_EQ(garden.objects.size(), 1u);
  EXPECT_EQ(garden.objects[0].guessed, Ids{"height_m"});
  const Trace trace = garden::figure_trace(garden, garden.entry_of(garden.objects[0]), "height_m");
  EXPECT_EQ(trace.standing, Standing::kGuessed);
  EXPECT_DOUBLE_EQ(trace.number, 1.5);
  EXPECT_EQ(trace.where, "test.toml:13:1");
}

TEST(Boundary, FourSidesAndADiagonalGiveTheOutline) {
  // A 3-4-5 rectangle: closed form.
  const garden::Garden garden = garden_of(head(48, 0, "UTC") + R"(
[boundary]
sides_m = [8, 6, 8, 6]
diagonal_m = 10
)");
  ASSERT_EQ(garden.boundary.size(), 4u);
  EXPECT_NEAR(geometry::area(garden.boundary), 48, 1e-9);
  EXPECT_NEAR(geometry::length(garden.boundary[0] - garden.boundary[2]), 10, 1e-9);
}

}  // namespace
}  // namespace spadework::testing
