#include "light/print.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>

#include "base/parallel.h"
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

/// How often each taker is the first (or the second) at a cell's points.
using Counts = std::map<int, int>;

/// The most frequent; of equals the first in the scene.
int most_of(const Counts& counts) {
  return std::max_element(counts.begin(), counts.end(),
                          [](auto& a, auto& b) { return a.second < b.second; })
      ->first;
}

/// One column of the print; takers are still places in Scene::things().
struct Column {
  std::vector<PrintCell> cells;
  std::map<int, double> first;  // sums of shares of the place by taker
  double rise_h = 0, set_h = 0;
};

class Printer {
 public:
  Printer(const garden::Garden& garden, const Scene& scene, std::vector<PrintPoint> points,
          const SunPrint& print)
      : garden_(garden), scene_(scene), points_(std::move(points)), print_(print) {}

  Column column(int c, const sky::Almanac& almanac) const {
    const sky::Site site{garden_.site.latitude, garden_.site.longitude, garden_.site.elevation};
    const int day = print_.day_of(c);
    const LocalDate date = date_of_day(kReferenceYear, day);
    const auto events = sky::sun_events(date, garden_.site.time_zone, site, almanac);
    const auto clock = [&](const std::optional<UtcTime>& t) {
      return t ? garden_.site.time_zone.clock_hour(date, *t)
               : std::numeric_limits<double>::quiet_NaN();
    };
    Column out;
    out.rise_h = clock(events.rise);
    out.set_h = clock(events.set);
    for (int r = 0; r < print_.rows; ++r) {
      const UtcTime t = garden_.site.time_zone.at_clock(date, (r + 0.5) * print_.step_h);
      out.cells.push_back(
          cell(sky::sun_sample(t, date, site, garden_.site.plan_north, almanac), day, out.first));
    }
    return out;
  }

 private:
  /// Who takes the sun from a point; behind the skyline, that is the farthest thing on the way.
  RayTakers takers_at(const PrintPoint& p, Vec3 towards, int day, bool behind_skyline) const {
    RayTakers takers = takers_on(along_ray(scene_, p.at, towards, day));
    if (!behind_skyline) return takers;
    if (takers.first < 0) return {kSkylineTaker};
    if (takers.second < 0) takers.second = kSkylineTaker;
    takers.twice = true;
    return takers;
  }

  PrintCell cell(const sky::SunSample& sun, int day, std::map<int, double>& first) const {
    PrintCell cell;
    cell.day = sun.elevation > degrees(0);
    cell.strong = cell.day && sun.clear.direct_normal > sky::kSunshineThreshold;
    if (!cell.strong) return cell;
    const bool behind = sun.elevation <= skyline_altitude(garden_.ground.horizon, sun.azimuth);
    int lit = 0, once = 0, twice = 0;
    Counts first_once, first_twice;
    std::map<int, Counts> seconds;  // of those taken twice, by the first
    for (const PrintPoint& p : points_) {
      if (dot(p.facing, sun.towards) <= 0) continue;
      const RayTakers takers = takers_at(p, sun.towards, day, behind);
      if (takers.first == kNoTaker) {
        ++lit;
        continue;
      }
      first[takers.first] += 1 / static_cast<double>(points_.size());
      ++(takers.twice ? twice : once);
      ++(takers.twice ? first_twice : first_once)[takers.first];
      if (takers.twice) ++seconds[takers.first][takers.second];
    }
    const auto share = [&](int n) {
      return static_cast<float>(n) / static_cast<float>(points_.size());
    };
    cell.lit = share(lit), cell.once = share(once), cell.twice = share(twice);
    if (twice > 0 && twice >= once) {
      cell.taker = most_of(first_twice);
      cell.second = most_of(seconds[cell.taker]);
    } else if (once > 0) {
      cell.taker = most_of(first_once);
    }
    return cell;
  }

  const garden::Garden& garden_;
  const Scene& scene_;
  std::vector<PrintPoint> points_;
  const SunPrint& print_;
};

