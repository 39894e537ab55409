#include "study/why.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "study/why_amounts.h"
#include "study/why_climate.h"
#include "study/why_sun.h"
#include "study/why_things.h"

namespace spadework::study {
namespace {

/// The keys of a place's own entry, with no figure that only bears on its height.
Trace area_trace(const Asked& asked) {
  const light::Place& place = asked.place.place;
  Trace trace;
  trace.name = "area of " + place.id;
  trace.number = in_square_metres(place.area);
  trace.has_number = true;
  trace.unit = "m²";
  trace.value = fmt::format("{:.2f} m²", trace.number);
  trace.method = place.kind == light::PlaceKind::kBed
                     ? "The area within the boards, from the corners."
                 : place.kind == light::PlaceKind::kFace
                     ? "Its length by its height, as far as it stands clear of the ground, of beds "
                       "before it and of what it disappears into."
                     : "From its size in the plan.";
  add_place(asked.stand, place, asked.catalogue, trace.inputs);
  std::erase_if(trace.inputs, [](const Trace& input) {
    return input.name.find("level of the soil") != std::string::npos ||
           input.name.find("height in full growth") != std::string::npos ||
           input.name.ends_with(".eye_m");
  });
  return trace;
}

Trace level_trace(const Asked& asked) {
  const light::Place& place = asked.place.place;
  Trace trace;
  trace.name = "level at which the light of " + place_says(asked) + " is measured";
  trace.number = place.level_m;
  trace.has_number = true;
  trace.unit = "m";
  trace.value = level_says(trace.number);
  trace.method = "The ground or the soil that it stands on, and its own height above that.";
  add_place(asked.stand, place, asked.catalogue, trace.inputs);
  if (place.kind != light::PlaceKind::kBed) trace.inputs.push_back(spots_trace(asked.stand));
  return trace;
}

/// Full sun, part sun, part shade or shade.
Trace class_trace(const Asked& asked) {
  const Span growing{light::growing_months(asked.stand.garden.site.latitude), {}};
  const double hours =
      light::mean_sun_h(asked.place.months, asked.sun.days_in_month, growing.months);
  Trace trace;
  trace.name = "how sunny " + place_says(asked) + " is";
  trace.value = light::light_class_name(light::light_class(hours));
  trace.method =
      "By the clear-sky hours a day in the growing months: full sun from 6, part sun from 4, part "
      "shade from 2, shade below.";
  trace.sources = {"psu-light"};
  trace.inputs = {sun_trace(asked, growing, hours)};
  return trace;
}

const std::vector<std::string> kMonthFigures{"sun_h_per_day", "morning_h",          "midday_h",
                                             "afternoon_h",   "sunshine_h_per_day", "dli_mol_m2_d",
                                             "share_of_open"};
const std::vector<std::string> kDayFigures{"sun_h", "morning_h", "midday_h", "afternoon_h",
                                           "dli_mol_m2_d"};

/// The part of a day that a figure is of.
std::optional<std::size_t> part_of(const std::string& key) {
  if (key == "morning_h") return 0;
  if (key == "midday_h") return 1;
  if (key == "afternoon_h") return 2;
  return std::nullopt;
}

/// A figure of a month; of a day, `sun_h` is the month's `sun_h_per_day`.
Trace figure_trace(const Asked& asked, std::size_t month, const std::string& key) {
  const light::MonthSun& figures = asked.place.months[month];
  if (key == "sunshine_h_per_day") return sunshine_trace(asked, month);
  if (key == "dli_mol_m2_d") return dli_trace(asked, month);
  if (key == "share_of_open") return share_trace(asked, month);
  const Span span{{static_cast<int>(month)}, part_of(key)};
  if (!span.part) return sun_trace(asked, span, figures.sun_h_per_day);
  const double hours[] = {figures.morning_h, figures.midday_h, figures.afternoon_h};
  return sun_trace(asked, span, hours[*span.part]);
}

bool is_one_of(const std::string& key, const std::vector<std::string>& keys) {
  return std::find(keys.begin(), keys.end(), key) != keys.end();
}

/// "5,6,7": months from 0; nothing for anything else, or for one alone.
std::vector<int> months_in(const std::string& text) {
  std::vector<int> months;
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t comma = std::min(text.find(',', at), text.size());
    const auto month = month_of(text.substr(at, comma - at));
    if (!month || months.size() == 12) return {};
    months.push_back(static_cast<int>(*month));
    at = comma + 1;
  }
  return months.size() < 2 ? std::vector<int>() : months;
}

/// A figure's mean over several months: of sun hours one chain; of amounts each month's figure,
/// the greatest told to its end.
Trace mean_trace(const Asked& asked, const std::vector<int>& months, const std::string& key) {
  static const std::map<std::string, double light::MonthSun::*> figures{
      {"sun_h_per_day", &light::MonthSun::sun_h_per_day},
      {"morning_h", &light::MonthSun::morning_h},
      {"midday_h", &light::MonthSun::midday_h},
      {"afternoon_h", &light::MonthSun::afternoon_h},
      {"sunshine_h_per_day", &light::MonthSun::sunshine_h_per_day},
      {"dli_mol_m2_d", &light::MonthSun::dli_mol_m2_d},
      {"share_of_open", &light::MonthSun::share_of_open}};
  const auto figure = figures.at(key);
  const double mean = light::mean_of(asked.place.months, asked.sun.days_in_month, months, figure);
  const Span span{months, part_of(key)};
  if (key == "sun_h_per_day" || span.part) return sun_trace(asked, span, mean);
  const auto of = [&](int month) {
    return asked.place.months[static_cast<std::size_t>(month)].*figure;
  };
  const int most =
      *std::max_element(months.begin(), months.end(), [&](int a, int b) { return of(a) < of(b); });
  std::vector<Trace> inputs;
  for (const int month : months) {
    Trace one = figure_trace(asked, static_cast<std::size_t>(month), key);
    inputs.push_back(month == most ? std::move(one) : without_inputs(std::move(one)));
  }
  Trace trace =
      number_trace(fmt::format("{} at {} {}",
                               key == "sunshine_h_per_day" ? "sunshine to expect"
                               : key == "dli_mol_m2_d"     ? "light for growth (DLI)"
                                                           : "share of the open’s light",
                               place_says(asked), when_says(asked, span)),
                   mean, inputs[0].unit,
                   key == "share_of_open" ? fmt::format("{:.0f} %", 100 * mean)
                                          : fmt::format("{:.1f} {} a day", mean, inputs[0].unit));
  trace.method = fmt::format(
      "The mean of the months, each by its days{}. {} is told to its end here; ask for the others "
      "by themselves.",
      key == "share_of_open" ? " and only those that have light" : "",
      month_name(static_cast<unsigned>(most) + 1));
  trace.inputs = std::move(inputs);
  if (asked.guessed(span.months)) tell_guess(trace);
  return trace;
}

Result<Trace> why_month(const Asked& asked, const Pointer& pointer) {
  const auto& rest = pointer.rest;
  if (rest.empty() || rest.size() > 3 || rest[0] != "months" || rest.size() == 1)
    return bad_pointer(pointer.text,
                       "Go on with /months/5/sun_h_per_day, /takers/ID/sun_h_per_year, /lost_h, "
                       "/taken_twice_h, /class, /level_m or /area_m2.");
  const auto month = month_of(rest[1]);
  const std::vector<int> several = months_in(rest[1]);
  if (!month && several.empty())
    return bad_pointer(pointer.text,
                       "Months run from 0 (January) to 11, or by name; of several: 5,6,7.");
  if (rest.size() != 3 || !is_one_of(rest[2], kMonthFigures))
    return bad_pointer(pointer.text, "A month has " + list_words(kMonthFigures, "and") + ".");
  return month ? figure_trace(asked, *month, rest[2]) : mean_trace(asked, several, rest[2]);
}

Result<Trace> why_day(const Asked& asked, const Pointer& pointer) {
  if (pointer.rest.size() != 1 || !is_one_of(pointer.rest[0], kDayFigures))
    return bad_pointer(pointer.text, "A day has " + list_words(kDayFigures, "and") + ".");
  return figure_trace(asked, static_cast<unsigned>(asked.day->month()) - 1, pointer.rest[0]);
}

/// The id that a step names: itself, or that of the place with that number.
std::string id_of(const std::string& step, const std::vector<std::string>& ids) {
  if (is_one_of(step, ids)) return step;
  const auto index = index_of(step);
  return index && *index < ids.size() ? ids[*index] : step;
}

/// The spot of a pointer; of a day, its hours to the second.
Result<light::PlaceSun> spot_asked(Study& study, const std::string& scheme,
                                   const Pointer& pointer) {
  const auto [at, above] = *pointer.spot;
  if (!pointer.day) {
    const auto year = study.spot_year(scheme, at, above);
    if (!year) return tl::unexpected<Error>(year.error());
    return light::PlaceSun{year->place, year->months};
  }
  const auto day = study.spot_day(scheme, at, above, *pointer.day);
  if (!day) return tl::unexpected<Error>(day.error());
  light::PlaceSun sun = day->sun;
  sun.months[static_cast<unsigned>(pointer.day->month()) - 1].sun_h_per_day = day->sun_h;
  return sun;
}

Result<light::PlaceSun> place_asked(Study& study, const std::string& scheme,
                                    const Pointer& pointer) {
  if (pointer.spot) return spot_asked(study, scheme, pointer);
  const auto ids = study.place_ids(scheme);
  if (!ids) return tl::unexpected<Error>(ids.error());
  const std::string id = id_of(pointer.place, *ids);
  if (!is_one_of(id, *ids)) return no_such_place(id, *ids, scheme);
  const auto year = pointer.day ? study.places_day(scheme, *pointer.day, {id})
                                : study.places_year(scheme, nullptr, {id});
  if (!year) return tl::unexpected<Error>(year.error());
  return *(*year)->find(id);
}

}  // namespace

