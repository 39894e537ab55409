// The parts of a plot by tape: what can be, what fits, what is suspect. For the ground room alone.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "ground/adjust.h"
#include "ground/plot.h"

namespace spadework::ground {

/// The ends of each of the six lengths, by corners from 0.
struct Ends {
  std::size_t from, to;
};
inline constexpr std::array<Ends, 6> kEnds = {{{0, 1}, {1, 2}, {2, 3}, {3, 0}, {0, 2}, {1, 3}}};

/// The lengths in metres by number, the sixth 0 if not taped; and their sigmas.
struct SixLengths {
  std::array<double, 6> m{}, sigma_m{};
  bool both = false;
  Units units = Units::kMetric;
};
[[nodiscard]] SixLengths six_lengths(const PlotByTape& taped, const TapeErrors& tape);

/// Whether such lengths can be a plot at all, in growers' words.
[[nodiscard]] Result<void> can_close(const SixLengths& lengths);

/// The corners by the first `count` lengths (5 or 6), from a start, corner 1 held and corner 2 on
/// the page's x.
[[nodiscard]] AdjustedPoints adjusted_corners(const geometry::Polygon& start,
                                              const SixLengths& lengths, std::size_t count);

/// The lengths that, mistaken alone, would explain a misclosure; the likeliest first.
/// In: corners by the first five lengths; the misclosure over its sigma.
[[nodiscard]] std::vector<Suspect> suspects_of(const SixLengths& lengths,
                                               const geometry::Polygon& corners, double in_sigmas);

}  // namespace spadework::ground
