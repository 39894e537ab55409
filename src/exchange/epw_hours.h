// An EPW file taken apart: what its header says, and its hours as they stand there.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/base.h"

namespace spadework::exchange {

struct EpwPeriodDay {
  int month = 0, day = 0;
};

struct EpwHeader {
  std::string city, region, country, source, station;
  std::optional<double> latitude_deg, longitude_deg, zone_h, elevation_m;
  std::optional<double> sun_offset_h;  // "Irradiance Time Offset (h)" of a comment
  std::optional<EpwPeriodDay> first, last;
  int lines = 0;
};

/// One row. Energies are Wh/m² in the hour that ends at `hour`.
struct EpwHour {
  int line = 0;
  int year = 0, month = 0, day = 0, hour = 0;  // hour 1 to 24
  std::optional<double> temperature_c, global_wh_m2, beam_wh_m2, diffuse_wh_m2, rain_mm;
};

struct EpwFile {
  EpwHeader header;
  std::vector<EpwHour> hours;
};

/// Errors: as read_weather, of header and single rows; the order of the hours is not looked at.
/// Source: [epw-format].
[[nodiscard]] Result<EpwFile> read_epw_file(std::string_view bytes, std::string_view name);

}  // namespace spadework::exchange
