#include "light/field.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "ground/ground.h"
#include "light/sky_light.h"

namespace spadework::light {
namespace {

using geometry::Box2;
using geometry::Polygon;
using geometry::Vec2;

constexpr double kLift = 0.002;      // metres above what is measured
constexpr int kBandCells = 120'000;  // cells cast at once: bounds the memory

Polygon soil_of(const garden::Bed& bed) {
  if (!bed.boards) return bed.outline;
  Polygon inner = geometry::inset(bed.outline, in_metres(bed.boards->thickness));
  return inner.empty() ? bed.outline : inner;
}

/// Calls `act(index)` for the cells whose middles lie in the polygon.
template <class Act>
void over_cells(const Field& field, const Polygon& polygon, Act act) {
  const Box2 box = geometry::bounds(polygon);
  const auto cell = [&](double from, double at) {
    return static_cast<int>(std::floor((at - from) / field.cell_m));
  };
  const int c0 = std::max(0, cell(field.corner.x, box.low.x));
  const int c1 = std::min(field.columns - 1, cell(field.corner.x, box.high.x));
  const int r0 = std::max(0, cell(field.corner.y, box.low.y));
  const int r1 = std::min(field.rows - 1, cell(field.corner.y, box.high.y));
  for (int r = r0; r <= r1; ++r) {
    for (int c = c0; c <= c1; ++c) {
      if (geometry::contains(polygon, field.middle(c, r))) act(field.index(c, r));
    }
  }
}

/// One receiving plane of the field, and which cells lie on it.
struct Plane {
  geometry::Incline incline;
  std::vector<garden::Body> own;  // bodies for this plane alone: ground beside it, a bed's boards
  std::vector<std::string> replaces;  // the things whose bodies those stand for
  std::int32_t key;                   // bed number, or −1 − plane number for the ground
};

class Caster {
 public:
  Caster(const Scenery& scenery, const std::vector<garden::Body>& bodies, const SunYear& year,
         int threads, Progress* progress, Field& field)
      : scenery_(scenery),
        bodies_(bodies),
        year_(year),
        threads_(threads),
        progress_(progress),
        field_(field) {}

  void sort_cells() {
    const auto n = static_cast<std::size_t>(field_.columns) * static_cast<std::size_t>(field_.rows);
    const bool bounded = scenery_.garden.boundary.size() >= 3;
    field_.lies_on.assign(n, bounded ? kNoCell : kOnGround);
    if (bounded) {
      over_cells(field_, scenery_.garden.boundary,
                 [&](std::size_t i) { field_.lies_on[i] = kOnGround; });
    }
    for (std::size_t b = 0; b < scenery_.garden.beds.size(); ++b) {
      const garden::Bed& bed = scenery_.garden.beds[b];
      std::vector<std::size_t> soil;
      over_cells(field_, soil_of(bed), [&](std::size_t i) {
        if (field_.lies_on[i] != kNoCell) soil.push_back(i);
      });
      // The boards themselves have no light figure.
      over_cells(field_, bed.outline, [&](std::size_t i) { field_.lies_on[i] = kNoCell; });
      for (const std::size_t i : soil) field_.lies_on[i] = static_cast<std::int32_t>(b);
    }
    for (const garden::Building& building : scenery_.garden.buildings)
      over_cells(field_, building.outline, [&](std::size_t i) { field_.lies_on[i] = kNoCell; });
    plane_of_cell_.assign(n, std::numeric_limits<std::int32_t>::min());
    for (const geometry::Facet& facet : scenery_.surface.facets()) {
      over_cells(field_, {facet.corners[0], facet.corners[1], facet.corners[2]},
                 [&](std::size_t i) { plane_of_cell_[i] = -1 - facet.plane; });
    }
    for (int r = 0; r < field_.rows; ++r) {
      for (int c = 0; c < field_.columns; ++c) {
        const std::size_t i = field_.index(c, r);
        if (field_.lies_on[i] >= 0)
          plane_of_cell_[i] = field_.lies_on[i];
        else if (field_.lies_on[i] == kNoCell)
          plane_of_cell_[i] = std::numeric_limits<std::int32_t>::min();
        else if (plane_of_cell_[i] == std::numeric_limits<std::int32_t>::min())
          plane_of_cell_[i] = -1 - scenery_.surface.facet_at(field_.middle(c, r)).plane;
      }
    }
  }

  void cast_all() {
    const std::vector<Plane> planes = planes_of_field();
    if (progress_) progress_->start(static_cast<long>(planes.size()));
    // Each plane writes to its own cells.
    parallel_for(static_cast<int>(planes.size()), threads_, [&](int i) {
      if (progress_ && progress_->cancelled()) return;
      cast_plane(planes[static_cast<std::size_t>(i)]);
      if (progress_) progress_->step();
    });
  }

 private:
  std::vector<Plane> planes_of_field() const {
    std::vector<Plane> planes;
    for (std::size_t b = 0; b < scenery_.garden.beds.size(); ++b) {
      planes.push_back({{scenery_.bed_levels_m[b], {}},
                        bed_surroundings(scenery_, b),
                        {scenery_.garden.beds[b].id},
                        static_cast<std::int32_t>(b)});
    }
    std::map<int, geometry::Incline> inclines;
    for (const geometry::Facet& facet : scenery_.surface.facets())
      inclines.emplace(facet.plane, facet.incline);
    for (const auto& [number, incline] : inclines) {
      planes.push_back(
          {incline, ground::ground_bodies(scenery_.surface, number, {}), {}, -1 - number});
    }
    return planes;
  }

