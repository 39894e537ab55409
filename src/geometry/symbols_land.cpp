// Symbols of ground, services, covers and the survey.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/symbol_parts.h"

namespace spadework::geometry {

using namespace parts;  // NOLINT: the room's own

namespace {

constexpr double kPi = std::numbers::pi;

Stroke quiet(const Mark& mark, double weight_mm) {
  Stroke stroke = pen_of(mark, weight_mm);
  stroke.casing_mm = 0;
  return stroke;
}

Stipple field_of(const Mark& mark, const Polygon& outline, double per_mm2, double dot_mm) {
  Stipple dots{per_mm2, dot_mm, ink_of(mark)};
  dots.anchor = outline.front();
  dots.seed = seed_of(mark.id);
  return dots;
}

// Short strokes at the places of a stipple: each `stroke` is drawn about its place.
template <class Stroke_>
Path strokes_at(const Polygon& outline, const Stipple& where, std::uint64_t seed,
                const Stroke_& stroke) {
  Path path;
  Random random(seed);
  for (const Vec2 at : stipple_dots(Path::polygon(outline), where)) stroke(path, at, random);
  return path;
}

void lawn(Group& group, const Mark& mark, const Polygon& outline) {
  const Stipple dots = field_of(mark, outline, 1.1, 0.2);
  const auto near_edge = [&](Vec2 p) {
    return 0.05 + 0.95 * std::exp(-distance_to_outline(p, outline) / 2.6);
  };
  group.add({Dots{stipple_dots(Path::polygon(outline), dots, near_edge), dots.dot_mm, dots.ink}});
}

void meadow(Group& group, const Mark& mark, const Polygon& outline) {
  Stipple where = field_of(mark, outline, 0.075, 0.2);
  where.keep_off_mm = 1.9;
  const Path tufts =
      strokes_at(outline, where, where.seed, [](Path& path, Vec2 at, Random& random) {
        for (const double lean : {-0.55, 0.05, 0.6}) {
          const double tall = random.between(1.0, 1.6);
          const Vec2 tip = at + Vec2{lean * tall * 0.8, -tall};
          path.move_to(at + Vec2{lean * 0.25, 0})
              .curve_to(at + Vec2{lean * 0.3, -tall * 0.5}, tip + Vec2{-lean * 0.2, tall * 0.3},
                        tip);
        }
      });
  draw(group, tufts, Stroke{0.15, ink_of(mark)});
}

void mulch(Group& group, const Mark& mark, const Polygon& outline) {
  Stipple where = field_of(mark, outline, 0.22, 0.2);
  where.keep_off_mm = 0.9;
  const Path chips =
      strokes_at(outline, where, where.seed, [](Path& path, Vec2 at, Random& random) {
        const Vec2 half = paper_direction(random.unit() * kPi) * random.between(0.35, 0.65);
        path.move_to(at - half).line_to(at + half);
      });
  draw(group, chips, Stroke{kFineMm, ink_of(mark)});
}

}  // namespace

void append_area(Group& into, const Mark& mark, const Polygon& outline, AreaLook look) {
  if (!is_ring(outline)) return;
  Group& group = group_of(into, mark);
  if (look == AreaLook::kLawn) lawn(group, mark, outline);
  if (look == AreaLook::kMeadow) meadow(group, mark, outline);
  if (look == AreaLook::kMulch) mulch(group, mark, outline);
  if (look == AreaLook::kPaving) {
    LineHatch grid{paper_angle(long_direction(outline)), 4.5, 0.13, seen(ink_of(mark), 0.7)};
    grid.anchor = outline.front();
    grid.crossed = true;
    fill(group, Path::polygon(outline), grid);
  }
  draw(group, Path::polygon(outline), pen_of(mark, kFineMm));
  if (mark.status == Status::kRemoved) append_strike(group, outline);
}

void append_patch(Group& into, const Mark& mark, const Polygon& outline) {
  if (!is_ring(outline)) return;
  Group& group = group_of(into, mark);
  Stipple where = field_of(mark, outline, 0.14, 0.2);
  where.keep_off_mm = 1.1;
  const Path strokes =
      strokes_at(outline, where, where.seed, [](Path& path, Vec2 at, Random& random) {
        const double half = random.between(0.5, 1.0);
        path.move_to(at - Vec2{half, 0}).line_to(at + Vec2{half, 0});
      });
  draw(group, strokes, Stroke{kFineMm, Role::kGraphite});
  Stroke edge{0.32, Role::kGraphite, Dash::kDotted};
  draw(group, Path::smooth(outline, true), edge);
}

void append_service(Group& into, const Mark& mark, const std::vector<Vec2>& line,
                    const std::string& letter) {
  if (!is_line(line)) return;
  const double all = line_length(line);
  Group& group = group_of(into, mark);
  Stroke chain = quiet(mark, 0.25);
  if (!mark.guessed) chain.dash = Dash::kChain;
  draw(group, Path::polyline(line), chain);
  const int letters = std::max(1, static_cast<int>(all / 45));
  for (int i = 0; i < letters; ++i) {
    const Station s = station(line, all * (i + 0.5) / letters);
    Text text{s.at, letter, Face::kSans, Weight::kSemiBold, 2.1, ink_of(mark), Anchor::kMiddle};
    text.rise = Rise::kMiddle;
    text.turn_rad = reading_angle(s.along);
    text.chip = Chip{Paint(Role::kPaper), 0.6, 0.4, 0.4};
    group.add({text});
  }
  if (mark.status == Status::kRemoved) strike_line(group, line, 1);
}

void append_boundary(Group& into, const Mark& mark, const Polygon& outline) {
  if (!is_ring(outline)) return;
  Stroke stroke = quiet(mark, kMediumMm);
  if (mark.status == Status::kFound && !mark.guessed) stroke.dash = Dash::kChain;
  draw(group_of(into, mark), Path::polygon(outline), stroke);
}

void append_cover(Group& into, const Mark& mark, const Polygon& outline, CoverLook look) {
  if (!is_ring(outline)) return;
  Group& group = group_of(into, mark);
  const Path path = Path::polygon(outline);
  const Vec2 along = long_direction(outline);
  fill(group, path, Paint(Role::kPaper, 0.45));
  LineHatch lines{paper_angle(left_of(along)), 5, kFineMm, ink_of(mark)};
  lines.anchor = centroid(outline);
  if (look == CoverLook::kNet) {
    lines = LineHatch{kPi / 4, 1.5, 0.11, seen(ink_of(mark), 0.8)};
    lines.crossed = true;
  }
  fill(group, path, lines);
  if (look == CoverLook::kGlass) {
    LineHatch glint{paper_angle(along) + kPi / 4, 9, 0.13, seen(ink_of(mark), 0.8)};
    glint.anchor = centroid(outline);
    fill(group, path, glint);
    glint.anchor = glint.anchor + left_of(paper_direction(glint.angle_rad)) * 0.9;
    fill(group, path, glint);
  }
  if (look == CoverLook::kHoops) {  // the ridge that the hoops carry
    LineHatch ridge{paper_angle(along), 1e6, kFineMm, ink_of(mark)};
    ridge.anchor = centroid(outline);
    fill(group, path, ridge);
  }
  draw(group, path, pen_of(mark, look == CoverLook::kNet ? kFineMm : kMediumMm));
  if (mark.status == Status::kRemoved) append_strike(group, outline);
}

void append_gate(Group& into, const Mark& mark, Vec2 hinge, Vec2 latch, bool opens_left) {
  const double width = length(latch - hinge);
  if (!is_extent(width)) return;
  Group& group = group_of(into, mark);
  const double shut = paper_angle(latch - hinge);
  const double open = shut + (opens_left ? 1 : -1) * kPi / 2;
  const Vec2 end = hinge + paper_direction(open) * width;
  const Vec2 along = unit(latch - hinge), across = left_of(along);
  draw(group, Path::segment(hinge, latch), Stroke{kHeavyMm * 2, Role::kPaper});  // the gap
  draw(group, Path::arc(hinge, width, shut, open), quiet(mark, kFineMm));
  draw(group, Path::segment(hinge, end), quiet(mark, kHeavyMm));
  Path posts;
  for (const Vec2 at : {hinge, latch}) {
    const Vec2 a = along * 0.6, b = across * 0.6;
    posts.add(Path::polygon({at - a - b, at + a - b, at + a + b, at - a + b}));
  }
  fill(group, posts, ink_of(mark));
  if (mark.status == Status::kRemoved) strike_line(group, {hinge, latch}, 1);
}

void append_tap(Group& into, const Mark& mark, Vec2 at) {
  Group& group = group_of(into, mark);
  Stroke ring = quiet(mark, kFineMm);
  ring.dash = Dash::kSolid;
  fill_and_draw(group, Path::circle(at, 1.9), Paint(Role::kPaper), ring);
  Path drop;
  drop.move_to(at + Vec2{0, -1.3})
      .curve_to(at + Vec2{0.15, -0.7}, at + Vec2{0.78, -0.15}, at + Vec2{0.78, 0.42})
      .curve_to(at + Vec2{0.78, 0.9}, at + Vec2{0.42, 1.2}, at + Vec2{0, 1.2})
      .curve_to(at + Vec2{-0.42, 1.2}, at + Vec2{-0.78, 0.9}, at + Vec2{-0.78, 0.42})
      .curve_to(at + Vec2{-0.78, -0.15}, at + Vec2{-0.15, -0.7}, at + Vec2{0, -1.3})
      .close();
  fill(group, drop, ink_of(mark));
}

void append_spot_level(Group& into, const Mark& mark, Vec2 at, const std::string& figure) {
  Group& group = group_of(into, mark);
  Stroke fine{kFineMm, ink_of(mark)};
  fine.casing_mm = 0.2;
  draw(group, Path::segment(at - Vec2{1.1, 0}, at + Vec2{1.1, 0}), fine);
  draw(group, Path::segment(at - Vec2{0, 1.1}, at + Vec2{0, 1.1}), fine);
  Text text{at + Vec2{0.7, -0.7}, (mark.guessed ? "≈ " : "") + figure};
  text.size_mm = 2.2;
  text.ink = ink_of(mark);
  text.tabular = true;
  text.halo_mm = 0.3;
  group.add({text});
}

void append_contour(Group& into, const Mark& mark, const std::vector<Vec2>& line,
                    const std::string& figure) {
  if (!is_line(line)) return;
  const double all = line_length(line);
  Group& group = group_of(into, mark);
  Stroke stroke{kFineMm, Role::kGraphite, mark.guessed ? Dash::kContourGuessed : Dash::kContour};
  if (mark.status == Status::kProposed) stroke.ink = Role::kRedChalk;
  draw(group, Path::smooth(line), stroke);
  if (figure.empty()) return;
  const Station s = station(line, all * 0.5);
  Text text{s.at, (mark.guessed ? "≈ " : "") + figure, Face::kSans, Weight::kRegular, kLabelTypeMm};
  text.ink = stroke.ink;
  text.anchor = Anchor::kMiddle;
  text.rise = Rise::kMiddle;
  text.turn_rad = reading_angle(s.along);
  text.tabular = true;
  text.chip = Chip{Paint(Role::kPaper, 0.9), 0.7, 0.3, 0.4};
  group.add({text});
}

void append_peg(Group& into, const Mark& mark, Vec2 at) {
  Group& group = group_of(into, mark);
  Stroke ring = quiet(mark, kFineMm);
  ring.dash = Dash::kSolid;
  fill_and_draw(group, Path::circle(at, 1.0), Paint(Role::kPaper), ring);
  group.add({Dots{{at}, 0.55, ink_of(mark)}});
}

void append_viewpoint(Group& into, const Mark& mark, Vec2 at, Vec2 facing) {
  if (!is_extent(length(facing))) return;
  Group& group = group_of(into, mark);
  const double ahead = paper_angle(facing);
  constexpr double kHalf = kPi / 6;
  Path wedge = Path::polyline({at, at + paper_direction(ahead - kHalf) * 3.4});
  const std::vector<FlatLine> arc = flattened(Path::arc(at, 3.4, ahead - kHalf, ahead + kHalf));
  for (const Vec2 p : arc.front().points) wedge.line_to(p);
  wedge.close();
  Stroke pen = quiet(mark, kFineMm);
  pen.dash = Dash::kSolid;
  pen.corner = LineCorner::kRound;
  fill_and_draw(group, wedge, Paint(Role::kPaper), pen);
  group.add({Dots{{at}, 1.3, ink_of(mark)}});
}

void append_sight(Group& into, const Mark& mark, Vec2 from, Vec2 to, double wide_mm,
                  SightLook look) {
  const double span = length(to - from);
  if (!is_extent(span) || span < 3) return;
  Group& group = group_of(into, mark);
  const Vec2 along = (to - from) * (1 / span), side = left_of(along);
  Stroke pen = quiet(mark, kFineMm);
  if (mark.status == Status::kFound) pen.ink = Role::kGraphite;
  if (look == SightLook::kShut) {
    const Vec2 end = to - along * 2.2;
    pen.dash = Dash::kSight;
    draw(group, Path::segment(from + along * 2, end), pen);
    Stroke bar = pen;
    bar.weight_mm = kMediumMm;
    bar.dash = Dash::kSolid;
    Path bars;
    for (const double back : {0.0, 1.0}) {
      const Vec2 at = end - along * back;
      bars.add(Path::segment(at - side * 2.2, at + side * 2.2));
    }
    draw(group, bars, bar);
    return;
  }
  if (look == SightLook::kWatched) pen.dash = Dash::kSight;
  const double half = std::max(0.5, wide_mm / 2);
  Path edges;
  for (const double way : {-1.0, 1.0})
    edges.add(Path::segment(from + along * 2 + side * (half * way), to + side * (half * way)));
  draw(group, edges, pen);
  pen.dash = Dash::kSolid;
  draw(group, Path::polyline({to - along * 2.4 - side * 1.2, to, to - along * 2.4 + side * 1.2}),
       pen);
}

}  // namespace spadework::geometry
