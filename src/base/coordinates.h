// A place on the earth as people paste it.
#pragma once

#include <optional>
#include <string_view>

#include "base/quantity.h"

namespace spadework {

struct Coordinates {
  Angle latitude, longitude;
};

/// In:     latitude and longitude: "48.41, -4.36", "48,41 -4,36", "48.41 N 4.36 W",
///         "48°24'36\"N, 4°21'36\"W", "N 48° 24.6' W 4° 21.6'", or the longitude first where
///         letters say so.
/// Out:    north and east positive; nothing for anything else, or out of range.
/// Tested: coordinates_test.cpp. Source: [closed-form] 60 minutes a degree, 60 seconds a minute.
[[nodiscard]] std::optional<Coordinates> coordinates_in(std::string_view text);

}  // namespace spadework
