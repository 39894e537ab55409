#include "sheets/svg.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <set>
#include <string>
#include <vector>

#include "geometry/symbols.h"
#include "sheets/test_fonts.h"
#include "sheets/xml.h"

namespace spadework::sheets {
namespace {

using namespace geometry;  // NOLINT: the display list, all of it

Drawing sheet_of(double width_mm = 100, double height_mm = 80) {
  Drawing drawing;
  drawing.width_mm = width_mm, drawing.height_mm = height_mm;
  drawing.title = "A sheet";
  return drawing;
}

std::string svg_of(const Drawing& drawing, const SvgOptions& options = {}) {
  const Result<std::string> svg = to_svg(drawing, *test_fonts(), options);
  EXPECT_TRUE(svg) << (svg ? "" : svg.error().message);
  return svg.value_or("");
}

int count(const std::string& text, const std::string& what) {
  int n = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++n;
  return n;
}

// Empty if every tag closes in turn, attributes are quoted and every & starts a known entity.
std::string xml_fault(const std::string& xml) {
  std::vector<std::string> open;
  for (std::size_t at = 0; at < xml.size(); ++at) {
    if (xml[at] == '&') {
      const std::string name = xml.substr(at + 1, xml.find(';', at) - at - 1);
      if (name != "amp" && name != "lt" && name != "gt" && name != "quot") return "a stray &";
    }
    if (xml[at] != '<') continue;
    const std::size_t end = xml.find('>', at);
    if (end == std::string::npos) return "a tag that does not end";
    const std::string tag = xml.substr(at + 1, end - at - 1);
    if (tag.find('<') != std::string::npos) return "a < within <" + tag.substr(0, 80);
    if (std::count(tag.begin(), tag.end(), '"') % 2 != 0) return "an open quote in " + tag;
    for (std::size_t is = tag.find('='); is != std::string::npos; is = tag.find('=', is + 1))
      if (std::count(tag.begin(), tag.begin() + static_cast<long>(is), '"') % 2 == 0 &&
          tag[is + 1] != '"')
        return "an attribute without quotes in " + tag;
    if (tag[0] == '/') {
      if (open.empty() || open.back() != tag.substr(1)) return "closes out of turn: " + tag;
      open.pop_back();
    } else if (tag.back() != '/') {
      open.push_back(tag.substr(0, tag.find_first_of(" \n")));
    }
    at = end;
  }
  return open.empty() ? "" : "never closed: " + open.back();
}

// The values of an attribute, in order.
std::vector<std::string> values_of(const std::string& xml, const std::string& attribute) {
  std::vector<std::string> out;
  const std::string start = ' ' + attribute + "=\"";
  for (std::size_t at = xml.find(start); at != std::string::npos; at = xml.find(start, at + 1)) {
    const std::size_t from = at + start.size();
    out.push_back(xml.substr(from, xml.find('"', from) - from));
  }
  return out;
}

// The longest run of digits after a decimal point.
int most_decimals(const std::string& text) {
  int most = 0;
  for (std::size_t at = text.find('.'); at != std::string::npos; at = text.find('.', at + 1)) {
    const std::size_t end = text.find_first_not_of("0123456789", at + 1);
    most = std::max(most, static_cast<int>(std::min(end, text.size()) - at - 1));
  }
  return most;
}

TEST(XmlFault, FindsFaults) {
  EXPECT_EQ(xml_fault("<a b=\"c\"><d/>x &amp; y</a>"), "");
  for (const char* bad : {"<a>", "<a></b>", "<a b=c/>", "<a b=\"c/>", "<a>& b</a>", "<a b=\"<\"/>"})
    EXPECT_NE(xml_fault(bad), "") << bad;
}

Text words(const std::string& utf8) {
  Text text;
  text.at = {10, 10};
  text.words = utf8;
  return text;
}

TEST(Svg, IsWellFormedWithAnyWords) {
  Drawing drawing = sheet_of();
  drawing.title = "Ty <Gwenn> & \"co\"";
  drawing.description = "a < b > c & d";
  drawing.root.add_group("a\"<b", "x & y").add({words("5 < 6 & 7 > 2 \"so\" \x01\x02 \xff\xfe")});
  const std::string svg = svg_of(drawing);
  EXPECT_EQ(xml_fault(svg), "");
  EXPECT_NE(svg.find("<title id=\"title\">Ty &lt;Gwenn&gt; &amp; &quot;co&quot;</title>"),
            std::string::npos);
  EXPECT_NE(svg.find("5 &lt; 6 &amp; 7 &gt; 2"), std::string::npos);
}

TEST(Svg, HasAnElementForEveryElement) {
  Drawing drawing = sheet_of();
  Group& group = drawing.root.add_group("things", "Things");
  group.add({Shape{Path::box({1, 1}, 5, 5), {Paint(Role::kPaper)}, Stroke{}}});
  group.add({Dots{{{1, 2}, {3, 4}}, 0.3, Role::kInk}});
  group.add({CellImage{1, 1, {Colour{1, 2, 3}}, {}, {{0, 0}, {5, 0}, {0, 5}}}});
  group.add({words("one")});
  group.add_group("inner", "").add({words("two\nthree")});
  const std::string svg = svg_of(drawing, {false, ""});
  EXPECT_EQ(count(svg, "<path"), 2);
  EXPECT_EQ(count(svg, "<image"), 1);
  EXPECT_EQ(count(svg, "<text"), 3);
  EXPECT_EQ(count(svg, "<g "), 2);
  EXPECT_EQ(count(svg, "h0"), 2);
  EXPECT_EQ(xml_fault(svg), "");
}

TEST(Svg, RoundsFiguresToThreeDecimals) {
  Drawing drawing = sheet_of(100.12345, 80);
  Mark mark;
  mark.id = "t";
  append_tree(drawing.root, mark, {{33.333333, 40.77777}, 30, 2, true});
  append_bed(drawing.root, mark, {rectangle({50, 20}, {30, 12}, 0.3), 1, {0, 1}, {}});
  drawing.root.add(
      {CellImage{3, 1, std::vector<Colour>(3), {}, {{1.0 / 3, 0}, {7.0 / 9, 0.123456}, {0, 1}}}});
  std::string svg = svg_of(drawing, {false, ""});
  const std::string picture = values_of(svg, "href").at(0);
  svg.replace(svg.find(picture), picture.size(), "");
  EXPECT_EQ(most_decimals(svg), 3);
  EXPECT_EQ(svg.find("nan"), std::string::npos);
  EXPECT_EQ(svg.find("inf"), std::string::npos);
  EXPECT_EQ(svg.find("-0 "), std::string::npos);
}

TEST(Svg, HasTheSameBytesEveryTime) {
  Drawing drawing = sheet_of();
  Mark mark;
  mark.id = "medlar";
  append_tree(drawing.root, mark, {{40, 40}, 30, 2, true});
  append_hedge(drawing.root, mark, {{5, 60}, {80, 60}}, 6);
  drawing.root.add({words("≈ 5½ h")});
  EXPECT_EQ(svg_of(drawing), svg_of(drawing));
}

TEST(Svg, RefusesWhatCannotBeDrawn) {
  Drawing drawing = sheet_of();
  drawing.root.add(
      {Shape{Path::segment({0, 0}, {std::numeric_limits<double>::quiet_NaN(), 1}), {}, Stroke{}}});
  const auto bad = to_svg(drawing, *test_fonts());
  ASSERT_FALSE(bad);
  EXPECT_EQ(bad.error().code, ErrorCode::kImpossibleValue);
  for (const double width : {0.0, -3.0, 1e6, std::numeric_limits<double>::infinity()})
    EXPECT_FALSE(to_svg(sheet_of(width, 50), *test_fonts())) << width;
}

TEST(Svg, EmbedsOnlyTheFacesItUses) {
  EXPECT_EQ(count(svg_of(sheet_of()), "@font-face"), 0);
  Drawing drawing = sheet_of();
  drawing.root.add({words("sans")});
  EXPECT_EQ(count(svg_of(drawing), "@font-face"), 1);
  Text serif = words("serif");
  serif.face = Face::kSerif;
  drawing.root.add({serif});
  EXPECT_EQ(count(svg_of(drawing), "@font-face"), 2);
  EXPECT_EQ(count(svg_of(drawing), "font-family:\"Vollkorn\""), 1);
  EXPECT_EQ(count(svg_of(drawing, {false, ""}), "@font-face"), 0);
}

TEST(Svg, EmbedsFurtherLettersWhenTheyOccur) {
  Drawing drawing = sheet_of();
  drawing.root.add({words("Gy\xc5\x91r")});
  EXPECT_EQ(count(svg_of(drawing), "@font-face"), 2);
}

TEST(Svg, KeepsIdsUniqueAndPrefixed) {
  Drawing drawing = sheet_of();
  drawing.root.add_group("bed", "One").add({words("a")});
  drawing.root.add_group("bed", "Two").add({words("b")});
  drawing.root.add_group("title", "Three").clip = Path::box({0, 0}, 5, 5);
  const std::string svg = svg_of(drawing, {false, "p-"});
  const std::vector<std::string> ids = values_of(svg, "id");
  EXPECT_EQ(ids.size(), 5U);  // title, three groups, a clip
  EXPECT_EQ(std::set<std::string>(ids.begin(), ids.end()).size(), 5U);
  for (const std::string& id : ids) EXPECT_EQ(id.rfind("p-", 0), 0U) << id;
  EXPECT_NE(svg.find("clip-path=\"url(#p-clip)\""), std::string::npos);
}

TEST(Svg, TellsTitlesOfGroups) {
  Drawing drawing = sheet_of();
  drawing.root.add_group("bed", "Upper bed, 5 hours").add({words("a")});
  EXPECT_NE(svg_of(drawing).find("<title>Upper bed, 5 hours</title>"), std::string::npos);
}

TEST(Svg, AsksForFiguresOfOneWidth) {
  Drawing drawing = sheet_of();
  Text text = words("1.24");
  text.tabular = true;
  drawing.root.add({text});
  EXPECT_NE(svg_of(drawing).find("font-feature-settings:'tnum'"), std::string::npos);
}

TEST(Svg, DrawsSignsThatAFaceLacksAndKeepsThemInTheText) {
  Drawing drawing = sheet_of();
  drawing.root.add({words("≈ 5½ h")});
  const std::string svg = svg_of(drawing, {false, ""});
  EXPECT_EQ(count(svg, "<path"), 1);
  EXPECT_NE(svg.find("fill=\"none\" stroke=\"none\">≈</tspan>"), std::string::npos);
  EXPECT_NE(svg.find("> 5½ h</tspan>"), std::string::npos);
}

TEST(Svg, LeavesLettersOfOtherScriptsToTheReader) {
  Drawing drawing = sheet_of();
  drawing.root.add({words("\xd0\x9f 5")});
  const std::string svg = svg_of(drawing, {false, ""});
  EXPECT_NE(svg.find("lengthAdjust=\"spacingAndGlyphs\">\xd0\x9f</tspan>"), std::string::npos);
  EXPECT_EQ(count(svg, "<path"), 0);
}

TEST(Svg, PutsAChipAsWideAsItsWords) {
  Drawing drawing = sheet_of();
  Text text = words("5 h 20");
  text.chip = Chip{Role::kPaper, 1, 0.5, 0};
  drawing.root.add({text});
  const std::string svg = svg_of(drawing, {false, ""});
  const std::string width = decimal(test_fonts()->text_width_mm(text) + 2);
  EXPECT_NE(svg.find("width=\"" + width + "\""), std::string::npos) << width;
}

TEST(Decimal, IsShortAndPlain) {
  EXPECT_EQ(decimal(12.5), "12.5");
  EXPECT_EQ(decimal(-0.0001), "0");
  EXPECT_EQ(decimal(1.0 / 3), "0.333");
  EXPECT_EQ(decimal(-2.9996), "-3");
  EXPECT_EQ(decimal(0.05), "0.05");
  EXPECT_EQ(decimal(7.006, 2), "7.01");
}

// Source: RFC 4648, section 10. [rfc4648]
TEST(Base64, GivesTheStandardsExamples) {
  EXPECT_EQ(base64(""), "");
  EXPECT_EQ(base64("f"), "Zg==");
  EXPECT_EQ(base64("fo"), "Zm8=");
  EXPECT_EQ(base64("foo"), "Zm9v");
  EXPECT_EQ(base64("foob"), "Zm9vYg==");
  EXPECT_EQ(base64("fooba"), "Zm9vYmE=");
  EXPECT_EQ(base64("foobar"), "Zm9vYmFy");
}

}  // namespace
}  // namespace spadework::sheets
