// Sections against closed forms, and their sun against spot_day.
#include "study/section.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <functional>
#include <numbers>
#include <sstream>

#include "base/random.h"
#include "sky/sky.h"
#include "tests/scenes.h"

namespace spadework::testing {
namespace {

using geometry::Vec2;
using study::Section;
using study::SectionLine;
using study::SectionMoment;

const std::string kLevel = R"(
[boundary]
outline = [[-20,-20],[20,-20],[20,20],[-20,20]]
)";

std::string at_brest() { return head(48.41, -4.36, "Europe/Paris"); }

Section section(const std::string& text, const SectionLine& line,
                const std::optional<SectionMoment>& moment = {}) {
  study::Study study = study_of(text);
  const auto stand = study.stand("proposed");
  EXPECT_TRUE(stand.has_value());
  auto out = study::section_of(**stand, catalogue(), line, moment);
  EXPECT_TRUE(out.has_value()) << out.error().message;
  return out ? std::move(*out) : Section{};
}

const study::SectionThing* cut(const Section& section, const std::string& id) {
  for (const study::SectionThing& thing : section.cuts)
    if (thing.id == id) return &thing;
  return nullptr;
}

/// The first time in a day's afternoon at which the sun's tangent, seen along a line that runs
/// towards `along`, is 1; solved by halving.
double clock_of_45_degrees(const garden::Site& site, LocalDate date,
                           const std::function<Vec2(double)>& line_at) {
  const auto tangent = [&](double clock_h) {
    const auto sun = sky::sun_position(site.time_zone.at_clock(date, clock_h),
                                       {site.latitude, site.longitude, site.elevation});
    const geometry::Vec3 to =
        sky::direction_towards(sun.azimuth, sun.apparent_elevation, site.plan_north);
    return to.z / std::abs(dot(to.plan(), line_at(clock_h)));
  };
  double low = 14.2, high = 20;  // falls from noon on
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (tangent(middle) > 1 ? low : high) = middle;
  }
  return low;
}

// Source: closed form: at 45° a shadow is as long as what casts it is high.
TEST(Section, ShadowOfAWallEndsAtItsHeightWhereTheSunIsAt45DegreesInItsPlane) {
  const LocalDate date = make_date(2026, 6, 21);
  const garden::Garden garden = garden_of(at_brest() + kLevel);
  const auto towards_sun = [&](double clock_h) {
    const garden::Site& site = garden.site;
    const auto sun = sky::sun_position(site.time_zone.at_clock(date, clock_h),
                                       {site.latitude, site.longitude, site.elevation});
    return geometry::unit(
        sky::direction_towards(sun.azimuth, sun.apparent_elevation, site.plan_north).plan());
  };
  const double clock_h = clock_of_45_degrees(garden.site, date, towards_sun);
  const Vec2 along = towards_sun(clock_h), across = geometry::left_of(along);
  const Vec2 end_1 = across * 8, end_2 = across * -8;
  const Section got =
      section(at_brest() + kLevel +
                  fmt::format("[[wall]]\nid = \"wall\"\nline = [[{},{}],[{},{}]]\nheight_m = 2\n"
                              "thickness_m = 0.2\nkind = \"stone\"\n",
                              end_1.x, end_1.y, end_2.x, end_2.y),
              {along * -6, along * 6}, SectionMoment{date, clock_h});
  ASSERT_TRUE(got.sun.has_value());
  EXPECT_NEAR(got.sun->up_deg, 45, 0.01);
  EXPECT_NEAR(got.sun->in_section_deg, 45, 0.01);
  EXPECT_TRUE(got.sun->from_b);
  // The wall is cut from 5.9 to 6.1 m; the sun comes from B.
  ASSERT_EQ(got.lit.size(), 2U);
  EXPECT_NEAR(got.lit[0].from_m, 0, 1e-6);
  EXPECT_NEAR(got.lit[0].to_m, 5.9 - 2, 0.004);
  EXPECT_NEAR(got.lit[1].from_m, 6.1, 0.004);
  EXPECT_NEAR(got.lit[1].to_m, 12, 1e-6);
  const study::SectionThing* wall = cut(got, "wall");
  ASSERT_NE(wall, nullptr);
  EXPECT_NEAR(wall->from_m, 5.9, 1e-5);
  EXPECT_NEAR(wall->to_m, 6.1, 1e-5);
  EXPECT_NEAR(wall->top_m, 2, 1e-9);
  ASSERT_FALSE(got.rays.empty());
  EXPECT_NEAR(got.rays[0].foot.x, 3.9, 0.004);
  const Vec2 ray = got.rays[0].over - got.rays[0].foot;
  EXPECT_NEAR(ray.y / ray.x, 1, 1e-3);
}

