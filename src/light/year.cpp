#include "light/year.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "light/place_parts.h"
#include "light/sky_light.h"

namespace spadework::light {
namespace {

using geometry::Vec3;

/// A ball around everything of a body: its middle in the plan, how far it reaches, its top.
struct Reach {
  Vec3 middle;
  double radius = 0, top = 0;
};

Reach reach_of(const garden::Body& body) {
  if (const auto* round = std::get_if<geometry::RoundSolid>(&body.shape))
    return {{round->axis.x, round->axis.y, 0}, round->radius, round->high_z()};
  const auto& corners = std::get<geometry::Solid>(body.shape).corners;
  Reach reach{{}, 0, -std::numeric_limits<double>::infinity()};
  for (const Vec3& p : corners)
    reach.middle = reach.middle + p * (1.0 / static_cast<double>(corners.size()));
  for (const Vec3& p : corners) {
    reach.radius = std::max(reach.radius, length(p.plan() - reach.middle.plan()));
    reach.top = std::max(reach.top, p.z);
  }
  return reach;
}

/// A plane that is not level sees more of the low sky: what rises no higher than this takes under a
/// thousandth of an upright plane's light.
constexpr double kLowestSkyOfFaces = 0.0006;

/// What rises above the lowest sun, seen from the lowest corner of some receivers.
class Watch {
 public:
  Watch(std::span<const Receiver> receivers, double lowest_tangent)
      : lowest_tangent_(lowest_tangent) {
    std::vector<geometry::Vec2> ends;
    for (const Receiver& r : receivers) {
      if (std::abs(r.w_axis.z) < 0.5)
        lowest_tangent_ = std::min(lowest_tangent_, kLowestSkyOfFaces);
      for (const auto& [c, w] :
           {std::pair{0, 0}, {r.columns - 1, 0}, {0, r.rows - 1}, {r.columns - 1, r.rows - 1}}) {
        const Vec3 p = cell_centre(r, c, w);
        floor_ = std::min(floor_, p.z);
        ends.push_back(p.plan());
      }
    }
    box_ = geometry::bounds(ends);
  }
  [[nodiscard]] bool reached_by(const garden::Body& body) const {
    constexpr double kSpare_m = 0.2;
    const Reach reach = reach_of(body);
    const geometry::Vec2 m = reach.middle.plan();
    const double dx = std::max({box_.low.x - m.x, 0.0, m.x - box_.high.x});
    const double dy = std::max({box_.low.y - m.y, 0.0, m.y - box_.high.y});
    const double away = std::max(0.0, std::hypot(dx, dy) - reach.radius - kSpare_m);
    return reach.top - floor_ > away * lowest_tangent_;
  }