  void cast_plane(const Plane& plane) {
    int c0 = field_.columns, c1 = -1, r0 = field_.rows, r1 = -1;
    for (int r = 0; r < field_.rows; ++r) {
      for (int c = 0; c < field_.columns; ++c) {
        if (plane_of_cell_[field_.index(c, r)] != plane.key) continue;
        c0 = std::min(c0, c), c1 = std::max(c1, c), r0 = std::min(r0, r), r1 = std::max(r1, r);
      }
    }
    if (c1 < 0) return;
    const int columns = c1 - c0 + 1;
    const int band = std::max(1, kBandCells / columns);
    for (int r = r0; r <= r1; r += band)
      cast_band(plane, c0, columns, r, std::min(band, r1 - r + 1));
  }

  void cast_band(const Plane& plane, int c0, int columns, int r0, int rows) {
    const Vec2 corner = field_.corner + Vec2{c0 * field_.cell_m, r0 * field_.cell_m};
    const Receiver receiver = ground_receiver(corner, plane.incline.level + kLift,
                                              plane.incline.slope, field_.cell_m, columns, rows);
    const Scene scene(bodies_in_reach(std::span(&receiver, 1), bodies_, plane.own, plane.replaces,
                                      year_.lowest_tangent));
    const bool with_light = year_.has_light();
    BeamLight sun;
    SkyLight sky;
    if (with_light) {
      sun = cast_light(scene, receiver, year_.samples);
      sky = cast_sky(
          scene, receiver,
          sky_over(receiver, scenery_.garden.ground.horizon, scenery_.garden.site.plan_north));
    } else {
      sun.lit = cast(scene, receiver, year_.samples);
    }
    for (int r = 0; r < rows; ++r) {
      for (int c = 0; c < columns; ++c) {
        const std::size_t i = field_.index(c0 + c, r0 + r);
        if (plane_of_cell_[i] != plane.key) continue;
        const auto cell = static_cast<std::size_t>(r * columns + c);
        for (std::size_t m = 0; m < 12; ++m) {
          const std::uint32_t lit = sun.lit.of_month(static_cast<int>(m), cell);
          field_.months[m][i] = static_cast<float>(lit * year_.hours_each / year_.days_in_month[m]);
          if (with_light) field_.dli[m][i] = static_cast<float>(dli_of(year_, sun, sky, m, cell));
        }
      }
    }
  }

  const Scenery& scenery_;
  const std::vector<garden::Body>& bodies_;
  const SunYear& year_;
  int threads_;
  Progress* progress_;
  Field& field_;
  std::vector<std::int32_t> plane_of_cell_;
};

}  // namespace

Result<Field> sun_field(const Scenery& scenery, const std::vector<garden::Body>& bodies,
                        const SunYear& year, double cell_m, int threads, Progress* progress) {
  const Box2 box = scenery.garden.boundary.size() >= 3 ? geometry::bounds(scenery.garden.boundary)
                                                       : garden::extent(scenery.garden);
  const double columns = std::max(1.0, std::ceil(box.width() / cell_m - 1e-9));
  const double rows = std::max(1.0, std::ceil(box.height() / cell_m - 1e-9));
  if (columns * rows > static_cast<double>(kMostFieldCells)) {
    const double wanted =
        std::sqrt(box.width() * box.height() / (0.9 * static_cast<double>(kMostFieldCells)));
    return fail(ErrorCode::kNoAnswer, "--cell",
                fmt::format("A field of {:.0f} × {:.0f} m in cells of {:g} m has {:.0f} cells; at "
                            "most {} are computed.",
                            box.width(), box.height(), cell_m, columns * rows, kMostFieldCells),
                fmt::format("Take cells of {:.2f} m or more, or a boundary around the part that "
                            "matters.",
                            std::ceil(wanted * 100) / 100));
  }
  Field field;
  field.corner = box.low;
  field.cell_m = cell_m;
  field.columns = static_cast<int>(columns);
  field.rows = static_cast<int>(rows);
  for (auto& month : field.months) month.assign(static_cast<std::size_t>(columns * rows), 0.0F);
  if (year.has_light()) field.dli = field.months;
  Caster caster(scenery, bodies, year, threads, progress, field);
  caster.sort_cells();
  caster.cast_all();
  if (progress && progress->cancelled())
    return fail(ErrorCode::kNoAnswer, "", "The work was stopped before it was done.");
  return field;
}

std::vector<float> field_mean(const Field& field, const SunYear& year,
                              const std::vector<int>& months) {
  std::vector<float> mean(field.lies_on.size(), std::numeric_limits<float>::quiet_NaN());
  for (std::size_t i = 0; i < mean.size(); ++i) {
    if (field.lies_on[i] == kNoCell) continue;
    double sum = 0, days = 0;
    for (const int m : months) {
      const auto month = static_cast<std::size_t>(m);
      sum += static_cast<double>(field.months[month][i]) * year.days_in_month[month];
      days += year.days_in_month[month];
    }
    mean[i] = static_cast<float>(sum / days);
  }
  return mean;
}

}  // namespace spadework::light
