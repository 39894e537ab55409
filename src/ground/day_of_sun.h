// The sun over one place on one day by the clock, and how far clock and place move it. For the
// ground room alone.
#pragma once

#include <optional>
#include <string>
#include <utility>

#include "ground/shadows.h"
#include "sky/sun_events.h"

namespace spadework::ground {

/// The sun at a moment, and the sigma of its azimuth and apparent elevation by one minute of clock
/// and by the place.
struct SunAt {
  sky::SunPosition sun;
  double azimuth_deg_per_min = 0, elevation_deg_per_min = 0;
  double azimuth_by_place_deg = 0, elevation_by_place_deg = 0;
  [[nodiscard]] double elevation_deg() const { return in_degrees(sun.apparent_elevation); }
};

class DayOfSun {
 public:
  DayOfSun(const ShadowPlace& place, LocalDate date);
  [[nodiscard]] SunAt at(UtcTime t) const;
  [[nodiscard]] SunAt at_clock(double clock_h) const {
    return at(place_.time_zone.at_clock(date_, clock_h));
  }
  [[nodiscard]] sky::SunEvents events() const;
  /// Why the sun at a clock time can tell nothing between two elevations, and when it can; nothing
  /// if it can.
  [[nodiscard]] std::optional<Error> why_not(double clock_h, Angle lowest) const;

 private:
  [[nodiscard]] std::optional<std::pair<double, double>> hours_above(double elevation_deg) const;

  const ShadowPlace& place_;
  LocalDate date_;
  sky::Almanac almanac_;
};

}  // namespace spadework::ground
