// Which places' figures rest on guesses.
#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "study/study.h"
#include "study/study_parts.h"

namespace spadework::study {
namespace {

using Things = std::set<std::string>;

/// North, the fall of the ground, the skyline. A place on earth that is a town's is off by less
/// than a degree, which is minutes of sun a day, and does not count.
bool all_is_guessed(const garden::Entry& entry) {
  static const std::set<std::string> of_garden{"plan_north_deg"},
      of_ground{"falls_m", "toward_deg", "over", "spots", "horizon"};
  if (entry.table != "garden" && entry.table != "ground") return false;
  const std::set<std::string>& counts = entry.table == "garden" ? of_garden : of_ground;
  const std::vector<std::string> guessed = entry.guessed();
  return std::any_of(guessed.begin(), guessed.end(),
                     [&](const std::string& key) { return counts.count(key) > 0; });
}

Things guessed_things(const garden::Garden& garden) {
  Things things;
  for (const garden::Entry& entry : garden.entries) {
    if (!entry.id.empty() && matters_for_light(entry.table) && !entry.guessed().empty())
      things.insert(entry.id);
  }
  return things;
}

/// A place is named by its thing, or by that and its side: "trellis.south".
std::string thing_of(const std::string& place) { return place.substr(0, place.find('.')); }

constexpr double kFeltHours = 0.25, kAllHours = 24;

std::array<double, 12> difference(const light::PlaceSun& one, const light::PlaceSun& other) {
  std::array<double, 12> hours{};
  for (std::size_t m = 0; m < hours.size(); ++m)
    hours[m] = std::abs(one.months[m].sun_h_per_day - other.months[m].sun_h_per_day);
  return hours;
}

std::array<double, 12> all_of_it() {
  std::array<double, 12> hours{};
  hours.fill(kAllHours);
  return hours;
}

}  // namespace

bool OnGuesses::rests(const std::string& place, const std::vector<int>& months) const {
  const auto found = hours.find(place);
  if (found == hours.end()) return false;
  double sum = 0, days = 0;
  for (const int m : months) {
    const int of_month = days_in_month(kReferenceYear, static_cast<unsigned>(m) + 1);
    sum += found->second[static_cast<std::size_t>(m)] * of_month;
    days += of_month;
  }
  return days > 0 && sum / days >= kFeltHours;
}

Result<Shared<OnGuesses>> Study::on_guesses(const std::string& scheme) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  const std::string key = std::string("guesses ") + kLightVersion + " " + s.key;
  return once<OnGuesses>(key, [&]() -> Result<OnGuesses> {
    const auto year = places_year(scheme);
    if (!year) return tl::unexpected<Error>(year.error());
    const bool all = std::any_of(s.garden.entries.begin(), s.garden.entries.end(), all_is_guessed);
    const Things guessed = guessed_things(s.garden);
    OnGuesses on;
    std::vector<light::Place> asked;  // those that the guessed things may take from
    for (const light::PlaceSun& place : (*year)->places) {
      if (all || guessed.count(thing_of(place.place.id)) > 0)
        on.hours[place.place.id] = all_of_it();
      else if (!guessed.empty())
        asked.push_back(place.place);
    }
    if (asked.empty()) return on;
    std::vector<garden::Body> sure;
    for (const garden::Body& body : s.bodies) {
      if (guessed.count(body.thing) == 0) sure.push_back(body);
    }
    const auto without =
        light::sun_of_places(s.garden, std::move(asked), sure, (*year)->sun, threads_, nullptr);
    if (!without) return tl::unexpected<Error>(without.error());
    for (const light::PlaceSun& place : *without)
      on.hours[place.place.id] = difference(place, *(*year)->find(place.place.id));
    return on;
  });
}

}  // namespace spadework::study
