// Where the sun reaches along a section: rays in space, since what stands beside the line shades it
// as well.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "garden/bodies.h"
#include "light/ray.h"
#include "light/skyline.h"
#include "sky/sky.h"
#include "study/section_parts.h"
#include "study/study_parts.h"

namespace spadework::study {
namespace {

using geometry::Vec2;
using geometry::Vec3;

constexpr double kStep_m = 0.02;  // shadows and gaps twice as wide are not missed
constexpr double kEdge_m = 0.001;
constexpr std::size_t kMostRays = 7;

double to_degrees(double radians) { return radians * 180 / std::numbers::pi; }

/// A stretch of the line whose points lie on one plane and in one scene.
struct Run {
  double from_m = 0, to_m = 0;
  Vec3 start, step;  // the receivers' middles: start + step · (s − from_m)
  Vec3 facing;       // their w_axis
  const light::Scene* scene = nullptr;
};

class Sunlight {
 public:
  Sunlight(const Stand& stand, const facts::Catalogue& catalogue, const SectionPlane& plane,
           const SectionMoment& moment)
      : stand_(stand),
        catalogue_(catalogue),
        plane_(plane),
        day_(day_of_year(moment.date)),
        sun_(sun_at(stand.garden, moment)) {}

  [[nodiscard]] const sky::SunSample& sun() const { return sun_; }
  [[nodiscard]] bool behind_skyline() const {
    return sun_.elevation <= light::skyline_altitude(stand_.garden.ground.horizon, sun_.azimuth);
  }
  [[nodiscard]] bool too_weak() const {
    return sun_.clear.direct_normal <= sky::kSunshineThreshold;
  }

  /// Along the whole line, and what cuts the light at the edges.
  void trace(Section& section) {
    for (const auto& [from_m, to_m] : pieces(section)) trace(run_of(from_m, to_m), section);
    choose(section);
  }

 private:
  static sky::SunSample sun_at(const garden::Garden& garden, const SectionMoment& moment) {
    const garden::Site& site = garden.site;
    return sky::sun_sample(site.time_zone.at_clock(moment.date, moment.clock_h), moment.date,
                           {site.latitude, site.longitude, site.elevation}, site.plan_north,
                           sky::Almanac::of_year(static_cast<int>(moment.date.year())));
  }

  /// Between neighbours all points lie on one plane: breaks of the ground, the beds' sides, the
  /// insides of their boards.
  [[nodiscard]] std::vector<std::pair<double, double>> pieces(const Section& section) const {
    std::vector<double> at = stand_.surface.breaks_along(plane_.from, plane_.at(plane_.length_m));
    for (double& share : at) share *= plane_.length_m;
    for (const SectionBed& bed : section.beds) {
      at.push_back(bed.from_m), at.push_back(bed.to_m);
      if (!bed.boards) continue;
      for (const SectionStretch& cut : bed.boards->cut)
        at.push_back(cut.from_m), at.push_back(cut.to_m);
    }
    std::sort(at.begin(), at.end());
    std::vector<std::pair<double, double>> out;
    for (std::size_t i = 0; i + 1 < at.size(); ++i)
      if (at[i + 1] - at[i] > 1e-6) out.emplace_back(at[i], at[i + 1]);
    return out;
  }

  Run run_of(double from_m, double to_m) {
    const light::Scenery scenery = scenery_of(stand_, catalogue_);
    const double third = (to_m - from_m) / 3;
    const Vec2 p = plane_.at(from_m + third), q = plane_.at(from_m + 2 * third);
    light::Place here = light::spot_place(scenery, p, metres(0));
    const light::Receiver there = light::spot_place(scenery, q, metres(0)).receivers.front();
    Run run{from_m, to_m, {}, {}, here.receivers.front().w_axis, scene_at(p, here)};
    const Vec3 a = light::cell_centre(here.receivers.front(), 0, 0);
    const Vec3 b = light::cell_centre(there, 0, 0);
    run.step = (b - a) * (1 / third);
    run.start = a - run.step * third;
    return run;
  }

  /// One for each bed and each plane of the ground.
  const light::Scene* scene_at(Vec2 p, const light::Place& place) {
    const std::size_t bed = garden::bed_at(stand_.garden, p);
    const long key =
        bed == garden::kNoBed ? -1 - stand_.surface.facet_at(p).plane : static_cast<long>(bed);
    auto found = scenes_.find(key);
    if (found == scenes_.end())
      found =
          scenes_
              .emplace(key, light::Scene(light::with_own(stand_.bodies, place.own, place.replaces)))
              .first;
    return &found->second;
  }

