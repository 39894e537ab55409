// When the sun rises, sets and stands highest on a calendar day.
#pragma once

#include <optional>
#include <vector>

#include "base/date.h"
#include "base/quantity.h"
#include "sky/solar_position.h"

namespace spadework::sky {

/// Rise and set are when the true elevation of the disc's centre passes this: its upper limb is
/// then on a level horizon, lifted by the usual 0.5667° of refraction. Source: [spa] A.2.
inline constexpr Angle kRiseElevation = degrees(-0.8333);

enum class DayKind {
  kRisesAndSets,
  kOnlyRises,   // near the polar circles: up until midnight, and beyond
  kOnlySets,    // near the polar circles: up since before midnight
  kUpAllDay,    // polar day
  kDownAllDay,  // polar night
};

struct SunCrossing {
  UtcTime time;
  bool rising = true;
};

struct SunEvents {
  DayKind kind = DayKind::kDownAllDay;
  std::optional<UtcTime> rise;  // the day's first
  std::optional<UtcTime> set;   // the first after the rise; failing that, the day's first
  std::vector<SunCrossing>
      crossings;                   // all, in order: near the polar circles a day can hold two sets
  std::optional<UtcTime> transit;  // on the meridian; none on the rare day that skips it
  Angle highest;                   // true elevation at its highest within the day
  UtcTime starts, ends;            // the day's two midnights by the clock
  double up_h = 0;                 // hours above the horizon within the day
};

/// The sun of a calendar day, from midnight to midnight of the zone's clocks (23 or 25 hours where
/// they change).
/// Out:    times to 0.01 s of the position's; within 20 s of other programs'.
/// Errors: none: polar day and night are kinds. `almanac` must span the day.
/// Tested: golden/sky/sunrise_sunset, golden/sky/rise_set_ephem.
/// Source: [spa] position and rise elevation; the times by root-finding.
[[nodiscard]] SunEvents sun_events(LocalDate date, const TimeZone& zone, const Site& site,
                                   const Almanac& almanac);
/// The same with an almanac of its own.
[[nodiscard]] SunEvents sun_events(LocalDate date, const TimeZone& zone, const Site& site,
                                   const SunOptions& options = {});

}  // namespace spadework::sky
