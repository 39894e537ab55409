#include "climate/own_months.h"

#include <fmt/format.h>

namespace spadework::climate {
namespace {

void read_month(const garden::Garden& garden, const garden::Entry& entry, OwnClimate& out) {
  const garden::Value* number = entry.find("month");
  if (number == nullptr || number->number() == nullptr) return;
  const double month = *number->number();
  if (!(month >= 1 && month <= 12)) return;
  OwnMonth& own = out.months[static_cast<std::size_t>(month) - 1];
  const std::pair<const char*, std::optional<Given>*> keys[] = {
      {"tmax_c", &own.tmax_c},
      {"tmin_c", &own.tmin_c},
      {"rain_mm", &own.rain_mm},
      {"rain_days", &own.rain_days},
      {"sunshine_h_per_day", &own.sunshine_h_per_day},
      {"radiation_mj_m2_per_day", &own.radiation_mj_m2_per_day},
      {"humidity_share", &own.humidity_share}};
  for (const auto& [key, figure] : keys) {
    const garden::Value* value = entry.find(key);
    if (value == nullptr || value->number() == nullptr) continue;
    *figure = Given{*value->number(), garden::figure_trace(garden, entry, key)};
  }
}

}  // namespace

OwnClimate own_climate_of(const garden::Garden& garden) {
  OwnClimate out;
  for (const garden::Entry& entry : garden.entries) {
    if (entry.table == "garden" && entry.find("elevation_m") != nullptr)
      out.elevation = garden::figure_trace(garden, entry, "elevation_m");
    if (entry.table == "climate.month") read_month(garden, entry, out);
    if (entry.table != "climate") continue;
    out.weather_file = entry.text("weather_file");
    const garden::Value* station = entry.find("station");
    if (station == nullptr || station->text() == nullptr) continue;
    out.station = *station->text();
    out.station_where =
        fmt::format("{}:{}:{}", garden.file, station->where.line, station->where.column);
  }
  return out;
}

std::string weather_file_of(const garden::Draft& draft) {
  const garden::Entry* climate = draft.single("climate");
  return climate == nullptr ? std::string() : climate->text("weather_file");
}

}  // namespace spadework::climate
