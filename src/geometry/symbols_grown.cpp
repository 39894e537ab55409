// Symbols of what grows: trees, hedges, plants, pots. Their irregularity is seeded by the thing's
// id, so that a tree keeps its face from drawing to drawing.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/symbol_parts.h"

namespace spadework::geometry {

using namespace parts;  // NOLINT: the room's own

namespace {

constexpr double kTurn = 2 * std::numbers::pi;

double smooth_step(double low, double high, double v) {
  const double t = std::clamp((v - low) / (high - low), 0.0, 1.0);
  return t * t * (3 - 2 * t);
}

// One piece of a broken ring: a shallow bulge between two angles.
Path bulge(Vec2 middle, double radius, double from, double to) {
  const double span = to - from, arc_mm = span * radius;
  const double swell = std::min(0.055 * arc_mm, 0.45) * 4 / 3;
  const auto put = [&](double r, double angle) { return middle + paper_direction(angle) * r; };
  // Handles of the true arc, lifted by the swell.
  const double reach = 4.0 / 3 * std::tan(span / 4);
  const auto tangent = [&](double angle) { return paper_direction(angle + kTurn / 4) * radius; };
  const Vec2 start = put(radius, from), end = put(radius, to);
  Path path;
  path.move_to(start).curve_to(start + tangent(from) * reach + paper_direction(from) * swell,
                               end - tangent(to) * reach + paper_direction(to) * swell, end);
  return path;
}

// Arcs around the ring with a small gap after each.
std::vector<std::pair<double, double>> broken_ring(Random& random, double radius) {
  const double arc = std::clamp(7.5 / radius, 0.16, 0.95), gap = std::min(1.0 / radius, 0.15);
  std::vector<double> lengths;
  double sum = 0;
  while (sum < kTurn) {
    lengths.push_back(arc * random.between(0.55, 1.45));
    sum += lengths.back() + gap;
  }
  std::vector<std::pair<double, double>> arcs;
  const double fit = kTurn / sum;
  double at = random.unit() * kTurn;
  for (const double piece : lengths) {
    arcs.emplace_back(at, at + piece * fit);
    at += (piece + gap) * fit;
  }
  return arcs;
}

void crown_in_leaf(Group& group, const Mark& mark, const TreeShape& tree) {
  const double r = tree.crown_mm / 2;
  const Vec2 away = mark.to_sun * -1.0;
  Stipple dots{1.9, 0.24, ink_of(mark)};
  dots.anchor = tree.at;
  dots.seed = seed_of(mark.id);
  dots.keep_off_mm = 0.35;
  const auto shade = [&](Vec2 p) {
    const Vec2 q = (p - tree.at) * (1 / r);
    const double side = dot(q, away);
    const double deep = smooth_step(-0.25, 0.95, side + 0.25 * (length(q) - 0.5));
    return 0.035 + 0.93 * deep * deep;
  };
  group.add({Dots{stipple_dots(Path::circle(tree.at, r), dots, shade), dots.dot_mm, dots.ink}});
  Random random(seed_of(mark.id));
  for (const auto& [from, to] : broken_ring(random, r)) {
    const double side = dot(paper_direction((from + to) / 2), away);
    Stroke pen = pen_of(mark, side > 0.3 ? 0.42 : side > -0.4 ? 0.28 : kFineMm);
    if (mark.status != Status::kFound && !mark.guessed) pen.dash = Dash::kSolid;  // broken already
    pen.end = LineEnd::kRound;
    draw(group, bulge(tree.at, r - 0.2 - random.between(0, 0.012) * r, from, to), pen);
  }
}

// A limb that forks until it has reached the crown's edge.
struct Limbs {
  Vec2 middle;
  double radius;
  Random& random;
  Path thick, thin, twigs;

