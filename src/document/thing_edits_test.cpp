#include "document/thing_edits.h"

#include <gtest/gtest.h>

#include "document/test_support.h"
#include "garden/garden.h"

namespace spadework::document {
namespace {

const std::string kText = R"(format = 1
[garden]
title = "Test"
latitude_deg = 48
longitude_deg = 0
time_zone = "Europe/Paris"

[[tree]]
id = "medlar"
kind = "medlar"
at = [3, 4]      # by the shed
height_m = "17 ft"
crown_width_m = 4

[[bed]]
id = "old-bed"
outline = [[0, 0], [2, 0], [2, 1], [0, 1]]

[[bed]]
id = "new-bed"
at = [5, 5]
size = [3, 1.2]
status = "proposed"

[[scheme]]
id = "other"

[[change]]
thing = "old-bed"
freeboard_m = 0.05
)";

std::string height_in(const std::string& text, const std::string& scheme) {
  const auto garden = garden::resolve(read_test(text).draft, scheme);
  return toml_number(in_metres(garden->trees.at(0).height));
}

TEST(ThingEdits, AlterTheEntryItselfAsFound) {
  const auto draft = read_test(kText).draft;
  const std::string text = after(kText, set_keys({draft, "found", "medlar"}, {{"height_m", "6"}}));
  EXPECT_NE(text.find("height_m = 6\n"), std::string::npos);
  EXPECT_EQ(height_in(text, "found"), "6");
  EXPECT_EQ(height_in(text, "proposed"), "6");
}

TEST(ThingEdits, MakeAChangeOfWhatExistsInTheProposal) {
  const auto draft = read_test(kText).draft;
  const std::string text =
      after(kText, set_keys({draft, "proposed", "medlar"}, {{"height_m", "4"}}));
  EXPECT_NE(text.find("height_m = \"17 ft\""), std::string::npos);
  EXPECT_EQ(height_in(text, "proposed"), "4");
  EXPECT_NE(height_in(text, "found"), "4");
  // Once more alters that change; the entry's own value ends it.
  const auto changed = read_test(text).draft;
  const std::string again =
      after(text, set_keys({changed, "proposed", "medlar"}, {{"height_m", "4.5"}}));
  EXPECT_EQ(height_in(again, "proposed"), "4.5");
  EXPECT_EQ(again.size(), text.size() + 2);
  EXPECT_EQ(after(again, put_back({read_test(again).draft, "proposed", "medlar"})), kText);
}

TEST(ThingEdits, EndAChangeThatSaysNothingAnyMore) {
  const auto draft = read_test(kText).draft;
  const std::string text =
      after(kText, set_keys({draft, "proposed", "medlar"}, {{"at", "[4, 4]"}}));
  const auto changed = read_test(text).draft;
  EXPECT_EQ(after(text, set_keys({changed, "proposed", "medlar"}, {{"at", "[3, 4]"}})), kText);
}

TEST(ThingEdits, ChangeForOneSchemeWhatStandsInAll) {
  const auto draft = read_test(kText).draft;
  const std::string text = after(kText, set_keys({draft, "other", "medlar"}, {{"height_m", "3"}}));
  EXPECT_EQ(height_in(text, "other"), "3");
  EXPECT_NE(height_in(text, "proposed"), "3");
  const std::string bed = after(kText, move_by({draft, "other", "new-bed"}, {1, 0}));
  const auto other = garden::resolve(read_test(bed).draft, "other");
  const auto proposed = garden::resolve(read_test(bed).draft, "proposed");
  EXPECT_EQ(other->beds[1].at, (geometry::Vec2{6, 5}));
  EXPECT_EQ(proposed->beds[1].at, (geometry::Vec2{5, 5}));
}

TEST(ThingEdits, MoveWhatIsProposedAndWhatExists) {
  const auto draft = read_test(kText).draft;
  const std::string proposed = after(kText, move_by({draft, "proposed", "new-bed"}, {0.333, -1}));
  EXPECT_NE(proposed.find("at = [5.333, 4]"), std::string::npos);
  EXPECT_EQ(proposed.find("thing = \"new-bed\""), std::string::npos);
  const std::string existing = after(kText, move_by({draft, "proposed", "old-bed"}, {1, 1}));
  EXPECT_NE(existing.find("freeboard_m = 0.05\noutline = [[1, 1], [3, 1], [3, 2], [1, 2]]"),
            std::string::npos)
      << existing;
  const std::string found = after(kText, move_by({draft, "found", "medlar"}, {-1, 0}));
  EXPECT_NE(found.find("at = [2, 4]      # by the shed"), std::string::npos);
}

TEST(ThingEdits, MoveByWhatIsAskedAndKeepFiguresAsTyped) {
  const std::string text = kText + R"(
[[object]]
id = "store"
outline = [["10 ft", "10 ft"], ["18 ft", "10 ft"], ["18 ft", "16 ft"], ["10 ft", "16 ft 6 in"]]
height_m = 2
)";
  const auto draft = read_test(text).draft;
  const std::string right = after(text, move_by({draft, "found", "store"}, {0.3048, 0}));
  EXPECT_NE(right.find("outline = [[\"11 ft\", \"10 ft\"], [\"19 ft\", \"10 ft\"], "
                       "[\"19 ft\", \"16 ft\"], [\"11 ft\", \"16 ft 6 in\"]]"),
            std::string::npos)
      << right;
  const auto moved = garden::resolve(read_test(right).draft, "found")->objects[0].outline;
  const auto stood = garden::resolve(draft, "found")->objects[0].outline;
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(moved[i].x, stood[i].x + 0.3048, 1e-9);
    EXPECT_EQ(moved[i].y, stood[i].y);
  }
  const std::string askew = after(text, move_by({draft, "found", "store"}, {0.107, 0}));
  EXPECT_NE(askew.find("[[\"10 ft 4.213 in\", \"10 ft\"]"), std::string::npos) << askew;
  const auto there = read_test(askew).draft;
  EXPECT_EQ(after(askew, move_by({there, "found", "store"}, {-0.107, 0})), text);
}

