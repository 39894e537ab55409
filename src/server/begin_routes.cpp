// How a garden begins: where it lies, and the bare document of it.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/coordinates.h"
#include "base/text.h"
#include "climate/climate.h"
#include "document/document.h"
#include "server/routes.h"

namespace spadework::server {
namespace {

constexpr std::size_t kMostTowns = 12;

Json town_json(const climate::Station& station, const std::optional<Coordinates>& from) {
  Json town = {{"name", station.name},
               {"country", station.country},
               {"latitude_deg", in_degrees(station.latitude)},
               {"longitude_deg", in_degrees(station.longitude)},
               {"elevation_m", in_metres(station.elevation)}};
  if (from) {
    town["far_km"] = in_metres(climate::distance_between(station.latitude, station.longitude,
                                                         from->latitude, from->longitude)) /
                     1000;
  }
  return town;
}

/// The first stations by a key, small first.
template <class Key>
Json first_towns(const climate::Stations& stations, const std::optional<Coordinates>& from,
                 Key key) {
  std::vector<std::pair<double, const climate::Station*>> order;
  for (const climate::Station& station : stations.all()) {
    if (const std::optional<double> rank = key(station)) order.emplace_back(*rank, &station);
  }
  std::stable_sort(order.begin(), order.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  if (order.size() > kMostTowns) order.resize(kMostTowns);
  Json towns = Json::array();
  for (const auto& [rank, station] : order) towns.push_back(town_json(*station, from));
  return towns;
}

/// Names that begin with the text before those that have it in them; nothing for others.
std::optional<double> likeness(const std::string& name, const std::string& text) {
  const std::size_t at = name.find(text);
  if (at == std::string::npos) return std::nullopt;
  if (at == 0) return name.size() == text.size() ? 0 : 1;
  return name[at - 1] == ' ' || name[at - 1] == '/' || name[at - 1] == '-' ? 2 : 3;
}

std::string lower(std::string_view text) {
  std::string out(text);
  std::transform(out.begin(), out.end(), out.begin(), [](unsigned char c) {
    return static_cast<char>(c >= 'A' && c <= 'Z' ? c + 32 : c);
  });
  return out;
}

std::optional<double> number_in(const Json& json, const char* key) {
  if (!json.contains(key) || !json[key].is_number()) return std::nullopt;
  return json[key].get<double>();
}

}  // namespace

Answer towns_answer(const Workshop& workshop, const Request& request) {
  const std::string typed = word_of(request, "typed", "");
  const climate::Stations& stations = workshop.known.stations;
  Json answer = {{"place", nullptr}, {"towns", Json::array()}};
  if (const auto place = coordinates_in(typed)) {
    answer["place"] = {{"latitude_deg", in_degrees(place->latitude)},
                       {"longitude_deg", in_degrees(place->longitude)}};
    answer["towns"] = first_towns(stations, place, [&](const climate::Station& station) {
      return std::optional(in_metres(climate::distance_between(station.latitude, station.longitude,
                                                               place->latitude, place->longitude)));
    });
  } else if (typed.size() >= 2 && typed.size() <= 60) {
    const std::string text = lower(typed);
    answer["towns"] = first_towns(stations, std::nullopt, [&](const climate::Station& station) {
      return likeness(lower(station.name), text);
    });
  }
  return json_answer(answer);
}

Result<std::string> begun_document(const Json& begin) {
  const auto latitude = number_in(begin, "latitude_deg");
  const auto longitude = number_in(begin, "longitude_deg");
  if (!latitude || !longitude || !begin.contains("time_zone") || !begin["time_zone"].is_string())
    return fail(ErrorCode::kWrongUse, "/begin", "Where does the garden lie?", "");
  document::FreshGarden garden{begin.value("title", std::string("My garden")), degrees(*latitude),
                               degrees(*longitude), begin["time_zone"]};
  if (const auto elevation = number_in(begin, "elevation_m")) garden.elevation = metres(*elevation);
  const Json guessed = begin.value("guessed", Json::array());
  for (const char* key : {"latitude_deg", "longitude_deg", "elevation_m"}) {
    if (std::find(guessed.begin(), guessed.end(), Json(key)) != guessed.end())
      garden.guessed.emplace_back(key);
  }
  garden.imperial = begin.value("units", std::string("metric")) == "imperial";
  return document::bare_document(garden);
}

}  // namespace spadework::server
