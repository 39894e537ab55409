#include "light/year.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "light/skyline.h"

namespace spadework::light {
namespace {

using geometry::Vec3;

std::uint8_t part_index(sky::PartOfDay part) {
  switch (part) {
    case sky::PartOfDay::kMorning:
      return 0;
    case sky::PartOfDay::kMidday:
      return 1;
    case sky::PartOfDay::kAfternoon:
      return 2;
  }
  return 1;
}

/// A ball around everything of a body: its middle in the plan, how far it reaches, its top.
struct Reach {
  Vec3 middle;
  double radius = 0, top = 0;
};

Reach reach_of(const garden::Body& body) {
  if (const auto* round = std::get_if<geometry::RoundSolid>(&body.shape))
    return {{round->axis.x, round->axis.y, 0}, round->radius, round->top_z};
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

/// What rises above the lowest sun, seen from the lowest corner of some receivers.
class Watch {
 public:
  Watch(std::span<const Receiver> receivers, double lowest_tangent)
      : lowest_tangent_(lowest_tangent) {
    std::vector<geometry::Vec2> ends;
    for (const Receiver& r : receivers) {
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

/// Sums of counts over all counted cells of a place, by month and part.
using PartCounts = std::array<std::array<double, 3>, 12>;

YearSun means(const PartCounts& sums, double cells, const SunYear& sun) {
  YearSun year;
  for (std::size_t m = 0; m < 12; ++m) {
    const double over = cells * sun.days_in_month[m] / sun.hours_each;
    year[m].morning_h = sums[m][0] / over;
    year[m].midday_h = sums[m][1] / over;
    year[m].afternoon_h = sums[m][2] / over;
    year[m].sun_h_per_day = (sums[m][0] + sums[m][1] + sums[m][2]) / over;
  }
  return year;
}

YearSun sun_of(const Place& place, const Scene& scene, const SunYear& year) {
  PartCounts sums{};
  double cells = 0;
  for (const Receiver& receiver : place.receivers) {
    const LitCounts counts = cast(scene, receiver, year.samples, CastOptions{});
    for (std::size_t cell = 0; cell < receiver.counted.size(); ++cell) {
      if (!receiver.counted[cell]) continue;
      cells += 1;
      for (int m = 0; m < 12; ++m) {
        for (int part = 0; part < 3; ++part)
          sums[static_cast<std::size_t>(m)][static_cast<std::size_t>(part)] +=
              counts.at(m, part, cell);
      }
    }
  }
  return means(sums, cells, year);
}

sky::Site site_of(const garden::Garden& garden) {
  return {garden.site.latitude, garden.site.longitude, garden.site.elevation};
}

/// Those over the threshold and the skyline.
void keep_strong(const garden::Garden& garden, const std::vector<sky::SunSample>& samples,
                 SunYear& out) {
  out.lowest_tangent = std::numeric_limits<double>::infinity();
  for (const sky::SunSample& sun : samples) {
    if (sun.clear.direct_normal <= sky::kSunshineThreshold) continue;
    if (sun.elevation <= skyline_altitude(garden.ground.horizon, sun.azimuth)) continue;
    out.samples.push_back({sun.towards,
                           static_cast<float>(in_watts_per_m2(sun.clear.direct_normal)),
                           static_cast<std::uint16_t>(day_of_year(sun.date)),
                           static_cast<std::uint8_t>(sun.month() - 1), part_index(sun.part)});
    out.lowest_tangent = std::min(out.lowest_tangent, std::tan(in_radians(sun.elevation)));
  }
}

}  // namespace

SunYear sun_year(const garden::Garden& garden, int year) {
  const sky::YearSamples sky_year =
      sky::year_samples(year, site_of(garden), garden.site.plan_north);
  SunYear out;
  out.days_in_month = sky_year.days_in_month;
  keep_strong(garden, sky_year.samples, out);
  return out;
}

SunYear sun_of_day(const garden::Garden& garden, LocalDate date) {
  constexpr double kStep_s = 240;
  const sky::DaySamples day = sky::day_samples(date, garden.site.time_zone, site_of(garden),
                                               garden.site.plan_north, kStep_s);
  SunYear out;
  out.days_in_month.fill(1);
  out.hours_each = day.step_h;
  keep_strong(garden, day.samples, out);
  return out;
}

std::vector<garden::Body> bodies_in_reach(std::span<const Receiver> receivers,
                                          const std::vector<garden::Body>& bodies,
                                          const std::vector<garden::Body>& own,
                                          const std::string& replaces, double lowest_tangent) {
  const Watch watch(receivers, lowest_tangent);
  std::vector<garden::Body> out;
  for (const garden::Body& body : bodies) {
    if ((replaces.empty() || body.thing != replaces) && watch.reached_by(body)) out.push_back(body);
  }
  for (const garden::Body& body : own) {
    if (watch.reached_by(body)) out.push_back(body);
  }
  return out;
}

Result<std::vector<PlaceSun>> sun_of_places(std::vector<Place> places,
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
    sun.months = sun_of(place, scene, year);
    sun.place = std::move(place);
    if (progress) progress->step();
  });
  if (progress && progress->cancelled())
    return fail(ErrorCode::kNoAnswer, "", "The work was stopped before it was done.");
  return out;
}

double mean_sun_h(const YearSun& year, const std::array<int, 12>& days_in_month,
                  std::span<const int> months) {
  double sum = 0, days = 0;
  for (const int m : months) {
    const auto month = static_cast<std::size_t>(m);
    sum += year[month].sun_h_per_day * days_in_month[month];
    days += days_in_month[month];
  }
  return sum / days;
}

std::vector<int> growing_months(Angle latitude) {
  if (latitude < degrees(0)) return {9, 10, 11, 0, 1, 2};
  return {3, 4, 5, 6, 7, 8};
}

}  // namespace spadework::light
