// Hatches and stipples as the pen makes them: lines cut at an outline, and dots that never move.
// Every back end prints these same lines and dots.
#pragma once

#include <cstdint>
#include <functional>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "geometry/palette.h"
#include "geometry/path.h"

namespace spadework::geometry {

/// Parallel lines. They run through `anchor`, so that hatches side by side join.
struct LineHatch {
  double angle_rad = 0;  // anticlockwise as seen, 0: level lines
  double spacing_mm = 1;
  double weight_mm = kFineMm;
  Paint ink{};
  Vec2 anchor{};
  bool crossed = false;  // and a second set at right angles
};
[[nodiscard]] LineHatch diagonal_hatch(Paint ink = Role::kInk, double spacing_mm = 0.9);  // 45°
[[nodiscard]] LineHatch level_hatch(Paint ink = Role::kInk, double spacing_mm = 0.9);
[[nodiscard]] LineHatch cross_hatch(Paint ink = Role::kInk, double spacing_mm = 1.1);  // ±45°
/// As much line as paper, 45°: a quarter to three quarters of a bed lit, on the sun print.
[[nodiscard]] LineHatch half_hatch(Paint ink);
/// Dots spread evenly without rows. The dots hang on `anchor`: they move with the thing and stay
/// where they are when its outline changes.
struct Stipple {
  double per_mm2 = 0.3;
  double dot_mm = 0.25;
  Paint ink{};
  Vec2 anchor{};
  std::uint64_t seed = 0;
  double keep_off_mm = 0.3;  // from the outline to a dot's middle
  Vec2 toward{};             // unit length, or (0, 0): as dense everywhere
  double thin_share = 0;     // of the density, at the side away from `toward`
};

/// What a closed path is filled with.
using Fill = std::variant<Paint, LineHatch, Stipple>;
/// Each taker's own hatch in its own ink, the same everywhere: `taker` counts from 0. The sixth and
/// later ones are dotted graphite, −1 is the far skyline.
[[nodiscard]] Fill taker_fill(int taker);
[[nodiscard]] Paint taker_ink(int taker);

using Segment = std::pair<Vec2, Vec2>;
/// The hatch's lines within the path, even-odd; a spacing under 0.05 mm counts as that. Over 20,000
/// lines, or a path that is not finite: none.
[[nodiscard]] std::vector<Segment> hatch_lines(const Path& path, const LineHatch& hatch);
/// The stipple's dots within the path. Over 4 million to look at, or a path that is not finite:
/// none.
[[nodiscard]] std::vector<Vec2> stipple_dots(const Path& path, const Stipple& stipple);
/// Dots of uneven density: `share(p)` from 0 to 1 of `stipple.per_mm2` (its `toward` is not used).
[[nodiscard]] std::vector<Vec2> stipple_dots(const Path& path, const Stipple& stipple,
                                             const std::function<double(Vec2)>& share);
/// A seed from a name: the same dots for the same thing. Source: [fnv]
[[nodiscard]] std::uint64_t seed_of(std::string_view name);

}  // namespace spadework::geometry
