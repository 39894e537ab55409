// What the garden's document says of its climate: whose weather to take, and the user's own months.
#pragma once

#include <array>
#include <optional>
#include <string>

#include "garden/garden.h"

namespace spadework::climate {

/// A figure of the document and the first link of its chain.
struct Given {
  double value = 0;
  Trace trace;
};

/// One month as the user knows it.
struct OwnMonth {
  std::optional<Given> tmax_c, tmin_c, rain_mm, rain_days;
  std::optional<Given> sunshine_h_per_day, radiation_mj_m2_per_day;
  std::optional<Given> humidity_share;
};

struct OwnClimate {
  std::string station = "auto";
  std::string station_where;  // `garden.toml:12:11`
  std::string weather_file;   // its name beside the document; empty: none
  std::optional<Trace> elevation;
  std::array<OwnMonth, 12> months;
};

/// Never fails: the document's values were checked when it was read. A month given twice counts as
/// the later one.
[[nodiscard]] OwnClimate own_climate_of(const garden::Garden& garden);

/// The name of the weather file that the document names; empty for none.
[[nodiscard]] std::string weather_file_of(const garden::Draft& draft);

}  // namespace spadework::climate
