#include "climate/confidence.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace spadework::climate {
namespace {

// Rows: 25, 50, 100, 200, 400, 800, 1200 km; columns: 0 (under 100 m), 200 (to 300 m), 500 m
// (more). How they were made: row 25 predicts each station from all others and takes those whose
// nearest counts as under 33 km; row D predicts it from those that count as D km or farther and
// takes it if the nearest is under 1.3 D. Each cell is the 68.27th percentile of the months'
// absolute errors (of highest and lowest temperature together; of sunshine over the day's length),
// or the nearer or leveller cell's where that is larger or the cell has fewer than 20 errors.
constexpr ErrorTable kTemperature_k = {{{0.78, 0.82, 0.96},
                                        {0.78, 0.85, 1.74},
                                        {0.90, 1.19, 1.83},
                                        {1.10, 1.40, 2.17},
                                        {1.58, 1.83, 2.59},
                                        {2.60, 2.86, 3.29},
                                        {3.73, 4.04, 4.33}}};
constexpr ErrorTable kSunshineShare = {{{0.029, 0.030, 0.030},
                                        {0.029, 0.030, 0.032},
                                        {0.036, 0.042, 0.054},
                                        {0.047, 0.055, 0.071},
                                        {0.066, 0.066, 0.084},
                                        {0.090, 0.102, 0.107},
                                        {0.117, 0.117, 0.138}}};
/// Where a value lies among rising nodes: the node below and how far towards the next; beyond the
/// last, over 1.
template <std::size_t N>
std::pair<std::size_t, double> between(const std::array<double, N>& nodes, double at) {
  std::size_t i = 0;
  while (i + 2 < N && at > nodes[i + 1]) ++i;
  return {i, std::max(0.0, (at - nodes[i]) / (nodes[i + 1] - nodes[i]))};
}

}  // namespace

const ErrorTable& temperature_errors() { return kTemperature_k; }
const ErrorTable& sunshine_errors() { return kSunshineShare; }

double swing_share(double stations_error) {
  const double stations = stations_error * stations_error;
  const double swing = kSwingError * kSwingError;
  const double both = kErrAlike * stations_error * kSwingError;
  return std::clamp((stations - both) / (stations + swing - 2 * both), 0.0, 1.0);
}

double sunshine_error(double swing_share, double stations_error) {
  const double stations = (1 - swing_share) * stations_error;
  const double swing = swing_share * kSwingError;
  return std::sqrt(stations * stations + swing * swing + 2 * kErrAlike * stations * swing);
}

double error_at(const ErrorTable& table, double far_km, double height_m) {
  const auto [row, down] = between(kFar_km, far_km);
  const auto higher = between(kHigher_m, std::abs(height_m));
  const auto along = [&](const std::array<double, kHigher_m.size()>& errors) {
    return errors[higher.first] + higher.second * (errors[higher.first + 1] - errors[higher.first]);
  };
  return along(table[row]) + down * (along(table[row + 1]) - along(table[row]));
}

std::optional<double> tried_error_at(const ErrorTable& table, double far_km, double height_m) {
  if (far_km > kFarthestTried_km) return std::nullopt;
  return error_at(table, far_km, height_m);
}

}  // namespace spadework::climate
