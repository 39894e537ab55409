#include "ground/ground.h"

#include <algorithm>
#include <map>

namespace spadework::ground {

using geometry::Box2;
using geometry::Incline;
using geometry::Polygon;
using geometry::Surface;

Surface ground_surface(const garden::Garden& garden) {
  constexpr double kAround = 10;  // metres of ground beyond what is drawn
  Box2 domain = garden::extent(garden);
  domain.low = domain.low - geometry::Vec2{kAround, kAround};
  domain.high = domain.high + geometry::Vec2{kAround, kAround};
  if (!garden.ground.spots.empty()) return Surface(garden.ground.spots, domain);
  if (garden.ground.fall) return Surface(Incline{0, *garden.ground.fall * -1.0}, domain);
  return Surface(Incline{}, domain);
}

std::vector<BedLevel> bed_levels(const garden::Garden& garden, const Surface& surface) {
  std::map<std::string, std::size_t> of_id;
  std::vector<BedLevel> levels;
  for (const garden::Bed& bed : garden.beds) {
    of_id[bed.id] = levels.size();
    if (bed.level)
      levels.push_back({in_metres(*bed.level), LevelBy::kGiven});
    else
      levels.push_back({surface.mean_under(bed.outline), LevelBy::kMeanGround});
  }
  for (std::size_t i = 0; i < garden.beds.size(); ++i) {
    // Follow the chain of "level with" to its end; a ring of beds keeps its own mean ground.
    std::size_t at = i;
    for (std::size_t steps = 0; steps <= garden.beds.size(); ++steps) {
      const auto next = of_id.find(garden.beds[at].level_with);
      if (garden.beds[at].level || next == of_id.end()) {
        if (at != i) levels[i] = {levels[at].level_m, LevelBy::kLevelWith};
        break;
      }
      at = next->second;
    }
  }
  return levels;
}

std::vector<garden::Body> ground_bodies(const Surface& surface, int plane, const Polygon& hole) {
  std::vector<garden::Body> bodies;
  double lowest = 0;
  for (const geometry::Facet& f : surface.facets()) {
    for (const auto& p : f.corners) lowest = std::min(lowest, f.incline.at(p));
  }
  const std::vector<Polygon> holes = geometry::convex_parts(hole);
  for (const geometry::Facet& f : surface.facets()) {
    if (f.plane == plane) continue;
    std::vector<Polygon> parts{{f.corners[0], f.corners[1], f.corners[2]}};
    for (const Polygon& dug : holes) {
      std::vector<Polygon> rest;
      for (const Polygon& part : parts) {
        for (Polygon& piece : geometry::outside_parts(part, dug)) rest.push_back(std::move(piece));
      }
      parts = std::move(rest);
    }
    for (const Polygon& part : parts) {
      bodies.push_back({kGroundId,
                        geometry::prism(part, Incline{lowest - 1, {}}, f.incline),
                        garden::Through::kOpaque,
                        {1.0F}});
    }
  }
  return bodies;
}

}  // namespace spadework::ground
