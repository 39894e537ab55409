// Least squares of lengths between points. For the ground room alone.
#pragma once

#include <cstddef>
#include <vector>

#include "geometry/vec.h"

namespace spadework::ground {

/// A length by tape between two points, by their numbers.
struct TapedLength {
  std::size_t from = 0, to = 0;
  double length_m = 0;
  double sigma_m = 1;
};

/// Points with some coordinates held: what is not held is to be found.
struct HeldPoints {
  std::vector<geometry::Vec2> at;  // held, or near where they are to be found
  std::vector<bool> x_held, y_held;
};

struct AdjustedPoints {
  std::vector<geometry::Vec2> at;
  /// Square metres, row after row, x and y of each point in turn; 0 where held. By the sigmas
  /// given, not by how well the lengths fit.
  std::vector<double> covariance;
  std::vector<double> corrections_m;  // adjusted less taped, one for each length
  double misfit = 0;                  // the sum of squares of corrections over sigmas
  bool settled = false;               // false: the lengths do not fix the points
  [[nodiscard]] double covariance_of(std::size_t a, std::size_t b) const {
    return covariance[a * 2 * at.size() + b];
  }
};

/// The points for which the squares of the corrections over their sigmas sum to least, from a start
/// near them; with as many lengths as unknowns, the points that the lengths give.
/// Errors: not settled if the lengths do not fix the points or the start is too far off.
/// Tested: golden/plot/trilateration; PlotAdjusted (a search without derivatives).
/// Source: [closed-form] Gauss and Newton's iteration on the normal equations.
[[nodiscard]] AdjustedPoints adjust(const HeldPoints& points,
                                    const std::vector<TapedLength>& lengths);

}  // namespace spadework::ground
