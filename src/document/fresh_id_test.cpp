// Ids made of names as people write them.
#include "document/fresh_id.h"

#include <gtest/gtest.h>

#include "document/folded.h"
#include "document/limits.h"
#include "document/reading.h"
#include "document/test_support.h"

namespace spadework::document {
namespace {

TEST(AnId, HasTheLettersOfItsNameWithoutTheirMarks) {
  const auto draft = read_test(std::string(kHead)).draft;
  const auto id = [&](std::string_view name) { return fresh_id(draft, name); };
  EXPECT_EQ(id("Süd-Beete & Teich"), "sud-beete-teich");
  EXPECT_EQ(id("Grandmother's Rosenbeet Süd"), "grandmothers-rosenbeet-sud");
  EXPECT_EQ(id("Grandmother’s bed"), "grandmothers-bed");
  EXPECT_EQ(id("S\u0075\u0308d"), "sud");  // a letter and a mark by itself
  EXPECT_EQ(id("Große Wiese"), "grosse-wiese");
  EXPECT_EQ(id("Æble, cœur, Ørsted, Łąka, Åker"), "aeble-coeur-orsted-laka-aker");
  EXPECT_EQ(id("Þórr ÿ ĳs ŉ ſ × ÷ ŸŽ"), "thorr-y-ijs-n-s-yz");
  EXPECT_EQ(id("Χλόη 3"), "3");
  EXPECT_EQ(id("Χλόη"), "");
  EXPECT_EQ(id("\xC3"), "");
}

TEST(AnId, HasEveryLetterOfTheTableInItsPlace) {
  // The first and the last letters of runs in both blocks.
  for (const auto& [letters, plain] : {std::pair{"ÀÅàå", "aaaa"},
                                       {"ÇÈËçèë", "ceecee"},
                                       {"ÌÏìï", "iiii"},
                                       {"ÐÑðñ", "dndn"},
                                       {"ÒÖòöØø", "oooooo"},
                                       {"ÙÜùüÝý", "uuuuyy"},
                                       {"ĀąĆčĎđ", "aaccdd"},
                                       {"ĒěĜģĤħ", "eegghh"},
                                       {"ĨıĲĳĴĵ", "iiijijjj"},
                                       {"ĶĸĹłŃŋ", "kkllnn"},
                                       {"ŌőŒœŔř", "oooeoerr"},
                                       {"ŚšŢŧŨų", "ssttuu"},
                                       {"ŴŵŶŸŹžſ", "wwyyzzs"}})
    EXPECT_EQ(folded(letters), plain) << letters;
}

TEST(AnId, LeavesRoomForANumber) {
  const std::string text =
      std::string(kHead) + "[[scheme]]\nid = \"" + std::string(36, 'a') + "\"\n";
  const std::string id = fresh_id(read_test(text).draft, std::string(50, 'a'));
  EXPECT_EQ(id, std::string(36, 'a') + "-2");
  EXPECT_TRUE(is_id(id));
  // Two letters come of one: still no longer than an id can be.
  std::string many;
  for (int i = 0; i < 30; ++i) many += "ß";
  EXPECT_TRUE(is_id(fresh_id(read_test(text).draft, many)));
}

}  // namespace
}  // namespace spadework::document