  void grow(Vec2 from, double angle, double reach, int level) {
    const Vec2 to = from + paper_direction(angle) * reach;
    const Vec2 bend = left_of(paper_direction(angle)) * (reach * random.between(-0.09, 0.09));
    Path& path = level == 0 ? thick : level == 1 ? thin : twigs;
    path.move_to(from);
    path.curve_to(from + (to - from) * 0.35 + bend, from + (to - from) * 0.7 + bend, to);
    if (level == 3) return;
    const int forks = level == 2 ? 2 : random.unit() < 0.35 ? 3 : 2;
    const double spread = level == 0 ? 0.52 : 0.62;
    for (int i = 0; i < forks; ++i) {
      const double turn = (forks == 1 ? 0 : (2.0 * i / (forks - 1) - 1)) * spread;
      const double way = angle + turn * random.between(0.65, 1.1);
      double next = reach * random.between(0.62, 0.86);
      const double room = radius * random.between(0.93, 1.0) - length(to - middle);
      next = std::min(next, room);
      if (next > radius * 0.04) grow(to, way, next, level + 1);
    }
  }
};

void bare_crown(Group& group, const Mark& mark, const TreeShape& tree) {
  const double r = tree.crown_mm / 2;
  Random random(seed_of(mark.id) ^ 0xbabe);
  Limbs limbs{tree.at, r, random, {}, {}, {}};
  const int count = r < 5 ? 6 : 8;
  const double start = random.unit() * kTurn;
  for (int i = 0; i < count; ++i)
    limbs.grow(tree.at, start + kTurn * i / count + random.between(-0.16, 0.16),
               r * random.between(0.30, 0.40), 0);
  const auto pen = [&](double weight) {
    Stroke stroke{weight, ink_of(mark)};
    stroke.end = LineEnd::kRound;
    stroke.corner = LineCorner::kRound;
    return stroke;
  };
  draw(group, limbs.twigs, pen(0.13));
  draw(group, limbs.thin, pen(0.2));
  draw(group, limbs.thick, pen(kMediumMm));
  if (mark.status != Status::kFound || mark.guessed)
    draw(group, Path::circle(tree.at, r), pen_of(mark, kFineMm));
}

std::vector<Vec2> joined(std::vector<Vec2> line, bool closed) {
  if (closed) line.push_back(line.front());
  return line;
}

// One side of a hedge: shallow bulges to the outside with small gaps.
void broken_side(Group& group, const Mark& mark, const std::vector<Vec2>& side, double outside,
                 Random& random) {
  const double all = line_length(side), away_sign = outside;
  for (double at = 0; at < all;) {
    const double piece = random.between(2.4, 4.6), end = std::min(at + piece, all);
    if (end - at > 0.5) {
      const Station a = station(side, at), b = station(side, end);
      const Station m = station(side, (at + end) / 2);
      const Vec2 out = left_of(m.along) * away_sign;
      const double lit = dot(out, mark.to_sun);
      Stroke pen = pen_of(mark, lit < -0.2 ? 0.42 : lit < 0.4 ? 0.28 : kFineMm);
      if (mark.status != Status::kFound && !mark.guessed) pen.dash = Dash::kSolid;
      pen.end = LineEnd::kRound;
      const Vec2 swell = out * std::min(0.13 * (end - at), 0.5);
      Path path;
      path.move_to(a.at);
      path.curve_to(a.at + (m.at - a.at) * 0.55 + swell, b.at + (m.at - b.at) * 0.55 + swell, b.at);
      draw(group, path, pen);
    }
    at = end + random.between(0.7, 1.1);
  }
}

}  // namespace

void append_tree(Group& into, const Mark& mark, const TreeShape& tree) {
  if (!is_extent(tree.crown_mm)) return;
  Group& group = group_of(into, mark);
  tree.in_leaf ? crown_in_leaf(group, mark, tree) : bare_crown(group, mark, tree);
  const double stem = std::clamp(tree.stem_mm, 0.9, tree.crown_mm * 0.2);
  fill_and_draw(group, Path::circle(tree.at, stem / 2), ink_of(mark),
                Stroke{kFineMm, Role::kPaper});
  const double r = tree.crown_mm / 2 * 0.72;
  if (mark.status == Status::kRemoved)
    append_strike(group, {tree.at - Vec2{r, r}, tree.at + Vec2{r, r}, tree.at + Vec2{r, -r}});
}

void append_hedge(Group& into, const Mark& mark, const std::vector<Vec2>& line, double thick_mm) {
  const double thick = std::max(thick_mm, 1.2);
  const Ribbon sides = ribbon(line, thick);
  if (sides.left.empty()) return;
  Group& group = group_of(into, mark);
  Stipple dots{1.5, 0.24, ink_of(mark)};
  dots.anchor = line.front();
  dots.seed = seed_of(mark.id);
  dots.keep_off_mm = 0.3;
  const auto shade = [&](Vec2 p) {
    double best = 1e300, side = 0;
    for (std::size_t i = 1; i < line.size(); ++i) {
      const double d = distance_to_segment(p, line[i - 1], line[i]);
      if (d >= best || length(line[i] - line[i - 1]) < 1e-9) continue;
      best = d;
      const Vec2 across = left_of(unit(line[i] - line[i - 1]));
      side = dot(p - line[i], across) / (thick / 2) * -dot(across, mark.to_sun);
    }
    return 0.10 + 0.85 * smooth_step(-0.7, 1.0, side);
  };
  fill(group, sides.outline(), Paint(Role::kPaper, 0.75));
  group.add({Dots{stipple_dots(sides.outline(), dots, shade), dots.dot_mm, dots.ink}});
  Random random(seed_of(mark.id) ^ 0x4ed6e);
  broken_side(group, mark, joined(sides.left, sides.closed), 1, random);
  broken_side(group, mark, joined(sides.right, sides.closed), -1, random);
  if (!sides.closed) {
    broken_side(group, mark, {sides.right.front(), sides.left.front()}, 1, random);
    broken_side(group, mark, {sides.left.back(), sides.right.back()}, 1, random);
  }
  if (mark.status == Status::kRemoved) strike_line(group, line, thick);
}

void append_plant(Group& into, const Mark& mark, Vec2 at, double across_mm) {
  if (!is_extent(across_mm)) return;
  Group& group = group_of(into, mark);
  rosette(group, mark, at, across_mm / 2, across_mm < 4 ? 5 : across_mm < 9 ? 7 : 9);
  const double r = across_mm / 2;
  if (mark.status == Status::kRemoved)
    append_strike(group, {at - Vec2{r, r}, at + Vec2{r, r}, at + Vec2{r, -r}});
}

void append_container(Group& into, const Mark& mark, Vec2 at, double across_mm) {
  if (!is_extent(across_mm)) return;
  Group& group = group_of(into, mark);
  const double r = across_mm / 2;
  fill_and_draw(group, Path::circle(at, r), Paint(Role::kPaper), pen_of(mark, kMediumMm));
  Stroke rim = pen_of(mark, kFineMm);
  rim.casing_mm = 0;
  if (r > 1.2) draw(group, Path::circle(at, r - 0.45), rim);
  rosette(group, mark, at, std::max(r - 0.75, r * 0.4), 5);
  if (mark.status == Status::kRemoved)
    append_strike(group, {at - Vec2{r, r}, at + Vec2{r, r}, at + Vec2{r, -r}});
}

}  // namespace spadework::geometry
