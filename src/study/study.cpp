#include "study/study.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/digest.h"
#include "garden/bodies.h"
#include "study/why.h"

namespace spadework::study {
namespace {

// Raised when a method changes its results.
constexpr const char* kStandVersion = "stand-2";
constexpr const char* kLightVersion = "light-1";

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

std::string light_key(const garden::Garden& garden, const std::string& facts_version) {
  Digest digest;
  digest.add(kStandVersion).add(facts_version);
  for (const garden::Entry& entry : garden.entries) {
    if (!matters_for_light(entry.table)) continue;
    digest.add(entry.table).add(entry.id);
    for (const garden::Field& field : entry.fields) {
      if (field.key == "note" || field.key == "title" || field.key == "phase") continue;
      digest.add(field.key);
      digest_value(digest, field.value);
    }
  }
  return digest.hex();
}

light::Scenery scenery_of(const Stand& stand, const facts::Catalogue& catalogue) {
  return {stand.garden, stand.surface, stand.bed_levels_m, catalogue};
}

light::Scene scene_for(const light::Place& place, const Stand& stand) {
  return light::Scene(light::with_own(stand.bodies, place.own, place.replaces));
}

std::string date_key(LocalDate date) { return iso_date(date); }

}  // namespace

bool matters_for_light(const std::string& table) {
  static const std::vector<std::string> tables = {
      "garden", "boundary", "ground", "wall",  "building",  "tree", "bed",   "support",
      "seat",   "point",    "plant",  "cover", "container", "tank", "object", "crop"};
  return std::find(tables.begin(), tables.end(), table) != tables.end();
}

const light::PlaceSun* PlacesYear::find(std::string_view id) const {
  for (const light::PlaceSun& place_sun : places) {
    if (place_sun.place.id == id) return &place_sun;
  }
  return nullptr;
}

Study::Study(garden::Draft draft, const facts::Catalogue& catalogue, std::string facts_version,
             int threads)
    : draft_(std::move(draft)),
      catalogue_(catalogue),
      facts_version_(std::move(facts_version)),
      threads_(threads) {}

void Study::replace(garden::Draft draft) {
  draft_ = std::move(draft);
  // Schemes are resolved anew; what they lead to is found again by content.
  std::erase_if(kept_, [](const auto& item) { return item.first.starts_with("stand "); });
}

template <class T>
Result<Shared<T>> Study::once(const std::string& key, const std::function<Result<T>()>& compute) {
  if (const auto found = kept_.find(key); found != kept_.end())
    return std::static_pointer_cast<const T>(found->second);
  Result<T> made = compute();
  if (!made) return tl::unexpected<Error>(made.error());
  ++computed_;
  auto shared = std::make_shared<const T>(std::move(*made));
  kept_[key] = shared;
  return shared;
}

Result<Shared<Stand>> Study::stand(const std::string& scheme) {
  return once<Stand>("stand " + scheme, [&]() -> Result<Stand> {
    auto garden = garden::resolve(draft_, scheme);
    if (!garden) return tl::unexpected<Error>(garden.error());
    Stand stand;
    stand.garden = std::move(*garden);
    stand.surface = ground::ground_surface(stand.garden);
    stand.levels = ground::bed_levels(stand.garden, stand.surface);
    for (const ground::BedLevel& level : stand.levels) stand.bed_levels_m.push_back(level.level_m);
    stand.bodies = garden::bodies(stand.garden, stand.surface, stand.bed_levels_m, catalogue_);
    stand.key = light_key(stand.garden, facts_version_);
    return stand;
  });
}

Result<std::vector<std::string>> Study::place_ids(const std::string& scheme) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  std::vector<std::string> ids;
  for (const light::Place& place : light::places(scenery_of(**stand, catalogue_)))
    ids.push_back(place.id);
  return ids;
}

Result<Shared<PlacesYear>> Study::places_year(const std::string& scheme, Progress* progress,
                                              const std::vector<std::string>& only) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  std::string key = fmt::format("places {} {}", kLightVersion, s.key);
  for (const std::string& id : only) key += " " + id;
  return once<PlacesYear>(key, [&]() -> Result<PlacesYear> {
    PlacesYear year;
    year.sun = light::sun_year(s.garden);
    std::vector<light::Place> wanted = light::places(scenery_of(s, catalogue_));
    if (!only.empty()) {
      std::erase_if(wanted, [&](const light::Place& place) {
        return std::find(only.begin(), only.end(), place.id) == only.end();
      });
    }
    auto places =
        light::sun_of_places(s.garden, std::move(wanted), s.bodies, year.sun, threads_, progress);
    if (!places) return tl::unexpected<Error>(places.error());
    year.places = std::move(*places);
    return year;
  });
}

Result<Shared<PlacesYear>> Study::places_day(const std::string& scheme, LocalDate date) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  return once<PlacesYear>(fmt::format("places {} {} {}", kLightVersion, s.key, date_key(date)),
                          [&]() -> Result<PlacesYear> {
                            PlacesYear day;
                            day.sun = light::sun_of_day(s.garden, date);
                            auto places = light::sun_of_places(
                                s.garden, light::places(scenery_of(s, catalogue_)), s.bodies,
                                day.sun, threads_, nullptr);
                            if (!places) return tl::unexpected<Error>(places.error());
                            day.places = std::move(*places);
                            return day;
                          });
}

