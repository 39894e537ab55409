// The two readers behind read_weather.
#pragma once

#include <string_view>

#include "base/base.h"
#include "climate/weather.h"

namespace spadework::exchange {

/// Figures of a day or an hour that cannot be more, whatever the place.
inline constexpr double kColdest_c = -95, kHottest_c = 65;  // records: -89 and 57
inline constexpr double kMostRain_mm_d = 2000;              // record: 1,825
inline constexpr double kMostRadiation_mj_m2_d = 50;        // above the air, poles at midsummer: 48

/// Text that begins with LOCATION.
[[nodiscard]] Result<climate::Weather> read_epw(std::string_view bytes, std::string_view name);
/// Any other text.
[[nodiscard]] Result<climate::Weather> read_daily_csv(std::string_view bytes,
                                                      std::string_view name);

/// Which days are not there and which figures the days lack, in at most six sentences.
void note_gaps(climate::Weather& weather);

}  // namespace spadework::exchange
