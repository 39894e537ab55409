#include "document/rename.h"

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "base/random.h"
#include "document/reading.h"
#include "document/test_support.h"

namespace spadework::document {
namespace {

const std::string kText = std::string(kHead) + R"(
[survey]
fixed = { nail = [0, 0], post = [9, 0] }
ties = [["peg-2", "peg", 3], ["peg-2", "nail", 4]]
diagonals = [["peg", "post", 5]]
offsets = [{ point = "stake", from = "peg", to = "post", along_m = 2, off_m = 1 }]
levels = [{ point = "peg", back_m = 1.2 }, { point = "turn", fore_m = 1.1 }]
benchmark = { point = "peg" }

[[point]]
id = "peg"
at = [3, 4]

[[tree]]
id = "medlar"                       # the medlar
kind = "medlar"
at = "peg"
height_m = "17 ft"
crown_width_m = 4
note = "medlar"

[[bed]]
id = "low"
outline = [[0, 0], "peg", [2, 1]]

[[bed]]
id = "high"
at = [5, 5]
size = [3, 1.2]
level_with = "low"

[[cover]]
id = "mesh"
kind = "mesh"
over = ["low", 'high']
from = "03-01"

[[cover]]
id = "net"
kind = "net"
over = "low"

[[seat]]
id = "bench"
at = [1, 1]
facing = "peg"

[[view]]
from = "bench"
thing = "medlar"

[[hide]]
from = ["bench"]
to = "peg"

[[want]]
crop = "pea"
amount = "some"

[[stand]]
bed = "low"
from = 0
to = 3
crop = "pea"
start = 2027-04-01
end = 2027-07-01

[[task]]
id = "prune"
after = "low"

[[task]]
id = "feed"
after = ["prune", "mulch"]

[[scheme]]
id = "other"

[[change]]
thing = "medlar"
crown_base_m = 2

[[change]]
thing = "high"
level_with = "low"
scheme = "other"
)";

std::string renamed(const std::string& text, const std::string& id, const std::string& name) {
  const auto draft = read_test(text).draft;
  const auto done = rename(draft, id, name);
  EXPECT_TRUE(done.has_value()) << done.error().message;
  const auto out = patch(text, done->edits);
  EXPECT_TRUE(out.has_value()) << out.error().message;
  const auto read = read_test(*out);
  EXPECT_TRUE(read.problems.empty()) << problems_text(read);
  return *out;
}

/// The text with each of some pieces replaced where it stands first.
std::string with(std::string text, const std::vector<std::pair<std::string, std::string>>& all) {
  for (const auto& [from, to] : all) {
    const std::size_t at = text.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    text.replace(at, from.size(), to);
  }
  return text;
}

TEST(Rename, ReachesTheThingItsViewsAndItsChangesOnly) {
  EXPECT_EQ(
      renamed(kText, "medlar", "  Old Medlar! "),
      with(kText, {{"id = \"medlar\"", "id = \"old-medlar\""},
                   {"\nthing = \"medlar\"\n\n[[hide]]", "\nthing = \"old-medlar\"\n\n[[hide]]"},
                   {"[[change]]\nthing = \"medlar\"", "[[change]]\nthing = \"old-medlar\""}}));
}

TEST(Rename, ReachesListsChangesAndTheCroppingPlan) {
  EXPECT_EQ(
      renamed(kText, "low", "lower"),
      with(kText, {{"id = \"low\"", "id = \"lower\""},
                   {"level_with = \"low\"\n\n[[cover]]", "level_with = \"lower\"\n\n[[cover]]"},
                   {"over = [\"low\"", "over = [\"lower\""},
                   {"over = \"low\"", "over = \"lower\""},
                   {"bed = \"low\"", "bed = \"lower\""},
                   {"level_with = \"low\"\nscheme", "level_with = \"lower\"\nscheme"}}));
}

TEST(Rename, OfAPointReachesPlacesOutlinesAndTheSurvey) {
  const std::string text = renamed(kText, "peg", "stone");
  EXPECT_EQ(text.find("\"peg\""), std::string::npos) << text;
  EXPECT_NE(text.find("[\"peg-2\", \"stone\", 3]"), std::string::npos);
  EXPECT_NE(text.find("outline = [[0, 0], \"stone\", [2, 1]]"), std::string::npos);
  EXPECT_EQ(renamed(text, "stone", "peg"), kText);
}

TEST(Rename, OfATaskReachesThoseThatComeAfterIt) {
  EXPECT_EQ(renamed(kText, "prune", "shape"),
            with(kText, {{"id = \"prune\"", "id = \"shape\""}, {"[\"prune\"", "[\"shape\""}}));
}

TEST(Rename, RefusesWhatCannotBeAName) {
  const auto draft = read_test(kText).draft;
  const auto code = [&](const char* id, std::string_view name) {
    const auto done = rename(draft, id, name);
    return done ? ErrorCode::kNoAnswer : done.error().code;
  };
  EXPECT_EQ(code("medlar", "bench"), ErrorCode::kRepeatedId);
  EXPECT_EQ(code("medlar", "Nail"), ErrorCode::kRepeatedId);
  EXPECT_EQ(code("medlar", "peg 2"), ErrorCode::kRepeatedId);
  EXPECT_EQ(code("medlar", "stake"), ErrorCode::kRepeatedId);
  EXPECT_EQ(code("medlar", "other"), ErrorCode::kRepeatedId);
  EXPECT_EQ(code("medlar", "found"), ErrorCode::kRepeatedId);
  EXPECT_EQ(code("medlar", " –! "), ErrorCode::kBadId);
  EXPECT_EQ(code("medlar", std::string(41, 'a')), ErrorCode::kBadId);
  EXPECT_EQ(code("nobody", "somebody"), ErrorCode::kUnknownId);
  EXPECT_EQ(code("other", "another"), ErrorCode::kUnknownId);
  EXPECT_EQ(rename(draft, "medlar", "bench").error().hint, "“bench-2” is free.");
  EXPECT_TRUE(rename(draft, "medlar", "Medlar")->edits.empty());
}

/// What a draft means, each entry a line; words that are `from` are written as `to`.
std::string meaning(const Value& value, const std::string& from, const std::string& to) {
  if (const std::string* text = value.text()) return "\"" + (*text == from ? to : *text) + "\"";
  std::string out;
  if (const List* list = value.list()) {
    for (const Value& item : *list) out += meaning(item, from, to) + ", ";
    return "[" + out + "]";
  }
  if (const Record* record = value.record()) {
    for (const Field& field : *record)
      out += field.key + " = " + meaning(field.value, from, to) + ", ";
    return "{" + out + "}";
  }
  if (const double* number = value.number()) return toml_number(*number);
  if (const bool* yes = value.yes_no()) return *yes ? "true" : "false";
  return iso_date(*value.date());
}
std::string meaning(const garden::Draft& draft, const std::string& from, const std::string& to) {
  // Words of the catalogue and free text that happen to be the same are no names.
  const std::set<std::string> words = {"kind", "crop", "what", "note", "material", "treatment"};
  std::string out;
  for (const Entry& entry : draft.entries) {
    out += entry.table + ":";
    for (const Field& field : entry.fields) {
      const bool is_word = words.count(field.key) > 0;
      out += " " + field.key + " = " + meaning(field.value, is_word ? "" : from, to);
    }
    out += "\n";
  }
  return out;
}

TEST(Rename, OfAnyThingLeavesEveryExampleMeaningTheSame) {
  constexpr int kRounds = 60;
  const KnownWords known = shipped_words();
  Random random(17);
  int names_elsewhere = 0;
  for (const auto& path : example_gardens()) {
    const std::string first = file_text(path.string());
    std::string text = first;
    std::vector<std::pair<std::string, std::string>> steps;
    for (int round = 0; round < kRounds; ++round) {
      const auto draft = read_document(text, "a.toml", known).draft;
      std::vector<std::string> ids;
      for (const Entry& entry : draft.entries)
        if (garden::find_table(entry.table)->thing && !entry.id.empty()) ids.push_back(entry.id);
      const std::string id =
          ids[static_cast<std::size_t>(random.below(static_cast<int>(ids.size())))];
      const std::string name = "name-" + std::to_string(round);
      const auto done = rename(draft, id, name);
      ASSERT_TRUE(done.has_value()) << done.error().message;
      names_elsewhere += done->edits.size() > 1 ? 1 : 0;
      const auto next = patch(text, done->edits);
      ASSERT_TRUE(next.has_value()) << next.error().message;
      const auto read = read_document(*next, "a.toml", known);
      ASSERT_TRUE(read.problems.empty()) << id << "\n" << problems_text(read);
      ASSERT_EQ(meaning(read.draft, "", ""), meaning(draft, id, name)) << id;
      text = *next;
      steps.emplace_back(id, name);
    }
    for (auto step = steps.rbegin(); step != steps.rend(); ++step) {
      const auto draft = read_document(text, "a.toml", known).draft;
      const auto done = rename(draft, step->second, step->first);
      ASSERT_TRUE(done.has_value()) << done.error().message;
      text = patch(text, done->edits).value();
    }
    EXPECT_EQ(text, first);
  }
  EXPECT_GT(names_elsewhere, 20);
}

}  // namespace
}  // namespace spadework::document
