// Schemes made, merged into the proposal, dropped.
#include "document/scheme_edits.h"

#include <gtest/gtest.h>

#include "document/rename.h"
#include "document/test_support.h"
#include "document/thing_edits.h"
#include "garden/garden.h"

namespace spadework::document {
namespace {

const std::string kText = std::string(kHead) + R"(
[[tree]]
id = "medlar"
kind = "medlar"
at = [3, 4]
height_m = "17 ft"
crown_width_m = 4

[[tree]]
id = "plum"
kind = "medlar"
at = [9, 4]
height_m = 4
crown_width_m = 3

[[bed]]
id = "only-low"
at = [5, 5]
size = [3, 1.2]
status = "proposed"
scheme = "low"

[[bed]]
id = "for-all"
at = [5, 9]
size = [3, 1.2]
status = "proposed"

[[scheme]]
id = "low"

[[scheme]]
id = "other"

[[change]]
thing = "medlar"
scheme = "low"
height_m = 3     # cut right back
at = [4, 4]

[[change]]
thing = "medlar"
scheme = "other"
height_m = 4.5

[[change]]
thing = "medlar"
height_m = 5
crown_base_m = 2

[[change]]
thing = "plum"
scheme = "low"
removed = true
)";

/// A scheme's things with their figures, but for which scheme they belong to.
std::string things_of(const std::string& text, const std::string& scheme) {
  const auto garden = garden::resolve(read_test(text).draft, scheme);
  EXPECT_TRUE(garden.has_value());
  std::vector<std::string> lines;
  for (const garden::Entry& entry : garden->entries) {
    for (const garden::Field& field : entry.fields) {
      if (field.key != "scheme")
        lines.push_back(entry.id + " " + field.key + " " + toml_value(field.value) + "\n");
    }
  }
  std::sort(lines.begin(), lines.end());
  std::string all;
  for (const std::string& line : lines) all += line;
  return all;
}

TEST(SchemeEdits, MakeASchemeThatIsTheProposal) {
  const auto draft = read_test(kText).draft;
  const auto made = make_scheme(draft, "Hedge low!");
  ASSERT_TRUE(made.has_value());
  EXPECT_EQ(made->id, "hedge-low");
  const std::string text = after(kText, std::vector<Edit>{made->edit});
  EXPECT_EQ(things_of(text, "hedge-low"), things_of(kText, "proposed"));
  EXPECT_EQ(make_scheme(draft, "low")->id, "low-2");
  EXPECT_EQ(make_scheme(draft, "found")->id, "found-2");
  EXPECT_EQ(make_scheme(draft, "medlar")->id, "medlar-2");
  EXPECT_FALSE(make_scheme(draft, " ?! ").has_value());
}

TEST(SchemeEdits, MergeWhatASchemeIsIntoTheProposal) {
  const std::string text = after(kText, merge_scheme(read_test(kText).draft, "low"));
  EXPECT_EQ(things_of(text, "proposed"), things_of(kText, "low"));
  EXPECT_EQ(things_of(text, "found"), things_of(kText, "found"));
  EXPECT_EQ(garden::scheme_names(read_test(text).draft),
            (std::vector<std::string>{"found", "proposed", "other"}));
}

TEST(SchemeEdits, DropASchemeWithAllThatIsItsOwn) {
  const std::string text = after(kText, drop_scheme(read_test(kText).draft, "low"));
  for (const char* scheme : {"found", "proposed", "other"})
    EXPECT_EQ(things_of(text, scheme), things_of(kText, scheme)) << scheme;
  EXPECT_EQ(text.find("low"), std::string::npos);
}

TEST(SchemeEdits, GiveASchemeAnotherName) {
  const auto draft = read_test(kText).draft;
  const auto named = rename_scheme(draft, "low", "Hecke früh");
  ASSERT_TRUE(named.has_value()) << named.error().message;
  EXPECT_EQ(named->id, "hecke-fruh");
  const std::string text = after(kText, named->edits);
  EXPECT_EQ(garden::scheme_names(read_test(text).draft),
            (std::vector<std::string>{"found", "proposed", "hecke-fruh", "other"}));
  EXPECT_EQ(things_of(text, "hecke-fruh"), things_of(kText, "low"));
  for (const char* scheme : {"found", "proposed", "other"})
    EXPECT_EQ(things_of(text, scheme), things_of(kText, scheme)) << scheme;
  EXPECT_NE(text.find("title = \"Hecke früh\""), std::string::npos);
  // Back again: a name that is an id needs no title.
  EXPECT_EQ(after(text, rename_scheme(read_test(text).draft, "hecke-fruh", "low")->edits), kText);
  EXPECT_TRUE(rename_scheme(draft, "low", "low")->edits.empty());
  EXPECT_EQ(rename_scheme(draft, "low", "Other").error().code, ErrorCode::kRepeatedId);
  EXPECT_EQ(rename_scheme(draft, "low", "medlar").error().code, ErrorCode::kRepeatedId);
  EXPECT_EQ(rename_scheme(draft, "low", "?!").error().code, ErrorCode::kBadId);
  for (const char* none : {"found", "proposed", "medlar", ""})
    EXPECT_EQ(rename_scheme(draft, none, "new").error().code, ErrorCode::kUnknownId) << none;
}

TEST(SchemeEdits, RefuseTheProposalAndWhatIsNotThere) {
  const auto draft = read_test(kText).draft;
  for (const char* scheme : {"proposed", "found", "nowhere", ""}) {
    EXPECT_EQ(merge_scheme(draft, scheme).error().code, ErrorCode::kUnknownId) << scheme;
    EXPECT_EQ(drop_scheme(draft, scheme).error().code, ErrorCode::kUnknownId) << scheme;
  }
}

}  // namespace
}  // namespace spadework::document
