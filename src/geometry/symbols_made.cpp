// Symbols of what is built: beds, paths, walls, fences, buildings and what stands about.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/symbol_parts.h"

namespace spadework::geometry {

using namespace parts;  // NOLINT: the room's own

namespace {

constexpr double kPi = std::numbers::pi;

// The outward normal of the edge from corner i, on paper.
Vec2 outward(const Polygon& ring, std::size_t i) {
  const Vec2 along = unit(ring[(i + 1) % ring.size()] - ring[i]);
  return left_of(along) * (signed_area(ring) > 0 ? -1.0 : 1.0);
}

// The outer edge; every edge that faces downhill as squarely as any other is heavy.
void draw_boards(Group& group, const Mark& mark, const Polygon& ring, Vec2 downhill) {
  const std::size_t n = ring.size();
  double best = 0.1;
  for (std::size_t i = 0; i < n; ++i) best = std::max(best, dot(outward(ring, i), downhill));
  const auto is_heavy = [&](std::size_t i) {
    return dot(outward(ring, i), downhill) > best - 0.05;
  };
  if (!mark.guessed) draw(group, Path::polygon(ring), pen_of(mark, kMediumMm));
  for (std::size_t i = 0; i < n; ++i) {
    const Vec2 a = ring[i], b = ring[(i + 1) % n];
    Stroke pen = pen_of(mark, is_heavy(i) ? kHeavyMm * 1.4 : kMediumMm);
    pen.casing_mm = 0;
    if (mark.guessed) {  // dots of two sizes would not fall on each other
      draw(group, Path::segment(a, b), pen);
    } else if (is_heavy(i)) {
      const Vec2 over = unit(b - a) * (kMediumMm / 2), shift = outward(ring, i) * 0.15;
      draw(group, Path::segment(a - over + shift, b + over + shift), pen);
    }
  }
}

Stroke plain_fine(const Mark& mark) {
  Stroke stroke{kFineMm, ink_of(mark)};
  if (mark.guessed) stroke.dash = Dash::kDotted;
  return stroke;
}

}  // namespace

void append_bed(Group& into, const Mark& mark, const BedShape& bed) {
  if (!is_ring(bed.outline)) return;
  Group& group = group_of(into, mark);
  const Polygon ring = anticlockwise(bed.outline);
  const Polygon inner = inset(ring, std::max(bed.board_mm, 0.7));
  if (bed.soil && !inner.empty()) fill(group, Path::polygon(inner), *bed.soil);
  Path boards = Path::polygon(ring);
  if (!inner.empty()) boards.add(Path::polygon(inner));
  fill(group, boards, Paint(Role::kPaper, 0.92));
  draw_boards(group, mark, ring, bed.downhill);
  Stroke inside_pen = pen_of(mark, kFineMm);
  inside_pen.casing_mm = 0;
  if (!inner.empty()) draw(group, Path::polygon(inner), inside_pen);
  if (mark.status == Status::kRemoved) append_strike(group, ring);
}

void append_path(Group& into, const Mark& mark, const std::vector<Vec2>& line, double width_mm,
                 const std::vector<Vec2>& steps) {
  const Ribbon sides = ribbon(line, width_mm);
  if (sides.left.empty()) return;
  Group& group = group_of(into, mark);
  Stipple dots{0.28, 0.24, ink_of(mark)};
  dots.anchor = line.front();
  dots.seed = seed_of(mark.id);
  dots.keep_off_mm = 0.45;
  const auto near_edge = [&](Vec2 p) {
    double nearest = 1e9;
    for (const std::vector<Vec2>* side : {&sides.left, &sides.right})
      for (std::size_t i = 1; i < side->size(); ++i)
        nearest = std::min(nearest, distance_to_segment(p, (*side)[i - 1], (*side)[i]));
    return 0.3 + 0.7 * std::exp(-nearest / 1.6);
  };
  group.add({Dots{stipple_dots(sides.outline(), dots, near_edge), dots.dot_mm, dots.ink}});
  Stroke edge = pen_of(mark, kFineMm);
  for (const std::vector<Vec2>* side : {&sides.left, &sides.right})
    draw(group, sides.closed ? Path::polygon(*side) : Path::polyline(*side), edge);
  for (const Vec2 step : steps) {
    Station nearest;
    double best = 1e300;
    for (std::size_t i = 1; i < line.size(); ++i)
      if (const double d = distance_to_segment(step, line[i - 1], line[i]);
          d < best && length(line[i] - line[i - 1]) > 1e-9)
        best = d, nearest = {step, unit(line[i] - line[i - 1])};
    const Vec2 across = left_of(nearest.along) * (width_mm / 2);
    Stroke tread{kFineMm, ink_of(mark)};
    draw(group, Path::segment(step - across, step + across), tread);
  }
  if (mark.status == Status::kRemoved) strike_line(group, line, width_mm);
}

void append_wall(Group& into, const Mark& mark, const std::vector<Vec2>& line, double thick_mm) {
  const Ribbon faces = ribbon(line, std::max(thick_mm, 0.5));
  if (faces.left.empty()) return;
  Group& group = group_of(into, mark);
  if (thick_mm < 0.8) {
    fill(group, faces.outline(), ink_of(mark));
  } else {
    Shape shape{faces.outline(), {Paint(Role::kPaper)}, pen_of(mark, kHeavyMm)};
    if (mark.status != Status::kRemoved)
      shape.fills.emplace_back(diagonal_hatch(ink_of(mark), std::clamp(thick_mm * 0.45, 0.7, 1.1)));
    group.add({std::move(shape)});
  }
  if (mark.status == Status::kRemoved) strike_line(group, line, thick_mm);
}

void append_fence(Group& into, const Mark& mark, const std::vector<Vec2>& line, double bay_mm) {
  if (!is_line(line) || !is_extent(bay_mm)) return;
  Group& group = group_of(into, mark);
  draw(group, Path::polyline(line), pen_of(mark, kMediumMm));
  Path posts;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double piece = length(line[i] - line[i - 1]);
    if (piece < 1e-6) continue;
    const Vec2 along = (line[i] - line[i - 1]) * (1 / piece);
    const int bays = static_cast<int>(std::clamp(std::round(piece / bay_mm), 1.0, 1000.0));
    for (int k = i == 1 ? 0 : 1; k <= bays; ++k) {
      const Vec2 at = line[i - 1] + along * (piece * k / bays), a = along * 0.55;
      const Vec2 b = left_of(a);
      posts.add(Path::polygon({at - a - b, at + a - b, at + a + b, at - a + b}));
    }
  }
  fill(group, posts, ink_of(mark));
  if (mark.status == Status::kRemoved) strike_line(group, line, 0.8);
}

