#include "climate/climate.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "climate/month_maker.h"

namespace spadework::climate {
namespace {

constexpr std::size_t kHintStations = 3;

std::string says(const Station& station) {
  return fmt::format("\"{}\" ({})", station.id, station.name);
}

/// The station nearest to the garden whose id is one slip away or whose name is alike; or nothing.
const Station* meant_by(const std::string& typed, const Stations& stations,
                        const Neighbours& around) {
  for (std::size_t i : around.nearest(stations.all().size())) {
    const Station& station = stations.all()[i];
    if (slips_between(typed, station.id) <= 1 ||
        !nearest_word(typed, {std::string(station.name)}).empty())
      return &station;
  }
  return nullptr;
}

/// The station that the document names, nothing for "auto".
Result<std::optional<std::size_t>> named_station(const OwnClimate& own, const Stations& stations,
                                                 const Neighbours& around) {
  if (own.station == "auto") return std::optional<std::size_t>();
  if (const auto found = stations.find(own.station)) return found;
  std::string hint;
  if (const Station* meant = meant_by(own.station, stations, around))
    hint = fmt::format("Did you mean {}? ", says(*meant));
  std::vector<std::string> near;
  for (std::size_t i : around.nearest(kHintStations)) near.push_back(says(stations.all()[i]));
  hint += fmt::format("Nearest to the garden: {}; \"auto\" takes them all.", list_words(near));
  return fail(ErrorCode::kUnknownId, own.station_where,
              fmt::format("No weather station has the id \"{}\".", own.station), hint);
}

/// Whether a month needs the element from the stations.
bool needed(const PlaceClimate& climate, Element element, std::size_t m) {
  const OwnMonth& own = climate.own.months[m];
  const auto in_file = [&](DayFigure figure) {
    return climate.file && climate.file->months[m].of(figure).has_value();
  };
  switch (element) {
    case Element::kTmax:
      return !own.tmax_c && !in_file(DayFigure::kTmax);
    case Element::kTmin:
      return !own.tmin_c && !in_file(DayFigure::kTmin);
    case Element::kRain:
      return !own.rain_mm && !in_file(DayFigure::kRain);
    case Element::kWetDays:
      return !own.rain_days && !in_file(DayFigure::kRain);
    case Element::kSunshine:
      return !own.sunshine_h_per_day && !own.radiation_mj_m2_per_day &&
             !in_file(DayFigure::kSunshine) && !in_file(DayFigure::kGlobal);
    case Element::kVapourPressure:
      return !own.humidity_share;
    default:
      return false;
  }
}

Result<std::optional<Blend>> blend_for(const Neighbours& around, Element element,
                                       const std::optional<std::size_t>& named) {
  if (named) {
    auto alone = around.blend(element, Choice{named, std::nullopt, 0});
    if (!alone || *alone) return alone;
  }
  return around.blend(element, Choice{});
}

std::optional<Error> add_blends(PlaceClimate& out, const Neighbours& around,
                                const std::optional<std::size_t>& named) {
  for (Element element : {Element::kTmax, Element::kTmin, Element::kRain, Element::kWetDays,
                          Element::kSunshine, Element::kVapourPressure}) {
    bool wanted = false;
    for (std::size_t m = 0; m < 12; ++m) wanted = wanted || needed(out, element, m);
    if (!wanted) continue;
    auto blend = blend_for(around, element, named);
    if (!blend) return blend.error();
    if (*blend) out.blends.push_back(std::move(**blend));
  }
  return std::nullopt;
}

FileUse use_of(const Weather& file, const Place& place) {
  FileUse out;
  out.name = file.name;
  out.says = file.says;
  out.years = years_says(file);
  out.months = months_of(file);
  if (file.elevation) out.height_above = *file.elevation - place.elevation;
  if (file.latitude && file.longitude) {
    out.distance =
        distance_between(place.latitude, place.longitude, *file.latitude, *file.longitude);
    out.far_km = counted_km(*out.distance, out.height_above.value_or(Length()));
  }
  return out;
}

}  // namespace

std::string_view origin_name(Origin origin) {
  static constexpr std::array<std::string_view, 5> kNames = {"unknown", "own_month", "weather_file",
                                                             "stations", "swing"};
  return kNames[static_cast<std::size_t>(origin)];
}

const Blend* PlaceClimate::blend_of(Element element) const {
  const auto found = std::find_if(blends.begin(), blends.end(),
                                  [&](const Blend& blend) { return blend.element == element; });
  return found == blends.end() ? nullptr : &*found;
}

Result<PlaceClimate> climate_of(const garden::Garden& garden, const Stations& stations,
                                const Weather* file) {
  PlaceClimate out;
  out.own = own_climate_of(garden);
  out.elevation_given = out.own.elevation.has_value();
  out.place = {garden.site.latitude, garden.site.longitude, elevation_of(garden, stations)};
  const Neighbours around(stations, out.place);
  const auto named = named_station(out.own, stations, around);
  if (!named) return tl::unexpected<Error>(named.error());
  if (*named) out.named_id = out.own.station;
  if (file != nullptr) out.file = use_of(*file, out.place);
  if (auto error = add_blends(out, around, *named)) return tl::unexpected<Error>(*error);
  for (std::size_t m = 0; m < 12; ++m) {
    for (Element element : {Element::kTmax, Element::kTmin}) {
      if (needed(out, element, m) && out.blend_of(element) == nullptr)
        return fail(ErrorCode::kNoAnswer, "", "No weather station has temperatures.",
                    "Give the climate's months in the document, or a weather file.");
    }
  }
  make_months(out);
  if (file != nullptr) out.file_notes = file->notes;
  return out;
}

Length elevation_of(const garden::Garden& garden, const Stations& stations) {
  const bool given =
      std::any_of(garden.entries.begin(), garden.entries.end(), [](const garden::Entry& entry) {
        return entry.table == "garden" && entry.find("elevation_m") != nullptr;
      });
  if (given) return garden.site.elevation;
  return height_of_stations(stations, garden.site.latitude, garden.site.longitude);
}

std::optional<double> value_of(const Month& month, Quantity quantity) {
  switch (quantity) {
    case Quantity::kTmax:
      return month.tmax ? std::optional<double>(in_celsius(*month.tmax)) : std::nullopt;
    case Quantity::kTmin:
      return month.tmin ? std::optional<double>(in_celsius(*month.tmin)) : std::nullopt;
    case Quantity::kRain:
      return month.rain_mm;
    case Quantity::kWetDays:
      return month.wet_days;
    case Quantity::kVapourPressure:
      return month.vapour_pressure_hpa;
    case Quantity::kSunshine:
      return month.sunshine_h_per_day;
    case Quantity::kGlobal:
      return month.global_mj_m2_d;
    case Quantity::kDiffuse:
      break;
  }
  return month.diffuse_mj_m2_d;
}

}  // namespace spadework::climate
