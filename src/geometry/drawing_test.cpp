#include "geometry/drawing.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <limits>
#include <numbers>
#include <sstream>
#include <string>

namespace spadework::geometry {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kNan = std::numeric_limits<double>::quiet_NaN();

double total_length(const std::vector<Segment>& lines) {
  double sum = 0;
  for (const auto& [a, b] : lines) sum += length(b - a);
  return sum;
}

TEST(LightColour, IsTheRampAtItsKnots) {
  for (std::size_t i = 0; i < kLightKnots_h.size(); ++i)
    EXPECT_EQ(light_colour(kLightKnots_h[i]), kLightRamp[i]) << kLightKnots_h[i];
}

TEST(LightColour, IsHeldBeyondItsEnds) {
  EXPECT_EQ(light_colour(-3), kLightRamp.front());
  EXPECT_EQ(light_colour(15.2), kLightRamp.back());
  EXPECT_EQ(light_colour(kNan), kLightRamp.front());
  EXPECT_EQ(light_colour(std::numeric_limits<double>::infinity()), kLightRamp.back());
}

TEST(LightColour, GrowsLighterWithEveryHour) {
  double before = -1;
  for (int tenth = 0; tenth <= 100; ++tenth) {
    const double lightness = to_oklab(light_colour(tenth / 10.0)).l;
    EXPECT_GE(lightness, before - 0.002) << tenth;  // one step of 8 bits
    before = lightness;
  }
}

// tests/golden/colour_mix: a browser's color-mix in Oklab.
TEST(LightColour, MixesAsABrowserDoes) {
  std::ifstream file(SPADEWORK_SOURCE_DIR "/tests/golden/colour_mix/data.csv");
  std::string line;
  std::getline(file, line);
  int rows = 0;
  for (; std::getline(file, line); ++rows) {
    std::replace(line.begin(), line.end(), ',', ' ');
    std::istringstream in(line);
    double hours = 0;
    int r = 0, g = 0, b = 0;
    in >> hours >> r >> g >> b;
    const Colour c = light_colour(hours);
    EXPECT_NEAR(c.r, r, 1) << hours;
    EXPECT_NEAR(c.g, g, 1) << hours;
    EXPECT_NEAR(c.b, b, 1) << hours;
  }
  EXPECT_EQ(rows, 41);
}

TEST(Oklab, GivesEveryGreyBack) {
  for (int v = 0; v < 256; ++v) {
    const auto grey = static_cast<std::uint8_t>(v);
    EXPECT_EQ(from_oklab(to_oklab({grey, grey, grey})), (Colour{grey, grey, grey}));
  }
}

TEST(Path, CircleKeepsItsRadius) {
  for (const FlatLine& ring : flattened(Path::circle({10, 20}, 50), 0.01))
    for (const Vec2 p : ring.points) EXPECT_NEAR(length(p - Vec2{10, 20}), 50, 50 * 3e-4);
}

TEST(Path, FlatPiecesStayCloseToTheCurve) {
  const std::vector<FlatLine> rings = flattened(Path::circle({0, 0}, 50), 0.05);
  ASSERT_EQ(rings.size(), 1U);
  EXPECT_TRUE(rings[0].closed);
  for (std::size_t i = 0, n = rings[0].points.size(); i < n; ++i) {
    const Vec2 middle = (rings[0].points[i] + rings[0].points[(i + 1) % n]) * 0.5;
    EXPECT_GT(length(middle), 50 - 0.05 - 50 * 3e-4);
  }
}

TEST(Path, ArcTurnsAnticlockwiseAsSeen) {
  const std::vector<FlatLine> arc = flattened(Path::arc({0, 0}, 1, 0, kPi / 2));
  EXPECT_NEAR(arc[0].points.front().x, 1, 1e-12);
  EXPECT_NEAR(arc[0].points.back().y, -1, 1e-12);  // up the paper
}

TEST(Path, SmoothLineRunsThroughItsPoints) {
  const std::vector<Vec2> points{{0, 0}, {10, 3}, {12, 9}, {30, 9}};
  const Path path = Path::smooth(points);
  ASSERT_EQ(path.steps().size(), points.size());
  for (std::size_t i = 0; i < points.size(); ++i) EXPECT_EQ(path.steps()[i].to, points[i]);
}

TEST(PlanOnPaper, TurnsUpThePageIntoUpThePaper) {
  const PlanOnPaper plan{{20, 200}, 20};
  EXPECT_EQ(plan.paper(Vec2{1, 2}), (Vec2{40, 160}));
}

TEST(Hatch, HasAsMuchLineAsAreaOverSpacing) {
  const Path box = Path::box({3, 4}, 40, 30);
  for (const double angle : {0.0, kPi / 4, 1.1, kPi / 2}) {
    const LineHatch hatch{angle, 0.8, kFineMm, Role::kInk};
    EXPECT_NEAR(total_length(hatch_lines(box, hatch)), 40 * 30 / 0.8, 40 / 0.8) << angle;
  }
}

TEST(Hatch, LeavesHolesOpen) {
  Path ring = Path::box({0, 0}, 20, 20);
  ring.add(Path::box({5, 5}, 10, 10));
  for (const auto& [a, b] : hatch_lines(ring, diagonal_hatch())) {
    const Vec2 middle = (a + b) * 0.5;
    EXPECT_FALSE(middle.x > 5 && middle.x < 15 && middle.y > 5 && middle.y < 15);
  }
}

TEST(Hatch, RunsOnAcrossCellsThatTouch) {
  Path cells;
  for (int i = 0; i < 4; ++i) cells.add(Path::box({i * 5.0, 0}, 5, 5));
  EXPECT_EQ(hatch_lines(cells, level_hatch()).size(),
            hatch_lines(Path::box({0, 0}, 20, 5), level_hatch()).size());
}

TEST(Hatch, OfWhatIsNoNumberIsNothing) {
  EXPECT_TRUE(hatch_lines(Path::polygon({{0, 0}, {kNan, 1}, {5, 5}}), diagonal_hatch()).empty());
  EXPECT_TRUE(stipple_dots(Path::polygon({{0, 0}, {kNan, 1}, {5, 5}}), Stipple{}).empty());
  EXPECT_TRUE(stipple_dots(Path::box({0, 0}, 1e9, 1e9), Stipple{}).empty());
}

TEST(Stipple, HasItsDensity) {
  Stipple stipple{0.8, 0.25, Role::kInk};
  stipple.keep_off_mm = 0;
  const auto dots = stipple_dots(Path::box({7, 9}, 80, 60), stipple);
  EXPECT_NEAR(static_cast<double>(dots.size()), 0.8 * 80 * 60, 0.04 * 0.8 * 80 * 60);
}

TEST(Stipple, SpreadsDotsEvenly) {
  const Stipple stipple{0.5, 0.25, Role::kInk};
  const auto dots = stipple_dots(Path::box({0, 0}, 40, 40), stipple);
  for (std::size_t i = 0; i < dots.size(); ++i)
    for (std::size_t j = 0; j < i; ++j)
      EXPECT_GT(length(dots[i] - dots[j]), 0.45 / std::sqrt(0.5));  // at random some would touch
}

TEST(Stipple, KeepsOffTheOutline) {
  Stipple stipple{1.0, 0.25, Role::kInk};
  stipple.keep_off_mm = 0.5;
  const Polygon ring{{0, 0}, {30, 4}, {22, 25}, {3, 17}};
  for (const Vec2 p : stipple_dots(Path::polygon(ring), stipple)) {
    EXPECT_TRUE(contains(ring, p));
    EXPECT_GE(distance_to_outline(p, ring), 0.5);
  }
}

TEST(Stipple, MovesWithItsThing) {
  Stipple stipple{0.5, 0.25, Role::kInk};
  stipple.seed = seed_of("medlar");
  const auto here = stipple_dots(Path::circle({20, 20}, 10), stipple);
  stipple.anchor = {13.5, -4};
  const auto there = stipple_dots(Path::circle({33.5, 16}, 10), stipple);
  ASSERT_EQ(here.size(), there.size());
  ASSERT_GT(here.size(), 50U);
  for (const Vec2 p : here)
    EXPECT_TRUE(std::any_of(there.begin(), there.end(), [&](Vec2 q) {
      return length(q - p - Vec2{13.5, -4}) < 1e-9;
    }));
}

TEST(Stipple, StaysPutWhenTheOutlineGrows) {
  const Stipple stipple{0.5, 0.25, Role::kInk};
  const auto small = stipple_dots(Path::box({0, 0}, 20, 20), stipple);
  const auto large = stipple_dots(Path::box({0, 0}, 30, 26), stipple);
  for (const Vec2 p : small) EXPECT_NE(std::find(large.begin(), large.end(), p), large.end());
}

TEST(Stipple, ThinsAwayFromItsSide) {
  Stipple stipple{1.0, 0.25, Role::kInk};
  stipple.toward = {1, 0};
  int left = 0, right = 0;
  for (const Vec2 p : stipple_dots(Path::box({0, 0}, 40, 40), stipple)) p.x < 20 ? ++left : ++right;
  EXPECT_GT(right, 2.3 * left);  // three to one at this slope
}

TEST(TakerFill, IsEachTakersOwn) {
  for (int i = 0; i < 5; ++i) {
    const LineHatch a = std::get<LineHatch>(taker_fill(i));
    EXPECT_EQ(colour_of(a.ink), kTakerInks[static_cast<std::size_t>(i)]);
    for (int j = 0; j < i; ++j) {
      const LineHatch b = std::get<LineHatch>(taker_fill(j));
      EXPECT_TRUE(a.angle_rad != b.angle_rad || a.crossed != b.crossed) << i << " and " << j;
    }
  }
  EXPECT_EQ(colour_of(std::get<Stipple>(taker_fill(5)).ink), colour_of(Role::kGraphite));
  EXPECT_EQ(colour_of(taker_ink(-1)), colour_of(Role::kSkyline));
}

double even_odd_area(const Path& path) {
  double sum = 0;
  for (const FlatLine& ring : flattened(path)) sum += signed_area(ring.points);
  return sum;
}

TEST(CellOutline, HoldsAsMuchAsItsCells) {
  const auto in = [](int c, int r) { return (c * 7 + r * 5) % 3 != 0; };
  int cells = 0;
  for (int r = 0; r < 9; ++r)
    for (int c = 0; c < 12; ++c) cells += in(c, r) ? 1 : 0;
  EXPECT_NEAR(even_odd_area(outline_of_cells(12, 9, in, {{5, 5}, {2, 0}, {0, 2}})), cells * 4.0,
              1e-9);
}

TEST(CellOutline, RingsAHole) {
  const auto in = [](int c, int r) { return !(c == 1 && r == 1); };
  const std::vector<FlatLine> rings = flattened(outline_of_cells(3, 3, in, {}));
  ASSERT_EQ(rings.size(), 2U);
  EXPECT_EQ(rings[0].points.size(), 4U);
  EXPECT_EQ(rings[1].points.size(), 4U);
}

TEST(CellOutline, KeepsCellsApartThatMeetAtACorner) {
  const auto in = [](int c, int r) { return c == r; };
  EXPECT_EQ(flattened(outline_of_cells(2, 2, in, {})).size(), 2U);
}

TEST(Drawing, CountsThroughItsGroups) {
  Group root;
  Group& inner = root.add_group("a", "A");
  inner.add({Shape{}});
  inner.add({Text{}});
  inner.add_group("b").add({Dots{}});
  root.add({CellImage{}});
  EXPECT_EQ(count_elements(root), (ElementCount{1, 1, 1, 1, 2}));
}

TEST(Drawing, IsUnsoundWithAFigureThatIsNoNumber) {
  Drawing drawing;
  drawing.width_mm = 100, drawing.height_mm = 100;
  EXPECT_TRUE(is_sound(drawing));
  Drawing path = drawing, dots = drawing, text = drawing, image = drawing, clip = drawing;
  path.root.add({Shape{Path::segment({0, 0}, {kNan, 1}), {}, Stroke{}}});
  EXPECT_FALSE(is_sound(path));
  dots.root.add_group("deep").add({Dots{{{1, kNan}}, 0.2, Role::kInk}});
  EXPECT_FALSE(is_sound(dots));
  text.root.add({Text{{0, std::numeric_limits<double>::infinity()}, "x"}});
  EXPECT_FALSE(is_sound(text));
  image.root.add({CellImage{2, 2, {Colour{}}, {}, {}}});
  EXPECT_FALSE(is_sound(image));
  clip.root.clip = Path::circle({0, 0}, kNan);
  EXPECT_FALSE(is_sound(clip));
}

TEST(Dash, ProposedIsLongerThanRemoved) {
  EXPECT_GT(dash_pattern_mm(Dash::kProposed)[0], 2 * dash_pattern_mm(Dash::kRemoved)[0]);
  EXPECT_TRUE(dash_pattern_mm(Dash::kSolid).empty());
  const auto contour = dash_pattern_mm(Dash::kContour);
  EXPECT_DOUBLE_EQ(contour[0] / contour[1], 6.0 / 3);
  const auto guessed = dash_pattern_mm(Dash::kContourGuessed);
  EXPECT_DOUBLE_EQ(guessed[0] / guessed[1], 1.0 / 3);
}

}  // namespace
}  // namespace spadework::geometry
