#include <fmt/format.h>

#include <algorithm>

#include "climate/climate.h"
#include "exchange/results_json.h"
#include "light/light_drawing.h"
#include "server/entry_request.h"
#include "server/measure_words.h"
#include "server/routes.h"
#include "server/told.h"

namespace spadework::server {
namespace {

using garden::Entry;
using garden::Garden;
using geometry::Vec2;

Json points(const std::vector<Vec2>& line) {
  Json out = Json::array();
  for (const Vec2 p : line) out.push_back({p.x, p.y});
  return out;
}

/// What the tables that there is one of say: where the garden lies, how its ground falls.
Json singles_json(const Garden& garden) {
  Json singles = Json::object();
  for (const garden::TableSchema& table : garden::schema()) {
    if (table.form != garden::TableForm::kSingle) continue;
    const auto entry = std::find_if(garden.entries.begin(), garden.entries.end(),
                                    [&](const Entry& one) { return one.table == table.name; });
    singles[table.name] = entry == garden.entries.end() ? Json::object() : fields_json(*entry);
  }
  return singles;
}

/// The ground's triangles, each corner with its level, for what lies level with what; none where
/// the ground is flat, or made of more planes than a hand's movement has time for.
Json ground_json(const geometry::Surface& ground) {
  constexpr std::size_t kMost = 1000;
  Json facets = Json::array();
  const bool is_flat =
      ground.planes() == 1 && geometry::length(ground.facets().front().incline.slope) < 1e-6;
  if (is_flat || ground.facets().size() > kMost) return facets;
  for (const geometry::Facet& facet : ground.facets()) {
    Json corners = Json::array();
    for (const Vec2 p : facet.corners) corners.push_back({p.x, p.y, facet.incline.at(p)});
    facets.push_back(std::move(corners));
  }
  return facets;
}

/// Whether the file is read, and no month of it is whole: the stations stand in for all of it.
bool has_no_month(OpenGarden::Held& held, const std::string& scheme) {
  const auto climate = held.study().climate(scheme);
  return climate && (*climate)->file && climate::gives_nothing(*(*climate)->file);
}

Json weather_json(OpenGarden::Held& held, const std::string& scheme) {
  const std::string name = climate::weather_file_of(held.draft());
  if (name.empty()) return nullptr;
  const auto& problem = held.weather_problem();
  return {{"name", name},
          {"is_there", !problem || problem->code != ErrorCode::kUnknownId},
          {"problem", problem ? error_json(*problem) : Json()},
          {"has_no_month", !problem && has_no_month(held, scheme)}};
}

}  // namespace

Json head_json(const OpenGarden::Held& garden) {
  const store::Head& head = garden.head();
  return {{"change", head.change}, {"revision", head.revision}, {"undo", head.undo},
          {"redo", head.redo},     {"made", head.made},         {"read_only", garden.read_only()}};
}

Result<std::string> state_text(OpenGarden::Held& held, const std::string& scheme,
                               std::int64_t since) {
  const auto stand = held.study().stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const auto found = held.study().stand("found");
  if (!found) return tl::unexpected<Error>(found.error());
  const Garden& garden = (*stand)->garden;
  const geometry::Box2 frame = light::sheet_frame(garden);
  Json beds = Json::object();
  for (std::size_t b = 0; b < garden.beds.size(); ++b)
    beds[garden.beds[b].id] = {{"level_m", (*stand)->bed_levels_m[b]}};
  Json state = {{"head", head_json(held)},
                {"title", garden.site.title},
                {"scheme", scheme},
                {"schemes", garden::scheme_names(held.draft())},
                {"site",
                 {{"latitude_deg", in_degrees(garden.site.latitude)},
                  {"longitude_deg", in_degrees(garden.site.longitude)},
                  {"time_zone", garden.site.time_zone.name()},
                  {"plan_north_deg", in_degrees(garden.site.plan_north)},
                  {"units", garden.site.imperial ? "imperial" : "metric"},
                  {"growing_months", light::growing_months(garden.site.latitude)}}},
                {"frame_m", {frame.low.x, frame.low.y, frame.high.x, frame.high.y}},
                {"boundary", points(garden.boundary)},
                {"weather_file", weather_json(held, scheme)},
                {"beds", beds},
                {"ground", ground_json((*stand)->surface)},
                {"guessed", exchange::guessed_json(**stand)},
                {"narrows", narrows_json(garden)},
                {"singles", singles_json(garden)},
                {"entries", entries_json(held.draft())}};

  Latest<ThingsTold>& told = held.told().things;
  const std::int64_t change = held.head().change;
  auto now = told.find(scheme, change);
  if (now == nullptr) {
    now = std::make_shared<const ThingsTold>(things_told(garden, (*found)->garden));
    told.keep(scheme, change, now);
  }
  const auto before = since == change ? nullptr : told.find(scheme, since);
  const auto changed = before == nullptr ? std::nullopt : changed_things(*before, *now);
  if (changed) state["since"] = since;
  std::string text = state.dump();
  text.pop_back();
  return text + ',' + (changed ? *changed : all_things(*now)) + '}';
}

}  // namespace spadework::server
