// One ray towards the sun: what it passes through, and what takes its light. By the faces of the
// bodies, where the caster goes by their corners: two roads to one answer.
#pragma once

#include <vector>

#include "light/scene.h"

namespace spadework::light {

/// One body on the way.
struct Hit {
  double near_m = 0, far_m = 0;  // the stretch of the ray inside it
  double depth = 0;              // optical depth along it; infinite for an opaque body
  int body = 0;                  // place in Scene::bodies()
  int thing = 0;                 // place in Scene::things()
};

struct RayResult {
  double depth = 0;        // total optical depth; infinite when something opaque stands in the way
  int first_blocker = -1;  // the thing at which, counted from the start, the transmission falls
                           // below a half: place in Scene::things(), or −1 when it does not
  std::vector<Hit> hits;   // by where the ray enters them

  [[nodiscard]] bool sunlit() const { return first_blocker < 0; }
};

/// What a beam passes on its way to a point.
/// In:     the point and the direction towards the sun (any length but 0), plan axes; day of the
///         year 1 to 366. A body around the point counts with the stretch that lies ahead;
///         stretches that end within a micrometre of the point do not count.
/// Out:    optical depth: transmission is e^−depth.
/// Errors: none.
/// Source: Beer–Lambert along the chords. [closed-form]
[[nodiscard]] RayResult along_ray(const Scene& scene, geometry::Vec3 from, geometry::Vec3 toward,
                                  int day_of_year, const LeftOut& left_out = {});

/// Who takes a beam: things by their place in Scene::things(), −1 for none.
struct RayTakers {
  int first = -1;      // as RayResult::first_blocker
  int second = -1;     // the first blocker once the first is out of the way
  bool twice = false;  // it is taken, and no one thing gone would let at least a half through
};
[[nodiscard]] RayTakers takers_on(const RayResult& ray);

}  // namespace spadework::light
