// The fresh document that a garden begins with.
#include "document/new_document.h"

#include <gtest/gtest.h>

#include <cmath>

#include "document/test_support.h"
#include "garden/garden.h"

namespace spadework::document {
namespace {

FreshGarden ker_avel() { return {"Ker Avel", degrees(48.41), degrees(-4.36), "Europe/Paris"}; }

ReadDocument read_fresh(const FreshGarden& garden) {
  const auto text = new_document(garden);
  EXPECT_TRUE(text.has_value()) << (text ? "" : text.error().message);
  return read_document(text.value_or(""), "new.toml", shipped_words());
}

TEST(AFreshDocument, ReadsWithoutProblems) {
  const ReadDocument read = read_fresh(ker_avel());
  EXPECT_TRUE(read.problems.empty()) << problems_text(read);
  const garden::Entry& garden = *read.draft.single("garden");
  EXPECT_EQ(*garden.find("title")->text(), "Ker Avel");
  EXPECT_EQ(*garden.find("latitude_deg")->number(), 48.41);
  EXPECT_EQ(*garden.find("longitude_deg")->number(), -4.36);
  EXPECT_EQ(read.draft.time_zone.name(), "Europe/Paris");
}

TEST(AFreshDocument, IsAGardenInEveryScheme) {
  const ReadDocument read = read_fresh(ker_avel());
  const auto found = garden::resolve(read.draft, "found");
  const auto proposed = garden::resolve(read.draft, "proposed");
  ASSERT_TRUE(found && proposed);
  EXPECT_EQ(found->walls.size(), 1u);
  EXPECT_TRUE(found->beds.empty());
  EXPECT_EQ(proposed->beds.size(), 1u);
  EXPECT_EQ(proposed->boundary.size(), 4u);
}

TEST(AFreshDocument, MarksAllThatWasNotMeasured) {
  const ReadDocument read = read_fresh(ker_avel());
  for (const char* table : {"garden", "boundary", "ground", "wall"}) {
    EXPECT_NE(read.draft.single(table)->find("guessed"), nullptr) << table;
  }
}

TEST(ABareDocument, HasThePlaceAndNothingElse) {
  FreshGarden garden = ker_avel();
  garden.elevation = metres(60.2);
  garden.imperial = true;
  const auto text = bare_document(garden);
  ASSERT_TRUE(text.has_value());
  const ReadDocument read = read_document(*text, "new.toml", shipped_words());
  EXPECT_TRUE(read.problems.empty()) << problems_text(read);
  const auto found = garden::resolve(read.draft, "found");
  ASSERT_TRUE(found.has_value());
  EXPECT_TRUE(found->boundary.empty());
  EXPECT_TRUE(found->site.imperial);
  EXPECT_DOUBLE_EQ(in_metres(found->site.elevation), 60);
  EXPECT_NE(read.draft.single("garden")->find("guessed"), nullptr);
  garden.latitude = degrees(91);
  EXPECT_EQ(bare_document(garden).error().code, ErrorCode::kImpossibleValue);
  garden = ker_avel();
  garden.time_zone = "Europe/Lundun";
  EXPECT_FALSE(bare_document(garden).has_value());
}

TEST(AFreshDocument, StaysOnOnePageOfAHundredColumns) {
  const std::string text = new_document(ker_avel()).value();
  EXPECT_LE(std::count(text.begin(), text.end(), '\n'), 70);
  std::size_t begin = 0;
  for (std::size_t end = 0; (end = text.find('\n', begin)) != std::string::npos; begin = end + 1) {
    EXPECT_LE(end - begin, 100u) << text.substr(begin, end - begin);
  }
}

TEST(ATitle, IsKeptWhateverStandsInIt) {
  for (const std::string& title :
       {std::string("The \"Back\" Forty"), std::string("C:\\garden"), std::string("Zoë's 🌱 plot"),
        std::string("# no remark"), std::string("]] [[wall]]"), std::string("{0} {title}"),
        std::string("'''"), std::string("\"\"\"")}) {
    FreshGarden garden = ker_avel();
    garden.title = title;
    const ReadDocument read = read_fresh(garden);
    ASSERT_TRUE(read.problems.empty()) << title << problems_text(read);
    EXPECT_EQ(*read.draft.single("garden")->find("title")->text(), title);
    EXPECT_EQ(read.draft.entries.size(), read_fresh(ker_avel()).draft.entries.size()) << title;
  }
}

TEST(ATitle, OfSeveralLinesBecomesOne) {
  FreshGarden garden = ker_avel();
  garden.title = "Ker\nAvel\r\n[[wall]]\tx";
  const ReadDocument read = read_fresh(garden);
  ASSERT_TRUE(read.problems.empty()) << problems_text(read);
  EXPECT_EQ(*read.draft.single("garden")->find("title")->text(), "Ker Avel  [[wall]] x");
}

TEST(AnEmptyTitle, IsRefused) {
  FreshGarden garden = ker_avel();
  garden.title = "";
  const auto text = new_document(garden);
  ASSERT_FALSE(text.has_value());
  EXPECT_EQ(text.error().code, ErrorCode::kImpossibleValue);
  EXPECT_TRUE(text.error().where.empty());
}

TEST(AnUnknownTimeZone, IsToldWithTheNearest) {
  FreshGarden garden = ker_avel();
  garden.time_zone = "Europe/Pari";
  const auto text = new_document(garden);
  ASSERT_FALSE(text.has_value());
  EXPECT_EQ(text.error().code, ErrorCode::kUnknownKind);
  EXPECT_NE(text.error().hint.find("Europe/Paris"), std::string::npos) << text.error().hint;
  EXPECT_TRUE(text.error().where.empty());
}

TEST(APlaceThatIsNone, IsRefused) {
  for (const double latitude_deg : {90.01, -91.0, std::nan(""), 1e300}) {
    FreshGarden garden = ker_avel();
    garden.latitude = degrees(latitude_deg);
    const auto text = new_document(garden);
    ASSERT_FALSE(text.has_value()) << latitude_deg;
    EXPECT_EQ(text.error().code, ErrorCode::kImpossibleValue) << text.error().message;
  }
}

TEST(APlace, OfEitherHemisphereIsKeptToSixDecimals) {
  FreshGarden garden{"Tussock", degrees(-41.1234567), degrees(175.5), "Pacific/Auckland"};
  const ReadDocument read = read_fresh(garden);
  EXPECT_EQ(*read.draft.single("garden")->find("latitude_deg")->number(), -41.123457);
  EXPECT_EQ(*read.draft.single("garden")->find("longitude_deg")->number(), 175.5);
}

}  // namespace
}  // namespace spadework::document
