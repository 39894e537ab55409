// A sheet with every symbol on it and a small invented garden, printed both ways. Set
// SPADEWORK_SAMPLE_DIR to keep the two files and look at them side by side.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <numbers>

#include "geometry/symbols.h"
#include "sheets/sheets.h"
#include "sheets/test_fonts.h"

namespace spadework::sheets {
namespace {

using namespace geometry;  // NOLINT: the display list, all of it

constexpr double kPi = std::numbers::pi;
const PlanOnPaper kPlan{{16, 252}, 20};  // 1:50

Mark mark(const std::string& id, Status status = Status::kFound, bool guessed = false) {
  return {id, id, status, guessed, {0, 1}};
}
Vec2 on_paper(double x_m, double y_m) { return kPlan.paper(Vec2{x_m, y_m}); }
Polygon box_on_paper(double x, double y, double w, double h, double turn_deg = 0) {
  return kPlan.paper(rectangle({x, y}, {w, h}, turn_deg * kPi / 180));
}

// Hours that look like a garden's: less behind the wall, under the tree and beside the shed.
double invented_hours(double x, double y) {
  const auto dip = [](double d, double width) { return std::exp(-d * d / (width * width)); };
  double hours = 8.6 - 6.0 * dip(std::max(y - 0.2, 0.0), 1.0);
  hours -= 5.5 * dip(std::hypot(x - 2.0, (y - 8.6) * 0.8), 1.7);
  if (x > 5.2) hours -= 4.2 * dip(std::max(7.4 - y, 0.0) + 0.6, 0.9);
  hours -= 3.5 * dip(x, 0.9);
  return std::max(hours, 0.4);
}

void add_light(Group& into) {
  Group& group = into.add_group("light", "Light, April to September");
  group.clip = Path::polygon(box_on_paper(0, 0, 9, 10));
  CellImage image;
  image.columns = 45, image.rows = 50;
  for (int row = 0; row < image.rows; ++row)
    for (int column = 0; column < image.columns; ++column)
      image.cells.push_back(light_colour(invented_hours((column + 0.5) * 0.2, (row + 0.5) * 0.2)));
  image.placement = {on_paper(0, 0), {4, 0}, {0, -4}};
  group.add({image});
}

void add_ground(Group& into) {
  append_contour(into, mark("level-1"),
                 {on_paper(0, 2.6), on_paper(3, 3.1), on_paper(6, 2.8), on_paper(9, 3.3)}, "0.50");
  append_contour(into, mark("level-2", Status::kFound, true),
                 {on_paper(0, 6.9), on_paper(3, 6.5), on_paper(6, 6.8), on_paper(9, 7.2)}, "1.00");
  append_path(into, mark("middle-path"),
              {on_paper(4.5, 0.2), on_paper(4.5, 3.4), on_paper(4.1, 5.4), on_paper(4.1, 9.4)}, 18,
              {on_paper(4.5, 2.2), on_paper(4.5, 2.6)});
  append_patch(into, mark("couch"),
               {on_paper(5.9, 0.7), on_paper(7.3, 0.5), on_paper(7.9, 1.3), on_paper(6.6, 1.7)});
  append_area(into, mark("grass"),
              kPlan.paper(Polygon{{0.5, 5.6}, {3.4, 5.6}, {3.4, 9.7}, {0.5, 9.7}}),
              AreaLook::kLawn);
}

void add_things(Group& into) {
  append_hedge(into, mark("west-hedge"), {on_paper(0.25, 0.4), on_paper(0.25, 9.9)}, 9);
  append_fence(into, mark("east-fence"), {on_paper(8.95, 0.2), on_paper(8.95, 10)}, 18);
  append_wall(into, mark("lane-wall"), {on_paper(0, 0.05), on_paper(4, 0.05)}, 4);
  append_wall(into, mark("lane-wall-east"), {on_paper(5, 0.05), on_paper(9, 0.05)}, 4);
  append_gate(into, mark("gate"), on_paper(4.05, 0.05), on_paper(4.95, 0.05), true);
  BuildingShape shed{box_on_paper(5.6, 7.6, 3, 2.2), {}, {}, {}};
  shed.ridges = {{on_paper(6.6, 8.7), on_paper(7.6, 8.7)}};
  for (const Vec2 corner : {Vec2{5.6, 7.6}, Vec2{5.6, 9.8}})
    shed.hips.push_back({kPlan.paper(corner), on_paper(6.6, 8.7)});
  for (const Vec2 corner : {Vec2{8.6, 7.6}, Vec2{8.6, 9.8}})
    shed.hips.push_back({kPlan.paper(corner), on_paper(7.6, 8.7)});
  shed.slopes = {
      {{on_paper(5.6, 9.8), on_paper(8.6, 9.8), on_paper(7.6, 8.7), on_paper(6.6, 8.7)}, {0, -1}},
      {{on_paper(5.6, 7.6), on_paper(5.6, 9.8), on_paper(6.6, 8.7)}, {-1, 0}},
      {{on_paper(8.6, 7.6), on_paper(8.6, 9.8), on_paper(7.6, 8.7)}, {1, 0}}};
  append_building(into, mark("shed"), shed);
  append_tank(into, mark("tank"), on_paper(8.6, 7.1), 14);
  append_tap(into, mark("tap"), on_paper(5.35, 7.35));
  append_seat(into, mark("seat"), {on_paper(2.2, 5.2), unit(Vec2{0.55, 1}), 30, 13, 52});
  const Mark oak = mark("medlar");
  append_tree(into, oak, {on_paper(2.0, 8.2), 78, 4, true});
}

void add_beds(Group& into) {
  BedShape bed{box_on_paper(5.5, 3.7, 1.2, 3.0), 1, {0, 1}, std::nullopt};
  append_bed(into, mark("long-bed"), bed);
  bed.outline = box_on_paper(7.3, 3.7, 1.2, 3.0);
  append_bed(into, mark("new-bed", Status::kProposed), bed);
  bed.outline = box_on_paper(1.0, 1.2, 2.8, 1.2, 4);
  append_bed(into, mark("low-bed"), bed);
  append_support(
      into, mark("arch", Status::kProposed),
      {{on_paper(3.62, 4.2), on_paper(4.9, 4.2), on_paper(4.9, 4.7), on_paper(3.62, 4.7)},
       true,
       false});
  for (int i = 0; i < 5; ++i)
    append_plant(into, mark("bush" + std::to_string(i)), on_paper(1.2, 3.1 + 0.45 * i), 7);
  append_plant(into, mark("old-bush", Status::kRemoved), on_paper(7.2, 2.3), 16);
  append_plant(into, mark("rose"), on_paper(6.0, 2.4), 12);
  append_move_arrow(into, mark("rose-moves", Status::kProposed), on_paper(6.0, 2.4),
                    on_paper(7.9, 3.55));
  append_dimension(into, mark("new-bed-long"),
                   {on_paper(8.5, 3.7), on_paper(8.5, 6.7), -4, "3.00", true});
  append_dimension(into, mark("new-bed-wide"),
                   {on_paper(7.3, 6.7), on_paper(8.5, 6.7), 5, "1.20", false});
  append_spot_level(into, mark("s1"), on_paper(5.0, 1.6), "0.28");
  append_spot_level(into, mark("s2", Status::kFound, true), on_paper(3.5, 6.2), "0.9");
  append_figure(into, on_paper(6.1, 5.2), "5½ h");
  append_figure(into, on_paper(7.9, 5.2), "≈ 6 h");
  append_figure(into, on_paper(2.4, 1.9), "3 h");
  append_name(into, on_paper(2.0, 9.5), "the medlar");
  append_name(into, on_paper(7.1, 8.05), "shed");
  append_taker_disc(into, on_paper(2.9, 8.9), "A", 1);
}

Drawing sample_sheet() {
  Drawing sheet;
  sheet.width_mm = 420, sheet.height_mm = 297;
  sheet.title = "Sample sheet";
  sheet.description = "Every symbol, and a small invented garden.";
  Text title{{16, 20}, "Ty Gwenn"};
  title.face = Face::kSerif, title.size_mm = kTitleTypeMm;
  sheet.root.add({title});
  Text under{{16, 27},
             "as proposed · light of the growing months, April to September · Łódź, Győr, Çeşme"};
  under.face = Face::kSerifItalic, under.size_mm = kTextTypeMm;
  sheet.root.add({under});
  Group& plan = sheet.root.add_group("plan", "The plan");
  add_light(plan);
  add_ground(plan);
  append_boundary(plan, mark("edge"), box_on_paper(0, 0, 9, 10));
  add_beds(plan);
  add_things(plan);
  append_light_key(sheet.root, {16, 268}, 80, "hours of sun a day, clear sky");
  append_scale_bar(sheet.root, {{112, 271.6}, 20, "m", {0, 0.5, 1, 2, 3, 4}});
  append_north(sheet.root, {214, 268}, 12, kPi / 2 + 0.35);
  return sheet;
}

// The right half: one symbol to a field, captioned.
class Fields {
 public:
  explicit Fields(Drawing& sheet) : sheet_(sheet) {}

