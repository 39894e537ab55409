// Whether a weather file belongs to a garden.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "climate/radiation.h"
#include "climate/stations.h"
#include "exchange/exchange.h"

namespace spadework::exchange {
namespace {

constexpr double kFar_km = 50;
constexpr double kHigher_m = 150;        // about 1 °C
constexpr double kOddClock_h = 3;        // no country's clocks stand farther from the sun's
constexpr double kOddSun_h = 0.75;       // afternoon cloud moves the middle by half an hour at most
constexpr std::size_t kFewestDays = 30;  // of fewer, chance clouds move it too
constexpr double kOddDays_share = 0.02;

/// By how many hours a clock of that offset is ahead of the sun's at a longitude, -12 to 12.
double clock_ahead_h(double offset_h, double longitude_deg) {
  return std::remainder(offset_h - longitude_deg / 15, 24);
}

void doubt_place(const climate::Weather& weather, Angle latitude, Angle longitude, Length elevation,
                 Units units, std::vector<std::string>& out) {
  if (weather.latitude && weather.longitude) {
    const Length far =
        climate::distance_between(*weather.latitude, *weather.longitude, latitude, longitude);
    if (in_metres(far) / 1000 > kFar_km)
      out.push_back(
          fmt::format("The weather file is of a place {} from the garden.", far_says(far, units)));
  }
  if (weather.elevation) {
    const double higher = in_metres(*weather.elevation - elevation);
    if (std::abs(higher) > kHigher_m)
      out.push_back(fmt::format("The weather file's place lies {} {} than the garden.",
                                length_says(metres(std::abs(higher)), units),
                                higher > 0 ? "higher" : "lower"));
  }
}

void doubt_clocks(const climate::Weather& weather, std::vector<std::string>& out) {
  if (!weather.longitude || !weather.clock_offset_h) return;
  const double longitude_deg = in_degrees(*weather.longitude);
  const double ahead = clock_ahead_h(*weather.clock_offset_h, longitude_deg);
  if (std::abs(ahead) > kOddClock_h) {
    out.push_back(fmt::format(
        "The weather file's clocks do not fit its longitude: they are {:+g} h from UTC, and at "
        "{:.2f}° {} the sun is at {:+.1f} h. Its place or its zone is wrong.",
        *weather.clock_offset_h, std::abs(longitude_deg), longitude_deg < 0 ? "west" : "east",
        longitude_deg / 15));
    return;
  }
  if (!weather.sun_middle_h || weather.days.size() < kFewestDays) return;
  const double noon = 12 + ahead + weather.told_sun_offset_h.value_or(0);
  const double late = *weather.sun_middle_h - noon;
  if (std::abs(late) > kOddSun_h)
    out.push_back(fmt::format(
        "The light in the weather file comes {:.1f} h too {} for its longitude and clocks. Sums of "
        "days may still be right; its hours are not.",
        std::abs(late), late > 0 ? "late" : "early"));
}

std::string days(std::size_t n) { return n == 1 ? "a day" : fmt::format("{} days", n); }

/// Days with more than the garden's sky has: told if they are more than a slip or two.
void doubt_sky(const climate::Weather& weather, Angle latitude, std::vector<std::string>& out) {
  std::size_t too_sunny = 0, too_bright = 0;
  for (const climate::WeatherDay& day : weather.days) {
    if (!day.sunshine_h && !day.global_mj_m2) continue;
    const climate::Sky sky = climate::sky_of_day(latitude, day_of_year(day.date));
    if (day.sunshine_h && *day.sunshine_h > sky.day_length_h + 1) ++too_sunny;
    if (day.global_mj_m2 && *day.global_mj_m2 > sky.extraterrestrial_mj_m2_d * 1.02 + 1)
      ++too_bright;
  }
  const double few = kOddDays_share * static_cast<double>(weather.days.size());
  if (static_cast<double>(too_sunny) > few)
    out.push_back(
        fmt::format("On {} the weather file has more sunshine than the garden's day is long.",
                    days(too_sunny)));
  if (static_cast<double>(too_bright) > few)
    out.push_back(
        fmt::format("On {} the weather file has more radiation than reaches the air "
                    "above the garden.",
                    days(too_bright)));
}

}  // namespace

std::vector<std::string> file_doubts(const climate::Weather& weather, Angle latitude,
                                     Angle longitude, Length elevation, Units units) {
  std::vector<std::string> out;
  doubt_place(weather, latitude, longitude, elevation, units, out);
  doubt_clocks(weather, out);
  doubt_sky(weather, latitude, out);
  return out;
}

}  // namespace spadework::exchange
