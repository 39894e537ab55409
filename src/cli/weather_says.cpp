#include "cli/weather_says.h"

#include <fmt/format.h>

namespace spadework::cli {
namespace {

/// "6 weather stations, the nearest Brest-Guipavas (5 km)".
std::string stations_say(const climate::PlaceClimate& climate, Units units) {
  const climate::Blend* blend = climate.blend_of(climate::Element::kSunshine);
  if (blend == nullptr || blend->stations.empty()) return "";
  const climate::StationUse& nearest = blend->stations.front();
  const std::string far = fmt::format("{} ({})", nearest.name, far_says(nearest.distance, units));
  if (climate.named_id == nearest.id) return "the station that you name, " + far;
  if (blend->stations.size() == 1) return "one weather station, " + far;
  return fmt::format("{} weather stations, the nearest {}", blend->stations.size(), far);
}

/// Where the months of one origin come from.
std::string origin_says(const climate::PlaceClimate& climate, climate::Origin origin, Units units) {
  switch (origin) {
    case climate::Origin::kOwnMonth:
      return "your own months";
    case climate::Origin::kWeatherFile:
      return climate.file->name;
    case climate::Origin::kSwing: {
      const std::string stations = stations_say(climate, units);
      return "the swing of temperature between night and day" +
             (stations.empty() ? "" : " with a say of " + stations);
    }
    default:
      return stations_say(climate, units);
  }
}

/// Whose sunshine and radiation it is: ", from …"; of more than one origin with the months of each:
/// "; in June from your own months; and in the other months from 6 weather stations, the nearest
/// …".
std::string origins_say(const climate::PlaceClimate& climate, const std::vector<int>& order,
                        Units units) {
  constexpr climate::Origin kOrigins[] = {climate::Origin::kOwnMonth, climate::Origin::kWeatherFile,
                                          climate::Origin::kStations, climate::Origin::kSwing};
  std::vector<std::pair<climate::Origin, std::vector<std::string>>> parts;
  for (const climate::Origin origin : kOrigins) {
    std::vector<std::string> months;
    for (const int m : order) {
      const climate::Month& month = climate.months[static_cast<std::size_t>(m)];
      if (month.origin_of(climate::Quantity::kGlobal) == origin)
        months.emplace_back(month_name(static_cast<unsigned>(m) + 1));
    }
    if (!months.empty()) parts.emplace_back(origin, std::move(months));
  }
  if (parts.empty()) return "";
  if (parts.size() == 1) return ", from " + origin_says(climate, parts.front().first, units);
  std::string out;
  for (const auto& [origin, months] : parts) {
    const bool last = &months == &parts.back().second;
    out += fmt::format("; {} from {}",
                       last ? "and in the other months" : "in " + list_words(months, "and"),
                       origin_says(climate, origin, units));
  }
  return out;
}

}  // namespace

std::vector<int> month_order(const garden::Site& site) {
  const int first = site.latitude < degrees(0) ? 6 : 0;
  std::vector<int> order;
  for (int k = 0; k < 12; ++k) order.push_back((first + k) % 12);
  return order;
}

std::string year_sure_says(const climate::PlaceClimate& climate) {
  if (!climate.year_global_share) return "no station is near enough to say how sure that is";
  constexpr double kNone = 0.005;  // it would be told as 0 %
  if (*climate.year_global_share < kNone) return "as sure as the figures that you give";
  return fmt::format("good to ±{:.0f} %", 100 * *climate.year_global_share);
}

std::string climate_says(const climate::PlaceClimate& climate, const std::vector<int>& order,
                         Units units) {
  return fmt::format(
      "With cloud: the sunshine to expect, and light for growth (DLI) from sun and sky "
      "together{}. The year’s light: {}. Of the open: the share of an open, level plot’s light.",
      origins_say(climate, order, units), year_sure_says(climate));
}

}  // namespace spadework::cli