// Source: closed form: between spot levels on a ridge the ground is straight.
TEST(Section, GroundIsExactAtItsBreaks) {
  const Section got = section(at_brest() + kLevel + R"(
[ground]
spots = [[-20,-20,0],[20,-20,0],[-20,0,2],[20,0,2],[-20,20,0],[20,20,0]]
)",
                              {{0, -10}, {0, 10}});
  ASSERT_EQ(got.ground.size(), 3U);
  EXPECT_NEAR(got.ground[0].y, 1, 1e-9);
  EXPECT_NEAR(got.ground[1].x, 10, 1e-9);
  EXPECT_NEAR(got.ground[1].y, 2, 1e-9);
  EXPECT_NEAR(got.ground[2].y, 1, 1e-9);
  EXPECT_NEAR(got.length_m, 20, 1e-12);
  // A slope of one in ten looked at askew rises by its cosine.
  const Section askew = section(at_brest() + kLevel + R"(
[ground]
spots = [[-20,-20,-2],[20,-20,-2],[-20,20,2],[20,20,2]]
)",
                                {{-5, -5}, {5, 5}});
  ASSERT_EQ(askew.ground.size(), 2U);
  EXPECT_NEAR(askew.ground[1].y - askew.ground[0].y, 0.1 * 10, 1e-9);
}

const char* const kBedOnASlope = R"(
[ground]
spots = [[-20,-20,-2],[20,-20,-2],[-20,20,2],[20,20,2]]
[[bed]]
id = "bed"
at = [-2,0]
size = [4,1.2]
boards = { height = "225 mm", courses = 2, thickness = "50 mm" }
freeboard_m = 0.03
)";

TEST(Section, BedShowsItsLevelBoardsCutAndFill) {
  const Section got = section(at_brest() + kLevel + kBedOnASlope, {{0, -3}, {0, 3}});
  ASSERT_EQ(got.beds.size(), 1U);
  const study::SectionBed& bed = got.beds[0];
  EXPECT_NEAR(bed.from_m, 3, 1e-9);
  EXPECT_NEAR(bed.to_m, 4.2, 1e-9);
  EXPECT_NEAR(bed.level_m, 0.06, 1e-9);  // the mean ground: as much cut as fill
  EXPECT_NEAR(bed.ground_from_m, 0, 1e-9);
  EXPECT_NEAR(bed.ground_to_m, 0.12, 1e-9);
  ASSERT_TRUE(bed.boards.has_value());
  EXPECT_NEAR(bed.boards->top_m, 0.09, 1e-9);
  EXPECT_NEAR(bed.boards->foot_m, 0.09 - 0.45, 1e-9);
  ASSERT_EQ(bed.boards->cut.size(), 2U);
  EXPECT_NEAR(bed.boards->cut[0].to_m - bed.boards->cut[0].from_m, 0.05, 1e-9);
  EXPECT_NEAR(bed.boards->cut[1].from_m, 4.15, 1e-9);
  // Askew a board is thicker by the inverse sine: at 45° √2.
  const Section askew = section(at_brest() + kLevel + kBedOnASlope, {{-2, -1.4}, {2, 2.6}});
  ASSERT_EQ(askew.beds.size(), 1U);
  EXPECT_NEAR(askew.beds[0].boards->cut[0].to_m - askew.beds[0].boards->cut[0].from_m,
              0.05 * std::numbers::sqrt2, 1e-9);
}

std::string tree(const std::string& form) {
  return at_brest() + kLevel + "[[tree]]\nid = \"tree\"\nkind = \"apple\"\nat = [0,0]\n" +
         "height_m = 6\ncrown_base_m = 2\ncrown_width_m = 4\nshape = \"" + form + "\"\n";
}

