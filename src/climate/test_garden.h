// For tests: gardens with nothing but a place and what they say of their climate.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "garden/garden.h"

namespace spadework::climate {

inline garden::Field field(std::string key, double number) {
  return {std::move(key), {}, {number, {}, {}}};
}
inline garden::Field field(std::string key, std::string text) {
  return {std::move(key), {}, {std::move(text), {}, {}}};
}

/// A garden with its height known.
inline garden::Garden garden_at(double latitude_deg, double longitude_deg, double elevation_m) {
  garden::Garden out;
  out.file = "test.toml";
  out.site.latitude = degrees(latitude_deg);
  out.site.longitude = degrees(longitude_deg);
  out.site.elevation = metres(elevation_m);
  out.entries.push_back({"garden", "", {3, 1}, {field("elevation_m", elevation_m)}});
  return out;
}

inline garden::Garden with_station(garden::Garden garden, const std::string& id) {
  garden::Value value{id, {7, 11}, {}};
  garden.entries.push_back({"climate", "", {6, 1}, {garden::Field{"station", {7, 1}, value}}});
  return garden;
}

inline garden::Garden with_month(garden::Garden garden, int month,
                                 std::vector<garden::Field> figures) {
  figures.insert(figures.begin(), field("month", month));
  garden.entries.push_back({"climate.month", "", {9, 1}, std::move(figures)});
  return garden;
}

}  // namespace spadework::climate