Result<Shared<light::Field>> Study::field(const std::string& scheme, double cell_m,
                                          Progress* progress) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  return once<light::Field>(fmt::format("field {} {} {}", kLightVersion, s.key, cell_m), [&] {
    return light::sun_field(scenery_of(s, catalogue_), s.bodies, light::sun_year(s.garden), cell_m,
                            threads_, progress);
  });
}

Result<Shared<light::Field>> Study::field_of_day(const std::string& scheme, double cell_m,
                                                 LocalDate date) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  return once<light::Field>(
      fmt::format("field {} {} {} {}", kLightVersion, s.key, cell_m, date_key(date)), [&] {
        return light::sun_field(scenery_of(s, catalogue_), s.bodies,
                                light::sun_of_day(s.garden, date), cell_m, threads_, nullptr);
      });
}

Result<Shared<light::SunPrint>> Study::print(const std::string& scheme, const std::string& id) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  return once<light::SunPrint>(
      fmt::format("print {} {} {}", kLightVersion, s.key, id), [&]() -> Result<light::SunPrint> {
        std::vector<std::string> ids;
        for (const light::Place& place : light::places(scenery_of(s, catalogue_))) {
          if (place.id == id) return light::sun_print(s.garden, place, scene_for(place, s));
          ids.push_back(place.id);
        }
        return no_such_place(id, ids, scheme);
      });
}

Result<Shared<std::vector<std::string>>> Study::takers(const std::string& scheme) {
  using Ids = std::vector<std::string>;
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  return once<Ids>(fmt::format("takers {} {}", kLightVersion, s.key), [&]() -> Result<Ids> {
    constexpr std::size_t kEvery = 7;  // of the year's suns: enough for a ranking
    const light::SunYear sun = light::sun_year(s.garden);
    std::map<std::string, double> hours;
    for (const light::Place& place : light::places(scenery_of(s, catalogue_))) {
      const light::Scene scene = scene_for(place, s);
      const light::Receiver& r = place.receivers[place.receivers.size() / 2];
      const geometry::Vec3 middle = light::cell_centre(r, r.columns / 2, r.rows / 2);
      for (std::size_t i = 0; i < sun.samples.size(); i += kEvery) {
        const auto ray =
            light::along_ray(scene, middle, sun.samples[i].toward_sun, sun.samples[i].day_of_year);
        if (!ray.sunlit()) hours[scene.things()[static_cast<std::size_t>(ray.first_blocker)]] += 1;
      }
    }
    std::vector<std::pair<std::string, double>> most(hours.begin(), hours.end());
    std::stable_sort(most.begin(), most.end(),
                     [](const auto& a, const auto& b) { return a.second > b.second; });
    Ids ids;
    for (const auto& [id, h] : most) ids.push_back(id);
    return ids;
  });
}

Result<SpotYear> Study::spot_year(const std::string& scheme, geometry::Vec2 at, Length above) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  const light::SunYear sun = light::sun_year(s.garden);
  auto found =
      light::sun_of_places(s.garden, {light::spot_place(scenery_of(s, catalogue_), at, above)},
                           s.bodies, sun, 1, nullptr);
  if (!found) return tl::unexpected<Error>(found.error());
  return SpotYear{std::move(found->front().place), found->front().months, sun.days_in_month};
}

Result<light::SpotDay> Study::spot_day(const std::string& scheme, geometry::Vec2 at, Length above,
                                       LocalDate date) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  const light::Place place = light::spot_place(scenery_of(s, catalogue_), at, above);
  return light::spot_day(s.garden, scene_for(place, s), place.receivers.front(), date);
}

Result<std::vector<garden::Finding>> Study::findings(const std::string& scheme) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  std::vector<garden::Finding> all = garden::layout_findings(s.garden);
  for (const garden::Bed& bed : s.garden.beds) {
    for (garden::Finding& finding : off_survey(s.garden, bed.id, bed.outline))
      all.push_back(std::move(finding));
  }
  garden::sort_findings(all);
  return all;
}

Result<Trace> Study::why(const std::string& scheme, const std::string& text) {
  const auto pointer = read_pointer(text);
  if (!pointer) return tl::unexpected<Error>(pointer.error());
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  if (pointer->spot) {
    PlacesYear spot;
    spot.sun =
        pointer->day ? light::sun_of_day(s.garden, *pointer->day) : light::sun_year(s.garden);
    auto sun = light::sun_of_places(
        s.garden,
        {light::spot_place(scenery_of(s, catalogue_), pointer->spot->at, pointer->spot->above)},
        s.bodies, spot.sun, 1, nullptr);
    if (!sun) return tl::unexpected<Error>(sun.error());
    spot.places = std::move(*sun);
    return why_light(s, spot, catalogue_, *pointer);
  }
  const auto year = pointer->day ? places_day(scheme, *pointer->day) : places_year(scheme);
  if (!year) return tl::unexpected<Error>(year.error());
  return why_light(s, **year, catalogue_, *pointer);
}

}  // namespace spadework::study
