#include "cli/light_tables.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "cli/table.h"
#include "cli/weather_says.h"
#include "study/answers.h"
#include "study/why.h"

namespace spadework::cli {
namespace {

constexpr int kMonthWidth = 5;
constexpr int kMeanWidth = 9;

std::string hours(double h) {
  if (h < 0.005) return "·";
  return fmt::format("{:.1f}", h);
}

std::string change(double h) {
  if (std::abs(h) < 0.05) return "·";
  return fmt::format("{}{:.1f}", h > 0 ? "+" : "−", std::abs(h));
}

std::string growing_name(const study::Stand& stand) {
  return stand.garden.site.latitude < degrees(0) ? "Oct–Mar" : "Apr–Sep";
}

int name_width(const PlacesView& view) {
  int width = 16;
  for (const light::PlaceSun* sun : view.places)
    width = std::max(width, shown_width(sun->place.id) + 3 +
                                shown_width(light::place_kind_name(sun->place.kind)));
  return width + 1;
}

std::string head(const study::Stand& stand, int width, const std::string& title) {
  std::string months = left(title, width);
  for (const int m : month_order(stand.garden.site))
    months += right(short_month_name(static_cast<unsigned>(m) + 1), kMonthWidth);
  return months + right(growing_name(stand), kMeanWidth) + "\n";
}

/// One line of a place's months.
struct Line {
  const char* title;
  double light::MonthSun::*figure;
  std::string (*say)(double);
};

double growing_mean(const study::Stand& stand, const std::array<int, 12>& days,
                    const light::YearSun& year, double light::MonthSun::*figure) {
  return light::mean_of(year, days, light::growing_months(stand.garden.site.latitude), figure);
}

std::string year_line(const study::Stand& stand, const std::array<int, 12>& days,
                      const light::YearSun& year, const Line& line) {
  std::string out;
  for (const int m : month_order(stand.garden.site))
    out += right(line.say(year[static_cast<std::size_t>(m)].*line.figure), kMonthWidth);
  return out + right(line.say(growing_mean(stand, days, year, line.figure)), kMeanWidth);
}

std::string amount(double mol_m2_d) {
  if (mol_m2_d < 0.05) return "·";
  return mol_m2_d < 9.95 ? fmt::format("{:.1f}", mol_m2_d) : fmt::format("{:.0f}", mol_m2_d);
}

std::string share(double of_one) {
  if (std::isnan(of_one)) return "·";
  return fmt::format("{:.0f}%", of_one * 100);
}

constexpr Line kHours{"sun", &light::MonthSun::sun_h_per_day, hours};
constexpr Line kLines[] = {
    {"  morning", &light::MonthSun::morning_h, hours},
    {"  midday", &light::MonthSun::midday_h, hours},
    {"  afternoon", &light::MonthSun::afternoon_h, hours},
    {"  with cloud", &light::MonthSun::sunshine_h_per_day, hours},
    {"  light, mol/m²", &light::MonthSun::dli_mol_m2_d, amount},
    {"  of the open", &light::MonthSun::share_of_open, share},
};

std::string whole(double v) { return fmt::format("{:.0f}", v); }

/// "Full sun. 812 hours taken in a year. One alone gone gives back: medlar 310, the ground 120; 80
/// are taken by two at once." Of things that are seen through, these may come to more than is
/// taken.
std::string takers_says(const study::Stand& stand, const std::array<int, 12>& days,
                        const light::Place& place, const light::YearSun& months,
                        const light::Takers& takers) {
  constexpr std::size_t kMost = 4;
  const double mean = growing_mean(stand, days, months, &light::MonthSun::sun_h_per_day);
  std::string out(light::light_class_name(light::light_class(mean)));
  out[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(out[0])));
  if (takers.lost_h < 0.5) return out + ". Nothing takes its sun.";
  std::vector<light::Taker> most = takers.takers;
  std::stable_sort(most.begin(), most.end(), [](const light::Taker& a, const light::Taker& b) {
    return a.sun_h_per_year > b.sun_h_per_year;
  });
  std::vector<std::string> says;
  for (const light::Taker& taker : most) {
    if (taker.sun_h_per_year < 0.5 || says.size() == kMost) break;
    says.push_back(
        fmt::format("{} {}", study::taker_called(&place, taker.id), whole(taker.sun_h_per_year)));
  }
  out += fmt::format(". {} hours taken in a year", whole(takers.lost_h));
  if (!says.empty()) out += fmt::format(". One alone gone gives back: {}", fmt::join(says, ", "));
  if (takers.taken_twice_h >= 0.5)
    out += fmt::format("; {} are taken by two at once", whole(takers.taken_twice_h));
  return out + ".";
}

std::string place_title(const light::Place& place) {
  return fmt::format("{}  {}", place.id, light::place_kind_name(place.kind));
}

/// The sun's noon by the clock in midsummer, for the sentence on midday.
std::string noon_says(const study::Stand& stand) {
  const bool southern = stand.garden.site.latitude < degrees(0);
  const LocalDate date = make_date(kReferenceYear, southern ? 12 : 6, 21);
  const sky::Site site{stand.garden.site.latitude, stand.garden.site.longitude,
                       stand.garden.site.elevation};
  const auto events = sky::sun_events(date, stand.garden.site.time_zone, site);
  if (!events.transit) return "";
  return fmt::format(
      " ({} by the clock in {})",
      clock_text(stand.garden.site.time_zone.clock_hour(date, *events.transit), false),
      southern ? "December" : "June");
}

/// The guessed figures that the light rests on, by thing: "medlar (height, crown width)".
std::vector<std::string> guessed_list(const study::Stand& stand) {
  std::vector<std::string> out;
  for (const garden::Entry& entry : stand.garden.entries) {
    if (!study::matters_for_light(entry.table)) continue;
    std::vector<std::string> keys;
    for (const std::string& key : entry.guessed()) keys.push_back(garden::key_says(key));
    if (keys.empty()) continue;
    out.push_back(
        fmt::format("{} ({})", entry.id.empty() ? entry.table : entry.id, fmt::join(keys, ", ")));
  }
  return out;
}

/// What the figures of faces mean, where some are shown.
std::string faces_say(const std::vector<const light::PlaceSun*>& places) {
  const auto is_face = [](const light::PlaceSun* sun) {
    return sun->place.kind == light::PlaceKind::kFace;
  };
  if (std::none_of(places.begin(), places.end(), is_face)) return "";
  return wrapped(
             "A face is the side of a support, a wall or a building, before what grows on it; what "
             "is trained against one has the face’s light where it hangs. A face has the sun that "
             "stands before it and half of the sky; of the open, too, compares it "
             "with a level plot, so that low sun can bring it over 100 %. What the ground and "
             "walls throw back is not counted.",
             page_width(), 0) +
         "\n";
}

std::string notes(const study::Stand& stand, Units units, const climate::PlaceClimate* climate,
                  const std::vector<const light::PlaceSun*>& places) {
  const int width = page_width();
  std::string out = "\n";
  out += wrapped(
             "Clear-sky hours a day: the sun stands clear of every thing and is strong enough to "
             "cast a sharp shadow (over 120 W/m²). Midday is the four hours around the sun’s "
             "noon" +
                 noon_says(stand) + ".",
             width, 0) +
         "\n";
  if (climate != nullptr) {
    out += wrapped(climate_says(*climate, month_order(stand.garden.site), units), width, 0) + "\n";
    for (const std::string& note : notes_of(*climate, units)) out += wrapped(note, width, 0) + "\n";
  }
  out += faces_say(places);
  const auto guessed = guessed_list(stand);
  if (!guessed.empty())
    out += wrapped("Still guessed: " + list_words(guessed, "and") +
                       ". Measure them and these figures firm up.",
                   width, 0) +
           "\n";
  return out;
}

std::string against_title(const PlacesView& now, const PlacesView& then) {
  return bold(fmt::format("{}, {} against {}", now.stand.garden.site.title,
                          study::scheme_says(now.stand.garden.scheme),
                          study::scheme_says(then.stand.garden.scheme)));
}

/// The places that only one of two schemes has.
std::string only_in_one(const PlacesView& now, const PlacesView& then) {
  const auto only = [](const PlacesView& in, const PlacesView& not_in) {
    std::vector<std::string> ids;
    for (const light::PlaceSun* sun : in.places) {
      if (not_in.year.find(sun->place.id) == nullptr) ids.push_back(sun->place.id);
    }
    if (ids.empty()) return std::string();
    return wrapped(fmt::format("Only {}: {}.", study::scheme_says(in.stand.garden.scheme),
                               list_words(ids, "and")),
                   page_width(), 0) +
           "\n";
  };
  return only(now, then) + only(then, now);
}

}  // namespace

