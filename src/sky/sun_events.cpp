#include "sky/sun_events.h"

#include <algorithm>
#include <cmath>

namespace spadework::sky {
namespace {

constexpr double kStep_s = 1800;  // the sun's elevation turns round only twice a day
constexpr double kTimeTolerance_s = 0.005;

struct Point {
  double unix_s, height_deg;  // above the rise elevation
};

/// The sun over one site, as curves of time.
struct Curves {
  const Site& site;
  const Almanac& almanac;

  [[nodiscard]] double height_deg(double unix_s) const {
    const SunPosition sun = almanac.sun_position(UtcTime{unix_s}, site);
    return in_degrees(sun.true_elevation - kRiseElevation);
  }
  [[nodiscard]] double hour_angle_deg(double unix_s) const {
    return in_degrees(almanac.sun_position(UtcTime{unix_s}, site).hour_angle);
  }
  [[nodiscard]] Point at(double unix_s) const { return {unix_s, height_deg(unix_s)}; }
};

/// Where `after(t)` turns from false to true.
template <class Test>
double turning_point(double a, double b, Test after) {
  while (b - a > kTimeTolerance_s) {
    const double middle = (a + b) / 2;
    (after(middle) ? b : a) = middle;
  }
  return (a + b) / 2;
}

/// The highest (sign 1) or lowest (sign −1) point between two times, by golden section, to a
/// second.
Point extreme(const Curves& sun, double a, double b, double sign) {
  constexpr double kGolden = 0.6180339887498949;
  Point left = sun.at(b - kGolden * (b - a)), right = sun.at(a + kGolden * (b - a));
  while (b - a > 1) {
    if (sign * left.height_deg > sign * right.height_deg) {
      b = right.unix_s;
      right = left;
      left = sun.at(b - kGolden * (b - a));
    } else {
      a = left.unix_s;
      left = right;
      right = sun.at(a + kGolden * (b - a));
    }
  }
  return left;
}

/// The day's curve of heights: every half hour, and the turns between, so that no crossing hides.
std::vector<Point> points_of(const Curves& sun, double start, double end) {
  std::vector<Point> grid;
  const int steps = static_cast<int>(std::ceil((end - start) / kStep_s));
  for (int i = 0; i <= steps; ++i) grid.push_back(sun.at(std::min(start + i * kStep_s, end)));
  std::vector<Point> points = grid;
  for (std::size_t i = 1; i + 1 < grid.size(); ++i) {
    const double before = grid[i].height_deg - grid[i - 1].height_deg;
    const double after = grid[i + 1].height_deg - grid[i].height_deg;
    if ((before > 0) == (after > 0)) continue;
    points.push_back(extreme(sun, grid[i - 1].unix_s, grid[i + 1].unix_s, before > 0 ? 1 : -1));
  }
  std::sort(points.begin(), points.end(),
            [](const Point& a, const Point& b) { return a.unix_s < b.unix_s; });
  return points;
}

std::vector<SunCrossing> crossings_of(const Curves& sun, const std::vector<Point>& points) {
  std::vector<SunCrossing> crossings;
  for (std::size_t i = 1; i < points.size(); ++i) {
    const bool up_before = points[i - 1].height_deg > 0, up_after = points[i].height_deg > 0;
    if (up_before == up_after) continue;
    const double t = turning_point(points[i - 1].unix_s, points[i].unix_s,
                                   [&](double s) { return (sun.height_deg(s) > 0) == up_after; });
    crossings.push_back({UtcTime{t}, up_after});
  }
  return crossings;
}

std::optional<UtcTime> transit_of(const Curves& sun, double start, double end) {
  double before = sun.hour_angle_deg(start);
  for (double t = start; t < end; t += kStep_s) {
    const double next = std::min(t + kStep_s, end);
    const double after = sun.hour_angle_deg(next);
    if (before < 0 && after >= 0) {
      return UtcTime{turning_point(t, next, [&](double s) { return sun.hour_angle_deg(s) >= 0; })};
    }
    before = after;
  }
  return std::nullopt;
}

double hours_up(const SunEvents& day, bool up_at_start) {
  double up_s = 0, since = day.starts.unix_s;
  bool up = up_at_start;
  for (const SunCrossing& crossing : day.crossings) {
    if (up) up_s += crossing.time.unix_s - since;
    since = crossing.time.unix_s;
    up = crossing.rising;
  }
  if (up) up_s += day.ends.unix_s - since;
  return up_s / 3600;
}

void name_the_day(SunEvents& day, bool up_at_start) {
  for (const SunCrossing& crossing : day.crossings) {
    if (crossing.rising && !day.rise) day.rise = crossing.time;
    if (!crossing.rising && !day.set) day.set = crossing.time;
  }
  if (day.rise) {
    for (const SunCrossing& crossing : day.crossings) {
      if (crossing.rising || crossing.time < *day.rise) continue;
      day.set = crossing.time;
      break;
    }
  }
  if (day.rise && day.set) {
    day.kind = DayKind::kRisesAndSets;
  } else if (day.rise) {
    day.kind = DayKind::kOnlyRises;
  } else if (day.set) {
    day.kind = DayKind::kOnlySets;
  } else {
    day.kind = up_at_start ? DayKind::kUpAllDay : DayKind::kDownAllDay;
  }
}

LocalDate next_day(LocalDate date) {
  return LocalDate(std::chrono::sys_days(date) + std::chrono::days(1));
}

}  // namespace

SunEvents sun_events(LocalDate date, const TimeZone& zone, const Site& site,
                     const Almanac& almanac) {
  const Curves sun{site, almanac};
  SunEvents day;
  day.starts = zone.at_clock(date, 0);
  day.ends = zone.at_clock(next_day(date), 0);
  const std::vector<Point> points = points_of(sun, day.starts.unix_s, day.ends.unix_s);
  const bool up_at_start = points.front().height_deg > 0;
  day.crossings = crossings_of(sun, points);
  day.transit = transit_of(sun, day.starts.unix_s, day.ends.unix_s);
  double highest_deg = points.front().height_deg;
  for (const Point& point : points) highest_deg = std::max(highest_deg, point.height_deg);
  day.highest = degrees(highest_deg) + kRiseElevation;
  day.up_h = hours_up(day, up_at_start);
  name_the_day(day, up_at_start);
  return day;
}

SunEvents sun_events(LocalDate date, const TimeZone& zone, const Site& site,
                     const SunOptions& options) {
  const Almanac almanac(zone.at_clock(date, 0), zone.at_clock(next_day(date), 0), options);
  return sun_events(date, zone, site, almanac);
}

}  // namespace spadework::sky
