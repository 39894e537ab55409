#include "light/caster_grid.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace spadework::light {
namespace {

using geometry::cross;
using geometry::dot;
using geometry::length;
using geometry::RoundShape;
using geometry::RoundSolid;
using geometry::Vec3;

constexpr double kLeastFacing = 1e-9;
constexpr double kInfinity = std::numeric_limits<double>::infinity();

struct Box {
  Vec3 low{kInfinity, kInfinity, kInfinity}, high{-kInfinity, -kInfinity, -kInfinity};
  void hold(Vec3 p) {
    low = {std::min(low.x, p.x), std::min(low.y, p.y), std::min(low.z, p.z)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y), std::max(high.z, p.z)};
  }
};

/// How far an ellipsoid reaches along an axis.
double reach(const Ellipsoid& e, Vec3 axis) {
  return length({axis.x * e.radius, axis.y * e.radius, axis.z * e.half_height});
}

Box box_around(const Grid& grid, const RoundSolid& round) {
  const Ellipsoid e = ellipsoid_of(round);
  const Vec3 middle = grid.of(e.centre);
  const Vec3 half{reach(e, grid.x_axis), reach(e, grid.y_axis), reach(e, grid.w_axis)};
  Box box;
  box.hold(middle - half);
  box.hold(middle + half);
  if (round.shape == RoundShape::kEllipsoid && !round.is_cut()) return box;
  // A part of it also lies within the box of an upright cylinder.
  Box upright;
  const auto across = [&](Vec3 axis) { return round.radius * std::hypot(axis.x, axis.y); };
  const Vec3 rim{across(grid.x_axis), across(grid.y_axis), across(grid.w_axis)};
  for (const double z : {round.low_z(), round.high_z()}) {
    const Vec3 p = grid.of({round.axis.x, round.axis.y, z});
    upright.hold(p - rim);
    upright.hold(p + rim);
  }
  box.low = {std::max(box.low.x, upright.low.x), std::max(box.low.y, upright.low.y),
             std::max(box.low.z, upright.low.z)};
  box.high = {std::min(box.high.x, upright.high.x), std::min(box.high.y, upright.high.y),
              std::min(box.high.z, upright.high.z)};
  return box;
}

bool casts_before(const SceneBody* a, const SceneBody* b) {
  const bool a_opaque = a->body.through == garden::Through::kOpaque;
  const bool b_opaque = b->body.through == garden::Through::kOpaque;
  if (a_opaque != b_opaque) return a_opaque;
  return a_opaque && a->reach_m > b->reach_m;
}

}  // namespace

Ellipsoid ellipsoid_of(const RoundSolid& round) {
  const double centre_z =
      round.shape == RoundShape::kDome ? round.bottom_z : (round.bottom_z + round.top_z) / 2;
  return {{round.axis.x, round.axis.y, centre_z}, round.radius, round.top_z - centre_z};
}

Grid::Grid(const Receiver& receiver)
    : columns(receiver.columns),
      rows(receiver.rows),
      origin(receiver.origin),
      x_axis(receiver.u_axis * (1 / receiver.cell_m)),
      y_axis(receiver.v_axis * (1 / receiver.cell_m)),
      w_axis(receiver.w_axis),
      first(cell_centre(receiver, 0, 0)) {
  const Vec3 yw = cross(y_axis, w_axis), wx = cross(w_axis, x_axis);
  const double det = dot(x_axis, yw);
  across = yw * (1 / det);
  up = wx * (1 / det);
}

Vec3 Grid::of(Vec3 garden) const {
  const Vec3 p = garden - origin;
  return {dot(x_axis, p) - 0.5, dot(y_axis, p) - 0.5, dot(w_axis, p)};
}

Linear Grid::along(Vec3 axis, Vec3 centre) const {
  return {dot(axis, first - centre), dot(axis, across), dot(axis, up)};
}

std::optional<Beam> beam_over(const Grid& grid, const SunSample& sample) {
  const double size = length(sample.toward_sun);
  if (!(size > 0) || !std::isfinite(size)) return std::nullopt;
  Beam beam;
  beam.toward = sample.toward_sun * (1 / size);
  beam.day_of_year = std::clamp<int>(sample.day_of_year, 1, 366);
  const double facing = dot(grid.w_axis, beam.toward);
  if (!(facing > kLeastFacing * length(grid.w_axis))) return std::nullopt;
  beam.shift = {dot(grid.x_axis, beam.toward) / facing, dot(grid.y_axis, beam.toward) / facing};
  return beam;
}

void Boxes::add(Vec3 low, Vec3 high) {
  const double w_low = std::max(0.0, low.z), w_high = std::max(0.0, high.z);
  x.push_back((low.x + high.x) / 2), half_x.push_back((high.x - low.x) / 2);
  y.push_back((low.y + high.y) / 2), half_y.push_back((high.y - low.y) / 2);
  w.push_back((w_low + w_high) / 2), half_w.push_back((w_high - w_low) / 2);
}

