// Weather as a file of days tells it: what the readers of weather files give, and the months made
// of it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/base.h"

namespace spadework::climate {

/// One day; what the file does not know is not there. Energies are on level ground, MJ/m².
struct WeatherDay {
  LocalDate date{};
  std::optional<Temperature> tmax, tmin;
  std::optional<double> rain_mm, sunshine_h, global_mj_m2, diffuse_mj_m2;
};

struct Weather {
  std::string name;  // the file as the document names it
  std::string says;  // what the file says of itself: station, source, period
  std::optional<Angle> latitude, longitude;
  std::optional<Length> elevation;
  /// Of a file of hours: how far its clocks are ahead of UTC; by how much it says that its
  /// radiation runs ahead of them (negative: it comes early); and the clock hour about which the
  /// global radiation of all its days balances.
  std::optional<double> clock_offset_h, told_sun_offset_h, sun_middle_h;
  bool typical_year = false;       // months picked from different years: dates carry no real year
  std::vector<WeatherDay> days;    // by date, each once
  std::vector<std::string> notes;  // what was passed over, in plain sentences
};

}  // namespace spadework::climate
