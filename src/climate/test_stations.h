// For tests: the table of stations as it is shipped, and the first line of tables of our own.
#pragma once

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <string>

#include "climate/stations.h"
#include "embedded/embedded.h"

namespace spadework::climate {

inline Stations shipped_stations() {
  auto stations = read_stations(embedded_file("stations.csv"));
  if (!stations) ADD_FAILURE() << stations.error().where << ": " << stations.error().message;
  return stations.value_or(Stations{});
}

inline std::string table_header() {
  std::string out = "wmo_id,station,country,lat,lon,elev_m,n_years_min,period,source";
  for (const char* name : {"tmax", "tmin", "prec_mm", "wet_days", "sun_h_per_day", "vp_hpa",
                           "frost_days", "abs_tmin_mean", "abs_tmin_sd"}) {
    for (int month = 1; month <= 12; ++month) out += fmt::format(",{}_{}", name, month);
  }
  return out + ",annual_min_mean,annual_min_lowest,annual_min_n\n";
}

}  // namespace spadework::climate
