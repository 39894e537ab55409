#include "light/skyline.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace spadework::light {

Angle skyline_altitude(const std::vector<garden::Ground::HorizonPoint>& horizon, Angle bearing) {
  if (horizon.empty()) return degrees(0);
  const double turn = 2 * std::numbers::pi;
  const double b = in_radians(bearing) - turn * std::floor(in_radians(bearing) / turn);
  // `horizon` is sorted by bearing: find the neighbours, going round past north.
  const auto after = std::find_if(horizon.begin(), horizon.end(), [&](const auto& point) {
    return in_radians(point.bearing) >= b;
  });
  const auto& next = after == horizon.end() ? horizon.front() : *after;
  const auto& last = after == horizon.begin() ? horizon.back() : *std::prev(after);
  double span = in_radians(next.bearing - last.bearing);
  if (span <= 0) span += turn;
  double along = b - in_radians(last.bearing);
  if (along < 0) along += turn;
  return last.altitude + (next.altitude - last.altitude) * (along / span);
}

}  // namespace spadework::light
