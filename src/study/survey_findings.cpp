#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "study/study.h"

namespace spadework::study {

using geometry::Polygon;
using geometry::Vec2;

std::vector<garden::Finding> off_survey(const garden::Garden& garden, const std::string& id,
                                        const std::vector<Vec2>& points, Units units) {
  constexpr double kNear_m = 0.5;
  if (garden.ground.spots.empty()) return {};
  std::vector<Vec2> spots;
  for (const geometry::Vec3& spot : garden.ground.spots) spots.push_back(spot.plan());
  const Polygon surveyed = geometry::convex_hull(spots);
  double farthest = 0;
  for (const Vec2 p : points) {
    if (surveyed.size() >= 3 && geometry::contains(surveyed, p)) continue;
    double away = std::numeric_limits<double>::infinity();
    if (surveyed.size() >= 3) away = geometry::distance_to_outline(p, surveyed);
    for (const Vec2 spot : spots) away = std::min(away, length(p - spot));
    farthest = std::max(farthest, away);
  }
  if (farthest <= kNear_m) return {};
  garden::Finding finding;
  finding.grade = garden::Grade::kShould;
  finding.about = {id};
  finding.says =
      fmt::format("{} lies up to {} off the surveyed ground; its level there is only guessed.", id,
                  length_says(metres(farthest), units, 1));
  finding.mend = {"Take one more spot level beyond it."};
  return {finding};
}

}  // namespace spadework::study
