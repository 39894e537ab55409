#include "study/why_climate.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "climate/confidence.h"
#include "study/why_amounts.h"
#include "study/why_things.h"

namespace spadework::study {
namespace {

using climate::Element;
using climate::Origin;
using climate::Quantity;

constexpr std::string_view kLight = "dli_mol_m2_d";

struct Key {
  std::string_view key;
  Quantity quantity;  // of the light, what it is made of
  Element element;    // what stations report for it
  const char* says;
  const char* unit;
};
constexpr std::array<Key, 7> kKeys = {
    {{"tmax_c", Quantity::kTmax, Element::kTmax, "the highest temperature", "°C"},
     {"tmin_c", Quantity::kTmin, Element::kTmin, "the lowest temperature", "°C"},
     {"rain_mm", Quantity::kRain, Element::kRain, "rain", "mm"},
     {"wet_days", Quantity::kWetDays, Element::kWetDays, "days with rain", "days"},
     {"sunshine_h_per_day", Quantity::kSunshine, Element::kSunshine, "sunshine", "h"},
     {"global_mj_m2_d", Quantity::kGlobal, Element::kSunshine, "radiation", "MJ/m²"},
     {kLight, Quantity::kGlobal, Element::kSunshine, "light in the open", "mol/m²"}}};

const Key* key_named(const std::string& key) {
  const auto found =
      std::find_if(kKeys.begin(), kKeys.end(), [&](const Key& k) { return k.key == key; });
  return found == kKeys.end() ? nullptr : found;
}

std::optional<double> plus_minus_of(const climate::Month& month, Quantity quantity,
                                    std::optional<double> value) {
  switch (quantity) {
    case Quantity::kTmax:
    case Quantity::kTmin:
      if (month.origin_of(quantity) == Origin::kOwnMonth) return 0;
      return month.plus_minus.temperature_k;
    case Quantity::kSunshine:
      return month.plus_minus.sunshine_h;
    case Quantity::kGlobal:
      if (value && month.plus_minus.global_share) return *month.plus_minus.global_share * *value;
      return std::nullopt;
    default:
      return std::nullopt;
  }
}

Trace figure_trace(const ClimateYear& year, std::size_t month, const Key& key) {
  if (key.key == kLight) return open_light_trace(year.climate, year.sun, month, std::nullopt);
  Trace trace = climate::trace_of(year.climate, static_cast<unsigned>(month) + 1, key.quantity);
  trace.unit = key.unit;  // a figure that is not known has one too
  return trace;
}

/// How far the stations behind a figure are, as their errors count it.
void add_far(const climate::Blend* blend, std::vector<Trace>& out) {
  if (blend == nullptr) return;
  out.push_back(number_trace("how far the nearest station counts", blend->far_km, "km",
                             fmt::format("{:.0f} km", blend->far_km)));
  out.back().method = "Its distance, with a hundred times its height over the garden, in square.";
  out.back().sources = {"hutchinson1995"};
  out.push_back(number_trace("height of the stations over the garden", blend->height_m, "m",
                             fmt::format("{:.0f} m", std::round(blend->height_m) + 0.0)));
  out.back().method = "Weighted as their figures are.";
}

std::string plus_minus_method(const climate::Month& month, const Key& key) {
  const std::string two_in_three = "Two times in three the truth lies within it. ";
  switch (month.origin_of(key.quantity)) {
    case Origin::kOwnMonth:
      if (key.quantity == Quantity::kSunshine && !month.sunshine_given)
        return two_in_three +
               "Made of the radiation that you gave, by Ångström’s equation turned round: the "
               "error "
               "of the equation itself, 0.03 of what arrives above the air.";
      if (key.quantity == Quantity::kGlobal && !month.global_given)
        return two_in_three +
               "You gave the sunshine, which counts as sure. The error of Ångström’s equation: "
               "0.03 "
               "of what arrives above the air.";
      return "You gave the figure for this place.";
    case Origin::kWeatherFile:
      return two_in_three +
             "As for a station as far off as the file was measured; none if it was in the garden.";
    default:
      return two_in_three +
             "Found by leaving stations out: each was predicted from the others, with those nearer "
             "by left out as well, and set against what it reports itself.";
  }
}

Trace plus_minus_trace(const ClimateYear& year, std::size_t month, const Key& key, double error) {
  const climate::Month& m = year.climate.months[month];
  Trace trace = number_trace(fmt::format("{} in {}, plus or minus", key.says,
                                         month_name(static_cast<unsigned>(month) + 1)),
                             error, key.unit, fmt::format("{:.1f} {}", error, key.unit));
  trace.method = plus_minus_method(m, key);
  const Origin origin = m.origin_of(key.quantity);
  if (origin != Origin::kOwnMonth) trace.sources = {"stations"};
  const bool from_stations = origin == Origin::kStations || origin == Origin::kSwing;
  const bool made = (key.quantity == Quantity::kGlobal && !m.global_given) ||
                    (key.quantity == Quantity::kSunshine && !m.sunshine_given && !from_stations);
  if (made && origin == Origin::kOwnMonth) {
    trace.sources.emplace_back("frere-popov1979");
  } else if (key.quantity == Quantity::kGlobal && !m.global_given) {
    trace.method +=
        " The error of the sunshine is carried on through Ångström’s equation, and that of the "
        "equation itself added in square: 0.03 of what arrives above the air.";
    trace.sources.emplace_back("frere-popov1979");
  }
  if (from_stations) add_far(year.climate.blend_of(key.element), trace.inputs);
  trace.inputs.push_back(figure_trace(year, month, key));
  return trace;
}

/// Where no station is near enough to say how sure a figure is.
Trace nothing_near_trace(const ClimateYear& year, const Key& key, std::string name,
                         const char* unit) {
  Trace trace;
  trace.name = std::move(name);
  trace.value = "not known: no station is near enough to say";
  trace.unit = unit;
  trace.method = fmt::format(
      "How far figures from stations are out was tried for stations that count as up to {:.0f} km "
      "away; these count as farther.",
      climate::kFarthestTried_km);
  trace.sources = {"stations"};
  add_far(year.climate.blend_of(key.element), trace.inputs);
  return trace;
}

Result<Trace> why_month(const ClimateYear& year, const Pointer& pointer) {
  const auto& rest = pointer.rest;
  const auto month = month_of(rest[1]);
  if (!month) return bad_pointer(pointer.text, "Months run from 0 (January) to 11, or by name.");
  const bool error = rest.size() == 4 && rest[2] == "plus_minus";
  const Key* key = rest.size() == 3 || error ? key_named(rest.back()) : nullptr;
  if (key == nullptr)
    return bad_pointer(pointer.text, "A month has " + list_words(climate_keys(), "and") + ".");
  if (!error) return figure_trace(year, *month, *key);
  const auto plus_minus = climate_figure(year, *month, rest.back()).plus_minus;
  const bool rain = key->quantity == Quantity::kRain || key->quantity == Quantity::kWetDays;
  if (!plus_minus && !rain)
    return nothing_near_trace(year, *key,
                              fmt::format("{} in {}, plus or minus", key->says,
                                          month_name(static_cast<unsigned>(*month) + 1)),
                              key->unit);
  if (!plus_minus)
    return bad_pointer(pointer.text, "How sure rain and days with rain are is not estimated.");
  return plus_minus_trace(year, *month, *key, *plus_minus);
}

Result<Trace> why_year(const ClimateYear& year, const Pointer& pointer) {
  const climate::PlaceClimate& climate = year.climate;
  const auto& rest = pointer.rest;
  const bool error = rest.size() == 3 && rest[1] == "plus_minus";
  if (rest.back() != "global_mj_m2" || (rest.size() != 2 && !error))
    return bad_pointer(pointer.text, "The year has global_mj_m2 and plus_minus/global_mj_m2.");
  const double sum = climate.year_global_mj_m2;
  if (error && !climate.year_global_share)
    return nothing_near_trace(year, *key_named("global_mj_m2_d"),
                              "radiation in a year, plus or minus", "MJ/m²");
  const double either_way = sum * climate.year_global_share.value_or(0);
  Trace trace =
      number_trace("radiation in a year", sum, "MJ/m²",
                   climate.year_global_share ? fmt::format("{:.0f} ± {:.0f} MJ/m²", sum, either_way)
                                             : fmt::format("{:.0f} MJ/m²", sum));
  trace.method = "The months’ means times their days; as if all months erred alike.";
  for (unsigned m = 1; m <= 12; ++m) {
    trace.inputs.push_back(climate::trace_of(climate, m, Quantity::kGlobal));
    if (m != 6) trace.inputs.back() = without_inputs(std::move(trace.inputs.back()));
  }
  if (error) {
    trace.name += ", plus or minus";
    trace.number = either_way;
    trace.value = fmt::format("{:.0f} MJ/m²", either_way);
  }
  return trace;
}

const StationPart* part_named(const std::vector<StationPart>& parts, const std::string& step) {
  for (const StationPart& part : parts) {
    if (part.station.id == step) return &part;
  }
  const auto index = index_of(step);
  return index && *index < parts.size() ? &parts[*index] : nullptr;
}

/// Where the garden lies.
void add_garden_place(const ClimateYear& year, std::vector<Trace>& out) {
  add_site(year.stand, out);
  std::erase_if(out, [](const Trace& t) { return t.name == "garden.plan_north_deg"; });
}

/// Where a station stands, as the table has it.
void add_station_place(const ClimateYear& year, const climate::StationUse& use,
                       std::vector<Trace>& out) {
  const auto found = year.stations.find(use.id);
  if (!found) return;
  const climate::Station& station = year.stations.all()[*found];
  const auto add = [&](const char* what, double value, const char* unit, int digits) {
    out.push_back(number_trace(use.name + ": " + what, value, unit,
                               fmt::format("{:.{}f} {}", value, digits, unit)));
    out.back().sources = {use.source};
    out.back().standing = Standing::kPublished;
  };
  add("latitude", in_degrees(station.latitude), "°", 3);
  add("longitude", in_degrees(station.longitude), "°", 3);
  add("height above the sea", in_metres(station.elevation), "m", 0);
}

Trace station_trace(const ClimateYear& year, const climate::StationUse& use, bool height) {
  Trace trace;
  if (height) {
    const double m = in_metres(use.height_above);
    trace = number_trace("height of " + use.name + " over the garden", m, "m",
                         fmt::format("{:.0f} m", m));
    trace.method = "Its height above the sea less the garden’s.";
    if (!year.climate.elevation_given)
      trace.method += " The garden’s is not given: that of the stations around is taken.";
  } else {
    const double km = in_metres(use.distance) / 1000;
    trace = number_trace("how far " + use.name + " is", km, "km", fmt::format("{:.0f} km", km));
    trace.method = "Along the great circle.";
    trace.sources = {"closed-form"};
  }
  add_station_place(year, use, trace.inputs);
  add_garden_place(year, trace.inputs);
  return trace;
}

Trace weight_trace(const ClimateYear& year, const StationPart& part, const Key& key,
                   double weight) {
  Trace trace = number_trace(fmt::format("how much {} weighs in {}", part.station.name, key.says),
                             weight, "", fmt::format("{:.0f} %", 100 * weight));
  trace.method =
      "One over the square of how far it counts, of the sum over the stations: its distance with a "
      "hundred times its height over the garden, in square, and 25 km.";
  trace.sources = {"shepard1968", "hutchinson1995"};
  trace.inputs = {station_trace(year, part.station, false),
                  station_trace(year, part.station, true)};
  return trace;
}

Result<Trace> why_station(const ClimateYear& year, const Pointer& pointer) {
  const auto& rest = pointer.rest;
  const auto parts = station_parts(year.climate);
  const StationPart* part = part_named(parts, rest[1]);
  if (part == nullptr) {
    std::vector<std::string> ids;
    for (const StationPart& p : parts) ids.push_back(p.station.id);
    return bad_pointer(pointer.text, ids.empty()
                                         ? "No station has a part in these months."
                                         : "The stations are " + list_words(ids, "and") + ".");
  }
  if (rest.size() == 3 && rest[2] == "distance_km")
    return station_trace(year, part->station, false);
  if (rest.size() == 3 && rest[2] == "height_above_m")
    return station_trace(year, part->station, true);
  if (rest.size() == 4 && rest[2] == "weights") {
    const auto weight = part->weights.find(rest[3]);
    const Key* key = key_named(rest[3]);
    if (weight != part->weights.end() && key != nullptr)
      return weight_trace(year, *part, *key, weight->second);
  }
  return bad_pointer(pointer.text,
                     "A station has distance_km, height_above_m and weights such as "
                     "weights/tmax_c.");
}

/// Where the weather file was measured, seen from the garden.
Result<Trace> why_file(const ClimateYear& year, const Pointer& pointer) {
  const auto& file = year.climate.file;
  if (!file) return bad_pointer(pointer.text, "The document names no weather file.");
  const bool distance = pointer.rest[1] == "distance_km";
  if (pointer.rest.size() != 2 || (!distance && pointer.rest[1] != "height_above_m"))
    return bad_pointer(pointer.text, "A weather file has distance_km and height_above_m.");
  const auto& length = distance ? file->distance : file->height_above;
  Trace trace;
  trace.name = distance ? "how far the weather file was measured"
                        : "height over the garden at which the weather file was measured";
  trace.unit = distance ? "km" : "m";
  if (!length) {
    trace.value = "the file does not say";
    return trace;
  }
  const double shown = in_metres(*length) / (distance ? 1000 : 1);
  trace = number_trace(trace.name, shown, trace.unit, fmt::format("{:.0f} {}", shown, trace.unit));
  trace.method = distance ? "Along the great circle, from the place that the file gives."
                          : "The height that the file gives less the garden’s.";
  trace.where = file->name;
  add_garden_place(year, trace.inputs);
  return trace;
}

}  // namespace

const std::vector<std::string>& climate_keys() {
  static const std::vector<std::string> keys = [] {
    std::vector<std::string> out;
    for (const Key& key : kKeys) out.emplace_back(key.key);
    return out;
  }();
  return keys;
}

ClimateFigure climate_figure(const ClimateYear& year, std::size_t month, const std::string& key) {
  const Key* known = key_named(key);
  if (known == nullptr) return {};
  const climate::Month& m = year.climate.months[month];
  ClimateFigure out;
  out.value = key == kLight ? year.sun.open_mol_m2_d[month] : value_of(m, known->quantity);
  out.origin = m.origin_of(known->quantity);
  out.plus_minus = plus_minus_of(m, known->quantity, out.value);
  return out;
}

std::vector<StationPart> station_parts(const climate::PlaceClimate& climate) {
  std::vector<StationPart> out;
  for (const Key& key : kKeys) {
    const climate::Blend* blend = climate.blend_of(key.element);
    if (blend == nullptr || key.quantity == Quantity::kGlobal) continue;
    for (const climate::StationUse& use : blend->stations) {
      auto part = std::find_if(out.begin(), out.end(),
                               [&](const StationPart& p) { return p.station.id == use.id; });
      if (part == out.end()) part = out.insert(out.end(), {use, {}});
      part->weights[std::string(key.key)] = use.weight;
    }
  }
  std::stable_sort(out.begin(), out.end(), [](const StationPart& a, const StationPart& b) {
    return climate::counted_km(a.station.distance, a.station.height_above) <
           climate::counted_km(b.station.distance, b.station.height_above);
  });
  return out;
}

Result<Trace> why_climate(const ClimateYear& year, const Pointer& pointer) {
  const auto& rest = pointer.rest;
  if (rest.size() > 2 && rest[0] == "months") return why_month(year, pointer);
  if (rest.size() > 1 && rest[0] == "year") return why_year(year, pointer);
  if (rest.size() > 2 && rest[0] == "stations") return why_station(year, pointer);
  if (rest.size() > 1 && rest[0] == "weather_file") return why_file(year, pointer);
  return bad_pointer(pointer.text,
                     "Go on with /months/5/global_mj_m2_d, /months/5/plus_minus/tmax_c, "
                     "/year/global_mj_m2 or /stations/ID/distance_km.");
}

}  // namespace spadework::study