tl::unexpected<Error> no_such_place(const std::string& id, const std::vector<std::string>& ids,
                                    const std::string& scheme) {
  const std::string near = nearest_word(id, ids);
  std::string hint = near.empty() ? std::string() : fmt::format("Did you mean “{}”?", near);
  // Of the faces of walls one example is enough.
  std::vector<std::string> names, faces;
  for (const std::string& name : ids)
    (name.find('.') == std::string::npos ? names : faces).push_back(name);
  if (!faces.empty()) names.push_back("faces, such as " + faces.front());
  if (hint.empty() && !names.empty()) hint = "There are " + list_words(names, "and") + ".";
  return fail(ErrorCode::kWrongUse, id,
              fmt::format("There is no place called “{}” in the garden {}.", id,
                          scheme == "found" || scheme == "proposed" ? "as " + scheme
                                                                    : "of scheme " + scheme),
              std::move(hint));
}

bool asks_for_takers(const Pointer& pointer) {
  return !pointer.day && !pointer.rest.empty() &&
         is_one_of(pointer.rest.front(), {"takers", "lost_h", "taken_twice_h"});
}

Result<Trace> why_light(const Asked& asked, const light::Takers* takers, const Pointer& pointer) {
  const auto& rest = pointer.rest;
  if (rest.size() == 1 && rest[0] == "level_m") return level_trace(asked);
  if (rest.size() == 1 && rest[0] == "area_m2" && !pointer.spot) return area_trace(asked);
  if (pointer.day) return why_day(asked, pointer);
  if (rest.size() == 1 && rest[0] == "class") return class_trace(asked);
  return takers == nullptr ? why_month(asked, pointer) : why_taken(asked, *takers, pointer);
}

Result<Trace> Study::why(const std::string& scheme, const std::string& text) {
  auto pointer = read_pointer(text);
  if (!pointer) return tl::unexpected<Error>(pointer.error());
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const auto climate = this->climate(scheme);
  if (!climate) return tl::unexpected<Error>(climate.error());
  const auto sun = open_sun(scheme, pointer->day);
  if (!sun) return tl::unexpected<Error>(sun.error());
  if (pointer->about == Pointer::About::kClimate)
    return why_climate({**stand, known_.stations, **climate, *sun}, *pointer);
  const auto place = place_asked(*this, scheme, *pointer);
  if (!place) return tl::unexpected<Error>(place.error());
  const light::Scene scene = scene_for(place->place, **stand, *sun);
  std::optional<light::Takers> takers;
  if (asks_for_takers(*pointer))
    takers = light::takers_of((*stand)->garden, place->place, scene, *sun);
  const auto guesses = on_guesses(scheme);
  if (!guesses) return tl::unexpected<Error>(guesses.error());
  return why_light(
      {**stand, known_.catalogue, **climate, *sun, *place, scene, pointer->day, guesses->get()},
      takers ? &*takers : nullptr, *pointer);
}

}  // namespace spadework::study
