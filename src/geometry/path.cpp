#include "geometry/path.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace spadework::geometry {

namespace {

constexpr double kQuarter = std::numbers::pi / 2;

// Control points of the piece from b to c of a centripetal Catmull–Rom curve through a, b, c, d.
void smooth_piece(Path& path, Vec2 a, Vec2 b, Vec2 c, Vec2 d) {
  const auto root = [](Vec2 p, Vec2 q) { return std::sqrt(std::max(length(q - p), 1e-9)); };
  const double ab = root(a, b), bc = root(b, c), cd = root(c, d);
  // [yuksel2011] the Bézier form of the centripetal curve
  const Vec2 from = (c * (ab * ab) - a * (bc * bc) + b * (2 * ab * ab + 3 * ab * bc + bc * bc)) *
                    (1 / (3 * ab * (ab + bc)));
  const Vec2 to = (b * (cd * cd) - d * (bc * bc) + c * (2 * cd * cd + 3 * cd * bc + bc * bc)) *
                  (1 / (3 * cd * (cd + bc)));
  path.curve_to(from, to, c);
}

void flatten_curve(std::vector<Vec2>& out, Vec2 a, const PathStep& step, double within_mm) {
  const Vec2 b = step.handle_from, c = step.handle_to, d = step.to;
  const double bend = std::max(length(a - b * 2 + c), length(b - c * 2 + d));
  // |error| ≤ max|B''| / (8 n²) with |B''| ≤ 6·bend
  const double pieces = std::ceil(std::sqrt(0.75 * bend / within_mm));
  const int n = pieces > 1 ? static_cast<int>(std::min(pieces, 400.0)) : 1;
  for (int i = 1; i <= n; ++i) {
    const double t = static_cast<double>(i) / n, s = 1 - t;
    out.push_back(a * (s * s * s) + b * (3 * s * s * t) + c * (3 * s * t * t) + d * (t * t * t));
  }
}

}  // namespace

Vec2 paper_direction(double angle_rad) { return {std::cos(angle_rad), -std::sin(angle_rad)}; }
double paper_angle(Vec2 direction) { return std::atan2(-direction.y, direction.x); }

Polygon PlanOnPaper::paper(const Polygon& plan_m) const {
  Polygon out;
  out.reserve(plan_m.size());
  for (const Vec2 p : plan_m) out.push_back(paper(p));
  return out;
}

Path& Path::move_to(Vec2 to) {
  steps_.push_back({PathStep::Kind::kMove, to, {}, {}});
  return *this;
}
Path& Path::line_to(Vec2 to) {
  steps_.push_back({PathStep::Kind::kLine, to, {}, {}});
  return *this;
}
Path& Path::curve_to(Vec2 handle_from, Vec2 handle_to, Vec2 to) {
  steps_.push_back({PathStep::Kind::kCurve, to, handle_from, handle_to});
  return *this;
}
Path& Path::close() {
  steps_.push_back({PathStep::Kind::kClose, {}, {}, {}});
  return *this;
}
Path& Path::add(const Path& other) {
  steps_.insert(steps_.end(), other.steps_.begin(), other.steps_.end());
  return *this;
}

Path Path::polyline(const std::vector<Vec2>& points) {
  Path path;
  for (std::size_t i = 0; i < points.size(); ++i)
    i == 0 ? path.move_to(points[i]) : path.line_to(points[i]);
  return path;
}
Path Path::polygon(const Polygon& corners) {
  Path path = polyline(corners);
  if (!corners.empty()) path.close();
  return path;
}
Path Path::segment(Vec2 a, Vec2 b) { return polyline({a, b}); }

Path Path::box(Vec2 corner, double width_mm, double height_mm, double round_mm) {
  const Vec2 c = corner, across{width_mm, 0}, down{0, height_mm};
  const double r = std::min({round_mm, width_mm / 2, height_mm / 2});
  if (!(r > 0)) return polygon({c, c + across, c + across + down, c + down});
  Path path;
  path.move_to(c + Vec2{r, 0});
  const double k = r * (1 - 4.0 / 3 * std::tan(kQuarter / 4));
  const auto corner_at = [&](Vec2 at, Vec2 from, Vec2 to) {
    path.line_to(at + from * r).curve_to(at + from * k, at + to * k, at + to * r);
  };
  corner_at(c + across, {-1, 0}, {0, 1});
  corner_at(c + across + down, {0, -1}, {-1, 0});
  corner_at(c + down, {1, 0}, {0, -1});
  corner_at(c, {0, 1}, {1, 0});
  return path.close();
}

