#include "geometry/symbol_parts.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace spadework::geometry {

Paint ink_of(const Mark& mark) {
  if (mark.status == Status::kProposed) return Role::kRedChalk;
  return mark.status == Status::kRemoved ? Role::kGraphite : Role::kInk;
}

Stroke pen_of(const Mark& mark, double weight_mm) {
  Stroke stroke{weight_mm, ink_of(mark)};
  stroke.dash = mark.guessed                       ? Dash::kDotted
                : mark.status == Status::kProposed ? Dash::kProposed
                : mark.status == Status::kRemoved  ? Dash::kRemoved
                                                   : Dash::kSolid;
  if (mark.guessed)
    stroke.weight_mm = std::clamp(weight_mm * 1.15, 0.24, 0.55);  // as grey as a line
  if (mark.status == Status::kProposed) stroke.casing_mm = 0.22;
  return stroke;
}

void append_strike(Group& into, const Polygon& around) {
  if (around.size() < 2) return;
  const Box2 box = bounds(around);
  const Vec2 low{box.low.x, box.high.y}, high{box.high.x, box.low.y};
  const double across = length(high - low);
  if (!(across > 0)) return;
  const Vec2 over = (high - low) * (1.4 / across);
  Stroke stroke{kMediumMm, Role::kGraphite};
  stroke.end = LineEnd::kRound;
  parts::draw(into, Path::segment(low - over, high + over), stroke);
}

namespace parts {

bool is_extent(double mm) { return mm > 1e-6 && mm < 1e5; }
bool is_line(const std::vector<Vec2>& line) {
  return line.size() >= 2 && is_extent(line_length(line));
}
bool is_ring(const Polygon& outline) {
  return outline.size() >= 3 && area(outline) > 1e-6 && is_extent(line_length(outline));
}

Group& group_of(Group& into, const Mark& mark) { return into.add_group(mark.id, mark.title); }

void draw(Group& into, Path path, const Stroke& stroke) {
  into.add({Shape{std::move(path), {}, stroke}});
}
void fill(Group& into, Path path, Fill with) {
  into.add({Shape{std::move(path), {with}, std::nullopt}});
}
void fill_and_draw(Group& into, Path path, Fill with, const Stroke& stroke) {
  into.add({Shape{std::move(path), {with}, stroke}});
}

Path Ribbon::outline() const {
  if (closed) return Path::polygon(left).add(Path::polygon(right));
  Polygon all = left;
  all.insert(all.end(), right.rbegin(), right.rend());
  return Path::polygon(all);
}

Ribbon ribbon(std::vector<Vec2> line, double width_mm) {
  line.erase(
      std::unique(line.begin(), line.end(), [](Vec2 a, Vec2 b) { return length(a - b) < 1e-6; }),
      line.end());
  Ribbon out;
  if (!is_line(line) || !is_extent(width_mm)) return out;
  out.closed = line.size() > 3 && length(line.front() - line.back()) < 1e-6;
  if (out.closed) line.pop_back();
  const std::size_t n = line.size();
  if (n < 2) return out;
  for (std::size_t i = 0; i < n; ++i) {
    const bool first = i == 0 && !out.closed, last = i + 1 == n && !out.closed;
    const Vec2 before = unit(first ? line[1] - line[0] : line[i] - line[(i + n - 1) % n]);
    const Vec2 after = unit(last ? line[i] - line[i - 1] : line[(i + 1) % n] - line[i]);
    const Vec2 a = left_of(before), b = left_of(after);
    // A mitre; where the line folds back, square.
    const double meet = 1 + dot(a, b);
    const Vec2 side = (meet > 0.3 ? (a + b) * (1 / meet) : b) * (width_mm / 2);
    out.left.push_back(line[i] + side);
    out.right.push_back(line[i] - side);
  }
  return out;
}

double line_length(const std::vector<Vec2>& line) {
  double sum = 0;
  for (std::size_t i = 1; i < line.size(); ++i) sum += length(line[i] - line[i - 1]);
  return sum;
}

Station station(const std::vector<Vec2>& line, double at_mm) {
  Station found{line.empty() ? Vec2{} : line.front(), {1, 0}};
  double left = at_mm;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double piece = length(line[i] - line[i - 1]);
    if (piece < 1e-9) continue;
    found.along = (line[i] - line[i - 1]) * (1 / piece);
    found.at = line[i - 1] + found.along * std::clamp(left, 0.0, piece);
    if (left <= piece) break;
    left -= piece;
  }
  return found;
}

std::vector<Vec2> stretch(const std::vector<Vec2>& line, double from_mm, double to_mm) {
  std::vector<Vec2> out{station(line, from_mm).at};
  double so_far = 0;
  for (std::size_t i = 1; i + 1 < line.size(); ++i) {
    so_far += length(line[i] - line[i - 1]);
    if (so_far > from_mm + 1e-6 && so_far < to_mm - 1e-6) out.push_back(line[i]);
  }
  out.push_back(station(line, to_mm).at);
  return out;
}

void strike_line(Group& into, const std::vector<Vec2>& line, double width_mm) {
  const double all = line_length(line);
  const int strokes = std::max(1, static_cast<int>(all / 14));
  Stroke stroke{kMediumMm, Role::kGraphite};
  stroke.end = LineEnd::kRound;
  for (int i = 0; i < strokes; ++i) {
    const Station s = station(line, all * (i + 0.5) / strokes);
    const Vec2 slant = unit(s.along * 0.7 + left_of(s.along)) * (width_mm / 2 + 1.7);
    draw(into, Path::segment(s.at - slant, s.at + slant), stroke);
  }
}

double reading_angle(Vec2 along) {
  double angle = paper_angle(along);
  constexpr double kHalf = std::numbers::pi / 2;
  if (angle > kHalf + 1e-6) angle -= 2 * kHalf;
  if (angle <= -kHalf + 1e-6) angle += 2 * kHalf;
  return angle;
}

void rosette(Group& into, const Mark& mark, Vec2 at, double radius_mm, int leaves) {
  Random random(seed_of(mark.id) ^ 0x2057);
  const double start = random.unit() * 2 * std::numbers::pi;
  Stroke stroke = pen_of(mark, kFineMm);
  stroke.dash = mark.guessed ? Dash::kDotted : Dash::kSolid;  // too small for dashes
  stroke.casing_mm = 0;
  stroke.corner = LineCorner::kRound;
  for (int i = 0; i < leaves; ++i) {
    const double angle = start + 2 * std::numbers::pi * i / leaves + random.between(-0.12, 0.12);
    const double reach = radius_mm * random.between(0.88, 1.0);
    const double half = std::numbers::pi / leaves * 0.86;
    const auto put = [&](double r, double turn) {
      return at + paper_direction(angle + turn) * (r * reach);
    };
    Path leaf;
    leaf.move_to(put(0.16, 0))
        .curve_to(put(0.45, half * 1.25), put(0.85, half * 0.9), put(1, 0))
        .curve_to(put(0.85, -half * 0.9), put(0.45, -half * 1.25), put(0.16, 0));
    fill_and_draw(into, leaf, Paint(Role::kPaper, 0.85), stroke);
    if (radius_mm > 2) draw(into, Path::segment(put(0.3, 0), put(0.72, 0)), stroke);
  }
  into.add({Dots{{at}, std::clamp(radius_mm * 0.22, 0.35, 0.8), ink_of(mark)}});
}

}  // namespace parts

}  // namespace spadework::geometry
