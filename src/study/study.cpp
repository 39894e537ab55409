#include "study/study.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/digest.h"
#include "base/parallel.h"
#include "garden/bodies.h"
#include "geometry/palette.h"
#include "study/study_parts.h"
#include "study/why.h"

namespace spadework::study {
namespace {

// Raised when a method changes its results.
constexpr const char* kStandVersion = "stand-3";
constexpr const char* kClimateVersion = "climate-2";

void digest_value(Digest& digest, const garden::Value& value) {
  if (const double* number = value.number())
    digest.add(*number);
  else if (const std::string* text = value.text())
    digest.add(*text);
  else if (const bool* yes = value.yes_no())
    digest.add(*yes ? "yes" : "no");
  else if (const LocalDate* date = value.date())
    digest.add(iso_date(*date));
  else if (const garden::List* list = value.list()) {
    digest.add("[");
    for (const garden::Value& item : *list) digest_value(digest, item);
    digest.add("]");
  } else if (const garden::Record* record = value.record()) {
    digest.add("{");
    for (const garden::Field& field : *record) {
      digest.add(field.key);
      digest_value(digest, field.value);
    }
    digest.add("}");
  }
}

/// Of the entries of tables that `matters` names.
std::string key_of(const garden::Garden& garden, const std::string& facts_version,
                   bool (*matters)(const std::string&)) {
  Digest digest;
  digest.add(kStandVersion).add(facts_version);
  for (const garden::Entry& entry : garden.entries) {
    if (!matters(entry.table)) continue;
    digest.add(entry.table).add(entry.id);
    for (const garden::Field& field : entry.fields) {
      if (field.key == "note" || field.key == "title" || field.key == "phase") continue;
      digest.add(field.key);
      digest_value(digest, field.value);
    }
  }
  return digest.hex();
}

light::Cloud cloud_of(const climate::PlaceClimate& climate) {
  light::Cloud cloud;
  for (std::size_t m = 0; m < 12; ++m) {
    const climate::Month& month = climate.months[m];
    cloud.radiation[m] = {month.global_mj_m2_d, month.diffuse_mj_m2_d};
    cloud.sunshine_h_per_day[m] = month.sunshine_h_per_day;
  }
  return cloud;
}

std::string places_key(const char* what, const std::string& stand,
                       const std::vector<std::string>& only) {
  std::string key = fmt::format("{} {} {}", what, kLightVersion, stand);
  for (const std::string& id : only) key += " " + id;
  return key;
}

bool matters_for_climate(const std::string& table) {
  return table == "garden" || table == "climate" || table == "climate.month";
}

/// Orders the things of a stand by what they take from all places; those that never take a place's
/// sun alone come last, in the garden's order. `first`: who goes before them all.
void rank(TakersYear& year, const Stand& stand, std::vector<std::string> first) {
  std::map<std::string, double> hours;
  for (const PlaceTakers& place : year.places) {
    for (const light::Taker& taker : place.takers.takers) hours[taker.id] += taker.sun_h_per_year;
  }
  std::vector<std::pair<std::string, double>> most(hours.begin(), hours.end());
  std::stable_sort(most.begin(), most.end(),
                   [](const auto& a, const auto& b) { return a.second > b.second; });
  year.ranked = std::move(first);
  std::set<std::string> there(year.ranked.begin(), year.ranked.end());
  for (const auto& [id, h] : most) {
    if (id == light::kSkylineId) continue;  // it has a grey of its own
    if (there.insert(id).second) year.ranked.push_back(id);
    if (h > 0) year.taking.insert(id);
  }
  for (const garden::Body& body : stand.bodies) {
    if (there.insert(body.thing).second) year.ranked.push_back(body.thing);
  }
}

}  // namespace

std::vector<std::string> TakersYear::inked() const {
  std::vector<std::string> ids;
  for (const std::string& id : ranked) {
    if (ids.size() == geometry::kTakerInks.size() || taking.count(id) == 0) break;
    ids.push_back(id);
  }
  return ids;
}

bool matters_for_light(const std::string& table) {
  static const std::vector<std::string> tables = {
      "garden",   "climate", "climate.month", "boundary", "ground", "wall",
      "building", "tree",    "bed",           "support",  "seat",   "point",
      "plant",    "cover",   "container",     "tank",     "object", "crop"};
  return std::find(tables.begin(), tables.end(), table) != tables.end();
}

light::Scene scene_for(const light::Place& place, const Stand& stand, const light::SunYear& sun) {
  return light::Scene(light::bodies_in_reach(place.receivers, stand.bodies, place.own,
                                             place.replaces, sun.lowest_tangent));
}

const light::PlaceSun* PlacesYear::find(std::string_view id) const {
  for (const light::PlaceSun& place_sun : places) {
    if (place_sun.place.id == id) return &place_sun;
  }
  return nullptr;
}

const light::Takers* TakersYear::find(std::string_view id) const {
  for (const PlaceTakers& place : places) {
    if (place.place == id) return &place.takers;
  }
  return nullptr;
}

Study::Study(garden::Draft draft, const Known& known, int threads)
    : draft_(std::move(draft)), known_(known), threads_(threads) {}

void Study::set_weather(std::optional<climate::Weather> weather, std::vector<std::string> doubts) {
  doubts_ = std::move(doubts);
  weather_key_ = "";
  weather_ = nullptr;
  if (weather) {
    Digest digest;
    for (const climate::WeatherDay& day : weather->days) {
      digest.add(iso_date(day.date));
      for (const auto& figure : {day.rain_mm, day.sunshine_h, day.global_mj_m2, day.diffuse_mj_m2})
        digest.add(figure ? *figure : -1.0);
      for (const auto& t : {day.tmax, day.tmin}) digest.add(t ? in_celsius(*t) : -1e3);
    }
    weather_key_ = digest.hex();
    weather_ = std::make_shared<const climate::Weather>(std::move(*weather));
  }
  stands_ = results_->next_number();
}

void Study::replace(garden::Draft draft) {
  draft_ = std::move(draft);
  // Schemes are resolved anew; what they lead to is found again by content.
  stands_ = results_->next_number();
}

Result<Shared<Stand>> Study::stand(const std::string& scheme) {
  return once<Stand>(fmt::format("stand {} {}", stands_, scheme),
                     [&] { return stand_of(draft_, scheme); });
}

Result<Stand> Study::stand_of(const garden::Draft& draft, const std::string& scheme) const {
  auto garden = garden::resolve(draft, scheme);
  if (!garden) return tl::unexpected<Error>(garden.error());
  Stand stand;
  stand.garden = std::move(*garden);
  // Leaves, the sun's beam and the weather are all of one height, given or not.
  stand.garden.site.elevation = climate::elevation_of(stand.garden, known_.stations);
  stand.surface = ground::ground_surface(stand.garden);
  stand.levels = ground::bed_levels(stand.garden, stand.surface);
  for (const ground::BedLevel& level : stand.levels) stand.bed_levels_m.push_back(level.level_m);
  stand.bodies = garden::bodies(stand.garden, stand.surface, stand.bed_levels_m, known_.catalogue);
  const std::string known = known_.version + weather_key_;
  stand.key = key_of(stand.garden, known, matters_for_light);
  stand.climate_key = key_of(stand.garden, known, matters_for_climate);
  return stand;
}

Result<std::vector<std::string>> Study::place_ids(const std::string& scheme) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  std::vector<std::string> ids;
  const light::Scenery scenery = scenery_of(**stand, known_.catalogue);
  for (const light::Place& place : light::places(scenery)) ids.push_back(place.id);
  for (const std::string& id : light::face_ids(scenery)) {
    if (std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(id);
  }
  return ids;
}

Result<Shared<climate::PlaceClimate>> Study::climate(const std::string& scheme) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  return once<climate::PlaceClimate>(
      fmt::format("climate {} {}", kClimateVersion, s.climate_key),
      [&] { return climate::climate_of(s.garden, known_.stations, weather_.get()); });
}

