#include "light/scene.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <tuple>
#include <unordered_map>

#include "base/check.h"

namespace spadework::light {
namespace {

using garden::Body;
using geometry::RoundShape;
using geometry::RoundSolid;
using geometry::Solid;
using geometry::Vec2;
using geometry::Vec3;

constexpr double kLeast_m = 1e-7;  // smaller round bodies take no light

/// The body's shape and depth as numbers, for an order that is the same however bodies are given.
}  // namespace

std::vector<double> SceneBody::content() const {
  std::vector<double> content{static_cast<double>(body.shape.index()),
                              static_cast<double>(body.through)};
  if (const auto* round = std::get_if<RoundSolid>(&body.shape)) {
    content.insert(content.end(),
                   {static_cast<double>(round->shape), round->axis.x, round->axis.y,
                    round->bottom_z, round->top_z, round->radius, round->low_z(), round->high_z()});
  } else {
    for (const Vec3& p : std::get<Solid>(body.shape).corners)
      content.insert(content.end(), {p.x, p.y, p.z});
  }
  content.insert(content.end(), body.depth.begin(), body.depth.end());
  return content;
}

namespace {

/// A ring of corners that encloses a circle, as the footprint of a solid.
std::vector<Vec2> ring_around(Vec2 axis, double radius) {
  constexpr int kSides = 12;
  const double outer = radius / std::cos(std::numbers::pi / kSides);
  std::vector<Vec2> ring;
  for (int i = 0; i < kSides; ++i)
    ring.push_back(axis + geometry::turned({outer, 0}, 2 * std::numbers::pi * i / kSides));
  return ring;
}

std::optional<Hull> hull_around(const RoundSolid& round) {
  const auto ring = ring_around(round.axis, round.radius);
  switch (round.shape) {
    case RoundShape::kColumn:
      return hull_of(geometry::prism(ring, {round.low_z(), {}}, {round.high_z(), {}}));
    case RoundShape::kCone: {
      const double above = round.top_z - round.low_z();
      const double share = above / (round.top_z - round.bottom_z);  // of the foot's width, below
      return hull_of(geometry::frustum(ring_around(round.axis, round.radius * share), round.low_z(),
                                       {round.axis.x, round.axis.y, round.top_z},
                                       (round.high_z() - round.low_z()) / above));
    }
    case RoundShape::kEllipsoid:
    case RoundShape::kDome:
      break;
  }
  return std::nullopt;
}

void bound(SceneBody& body, const std::vector<Vec3>& corners) {
  for (const Vec3& p : corners) body.middle = body.middle + p;
  body.middle = body.middle * (1.0 / static_cast<double>(corners.size()));
  for (const Vec3& p : corners)
    body.reach_m = std::max(body.reach_m, geometry::length(p - body.middle));
}

/// False for what takes no light.
bool make_ready(SceneBody& body) {
  const auto takes = [](float depth) { return depth > 0; };
  SW_CHECK(body.body.depth.size() == 1 || body.body.depth.size() == 366);
  if (std::none_of(body.body.depth.begin(), body.body.depth.end(), takes)) return false;
  if (const RoundSolid* round = body.round()) {
    SW_CHECK(std::isfinite(round->axis.x + round->axis.y + round->radius));
    SW_CHECK(std::isfinite(round->bottom_z + round->top_z));
    if (round->radius < kLeast_m || round->high_z() - round->low_z() < kLeast_m) return false;
    body.hull = hull_around(*round);
    bound(body, geometry::enclosing_corners(*round));
    return true;
  }
  body.hull = hull_of(std::get<Solid>(body.body.shape));
  if (!body.hull) return false;
  bound(body, body.hull->corners);
  return true;
}

}  // namespace

float SceneBody::depth_on(int day_of_year) const {
  return body.depth_on(std::clamp(day_of_year, 1, 366));
}

Scene::Scene(std::vector<Body> bodies) {
  std::unordered_map<std::string, int> index_of;
  std::vector<std::pair<std::vector<double>, SceneBody>> ready;
  for (Body& body : bodies) {
    const auto [place, is_new] = index_of.try_emplace(body.thing, static_cast<int>(things_.size()));
    if (is_new) things_.push_back(body.thing);
    SceneBody made;
    made.thing = place->second;
    made.body = std::move(body);
    if (!make_ready(made)) continue;
    std::vector<double> content = made.content();
    ready.emplace_back(std::move(content), std::move(made));
  }
  std::stable_sort(ready.begin(), ready.end(), [](const auto& a, const auto& b) {
    return std::tie(a.first, a.second.body.thing) < std::tie(b.first, b.second.body.thing);
  });
  for (auto& [content, body] : ready) bodies_.push_back(std::move(body));
}

int Scene::thing_index(std::string_view id) const {
  const auto found = std::find(things_.begin(), things_.end(), id);
  return found == things_.end() ? -1 : static_cast<int>(found - things_.begin());
}

LeftOut leave_out(const Scene& scene, const std::vector<int>& things) {
  if (things.empty()) return {};
  LeftOut left_out(scene.things().size(), 0);
  for (const int thing : things) {
    if (thing >= 0 && static_cast<std::size_t>(thing) < left_out.size())
      left_out[static_cast<std::size_t>(thing)] = 1;
  }
  return left_out;
}

}  // namespace spadework::light
