#include "geometry/symbols.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

namespace spadework::geometry {
namespace {

constexpr double kPi = std::numbers::pi;
const Polygon kRing{{10, 10}, {50, 10}, {50, 30}, {10, 30}};
const std::vector<Vec2> kLine{{5, 40}, {40, 40}, {60, 20}};

using Append = std::function<void(Group&, const Mark&)>;
struct Symbol {
  std::string name;
  Append append;
};

std::vector<Symbol> symbols_of_things() {
  return {
      {"bed",
       [](Group& g, const Mark& m) {
         append_bed(g, m, {kRing, 1, {0, 1}, {}});
       }},
      {"path",
       [](Group& g, const Mark& m) {
         append_path(g, m, kLine, 8, {{20, 40}});
       }},
      {"wall", [](Group& g, const Mark& m) { append_wall(g, m, kLine, 4); }},
      {"thin wall", [](Group& g, const Mark& m) { append_wall(g, m, kLine, 0.4); }},
      {"fence", [](Group& g, const Mark& m) { append_fence(g, m, kLine, 9); }},
      {"hedge", [](Group& g, const Mark& m) { append_hedge(g, m, kLine, 6); }},
      {"tree",
       [](Group& g, const Mark& m) {
         append_tree(g, m, {{30, 30}, 30, 2, true});
       }},
      {"bare tree",
       [](Group& g, const Mark& m) {
         append_tree(g, m, {{30, 30}, 30, 2, false});
       }},
      {"plant",
       [](Group& g, const Mark& m) {
         append_plant(g, m, {20, 20}, 6);
       }},
      {"container",
       [](Group& g, const Mark& m) {
         append_container(g, m, {20, 20}, 6);
       }},
      {"support",
       [](Group& g, const Mark& m) {
         append_support(g, m, {kRing, true, true});
       }},
      {"seat",
       [](Group& g, const Mark& m) {
         append_seat(g, m, {{30, 30}, {0, -1}, 20, 8, 30});
       }},
      {"building",
       [](Group& g, const Mark& m) {
         append_building(g, m, {kRing, {{{10, 20}, {50, 20}}}, {}, {{kRing, {0, -1}}}});
       }},
      {"tank",
       [](Group& g, const Mark& m) {
         append_tank(g, m, {20, 20}, 12);
       }},
      {"object", [](Group& g, const Mark& m) { append_object(g, m, kRing); }},
      {"hoops", [](Group& g, const Mark& m) { append_cover(g, m, kRing, CoverLook::kHoops); }},
      {"glass", [](Group& g, const Mark& m) { append_cover(g, m, kRing, CoverLook::kGlass); }},
      {"net", [](Group& g, const Mark& m) { append_cover(g, m, kRing, CoverLook::kNet); }},
      {"gate",
       [](Group& g, const Mark& m) {
         append_gate(g, m, {10, 10}, {28, 10}, true);
       }},
      {"tap",
       [](Group& g, const Mark& m) {
         append_tap(g, m, {10, 10});
       }},
      {"lawn", [](Group& g, const Mark& m) { append_area(g, m, kRing, AreaLook::kLawn); }},
      {"meadow", [](Group& g, const Mark& m) { append_area(g, m, kRing, AreaLook::kMeadow); }},
      {"mulch", [](Group& g, const Mark& m) { append_area(g, m, kRing, AreaLook::kMulch); }},
      {"paving", [](Group& g, const Mark& m) { append_area(g, m, kRing, AreaLook::kPaving); }},
      {"service", [](Group& g, const Mark& m) { append_service(g, m, kLine, "E"); }},
      {"boundary", [](Group& g, const Mark& m) { append_boundary(g, m, kRing); }},
      {"spot level",
       [](Group& g, const Mark& m) {
         append_spot_level(g, m, {9, 9}, "1.24");
       }},
      {"peg",
       [](Group& g, const Mark& m) {
         append_peg(g, m, {9, 9});
       }},
      {"viewpoint",
       [](Group& g, const Mark& m) {
         append_viewpoint(g, m, {9, 9}, {1, 0});
       }},
      {"sight",
       [](Group& g, const Mark& m) {
         append_sight(g, m, {10, 50}, {60, 20}, 8, SightLook::kOpen);
       }},
      {"sight shut",
       [](Group& g, const Mark& m) {
         append_sight(g, m, {10, 50}, {60, 20}, 8, SightLook::kShut);
       }},
      {"dimension",
       [](Group& g, const Mark& m) {
         append_dimension(g, m, {{10, 50}, {60, 50}, 6, "5.00", true});
       }},
  };
}

// Every ink that is put on paper anywhere in a group; paper itself is left out.
void collect_inks(const Group& group, std::vector<Colour>& out) {
  const auto note = [&](const Paint& paint) { out.push_back(colour_of(paint)); };
  for (const Element& element : group.elements) {
    if (const Shape* shape = std::get_if<Shape>(&element.what)) {
      if (shape->stroke) note(shape->stroke->ink);
      for (const Fill& fill : shape->fills) {
        if (const auto* hatch = std::get_if<LineHatch>(&fill)) note(hatch->ink);
        if (const auto* flat = std::get_if<Paint>(&fill)) note(*flat);
      }
    }
    if (const Dots* dots = std::get_if<Dots>(&element.what); dots && !dots->at.empty())
      note(dots->ink);
    if (const Text* text = std::get_if<Text>(&element.what)) note(text->ink);
    if (const Group* inner = std::get_if<Group>(&element.what)) collect_inks(*inner, out);
  }
}

bool has_ink(const Group& group, Role role) {
  std::vector<Colour> inks;
  collect_inks(group, inks);
  return std::find(inks.begin(), inks.end(), colour_of(role)) != inks.end();
}

Mark mark_of(Status status) { return {"thing", "The thing", status, false, {0, 1}}; }

bool sound(const Group& group) {
  Drawing drawing;
  drawing.width_mm = 100, drawing.height_mm = 100;
  drawing.root = group;
  return is_sound(drawing);
}

const Group& only_group(const Group& root) { return std::get<Group>(root.elements.at(0).what); }

template <class What>
std::vector<What> all_of(const Group& group) {
  std::vector<What> out;
  for (const Element& element : group.elements)
    if (const What* what = std::get_if<What>(&element.what)) out.push_back(*what);
  return out;
}

TEST(Symbols, AreOneNamedGroupOfFiniteFigures) {
  for (const Symbol& symbol : symbols_of_things())
    for (const Status status : {Status::kFound, Status::kProposed, Status::kRemoved})
      for (const bool guessed : {false, true}) {
        Group root;
        Mark mark = mark_of(status);
        mark.guessed = guessed;
        symbol.append(root, mark);
        ASSERT_EQ(root.elements.size(), 1U) << symbol.name;
        EXPECT_EQ(only_group(root).id, "thing") << symbol.name;
        EXPECT_EQ(only_group(root).title, "The thing") << symbol.name;
        EXPECT_GT(only_group(root).elements.size(), 0U) << symbol.name;
        EXPECT_TRUE(sound(root)) << symbol.name;
      }
}

TEST(Symbols, AreRedWhenProposedAndOnlyThen) {
  for (const Symbol& symbol : symbols_of_things()) {
    Group found, proposed, removed;
    symbol.append(found, mark_of(Status::kFound));
    symbol.append(proposed, mark_of(Status::kProposed));
    symbol.append(removed, mark_of(Status::kRemoved));
    EXPECT_FALSE(has_ink(found, Role::kRedChalk)) << symbol.name;
    EXPECT_TRUE(has_ink(proposed, Role::kRedChalk)) << symbol.name;
    EXPECT_FALSE(has_ink(proposed, Role::kInk)) << symbol.name;
    EXPECT_FALSE(has_ink(removed, Role::kRedChalk)) << symbol.name;
    EXPECT_FALSE(has_ink(removed, Role::kInk)) << symbol.name;
    EXPECT_TRUE(has_ink(removed, Role::kGraphite)) << symbol.name;
  }
}

TEST(Symbols, OfNothingAreNothing) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const Mark mark = mark_of(Status::kFound);
  Group root;
  append_bed(root, mark, {{{0, 0}, {1, 1}}, 1, {}, {}});
  append_bed(root, mark, {{{0, 0}, {nan, 1}, {2, 2}}, 1, {}, {}});
  append_path(root, mark, {{3, 3}}, 5);
  append_wall(root, mark, {{3, 3}, {3, 3}}, 5);
  append_fence(root, mark, {{3, 3}, {9, nan}}, 5);
  append_hedge(root, mark, {}, 5);
  append_tree(root, mark, {{1, 1}, 0, 0, true});
  append_tree(root, mark, {{1, 1}, nan, 0, false});
  append_plant(root, mark, {1, 1}, 0);
  append_support(root, mark, {});
  append_seat(root, mark, {{1, 1}, {0, 0}, 10, 5, 0});
  append_building(root, mark, {});
  append_cover(root, mark, {}, CoverLook::kHoops);
  append_gate(root, mark, {1, 1}, {1, 1}, true);
  append_contour(root, mark, {{1, 1}}, "1");
  append_dimension(root, mark, {{1, 1}, {1, 1}, 5, "0", false});
  append_move_arrow(root, mark, {1, 1}, {1, 1});
  append_north(root, {1, 1}, 0, 0);
  append_light_key(root, {1, 1}, 0, "");
  append_strike(root, {});
  EXPECT_TRUE(root.elements.empty());
}

TEST(BedSymbol, IsHeavyOnItsDownhillSide) {
  Group root;
  append_bed(root, mark_of(Status::kFound), {kRing, 1, {0, 1}, {}});  // downhill: down the paper
  double heaviest = 0, at_y = 0;
  for (const Shape& shape : all_of<Shape>(only_group(root)))
    if (shape.stroke && shape.stroke->weight_mm > heaviest) {
      heaviest = shape.stroke->weight_mm;
      at_y = shape.path.steps().front().to.y;
    }
  EXPECT_GE(heaviest, kHeavyMm);
  EXPECT_NEAR(at_y, 30, 0.3);
}

TEST(BedSymbol, HasNoHeavySideOnTheLevel) {
  Group root;
  append_bed(root, mark_of(Status::kFound), {kRing, 1, {}, {}});
  for (const Shape& shape : all_of<Shape>(only_group(root))) {
    if (shape.stroke) {
      EXPECT_LT(shape.stroke->weight_mm, kHeavyMm);
    }
  }
}

TEST(TreeSymbol, IsStippledAwayFromTheSun) {
  for (const Vec2 sun : {Vec2{0, 1}, Vec2{1, 0}, Vec2{-0.6, -0.8}}) {
    Group root;
    Mark mark = mark_of(Status::kFound);
    mark.to_sun = sun;
    append_tree(root, mark, {{30, 30}, 40, 2, true});
    Vec2 sum;
    const Dots dots = all_of<Dots>(only_group(root)).at(0);
    for (const Vec2 p : dots.at) sum = sum + (p - Vec2{30, 30});
    const Vec2 mean = sum * (1.0 / static_cast<double>(dots.at.size()));
    EXPECT_LT(dot(mean, sun), -6);
    EXPECT_LT(std::abs(cross(mean, sun)), 2);
  }
}

TEST(TreeSymbol, KeepsItsFace) {
  Group a, b, other;
  append_tree(a, mark_of(Status::kFound), {{30, 30}, 40, 2, true});
  append_tree(b, mark_of(Status::kFound), {{30, 30}, 40, 2, true});
  Mark mark = mark_of(Status::kFound);
  mark.id = "another";
  append_tree(other, mark, {{30, 30}, 40, 2, true});
  const auto dots = [](const Group& root) { return all_of<Dots>(only_group(root)).at(0).at; };
  EXPECT_EQ(dots(a), dots(b));
  EXPECT_NE(dots(a), dots(other));
}

TEST(TreeSymbol, KeepsBareTwigsWithinTheCrown) {
  Group root;
  append_tree(root, mark_of(Status::kFound), {{30, 30}, 40, 2, false});
  for (const Shape& shape : all_of<Shape>(only_group(root)))
    for (const PathStep& step : shape.path.steps())
      EXPECT_TRUE(step.kind == PathStep::Kind::kClose || length(step.to - Vec2{30, 30}) < 20.01);
}

TEST(SeatSymbol, OpensItsSightBySixtyDegrees) {
  Group root;
  append_seat(root, mark_of(Status::kFound), {{30, 30}, {0, -1}, 20, 8, 30});
  std::vector<Vec2> ways;
  for (const Shape& shape : all_of<Shape>(only_group(root)))
    if (shape.stroke && shape.stroke->dash == Dash::kSight)
      ways.push_back(unit(shape.path.steps().back().to - Vec2{30, 30}));
  ASSERT_EQ(ways.size(), 2U);
  EXPECT_NEAR(std::acos(dot(ways[0], ways[1])), kPi / 3, 1e-9);
  EXPECT_NEAR(ways[0].y + ways[1].y, -2 * std::cos(kPi / 6), 1e-9);  // ahead, up the paper
}

TEST(ContourSymbol, IsSixThreeAndGuessedOneThree) {
  for (const bool guessed : {false, true}) {
    Group root;
    Mark mark = mark_of(Status::kFound);
    mark.guessed = guessed;
    append_contour(root, mark, kLine, "0.50");
    EXPECT_EQ(all_of<Shape>(only_group(root)).at(0).stroke->dash,
              guessed ? Dash::kContourGuessed : Dash::kContour);
    const std::string figure = all_of<Text>(only_group(root)).at(0).words;
    EXPECT_EQ(figure, guessed ? "≈ 0.50" : "0.50");
  }
}

TEST(DimensionSymbol, StandsToTheLeftOfItsLine) {
  Group root;
  append_dimension(root, mark_of(Status::kFound), {{10, 50}, {60, 50}, 6, "5.00", false});
  EXPECT_LT(all_of<Text>(only_group(root)).at(0).at.y, 44.1);  // to the right: left is up
}

TEST(DimensionSymbol, IsReadFromBelowOrFromTheRight) {
  for (int deg = 0; deg < 360; deg += 15) {
    Group root;
    const Vec2 to = Vec2{30, 30} + paper_direction(deg * kPi / 180) * 20;
    append_dimension(root, mark_of(Status::kFound), {{30, 30}, to, 6, "2.00", false});
    const double turn = all_of<Text>(only_group(root)).at(0).turn_rad;
    EXPECT_GT(turn, -kPi / 2 + 1e-6) << deg;
    EXPECT_LE(turn, kPi / 2 + 1e-5) << deg;
  }
}

TEST(LightKey, ShowsTheRampAsItIs) {
  Group root;
  append_light_key(root, {10, 10}, 100, "hours of sun a day, clear sky");
  const CellImage ramp = all_of<CellImage>(only_group(root)).at(0);
  for (const double hours : {1.0, 3.5, 7.2})
    EXPECT_EQ(ramp.cells.at(static_cast<std::size_t>(hours / 10 * ramp.columns)),
              light_colour((std::floor(hours / 10 * ramp.columns) + 0.5) / ramp.columns * 10));
  std::vector<std::string> words;
  for (const Text& text : all_of<Text>(only_group(root))) words.push_back(text.words);
  EXPECT_EQ(words, (std::vector<std::string>{"0", "2", "4", "6", "8", "10+",
                                             "hours of sun a day, clear sky"}));
}

TEST(ScaleBar, WritesItsTicks) {
  Group root;
  append_scale_bar(root, {{10, 90}, 20, "m", {0, 0.5, 1, 2.5}});
  std::vector<std::string> words;
  for (const Text& text : all_of<Text>(only_group(root))) words.push_back(text.words);
  EXPECT_EQ(words, (std::vector<std::string>{"0", "0.5", "1", "2.5", "m"}));
}

}  // namespace
}  // namespace spadework::geometry
