#include "study/answers.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "garden/schema.h"
#include "study/why.h"

namespace spadework::study {
namespace {

/// A month's name, or the first and the last of several.
std::string months_say(std::span<const int> months) {
  const auto name = [](int month) {
    return std::string(month_name(static_cast<unsigned>(month) + 1));
  };
  if (months.size() == 1) return "in " + name(months.front());
  return name(months.front()) + " to " + name(months.back());
}

struct Means {
  double sun = 0, morning = 0, midday = 0, afternoon = 0;
};

Means means_of(const light::YearSun& year, const light::SunYear& sun, std::span<const int> months) {
  const auto of = [&](double light::MonthSun::*figure) {
    return light::mean_of(year, sun.days_in_month, months, figure);
  };
  const Means means{of(&light::MonthSun::sun_h_per_day), of(&light::MonthSun::morning_h),
                    of(&light::MonthSun::midday_h), of(&light::MonthSun::afternoon_h)};
  return means;
}

/// When most of it comes; nothing when it is spread.
std::string when_says(const Means& means) {
  constexpr double kMost = 0.55;
  if (means.morning > kMost * means.sun) return ", mostly in the morning";
  if (means.midday > kMost * means.sun) return ", mostly about midday";
  if (means.afternoon > kMost * means.sun) return ", mostly in the afternoon";
  return "";
}

std::string capital(std::string text) {
  if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  return text;
}

std::string taker_says(const light::Takers& takers, const light::Place& place, double days) {
  if (takers.takers.empty()) return "";
  const auto most = std::max_element(
      takers.takers.begin(), takers.takers.end(),
      [](const auto& a, const auto& b) { return a.sun_h_per_year < b.sun_h_per_year; });
  const double a_day = most->sun_h_per_year / days;
  if (a_day < 0.2) return "";
  const std::string hours = hours_says(a_day);
  if (most->id == light::kSkylineId) return fmt::format(" The skyline takes {} a day.", hours);
  if (const std::string own = own_taker_says(place, most->id); own == "itself")
    return fmt::format(" It stands in its own shade for {} a day.", hours);
  else if (!own.empty())
    return fmt::format(" Its own boards take {} a day.", hours);
  const bool are_many = most->id.ends_with("s") && !most->id.ends_with("ss");
  return fmt::format(" {} {} {} a day.", capital(most->id), are_many ? "take" : "takes", hours);
}

/// "about 5½ hours of sun …. Part sun. Hedge takes …", as it goes on after "has".
std::string sun_of_place(const light::PlaceSun& place, const light::SunYear& sun,
                         const light::Takers* takers, std::span<const int> months) {
  const Means means = means_of(place.months, sun, months);
  const std::string hours = hours_says(means.sun);
  std::string out = hours == "no sun" ? fmt::format("no sun to speak of, {}.", months_say(months))
                                      : fmt::format("about {} of sun on a clear day, {}{}.", hours,
                                                    months_say(months), when_says(means));
  out += " " + capital(std::string(light::light_class_name(light::light_class(means.sun)))) + ".";
  double days = 0;
  for (const int month : months) days += sun.days_in_month[static_cast<std::size_t>(month)];
  if (takers != nullptr) out += taker_says(*takers, place.place, days);
  return out;
}

/// Of a table that there is one of.
struct SiteGuess {
  std::string_view table, key, says;
};
constexpr SiteGuess kSiteGuesses[] = {
    {"garden", "latitude_deg",
     "Give the plot’s own coordinates: the place is a guess, and light rests on it."},
    {"garden", "longitude_deg",
     "Give the plot’s own coordinates: the place is a guess, and light rests on it."},
    {"garden", "plan_north_deg",
     "Find north by a stick’s shadow: where it lies is a guess, and light rests on it."},
    {"garden", "elevation_m",
     "Look up how high the garden lies above the sea: it is a guess, and light rests on it."},
    {"ground", "falls_m",
     "Measure how far the ground falls: it is a guess, and light rests on it."},
    {"ground", "over", "Measure how far the ground falls: it is a guess, and light rests on it."},
    {"ground", "toward_deg", "See which way water runs: it is a guess, and light rests on it."},
    {"ground", "spots", "Measure the ground’s levels: they are guesses, and light rests on them."},
    {"ground", "horizon",
     "Measure the skyline in fists held out: it is a guess, and light rests on it."},
    {"boundary", "outline",
     "Measure the plot’s sides: its edge is a guess, and what stands along it rests on it."},
};

/// Where a thing lies, and which way.
bool is_place_key(const garden::Entry& entry, const std::string& key) {
  const garden::TableSchema* table = garden::find_table(entry.table);
  const garden::KeySchema* known = table == nullptr ? nullptr : garden::find_key(*table, key);
  if (known == nullptr) return false;
  const garden::ValueType type = known->type.type;
  return type == garden::ValueType::kPlace || type == garden::ValueType::kLine ||
         type == garden::ValueType::kOutline;
}

/// What to do about a guess on which light rests; empty: it does not.
std::string guess_step(const garden::Entry& entry, const std::string& key) {
  for (const SiteGuess& one : kSiteGuesses)
    if (one.table == entry.table && one.key == key) return std::string(one.says);
  const garden::TableSchema* table = garden::find_table(entry.table);
  if (table == nullptr || !table->thing) return {};
  if (is_place_key(entry, key))
    return fmt::format("Measure where {} stands: its place is a guess, and light rests on it.",
                       entry.id);
  if (key == "kind" || key == "crop")
    return fmt::format("See what kind {} is: it is a guess, and light rests on it.", entry.id);
  return fmt::format("Measure the {} of {}: it is a guess, and light rests on it.",
                     garden::key_says(key), entry.id);
}

}  // namespace

std::string scheme_says(const std::string& scheme) {
  if (scheme == "found" || scheme == "proposed") return "as " + scheme;
  return "scheme " + scheme;
}

std::string hours_says(double hours) {
  const long minutes = std::lround(hours * 60);
  if (minutes < 5) return "no sun";
  if (minutes < 45) return fmt::format("{} minutes", (minutes + 2) / 5 * 5);
  const long halves = std::lround(hours * 2);
  if (halves == 2) return "1 hour";
  return fmt::format("{}{} hour{}", halves / 2 > 0 ? std::to_string(halves / 2) : "",
                     halves % 2 != 0 ? "½" : "", halves > 1 ? "s" : "");
}

std::string place_answer(const light::PlaceSun& place, const light::SunYear& sun,
                         const light::Takers* takers, std::span<const int> months) {
  return capital(sun_of_place(place, sun, takers, months));
}

std::string next_step(const Stand& stand, const std::vector<garden::Finding>& findings) {
  for (const garden::Finding& finding : findings) {
    if (finding.grade != garden::Grade::kNote && !finding.mend.empty())
      return capital(finding.says) + " " + finding.mend.front();
  }
  for (const garden::Entry& entry : stand.garden.entries) {
    if (!matters_for_light(entry.table)) continue;
    for (const std::string& key : entry.guessed())
      if (std::string says = guess_step(entry, key); !says.empty()) return says;
  }
  if (stand.garden.beds.empty()) return "Choose a thing on the sheet to see its figures.";
  return fmt::format(
      "Choose a bed on the sheet, such as {}: its sun, hour by hour, and what takes "
      "it.",
      stand.garden.beds.front().id);
}

std::string garden_answer(const PlacesYear& year, std::span<const int> months) {
  std::vector<const light::PlaceSun*> beds;
  for (const light::PlaceSun& place : year.places)
    if (place.place.kind == light::PlaceKind::kBed) beds.push_back(&place);
  if (beds.empty()) return "No beds yet: with one, its light is told here.";
  const auto hours = [&](const light::PlaceSun* bed) {
    return means_of(bed->months, year.sun, months).sun;
  };
  const auto [least, most] = std::minmax_element(
      beds.begin(), beds.end(), [&](auto* a, auto* b) { return hours(a) < hours(b); });
  if (beds.size() == 1)
    return fmt::format("{} has {}", capital(beds[0]->place.id),
                       sun_of_place(*beds[0], year.sun, nullptr, months));
  std::vector<std::string> counts;
  for (const light::LightClass of : {light::LightClass::kFullSun, light::LightClass::kPartSun,
                                     light::LightClass::kPartShade, light::LightClass::kShade}) {
    const auto n = std::count_if(beds.begin(), beds.end(), [&](const light::PlaceSun* bed) {
      return light::light_class(hours(bed)) == of;
    });
    if (n > 0)
      counts.push_back(fmt::format("{} {} {}", n, n == 1 ? "has" : "have", light_class_name(of)));
  }
  const std::string says = fmt::format("Of {} beds, {}, {}.", beds.size(),
                                       list_words(counts, "and"), months_say(months));
  const std::string longest = hours_says(hours(*most)), shortest = hours_says(hours(*least));
  if (longest == shortest) return fmt::format("{} All get about {} a day.", says, longest);
  return fmt::format("{} The sunniest is {} with about {} a day, the darkest {} with about {}.",
                     says, (*most)->place.id, longest, (*least)->place.id, shortest);
}

}  // namespace spadework::study
