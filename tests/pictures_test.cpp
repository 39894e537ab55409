// The pictures: whole, the same each time, and saying what the table says.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

#include "garden/plan_drawing.h"
#include "light/light_drawing.h"
#include "light/print_drawing.h"
#include "light/print_parts.h"
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

/// How the edge of the plot is drawn in a group of its own, or first in it.
geometry::Dash edge_of(const Drawing& drawing, const std::string& group) {
  const Group* found = find_group(drawing.root, group);
  const auto* shape =
      found == nullptr ? nullptr : std::get_if<geometry::Shape>(&found->elements.front().what);
  EXPECT_TRUE(shape != nullptr && shape->stroke.has_value()) << group;
  return shape != nullptr && shape->stroke ? shape->stroke->dash : geometry::Dash::kSolid;
}
std::string with_guessed_edge() {
  std::string text = kGarden;
  return text.insert(text.find("[ground]"), "guessed = [\"outline\"]\n");
}

TEST(LightSheet, DotsTheEdgeOfThePlotWhereItIsGuessed) {
  study::Study measured = study_of(kGarden), guessed = study_of(with_guessed_edge());
  EXPECT_EQ(edge_of(growing(measured), "boundary"), geometry::Dash::kChain);
  EXPECT_EQ(edge_of(growing(guessed), "boundary"), geometry::Dash::kDotted);
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

/// The print of a place as the command draws it.
Drawing print_of(study::Study& study, const std::string& place, light::Takers* takers = nullptr) {
  const auto stand = study.stand("proposed");
  const auto print = study.print("proposed", place);
  const auto year = study.places_year("proposed", nullptr, {place});
  const auto ranked = study.takers("proposed"), own = study.takers("proposed", {place});
  if (!stand || !print || !year || !ranked || !own) {
    ADD_FAILURE() << place;
    return {};
  }
  light::PrintSheet sheet{(*stand)->garden, **print,           *(*own)->find(place),
                          "as proposed",    (*ranked)->ranked, {}};
  for (std::size_t m = 0; m < 12; ++m)
    sheet.month_sun_h[m] = (*year)->find(place)->months[m].sun_h_per_day;
  if (takers != nullptr) *takers = sheet.takers;
  return light::print_drawing(sheet);
}

std::vector<Text> texts_of(const Group& group) {
  std::vector<Text> texts;
  each_text(group, [&](const Text& text) { texts.push_back(text); });
  return texts;
}
/// What stands at the right end of the row with these words.
std::string beside(const Group& group, const std::string& words) {
  const std::vector<Text> texts = texts_of(group);
  for (const Text& name : texts) {
    if (name.words != words) continue;
    for (const Text& other : texts) {
      if (other.at.y == name.at.y && other.anchor == geometry::Anchor::kEnd) return other.words;
    }
  }
  return "none";
}

TEST(PrintSheet, IsSoundAndWritesTheTablesMonths) {
  study::Study study = study_of(kGarden);
  const Drawing drawing = print_of(study, "new-bed");
  const auto year = study.places_year("proposed");
  EXPECT_TRUE(geometry::is_sound(drawing));
  for (const auto& month : (*year)->find("new-bed")->months)
    EXPECT_GE(times(drawing, fmt::format("{:.1f}", month.sun_h_per_day)), 1);
  EXPECT_EQ(times(drawing, "Jan"), 1);
  EXPECT_EQ(times(drawing, "What takes it"), 1);
  for (const Text& text : texts_of(drawing.root)) {
    EXPECT_GT(text.at.x, 0) << text.words;
    EXPECT_LE(text.at.x, drawing.width_mm - 14) << text.words;
    EXPECT_LT(text.at.y, drawing.height_mm - 4) << text.words;
  }
}

TEST(PrintSheet, DotsTheEdgeOfThePlotWhereItIsGuessed) {
  study::Study measured = study_of(kGarden), guessed = study_of(with_guessed_edge());
  EXPECT_EQ(edge_of(print_of(measured, "new-bed"), "where"), geometry::Dash::kSolid);
  EXPECT_EQ(edge_of(print_of(guessed, "new-bed"), "where"), geometry::Dash::kDotted);
}

const std::string kTwoWalls = head(48.41, 0, "UTC") + R"(
[[wall]]
id = "near"
line = [[-9,-2],[9,-2]]
height_m = 2.5
kind = "brick"
[[wall]]
id = "far"
line = [[-9,-4],[9,-4]]
height_m = 4
kind = "brick"
[[wall]]
id = "west"
line = [[-4,-1],[-4,6]]
height_m = 2
kind = "brick"
[[bed]]
id = "bed"
at = [0, 0]
size = [2, 1]
)";

