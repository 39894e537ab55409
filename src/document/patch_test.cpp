// Edits of documents' texts, one by one.
#include "document/patch.h"

#include <gtest/gtest.h>

#include "document/test_support.h"

namespace spadework::document {
namespace {

const std::string kGarden = R"(# Ours since spring.
format = 1

[garden]
title = "Ker Avel"    # invented
latitude_deg = 48.41
longitude_deg = -4.36
time_zone = "Europe/Paris"

# The wall to the lane.
[[wall]]
id = "lane-wall"
line = [[0, 0], [11, 0]]
height_m = 1.40       # by tape
kind = "stone"

[[tree]]
id = "medlar"
kind = "medlar"
at = [2.0, 19.5]
height_m = "16 ft"
crown_width_m = 4.6
)";

std::string patched(const std::string& text, const std::vector<Edit>& edits) {
  const auto out = patch(text, edits);
  EXPECT_TRUE(out.has_value()) << (out ? "" : out.error().message + " | " + out.error().hint);
  return out.value_or("");
}
std::string replaced(std::string text, const std::string& what, const std::string& by) {
  const std::size_t at = text.find(what);
  EXPECT_NE(at, std::string::npos) << what;
  return at == std::string::npos ? text : text.replace(at, what.size(), by);
}
void expect_refused(const std::vector<Edit>& edits, ErrorCode code, std::string_view hint,
                    const std::string& text = kGarden) {
  const auto out = patch(text, edits);
  ASSERT_FALSE(out.has_value()) << *out;
  EXPECT_EQ(out.error().code, code) << out.error().message;
  EXPECT_NE((out.error().message + out.error().hint).find(hint), std::string::npos)
      << out.error().message << " | " << out.error().hint;
}

TEST(SettingAKey, ChangesItsValueAlone) {
  EXPECT_EQ(patched(kGarden, {SetKey{{"wall", "lane-wall"}, {"height_m"}, "1.8"}}),
            replaced(kGarden, "1.40 ", "1.8 "));
  EXPECT_EQ(patched(kGarden, {SetKey{{"", "medlar"}, {"height_m"}, "\"17 ft\""}}),
            replaced(kGarden, "\"16 ft\"", "\"17 ft\""));
  EXPECT_EQ(patched(kGarden, {SetKey{{"tree", "", 0}, {"at"}, "[2.5, 19.5]"}}),
            replaced(kGarden, "[2.0, 19.5]", "[2.5, 19.5]"));
  EXPECT_EQ(patched(kGarden, {SetKey{{"garden"}, {"title"}, "\"Other\""}}),
            replaced(kGarden, "\"Ker Avel\"", "\"Other\""));
}

TEST(SettingAKey, CanNameAPlaceWithinAList) {
  EXPECT_EQ(patched(kGarden, {SetKey{{"wall", "lane-wall"}, {"line", "1", "0"}, "12"}}),
            replaced(kGarden, "[11, 0]", "[12, 0]"));
}

TEST(SettingAKeyThatIsNotThere, AddsItAfterTheLast) {
  EXPECT_EQ(patched(kGarden, {SetKey{{"wall", "lane-wall"}, {"mine"}, "false"}}),
            replaced(kGarden, "kind = \"stone\"\n", "kind = \"stone\"\nmine = false\n"));
  EXPECT_EQ(patched(kGarden, {SetKey{{"tree", "medlar"}, {"mine"}, "false"}}),
            kGarden + "mine = false\n");
  EXPECT_EQ(patched(kGarden, {SetKey{{"garden"}, {"household"}, "4"}}),
            replaced(kGarden, "\"Europe/Paris\"\n", "\"Europe/Paris\"\nhousehold = 4\n"));
}

TEST(SettingAKeyOfATableThatIsNotThere, AddsTheTable) {
  const std::string out = patched(kGarden, {SetKey{{"ground"}, {"ph"}, "5.9"}});
  EXPECT_EQ(out, kGarden + "\n[ground]\nph = 5.9\n");
  const std::string crop = patched(kGarden, {SetKey{{"crop", "broad bean"}, {"row_m"}, "0.6"}});
  EXPECT_EQ(crop, kGarden + "\n[crop.\"broad bean\"]\nrow_m = 0.6\n");
}

TEST(AnInlineTable, IsEditedWhereItStands) {
  const std::string line = "boards = { height = \"225 mm\", courses = 2 }  # sawn\n";
  const std::string text = "[[bed]]\nid = \"a\"\n" + line;
  const EntryRef bed{"bed", "a"};
  EXPECT_EQ(patched(text, {SetKey{bed, {"boards", "courses"}, "3"}}),
            replaced(text, "courses = 2", "courses = 3"));
  EXPECT_EQ(patched(text, {SetKey{bed, {"boards", "thickness"}, "0.05"}}),
            replaced(text, "courses = 2", "courses = 2, thickness = 0.05"));
  EXPECT_EQ(patched(text, {RemoveKey{bed, {"boards", "height"}}}),
            replaced(text, "height = \"225 mm\", ", ""));
  EXPECT_EQ(patched(text, {RemoveKey{bed, {"boards", "courses"}}}),
            replaced(text, ", courses = 2", ""));
  EXPECT_EQ(patched(text, {RemoveKey{bed, {"boards"}}}), replaced(text, line, ""));
}

TEST(AListOfInlineTables, IsEditedWhereItStands) {
  const std::string text =
      "mix = 1\n[[bed]]\nid = \"a\"\nmix = [\n  { material = \"soil\", share = 0.6 },  # dug\n  { "
      "material = \"compost\", share = 0.4 },\n]\n";
  const EntryRef bed{"bed", "a"};
  EXPECT_EQ(patched(text, {SetKey{bed, {"mix", "1", "share"}, "0.3"}}),
            replaced(text, "0.4", "0.3"));
  EXPECT_EQ(patched(text, {RemoveKey{bed, {"mix", "1"}}}),
            replaced(text, "  { material = \"compost\", share = 0.4 },\n", ""));
}

TEST(EntriesInAnInlineList, AreAddedAndRemovedInIt) {
  const std::string text = "wall = [{ id = \"a\", height_m = 1 }, { id = \"b\" }] # all\n";
  EXPECT_EQ(patched(text, {AddEntry{"wall", {{"id", "\"c\""}, {"height_m", "2"}}}}),
            replaced(text, "{ id = \"b\" }", "{ id = \"b\" }, { id = \"c\", height_m = 2 }"));
  EXPECT_EQ(patched(text, {RemoveEntry{{"wall", "a"}}}),
            replaced(text, "{ id = \"a\", height_m = 1 }, ", ""));
  EXPECT_EQ(patched(text, {SetKey{{"wall", "b"}, {"height_m"}, "2"}}),
            replaced(text, "{ id = \"b\" }", "{ id = \"b\", height_m = 2 }"));
}

TEST(KeysWithDots, AreEditedInTheirForm) {
  const std::string text = "garden.title = \"A\"  # first\ngarden.household = 4\nformat = 1\n";
  EXPECT_EQ(patched(text, {SetKey{{"garden"}, {"household"}, "5"}}),
            replaced(text, "household = 4", "household = 5"));
  EXPECT_EQ(patched(text, {SetKey{{"garden"}, {"units"}, "\"metric\""}}),
            replaced(text, "household = 4\n", "household = 4\ngarden.units = \"metric\"\n"));
  EXPECT_EQ(patched(text, {RemoveKey{{"garden"}, {"household"}}}),
            replaced(text, "garden.household = 4\n", ""));
}

TEST(RemovingAKey, TakesItsLineAndKeepsTheRemarkAbove) {
  const std::string text = replaced(kGarden, "height_m = 1.40", "# It leans.\nheight_m = 1.40");
  EXPECT_EQ(patched(text, {RemoveKey{{"wall", "lane-wall"}, {"height_m"}}}),
            replaced(text, "height_m = 1.40       # by tape\n", ""));
}

TEST(RemovingAnEntry, TakesItsOwnRemarksAndLeavesTheOthers) {
  EXPECT_EQ(patched(kGarden, {RemoveEntry{{"wall", "lane-wall"}}}),
            replaced(kGarden,
                     "# The wall to the lane.\n[[wall]]\nid = \"lane-wall\"\nline = [[0, 0], [11, "
                     "0]]\nheight_m = 1.40       # by tape\nkind = \"stone\"\n\n",
                     ""));
}

TEST(AddingAnEntry, PutsItAfterTheLastOfItsKind) {
  const std::string out =
      patched(kGarden, {AddEntry{"wall", {{"id", "\"b\""}, {"height_m", "2"}}}});
  EXPECT_EQ(out, replaced(kGarden, "kind = \"stone\"\n",
                          "kind = \"stone\"\n\n[[wall]]\nid = \"b\"\nheight_m = 2\n"));
  EXPECT_EQ(patched(kGarden, {AddEntry{"point", {{"id", "\"p\""}, {"at", "[1, 2]"}}}}),
            kGarden + "\n[[point]]\nid = \"p\"\nat = [1, 2]\n");
  EXPECT_EQ(patched(kGarden, {AddEntry{"crop", {{"row_m", "0.6"}}, "pea"}}),
            kGarden + "\n[crop.pea]\nrow_m = 0.6\n");
}

TEST(AddingAndRemovingAnEntry, LeavesTheTextAsItWas) {
  for (const char* table : {"wall", "tree", "point", "ground"}) {
    const bool once = std::string(table) == "ground";
    const std::string more =
        patched(kGarden, {AddEntry{table, {{once ? "note" : "id", "\"new\""}}}});
    EXPECT_EQ(patched(more, {RemoveEntry{{table, once ? "" : "new"}}}), kGarden) << table;
  }
}

TEST(SeveralEdits, AreCarriedOutInTurn) {
  EXPECT_EQ(patched(kGarden,
                    {AddEntry{"point", {{"id", "\"p\""}, {"at", "[1, 2]"}}},
                     SetKey{{"point", "p"}, {"at"}, "[3, 4]"}, RemoveKey{{"garden"}, {"title"}}}),
            replaced(kGarden, "title = \"Ker Avel\"    # invented\n", "") +
                "\n[[point]]\nid = \"p\"\nat = [3, 4]\n");
  EXPECT_EQ(patched(kGarden, {}), kGarden);
}

TEST(ASecondEditThatFails, LeavesNothingDone) {
  expect_refused({SetKey{{"garden"}, {"title"}, "\"B\""}, RemoveEntry{{"wall", "lane-wal"}}},
                 ErrorCode::kUnknownId, "lane-wall");
}

TEST(LineEndsAndByteOrderMark, AreKept) {
  std::string crlf = "\xef\xbb\xbf";
  for (const char c : kGarden) crlf += c == '\n' ? std::string("\r\n") : std::string(1, c);
  EXPECT_EQ(patched(crlf, {SetKey{{"tree", "medlar"}, {"mine"}, "false"}}),
            crlf + "mine = false\r\n");
  EXPECT_EQ(patched(crlf, {SetKey{{"wall", "lane-wall"}, {"height_m"}, "1.8"}}),
            replaced(crlf, "1.40 ", "1.8 "));
}

TEST(ATextWithoutALastLineEnd, GetsOneBeforeWhatIsAdded) {
  const std::string text = "format = 1\n[garden]\ntitle = \"A\"";
  EXPECT_EQ(patched(text, {SetKey{{"garden"}, {"household"}, "4"}}).substr(0, text.size() + 15),
            text + "\nhousehold = 4");
}

TEST(AnUnknownEntry, IsToldWithTheNearest) {
  expect_refused({SetKey{{"tree", "medler"}, {"height_m"}, "5"}}, ErrorCode::kUnknownId,
                 "did you mean medlar?");
  expect_refused({RemoveEntry{{"wall", "medlar"}}}, ErrorCode::kUnknownId, "medlar");
  expect_refused({SetKey{{"", "nobody"}, {"height_m"}, "5"}}, ErrorCode::kUnknownId, "nobody");
  expect_refused({SetKey{{"wall", "", 1}, {"height_m"}, "5"}}, ErrorCode::kUnknownId, "1");
  expect_refused({SetKey{{"wal", "lane-wall"}, {"height_m"}, "5"}}, ErrorCode::kUnknownKey,
                 "did you mean wall?");
  expect_refused({AddEntry{"wal", {}}}, ErrorCode::kUnknownKey, "did you mean wall?");
  expect_refused({RemoveKey{{"wall", "lane-wall"}, {"mine"}}}, ErrorCode::kUnknownKey, "mine");
}

TEST(AnEditThatCannotBe, IsRefused) {
  const EntryRef wall{"wall", "lane-wall"};
  for (const char* value : {"", "1.4 m", "stone", "[1", "1\nmine = true", "1 # x", "1, b = 2",
                            "\"a", "{ a = }", "1,4"}) {
    expect_refused({SetKey{wall, {"height_m"}, value}}, ErrorCode::kSyntax, "");
  }
  expect_refused({SetKey{wall, {}, "1"}}, ErrorCode::kWrongUse, "key");
  expect_refused({RemoveKey{wall, {}}}, ErrorCode::kWrongUse, "key");
  expect_refused({SetKey{wall, {"kind", "x"}, "1"}}, ErrorCode::kWrongUse, "");
  expect_refused({AddEntry{"garden", {{"title", "\"B\""}}}}, ErrorCode::kConflict, "[garden]");
  expect_refused({AddEntry{"wall", {{"id", "\"b\""}, {"id", "\"c\""}}}}, ErrorCode::kConflict,
                 "id");
  expect_refused({SetKey{wall, {"height_m"}, "1"}}, ErrorCode::kSyntax, "", "format = \n");
}

TEST(ATextInToml, ReadsBackAsItself) {
  for (const std::string& text :
       {std::string("plain"), std::string("a \"b\" \\ c"), std::string("line\nend\r\ttab"),
        std::string("\x01\x1f\x7f"), std::string("Zoë 🌱"), std::string()}) {
    const std::string out = patched(kGarden, {SetKey{{"garden"}, {"title"}, toml_text(text)}});
    const ReadDocument read = read_test(out);
    if (text.empty()) continue;  // a title may not be empty, but the text must be TOML
    EXPECT_EQ(*read.draft.single("garden")->find("title")->text(), text);
  }
  EXPECT_EQ(toml_key("height_m"), "height_m");
  EXPECT_EQ(toml_key("garden compost"), "\"garden compost\"");
  EXPECT_EQ(toml_key(""), "\"\"");
  EXPECT_EQ(toml_number(1.4), "1.4");
  EXPECT_EQ(toml_number(5), "5");
  EXPECT_EQ(toml_number(-0.1), "-0.1");
}

class ExampleGardenPatched : public testing::TestWithParam<std::filesystem::path> {};

TEST_P(ExampleGardenPatched, ComesBackToItselfKeyByKey) {
  const std::string text = file_text(GetParam().string());
  const ReadDocument read = read_document(text, "garden.toml", shipped_words());
  ASSERT_TRUE(read.problems.empty()) << problems_text(read);
  for (const garden::Entry& entry : read.draft.entries) {
    if (entry.id.empty()) continue;
    const EntryRef reference{entry.table, entry.id};
    const std::string more = patched(text, {SetKey{reference, {"zz_new"}, "[1, \"two # three\"]"}});
    EXPECT_EQ(more.size(), text.size() + std::string("zz_new = [1, \"two # three\"]\n").size());
    EXPECT_EQ(patched(more, {RemoveKey{reference, {"zz_new"}}}), text) << entry.id;
    for (const garden::Field& field : entry.fields) {
      if (field.value.number() == nullptr) continue;
      const std::string other = patched(text, {SetKey{reference, {field.key}, "12.5"}});
      EXPECT_EQ(other.size() + field.value.typed.size(), text.size() + 4);
      EXPECT_EQ(patched(other, {SetKey{reference, {field.key}, field.value.typed}}), text)
          << entry.id << "." << field.key;
      break;
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Examples, ExampleGardenPatched, testing::ValuesIn(example_gardens()),
                         [](const auto& each) {
                           std::string name = each.param.stem().string();
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

}  // namespace
}  // namespace spadework::document
