#include "climate/nearby.h"

#include <algorithm>
#include <cmath>

#include "climate/radiation.h"

namespace spadework::climate {
namespace {

constexpr double kNextDoor_km = 25;
constexpr double kDarkMonth_h = 1;  // shorter mean days say nothing of a station's sunshine

double weight_of(double counted) { return 1 / (counted * counted + kNextDoor_km * kNextDoor_km); }

bool is_temperature(Element element) {
  return element == Element::kTmax || element == Element::kTmin || element == Element::kLowest;
}

/// Sunshine may be missing in the polar night.
bool complete(const MonthValues& values, Element element, Angle latitude) {
  for (unsigned month = 1; month <= 12; ++month) {
    if (values[month - 1]) continue;
    if (element != Element::kSunshine || sky_of_month(latitude, month).day_length_h >= kDarkMonth_h)
      return false;
  }
  return true;
}

}  // namespace

double counted_km(Length distance, Length height_above) {
  return std::hypot(in_metres(distance), kHeightCounts * in_metres(height_above)) / 1000;
}

std::vector<std::size_t> Neighbours::nearest(std::size_t how_many) const {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < std::min(how_many, order_.size()); ++i)
    out.push_back(order_[i].second);
  return out;
}

Neighbours::Neighbours(const Stations& stations, const Place& place)
    : stations_(&stations), place_(place) {
  order_.reserve(stations.all().size());
  for (std::size_t i = 0; i < stations.all().size(); ++i) {
    const Station& s = stations.all()[i];
    const Length d = distance_between(place.latitude, place.longitude, s.latitude, s.longitude);
    order_.emplace_back(counted_km(d, s.elevation - place.elevation), i);
  }
  std::sort(order_.begin(), order_.end());
}

StationUse Neighbours::use_of(std::size_t station, const StationRecord& record,
                              Element element) const {
  const Station& s = stations_->all()[station];
  StationUse use;
  use.id = std::string(s.id);
  use.name = std::string(s.name);
  use.country = std::string(s.country);
  use.source = record.source;
  use.period = record.period;
  use.distance = distance_between(place_.latitude, place_.longitude, s.latitude, s.longitude);
  use.height_above = s.elevation - place_.elevation;
  use.weight = weight_of(counted_km(use.distance, use.height_above));
  for (std::size_t m = 0; m < 12; ++m) use.reported[m] = record.of(element)[m].value_or(0);
  return use;
}

namespace {

/// What a station's figure would be at the place, in the unit that is blended; nothing where a
/// dark month says nothing.
std::optional<double> brought_here(const StationUse& use, Element element, unsigned month,
                                   const Sky& at_station) {
  const double reported = use.reported[month - 1];
  if (is_temperature(element))
    return reported + kLapse_k_per_km * in_metres(use.height_above) / 1000;
  if (element != Element::kSunshine) return reported;
  if (at_station.day_length_h < kDarkMonth_h) return std::nullopt;
  return std::clamp(reported / at_station.day_length_h, 0.0, 1.0);
}

}  // namespace

Result<std::optional<Blend>> Neighbours::blend(Element element, const Choice& choice) const {
  Blend out;
  out.element = element;
  std::vector<Angle> latitudes;
  for (const auto& [counted, station] : order_) {
    if (choice.only ? station != *choice.only
                    : counted < choice.from_km || station == choice.without)
      continue;
    const Angle latitude = stations_->all()[station].latitude;
    const bool polar = element == Element::kSunshine && std::abs(in_degrees(latitude)) > 64;
    if (!polar && !stations_->has_all_months(station, element)) continue;
    const auto record = stations_->record(station);
    if (!record) return tl::unexpected<Error>(record.error());
    if (polar && !complete(record->of(element), element, latitude)) continue;
    if (out.stations.empty()) out.far_km = counted;
    out.stations.push_back(use_of(station, *record, element));
    latitudes.push_back(latitude);
    if (out.stations.size() == kStationsInBlend || choice.only) break;
  }
  if (out.stations.empty()) return std::optional<Blend>();
  double sum = 0;
  for (const StationUse& use : out.stations) sum += use.weight;
  for (StationUse& use : out.stations) {
    use.weight /= sum;
    out.height_m += use.weight * in_metres(use.height_above);
  }
  for (unsigned month = 1; month <= 12; ++month) {
    double value = 0, weights = 0;
    for (std::size_t i = 0; i < out.stations.size(); ++i) {
      const Sky sky = element == Element::kSunshine ? sky_of_month(latitudes[i], month) : Sky{};
      const auto here = brought_here(out.stations[i], element, month, sky);
      if (!here) continue;
      value += out.stations[i].weight * *here;
      weights += out.stations[i].weight;
    }
    value = weights > 0 ? value / weights : 0;
    if (element == Element::kSunshine) value *= sky_of_month(place_.latitude, month).day_length_h;
    out.value[month - 1] = value;
  }
  return std::optional<Blend>(std::move(out));
}

Length height_of_stations(const Stations& stations, Angle latitude, Angle longitude) {
  std::vector<std::pair<double, double>> nearest;  // km, m
  for (const Station& s : stations.all()) {
    const Length d = distance_between(latitude, longitude, s.latitude, s.longitude);
    nearest.emplace_back(in_metres(d) / 1000, in_metres(s.elevation));
  }
  const std::size_t n = std::min(kStationsInBlend, nearest.size());
  std::partial_sort(nearest.begin(), nearest.begin() + static_cast<std::ptrdiff_t>(n),
                    nearest.end());
  double height = 0, weights = 0;
  for (std::size_t i = 0; i < n; ++i) {
    height += weight_of(nearest[i].first) * nearest[i].second;
    weights += weight_of(nearest[i].first);
  }
  return metres(weights > 0 ? height / weights : 0);
}

}  // namespace spadework::climate
