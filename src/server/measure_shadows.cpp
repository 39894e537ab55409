// What shadows tell of north and of heights, and where they end.
#include <cmath>
#include <vector>

#include "server/measure_asked.h"

namespace spadework::server {

Result<Json> noon_measured(const Asked& asked) {
  const auto date = asked.date();
  if (!date) return tl::unexpected<Error>(date.error());
  const auto noon = ground::noon_shadow(asked.place(), *date, metres(1), asked.errors());
  if (!noon) return tl::unexpected<Error>(noon.error());
  const int minutes = static_cast<int>(std::lround(noon->clock_h * 60));
  const std::string clock = fmt::format("{:02}:{:02}", minutes / 60 % 24, minutes % 60);
  const char* way = noon->points_north ? "north" : "south";
  return Json{{"clock_h", noon->clock_h},
              {"clock", clock},
              {"points", way},
              {"sigma_deg", in_degrees(noon->bearing.sigma)},
              {"says", fmt::format("At {} a stick’s shadow points true {}.", clock, way)},
              {"remedies", remedies_json(noon->remedies, [](const ground::Remedy<Angle>& remedy) {
                 return degrees_says(remedy.sigma_after);
               })}};
}

Result<Json> north_measured(const Asked& asked) {
  const auto foot = asked.point("foot_m"), tip = asked.point("tip_m");
  const auto date = asked.date();
  const auto clock = asked.number("clock");
  if (!foot) return tl::unexpected<Error>(foot.error());
  if (!tip) return tl::unexpected<Error>(tip.error());
  if (!date) return tl::unexpected<Error>(date.error());
  if (!clock) return tl::unexpected<Error>(clock.error());
  const auto north =
      ground::plan_north_from_shadow(asked.place(), {*foot, *tip, *date, *clock}, asked.errors());
  if (!north) return tl::unexpected<Error>(north.error());
  const double turn = in_degrees(north->plan_north.value);
  return Json{{"plan_north_deg", std::round(turn * 10) / 10},
              {"sigma_deg", in_degrees(north->plan_north.sigma)},
              {"says", fmt::format("The page’s up lies {:.0f}° clockwise from true north, {}.",
                                   turn, degrees_says(north->plan_north.sigma))},
              {"remedies", remedies_json(north->remedies, [](const ground::Remedy<Angle>& remedy) {
                 return degrees_says(remedy.sigma_after);
               })}};
}

namespace {

/// The tops whose shadows show which way north lies: of a tree or a post its own, of a wall those
/// of its ends, of a building those of its eaves' corners.
struct Top {
  geometry::Vec2 foot;
  Length height;
};
std::vector<Top> tops_of(const garden::Garden& garden, const std::string& id) {
  std::vector<Top> tops;
  for (const auto& t : garden.trees)
    if (t.id == id) tops.push_back({t.at, t.height});
  for (const auto& t : garden.walls)
    if (t.id == id) tops = {{t.line.front(), t.height}, {t.line.back(), t.height}};
  for (const auto& t : garden.supports)
    if (t.id == id) tops.push_back({t.line.front(), t.height});
  for (const auto& t : garden.buildings)
    if (t.id == id)
      for (const geometry::Vec2 corner : t.outline) tops.push_back({corner, t.eaves});
  for (const auto& t : garden.objects)
    if (t.id == id)
      for (const geometry::Vec2 corner : t.outline) tops.push_back({corner, t.height});
  return tops;
}

}  // namespace

Result<Json> shadow_measured(const Asked& asked, const garden::Garden& garden) {
  const auto date = asked.date();
  const auto clock = asked.number("clock");
  if (!date) return tl::unexpected<Error>(date.error());
  if (!clock) return tl::unexpected<Error>(clock.error());
  const std::string thing = asked.json().value("thing", std::string());
  Json ends = Json::array();
  for (const Top& top : tops_of(garden, thing)) {
    const auto tip = ground::shadow_on_level(asked.place(), top.foot, top.height,
                                             garden.site.plan_north, *date, *clock);
    if (!tip) return tl::unexpected<Error>(tip.error());
    ends.push_back({{"foot_m", {top.foot.x, top.foot.y}}, {"tip_m", {tip->x, tip->y}}});
  }
  if (ends.empty()) return missing("thing");
  return Json{{"ends", ends},
              {"says", fmt::format("The shadow of {} ends here, if north is as drawn.", thing)},
              {"remedies", Json::array()}};
}

Result<Json> height_measured(const Asked& asked) {
  const auto along = asked.length("along");
  const auto date = asked.date();
  const auto clock = asked.number("clock");
  if (!along) return tl::unexpected<Error>(along.error());
  if (!date) return tl::unexpected<Error>(date.error());
  if (!clock) return tl::unexpected<Error>(clock.error());
  ground::TapedShadow shadow;
  shadow.along = *along, shadow.date = *date, shadow.clock_h = *clock;
  if (asked.has("rise")) {
    const auto rise = asked.length("rise");
    if (!rise) return tl::unexpected<Error>(rise.error());
    shadow.rise = ground::fall_by_level(*rise);
  }
  const auto height = ground::height_from_shadow(asked.place(), shadow, asked.errors());
  if (!height) return tl::unexpected<Error>(height.error());
  const Units units = asked.units();
  return Json{
      {"height_m", in_metres(height->height.value)},
      {"sigma_m", in_metres(height->height.sigma)},
      {"says", fmt::format("{} high, {}.", length_says(height->height.value, units, 1),
                           sigma_says(height->height.sigma, units))},
      {"remedies", remedies_json(height->remedies, [&](const ground::Remedy<Length>& remedy) {
         return sigma_says(remedy.sigma_after, units);
       })}};
}

}  // namespace spadework::server