Path Path::arc(Vec2 middle, double radius_mm, double from_rad, double to_rad) {
  Path path;
  const int n = std::max(1, static_cast<int>(std::ceil(std::abs(to_rad - from_rad) / kQuarter)));
  const double step = (to_rad - from_rad) / n;
  const double handle = radius_mm * 4.0 / 3 * std::tan(step / 4);
  path.move_to(middle + paper_direction(from_rad) * radius_mm);
  for (int i = 0; i < n; ++i) {
    const double a = from_rad + step * i, b = a + step;
    const Vec2 start = middle + paper_direction(a) * radius_mm;
    const Vec2 end = middle + paper_direction(b) * radius_mm;
    path.curve_to(start + paper_direction(a + kQuarter) * handle,
                  end - paper_direction(b + kQuarter) * handle, end);
  }
  return path;
}
Path Path::circle(Vec2 middle, double radius_mm) {
  return arc(middle, radius_mm, 0, 4 * kQuarter).close();
}

Path Path::ellipse(Vec2 middle, double radius_x_mm, double radius_y_mm, double turn_rad) {
  const Vec2 along = paper_direction(turn_rad) * radius_x_mm;
  const Vec2 up = paper_direction(turn_rad + kQuarter) * radius_y_mm;
  const auto placed = [&](Vec2 p) { return middle + along * p.x + up * -p.y; };
  Path path;
  for (PathStep step : circle({0, 0}, 1).steps_) {
    step.to = placed(step.to);
    step.handle_from = placed(step.handle_from);
    step.handle_to = placed(step.handle_to);
    path.steps_.push_back(step);
  }
  return path;
}

Path Path::smooth(const std::vector<Vec2>& points, bool closed) {
  const std::size_t n = points.size();
  if (n < 3) return polyline(points);
  Path path;
  path.move_to(points[0]);
  const std::size_t pieces = closed ? n : n - 1;
  for (std::size_t i = 0; i < pieces; ++i) {
    const Vec2 b = points[i], c = points[(i + 1) % n];
    const Vec2 a = closed ? points[(i + n - 1) % n] : i == 0 ? b + (b - c) : points[i - 1];
    const Vec2 d = closed ? points[(i + 2) % n] : i + 2 == n ? c + (c - b) : points[i + 2];
    smooth_piece(path, a, b, c, d);
  }
  return closed ? path.close() : path;
}

std::vector<FlatLine> flattened(const Path& path, double within_mm) {
  std::vector<FlatLine> lines;
  for (const PathStep& step : path.steps()) {
    if (step.kind == PathStep::Kind::kMove || lines.empty()) lines.emplace_back();
    FlatLine& line = lines.back();
    if (step.kind == PathStep::Kind::kClose) {
      line.closed = true;
    } else if (step.kind == PathStep::Kind::kCurve && !line.points.empty()) {
      flatten_curve(line.points, line.points.back(), step, within_mm);
    } else {
      line.points.push_back(step.to);
    }
  }
  for (FlatLine& line : lines)
    if (line.closed && line.points.size() > 1 &&
        length(line.points.back() - line.points.front()) < 1e-9)
      line.points.pop_back();
  return lines;
}

bool is_finite(const std::vector<FlatLine>& lines) {
  for (const FlatLine& line : lines)
    for (const Vec2 p : line.points)
      if (!std::isfinite(p.x) || !std::isfinite(p.y)) return false;
  return true;
}

bool inside(const std::vector<FlatLine>& rings, Vec2 p) {
  bool in = false;
  for (const FlatLine& ring : rings)
    if (contains(ring.points, p)) in = !in;
  return in;
}

}  // namespace spadework::geometry