void Boxes::add(const Boxes& other, std::size_t box) {
  x.push_back(other.x[box]), y.push_back(other.y[box]), w.push_back(other.w[box]);
  half_x.push_back(other.half_x[box]), half_y.push_back(other.half_y[box]);
  half_w.push_back(other.half_w[box]);
}

void Boxes::pad() {
  while (x.size() % 4 != 0) add({-1, -1, 0}, {-kInfinity, -kInfinity, 0});
}

namespace {

std::vector<const SceneBody*> all_but(const Scene& scene, const LeftOut& left_out) {
  std::vector<const SceneBody*> chosen;
  for (const SceneBody& body : scene.bodies()) {
    if (!is_left_out(left_out, body.thing)) chosen.push_back(&body);
  }
  return chosen;
}

}  // namespace

Standing::Standing(const Scene& scene, const Receiver& receiver, const LeftOut& left_out,
                   double ignore_m)
    : Standing(all_but(scene, left_out), receiver, ignore_m) {}

Standing::Standing(std::vector<const SceneBody*> chosen, const Receiver& receiver, double ignore_m)
    : grid_(receiver) {
  const auto& counted = receiver.counted;
  if (std::find(counted.begin(), counted.end(), 0) != counted.end()) counted_ = counted;
  std::stable_sort(chosen.begin(), chosen.end(), casts_before);
  for (const SceneBody* body : chosen) add(*body, ignore_m);
  boxes_.pad();
}

void Standing::add(const SceneBody& body, double ignore_m) {
  CastBody cast;
  cast.body = &body;
  Box box;
  if (body.hull) {
    const auto part = part_above(*body.hull, grid_.origin, grid_.w_axis, ignore_m);
    if (!part) return;
    cast.whole = part->faces.size() == body.hull->faces.size();
    add_hull(cast, *part);
    for (const Vec3& p : part->corners) box.hold(grid_.of(p));
  } else {
    box = box_around(grid_, *body.round());
    if (box.high.z <= ignore_m * length(grid_.w_axis)) return;
    cast.whole = box.low.z >= 0;
  }
  bodies_.push_back(cast);
  boxes_.add(box.low, box.high);
}

void Standing::add_hull(CastBody& cast, const Hull& hull) {
  constexpr std::size_t kMostFaces = 64;
  cast.first_corner = corners_.size(), cast.corners = hull.corners.size();
  for (const Vec3& p : hull.corners) {
    const Vec3 q = grid_.of(p);
    corners_.push_back({q.x, q.y, std::max(0.0, q.z)});
  }
  const auto between_faces = [](const HullEdge& edge) { return edge.face_a >= 0; };
  if (hull.faces.size() > kMostFaces ||
      !std::all_of(hull.edges.begin(), hull.edges.end(), between_faces))
    return;
  cast.first_face = normal_x_.size(), cast.faces = (hull.faces.size() + 3) / 4 * 4;
  for (std::size_t f = 0; f < cast.faces; ++f) {
    const Vec3 normal = f < hull.faces.size() ? hull.faces[f].normal : Vec3{};
    normal_x_.push_back(normal.x);
    normal_y_.push_back(normal.y);
    normal_z_.push_back(normal.z);
  }
  cast.first_edge = edges_.size(), cast.edges = hull.edges.size();
  edges_.insert(edges_.end(), hull.edges.begin(), hull.edges.end());
}

Standing Standing::with(const Standing& other, const std::vector<std::size_t>& before) const {
  const auto append = [](auto& to, const auto& from) {
    to.insert(to.end(), from.begin(), from.end());
  };
  Standing both = *this;
  both.bodies_.clear();
  both.boxes_ = {};
  append(both.corners_, other.corners_);
  append(both.normal_x_, other.normal_x_);
  append(both.normal_y_, other.normal_y_);
  append(both.normal_z_, other.normal_z_);
  append(both.edges_, other.edges_);
  std::size_t next = 0;
  for (std::size_t i = 0; i <= bodies_.size(); ++i) {
    for (; next < before.size() && before[next] == i; ++next) {
      CastBody body = other.bodies_[next];
      body.first_corner += corners_.size();
      body.first_face += normal_x_.size();
      body.first_edge += edges_.size();
      both.bodies_.push_back(body);
      both.boxes_.add(other.boxes_, next);
    }
    if (i == bodies_.size()) break;
    both.bodies_.push_back(bodies_[i]);
    both.boxes_.add(boxes_, i);
  }
  both.boxes_.pad();
  return both;
}

std::span<const Vec3> Standing::corners(const CastBody& body) const {
  return {corners_.data() + body.first_corner, body.corners};
}

FaceRows Standing::faces(const CastBody& body) const {
  return {normal_x_.data() + body.first_face, normal_y_.data() + body.first_face,
          normal_z_.data() + body.first_face, body.faces};
}

std::span<const HullEdge> Standing::edges(const CastBody& body) const {
  return {edges_.data() + body.first_edge, body.edges};
}

}  // namespace spadework::light