// In winter's noon both walls take the bed's sun, and neither alone would give it back.
TEST(PrintSheet, StripesAnHourTakenTwiceInBothInks) {
  study::Study study = study_of(kTwoWalls);
  const Drawing drawing = print_of(study, "bed");
  const Group* bite = find_group(drawing.root, "taken-by-near-and-far");
  ASSERT_NE(bite, nullptr);
  EXPECT_EQ(bite->title, "taken by near and far at once");
  // The first's ink all over, and the second's in every other stripe.
  const auto ranked = (*study.takers("proposed"))->ranked;
  const auto tint = [&](const geometry::Shape& shape) {
    return geometry::colour_of(std::get<geometry::Paint>(shape.fills.front()));
  };
  const light::TakerInks inks(ranked);
  Group first_alone, second_alone;
  light::add_ink(first_alone, geometry::Path::box({0, 0}, 1, 1), inks.ink("near"));
  light::add_ink(second_alone, geometry::Path::box({0, 0}, 1, 1), inks.ink("far"));
  const auto& under = std::get<geometry::Shape>(bite->elements.front().what);
  EXPECT_EQ(tint(under), tint(std::get<geometry::Shape>(first_alone.elements.front().what)));
  const Group* stripes = find_group(*bite, "stripes");
  ASSERT_NE(stripes, nullptr);
  ASSERT_TRUE(stripes->clip);
  EXPECT_GT(geometry::flattened(*stripes->clip).size(), 4u);
  const auto& over = std::get<geometry::Shape>(stripes->elements.front().what);
  EXPECT_EQ(tint(over), tint(std::get<geometry::Shape>(second_alone.elements.front().what)));
  EXPECT_FALSE(tint(under) == tint(over));
  // The near wall alone takes some as well, and that is plain.
  const Group* alone = find_group(drawing.root, "taken-by-near");
  ASSERT_NE(alone, nullptr);
  EXPECT_EQ(find_group(*alone, "stripes"), nullptr);
}

TEST(PrintSheet, HasAKeyOfTheTablesHoursMostFirst) {
  study::Study study = study_of(kTwoWalls);
  light::Takers takers;
  const Drawing drawing = print_of(study, "bed", &takers);
  const Group* key = find_group(drawing.root, "key");
  ASSERT_NE(key, nullptr);
  EXPECT_GT(takers.taken_twice_h, 50);
  EXPECT_EQ(beside(*key, "taken twice, by two at once"),
            fmt::format("{:.0f}", takers.taken_twice_h));
  EXPECT_EQ(beside(*key, "taken in all"), fmt::format("{:.0f}", takers.lost_h));
  std::map<double, std::string, std::greater<>> by_hours;
  for (const light::Taker& taker : takers.takers) by_hours[taker.sun_h_per_year] = taker.id;
  std::map<std::string, double> height;
  for (const Text& text : texts_of(*key)) height[text.words] = text.at.y;
  double last = 0;
  for (const auto& [hours, id] : by_hours) {
    if (hours < 0.5 || id == "bed") continue;
    EXPECT_EQ(beside(*key, id), fmt::format("{:.0f}", hours)) << id;
    EXPECT_GT(height[id], last) << id;
    last = height[id];
  }
  EXPECT_GT(last, 0);
}

TEST(PrintSheet, LettersATakerAlikeInItsKeyAndItsPlan) {
  study::Study study = study_of(kTwoWalls);
  const Drawing drawing = print_of(study, "bed");
  const light::TakerInks inks((*study.takers("proposed"))->ranked);
  const Group *key = find_group(drawing.root, "key"),
              *plan = find_group(drawing.root, "where-takers");
  ASSERT_TRUE(key != nullptr && plan != nullptr);
  for (const char* id : {"near", "west"}) {
    const auto is_letter = [&](const Text& text) { return text.words == inks.letter(id); };
    for (const Group* group : {key, plan}) {
      const std::vector<Text> texts = texts_of(*group);
      EXPECT_EQ(std::count_if(texts.begin(), texts.end(), is_letter), 1) << id;
    }
  }
}

TEST(HoursFigure, HasFewerDigitsOnGuesses) {
  EXPECT_EQ(light::hours_figure(6.83, false), "6.8");
  EXPECT_EQ(light::hours_figure(6.83, true), "≈ 7");
  EXPECT_EQ(light::hours_figure(6.7, true), "≈ 6½");
  EXPECT_EQ(light::hours_figure(0.97, true), "≈ 1");
  EXPECT_EQ(light::hours_figure(0.44, true), "≈ 0.4");
}

TEST(PrintSheet, OfAPlaceThatNothingShadesSaysNothing) {
  study::Study study = study_of(head(48.41, 0, "UTC") + R"(
[[bed]]
id = "bed"
at = [0, 0]
size = [2, 1]
)");
  const Drawing drawing = print_of(study, "bed");
  EXPECT_TRUE(geometry::is_sound(drawing));
  EXPECT_EQ(times(drawing, "nothing"), 1);
  EXPECT_EQ(times(drawing, "taken twice, by two at once"), 0);
}

// Where the sun stays up or down for weeks there is no line of its rising.
TEST(PrintSheet, IsSoundWhereTheSunStaysUp) {
  study::Study study = study_of(head(70, 25, "UTC") + R"(
[[bed]]
id = "bed"
at = [0, 0]
size = [2, 1]
)");
  EXPECT_TRUE(geometry::is_sound(print_of(study, "bed")));
}

}  // namespace
}  // namespace spadework::testing
