// What a grower reads in the margin: answers, takers, findings, why, and the days of the band.
#include <cmath>

#include "exchange/results_json.h"
#include "light/taker_inks.h"
#include "server/routes.h"
#include "server/when.h"
#include "sky/sky.h"
#include "study/answers.h"
#include "study/why.h"

namespace spadework::server {
namespace {

Json number_or_null(double value) { return std::isnan(value) ? Json() : Json(value); }

Json place_json(const light::PlaceSun& place, const study::PlacesYear& year,
                const std::vector<int>& months) {
  using light::MonthSun;
  const double sun_h =
      light::mean_of(place.months, year.sun.days_in_month, months, &MonthSun::sun_h_per_day);
  Json json = {{"id", place.place.id},
               {"kind", light::place_kind_name(place.place.kind)},
               {"area_m2", in_square_metres(place.place.area)},
               {"level_m", place.place.level_m},
               {"answer", study::place_answer(place, year.sun, nullptr, months)},
               {"months", exchange::months_json(place.months)},
               {"sun_h_per_day", sun_h},
               {"sunshine_h_per_day", light::mean_of(place.months, year.sun.days_in_month, months,
                                                     &MonthSun::sunshine_h_per_day)},
               {"dli_mol_m2_d", light::mean_of(place.months, year.sun.days_in_month, months,
                                               &MonthSun::dli_mol_m2_d)},
               {"share_of_open", number_or_null(light::mean_of(place.months, year.sun.days_in_month,
                                                               months, &MonthSun::share_of_open))},
               {"light_class", light::light_class_name(light::light_class(sun_h))}};
  if (place.place.bearing) json["bearing_deg"] = in_degrees(*place.place.bearing);
  return json;
}

/// A figure with the chain behind it, its sources with their citations.
Json trace_json(const Trace& trace, const facts::Catalogue& catalogue) {
  Json json = {{"name", trace.name},       {"value", trace.value},
               {"unit", trace.unit},       {"method", trace.method},
               {"where", trace.where},     {"standing", standing_says(trace.standing)},
               {"sources", Json::array()}, {"inputs", Json::array()}};
  if (trace.has_number) json["number"] = trace.number;
  for (const std::string& key : trace.sources) {
    const facts::Source* source = catalogue.source(key);
    json["sources"].push_back(
        {{"key", key}, {"citation", source == nullptr ? key : source->citation}});
  }
  for (const Trace& input : trace.inputs) json["inputs"].push_back(trace_json(input, catalogue));
  return json;
}

Units units_of(const study::Stand& stand) {
  return stand.garden.site.imperial ? Units::kImperial : Units::kMetric;
}

/// When the sun is up on a day by the clock: from and to, in hours. Where it sets after midnight
/// these are two, near the turn of the season three.
Json lit_json(const sky::SunEvents& events, LocalDate date, const TimeZone& zone) {
  bool up = events.crossings.empty() ? events.kind == sky::DayKind::kUpAllDay
                                     : !events.crossings.front().rising;
  double since_h = 0;
  Json lit = Json::array();
  for (const sky::SunCrossing& crossing : events.crossings) {
    const double hour = zone.clock_hour(date, crossing.time);
    if (up) lit.push_back({since_h, hour});
    since_h = hour;
    up = crossing.rising;
  }
  if (up) lit.push_back({since_h, 24});
  return lit;
}

}  // namespace

Json taker_json(const std::string& id, const light::Place* place, double sun_h_per_year,
                const light::TakerInks& inks) {
  constexpr int kGraphite = static_cast<int>(geometry::kTakerInks.size());
  return {{"id", id},
          {"called", study::taker_called(place, id)},
          {"letter", inks.letter(id)},
          {"ink", std::min(inks.ink(id), kGraphite)},
          {"sun_h_per_year", sun_h_per_year}};
}

/// The places of a scheme: their year, and their sun of a day where one is asked for.
struct PlacesShown {
  study::Shared<study::PlacesYear> year, day;
  study::Shared<study::OnGuesses> on_guesses;

