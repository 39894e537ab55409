// The pictures: whole, the same each time, and saying what the table says.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <functional>

#include "garden/plan_drawing.h"
#include "light/light_drawing.h"
#include "light/print_drawing.h"
#include "tests/scenes.h"

namespace spadework::testing {
namespace {

using geometry::Drawing;
using geometry::Group;
using geometry::Text;

const std::string kGarden = head(48.41, -4.36, "Europe/Paris", 340) + R"(
[boundary]
outline = [[-6,-6],[6,-6],[6,6],[-6,6]]
[ground]
spots = [[-6,-6,0],[6,-6,0.2],[6,6,1.1],[-6,6,0.8]]
[[wall]]
id = "lane-wall"
line = [[-5,-5],[5,-5]]
height_m = 1.6
kind = "stone"
[[tree]]
id = "medlar"
kind = "medlar"
at = [-3, 2]
height_m = 5
crown_width_m = 4
[[bed]]
id = "old-bed"
at = [2, 3]
size = [3, 1.2]
removed = true
[[bed]]
id = "new-bed"
status = "proposed"
at = [0, -2]
size = [3, 1.2]
boards = { height = "225 mm", courses = 1, thickness = "38 mm" }
)";

void each_text(const Group& group, const std::function<void(const Text&)>& act) {
  for (const geometry::Element& element : group.elements) {
    if (const auto* text = std::get_if<Text>(&element.what)) act(*text);
    if (const auto* inner = std::get_if<Group>(&element.what)) each_text(*inner, act);
  }
}
int times(const Drawing& drawing, const std::string& words) {
  int n = 0;
  each_text(drawing.root, [&](const Text& text) { n += text.words == words; });
  return n;
}
const Group* find_group(const Group& group, const std::string& id) {
  for (const geometry::Element& element : group.elements) {
    const auto* inner = std::get_if<Group>(&element.what);
    if (inner == nullptr) continue;
    if (inner->id == id) return inner;
    if (const Group* deeper = find_group(*inner, id)) return deeper;
  }
  return nullptr;
}

Drawing growing(study::Study& study, double* hours = nullptr) {
  const auto stand = study.stand("proposed"), found = study.stand("found");
  const auto field = study.field("proposed", 0.25);
  const auto year = study.places_year("proposed");
  const auto months = light::growing_months((*stand)->garden.site.latitude);
  light::LightSheet sheet{
      (*stand)->garden, &(*found)->garden, (*stand)->surface, catalogue(), **field, {}, {}, "says"};
  sheet.hours = light::field_mean(**field, (*year)->sun, months);
  for (const light::PlaceSun& place : (*year)->places)
    sheet.figures.push_back(
        {place.place.id, light::mean_sun_h(place.months, (*year)->sun.days_in_month, months)});
  if (hours != nullptr) *hours = sheet.figures.front().hours;
  return light::light_drawing(sheet);
}

TEST(LightSheet, IsSoundAndTheSameEachTime) {
  study::Study one = study_of(kGarden), other = study_of(kGarden);
  const Drawing a = growing(one), b = growing(other);
  EXPECT_TRUE(geometry::is_sound(a));
  EXPECT_EQ(geometry::count_elements(a.root), geometry::count_elements(b.root));
  std::vector<std::string> words_a, words_b;
  each_text(a.root, [&](const Text& t) { words_a.push_back(t.words); });
  each_text(b.root, [&](const Text& t) { words_b.push_back(t.words); });
  EXPECT_EQ(words_a, words_b);
}

TEST(LightSheet, WritesTheTablesHoursInTheBedsAndNamesThem) {
  study::Study study = study_of(kGarden);
  double hours = 0;
  const Drawing drawing = growing(study, &hours);
  EXPECT_EQ(times(drawing, fmt::format("{:.1f}", hours)), 1);
  EXPECT_EQ(times(drawing, "new-bed"), 1);
  EXPECT_EQ(times(drawing, "medlar"), 1);
  EXPECT_EQ(times(drawing, "lane-wall"), 1);
}

TEST(LightSheet, ShowsWhatGoesStruckThroughAndWhatIsProposed) {
  study::Study study = study_of(kGarden);
  const Drawing drawing = growing(study);
  EXPECT_NE(find_group(drawing.root, "found-old-bed"), nullptr);
  EXPECT_NE(find_group(drawing.root, "new-bed"), nullptr);
}

TEST(LightSheet, KeepsItsWordsOnThePaper) {
  study::Study study = study_of(kGarden);
  const Drawing drawing = growing(study);
  each_text(drawing.root, [&](const Text& text) {
    EXPECT_GT(text.at.x, 0) << text.words;
    EXPECT_LT(text.at.x, drawing.width_mm) << text.words;
    EXPECT_GT(text.at.y, 0) << text.words;
    EXPECT_LT(text.at.y, drawing.height_mm) << text.words;
  });
}

// The page's up has the bearing 340°: north lies 20° clockwise of it, 70° from the right.
TEST(NorthOnPaper, FollowsThePagesBearing) {
  garden::Garden garden;
  garden.site.plan_north = degrees(340);
  EXPECT_NEAR(std::fmod(garden::north_on_paper(garden), 2 * M_PI), 70 * M_PI / 180, 1e-9);
  garden.site.plan_north = degrees(0);
  EXPECT_NEAR(garden::north_on_paper(garden), M_PI / 2, 1e-9);
}

TEST(ScaleToFit, IsTheLargestUsualScaleThatFits) {
  EXPECT_EQ(light::scale_to_fit({11, 26}, {182, 240}), 125);
  EXPECT_EQ(light::scale_to_fit({10, 10}, {100, 100}), 100);
  EXPECT_EQ(light::scale_to_fit({2000, 100}, {200, 200}), 10000);
}

TEST(ScaleBar, IsAsLongAsItSays) {
  Group group;
  // At 1:100, 10 mm to the metre: the bar of 5 m is 50 mm; of 20 ft, 61 mm.
  EXPECT_NEAR(light::draw_scale_bar(group, {0, 0}, 10, false, 70), 50, 1e-9);
  EXPECT_NEAR(light::draw_scale_bar(group, {0, 0}, 10, true, 70), 20 * 3.048, 1e-9);
}

TEST(ContourLevels, AreEvenAndFew) {
  const auto levels = garden::contour_levels(-0.06, 2.12);
  ASSERT_GE(levels.size(), 4u);
  EXPECT_LE(levels.size(), 9u);
  for (std::size_t i = 1; i < levels.size(); ++i)
    EXPECT_NEAR(levels[i] - levels[i - 1], levels[1] - levels[0], 1e-9);
  EXPECT_TRUE(garden::contour_levels(1, 1).empty());
}

TEST(LabelRoom, PutsNothingOnSomethingElse) {
  garden::LabelRoom room;
  geometry::Vec2 at;
  EXPECT_TRUE(room.place({{0, 0}}, {10, 2}, false, at));
  EXPECT_FALSE(room.place({{1, 1}}, {10, 2}, false, at));
  EXPECT_TRUE(room.place({{1, 1}, {0, 5}}, {10, 2}, false, at));
  EXPECT_EQ(at.y, 5);
  EXPECT_TRUE(room.place({{1, 1}}, {10, 2}, true, at));
}

TEST(PrintSheet, IsSoundAndWritesTheTablesMonths) {
  study::Study study = study_of(kGarden);
  const auto stand = study.stand("proposed");
  const auto print = study.print("proposed", "new-bed");
  const auto year = study.places_year("proposed");
  const auto ranked = study.takers("proposed");
  ASSERT_TRUE(stand && print && year && ranked);
  light::PrintSheet sheet{(*stand)->garden, (*stand)->surface, catalogue(), **print,
                          "as proposed",    (*ranked)->ranked, {}};
  for (std::size_t m = 0; m < 12; ++m)
    sheet.month_sun_h[m] = (*year)->find("new-bed")->months[m].sun_h_per_day;
  const Drawing drawing = light::print_drawing(sheet);
  EXPECT_TRUE(geometry::is_sound(drawing));
  for (const double hours : sheet.month_sun_h)
    EXPECT_GE(times(drawing, fmt::format("{:.1f}", hours)), 1) << hours;
  EXPECT_EQ(times(drawing, "Jan"), 1);
  EXPECT_EQ(times(drawing, "What takes it"), 1);
}

}  // namespace
}  // namespace spadework::testing