 private:
  double lowest_tangent_;
  double floor_ = std::numeric_limits<double>::infinity();
  geometry::Box2 box_;
};

/// Sums over all counted cells of a place, by month.
struct Sums {
  std::array<std::array<double, 3>, 12> lit{};  // by part
  std::array<double, 12> dli{};
  double cells = 0;
};

void add_sun(const Receiver& receiver, const LitCounts& lit, Sums& sums) {
  for (std::size_t cell = 0; cell < receiver.counted.size(); ++cell) {
    if (!receiver.counted[cell]) continue;
    sums.cells += 1;
    for (std::size_t m = 0; m < 12; ++m) {
      for (std::size_t part = 0; part < 3; ++part)
        sums.lit[m][part] += lit.at(static_cast<int>(m), static_cast<int>(part), cell);
    }
  }
}

void add_light(const Receiver& receiver, const BeamLight& sun, const SkyLight& sky,
               const SunYear& year, Sums& sums) {
  for (std::size_t m = 0; m < 12; ++m) {
    for (std::size_t cell = 0; cell < receiver.counted.size(); ++cell) {
      if (receiver.counted[cell]) sums.dli[m] += dli_of(year, sun, sky, m, cell);
    }
  }
}

YearSun means(const Sums& sums, const SunYear& sun) {
  YearSun year;
  for (std::size_t m = 0; m < 12; ++m) {
    MonthSun& month = year[m];
    const double over = sums.cells * sun.days_in_month[m] / sun.hours_each;
    month.morning_h = sums.lit[m][0] / over;
    month.midday_h = sums.lit[m][1] / over;
    month.afternoon_h = sums.lit[m][2] / over;
    month.sun_h_per_day = (sums.lit[m][0] + sums.lit[m][1] + sums.lit[m][2]) / over;
    if (sun.open_sun_h[m] > 0)
      month.sunshine_h_per_day = month.sun_h_per_day * sun.sunshine_h[m] / sun.open_sun_h[m];
    month.dli_mol_m2_d = sums.dli[m] / sums.cells;
    month.share_of_open = sun.open_mol_m2_d[m] > 0 ? month.dli_mol_m2_d / sun.open_mol_m2_d[m]
                                                   : std::numeric_limits<double>::quiet_NaN();
  }
  return year;
}

YearSun sun_of(const garden::Garden& garden, const Place& place, const Scene& scene,
               const SunYear& year) {
  Sums sums;
  for (const Receiver& receiver : place.receivers) {
    if (!year.has_light()) {
      add_sun(receiver, cast(scene, receiver, year.samples), sums);
      continue;
    }
    const BeamLight sun = cast_light(scene, receiver, year.samples);
    const SkyLight sky = cast_sky(
        scene, receiver, sky_over(receiver, garden.ground.horizon, garden.site.plan_north));
    add_sun(receiver, sun.lit, sums);
    add_light(receiver, sun, sky, year, sums);
  }
  return means(sums, year);
}

}  // namespace

double dli_of(const SunYear& year, const BeamLight& sun, const SkyLight& sky, std::size_t month,
              std::size_t cell) {
  const std::vector<float>& beam = sun.beam_mol_m2[month];
  const auto state = static_cast<std::size_t>(sky.state_of_month[month]);
  const double share = year.overcast[month] * static_cast<double>(sky.overcast[state][cell]) +
                       (1 - year.overcast[month]) * static_cast<double>(sky.uniform[state][cell]);
  return (beam.empty() ? 0 : static_cast<double>(beam[cell])) / year.days_in_month[month] +
         year.sky_mol_m2_d[month] * share;
}

std::vector<garden::Body> bodies_in_reach(std::span<const Receiver> receivers,
                                          const std::vector<garden::Body>& bodies,
                                          const std::vector<garden::Body>& own,
                                          const std::vector<std::string>& replaces,
                                          double lowest_tangent) {
  const Watch watch(receivers, lowest_tangent);
  std::vector<garden::Body> out;
  for (const garden::Body& body : bodies) {
    if (!is_replaced(body, replaces) && watch.reached_by(body)) out.push_back(body);
  }
  for (const garden::Body& body : own) {
    if (watch.reached_by(body)) out.push_back(body);
  }
  return out;
}

Result<std::vector<PlaceSun>> sun_of_places(const garden::Garden& garden, std::vector<Place> places,
                                            const std::vector<garden::Body>& bodies,
                                            const SunYear& year, int threads, Progress* progress) {
  constexpr std::size_t kMostInReach = 500'000;
  std::size_t in_reach = 0;
  for (const Place& place : places) {
    const Watch watch(place.receivers, year.lowest_tangent);
    for (const garden::Body& body : bodies) in_reach += watch.reached_by(body);
  }
  if (in_reach > kMostInReach) {
    return fail(
        ErrorCode::kNoAnswer, "",
        fmt::format("{} places and the {} bodies that shade them are more than are computed "
                    "at once.",
                    places.size(), bodies.size()),
        "Ask for some of the places: --places ID,ID.");
  }
  std::vector<PlaceSun> out(places.size());
  if (progress) progress->start(static_cast<long>(places.size()));
  parallel_for(static_cast<int>(places.size()), threads, [&](int i) {
    if (progress && progress->cancelled()) return;
    Place& place = places[static_cast<std::size_t>(i)];
    const Scene scene(
        bodies_in_reach(place.receivers, bodies, place.own, place.replaces, year.lowest_tangent));
    PlaceSun& sun = out[static_cast<std::size_t>(i)];
    sun.months = sun_of(garden, place, scene, year);
    sun.place = std::move(place);
    if (progress) progress->step();
  });
  if (progress && progress->cancelled())
    return fail(ErrorCode::kNoAnswer, "", "The work was stopped before it was done.");
  return out;
}

double mean_sun_h(const YearSun& year, const std::array<int, 12>& days_in_month,
                  std::span<const int> months) {
  return mean_of(year, days_in_month, months, &MonthSun::sun_h_per_day);
}

double mean_of(const YearSun& year, const std::array<int, 12>& days_in_month,
               std::span<const int> months, double MonthSun::*figure) {
  double sum = 0, days = 0;
  for (const int m : months) {
    const auto month = static_cast<std::size_t>(m);
    if (std::isnan(year[month].*figure)) continue;
    sum += year[month].*figure * days_in_month[month];
    days += days_in_month[month];
  }
  return sum / days;
}

std::vector<int> growing_months(Angle latitude) {
  if (latitude < degrees(0)) return {9, 10, 11, 0, 1, 2};
  return {3, 4, 5, 6, 7, 8};
}

}  // namespace spadework::light
