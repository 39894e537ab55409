#include "ground/adjust.h"

#include <algorithm>
#include <cmath>

namespace spadework::ground {
namespace {

using geometry::Vec2;

/// The symmetric normal equations N x = t of up to a few dozen unknowns.
struct Normal {
  std::size_t n;
  std::vector<double> matrix, right;
  explicit Normal(std::size_t unknowns) : n(unknowns), matrix(n * n, 0), right(n, 0) {}
  double& at(std::size_t i, std::size_t j) { return matrix[i * n + j]; }
};

/// Replaces N by its lower Cholesky factor; false if it is not positive definite.
bool factorise(Normal& normal) {
  for (std::size_t j = 0; j < normal.n; ++j) {
    const double whole = normal.at(j, j);
    double rest = whole;
    for (std::size_t k = 0; k < j; ++k) rest -= normal.at(j, k) * normal.at(j, k);
    if (!(rest > 1e-13 * whole)) return false;
    normal.at(j, j) = std::sqrt(rest);
    for (std::size_t i = j + 1; i < normal.n; ++i) {
      double sum = normal.at(i, j);
      for (std::size_t k = 0; k < j; ++k) sum -= normal.at(i, k) * normal.at(j, k);
      normal.at(i, j) = sum / normal.at(j, j);
    }
  }
  return true;
}

std::vector<double> solved(Normal& factor, std::vector<double> b) {
  for (std::size_t i = 0; i < factor.n; ++i) {
    for (std::size_t k = 0; k < i; ++k) b[i] -= factor.at(i, k) * b[k];
    b[i] /= factor.at(i, i);
  }
  for (std::size_t i = factor.n; i-- > 0;) {
    for (std::size_t k = i + 1; k < factor.n; ++k) b[i] -= factor.at(k, i) * b[k];
    b[i] /= factor.at(i, i);
  }
  return b;
}

/// Of each coordinate (x and y of each point in turn) its number among the unknowns, or −1.
std::vector<int> unknowns_of(const HeldPoints& points, std::size_t& count) {
  std::vector<int> of(2 * points.at.size(), -1);
  count = 0;
  for (std::size_t i = 0; i < points.at.size(); ++i) {
    if (!points.x_held[i]) of[2 * i] = static_cast<int>(count++);
    if (!points.y_held[i]) of[2 * i + 1] = static_cast<int>(count++);
  }
  return of;
}

/// Adds one length: its derivatives are the unit vector along it, at both ends.
void add_length(Normal& normal, const TapedLength& l, const std::vector<Vec2>& at,
                const std::vector<int>& unknown) {
  const Vec2 way = at[l.to] - at[l.from];
  const double now = geometry::length(way), weight = 1 / (l.sigma_m * l.sigma_m);
  const Vec2 u = way * (1 / now);
  const std::size_t coordinate[4] = {2 * l.from, 2 * l.from + 1, 2 * l.to, 2 * l.to + 1};
  const double slope[4] = {-u.x, -u.y, u.x, u.y};
  for (int i = 0; i < 4; ++i) {
    if (unknown[coordinate[i]] < 0) continue;
    const auto row = static_cast<std::size_t>(unknown[coordinate[i]]);
    normal.right[row] += slope[i] * weight * (l.length_m - now);
    for (int j = 0; j < 4; ++j) {
      if (unknown[coordinate[j]] < 0) continue;
      normal.at(row, static_cast<std::size_t>(unknown[coordinate[j]])) +=
          slope[i] * slope[j] * weight;
    }
  }
}

Normal normal_equations(const std::vector<Vec2>& at, const std::vector<TapedLength>& lengths,
                        const std::vector<int>& unknown, std::size_t count) {
  Normal normal(count);
  for (const TapedLength& l : lengths) add_length(normal, l, at, unknown);
  return normal;
}

/// The inverse of N, spread over all coordinates.
std::vector<double> covariance_from(Normal& factor, const std::vector<int>& unknown) {
  const std::size_t size = unknown.size();
  std::vector<double> covariance(size * size, 0);
  for (std::size_t i = 0; i < size; ++i) {
    if (unknown[i] < 0) continue;
    std::vector<double> one(factor.n, 0);
    one[static_cast<std::size_t>(unknown[i])] = 1;
    const std::vector<double> column = solved(factor, one);
    for (std::size_t j = 0; j < size; ++j) {
      if (unknown[j] >= 0) covariance[j * size + i] = column[static_cast<std::size_t>(unknown[j])];
    }
  }
  return covariance;
}

}  // namespace

AdjustedPoints adjust(const HeldPoints& points, const std::vector<TapedLength>& lengths) {
  constexpr int kMostSteps = 60;
  constexpr double kSmallStep_m = 1e-9;
  std::size_t count = 0;
  const std::vector<int> unknown = unknowns_of(points, count);
  AdjustedPoints out;
  out.at = points.at;
  out.covariance.assign(unknown.size() * unknown.size(), 0);
  for (int step = 0; step < kMostSteps && !out.settled; ++step) {
    Normal normal = normal_equations(out.at, lengths, unknown, count);
    if (!factorise(normal)) return out;
    const std::vector<double> move = solved(normal, normal.right);
    double largest = 0;
    for (std::size_t i = 0; i < unknown.size(); ++i) {
      if (unknown[i] < 0) continue;
      const double by = move[static_cast<std::size_t>(unknown[i])];
      (i % 2 == 0 ? out.at[i / 2].x : out.at[i / 2].y) += by;
      largest = std::max(largest, std::abs(by));
    }
    out.settled = largest < kSmallStep_m;
  }
  Normal normal = normal_equations(out.at, lengths, unknown, count);
  if (!factorise(normal)) {
    out.settled = false;
    return out;
  }
  out.covariance = covariance_from(normal, unknown);
  for (const TapedLength& l : lengths) {
    const double correction = geometry::length(out.at[l.to] - out.at[l.from]) - l.length_m;
    out.corrections_m.push_back(correction);
    out.misfit += correction * correction / (l.sigma_m * l.sigma_m);
  }
  return out;
}

}  // namespace spadework::ground