Result<light::SunYear> Study::open_sun(const std::string& scheme, std::optional<LocalDate> date) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  const auto sun = once<light::SunYear>(
      fmt::format("sun {} {} {}", kLightVersion, s.key, date ? date_key(*date) : "year"),
      [&]() -> Result<light::SunYear> {
        const auto climate = this->climate(scheme);
        if (!climate) return tl::unexpected<Error>(climate.error());
        const light::Cloud cloud = cloud_of(**climate);
        return date ? light::sun_of_day(s.garden, *date, cloud) : light::sun_year(s.garden, cloud);
      });
  if (!sun) return tl::unexpected<Error>(sun.error());
  return **sun;
}

std::vector<light::Place> Study::places_of(const Stand& stand,
                                           const std::vector<std::string>& only) const {
  std::vector<light::Place> wanted = light::places(scenery_of(stand, known_.catalogue), only);
  if (!only.empty()) {
    std::erase_if(wanted, [&](const light::Place& place) {
      return std::find(only.begin(), only.end(), place.id) == only.end();
    });
  }
  return wanted;
}

Result<Shared<PlacesYear>> Study::places_year(const std::string& scheme, Progress* progress,
                                              const std::vector<std::string>& only) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  return once<PlacesYear>(places_key("places", s.key, only), [&]() -> Result<PlacesYear> {
    const auto climate = this->climate(scheme);
    if (!climate) return tl::unexpected<Error>(climate.error());
    PlacesYear year;
    year.climate = *climate;
    year.sun = light::sun_year(s.garden, cloud_of(**climate));
    auto places =
        light::sun_of_places(s.garden, places_of(s, only), s.bodies, year.sun, threads_, progress);
    if (!places) return tl::unexpected<Error>(places.error());
    year.places = std::move(*places);
    return year;
  });
}

