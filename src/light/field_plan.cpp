#include "light/field_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "ground/ground.h"

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
  std::vector<garden::Body> own;
  std::vector<std::string> replaces;
  std::int32_t key;  // bed number, or −1 − plane number for the ground
};

class Planner {
 public:
  Planner(const Scenery& scenery, Field& field) : scenery_(scenery), field_(field) {}

  std::vector<FieldBand> run() {
    sort_cells();
    for (const Plane& plane : planes_of_field()) add_plane(plane);
    return std::move(bands_);
  }

 private:
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

  void add_plane(const Plane& plane) {
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
      add_band(plane, c0, columns, r, std::min(band, r1 - r + 1));
  }

  void add_band(const Plane& plane, int c0, int columns, int r0, int rows) {
    const Vec2 corner = field_.corner + Vec2{c0 * field_.cell_m, r0 * field_.cell_m};
    FieldBand band;
    band.receiver = ground_receiver(corner, plane.incline.level + kLift, plane.incline.slope,
                                    field_.cell_m, columns, rows);
    band.own = plane.own;
    band.replaces = plane.replaces;
    band.receiver.counted.assign(static_cast<std::size_t>(columns * rows), 0);
    for (int r = 0; r < rows; ++r) {
      for (int c = 0; c < columns; ++c) {
        const std::size_t i = field_.index(c0 + c, r0 + r);
        if (plane_of_cell_[i] != plane.key) continue;
        const auto cell = static_cast<std::uint32_t>(r * columns + c);
        band.receiver.counted[cell] = 1;
        band.cells.push_back({static_cast<std::uint32_t>(i), cell});
      }
    }
    if (!band.cells.empty()) bands_.push_back(std::move(band));
  }

  const Scenery& scenery_;
  Field& field_;
  std::vector<std::int32_t> plane_of_cell_;
  std::vector<FieldBand> bands_;
};

}  // namespace

Result<Field> empty_field(const Scenery& scenery, double cell_m) {
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
  return field;
}

std::vector<FieldBand> bands_of(const Scenery& scenery, Field& field) {
  return Planner(scenery, field).run();
}

}  // namespace spadework::light
