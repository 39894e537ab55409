// Gardens that are read without problems, and what their drafts then hold.
#include "document/reader.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <set>

#include "document/test_support.h"
#include "garden/schema.h"

namespace spadework::document {
namespace {

using garden::Draft;
using garden::Entry;
using garden::Field;
using garden::Value;

const std::string kKerAvel =
    file_text(std::string(SPADEWORK_SOURCE_DIR) + "/src/document/testdata/ker-avel.toml");

Draft draft_of(const std::string& text) {
  ReadDocument read = read_test(text);
  EXPECT_TRUE(read.problems.empty()) << problems_text(read);
  return std::move(read.draft);
}

/// The value at the key of the entry of that id, or of the only one of that table.
const Value& at(const Draft& draft, std::string_view name, std::string_view key) {
  const Entry* entry = draft.with_id(name) != nullptr ? draft.with_id(name) : draft.single(name);
  const Value* value = entry == nullptr ? nullptr : entry->find(key);
  if (value == nullptr) throw std::runtime_error(fmt::format("no {} of {}", key, name));
  return *value;
}

std::vector<double> numbers(const Value& value) {
  std::vector<double> out;
  for (const Value& item : *value.list()) out.push_back(*item.number());
  return out;
}
using Numbers = std::vector<double>;

TEST(KerAvel, ReadsWithoutProblems) {
  const Draft draft = draft_of(kKerAvel);
  std::vector<std::string> tables;
  for (const Entry& entry : draft.entries) tables.push_back(entry.table);
  EXPECT_EQ(tables, (std::vector<std::string>{"format", "garden", "ground", "wall", "building",
                                              "tree", "change", "bed", "support", "seat", "plant",
                                              "want", "labour"}));
}

TEST(KerAvel, SaysWhereItLies) {
  const Draft draft = draft_of(kKerAvel);
  EXPECT_EQ(*at(draft, "garden", "title").text(), "Ker Avel");
  EXPECT_EQ(*at(draft, "garden", "latitude_deg").number(), 48.41);
  EXPECT_EQ(*at(draft, "garden", "longitude_deg").number(), -4.36);
  EXPECT_EQ(*at(draft, "garden", "plan_north_deg").number(), 340);
  EXPECT_EQ(*at(draft, "garden", "exposure").text(), "coastal");
  EXPECT_EQ(draft.time_zone.name(), "Europe/Paris");
}

TEST(KerAvel, SaysHowItsGroundLies) {
  const Draft draft = draft_of(kKerAvel);
  const auto& spots = *at(draft, "ground", "spots").list();
  ASSERT_EQ(spots.size(), 4u);
  EXPECT_EQ(numbers(spots[2]), (Numbers{11, 26, 2.10}));
  const auto& horizon = *at(draft, "ground", "horizon").list();
  ASSERT_EQ(horizon.size(), 3u);
  EXPECT_EQ(numbers(horizon[1]), (Numbers{180, 11}));
  EXPECT_EQ(*at(draft, "ground", "topsoil_m").number(), 0.28);
}

TEST(KerAvel, SaysWhatStandsInIt) {
  const Draft draft = draft_of(kKerAvel);
  const auto& line = *at(draft, "lane-wall", "line").list();
  EXPECT_EQ(numbers(line[1]), (Numbers{11, 0}));
  EXPECT_EQ(at(draft, "byre", "outline").list()->size(), 4u);
  EXPECT_EQ(numbers(at(draft, "medlar", "at")), (Numbers{2.0, 19.5}));
  EXPECT_EQ(*at(draft, "change", "crown_base_m").number(), 2.3);
  EXPECT_EQ(*at(draft, "gooseberries", "count").number(), 5);
  EXPECT_EQ(*at(draft, "want", "amount").text(), "6 kg");
}

TEST(KerAvel, SaysHowItsBedIsBuilt) {
  const Draft draft = draft_of(kKerAvel);
  const auto& boards = *at(draft, "upper-east", "boards").record();
  EXPECT_NEAR(*garden::find_field(boards, "height")->value.number(), 0.225, 1e-12);
  EXPECT_EQ(garden::find_field(boards, "height")->value.typed, "\"225 mm\"");
  EXPECT_EQ(*garden::find_field(boards, "courses")->value.number(), 2);
  const auto& mix = *at(draft, "upper-east", "mix").list();
  EXPECT_EQ(*garden::find_field(*mix[1].record(), "share")->value.number(), 0.4);
  const auto& history = *at(draft, "upper-east", "history").record();
  ASSERT_EQ(history.size(), 2u);
  EXPECT_EQ(history[0].key, "2025");
  EXPECT_EQ(*(*history[0].value.list())[0].text(), "brassica");
}

TEST(KerAvel, SaysWhoWorksWhen) {
  const Draft draft = draft_of(kKerAvel);
  EXPECT_EQ(*at(draft, "labour", "start").date(), make_date(2026, 1, 17));
  EXPECT_EQ(at(draft, "labour", "days").list()->size(), 2u);
  const auto& people = *at(draft, "labour", "people").list();
  EXPECT_EQ(*garden::find_field(*people[0].record(), "name")->value.text(), "me");
}

TEST(AValue, KnowsTheLineAndColumnOfItsKeyAndOfItself) {
  const Draft draft = draft_of(kKerAvel);
  const Entry& medlar = *draft.with_id("medlar");
  EXPECT_EQ(medlar.where.line, 32);
  const Field* height = garden::find_field(medlar.fields, "height_m");
  EXPECT_EQ(height->where.line, 36);
  EXPECT_EQ(height->where.column, 1);
  EXPECT_EQ(height->value.where.line, 36);
  EXPECT_EQ(height->value.where.column, 12);
  EXPECT_EQ(draft.at(height->where), "garden.toml:36:1");
  const auto& boards = *at(draft, "upper-east", "boards").record();
  const Field* courses = garden::find_field(boards, "courses");
  EXPECT_EQ(courses->where.line, 50);
  EXPECT_EQ(courses->where.column, 31);
}

TEST(AFigure, IsKeptAsTyped) {
  const Draft draft = draft_of(std::string(kHead) + R"([[wall]]
id = "w"
line = [["7 ft", "6 ft 6 in"], [4, 1.50]]
height_m = "195 mm"
kind = "stone"
[[tree]]
id = "t"
kind = "oak"
at = [1_0, +2.0]
height_m = 1e1
crown_width_m = '4 yd'
stem_m = "girth 0.9 m"
[[climate.month]]
month = 4
tmin_c = "28 F"
)");
  const auto& line = *at(draft, "w", "line").list();
  EXPECT_NEAR(*(*line[0].list())[0].number(), 2.1336, 1e-12);
  EXPECT_EQ((*line[0].list())[0].typed, "\"7 ft\"");
  EXPECT_NEAR(*(*line[0].list())[1].number(), 1.9812, 1e-12);
  EXPECT_EQ((*line[1].list())[1].typed, "1.50");
  EXPECT_NEAR(*at(draft, "w", "height_m").number(), 0.195, 1e-12);
  EXPECT_EQ(at(draft, "w", "height_m").typed, "\"195 mm\"");
  EXPECT_EQ((*at(draft, "t", "at").list())[0].typed, "1_0");
  EXPECT_EQ(*(*at(draft, "t", "at").list())[0].number(), 10);
  EXPECT_EQ(at(draft, "t", "height_m").typed, "1e1");
  EXPECT_NEAR(*at(draft, "t", "crown_width_m").number(), 3.6576, 1e-12);
  EXPECT_NEAR(*at(draft, "t", "stem_m").number(), 0.9 / 3.14159265358979, 1e-9);
  EXPECT_NEAR(*at(draft, "climate.month", "tmin_c").number(), -2.2222222, 1e-6);
  EXPECT_EQ(at(draft, "climate.month", "tmin_c").typed, "\"28 F\"");
}

TEST(AnyForm, OfTheSameMeaningReadsAlike) {
  const std::string place = "latitude_deg = 48\nlongitude_deg = -4\ntime_zone = \"Europe/Paris\"\n";
  const std::string forms[] = {
      "format = 1\n[garden]\ntitle = \"T\"\n" + place +
          "[[wall]]\nid = \"w\"\nline = [[0, 0], [4, 0]]\nheight_m = 1.5\nkind = \"stone\"\n",
      "format = 1\nwall = [{ id = \"w\", line = [[0, 0], [4, 0]], height_m = 1.5, kind = 'stone' "
      "}]\n[garden]\ntitle = \"T\"\n" +
          place,
      "format = 1\ngarden.title = \"T\"\ngarden.latitude_deg = 48\ngarden.longitude_deg = -4\n"
      "garden.time_zone = \"Europe/Paris\"\n[[wall]]\n\"kind\" = \"stone\"\nheight_m = 1.5\n"
      "line = [\n  [0, 0], # from\n  [4, 0],\n]\n'id' = \"\"\"w\"\"\"\n",
  };
  for (const std::string& form : forms) {
    const Draft draft = draft_of(form);
    EXPECT_EQ(*at(draft, "garden", "title").text(), "T") << form;
    EXPECT_EQ(*at(draft, "w", "height_m").number(), 1.5) << form;
    EXPECT_EQ(*at(draft, "w", "kind").text(), "stone") << form;
    EXPECT_EQ(numbers((*at(draft, "w", "line").list())[1]), (Numbers{4, 0})) << form;
  }
}

TEST(LineEndsOfWindows, ChangeNothing) {
  std::string crlf;
  for (const char c : kKerAvel) crlf += c == '\n' ? std::string("\r\n") : std::string(1, c);
  const Draft draft = draft_of(crlf);
  EXPECT_EQ(*at(draft, "garden", "title").text(), "Ker Avel");
  EXPECT_EQ(garden::find_field(draft.with_id("medlar")->fields, "height_m")->where.line, 36);
}

TEST(AByteOrderMark, IsNoColumn) {
  const ReadDocument read = read_test("\xef\xbb\xbf" + std::string(kHead) + "[[wal]]\n");
  ASSERT_EQ(read.problems.size(), 1u) << problems_text(read);
  EXPECT_EQ(read.problems[0].where, "garden.toml:7:3");
  const ReadDocument first = read_test(
      "\xef\xbb\xbf"
      "forma = 1\n" +
      std::string(kHead));
  EXPECT_EQ(first.problems.at(0).where, "garden.toml:1:1") << problems_text(first);
}

TEST(ATab, IsOneColumn) {
  const ReadDocument read = read_test(std::string(kHead) + "\t\thousehod\t=\t4\t# remark\n");
  ASSERT_EQ(read.problems.size(), 1u) << problems_text(read);
  EXPECT_EQ(read.problems[0].where, "garden.toml:7:3");
  EXPECT_EQ(
      *at(draft_of(std::string(kHead) + "\thousehold\t=\t4\t#\tremark\n"), "garden", "household")
           .number(),
      4);
}

TEST(ALetterOfManyBytes, IsOneColumn) {
  const ReadDocument read = read_test(std::string(kHead) +
                                      "[labour]\nstart = 2026-01-17\npeople = [{ name = \"Zoë 🌱\", "
                                      "effrt = \"light\" }]\n");
  ASSERT_EQ(read.problems.size(), 1u) << problems_text(read);
  EXPECT_EQ(read.problems[0].where, "garden.toml:9:29");
}

class ExampleGarden : public testing::TestWithParam<std::filesystem::path> {};

TEST_P(ExampleGarden, ReadsWithoutProblems) {
  const ReadDocument read =
      read_document(file_text(GetParam().string()), "garden.toml", shipped_words());
  EXPECT_TRUE(read.problems.empty()) << problems_text(read);
  EXPECT_GT(read.draft.entries.size(), 20u);
}

INSTANTIATE_TEST_SUITE_P(Examples, ExampleGarden, testing::ValuesIn(example_gardens()),
                         [](const auto& each) {
                           std::string name = each.param.stem().string();
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

TEST(ExampleGardens, AreAtLeastThree) { EXPECT_GE(example_gardens().size(), 3u); }

}  // namespace
}  // namespace spadework::document