std::string year_table(const PlacesView& view) {
  const int width = name_width(view);
  std::string out = bold(fmt::format("{}, {}", view.stand.garden.site.title,
                                     study::scheme_says(view.stand.garden.scheme))) +
                    "\n\n";
  out += dim(head(view.stand, width, "sun, hours a day"));
  for (const light::PlaceSun* sun : view.places) {
    const auto& days = view.year.sun.days_in_month;
    out += bold(left(place_title(sun->place), width) +
                year_line(view.stand, days, sun->months, kHours)) +
           "\n";
    for (const Line& line : kLines)
      out += left(line.title, width) + year_line(view.stand, days, sun->months, line) + "\n";
    if (const light::Takers* takers = view.takers ? view.takers->find(sun->place.id) : nullptr)
      out += "  " +
             wrapped(takers_says(view.stand, days, sun->place, sun->months, *takers),
                     page_width() - 2, 2) +
             "\n";
  }
  if (view.places.empty()) out += "This garden has no beds, seats or plants yet.\n";
  return out + notes(view.stand, view.units, view.year.climate.get(), view.places);
}

std::string difference_table(const PlacesView& now, const PlacesView& then) {
  const int width = std::max(name_width(now), name_width(then));
  std::string lines;
  for (const light::PlaceSun* sun : now.places) {
    const light::PlaceSun* before = then.year.find(sun->place.id);
    if (before == nullptr) continue;
    light::YearSun gain;
    for (std::size_t m = 0; m < 12; ++m)
      gain[m].sun_h_per_day = sun->months[m].sun_h_per_day - before->months[m].sun_h_per_day;
    lines += left(place_title(sun->place), width) +
             year_line(now.stand, now.year.sun.days_in_month, gain,
                       {"", &light::MonthSun::sun_h_per_day, change}) +
             "\n";
  }
  std::string out = against_title(now, then) + "\n\n";
  if (!lines.empty()) out += dim(head(now.stand, width, "gain or loss, hours a day")) + lines;
  return out + only_in_one(now, then);
}

