#include "study/why_sun.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "study/why_amounts.h"
#include "study/why_things.h"

namespace spadework::study {
namespace {

constexpr const char* kPartSays[] = {"morning sun", "midday sun", "afternoon sun"};

std::string sun_says(const Span& span) { return span.part ? kPartSays[*span.part] : "sun hours"; }

bool in_span(const Span& span, const light::SunSample& sample) {
  return (!span.part || sample.part == *span.part) &&
         std::find(span.months.begin(), span.months.end(), sample.month) != span.months.end();
}

bool is_strong(const light::SunSample& sample) {
  return static_cast<double>(sample.beam_w_m2) > light::CastOptions{}.least_beam_w_m2;
}

/// Hours of strong sun in the open, in all.
double open_hours(const light::SunYear& sun, const Span& span) {
  double hours = 0;
  for (const auto* samples : {&sun.samples, &sun.behind}) {
    for (const light::SunSample& sample : *samples) {
      if (is_strong(sample) && in_span(span, sample)) hours += sun.hours_each;
    }
  }
  return hours;
}

std::string quantity_says(Taken what, double amount, const Rate& rate) {
  const int digits = rate.least > 0.1 ? 0 : 1;
  return fmt::format("{:.{}f} {}{}", amount, digits, what == Taken::kHours ? "h" : "mol/m²",
                     rate.says);
}

Trace quantity(std::string name, Taken what, double amount, const Rate& rate) {
  return number_trace(std::move(name), amount, what == Taken::kHours ? "h" : "mol/m²",
                      quantity_says(what, amount, rate));
}

double taken_by(const light::Taker& taker, Taken what) {
  return what == Taken::kHours ? taker.sun_h_per_year : taker.light_mol_m2_per_year;
}

std::string taker_name(const Asked& asked, const std::string& id) {
  if (id == light::kSkylineId) return "the skyline";
  if (id == ground::kGroundId) return "the ground beside it";
  const std::string own = own_taker_says(asked.place.place, id);
  return own.empty() ? id : own;
}

void add_taker(const Asked& asked, const std::string& id, std::vector<Trace>& out) {
  if (id == light::kSkylineId)
    add_skyline(asked.stand, out);
  else
    add_thing(asked.stand, id, asked.catalogue, out);
}

Trace open_sun_trace(const Asked& asked, const Span& span, const Rate& rate) {
  Trace trace = quantity("strong sun in the open", Taken::kHours,
                         open_hours(asked.sun, span) / rate.over, rate);
  trace.method = fmt::format(
      "The hours in which the clear sky’s beam is over {:.0f} W/m², on level ground without "
      "skyline. Beam: Ineichen and Perez, Linke turbidity 3.{}",
      in_watts_per_m2(sky::kSunshineThreshold),
      span.part == std::size_t{1} ? " Midday is the four hours around the sun’s noon." : "");
  trace.sources = {"spa", "ineichen-perez", "wmo8"};
  add_site(asked.stand, trace.inputs);
  return trace;
}

/// What each month has of a sum of the year, in the order of the year: "Jan 3, Feb 12, …".
Trace months_trace(const Asked& asked, const std::string& id, Taken what) {
  Trace trace;
  trace.name = "month by month";
  for (int m = 0; m < 12; ++m) {
    double amount = 0;
    for (const light::Taker& taker : takers_in(asked, {{m}, {}}, what).takers) {
      if (taker.id == id) amount = taken_by(taker, what);
    }
    trace.value += fmt::format("{}{} {:.0f}", m == 0 ? "" : ", ",
                               short_month_name(static_cast<unsigned>(m) + 1), amount);
  }
  return trace;
}

const light::Taker* taker_named(const light::Takers& takers, const std::string& step) {
  for (const light::Taker& taker : takers.takers) {
    if (taker.id == step) return &taker;
  }
  const auto index = index_of(step);
  return index && *index < takers.takers.size() ? &takers.takers[*index] : nullptr;
}

std::string takers_hint(const light::Takers& takers, const std::string& step) {
  std::vector<std::string> ids;
  for (const light::Taker& taker : takers.takers) ids.push_back(taker.id);
  if (ids.empty()) return "Nothing takes light from it.";
  const std::string near = nearest_word(step, ids);
  if (!near.empty()) return fmt::format("Did you mean “{}”?", near);
  return "Its takers are " + list_words(ids, "and") + ".";
}

tl::unexpected<Error> no_such_taker(const Asked& asked, const light::Takers& takers,
                                    const std::string& step) {
  return fail(ErrorCode::kWrongUse, step,
              fmt::format("Nothing called “{}” takes light from {}.", step, place_says(asked)),
              takers_hint(takers, step));
}

Trace why_taker(const Asked& asked, const light::Taker& taker, Taken what,
                const light::Takers& takers) {
  const double amount = taken_by(taker, what);
  const std::string name = taker_name(asked, taker.id);
  const bool itself = name == "itself";
  Trace trace = quantity(
      fmt::format("{} that {} {} from {} in a year", what == Taken::kHours ? "sun" : "light",
                  itself ? place_says(asked) : name, name == "its own boards" ? "take" : "takes",
                  itself ? name : place_says(asked)),
      what, amount, a_year());
  trace.method =
      what == Taken::kHours
          ? "The clear-sky hours that the place would win back if it alone were gone: the year’s "
            "shadows with it and without it. Hours that two things take at once are neither’s."
          : "The light that the place would win back if it alone were gone, from the sun and from "
            "961 directions of the sky under the months’ cloud: with it and without it.";
  trace.inputs.push_back(months_trace(asked, taker.id, what));
  add_taker(asked, taker.id, trace.inputs);
  add_place(asked.stand, asked.place.place, asked.catalogue, trace.inputs);
  Trace all = quantity("all that is taken from it", what,
                       what == Taken::kHours ? takers.lost_h : takers.lost_mol_m2, a_year());
  all.method = "By things and the skyline together.";
  trace.inputs.push_back(std::move(all));
  if (what == Taken::kHours)
    trace.inputs.push_back(open_sun_trace(asked, whole_year(), a_year()));
  else
    trace.inputs.push_back(open_light_of_year(asked.climate, asked.sun));
  if (rests_on_guess(trace)) tell_guess(trace);
  return trace;
}

Trace lost_trace(const Asked& asked, const light::Takers& takers) {
  Trace trace = taken_trace(asked, takers, Taken::kHours, a_year());
  trace.name = fmt::format("sun taken from {} in a year", place_says(asked));
  trace.number = takers.lost_h;
  add_place(asked.stand, asked.place.place, asked.catalogue, trace.inputs);
  trace.inputs.push_back(open_sun_trace(asked, whole_year(), a_year()));
  if (asked.guessed(whole_year().months)) tell_guess(trace);
  return trace;
}

Trace twice_trace(const Asked& asked, const light::Takers& takers) {
  Trace trace =
      quantity(fmt::format("sun taken from {} by two things at once in a year", place_says(asked)),
               Taken::kHours, takers.taken_twice_h, a_year());
  trace.method =
      "The hours, of all that are taken, in which no thing’s going would alone bring the sun back.";
  trace.inputs = {lost_trace(asked, takers)};
  std::erase_if(trace.inputs.front().inputs,
                [](const Trace& input) { return input.name == "by two at once"; });
  if (asked.guessed(whole_year().months)) tell_guess(trace);
  return trace;
}

}  // namespace

std::string own_taker_says(const light::Place& place, const std::string& taker) {
  if (taker != place.id) return "";
  return place.kind == light::PlaceKind::kBed ? "its own boards" : "itself";
}

std::string taker_called(const light::Place* place, const std::string& taker) {
  if (taker == light::kSkylineId) return "the skyline";
  if (taker == ground::kGroundId) return "the ground";
  const std::string own = place == nullptr ? "" : own_taker_says(*place, taker);
  return own.empty() ? taker : own;
}

std::string place_says(const Asked& asked) {
  const light::Place& place = asked.place.place;
  return place.kind == light::PlaceKind::kSpot ? "this spot" : place.id;
}

Span whole_year() {
  Span span;
  span.months.resize(12);
  std::iota(span.months.begin(), span.months.end(), 0);
  return span;
}

double days_of(const Span& span, const light::SunYear& sun) {
  double days = 0;
  for (const int m : span.months) days += sun.days_in_month[static_cast<std::size_t>(m)];
  return days;
}

std::string when_says(const Asked& asked, const Span& span) {
  if (asked.day) return "on " + iso_date(*asked.day);
  const auto name = [](int m) { return month_name(static_cast<unsigned>(m) + 1); };
  if (span.months.size() == 12) return "in a year";
  if (span.months.size() == 1) return fmt::format("in {}", name(span.months.front()));
  return fmt::format("from {} to {}", name(span.months.front()), name(span.months.back()));
}

Rate a_day(const Asked& asked, const Span& span) {
  if (asked.day) return {1, "", 0.05};
  return {days_of(span, asked.sun), " a day", 0.05};
}

Rate a_year() { return {1, " a year", 0.5}; }

light::SunYear sun_in(const light::SunYear& sun, const Span& span, Taken what) {
  light::SunYear out = sun;
  const auto elsewhere = [&](const light::SunSample& sample) { return !in_span(span, sample); };
  std::erase_if(out.samples, elsewhere);
  std::erase_if(out.behind, elsewhere);
  for (int m = 0; m < 12; ++m) {
    const auto month = static_cast<std::size_t>(m);
    const bool within = std::find(span.months.begin(), span.months.end(), m) != span.months.end();
    if (what == Taken::kHours || !within) out.open_mol_m2_d[month] = out.sky_mol_m2_d[month] = 0;
  }
  return out;
}

light::Takers takers_in(const Asked& asked, const Span& span, Taken what) {
  return light::takers_of(asked.stand.garden, asked.place.place, asked.scene,
                          sun_in(asked.sun, span, what));
}

Trace taken_trace(const Asked& asked, const light::Takers& takers, Taken what, const Rate& rate) {
  const double lost = what == Taken::kHours ? takers.lost_h : takers.lost_mol_m2;
  Trace trace = quantity("taken by things and the skyline", what, lost / rate.over, rate);
  trace.method =
      "Each thing by what the place would win back if it alone were gone; what two take at once is "
      "neither’s.";
  std::vector<light::Taker> most = takers.takers;
  std::stable_sort(most.begin(), most.end(), [&](const light::Taker& a, const light::Taker& b) {
    return taken_by(a, what) > taken_by(b, what);
  });
  double told = 0, small = 0;
  for (const light::Taker& taker : most) {
    const double amount = taken_by(taker, what) / rate.over;
    told += amount;
    if (amount < rate.least) {
      small += amount;
      continue;
    }
    trace.inputs.push_back(quantity(taker_name(asked, taker.id), what, amount, rate));
    add_taker(asked, taker.id, trace.inputs.back().inputs);
    if (rests_on_guess(trace.inputs.back())) tell_guess(trace.inputs.back());
  }
  if (small >= rate.least)
    trace.inputs.push_back(quantity("others, each less than is told", what, small, rate));
  const double twice =
      what == Taken::kHours ? takers.taken_twice_h / rate.over : lost / rate.over - told;
  if (twice >= rate.least) {
    trace.inputs.push_back(quantity("by two at once", what, twice, rate));
    trace.inputs.back().method = "Neither of them alone would give it back.";
  }
  return trace;
}

Trace sun_trace(const Asked& asked, const Span& span, double hours) {
  const light::PlaceSun& sun = asked.place;
  const Rate rate = a_day(asked, span);
  Trace trace =
      number_trace(fmt::format("{}{} at {} {}", sun_says(span), asked.day ? "" : " a day",
                               place_says(asked), when_says(asked, span)),
                   hours, "h",
                   fmt::format("{:.1f} h{}", hours,
                               asked.day ? " if the day is clear" : " a day on clear days"));
  const bool to_the_second = asked.day && sun.place.kind == light::PlaceKind::kSpot && !span.part;
  trace.method = fmt::format(
      "The hours in which the sun stands clear of every thing, faces the place and is strong: the "
      "open’s less what is taken; {}.",
      !asked.day      ? "shadows cast for one sun in every hour of every day"
      : to_the_second ? "rays to the sun every two minutes, begin and end to the second"
                      : "shadows cast every four minutes");
  trace.sources = {"closed-form", "wmo8"};
  trace.inputs.push_back(open_sun_trace(asked, span, rate));
  add_skyline(asked.stand, trace.inputs);
  add_place(asked.stand, sun.place, asked.catalogue, trace.inputs);
  const light::Takers takers = takers_in(asked, span, Taken::kHours);
  const double away = trace.inputs.front().number - takers.lost_h / rate.over - hours;
  if (away >= rate.least && !to_the_second)
    trace.inputs.push_back(quantity("turned away from it", Taken::kHours, away, rate));
  if (takers.lost_h / rate.over >= rate.least) {
    trace.inputs.push_back(taken_trace(asked, takers, Taken::kHours, rate));
    if (asked.guessed(span.months)) tell_guess(trace.inputs.back());
  }
  if (asked.guessed(span.months)) tell_guess(trace);
  return trace;
}

Result<Trace> why_taken(const Asked& asked, const light::Takers& takers, const Pointer& pointer) {
  const auto& rest = pointer.rest;
  if (rest.size() == 1 && rest[0] == "lost_h") return lost_trace(asked, takers);
  if (rest.size() == 1 && rest[0] == "taken_twice_h") return twice_trace(asked, takers);
  if (rest.size() < 2 || rest[1].empty())
    return bad_pointer(pointer.text,
                       "Go on with /takers/ID/sun_h_per_year. " + takers_hint(takers, ""));
  const light::Taker* taker = taker_named(takers, rest[1]);
  if (taker == nullptr) return no_such_taker(asked, takers, rest[1]);
  if (rest.size() == 3 && rest[2] == "sun_h_per_year")
    return why_taker(asked, *taker, Taken::kHours, takers);
  if (rest.size() == 3 && rest[2] == "light_mol_m2_per_year")
    return why_taker(asked, *taker, Taken::kLight, takers);
  return bad_pointer(pointer.text, "A taker has sun_h_per_year and light_mol_m2_per_year.");
}

}  // namespace spadework::study