Result<Shared<PlacesYear>> Study::places_day(const std::string& scheme, LocalDate date,
                                             const std::vector<std::string>& only) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  return once<PlacesYear>(places_key("places", s.key, only) + " on " + date_key(date),
                          [&]() -> Result<PlacesYear> {
                            const auto climate = this->climate(scheme);
                            if (!climate) return tl::unexpected<Error>(climate.error());
                            PlacesYear day;
                            day.climate = *climate;
                            day.sun = light::sun_of_day(s.garden, date, cloud_of(**climate));
                            auto places = light::sun_of_places(
                                s.garden, places_of(s, only), s.bodies, day.sun, threads_, nullptr);
                            if (!places) return tl::unexpected<Error>(places.error());
                            day.places = std::move(*places);
                            return day;
                          });
}

Result<Shared<light::SunPrint>> Study::print(const std::string& scheme, const std::string& id) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  return once<light::SunPrint>(
      fmt::format("print {} {} {}", kLightVersion, s.key, id), [&]() -> Result<light::SunPrint> {
        std::vector<std::string> ids;
        for (const light::Place& place : light::places(scenery_of(s, known_.catalogue), {id})) {
          if (place.id == id) {
            const auto sun = open_sun(scheme);
            if (!sun) return tl::unexpected<Error>(sun.error());
            return light::sun_print(s.garden, place, scene_for(place, s, *sun), {}, threads_);
          }
          ids.push_back(place.id);
        }
        return no_such_place(id, ids, scheme);
      });
}

