#include "sheets/fonts.h"

#include <fontconfig/fontconfig.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <sstream>
#include <string>

#include "sheets/test_fonts.h"

namespace spadework::sheets {
namespace {

using namespace geometry;  // NOLINT: the display list, all of it

Text sans(const std::string& words, double size_mm = 10) {
  Text text;
  text.words = words, text.size_mm = size_mm;
  return text;
}
double width(const Text& text) { return test_fonts()->text_width_mm(text); }

// tests/golden/type_widths: the faces' own tables, read by another program.
TEST(TextWidth, IsTheFacesOwn) {
  std::ifstream file(SPADEWORK_SOURCE_DIR "/tests/golden/type_widths/data.csv");
  std::string line;
  std::getline(file, line);
  int rows = 0;
  for (; std::getline(file, line); ++rows) {
    std::istringstream in(line);
    std::string face, weight, letter, advance;
    std::getline(in, face, ',');
    std::getline(in, weight, ',');
    std::getline(in, letter, ',');
    std::getline(in, advance);
    Text text = sans(letter);
    text.face = face == "sans" ? Face::kSans : face == "serif" ? Face::kSerif : Face::kSerifItalic;
    text.weight = weight == "600" ? Weight::kSemiBold : Weight::kRegular;
    EXPECT_NEAR(width(text), std::stod(advance) / 100, 0.01) << line;
  }
  EXPECT_EQ(rows, 40);
}

TEST(TextWidth, GrowsWithSizeInProportion) {
  EXPECT_NEAR(width(sans("Spadework", 20)), 2 * width(sans("Spadework", 10)), 0.01);
  EXPECT_NEAR(width(sans("Spadework", 2.5)), width(sans("Spadework", 10)) / 4, 0.01);
}

TEST(TextWidth, AddsUpButForKerning) {
  const double whole = width(sans("north wall")),
               parts = width(sans("north ")) + width(sans("wall"));
  EXPECT_NEAR(whole, parts, 0.6);
  EXPECT_GT(whole, 0);
}

TEST(TextWidth, OfSignsAddsUpExactly) {
  EXPECT_NEAR(width(sans("≈5→")), width(sans("≈")) + width(sans("5")) + width(sans("→")), 1e-9);
  for (const char* sign : {"→", "←", "↑", "↓", "≈", "≤", "≥", "′", "″"})
    EXPECT_GT(width(sans(sign)), 1) << sign;
}

TEST(TextWidth, IsTheSameForAllTabularFigures) {
  for (const Face face : {Face::kSans, Face::kSerif}) {
    Text text = sans("0");
    text.tabular = true, text.face = face;
    const double zero = width(text);
    for (char figure = '1'; figure <= '9'; ++figure) {
      text.words = std::string(1, figure);
      EXPECT_NEAR(width(text), zero, 1e-6) << figure;
    }
  }
}

TEST(TextWidth, OfNothingIsNothing) { EXPECT_EQ(width(sans("")), 0); }

TEST(TextWidth, TakesLettersComposedOrNot) {
  EXPECT_NEAR(width(sans("e\xcc\x81")), width(sans("\xc3\xa9")), 1e-9);
}

TEST(TextWidth, GivesRoomToLettersOfOtherScripts) {
  const double box = width(sans("\xd0\x9f"));
  EXPECT_GT(box, 4);
  EXPECT_NEAR(width(sans("\xd0\x9f\xd1\x91\xd1\x82\xd1\x80")), 4 * box, 1e-9);
}

TEST(TextLines, BreakBetweenWordsWithinTheWidth) {
  Text text = sans("About five and a half hours on a clear day, mostly morning.", 4);
  text.wrap_mm = 30;
  const std::vector<std::string> lines = test_fonts()->text_lines(text);
  EXPECT_GT(lines.size(), 2U);
  std::string joined;
  for (const std::string& line : lines) {
    EXPECT_LE(width(sans(line, 4)), 30) << line;
    joined += (joined.empty() ? "" : " ") + line;
  }
  EXPECT_EQ(joined, text.words);
}

TEST(TextLines, BreakAtLineFeedsAndKeepLongWordsWhole) {
  Text text = sans("one\n\nUnbreakablelongword", 4);
  text.wrap_mm = 10;
  EXPECT_EQ(test_fonts()->text_lines(text),
            (std::vector<std::string>{"one", "", "Unbreakablelongword"}));
}

TEST(Fonts, RefuseBytesThatAreNoFont) {
  const Result<Fonts> none = Fonts::open({});
  ASSERT_FALSE(none);
  EXPECT_EQ(none.error().code, ErrorCode::kCannotRead);
  const auto junk = Fonts::open(font_bytes([](std::string_view) { return "not a font at all"; }));
  ASSERT_FALSE(junk);
  EXPECT_EQ(junk.error().code, ErrorCode::kCannotRead);
}

TEST(Fonts, ReadNothingOfTheUsersFonts) {
  ASSERT_TRUE(test_fonts());
  for (const FcSetName set : {FcSetSystem, FcSetApplication}) {
    const FcFontSet* fonts = FcConfigGetFonts(FcConfigGetCurrent(), set);
    EXPECT_TRUE(fonts == nullptr || fonts->nfont == 0);
  }
}

TEST(Fonts, CanBeOpenedAgain) {
  std::map<std::string, std::string> files;
  const auto open = [&] {
    return Fonts::open(font_bytes([&](std::string_view name) {
      std::ifstream in(SPADEWORK_SOURCE_DIR "/data/fonts/" + std::string(name), std::ios::binary);
      std::string& bytes = files[std::string(name)];
      bytes.assign(std::istreambuf_iterator<char>(in), {});
      return std::string_view(bytes);
    }));
  };
  for (int i = 0; i < 3; ++i) {
    const Result<Fonts> fonts = open();
    ASSERT_TRUE(fonts);
    EXPECT_EQ(fonts->text_width_mm(sans("Hedge")), width(sans("Hedge")));
  }
}

}  // namespace
}  // namespace spadework::sheets