// Source: closed form: a crown cut at d from its middle is √(1 − (d/r)²) of its width there.
TEST(Section, CrownCutOffItsMiddleIsNarrowerByTheRootOfOneLessTheSquare) {
  const double r = 2, high = 4;
  for (const double d : {0.0, 0.7, 1.3, 1.9}) {
    const double k = std::sqrt(1 - d * d / (r * r));
    const SectionLine line{{-5, d}, {5, d}};
    const Section round = section(tree("round"), line);
    ASSERT_NE(cut(round, "tree"), nullptr) << d;
    EXPECT_NEAR(cut(round, "tree")->from_m, 5 - k * r, 1e-6);
    EXPECT_NEAR(cut(round, "tree")->to_m, 5 + k * r, 1e-6);
    EXPECT_NEAR(cut(round, "tree")->top_m, 4 + k * high / 2, 1e-9);
    const Section column = section(tree("column"), line);
    EXPECT_NEAR(cut(column, "tree")->from_m, 5 - k * r, 1e-6);
    EXPECT_NEAR(cut(column, "tree")->top_m, 6, 1e-9);
    const Section cone = section(tree("cone"), line);
    EXPECT_NEAR(cut(cone, "tree")->from_m, 5 - k * r, 1e-6);
    EXPECT_NEAR(cut(cone, "tree")->top_m, 2 + high * (1 - d / r), 1e-9);
    const Section dome = section(tree("spreading"), line);
    EXPECT_NEAR(cut(dome, "tree")->to_m, 5 + k * r, 1e-6);
    EXPECT_NEAR(cut(dome, "tree")->top_m, 2 + high * k, 1e-9);
    // Every point of the ring lies on the ellipsoid.
    for (const Vec2 p : cut(round, "tree")->outlines[0].ring) {
      const double x = p.x - 5, z = p.y - 4;
      EXPECT_NEAR((x * x + d * d) / (r * r) + z * z / 4, 1, 1e-9);
    }
  }
  const Section beside = section(tree("round"), {{-5, 2.5}, {5, 2.5}});
  EXPECT_TRUE(beside.cuts.empty());
  ASSERT_EQ(beside.beside.size(), 1U);
  EXPECT_EQ(beside.beside[0].id, "tree");
  EXPECT_TRUE(section(tree("round"), {{-5, 3.1}, {5, 3.1}}).beside.empty());
}

// Source: closed form: a gable cut across its ridge is a house: walls, and a point over the middle.
TEST(Section, HouseIsCutAsOneWithItsRoof) {
  const Section got = section(at_brest() + kLevel + R"(
[[building]]
id = "house"
outline = [[-4,-2],[4,-2],[4,2],[-4,2]]
eaves_m = 2.5
ridge_m = 4
roof = "gable"
)",
                              {{1, -5}, {1, 5}});
  const study::SectionThing* house = cut(got, "house");
  ASSERT_NE(house, nullptr);
  ASSERT_EQ(house->outlines.size(), 1U);
  EXPECT_NEAR(house->from_m, 3, 1e-6);
  EXPECT_NEAR(house->to_m, 7, 1e-6);
  EXPECT_NEAR(house->top_m, 4, 1e-5);
  std::vector<Vec2> ring = house->outlines[0].ring;
  const double area = geometry::signed_area(ring);
  EXPECT_NEAR(area, 4 * 3.0 + 4 * 1.5 / 2, 1e-4);  // it stands half a metre deep
}

TEST(Section, ShowsBesideOnlyWhatIsWithinAMetreOfItsStretch) {
  const auto beside = [](const std::string& wall, const SectionLine& line) {
    const Section got = section(at_brest() + kLevel +
                                    "[[wall]]\nid = \"wall\"\nheight_m = 1\nthickness_m = 0.2\n"
                                    "kind = \"stone\"\nline = " +
                                    wall + "\n",
                                line);
    EXPECT_TRUE(got.cuts.empty());
    return got.beside.size();
  };
  const SectionLine line{{-5, 0}, {5, 0}};
  EXPECT_EQ(beside("[[-2,1],[2,1]]", line), 1U);
  EXPECT_EQ(beside("[[-9,1],[9,1]]", line), 1U);  // it goes on past both ends
  EXPECT_EQ(beside("[[-2,1.2],[2,1.2]]", line), 0U);
  EXPECT_EQ(beside("[[7,0.5],[9,0.5]]", line), 0U);  // beyond B
}