void append_support(Group& into, const Mark& mark, const SupportShape& support) {
  const std::size_t n = support.feet.size();
  if (n == 0) return;
  Group& group = group_of(into, mark);
  Stroke chain = pen_of(mark, 0.25);
  if (!mark.guessed) chain.dash = Dash::kChain;
  if (n > 1) {
    draw(group, support.closed ? Path::polygon(support.feet) : Path::polyline(support.feet), chain);
  }
  if (support.crossed) {
    const Vec2 top = centroid(support.feet);
    for (const Vec2 foot : support.feet) draw(group, Path::segment(foot, top), plain_fine(mark));
    group.add({Dots{{top}, 0.7, ink_of(mark)}});
  }
  Path feet;
  for (std::size_t i = 0; i < n; ++i) {
    const Vec2 to = support.feet[i + 1 < n ? i + 1 : (i == 0 ? 0 : i - 1)] - support.feet[i];
    const Vec2 a = (length(to) > 1e-9 ? unit(to) : Vec2{1, 0}) * 0.6, b = left_of(a);
    const Vec2 at = support.feet[i];
    feet.add(Path::polygon({at - a - b, at + a - b, at + a + b, at - a + b}));
  }
  fill(group, feet, ink_of(mark));
  if (mark.status == Status::kRemoved) append_strike(group, support.feet);
}