  [[nodiscard]] Json hours(const std::string& id, const std::vector<int>& months) const {
    const light::PlaceSun* place = (day ? day : year)->find(id);
    if (place == nullptr) return nullptr;
    if (!day) return light::mean_sun_h(place->months, year->sun.days_in_month, months);
    double of_day = 0;  // all other months have none
    for (const light::MonthSun& month : place->months) of_day += month.sun_h_per_day;
    return of_day;
  }
};

Result<PlacesShown> places_shown(study::Study& study, const std::string& scheme,
                                 std::optional<LocalDate> date, Progress* progress) {
  PlacesShown shown;
  const auto year = study.places_year(scheme, progress);
  if (!year) return tl::unexpected<Error>(year.error());
  shown.year = *year;
  const auto guesses = study.on_guesses(scheme);
  if (!guesses) return tl::unexpected<Error>(guesses.error());
  shown.on_guesses = *guesses;
  if (!date) return shown;
  const auto day = study.places_day(scheme, *date);
  if (!day) return tl::unexpected<Error>(day.error());
  shown.day = *day;
  return shown;
}

Answer places_answer(OpenGarden::Held& garden, const Request& request, Progress* progress) {
  const std::string scheme = word_of(request, "scheme", "proposed");
  const auto stand = garden.study().stand(scheme);
  if (!stand) return error_answer(stand.error());
  const auto months = months_of(word_of(request, "months", ""), **stand);
  if (!months) return error_answer(months.error());
  const std::string day = word_of(request, "day", "");
  const auto date = day_of(day);
  if (!date) return error_answer(date.error());
  const auto shown = places_shown(garden.study(), scheme, *date, progress);
  if (!shown) return error_answer(shown.error());
  const study::Shared<study::PlacesYear>& year = shown->year;
  const std::string against = word_of(request, "against", "");
  std::optional<PlacesShown> other;
  if (!against.empty()) {
    const auto then = places_shown(garden.study(), against, *date, progress);
    if (!then) return error_answer(then.error());
    other = *then;
  }
  const auto findings = garden.study().findings(scheme, units_of(**stand));
  if (!findings) return error_answer(findings.error());
  const std::vector<int> over =
      *date ? std::vector<int>{static_cast<int>(static_cast<unsigned>((*date)->month())) - 1}
            : *months;
  Json places = Json::array();
  for (const light::PlaceSun& place : year->places) {
    const std::string& id = place.place.id;
    places.push_back(place_json(place, *year, *months));
    places.back()["shown_h"] = shown->hours(id, *months);
    places.back()["on_guesses"] = shown->on_guesses->rests(id, over);
    for (std::size_t m = 0; m < 12; ++m)
      places.back()["months"][m]["on_guesses"] =
          shown->on_guesses->rests(id, {static_cast<int>(m)});
    if (!other) continue;
    places.back()["against_shown_h"] = other->hours(id, *months);
    places.back()["against_on_guesses"] = other->on_guesses->rests(id, over);
  }
  Json only_there = Json::array();
  if (other) {
    for (const light::PlaceSun& place : other->year->places) {
      const std::string& id = place.place.id;
      if (year->find(id) == nullptr)
        only_there.push_back({{"id", id},
                              {"shown_h", other->hours(id, *months)},
                              {"on_guesses", other->on_guesses->rests(id, over)}});
    }
  }
  return json_answer({{"answer", study::garden_answer(*year, *months)},
                      {"next_step", study::next_step(**stand, *findings)},
                      {"scheme", scheme},
                      {"change", garden.head().change},
                      {"against", against},
                      {"months", *months},
                      {"day", day},
                      {"places", std::move(places)},
                      {"only_there", std::move(only_there)}});
}

Answer takers_answer(OpenGarden::Held& garden, const Request& request, Progress* progress) {
  const std::string scheme = word_of(request, "scheme", "proposed");
  const std::string id = word_of(request, "place", "");
  const auto stand = garden.study().stand(scheme);
  if (!stand) return error_answer(stand.error());
  const auto ids = garden.study().place_ids(scheme);
  if (!ids) return error_answer(ids.error());
  if (std::find(ids->begin(), ids->end(), id) == ids->end())
    return error_answer(study::no_such_place(id, *ids, scheme).value());
  const auto year = garden.study().places_year(scheme, nullptr, {id});
  if (!year) return error_answer(year.error());
  const auto all = garden.study().takers(scheme, {}, progress);
  if (!all) return error_answer(all.error());
  const auto own = garden.study().takers(scheme, {id}, progress);
  if (!own) return error_answer(own.error());
  const light::Takers& takers = *(*own)->find(id);
  const light::PlaceSun& place = *(*year)->find(id);
  const light::TakerInks inks((*all)->ranked);
  std::vector<light::Taker> most = takers.takers;
  std::stable_sort(most.begin(), most.end(), [](const auto& a, const auto& b) {
    return a.sun_h_per_year > b.sun_h_per_year;
  });
  Json rows = Json::array();
  for (const light::Taker& taker : most)
    rows.push_back(taker_json(taker.id, &place.place, taker.sun_h_per_year, inks));
  const auto growing = light::growing_months((*stand)->garden.site.latitude);
  return json_answer({{"place", id},
                      {"answer", study::place_answer(place, (*year)->sun, &takers, growing)},
                      {"lost_h", takers.lost_h},
                      {"taken_twice_h", takers.taken_twice_h},
                      {"takers", std::move(rows)}});
}

Answer inks_answer(OpenGarden::Held& garden, const Request& request, Progress* progress) {
  const auto all = garden.study().takers(word_of(request, "scheme", "proposed"), {}, progress);
  if (!all) return error_answer(all.error());
  const light::TakerInks inks((*all)->ranked);
  Json rows = Json::array();
  for (const std::string& id : (*all)->ranked) rows.push_back(taker_json(id, nullptr, 0, inks));
  return json_answer({{"takers", std::move(rows)}});
}

Answer findings_answer(OpenGarden::Held& garden, const Request& request) {
  const std::string scheme = word_of(request, "scheme", "proposed");
  const auto stand = garden.study().stand(scheme);
  if (!stand) return error_answer(stand.error());
  const auto findings = garden.study().findings(scheme, units_of(**stand));
  if (!findings) return error_answer(findings.error());
  Json rows = Json::array();
  for (const garden::Finding& finding : *findings) {
    Json row = exchange::finding_json(finding);
    row["numbers"] = Json::array();
    for (const Trace& number : finding.numbers)
      row["numbers"].push_back(trace_json(number, garden.study().catalogue()));
    rows.push_back(std::move(row));
  }
  return json_answer({{"findings", std::move(rows)}});
}

Answer why_answer(OpenGarden::Held& garden, const Request& request) {
  const auto trace =
      garden.study().why(word_of(request, "scheme", "proposed"), word_of(request, "pointer", ""));
  if (!trace) return error_answer(trace.error());
  return json_answer(trace_json(*trace, garden.study().catalogue()));
}

Answer band_answer(OpenGarden::Held& garden, const Request& request) {
  const auto stand = garden.study().stand(word_of(request, "scheme", "proposed"));
  if (!stand) return error_answer(stand.error());
  const garden::Site& site = (*stand)->garden.site;
  const sky::Site sky_site{site.latitude, site.longitude, site.elevation};
  constexpr int kFirstOfJuly = 182;
  const int first = site.latitude < degrees(0) ? kFirstOfJuly : 1;
  Json days = Json::array();
  for (int c = 0; c < 365; ++c) {
    const LocalDate date = date_of_day(kReferenceYear, (first - 1 + c) % 365 + 1);
    const sky::SunEvents events = sky::sun_events(date, site.time_zone, sky_site);
    const auto clock = [&](const std::optional<UtcTime>& t) {
      return t ? Json(site.time_zone.clock_hour(date, *t)) : Json();
    };
    days.push_back({{"date", iso_date(date).substr(5)},
                    {"rise_h", clock(events.rise)},
                    {"set_h", clock(events.set)},
                    {"lit", lit_json(events, date, site.time_zone)},
                    {"light", events.kind == sky::DayKind::kUpAllDay     ? "day"
                              : events.kind == sky::DayKind::kDownAllDay ? "night"
                                                                         : "both"}});
  }
  return json_answer({{"first_day", first}, {"days", std::move(days)}});
}

}  // namespace spadework::server