TEST(Section, WhatStandsBesideEndsAtTheGroundWhereItStands) {
  // The ground rises by half a metre for each metre that y grows.
  const Section got = section(at_brest() + R"(
[boundary]
outline = [[-9,-9],[9,-9],[9,9],[-9,9]]
[ground]
spots = [[-9,-9,-4.5],[9,-9,-4.5],[9,9,4.5],[-9,9,4.5]]
[[container]]
id = "pot"
at = [-3, 0.8]
volume_l = 40
height_m = 0.5
[[tank]]
id = "butt"
at = [0, 0.8]
litres = 200
[[object]]
id = "bin"
outline = [[3, 0.4], [4, 0.4], [4, 1], [3, 1]]
height_m = 1
what = "a bin"
)",
                              {{-5, 0}, {5, 0}});
  ASSERT_EQ(got.beside.size(), 3U);
  for (const study::SectionThing& thing : got.beside) {
    double low = 1e300;
    for (const auto& outline : thing.outlines)
      for (const Vec2 p : outline.ring) low = std::min(low, p.y);
    // At the lowest ground beneath it: of a round one half its width before its middle.
    const double near = thing.id == "bin" ? 0.4 : 0.8 - (thing.to_m - thing.from_m) / 2;
    EXPECT_NEAR(low, near / 2, 0.01) << thing.id;
    EXPECT_GT(thing.top_m, 0.5) << thing.id;
  }
}

TEST(Section, SaysThatTheSunIsDownAtNight) {
  const Section got =
      section(at_brest() + kLevel, {{-5, 0}, {5, 0}}, SectionMoment{make_date(2026, 6, 21), 1});
  EXPECT_FALSE(got.sun.has_value());
  EXPECT_TRUE(got.lit.empty());
  EXPECT_EQ(got.sun_says, "the sun is down");
}

TEST(Section, LiesInShadeBehindTheSkylineUnderAWeakSunAndOnASlopeTurnedAway) {
  const SectionLine line{{-5, 0}, {5, 0}};
  const LocalDate date = make_date(2026, 6, 21);
  const Section hidden = section(at_brest() + kLevel + "[ground]\nhorizon = [[0,40],[180,40]]\n",
                                 line, SectionMoment{date, 9});
  ASSERT_TRUE(hidden.sun.has_value());
  EXPECT_LT(hidden.sun->up_deg, 40);
  EXPECT_TRUE(hidden.lit.empty());
  EXPECT_NE(hidden.sun_says.find("behind the skyline"), std::string::npos);
  const Section weak =
      section(at_brest() + kLevel, line, SectionMoment{date, 6.5});  // the sun rises at 6:17
  ASSERT_TRUE(weak.sun.has_value());
  EXPECT_TRUE(weak.lit.empty());
  EXPECT_NE(weak.sun_says.find("too weak"), std::string::npos);
  // Ground that falls to the west by 40° sees nothing of a sun 24° up in the east.
  const auto on_slope = [&](double clock_h) {
    return section(at_brest() + kLevel +
                       "[ground]\nspots = [[-20,-20,-16.8],[-20,20,-16.8],[20,-20,16.8],"
                       "[20,20,16.8]]\n",
                   line, SectionMoment{date, clock_h});
  };
  EXPECT_TRUE(on_slope(9).lit.empty());
  EXPECT_TRUE(on_slope(9).sun->from_b);
  const Section evening = on_slope(19);
  ASSERT_EQ(evening.lit.size(), 1U);
  EXPECT_NEAR(evening.lit[0].to_m - evening.lit[0].from_m, 10, 1e-6);
  EXPECT_FALSE(evening.sun->from_b);
}

