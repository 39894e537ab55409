// Dimensions, arrows, words and what stands around the plan: north, scale, the key of light.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/symbol_parts.h"

namespace spadework::geometry {

using namespace parts;  // NOLINT: the room's own

namespace {

constexpr double kPi = std::numbers::pi;

// "0.5", "3": as few decimals as say it.
std::string short_figure(double v) {
  std::string text = std::to_string(std::lround(v * 10));
  const bool minus = text[0] == '-';
  if (minus) text.erase(0, 1);
  if (text.size() < 2) text.insert(0, 1, '0');
  text.insert(text.size() - 1, 1, '.');
  if (text.back() == '0') text.erase(text.size() - 2);
  return minus ? "−" + text : text;
}

Text centred(Vec2 at, std::string words, double size_mm) {
  Text text{at, std::move(words)};
  text.size_mm = size_mm;
  text.anchor = Anchor::kMiddle;
  return text;
}

}  // namespace

void append_dimension(Group& into, const Mark& mark, const DimensionShape& dimension) {
  const double span = length(dimension.to - dimension.from);
  if (!is_extent(span)) return;
  Group& group = group_of(into, mark);
  const Vec2 along = (dimension.to - dimension.from) * (1 / span);
  const Vec2 off = left_of(along) * -1.0;  // to the left as seen, y running down
  const double side = dimension.offset_mm < 0 ? -1 : 1;
  const Vec2 a = dimension.from + off * dimension.offset_mm;
  const Vec2 b = dimension.to + off * dimension.offset_mm;
  Stroke fine{kFineMm, ink_of(mark)};
  draw(group, Path::segment(a - along * 1.4, b + along * 1.4), fine);
  const double reach = std::abs(dimension.offset_mm);
  for (const auto& [foot, end] : {Segment{dimension.from, a}, Segment{dimension.to, b}}) {
    const Vec2 out = off * side;
    if (reach > 1.6) draw(group, Path::segment(foot + out * 1.2, end + out * 1.4), fine);
    const Vec2 tick = turned(along, -kPi / 4) * 1.15;
    Stroke oblique{kMediumMm, ink_of(mark)};
    oblique.end = LineEnd::kRound;
    draw(group, Path::segment(end - tick, end + tick), oblique);
  }
  const double turn = reading_angle(along);
  Text text =
      centred((a + b) * 0.5 + paper_direction(turn + kPi / 2) * 0.85, dimension.figure, 2.4);
  text.turn_rad = turn;
  text.ink = ink_of(mark);
  text.tabular = true;
  text.halo_mm = 0.35;
  text.dotted_underline = dimension.typed;
  if (dimension.typed) text.at = text.at + paper_direction(turn + kPi / 2) * 0.5;
  group.add({text});
}

void append_move_arrow(Group& into, const Mark& mark, Vec2 from, Vec2 to) {
  const double span = length(to - from);
  if (!is_extent(span)) return;
  Group& group = group_of(into, mark);
  const Vec2 along = (to - from) * (1 / span);
  const Vec2 bow = left_of(along) * (span * 0.16);
  const Vec2 first = from + (to - from) * 0.33 + bow, second = from + (to - from) * 0.67 + bow;
  const Vec2 heading = unit(to - second);
  Path line;
  line.move_to(from).curve_to(first, second, to - heading * 1.6);
  Stroke red{kMediumMm, Role::kRedChalk};
  red.casing_mm = 0.25;
  draw(group, line, red);
  const Vec2 side = left_of(heading);
  Path head;
  head.move_to(to)
      .line_to(to - heading * 2.9 + side * 0.85)
      .curve_to(to - heading * 2.2 + side * 0.2, to - heading * 2.2 - side * 0.2,
                to - heading * 2.9 - side * 0.85)
      .close();
  fill(group, head, Paint(Role::kRedChalk));
  fill_and_draw(group, Path::circle(from, 0.7), Paint(Role::kPaper),
                Stroke{kMediumMm, Role::kRedChalk});
}

void append_name(Group& into, Vec2 middle, const std::string& words, double size_mm) {
  Text text = centred(middle, words, size_mm);
  text.face = Face::kSerifItalic;
  text.rise = Rise::kMiddle;
  text.halo_mm = 0.35;
  into.add({text});
}

void append_figure(Group& into, Vec2 middle, const std::string& words, double size_mm) {
  Text text = centred(middle, words, size_mm);
  text.weight = Weight::kSemiBold;
  text.rise = Rise::kMiddle;
  text.tabular = true;
  text.chip = Chip{Paint(Role::kPaper, 0.92), 0.9, 0.75, 0.7};
  into.add({text});
}

void append_taker_disc(Group& into, Vec2 middle, const std::string& letter, int taker,
                       double radius_mm) {
  const Paint ink = taker_ink(taker);
  fill_and_draw(into, Path::circle(middle, radius_mm), ink, Stroke{kMediumMm, Role::kPaper});
  Text text = centred(middle, letter, radius_mm * (letter.size() > 1 ? 1.05 : 1.3));
  text.weight = Weight::kSemiBold;
  text.rise = Rise::kMiddle;
  text.ink = Role::kPaper;
  into.add({text});
}

void append_north(Group& into, Vec2 middle, double radius_mm, double north_rad) {
  if (!is_extent(radius_mm)) return;
  Mark mark;
  mark.title = "North";
  Group& group = group_of(into, mark);
  const double r = radius_mm;
  const auto put = [&](double ahead, double right) {
    return middle + paper_direction(north_rad) * (ahead * r) +
           paper_direction(north_rad - kPi / 2) * (right * r);
  };
  draw(group, Path::circle(middle, r * 0.62), Stroke{kFineMm, Role::kInk});
  for (int i = 1; i < 4; ++i) {  // east, south, west
    const Vec2 way = paper_direction(north_rad - i * kPi / 2);
    draw(group, Path::segment(middle + way * (r * 0.62), middle + way * (r * 0.74)),
         Stroke{kFineMm, Role::kInk});
  }
  fill(group, Path::polygon({put(1, 0), put(-0.62, 0.17), put(-0.48, 0)}), Paint(Role::kInk));
  const Path other = Path::polygon({put(1, 0), put(-0.62, -0.17), put(-0.48, 0)});
  fill_and_draw(group, other, Paint(Role::kPaper), Stroke{kFineMm, Role::kInk});
  Text letter = centred(put(1.0, 0) + paper_direction(north_rad) * (r * 0.28), "N", r * 0.42);
  letter.face = Face::kSerif;
  letter.rise = Rise::kMiddle;
  group.add({letter});
}

void append_scale_bar(Group& into, const ScaleBarShape& bar) {
  if (bar.ticks.size() < 2 || !is_extent(bar.unit_mm)) return;
  Mark mark;
  mark.title = "Scale";
  Group& group = group_of(into, mark);
  constexpr double kHigh = 1.3;
  const auto x = [&](double units) { return bar.at.x + units * bar.unit_mm; };
  const Stroke fine{kFineMm, Role::kInk};
  for (std::size_t i = 0; i + 1 < bar.ticks.size(); ++i) {
    const double from = x(bar.ticks[i]), width = x(bar.ticks[i + 1]) - from;
    const double top = i % 2 == 0 ? bar.at.y - kHigh : bar.at.y - kHigh / 2;
    fill(group, Path::box({from, top}, width, kHigh / 2), Paint(Role::kInk));
  }
  const double all = x(bar.ticks.back()) - bar.at.x;
  draw(group, Path::box({bar.at.x, bar.at.y - kHigh}, all, kHigh), fine);
  for (std::size_t i = 0; i < bar.ticks.size(); ++i) {
    const double at = x(bar.ticks[i]);
    draw(group, Path::segment({at, bar.at.y - kHigh}, {at, bar.at.y - kHigh - 0.9}), fine);
    Text text = centred({at, bar.at.y - kHigh - 1.5}, short_figure(bar.ticks[i]), bar.type_mm);
    text.tabular = true;
    group.add({text});
  }
  Text unit_text{{x(bar.ticks.back()) + bar.type_mm * 19 / 23, bar.at.y - kHigh - 1.5}, bar.unit};
  unit_text.size_mm = bar.type_mm;
  group.add({unit_text});
}

void append_light_key(Group& into, Vec2 corner, double width_mm, const std::string& caption) {
  if (!is_extent(width_mm)) return;
  Mark mark;
  mark.title = "Key of light: " + caption;
  Group& group = group_of(into, mark);
  constexpr double kHigh = 3.6;
  constexpr int kColumns = 200;
  CellImage ramp;
  ramp.columns = kColumns, ramp.rows = 1;
  for (int i = 0; i < kColumns; ++i) ramp.cells.push_back(light_colour((i + 0.5) * 10 / kColumns));
  ramp.placement = {corner, {width_mm / kColumns, 0}, {0, kHigh}};
  group.add({ramp});
  draw(group, Path::box(corner, width_mm, kHigh), Stroke{kFineMm, Role::kInk});
  for (std::size_t i = 0; i < kLightKnots_h.size(); ++i) {
    const double at = corner.x + width_mm * kLightKnots_h[i] / 10, foot = corner.y + kHigh;
    draw(group, Path::segment({at, foot - 0.9}, {at, foot + 0.9}), Stroke{kFineMm, Role::kInk});
    const bool last = i + 1 == kLightKnots_h.size();
    Text text = centred({at, foot + 3.3}, short_figure(kLightKnots_h[i]) + (last ? "+" : ""), 2.3);
    text.tabular = true;
    group.add({text});
  }
  Text words{{corner.x, corner.y - 1.6}, caption};
  words.face = Face::kSerifItalic;
  words.size_mm = 2.9;
  group.add({words});
}

}  // namespace spadework::geometry
