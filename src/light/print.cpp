#include "light/print.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "light/ray.h"
#include "light/skyline.h"

namespace spadework::light {
namespace {

using geometry::Vec3;

struct PrintPoint {
  Vec3 at, facing;
};

std::vector<PrintPoint> points_of(const Place& place, int most) {
  std::vector<PrintPoint> all;
  for (const Receiver& receiver : place.receivers) {
    for (int row = 0; row < receiver.rows; ++row) {
      for (int column = 0; column < receiver.columns; ++column) {
        if (receiver.counted[static_cast<std::size_t>(row * receiver.columns + column)])
          all.push_back({cell_centre(receiver, column, row), receiver.w_axis});
      }
    }
  }
  const int n = static_cast<int>(all.size());
  if (n <= most) return all;
  // Steps by the golden ratio of the count spread evenly over rows and columns alike.
  std::vector<PrintPoint> out;
  for (int k = 0; k < most; ++k) {
    const double share = std::fmod((k + 0.5) * 0.6180339887498949, 1.0);
    out.push_back(all[static_cast<std::size_t>(share * n)]);
  }
  return out;
}

/// The middle of each face; a support's planes lie over one another.
std::vector<geometry::Vec2> marks_of(const Place& place) {
  std::vector<geometry::Vec2> marks;
  for (const Receiver& receiver : place.receivers) {
    marks.push_back(cell_centre(receiver, receiver.columns / 2, receiver.rows / 2).plan());
    if (place.kind == PlaceKind::kSupport) break;
  }
  return marks;
}

struct Printer {
  const garden::Garden& garden;
  const Place& place;
  const Scene& scene;
  std::vector<PrintPoint> points;
  SunPrint& print;
  std::map<int, int> taker_of_thing;

  int taker(int thing) {
    const auto [found, fresh] =
        taker_of_thing.emplace(thing, static_cast<int>(print.takers.size()));
    if (fresh) print.takers.push_back(scene.things()[static_cast<std::size_t>(thing)]);
    return found->second;
  }

  PrintCell cell(const sky::SunSample& sun, int day) {
    PrintCell cell;
    cell.day = sun.elevation > degrees(0);
    cell.strong = cell.day && sun.clear.direct_normal > sky::kSunshineThreshold;
    if (!cell.strong) return cell;
    if (sun.elevation <= skyline_altitude(garden.ground.horizon, sun.azimuth)) {
      cell.taker = kSkylineTaker;
      return cell;
    }
    std::map<int, int> taken;
    int lit = 0;
    for (const PrintPoint& p : points) {
      if (dot(p.facing, sun.towards) <= 0) continue;
      const RayResult ray = along_ray(scene, p.at, sun.towards, day);
      if (ray.sunlit())
        ++lit;
      else
        ++taken[ray.first_blocker];
    }
    cell.lit = static_cast<float>(lit) / static_cast<float>(points.size());
    if (!taken.empty()) {
      const auto most = std::max_element(taken.begin(), taken.end(),
                                         [](auto& a, auto& b) { return a.second < b.second; });
      cell.taker = taker(most->first);
    }
    return cell;
  }

  void column(int c, const sky::Almanac& almanac) {
    const sky::Site site{garden.site.latitude, garden.site.longitude, garden.site.elevation};
    const int day = print.day_of(c);
    const LocalDate date = date_of_day(kReferenceYear, day);
    const auto events = sky::sun_events(date, garden.site.time_zone, site, almanac);
    const auto clock = [&](const std::optional<UtcTime>& t) {
      return t ? garden.site.time_zone.clock_hour(date, *t)
               : std::numeric_limits<double>::quiet_NaN();
    };
    print.rise_h.push_back(clock(events.rise));
    print.set_h.push_back(clock(events.set));
    for (int r = 0; r < print.rows; ++r) {
      const UtcTime t = garden.site.time_zone.at_clock(date, (r + 0.5) * print.step_h);
      print.cells.push_back(
          cell(sky::sun_sample(t, date, site, garden.site.plan_north, almanac), day));
    }
  }
};

void sum_months(SunPrint& print) {
  std::array<double, 12> columns{};
  for (int c = 0; c < print.columns; ++c) {
    const LocalDate date = date_of_day(kReferenceYear, print.day_of(c));
    const auto month = static_cast<unsigned>(date.month()) - 1;
    columns[month] += 1;
    for (int r = 0; r < print.rows; ++r)
      print.month_sun_h[month] += static_cast<double>(print.at(c, r).lit) * print.step_h;
  }
  for (std::size_t m = 0; m < 12; ++m) {
    if (columns[m] > 0) print.month_sun_h[m] /= columns[m];
  }
}

}  // namespace

SunPrint sun_print(const garden::Garden& garden, const Place& place, const Scene& scene,
                   int day_step, double step_h, int points) {
  SunPrint print;
  print.place = place.id;
  print.is_face = place.kind == PlaceKind::kFace;
  if (!place.thing.empty()) print.marks = marks_of(place);
  print.first_day = garden.site.latitude < degrees(0) ? 182 : 1;
  print.day_step = day_step;
  print.columns = (365 + day_step - 1) / day_step;
  print.step_h = step_h;
  print.rows = static_cast<int>(std::lround(24 / step_h));
  Printer printer{garden, place, scene, points_of(place, points), print, {}};
  const sky::Almanac almanac = sky::Almanac::of_year(kReferenceYear);
  for (int c = 0; c < print.columns; ++c) printer.column(c, almanac);
  sum_months(print);
  return print;
}

}  // namespace spadework::light
