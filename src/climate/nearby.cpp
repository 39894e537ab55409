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

Result<std::vector<Neighbours::Chosen>> Neighbours::choose(Element element,
                                                           const Choice& choice) const {
  std::vector<Chosen> out;
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
    out.push_back({counted, latitude, use_of(station, *record, element)});
    if (out.size() == kStationsInBlend || choice.only) break;
  }
  return out;
}

Result<std::optional<Blend>> Neighbours::blend(Element element, const Choice& choice) const {
  const auto chosen = choose(element, choice);
  if (!chosen) return tl::unexpected<Error>(chosen.error());
  if (chosen->empty()) return std::optional<Blend>();
  Blend out;
  out.element = element;
  out.far_km = chosen->front().counted_km;
  double sum = 0;
  for (const Chosen& one : *chosen) sum += one.use.weight;
  for (const Chosen& one : *chosen) {
    out.stations.push_back(one.use);
    out.stations.back().weight /= sum;
    out.height_m += out.stations.back().weight * in_metres(one.use.height_above);
  }
  const bool sunshine = element == Element::kSunshine;
  for (unsigned month = 1; month <= 12; ++month) {
    double value = 0, weights = 0;
    for (const Chosen& one : *chosen) {
      const Sky sky = sunshine ? sky_of_month(one.latitude, month) : Sky{};
      const auto here = brought_here(one.use, element, month, sky);
      if (!here) continue;
      value += one.use.weight * *here;
      weights += one.use.weight;
    }
    value = weights > 0 ? value / weights : 0;
    if (sunshine) value *= sky_of_month(place_.latitude, month).day_length_h;
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
