// The outlines of solids as the sun sees them: which corners bound a shadow, in order. For the
// caster alone.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "light/caster_grid.h"
#include "light/caster_kernels.h"

namespace spadework::light {

/// A solid's outline depends only on which of its faces are lit: each is worked out once and kept.
/// For one thread.
class Outlines {
 public:
  /// Keeps references. Columns are counted from `first_column` of the grid.
  Outlines(const Standing& standing, int first_column, const Kernels& kernels);

  /// The outline of a body with corners; holds until the next call. Nothing (n = 0) when the beam
  /// sees it as a line.
  [[nodiscard]] Outline of(std::size_t body, const Beam& beam);
  /// The most corners that an outline can have.
  [[nodiscard]] std::size_t most() const { return most_; }

 private:
  struct Known {
    std::uint64_t lit = 0;
    std::size_t at = 0;  // in x_, y_, w_
    int n = 0;
  };
  struct Seen {  // a corner as the beam projects it
    double x = 0, y = 0;
    std::uint32_t corner = 0;
  };

  /// Around the faces that are lit, anticlockwise; false when they do not tell one ring.
  bool ring_of_faces(const CastBody& cast, std::uint64_t lit, const Beam& beam);
  /// The convex hull of the corners.
  void ring_of_corners(const CastBody& cast, const Beam& beam);
  /// Writes ring_ at the end of x_, y_, w_.
  Known keep_ring(const CastBody& cast);
  [[nodiscard]] Outline outline(const Known& known) const {
    return {x_.data() + known.at, y_.data() + known.at, w_.data() + known.at, known.n};
  }

  const Standing& standing_;
  int first_column_;
  const Kernels& kernels_;
  std::size_t most_ = 0;
  std::vector<std::vector<Known>> known_;  // by body, the last asked for first
  std::vector<double> x_, y_, w_;
  std::vector<std::uint32_t> ring_;
  std::vector<Seen> seen_;
  std::vector<std::uint32_t> next_;  // two for each corner
};

}  // namespace spadework::light
