#include "light/ray.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/check.h"

namespace spadework::light {
namespace {

using garden::Through;
using geometry::Vec3;

constexpr double kTouching_m = 1e-6;

/// Whether the ray comes near enough to the body to be asked about its faces.
bool may_meet(const SceneBody& body, Vec3 from, Vec3 unit_toward) {
  const Vec3 off = body.middle - from;
  const double ahead = geometry::dot(off, unit_toward);
  const double reach = body.reach_m + kTouching_m;
  if (ahead < -reach) return false;
  return geometry::dot(off, off) - ahead * ahead <= reach * reach;
}

double depth_of(const SceneBody& body, double depth, double length_m) {
  switch (body.body.through) {
    case Through::kOpaque:
      return std::numeric_limits<double>::infinity();
    case Through::kPerCrossing:
      return depth;
    case Through::kPerMetre:
      break;
  }
  return depth * length_m;
}

}  // namespace

RayResult along_ray(const Scene& scene, Vec3 from, Vec3 toward, int day_of_year,
                    const LeftOut& left_out) {
  const double size = geometry::length(toward);
  SW_CHECK_LT(0.0, size);
  const Vec3 ray = toward * (1 / size);
  RayResult result;
  for (std::size_t i = 0; i < scene.bodies().size(); ++i) {
    const SceneBody& body = scene.bodies()[i];
    if (is_left_out(left_out, body.thing) || !may_meet(body, from, ray)) continue;
    const auto depth = static_cast<double>(body.depth_on(day_of_year));
    if (!(depth > 0)) continue;
    const auto stretch = std::visit(
        [&](const auto& shape) { return geometry::ray_inside(shape, from, ray); }, body.body.shape);
    if (!stretch || stretch->second <= kTouching_m) continue;
    result.hits.push_back({stretch->first, stretch->second,
                           depth_of(body, depth, stretch->second - stretch->first),
                           static_cast<int>(i), body.thing});
  }
  std::stable_sort(result.hits.begin(), result.hits.end(),
                   [](const Hit& a, const Hit& b) { return a.near_m < b.near_m; });
  for (const Hit& hit : result.hits) {
    result.depth += hit.depth;
    if (result.first_blocker < 0 && result.depth > static_cast<double>(kMostDepth))
      result.first_blocker = hit.thing;
  }
  return result;
}

RayTakers takers_on(const RayResult& ray) {
  RayTakers takers{ray.first_blocker};
  if (ray.sunlit()) return takers;
  // The first thing at which the beam falls below a half with one thing left out.
  const auto blocker_without = [&](int thing) {
    double depth = 0;
    for (const Hit& hit : ray.hits) {
      if (hit.thing == thing) continue;
      depth += hit.depth;
      if (depth > static_cast<double>(kMostDepth)) return hit.thing;
    }
    return -1;
  };
  takers.second = blocker_without(takers.first);
  takers.twice = takers.second >= 0 &&
                 std::all_of(ray.hits.begin(), ray.hits.end(),
                             [&](const Hit& hit) { return blocker_without(hit.thing) >= 0; });
  return takers;
}

}  // namespace spadework::light