  [[nodiscard]] light::RayResult ray_at(const Run& run, double s) const {
    return light::along_ray(*run.scene, run.start + run.step * (s - run.from_m), sun_.towards,
                            day_);
  }
  [[nodiscard]] bool lit_at(const Run& run, double s) const {
    return dot(run.facing, sun_.towards) > 0 && ray_at(run, s).sunlit();
  }

  void trace(const Run& run, Section& section) {
    constexpr double kInside = 1e-6;  // a run's ends belong to its neighbours as well
    const double start = run.from_m + kInside, end = run.to_m - kInside;
    const int steps = std::max(1, static_cast<int>(std::ceil((end - start) / kStep_m)));
    double since = run.from_m, s = start;
    bool was = lit_at(run, s);
    for (int i = 1; i <= steps; ++i) {
      const double next = start + (end - start) * i / steps;
      const bool now = lit_at(run, next);
      if (now != was) {
        const double edge = edge_between(run, s, next);
        if (was) add(section, since, edge);
        add_ray(run, edge, was ? edge + kEdge_m : edge - kEdge_m);
        since = edge, was = now;
      }
      s = next;
    }
    if (was) add(section, since, run.to_m);
  }

  [[nodiscard]] double edge_between(const Run& run, double low, double high) const {
    const bool at_low = lit_at(run, low);
    while (high - low > kEdge_m / 8) {
      const double middle = (low + high) / 2;
      (lit_at(run, middle) == at_low ? low : high) = middle;
    }
    return (low + high) / 2;
  }

  static void add(Section& section, double from_m, double to_m) {
    if (!section.lit.empty() && from_m - section.lit.back().to_m < 1e-6)
      section.lit.back().to_m = to_m;
    else
      section.lit.push_back({from_m, to_m});
  }

  /// From the edge of a shadow to what casts it, as seen just inside.
  void add_ray(const Run& run, double edge, double inside) {
    const light::RayResult ray = ray_at(run, inside);
    double far_m = 0;
    for (const light::Hit& hit : ray.hits)
      if (hit.thing == ray.first_blocker) far_m = std::max(far_m, hit.near_m);
    constexpr double kLeast_m = 0.25, kBeyond_m = 0.6;
    if (far_m < kLeast_m) return;
    const Vec3 foot = run.start + run.step * (edge - run.from_m);
    const double flat = dot(sun_.towards.plan(), plane_.along), up = sun_.towards.z;
    const std::string& taker = run.scene->things()[static_cast<std::size_t>(ray.first_blocker)];
    const double beyond = far_m + kBeyond_m / std::max(0.2, std::hypot(flat, up));
    rays_.push_back(
        {far_m, SectionRay{{edge, foot.z}, {edge + flat * beyond, foot.z + up * beyond}, taker}});
  }

  /// The longest few, in order along the line, none beside another.
  void choose(Section& section) {
    std::stable_sort(rays_.begin(), rays_.end(),
                     [](const auto& a, const auto& b) { return a.first > b.first; });
    constexpr double kApart_m = 0.4;
    for (const auto& [far_m, ray] : rays_) {
      if (section.rays.size() == kMostRays) break;
      const double s = ray.foot.x;
      if (std::none_of(section.rays.begin(), section.rays.end(), [&](const SectionRay& other) {
            return std::abs(other.foot.x - s) < kApart_m;
          }))
        section.rays.push_back(ray);
    }
    std::sort(section.rays.begin(), section.rays.end(),
              [](const SectionRay& a, const SectionRay& b) { return a.foot.x < b.foot.x; });
  }

  const Stand& stand_;
  const facts::Catalogue& catalogue_;
  const SectionPlane& plane_;
  int day_;
  sky::SunSample sun_;
  std::map<long, light::Scene> scenes_;
  std::vector<std::pair<double, SectionRay>> rays_;
};

}  // namespace

void add_sun(const Stand& stand, const facts::Catalogue& catalogue, const SectionPlane& plane,
             const SectionMoment& moment, Section& section) {
  section.has_moment = true;
  Sunlight light(stand, catalogue, plane, moment);
  const sky::SunSample& sun = light.sun();
  if (sun.elevation <= degrees(0)) {
    section.sun_says = "the sun is down";
    return;
  }
  const double flat = dot(sun.towards.plan(), plane.along);
  section.sun = SectionSun{in_degrees(sun.elevation),
                           to_degrees(std::atan2(sun.towards.z, std::abs(flat))), flat > 0};
  section.sun_says =
      fmt::format("sun {:.0f}° up, {:.0f}° in this section, from {}", section.sun->up_deg,
                  section.sun->in_section_deg, section.sun->from_b ? "B" : "A");
  if (light.behind_skyline())
    section.sun_says += "; behind the skyline";
  else if (light.too_weak())
    section.sun_says += "; too weak yet to count as sunshine";
  else
    light.trace(section);
}

}  // namespace spadework::study