std::string day_difference_table(const PlacesView& now, const PlacesView& then, LocalDate date) {
  const int width = std::max(name_width(now), name_width(then));
  const auto month = static_cast<std::size_t>(static_cast<unsigned>(date.month()) - 1);
  std::string lines;
  for (const light::PlaceSun* sun : now.places) {
    const light::PlaceSun* before = then.year.find(sun->place.id);
    if (before == nullptr) continue;
    const double h = sun->months[month].sun_h_per_day, was = before->months[month].sun_h_per_day;
    lines += left(place_title(sun->place), width) + right(hours(was), 9) + right(hours(h), 9) +
             right(change(h - was), 9) + "\n";
  }
  std::string out = against_title(now, then) + ", " + iso_date(date) + "\n\n";
  if (!lines.empty())
    out +=
        dim(left("sun, hours", width) + right("then", 9) + right("now", 9) + right("change", 9)) +
        "\n" + lines;
  return out + only_in_one(now, then);
}

std::string day_table(const PlacesView& view, LocalDate date) {
  const int width = name_width(view);
  const auto month = static_cast<std::size_t>(static_cast<unsigned>(date.month()) - 1);
  std::string out =
      bold(fmt::format("{}, {}, {}", view.stand.garden.site.title,
                       study::scheme_says(view.stand.garden.scheme), iso_date(date))) +
      "\n\n";
  out += dim(left("sun, hours", width) + right("all day", 9) + right("morning", 9) +
             right("midday", 9) + right("afternoon", 11) + right("light", 9)) +
         "\n";
  for (const light::PlaceSun* sun : view.places) {
    const light::MonthSun& day = sun->months[month];
    out += left(place_title(sun->place), width) + right(hours(day.sun_h_per_day), 9) +
           right(hours(day.morning_h), 9) + right(hours(day.midday_h), 9) +
           right(hours(day.afternoon_h), 11) + right(amount(day.dli_mol_m2_d), 9) + "\n";
  }
  return out + notes(view.stand, view.units, view.year.climate.get(), view.places);
}

std::string spot_year_table(const study::Stand& stand, const study::SpotYear& spot,
                            const std::string& at) {
  std::string out = bold(fmt::format("{}, {}, at {}", stand.garden.site.title,
                                     study::scheme_says(stand.garden.scheme), at)) +
                    "\n\n";
  const int width = 18;
  out += dim(head(stand, width, "sun, hours a day"));
  const auto& days = spot.sun.days_in_month;
  out += left("all day", width) + year_line(stand, days, spot.months, kHours) + "\n";
  for (const Line& line : kLines)
    out += left(line.title, width) + year_line(stand, days, spot.months, line) + "\n";
  out += "\n" +
         wrapped(takers_says(stand, days, spot.place, spot.months, spot.takers), page_width(), 0) +
         "\n";
  return out + notes(stand, Units::kMetric, nullptr, {});
}

std::string spot_day_text(const study::Stand& stand, const study::SpotDay& day,
                          const std::string& at, LocalDate date) {
  std::string out = bold(fmt::format("{}, {}, at {}, {}", stand.garden.site.title,
                                     study::scheme_says(stand.garden.scheme), at, iso_date(date))) +
                    "\n\n";
  const auto clock = [&](const std::optional<UtcTime>& t) {
    return t ? clock_text(stand.garden.site.time_zone.clock_hour(date, *t), false)
             : std::string("never");
  };
  switch (day.events.kind) {
    case sky::DayKind::kUpAllDay:
      out += "The sun is up all day and all night.\n";
      break;
    case sky::DayKind::kDownAllDay:
      out += "The sun does not rise.\n";
      break;
    default:
      out += fmt::format("The sun rises at {} and sets at {}.\n", clock(day.events.rise),
                         clock(day.events.set));
  }
  const std::string mol = amount(day.dli_mol_m2_d);
  const std::string light = fmt::format("Light for growth on a mean day of that month: {}.\n",
                                        mol == "·" ? "none" : mol + " mol/m²");
  if (day.intervals.empty()) return out + "No sun reaches this spot on that day.\n" + light;
  out += fmt::format("{:.1f} hours of sun on a clear day:\n", day.sun_h);
  for (const light::SunInterval& interval : day.intervals)
    out += fmt::format("  {} to {}\n", clock_text(interval.start_h, true),
                       clock_text(interval.end_h, true));
  return out + light;
}

}  // namespace spadework::cli