/// What each scheme has, as one text.
std::string in_all_schemes(const garden::Draft& draft) {
  std::string out;
  for (const std::string& scheme : garden::scheme_names(draft)) {
    const auto garden = garden::resolve(draft, scheme);
    EXPECT_TRUE(garden.has_value()) << garden.error().message;
    for (const garden::Entry& entry : garden->entries) {
      std::vector<std::string> fields;
      for (const garden::Field& field : entry.fields)
        fields.push_back(field.key + " = " + toml_value(field.value));
      std::sort(fields.begin(), fields.end());
      out += scheme + " " + entry.table + " " + entry.id;
      for (const std::string& field : fields) out += "\n  " + field;
      out += "\n";
    }
  }
  return out;
}

TEST(ThingEdits, MoveADraftAsTheyMoveItsText) {
  const geometry::Vec2 by{0.337, -0.21};
  int moves = 0;
  for (const auto& path : example_gardens()) {
    const std::string text = file_text(path.string());
    const auto draft = read_document(text, "garden.toml", shipped_words()).draft;
    const std::vector<std::string> schemes = garden::scheme_names(draft);
    for (const std::string& scheme : {schemes[0], schemes.back()}) {
      for (const garden::Entry& entry : draft.entries) {
        const ThingIn in{draft, scheme, entry.id};
        const auto edits = move_by(in, by);
        const auto moved = moved_by(in, by);
        ASSERT_EQ(edits.has_value(), moved.has_value()) << entry.id;
        if (!edits) continue;
        const auto written = patch(text, *edits);
        ASSERT_TRUE(written.has_value());
        const auto read = read_document(*written, "garden.toml", shipped_words());
        EXPECT_EQ(in_all_schemes(*moved), in_all_schemes(read.draft)) << scheme << entry.id;
        EXPECT_NE(in_all_schemes(*moved), in_all_schemes(draft)) << scheme << entry.id;
        // A second time it is the change that moves.
        const ThingIn once{read.draft, scheme, entry.id};
        const auto twice = patch(*written, *move_by(once, by));
        ASSERT_TRUE(twice.has_value()) << entry.id;
        EXPECT_EQ(in_all_schemes(*moved_by(once, by)),
                  in_all_schemes(read_document(*twice, "garden.toml", shipped_words()).draft))
            << scheme << entry.id;
        ++moves;
      }
    }
  }
  EXPECT_GT(moves, 100);
}

TEST(ThingEdits, TakeAwayAndPutBack) {
  const auto draft = read_test(kText).draft;
  const std::string gone = after(kText, take_away({draft, "proposed", "medlar"}));
  EXPECT_TRUE(garden::resolve(read_test(gone).draft, "proposed")->trees.empty());
  EXPECT_EQ(garden::resolve(read_test(gone).draft, "found")->trees.size(), 1u);
  EXPECT_EQ(after(gone, put_back({read_test(gone).draft, "proposed", "medlar"})), kText);
  const std::string never = after(kText, take_away({draft, "found", "old-bed"}));
  EXPECT_EQ(never.find("old-bed"), std::string::npos);
  const std::string no_new = after(kText, take_away({draft, "proposed", "new-bed"}));
  EXPECT_EQ(no_new.find("new-bed"), std::string::npos);
}

