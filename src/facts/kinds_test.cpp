#include "facts/kinds.h"

#include <gtest/gtest.h>

namespace spadework::facts {
namespace {

struct Fruit {
  std::string id;
  std::vector<std::string> also;
};

Kinds<Fruit> fruits() {
  auto made = Kinds<Fruit>::of({{"tomato", {}},
                                {"cherry", {"gean"}},
                                {"chives", {}},
                                {"horse-chestnut", {"conker tree"}},
                                {"peach", {}},
                                {"cress", {}}},
                               "fruits.toml");
  EXPECT_TRUE(made.has_value());
  return *made;
}

TEST(KindsFind, TakesCapitalsSpacesAndHyphensAsAlike) {
  const auto kinds = fruits();
  for (const char* typed : {"horse-chestnut", "Horse chestnut", "HORSE_CHESTNUT", "horsechestnut",
                            "conker-tree", "Conker Tree"}) {
    ASSERT_NE(kinds.find(typed), nullptr) << typed;
    EXPECT_EQ(kinds.find(typed)->id, "horse-chestnut");
  }
}

TEST(KindsFind, TakesOneAndMany) {
  const auto kinds = fruits();
  const std::pair<const char*, const char*> plurals[] = {
      {"tomatoes", "tomato"}, {"Cherries", "cherry"}, {"horse chestnuts", "horse-chestnut"},
      {"peaches", "peach"},   {"chives", "chives"},   {"chive", "chives"}};
  for (const auto& [typed, id] : plurals) {
    ASSERT_NE(kinds.find(typed), nullptr) << typed;
    EXPECT_EQ(kinds.find(typed)->id, id);
  }
}

TEST(KindsFind, KnowsNothingElse) {
  const auto kinds = fruits();
  for (const char* typed : {"", "s", "-", "tomat", "cres", "apple", "tomatosauce"}) {
    EXPECT_EQ(kinds.find(typed), nullptr) << typed;
  }
}

TEST(KindsNames, TellIdsInOrderAndThenTheOthers) {
  const std::vector<std::string> expected = {"cherry", "chives", "cress", "horse-chestnut",
                                             "peach",  "tomato", "gean",  "conker tree"};
  EXPECT_EQ(fruits().names(), expected);
}

TEST(Kinds, RefuseTwoKindsOfOneName) {
  const auto made = Kinds<Fruit>::of({{"gage", {"plum"}}, {"plum", {}}}, "fruits.toml");
  ASSERT_FALSE(made.has_value());
  EXPECT_EQ(made.error().code, ErrorCode::kRepeatedId);
  EXPECT_EQ(made.error().message, "\"plum\" names both gage and plum");
}

TEST(Kinds, RefuseANameGivenTwice) {
  const auto made = Kinds<Fruit>::of({{"crab-apple", {"Crabapple"}}}, "fruits.toml");
  ASSERT_FALSE(made.has_value());
  EXPECT_EQ(made.error().code, ErrorCode::kRepeatedId);
}

}  // namespace
}  // namespace spadework::facts