Result<Shared<TakersYear>> Study::takers(const std::string& scheme,
                                         const std::vector<std::string>& only, Progress* progress,
                                         const std::vector<int>& months) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  std::string key = places_key("takers", s.key, only);
  for (const int month : months) key += fmt::format(" month {}", month);
  std::vector<std::string> first;  // whose inks they are as found, they are in every scheme
  if (scheme != "found" && only.empty() && months.empty()) {
    const auto found = takers("found", {}, progress);
    if (!found) return tl::unexpected<Error>(found.error());
    first = (*found)->inked();
    if (first.size() == geometry::kTakerInks.size()) {  // letters stay too
      first = (*found)->ranked;
      std::erase_if(first, [&](const std::string& id) { return (*found)->taking.count(id) == 0; });
    }
    for (const std::string& id : first) key += " " + id;
  }
  return once<TakersYear>(key, [&]() -> Result<TakersYear> {
    auto sun = open_sun(scheme);
    if (!sun) return tl::unexpected<Error>(sun.error());
    if (!months.empty()) {
      sun->leave_out_light();
      sun->leave_out_all_but(months);
    }
    const std::vector<light::Place> places = places_of(s, only);
    TakersYear year;
    year.places.resize(places.size());
    if (progress != nullptr) progress->start(static_cast<long>(places.size()));
    parallel_for(static_cast<int>(places.size()), threads_, [&](int i) {
      if (progress != nullptr && progress->cancelled()) return;
      const light::Place& place = places[static_cast<std::size_t>(i)];
      year.places[static_cast<std::size_t>(i)] = {
          place.id, light::takers_of(s.garden, place, scene_for(place, s, *sun), *sun)};
      if (progress != nullptr) progress->step();
    });
    if (progress != nullptr && progress->cancelled())
      return fail(ErrorCode::kNoAnswer, "", "The work was stopped before it was done.");
    rank(year, s, std::move(first));
    return year;
  });
}

Result<SpotYear> Study::spot_year(const std::string& scheme, geometry::Vec2 at, Length above) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  auto sun = open_sun(scheme);
  if (!sun) return tl::unexpected<Error>(sun.error());
  auto found = light::sun_of_places(s.garden,
                                    {light::spot_place(scenery_of(s, known_.catalogue), at, above)},
                                    s.bodies, *sun, 1, nullptr);
  if (!found) return tl::unexpected<Error>(found.error());
  const light::Place& place = found->front().place;
  light::Takers takers = light::takers_of(s.garden, place, scene_for(place, s, *sun), *sun);
  return SpotYear{place, found->front().months, std::move(*sun), std::move(takers)};
}

Result<SpotDay> Study::spot_day(const std::string& scheme, geometry::Vec2 at, Length above,
                                LocalDate date) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  const auto sun = open_sun(scheme, date);
  if (!sun) return tl::unexpected<Error>(sun.error());
  const light::Place place = light::spot_place(scenery_of(s, known_.catalogue), at, above);
  auto light = light::sun_of_places(s.garden, {place}, s.bodies, *sun, 1, nullptr);
  if (!light) return tl::unexpected<Error>(light.error());
  const auto month = static_cast<std::size_t>(static_cast<unsigned>(date.month()) - 1);
  const double dli = light->front().months[month].dli_mol_m2_d;
  return SpotDay{
      light::spot_day(s.garden, scene_for(place, s, *sun), place.receivers.front(), date),
      std::move(light->front()), dli};
}

Result<std::vector<garden::Finding>> Study::findings(const std::string& scheme, Units units) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  std::vector<garden::Finding> all = garden::layout_findings(s.garden, known_.catalogue, units);
  for (const garden::Bed& bed : s.garden.beds) {
    for (garden::Finding& finding : off_survey(s.garden, bed.id, bed.outline, units))
      all.push_back(std::move(finding));
  }
  for (garden::Finding& finding : clock_findings(s.garden.site)) all.push_back(std::move(finding));
  const auto climate = this->climate(scheme);
  if (!climate) return tl::unexpected<Error>(climate.error());
  for (garden::Finding& finding : climate_findings(**climate, doubts_, units))
    all.push_back(std::move(finding));
  garden::sort_findings(all);
  return all;
}

}  // namespace spadework::study
