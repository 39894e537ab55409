// For tests: the table of stations as it is shipped.
#pragma once

#include <gtest/gtest.h>

#include "climate/stations.h"
#include "embedded/embedded.h"

namespace spadework::climate {

inline Stations shipped_stations() {
  auto stations = read_stations(embedded_file("stations.csv"));
  if (!stations) ADD_FAILURE() << stations.error().where << ": " << stations.error().message;
  return stations.value_or(Stations{});
}

}  // namespace spadework::climate
