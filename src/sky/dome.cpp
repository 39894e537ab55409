#include "sky/dome.h"

#include <cmath>
#include <numbers>

namespace spadework::sky {

std::vector<geometry::Vec3> cosine_dome(int n) {
  const double golden_angle = std::numbers::pi * (3 - std::sqrt(5.0));
  std::vector<geometry::Vec3> dome;
  for (int i = 0; i < n; ++i) {
    const double square = (i + 0.5) / n, turn = golden_angle * i;
    const double r = std::sqrt(square);
    dome.push_back({r * std::cos(turn), r * std::sin(turn), std::sqrt(1 - square)});
  }
  return dome;
}

}  // namespace spadework::sky