void append_seat(Group& into, const Mark& mark, const SeatShape& seat) {
  if (!is_extent(seat.width_mm) || !is_extent(seat.depth_mm) || !is_extent(length(seat.facing)))
    return;
  Group& group = group_of(into, mark);
  const Vec2 front = unit(seat.facing), side = left_of(front);
  const auto put = [&](double across, double forward) {
    return seat.at + side * (across * seat.width_mm / 2) + front * (forward * seat.depth_mm / 2);
  };
  if (seat.sight_mm > 0) {
    Stroke sight{kFineMm, ink_of(mark), Dash::kSight};
    const Vec2 eye = seat.at;
    for (const double turn : {kPi / 6, -kPi / 6}) {
      const Vec2 way = turned(front, turn);
      draw(group, Path::segment(eye + way * (0.75 * seat.depth_mm), eye + way * seat.sight_mm),
           sight);
    }
  }
  const Polygon outline{put(-1, -1), put(1, -1), put(1, 1), put(-1, 1)};
  fill_and_draw(group, Path::polygon(outline), Paint(Role::kPaper), pen_of(mark, kMediumMm));
  for (const double slat : {-0.25, 0.2, 0.62})
    draw(group, Path::segment(put(-1, slat), put(1, slat)), plain_fine(mark));
  fill(group, Path::polygon({put(-1, -1), put(1, -1), put(1, -0.66), put(-1, -0.66)}),
       ink_of(mark));
  if (mark.status == Status::kRemoved) append_strike(group, outline);
}

void append_building(Group& into, const Mark& mark, const BuildingShape& building) {
  if (!is_ring(building.outline)) return;
  Group& group = group_of(into, mark);
  const Path outline = Path::polygon(building.outline);
  fill(group, outline, Paint(Role::kPaper));
  fill(group, outline, Paint(mixed(colour_of(Role::kPaper), colour_of(Role::kGraphite), 0.10)));
  for (const RoofSlope& slope : building.slopes) {
    if (!is_ring(slope.outline) || dot(slope.fall, mark.to_sun) > 0.2) continue;
    const double spacing = dot(slope.fall, mark.to_sun) < -0.3 ? 0.85 : 1.7;
    LineHatch courses{paper_angle(left_of(slope.fall)), spacing, 0.13, seen(ink_of(mark), 0.75)};
    courses.anchor = slope.outline.front();
    fill(group, Path::polygon(slope.outline), courses);
  }
  for (const auto& [a, b] : building.hips) draw(group, Path::segment(a, b), plain_fine(mark));
  Stroke ridge{kMediumMm, ink_of(mark)};
  for (const auto& [a, b] : building.ridges) draw(group, Path::segment(a, b), ridge);
  draw(group, outline, pen_of(mark, kHeavyMm));
  if (mark.status == Status::kRemoved) append_strike(group, building.outline);
}

void append_tank(Group& into, const Mark& mark, Vec2 at, double across_mm) {
  if (!is_extent(across_mm)) return;
  Group& group = group_of(into, mark);
  const double r = across_mm / 2;
  fill_and_draw(group, Path::circle(at, r),
                Paint(mixed(colour_of(Role::kPaper), kWaterRamp[3], 0.3)), pen_of(mark, kMediumMm));
  if (r > 1.4) draw(group, Path::circle(at, r - 0.6), plain_fine(mark));
  Path water;
  for (int i = -1; i <= 1; ++i) {
    std::vector<Vec2> wave;
    const double half = r * (i == 0 ? 0.56 : 0.36), y = at.y + i * r * 0.3;
    for (int k = -4; k <= 4; ++k)
      wave.push_back({at.x + half * k / 4, y + std::sin(k * kPi / 2 + kPi / 2) * r * 0.045});
    water.add(Path::smooth(wave));
  }
  Stroke fine{kFineMm, ink_of(mark)};
  fine.end = LineEnd::kRound;
  draw(group, water, fine);
  if (mark.status == Status::kRemoved)
    append_strike(group, {at - Vec2{r, r}, at + Vec2{r, -r}, at + Vec2{r, r}});
}

void append_object(Group& into, const Mark& mark, const Polygon& outline) {
  if (!is_ring(outline)) return;
  Group& group = group_of(into, mark);
  LineHatch hatch{-kPi / 4, 1.3, 0.13, seen(ink_of(mark), 0.8)};
  hatch.anchor = outline.front();
  group.add({Shape{Path::polygon(outline), {Paint(Role::kPaper), hatch}, pen_of(mark, kMediumMm)}});
  if (mark.status == Status::kRemoved) append_strike(group, outline);
}

}  // namespace spadework::geometry
