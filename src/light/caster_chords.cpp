#include "light/caster_chords.h"

#include <cmath>

namespace spadework::light {
namespace {

using geometry::cross;
using geometry::dot;
using geometry::HalfSpace;
using geometry::length;
using geometry::RoundShape;
using geometry::RoundSolid;
using geometry::Vec3;

/// Away from 0, so that a ray along a face or a cone's side can be divided by.
double not_zero(double v, double least) {
  return std::abs(v) < least ? std::copysign(least, v) : v;
}

/// In the space where the ellipsoid is the unit ball about the origin (where an upright cylinder
/// has no height): the ray's direction and two unit vectors across it.
struct BallView {
  Vec3 scale, ray, side_a, side_b;
};

BallView view_of(const Ellipsoid& e, bool endless, Vec3 toward) {
  BallView view;
  view.scale = {1 / e.radius, 1 / e.radius, endless ? 0 : 1 / e.half_height};
  view.ray = {toward.x * view.scale.x, toward.y * view.scale.y, toward.z * view.scale.z};
  if (endless) {
    constexpr double kUpright = 1e-9;
    const double size = std::hypot(view.ray.x, view.ray.y);
    if (size * e.radius < kUpright) {
      view.ray = {kUpright / e.radius, 0, 0};
      view.side_a = {0, 1, 0};
    } else {
      view.side_a = {-view.ray.y / size, view.ray.x / size, 0};
    }
    return view;
  }
  const bool upright =
      view.ray.x * view.ray.x + view.ray.y * view.ray.y < 0.01 * view.ray.z * view.ray.z;
  const Vec3 a = cross(view.ray, upright ? Vec3{1, 0, 0} : Vec3{0, 0, 1});
  const Vec3 b = cross(view.ray, a);
  view.side_a = a * (1 / length(a));
  view.side_b = b * (1 / length(b));
  return view;
}

Vec3 scaled(Vec3 a, Vec3 scale) { return {a.x * scale.x, a.y * scale.y, a.z * scale.z}; }

Linear times(Linear l, double k) { return {l.at0 * k, l.across * k, l.up * k}; }
Linear plus(Linear a, Linear b) { return {a.at0 + b.at0, a.across + b.across, a.up + b.up}; }

}  // namespace

EllipseShadow ellipse_shadow(const Grid& grid, const Ellipsoid& ellipsoid, Vec3 toward) {
  const BallView view = view_of(ellipsoid, false, toward);
  const Linear a = grid.along(scaled(view.side_a, view.scale), ellipsoid.centre);
  const Linear b = grid.along(scaled(view.side_b, view.scale), ellipsoid.centre);
  // The ray of a cell passes the centre at √(a² + b²) radii.
  EllipseShadow shadow;
  shadow.curve = a.across * a.across + b.across * b.across;
  const double root = std::sqrt(shadow.curve);
  const auto centre = [&](double pa, double pb) {
    return -(pa * a.across + pb * b.across) / shadow.curve;
  };
  const auto side = [&](double pa, double pb) { return (pa * b.across - pb * a.across) / root; };
  shadow.centre = {centre(a.at0, b.at0), 0, centre(a.up, b.up)};
  shadow.side = {side(a.at0, b.at0), 0, side(a.up, b.up)};
  shadow.longest_m = 2 / length(view.ray);
  return shadow;
}

void Passage::clear() {
  near_.clear();
  far_.clear();
  bulge_ = Bulge::kNone;
  half0_ = 0;
  squares_.fill({});
}

void Passage::through_faces(const Grid& grid, const std::vector<HalfSpace>& faces, Vec3 toward) {
  clear();
  for (const HalfSpace& face : faces) {
    const double ahead = dot(face.normal, toward);
    if (std::abs(ahead) < 1e-12) continue;  // along the face: the shadow's outline sees to it
    Linear beyond = grid.along(face.normal, {});
    beyond.at0 -= face.offset;
    (ahead > 0 ? far_ : near_).push_back(times(beyond, -1 / ahead));
  }
}

const std::vector<Linear>& Passage::where_over(double least_m) {
  over_.clear();
  for (const Linear& far : far_) {
    over_.push_back({far.at0 - least_m, far.across, far.up});
    for (const Linear& near : near_)
      over_.push_back({far.at0 - near.at0 - least_m, far.across - near.across, far.up - near.up});
  }
  return over_;
}

void Passage::through_round(const Grid& grid, const RoundSolid& round, Vec3 toward) {
  clear();
  if (round.shape != RoundShape::kEllipsoid || round.is_cut())
    between_heights(grid, round.low_z(), round.high_z(), not_zero(toward.z, 1e-9));
  if (round.shape == RoundShape::kCone) {
    through_cone(grid, round, toward);
  } else {
    through_ellipsoid(grid, ellipsoid_of(round), round.shape == RoundShape::kColumn, toward);
  }
}

void Passage::between_heights(const Grid& grid, double low, double high, double rise) {
  const Linear to_low = times(grid.along({0, 0, 1}, {0, 0, low}), -1 / rise);
  const Linear to_high = times(grid.along({0, 0, 1}, {0, 0, high}), -1 / rise);
  near_.push_back(rise > 0 ? to_low : to_high);
  far_.push_back(rise > 0 ? to_high : to_low);
}

void Passage::through_ellipsoid(const Grid& grid, const Ellipsoid& ellipsoid, bool endless,
                                Vec3 toward) {
  const BallView view = view_of(ellipsoid, endless, toward);
  const double square = dot(view.ray, view.ray);
  bulge_ = Bulge::kBetween;
  mid_ = times(grid.along(scaled(view.ray, view.scale), ellipsoid.centre), -1 / square);
  half0_ = 1 / square;
  squares_[0] = {-1 / square, grid.along(scaled(view.side_a, view.scale), ellipsoid.centre)};
  squares_[1] = {-1 / square, grid.along(scaled(view.side_b, view.scale), ellipsoid.centre)};
}

void Passage::through_cone(const Grid& grid, const RoundSolid& cone, Vec3 toward) {
  // |p + t e|² <= k² (h − t dz)²: p from the axis, h below the tip; a t² + 2 b t + c <= 0.
  const double k = cone.radius / (cone.top_z - cone.bottom_z), k2 = k * k;
  const Vec3 tip{cone.axis.x, cone.axis.y, cone.top_z};
  const double a =
      not_zero(toward.x * toward.x + toward.y * toward.y - k2 * toward.z * toward.z, 1e-8);
  const Linear px = grid.along({1, 0, 0}, tip), py = grid.along({0, 1, 0}, tip);
  const Linear below = grid.along({0, 0, -1}, tip);
  const Linear b =
      plus(plus(times(px, toward.x), times(py, toward.y)), times(below, k2 * toward.z));
  bulge_ = a > 0 ? Bulge::kBetween : toward.z > 0 ? Bulge::kBefore : Bulge::kAfter;
  mid_ = times(b, -1 / a);
  squares_[0] = {1 / (a * a), b};  // half² = (b² − a c) / a²
  squares_[1] = {-1 / a, px};
  squares_[2] = {-1 / a, py};
  squares_[3] = {k2 / a, below};
}

ChordRow Passage::row(int first_column, int row) {
  const double x = first_column, y = row;
  const std::size_t lines = near_.size() + far_.size();
  if (at0_.size() < lines) at0_.resize(lines), step_.resize(lines);
  std::size_t n = 0;
  for (const auto* side : {&near_, &far_}) {
    for (const Linear& line : *side) {
      at0_[n] = line.at(x, y);
      step_[n++] = line.across;
    }
  }
  ChordRow chords;
  chords.near_at0 = at0_.data(), chords.near_step = step_.data();
  chords.far_at0 = at0_.data() + near_.size(), chords.far_step = step_.data() + near_.size();
  chords.nears = near_.size(), chords.fars = far_.size();
  chords.bulge = bulge_;
  if (bulge_ == Bulge::kNone) return chords;
  chords.mid0 = mid_.at(x, y), chords.mid_step = mid_.across;
  chords.half0 = half0_;
  for (const Square& square : squares_) {
    const double l = square.line.at(x, y), step = square.line.across;
    chords.half0 += square.weight * l * l;
    chords.half1 += square.weight * 2 * l * step;
    chords.half2 += square.weight * step * step;
  }
  return chords;
}

}  // namespace spadework::light