  template <class Put>
  void operator()(const std::string& caption, const Put& put) {
    const Vec2 corner{236 + 43.0 * (n_ % 4), 16 + 27.5 * (n_ / 4)};
    ++n_;
    Group& group = sheet_.root.add_group("field-" + std::to_string(n_), caption);
    put(group, corner + Vec2{20, 10});
    Text words{corner + Vec2{20, 23}, caption};
    words.face = Face::kSerifItalic, words.size_mm = 2.7, words.anchor = Anchor::kMiddle;
    words.ink = Role::kGraphite;
    sheet_.root.add({words});
  }

 private:
  Drawing& sheet_;
  int n_ = 0;
};

Polygon at(Vec2 m, double w, double h) {
  return {m + Vec2{-w, -h}, m + Vec2{w, -h}, m + Vec2{w, h}, m + Vec2{-w, h}};
}

void add_edges(Fields& field) {
  field("bed", [&](Group& g, Vec2 m) { append_bed(g, mark("b1"), {at(m, 15, 6), 1, {0, 1}, {}}); });
  field("bed, proposed", [&](Group& g, Vec2 m) {
    append_bed(g, mark("b2", Status::kProposed), {at(m, 15, 6), 1, {0, 1}, {}});
  });
  field("bed, removed", [&](Group& g, Vec2 m) {
    append_bed(g, mark("b3", Status::kRemoved), {at(m, 15, 6), 1, {}, {}});
  });
  field("bed, guessed", [&](Group& g, Vec2 m) {
    append_bed(g, mark("b4", Status::kFound, true), {at(m, 15, 6), 1, {1, 0}, {}});
  });
  field("path", [&](Group& g, Vec2 m) {
    append_path(g, mark("p"), {m + Vec2{-17, 3}, m + Vec2{-2, 3}, m + Vec2{16, -6}}, 9);
  });
  field("wall", [&](Group& g, Vec2 m) {
    append_wall(g, mark("w"), {m + Vec2{-17, 5}, m + Vec2{10, 5}, m + Vec2{16, -6}}, 4);
  });
  field("wall at small scale", [&](Group& g, Vec2 m) {
    append_wall(g, mark("w2"), {m + Vec2{-17, 5}, m + Vec2{10, 5}, m + Vec2{16, -6}}, 1.4);
  });
  field("fence", [&](Group& g, Vec2 m) {
    append_fence(g, mark("f"), {m + Vec2{-17, 5}, m + Vec2{10, 5}, m + Vec2{16, -6}}, 8);
  });
}

void add_grown(Fields& field) {
  field("hedge", [&](Group& g, Vec2 m) {
    append_hedge(g, mark("h"), {m + Vec2{-17, 4}, m + Vec2{4, 4}, m + Vec2{15, -5}}, 7);
  });
  field("tree in leaf", [&](Group& g, Vec2 m) { append_tree(g, mark("t1"), {m, 21, 1.4, true}); });
  field("leafless", [&](Group& g, Vec2 m) { append_tree(g, mark("t2"), {m, 21, 1.4, false}); });
  field("tree, proposed", [&](Group& g, Vec2 m) {
    append_tree(g, mark("t3", Status::kProposed), {m, 18, 1.2, true});
  });
}

void add_built(Fields& field) {
  field("arch", [&](Group& g, Vec2 m) {
    append_support(g, mark("s"), {at(m, 11, 4), true, false});
  });
  field("obelisk and wires", [&](Group& g, Vec2 m) {
    append_support(g, mark("s2"), {at(m + Vec2{-9, 0}, 4, 4), true, true});
    append_support(g, mark("s3"),
                   {{m + Vec2{0, 3}, m + Vec2{8, 3}, m + Vec2{16, 3}}, false, false});
  });
  field("seat and its sight", [&](Group& g, Vec2 m) {
    append_seat(g, mark("seat-1"), {m + Vec2{0, 6}, {0, -1}, 16, 7, 18});
  });
  field("plants, pots", [&](Group& g, Vec2 m) {
    append_plant(g, mark("pl1"), m + Vec2{-12, 0}, 9);
    append_plant(g, mark("pl2"), m + Vec2{-4, 2}, 3.4);
    append_plant(g, mark("pl3"), m + Vec2{1, -1}, 3.4);
    append_container(g, mark("co"), m + Vec2{11, 0}, 9);
  });
  field("building", [&](Group& g, Vec2 m) {
    const Polygon o = at(m, 15, 8);
    append_building(g, mark("bu"),
                    {o,
                     {{m + Vec2{-15, 0}, m + Vec2{15, 0}}},
                     {},
                     {{{o[0], o[1], m + Vec2{15, 0}, m + Vec2{-15, 0}}, {0, -1}}}});
  });
  field("tank, tap", [&](Group& g, Vec2 m) {
    append_tank(g, mark("ta"), m + Vec2{-7, 0}, 13);
    append_tap(g, mark("tp"), m + Vec2{9, 0});
  });
  field("hoops, glass, net", [&](Group& g, Vec2 m) {
    append_cover(g, mark("c1"), at(m + Vec2{0, -6}, 15, 3), CoverLook::kHoops);
    append_cover(g, mark("c2"), at(m + Vec2{-8, 5}, 7, 5), CoverLook::kGlass);
    append_cover(g, mark("c3"), at(m + Vec2{8, 5}, 7, 5), CoverLook::kNet);
  });
  field("object", [&](Group& g, Vec2 m) { append_object(g, mark("ob"), at(m, 9, 6)); });
  field("gate", [&](Group& g, Vec2 m) {
    append_wall(g, mark("gw"), {m + Vec2{-17, 6}, m + Vec2{-8, 6}}, 3);
    append_wall(g, mark("gw2"), {m + Vec2{8, 6}, m + Vec2{17, 6}}, 3);
    append_gate(g, mark("ga"), m + Vec2{-7.4, 6}, m + Vec2{7.4, 6}, true);
  });
}

void add_land(Fields& field) {
  field("lawn, meadow", [&](Group& g, Vec2 m) {
    append_area(g, mark("a1"), at(m + Vec2{-9, 0}, 8, 8), AreaLook::kLawn);
    append_area(g, mark("a2"), at(m + Vec2{9, 0}, 8, 8), AreaLook::kMeadow);
  });
  field("mulch, paving", [&](Group& g, Vec2 m) {
    append_area(g, mark("a3"), at(m + Vec2{-9, 0}, 8, 8), AreaLook::kMulch);
    append_area(g, mark("a4"), at(m + Vec2{9, 0}, 8, 8), AreaLook::kPaving);
  });
  field("patch, service", [&](Group& g, Vec2 m) {
    append_patch(g, mark("pa"),
                 {m + Vec2{-15, -5}, m + Vec2{2, -8}, m + Vec2{6, 0}, m + Vec2{-10, 3}});
    append_service(g, mark("se"), {m + Vec2{-17, 8}, m + Vec2{10, 8}, m + Vec2{17, -6}}, "E");
  });
  field("levels, contours", [&](Group& g, Vec2 m) {
    append_spot_level(g, mark("sl"), m + Vec2{-12, -5}, "1.24");
    append_spot_level(g, mark("sl2", Status::kFound, true), m + Vec2{4, -5}, "0.9");
    append_contour(g, mark("c"), {m + Vec2{-17, 4}, m + Vec2{-3, 1}, m + Vec2{17, 4}}, "0.50");
    append_contour(g, mark("cg", Status::kFound, true),
                   {m + Vec2{-17, 9}, m + Vec2{-3, 6}, m + Vec2{17, 9}}, "0.4");
  });
  field("peg, view, takers", [&](Group& g, Vec2 m) {
    append_peg(g, mark("pe"), m + Vec2{-14, -2});
    append_viewpoint(g, mark("vi"), m + Vec2{-7, -2}, unit(Vec2{1, -0.4}));
    for (int i = 0; i < 7; ++i) {
      append_taker_disc(g, m + Vec2{-15 + 5.2 * i, 8}, std::string(1, static_cast<char>('A' + i)),
                        i);
      g.add({Shape{Path::box(m + Vec2{-17 + 5.2 * i, 1}, 4.2, 4.2),
                   {taker_fill(i)},
                   Stroke{kFineMm, taker_ink(i)}}});
    }
  });
}

void add_marks(Fields& field) {
  field("dimension", [&](Group& g, Vec2 m) {
    append_dimension(g, mark("d"), {m + Vec2{-15, 8}, m + Vec2{13, 8}, 6, "3.60", false});
    append_dimension(g, mark("d2"), {m + Vec2{-15, 8}, m + Vec2{13, 8}, 14, "typed 1′ 6″", true});
  });
  field("moved, signs", [&](Group& g, Vec2 m) {
    append_move_arrow(g, mark("mo"), m + Vec2{-15, 4}, m + Vec2{12, 3});
    Text signs{m + Vec2{-18, 10}, "→ ← ↑ ↓ ≈ ½ ¼ ¾ 8° × · – − ′ ″ ≤ ≥"};
    signs.size_mm = 2.4;
    g.add({signs});
    signs.face = Face::kSerif, signs.at = m + Vec2{-18, -7};
    g.add({signs});
    signs.weight = Weight::kSemiBold, signs.at = m + Vec2{-18, -3.5};
    g.add({signs});
  });
  field("hatches", [&](Group& g, Vec2 m) {
    const Fill fills[] = {diagonal_hatch(), level_hatch(), cross_hatch(), half_hatch(Role::kInk),
                          Stipple{0.8, 0.25, Role::kInk}};
    for (int i = 0; i < 5; ++i)
      g.add({Shape{Path::box(m + Vec2{-18 + 7.4 * i, -6}, 6.4, 14)
                       .add(Path::circle(m + Vec2{-14.8 + 7.4 * i, 1}, 2)),
                   {fills[i]},
                   Stroke{kFineMm}}});
  });
}

// A sun print in small: daylight over the year with two bites taken out of it.
void add_sun_print(Group& into) {
  constexpr int kDays = 122, kSlots = 72;  // 3 days, 15 minutes
  const Affine grid{{282, 260}, {0.95, 0}, {0, -0.62}};
  const auto half_day = [](int day) { return 6 - 2.4 * std::cos((day * 3 + 10) * 2 * kPi / 365); };
  const auto hour = [](int slot) { return 4 + slot * 0.25 + 0.125; };
  const auto day_lit = [&](int d, int s) { return std::abs(hour(s) - 12.4) < half_day(d); };
  const auto wall = [&](int d, int s) {
    return day_lit(d, s) && hour(s) < 8.2 + 1.4 * std::cos((d - 61) * kPi / 61);
  };
  const auto tree = [&](int d, int s) {
    const double x = (d - 61) / 34.0, y = (hour(s) - 15.5) / 1.7;
    return day_lit(d, s) && x * x + y * y < 1;
  };
  const auto shed = [&](int d, int s) {
    const double x = (d < 61 ? d : d - 122) / 26.0, y = (hour(s) - 12) / 1.9;
    return day_lit(d, s) && !wall(d, s) && x * x + y * y < 1;
  };
  Group& group = into.add_group("print", "Sun print");
  group.add({Shape{Path::box({282, 260 - 0.62 * kSlots}, 0.95 * kDays, 0.62 * kSlots),
                   {Paint(Role::kNight)},
                   {}}});
  group.add({Shape{
      outline_of_cells(kDays, kSlots, day_lit, grid), {Paint(Role::kSunlit)}, Stroke{kFineMm}}});
  const std::function<bool(int, int)> bites[] = {wall, tree, shed};
  for (int i = 0; i < 3; ++i)
    group.add({Shape{
        outline_of_cells(kDays, kSlots, bites[i], grid),
        {Paint(mixed(colour_of(Role::kPaper), colour_of(taker_ink(i)), 0.25)), taker_fill(i)},
        Stroke{0.25, Role::kInk}}});
  append_taker_disc(group, grid.at(61, 46), "B", 1);
}

constexpr double kDots = 12;

TEST(SampleSheet, PrintsBothWays) {
  Drawing sheet = sample_sheet();
  Fields field(sheet);
  add_edges(field);
  add_grown(field);
  add_built(field);
  add_land(field);
  add_marks(field);
  add_sun_print(sheet.root);
  const Result<Fonts>& fonts = test_fonts();
  ASSERT_TRUE(fonts) << fonts.error().message;
  const auto svg = to_svg(sheet, *fonts);
  ASSERT_TRUE(svg);
  const auto png = to_png(sheet, *fonts, kDots);
  ASSERT_TRUE(png);
  if (const char* folder = std::getenv("SPADEWORK_SAMPLE_DIR")) {
    std::ofstream(std::string(folder) + "/sample.svg", std::ios::binary) << *svg;
    std::ofstream(std::string(folder) + "/sample.png", std::ios::binary)
        .write(reinterpret_cast<const char*>(png->data()),
               static_cast<std::streamsize>(png->size()));
  }
}

}  // namespace
}  // namespace spadework::sheets