TEST(Section, OfABareGardenIsItsGroundInTheSun) {
  const Section got =
      section(at_brest(), {{0, 0}, {5, 0}}, SectionMoment{make_date(2026, 6, 21), 13});
  EXPECT_EQ(got.ground.size(), 2U);
  EXPECT_TRUE(got.beds.empty() && got.cuts.empty() && got.beside.empty());
  ASSERT_EQ(got.lit.size(), 1U);
  EXPECT_NEAR(got.lit[0].to_m, 5, 1e-6);
  const garden::Garden garden = garden_of(at_brest());
  const auto drawing = study::section_drawing({got, garden, "bare", 0});
  EXPECT_TRUE(geometry::is_sound(drawing));
  EXPECT_GT(drawing.height_mm, 40);
}

TEST(Section, RefusesLinesThatShowNothing) {
  study::Study study = study_of(at_brest() + kLevel);
  const auto stand = study.stand("proposed");
  const double none = std::nan("");
  for (const auto& [line, where] :
       std::vector<std::pair<SectionLine, std::string>>{{{{1, 1}, {1, 1.05}}, "to"},
                                                        {{{0, 0}, {800, 0}}, "to"},
                                                        {{{none, 0}, {1, 0}}, "line"},
                                                        {{{25, -5}, {25, 5}}, "from"},
                                                        {{{0, 0}, {60, 0}}, "to"}}) {
    const auto got = study::section_of(**stand, catalogue(), line);
    ASSERT_FALSE(got.has_value()) << where;
    EXPECT_EQ(got.error().where, where);
    EXPECT_FALSE(got.error().hint.empty());
  }
  for (const double scale : {0.5, 101.0, none, -1.0})
    EXPECT_FALSE(
        study::section_picture(study, "proposed", {{-5, 0}, {5, 0}}, {}, scale).has_value());
  EXPECT_FALSE(
      study::section_picture(study, "proposed", {{-20, -20}, {20, 20}}, {}, 80).has_value());
}

/// A garden of invented things on a rolling ground.
std::string random_garden(Random& random) {
  std::string text = at_brest() + R"(
[boundary]
outline = [[0,0],[14,0],[14,14],[0,14]]
[ground]
horizon = [[0,2],[90,6],[180,9],[270,3]]
)";
  text += "spots = [";
  for (const Vec2 p : {Vec2{0, 0}, {14, 0}, {14, 14}, {0, 14}, {7, 6}, {4, 10}})
    text += fmt::format("[{},{},{:.2f}],", p.x, p.y, random.between(0, 1.2));
  text += "]\n";
  for (int i = 0; i < 3; ++i)
    text += fmt::format(
        "[[wall]]\nid = \"wall-{}\"\nline = [[{:.2f},{:.2f}],[{:.2f},{:.2f}]]\nheight_m = {:.2f}\n"
        "kind = \"{}\"\n",
        i, random.between(0, 14), random.between(0, 14), random.between(0, 14),
        random.between(0, 14), random.between(0.8, 2.4), i == 0 ? "hurdle" : "stone");
  for (int i = 0; i < 3; ++i)
    text += fmt::format(
        "[[tree]]\nid = \"tree-{}\"\nkind = \"medlar\"\nat = [{:.2f},{:.2f}]\nheight_m = {:.2f}\n"
        "crown_width_m = {:.2f}\n",
        i, random.between(1, 13), random.between(1, 13), random.between(3, 7),
        random.between(2, 4));
  for (int i = 0; i < 3; ++i)
    text += fmt::format(
        "[[bed]]\nid = \"bed-{}\"\nat = [{:.2f},{:.2f}]\nsize = [3,1.2]\n{}", i,
        2 + random.between(0, 4), 2 + 3.5 * i,
        i == 2 ? "" : "boards = { height = \"225 mm\", courses = 1, thickness = \"38 mm\" }\n");
  return text;
}

bool in_stretches(const std::vector<study::SectionStretch>& all, double s) {
  return std::any_of(all.begin(), all.end(),
                     [&](const auto& one) { return s >= one.from_m && s <= one.to_m; });
}