/// Puts the columns together: the takers numbered by what they take, most first.
void gather(const std::vector<Column>& columns, const Scene& scene, SunPrint& print) {
  std::vector<double> first_h(scene.things().size(), 0);
  for (int c = 0; c < print.columns; ++c) {
    for (const auto& [thing, share] : columns[static_cast<std::size_t>(c)].first) {
      const double hours = share * print.step_h * print.days_of(c);
      (thing == kSkylineTaker ? print.skyline_first_h : first_h[static_cast<std::size_t>(thing)]) +=
          hours;
      print.lost_h += hours;
    }
  }
  std::vector<int> order(first_h.size()), number(first_h.size(), kNoTaker);
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
    return first_h[static_cast<std::size_t>(a)] > first_h[static_cast<std::size_t>(b)];
  });
  // A thing that is second is the first at some other point or hour, or last in the list.
  std::vector<char> named(first_h.size(), 0);
  for (const Column& column : columns) {
    for (const PrintCell& cell : column.cells) {
      for (const int thing : {cell.taker, cell.second})
        if (thing >= 0) named[static_cast<std::size_t>(thing)] = 1;
    }
  }
  for (const int thing : order) {
    const auto i = static_cast<std::size_t>(thing);
    if (first_h[i] <= 0 && !named[i]) continue;
    number[i] = static_cast<int>(print.takers.size());
    print.takers.push_back({scene.things()[i], first_h[i]});
  }
  for (const Column& column : columns) {
    print.rise_h.push_back(column.rise_h);
    print.set_h.push_back(column.set_h);
    for (PrintCell cell : column.cells) {
      if (cell.taker >= 0) cell.taker = number[static_cast<std::size_t>(cell.taker)];
      if (cell.second >= 0) cell.second = number[static_cast<std::size_t>(cell.second)];
      print.cells.push_back(cell);
    }
  }
}

void sum_up(SunPrint& print) {
  std::array<double, 12> columns{};
  for (int c = 0; c < print.columns; ++c) {
    const LocalDate date = date_of_day(kReferenceYear, print.day_of(c));
    const auto month = static_cast<unsigned>(date.month()) - 1;
    columns[month] += 1;
    double lit_h = 0, twice_h = 0;
    for (int r = 0; r < print.rows; ++r) {
      lit_h += static_cast<double>(print.at(c, r).lit) * print.step_h;
      twice_h += static_cast<double>(print.at(c, r).twice) * print.step_h;
    }
    print.month_sun_h[month] += lit_h;
    print.lit_h += lit_h * print.days_of(c);
    print.taken_twice_h += twice_h * print.days_of(c);
  }
  for (std::size_t m = 0; m < 12; ++m) {
    if (columns[m] > 0) print.month_sun_h[m] /= columns[m];
  }
}

}  // namespace

SunPrint sun_print(const garden::Garden& garden, const Place& place, const Scene& scene,
                   const PrintGrid& grid, int threads) {
  SunPrint print;
  print.place = place.id;
  print.is_face = place.kind == PlaceKind::kFace;
  if (!place.thing.empty()) print.marks = marks_of(place);
  print.first_day = garden.site.latitude < degrees(0) ? 182 : 1;
  print.day_step = grid.day_step;
  print.columns = (365 + grid.day_step - 1) / grid.day_step;
  print.step_h = grid.step_h;
  print.rows = static_cast<int>(std::lround(24 / grid.step_h));
  const Printer printer(garden, scene, points_of(place, grid.points), print);
  const sky::Almanac almanac = sky::Almanac::of_year(kReferenceYear);
  std::vector<Column> columns(static_cast<std::size_t>(print.columns));
  parallel_for(print.columns, threads,
               [&](int c) { columns[static_cast<std::size_t>(c)] = printer.column(c, almanac); });
  gather(columns, scene, print);
  sum_up(print);
  return print;
}

}  // namespace spadework::light