// What was changed before it was taken away comes back with it.
TEST(ThingEdits, PutBackWhatWasTakenAwayAsItWasInTheProposal) {
  const auto draft = read_test(kText).draft;
  const std::string gone = after(kText, take_away({draft, "proposed", "old-bed"}));
  const std::string back = after(gone, put_back({read_test(gone).draft, "proposed", "old-bed"}));
  EXPECT_EQ(back, kText);
  const std::string as_found =
      after(back, put_back({read_test(back).draft, "proposed", "old-bed"}));
  EXPECT_EQ(as_found.find("[[change]]"), std::string::npos);
}

TEST(ThingEdits, KeepABedThatOthersStandIn) {
  const std::string text = kText + R"(
[[stand]]
id = "sunflowers"
bed = "old-bed"
from = 0
to = 1
start = 2027-05-01
end = 2027-09-01
crop = "pea"
)";
  const auto read = read_test(text);
  ASSERT_TRUE(read.problems.empty()) << read.problems[0].message;
  const auto refused = take_away({read.draft, "found", "old-bed"});
  ASSERT_FALSE(refused.has_value());
  EXPECT_EQ(refused.error().message, "sunflowers stands in old-bed.");
  EXPECT_EQ(refused.error().hint, "Take it away first, or move it.");
  // In the proposal it stays in the document, marked as removed.
  EXPECT_TRUE(take_away({read.draft, "proposed", "old-bed"}).has_value());
}

TEST(ThingEdits, KeepAThingThatOthersReferTo) {
  const std::string text = kText + R"(
[[bed]]
id = "low-bed"
at = [7, 7]
size = [1, 1]
level_with = "old-bed"
)";
  const auto read = read_test(text);
  ASSERT_TRUE(read.problems.empty()) << read.problems[0].message;
  const auto refused = take_away({read.draft, "found", "old-bed"});
  ASSERT_FALSE(refused.has_value());
  EXPECT_EQ(refused.error().message, "low-bed refers to old-bed.");
  EXPECT_EQ(refused.error().hint, "Take it away first, or let it do without old-bed.");
}

TEST(ThingEdits, AddAThingToTheSchemeThatIsShown) {
  const auto added = [](const std::string& text, const std::string& scheme,
                        const std::string& called) {
    const auto draft = read_test(text).draft;
    const auto thing =
        add_thing(draft, scheme, {"bed", called, {{"at", "[8, 8]"}, {"size", "[1.2, 3.6]"}}});
    EXPECT_TRUE(thing.has_value());
    return std::pair(thing->id, after(text, std::vector<Edit>{thing->edit}));
  };
  const auto beds = [](const std::string& text, const std::string& scheme) {
    return garden::resolve(read_test(text).draft, scheme)->beds.size();
  };
  const auto [found_id, found] = added(kText, "found", "");
  EXPECT_EQ(found_id, "bed");
  EXPECT_EQ(beds(found, "found"), beds(kText, "found") + 1);
  EXPECT_EQ(beds(found, "proposed"), beds(kText, "proposed") + 1);
  const auto [id, proposed] = added(found, "proposed", "");
  EXPECT_EQ(id, "bed-2");
  EXPECT_EQ(beds(proposed, "found"), beds(found, "found"));
  EXPECT_EQ(beds(proposed, "other"), beds(found, "other") + 1);
  const auto [named_id, named] = added(proposed, "other", "Medlar’s bed!");
  EXPECT_EQ(named_id, "medlars-bed");
  EXPECT_EQ(beds(named, "other"), beds(proposed, "other") + 1);
  EXPECT_EQ(beds(named, "proposed"), beds(proposed, "proposed"));
  EXPECT_FALSE(add_thing(read_test(kText).draft, "found", {"climate", "", {}}).has_value());
}

TEST(ThingEdits, SayWhatCannotBe) {
  const auto draft = read_test(kText).draft;
  EXPECT_EQ(set_keys({draft, "proposed", "nobody"}, {{"height_m", "1"}}).error().code,
            ErrorCode::kUnknownId);
  EXPECT_EQ(set_keys({draft, "proposed", "medlar"}, {{"height_m", {}}}).error().code,
            ErrorCode::kWrongUse);
  EXPECT_EQ(put_back({draft, "proposed", "medlar"}).error().code, ErrorCode::kWrongUse);
  EXPECT_EQ(take_away({draft, "other", "medlar"}).error().code, ErrorCode::kWrongUse);
  EXPECT_EQ(move_by({draft, "found", "new-bed"}, {1, 1}).error().code, ErrorCode::kUnknownId);
}

}  // namespace
}  // namespace spadework::document
