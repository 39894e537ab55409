// Where the sun stands over a site at an instant.
#pragma once

#include <optional>
#include <vector>

#include "base/date.h"
#include "base/quantity.h"
#include "sky/spa.h"

namespace spadework::sky {

struct Site {
  Angle latitude;    // north positive, −90° to 90°
  Angle longitude;   // east positive
  Length elevation;  // above the sea
};

struct SunPosition {
  Angle azimuth;             // true bearing, clockwise from north, 0 to 360°
  Angle true_elevation;      // of the disc's centre, as if there were no air
  Angle apparent_elevation;  // of the disc's centre, as seen through the air
  Angle hour_angle;          // −180° to 180°: 0 on the meridian, positive after noon
  double solar_time_h = 12;  // local apparent solar time, 0 to 24: 12 on the meridian
  Angle declination;
  double distance_au = 1;
};

/// What may be set otherwise than usual.
struct SunOptions {
  std::optional<double> delta_t_s;   // instead of the polynomials' ΔT
  std::optional<Pressure> pressure;  // instead of the standard pressure at the site's elevation
  Temperature air = celsius(10);  // yearly mean, for the refraction: 10 °C more lowers it by 3.5 %
};

/// The sun seen from a site; hour angle and declination too are those at the site (topocentric).
/// In:     an instant of the years −2000 to 6000.
/// Out:    within 0.0003° where ΔT is known; refraction as on a usual day.
/// Errors: none; a latitude beyond ±90° is a broken invariant.
/// Tested: golden/sky/spa_example, golden/sky/solar_positions (0.00001° from another program of the
///         same algorithm, 0.0002° from PyEphem).
/// Source: [spa] whole; ΔT from [delta-t].
[[nodiscard]] SunPosition sun_position(UtcTime t, const Site& site, const SunOptions& options = {});

/// The same with every step of the algorithm.
/// Source: [spa] whole; ΔT from [delta-t].
[[nodiscard]] SpaSteps sun_steps(UtcTime t, const Site& site, const SunOptions& options = {});

/// The sun's places over a span of time, eight times as quick for many instants: the Earth's state
/// is worked out once for each day and interpolated by a cubic, which moves the sun by less than
/// 0.000001°.
/// Errors: asking outside the span is a broken invariant.
/// Tested: AlmanacTest, against sun_position.
/// Source: [spa] whole; ΔT from [delta-t].
class Almanac {
 public:
  /// `from` ≤ `to`; at most about 200 years apart.
  Almanac(UtcTime from, UtcTime to, const SunOptions& options = {});
  /// A calendar year with two days either side, so that it holds it in every time zone.
  [[nodiscard]] static Almanac of_year(int year, const SunOptions& options = {});

  [[nodiscard]] UtcTime from() const { return from_; }
  [[nodiscard]] UtcTime to() const { return to_; }
  [[nodiscard]] SunPosition sun_position(UtcTime t, const Site& site) const;

 private:
  UtcTime from_, to_;
  SunOptions options_;
  double first_day_ = 0;           // Julian ephemeris day of the first node
  std::vector<EarthState> nodes_;  // one a day
};

}  // namespace spadework::sky
