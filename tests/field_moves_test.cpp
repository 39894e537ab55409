// A garden's field while one thing moves, against the field cast anew.
#include <gtest/gtest.h>

#include "garden/bodies.h"
#include "tests/scenes.h"

namespace spadework::testing {
namespace {

std::string garden_text(const std::string& tree_at, bool tree = true) {
  return head(48.41, -4.36, "Europe/Paris", 340) + R"(
[boundary]
outline = [[0,0],[9,0],[9,8],[0,8]]
[ground]
spots = [[0,0,0],[9,0,0.4],[9,8,1.5],[0,8,1.1],[4,4,0.9]]
[[wall]]
id = "lane-wall"
line = [[0,0.2],[9,0.2]]
height_m = 1.6
kind = "stone"
[[tree]]
id = "plum"
kind = "plum"
at = [6, 5]
height_m = 4
crown_width_m = 3
[[bed]]
id = "low-bed"
at = [2, 2]
size = [3, 1.2]
boards = { height = "225 mm", courses = 1, thickness = "50 mm" }
)" +
         (tree ? "[[tree]]\nid = \"medlar\"\nkind = \"medlar\"\nat = " + tree_at +
                     "\nheight_m = 5\ncrown_width_m = 4\n"
               : std::string());
}

/// How far off are the cells that change.
struct Off {
  double all = 0, most = 0;
  long cells = 0;
  void add(const std::vector<float>& now, const std::vector<float>& exact,
           const std::vector<float>& before) {
    for (std::size_t i = 0; i < now.size(); ++i) {
      if (exact[i] == before[i] || std::isnan(exact[i])) continue;
      const double off = std::abs(static_cast<double>(now[i]) - static_cast<double>(exact[i]));
      all += off, most = std::max(most, off), ++cells;
    }
  }
  [[nodiscard]] double mean() const { return all / static_cast<double>(cells); }
};

TEST(FieldMoves, GiveTheFieldCastAnew) {
  study::Study here = study_of(garden_text("[3, 4]"));
  const auto stand = here.stand("proposed");
  const auto field = here.field("proposed", 0.25);
  ASSERT_TRUE(stand && field);
  const light::SunYear sun = light::sun_year((*stand)->garden);
  const light::Scenery scenery{(*stand)->garden, (*stand)->surface, (*stand)->bed_levels_m,
                               catalogue()};
  const light::FieldMoves moves(scenery, (*stand)->bodies, sun, **field, "medlar", {2, 1, {}});
  light::Field moved = **field;
  for (const char* at : {"[3, 4]", "[5, 4.5]", "[1, 6]", "[7.5, 2]"}) {
    study::Study there = study_of(garden_text(at));
    const auto anew = there.field("proposed", 0.25);
    ASSERT_TRUE(anew);
    std::vector<garden::Body> medlar;
    for (const garden::Body& body : (*there.stand("proposed"))->bodies)
      if (body.thing == "medlar") medlar.push_back(body);
    moves.with(medlar, moved);
    EXPECT_EQ(moved.months, (*anew)->months) << at;
  }
  study::Study gone = study_of(garden_text("", false));
  const auto anew = gone.field("proposed", 0.25);
  moves.with({}, moved);
  EXPECT_EQ(moved.months, (*anew)->months);
}

// The error that field.h states.
TEST(FieldMoves, StrayLittleByEveryFourthSun) {
  study::Study here = study_of(garden_text("[3, 4]"));
  const auto stand = here.stand("proposed");
  const auto field = here.field("proposed", 0.25);
  ASSERT_TRUE(stand && field);
  const light::SunYear sun = light::sun_year((*stand)->garden);
  const light::Scenery scenery{(*stand)->garden, (*stand)->surface, (*stand)->bed_levels_m,
                               catalogue()};
  const light::FieldMoves moves(scenery, (*stand)->bodies, sun, **field, "medlar", {2, 4, {}});
  light::Field moved = **field;
  const std::vector<int> growing{3, 4, 5, 6, 7, 8};
  Off month, mean;
  for (const char* at : {"[3, 4]", "[5, 4.5]", "[1, 6]", "[7.5, 2]"}) {
    study::Study there = study_of(garden_text(at));
    const auto anew = there.field("proposed", 0.25);
    ASSERT_TRUE(anew);
    std::vector<garden::Body> medlar;
    for (const garden::Body& body : (*there.stand("proposed"))->bodies)
      if (body.thing == "medlar") medlar.push_back(body);
    moves.with(medlar, moved);
    for (std::size_t m = 0; m < 12; ++m)
      month.add(moved.months[m], (*anew)->months[m], (*field)->months[m]);
    mean.add(light::field_mean(moved, sun, growing), light::field_mean(**anew, sun, growing),
             light::field_mean(**field, sun, growing));
  }
  EXPECT_LT(month.mean(), 0.15);
  EXPECT_LT(month.most, 2);
  EXPECT_LT(mean.mean(), 0.07);
  EXPECT_LT(mean.most, 0.5);
  EXPECT_GT(mean.cells, 1000);
}

// The others stay as they are.
TEST(FieldMoves, WriteTheMonthsThatAreWanted) {
  study::Study here = study_of(garden_text("[3, 4]"));
  const auto stand = here.stand("proposed");
  const auto field = here.field("proposed", 0.25);
  ASSERT_TRUE(stand && field);
  const light::SunYear sun = light::sun_year((*stand)->garden);
  const light::Scenery scenery{(*stand)->garden, (*stand)->surface, (*stand)->bed_levels_m,
                               catalogue()};
  const light::FieldMoves moves(scenery, (*stand)->bodies, sun, **field, "medlar", {1, 1, {5}});
  light::Field moved = **field;
  moves.with({}, moved);
  study::Study gone = study_of(garden_text("", false));
  const auto anew = gone.field("proposed", 0.25);
  EXPECT_EQ(moved.months[5], (*anew)->months[5]);
  EXPECT_NE(moved.months[5], (*field)->months[5]);
  EXPECT_EQ(moved.months[6], (*field)->months[6]);
}

// Whatever the thing is: a tree that comes, moves and goes; a bed, on which the light is measured;
// another thing in between.
TEST(StudyMoves, GiveTheHoursOfTheStudyOfTheMovedGarden) {
  study::Study here = study_of(garden_text("[3, 4]"));
  const std::string low = garden_text("[3, 4]");
  const auto with = [&](const std::string& what, const std::string& by) {
    std::string text = low;
    const std::size_t at = text.find(what);
    EXPECT_NE(at, std::string::npos) << what;
    return text.replace(at, what.size(), by);
  };
  const std::vector<std::pair<std::string, std::string>> changes{
      {"medlar", garden_text("[5, 4.5]")},
      {"medlar", garden_text("[1, 6]")},
      {"medlar", garden_text("", false)},
      {"lane-wall", with("height_m = 1.6", "height_m = 0.8")},
      {"low-bed", with("at = [2, 2]", "at = [4, 3]")},
      {"low-bed", with("courses = 1", "courses = 3")},
      {"pear", low + "[[tree]]\nid = \"pear\"\nkind = \"pear\"\nat = [7, 7]\nheight_m = 4\n"
                     "crown_width_m = 2\n"}};
  for (const auto& [thing, text] : changes) {
    const auto stand = here.stand_of(draft_of(text), "proposed");
    ASSERT_TRUE(stand) << thing;
    const auto moved = here.field_moved("proposed", 0.25, *stand, thing, {});
    study::Study there = study_of(text);
    const auto anew = there.field("proposed", 0.25);
    ASSERT_TRUE(moved && anew) << thing;
    EXPECT_EQ(moved->months, (*anew)->months) << thing;
    EXPECT_EQ(moved->lies_on, (*anew)->lies_on) << thing;
  }
}

// At every cell the sun shines at an instant when the instant lies within a time of its day's sun.
TEST(FieldOfMoment, AgreesWithTheDayOfEachSpot) {
  study::Study here = study_of(garden_text("[3, 4]"));
  const LocalDate date = make_date(2026, 5, 10);
  int lit = 0, dark = 0, near_an_edge = 0;
  for (const double clock : {8.5, 12.25, 17.0, 19.5}) {
    const auto field = here.field_of_moment("proposed", 1.0, date, clock);
    ASSERT_TRUE(field.has_value());
    for (int r = 0; r < field->rows; ++r) {
      for (int c = 0; c < field->columns; ++c) {
        const std::size_t i = field->index(c, r);
        if (field->lies_on[i] != light::kOnGround) continue;
        const auto day = here.spot_day("proposed", field->middle(c, r), metres(0.002), date);
        ASSERT_TRUE(day.has_value());
        bool sunny = false, at_edge = false;
        for (const light::SunInterval& sun : day->intervals) {
          sunny |= sun.start_h <= clock && clock < sun.end_h;
          at_edge |= std::abs(sun.start_h - clock) < 0.02 || std::abs(sun.end_h - clock) < 0.02;
        }
        if (at_edge) {
          ++near_an_edge;
          continue;
        }
        EXPECT_EQ(field->months[4][i] > 0.5F, sunny) << clock << " " << c << " " << r;
        ++(sunny ? lit : dark);
      }
    }
  }
  EXPECT_GT(lit, 30);
  EXPECT_GT(dark, 30);
  EXPECT_LT(near_an_edge, lit / 10);
}

TEST(FieldOfMoment, IsDarkAtNight) {
  study::Study here = study_of(garden_text("[3, 4]"));
  const auto field = here.field_of_moment("proposed", 0.5, make_date(2026, 5, 10), 2.0);
  ASSERT_TRUE(field.has_value());
  for (const float lit : field->months[4]) EXPECT_EQ(lit, 0);
}

}  // namespace
}  // namespace spadework::testing