TEST(Section, SunAgreesWithTheDayOfEachSpotAndBedsWithTheirLevels) {
  int asked = 0, lit = 0, apart = 0;
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    Random random(seed);
    study::Study study = study_of(random_garden(random));
    const auto stand = study.stand("proposed");
    ASSERT_TRUE(stand.has_value());
    const SectionLine line{{random.between(0, 6), random.between(0, 4)},
                           {random.between(7, 14), random.between(8, 14)}};
    const SectionMoment moment{make_date(2026, 4 + static_cast<unsigned>(seed % 5), 11),
                               random.between(9, 18)};
    const auto got = study::section_of(**stand, catalogue(), line, moment);
    ASSERT_TRUE(got.has_value());
    const auto levels = ground::bed_levels((*stand)->garden, (*stand)->surface);
    for (const study::SectionBed& bed : got->beds) {
      const std::vector<garden::Bed>& all = (*stand)->garden.beds;
      const auto same = std::find_if(all.begin(), all.end(),
                                     [&](const garden::Bed& one) { return one.id == bed.id; });
      EXPECT_EQ(bed.level_m, levels[static_cast<std::size_t>(same - all.begin())].level_m);
    }
    for (int i = 0; i < 10; ++i) {
      const double s = random.between(0, got->length_m);
      const Vec2 at = line.from + geometry::unit(line.to - line.from) * s;
      const auto day = study.spot_day("proposed", at, metres(0), moment.date);
      ASSERT_TRUE(day.has_value());
      bool sunny = false, at_turn = false;
      for (const light::SunInterval& one : day->intervals) {
        sunny = sunny || (moment.clock_h >= one.start_h && moment.clock_h <= one.end_h);
        for (const double turn : {one.start_h, one.end_h})
          at_turn = at_turn || std::abs(turn - moment.clock_h) < 0.01;
      }
      if (at_turn) continue;
      ++asked;
      lit += sunny;
      apart += in_stretches(got->lit, s) != sunny;
      EXPECT_EQ(in_stretches(got->lit, s), sunny) << "seed " << seed << " at " << s;
    }
  }
  EXPECT_GT(asked, 100);
  EXPECT_GT(lit, 25);
  EXPECT_GT(asked - lit, 25);
  EXPECT_EQ(apart, 0);
}

void each_text(const geometry::Group& group,
               const std::function<void(const geometry::Text&)>& act) {
  for (const geometry::Element& element : group.elements) {
    if (const auto* text = std::get_if<geometry::Text>(&element.what)) act(*text);
    if (const auto* inner = std::get_if<geometry::Group>(&element.what)) each_text(*inner, act);
  }
}

TEST(Section, PictureOfKerAvelNamesWhatIsCutAndIsSound) {
  std::ifstream file(SPADEWORK_SOURCE_DIR "/examples/ker-avel.toml");
  std::stringstream text;
  text << file.rdbuf();
  study::Study study = study_of(text.str());
  const auto got = study::section_picture(study, "proposed", {{8.2, 0}, {7.2, 22.5}},
                                          SectionMoment{make_date(2026, 6, 21), 9.5});
  ASSERT_TRUE(got.has_value()) << got.error().message;
  EXPECT_TRUE(geometry::is_sound(got->drawing));
  EXPECT_GE(got->section.beds.size(), 5U);
  std::vector<std::string> words;
  each_text(got->drawing.root, [&](const geometry::Text& one) {
    words.push_back(one.words);
    EXPECT_GE(one.at.x, 0);
    EXPECT_LE(one.at.x, got->drawing.width_mm);
    EXPECT_GE(one.at.y, 0);
    EXPECT_LE(one.at.y, got->drawing.height_mm);
  });
  const auto says = [&](const std::string& word) {
    return std::find(words.begin(), words.end(), word) != words.end();
  };
  for (const study::SectionBed& bed : got->section.beds) {
    EXPECT_TRUE(says(bed.id)) << bed.id;
    EXPECT_TRUE(says(length_says(metres(bed.level_m), Units::kMetric, 2))) << bed.id;
  }
  for (const study::SectionThing& thing : got->section.cuts)
    EXPECT_TRUE(thing.table == "plant" || says(thing.id)) << thing.id;
}

}  // namespace
}  // namespace spadework::testing
