// A plot from its four sides and a diagonal by tape, or both diagonals.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "base/measures.h"
#include "base/result.h"
#include "geometry/polygon.h"
#include "ground/measured.h"

namespace spadework::ground {

/// Six lengths by their numbers: sides 0 to 3 (corner 1 to 2, 2 to 3, 3 to 4, 4 to 1), 4 the
/// diagonal from corner 1 to 3, 5 the diagonal from corner 2 to 4.
inline constexpr int kFirstDiagonal = 4, kSecondDiagonal = 5;
/// `/sides_m/0` … `/sides_m/3`, `/diagonal_m`, `/second_diagonal_m`.
[[nodiscard]] std::string length_pointer(int number);

struct PlotByTape {
  std::array<Length, 4> sides;
  Length diagonal;
  std::optional<Length> second_diagonal;
  Units units = Units::kMetric;  // what the tape is read in: for messages, and for likely slips
};

/// Where a corner is and how sure that is. The first corner is held at 0, 0 and the second on the
/// page's x, so that all the plot's error shows in the others.
struct PlotCorner {
  geometry::Vec2 at;        // metres
  Length sigma_x, sigma_y;  // one standard deviation along the page's axes
  Length sigma_most;        // along the direction in which it is largest
  Angle most_along;         // that direction, anticlockwise from the page's x, −90 to 90°
};

/// A slip of the hand that would make a length fit.
enum class Slip { kNone, kWholeUnit, kTenUnits, kDigitsSwapped };
[[nodiscard]] std::string_view slip_name(Slip slip);  // `none`, `whole_unit`, …

/// A length that, mistaken alone, would explain that the six do not fit.
struct Suspect {
  int number = 0;
  Length taped;
  Measured<Length> fits;  // what it would have to be, by the other five
  Slip slip = Slip::kNone;
};

/// What the second diagonal says of the other five lengths.
struct PlotCheck {
  Measured<Length> misclosure;  // the second diagonal as taped less as the other five give it
  double in_sigmas = 0;         // the misclosure over its sigma
  bool fits = true;             // within `kFitsWithin` sigmas
  std::array<Length, 6> adjusted;
  /// If they do not fit: the likeliest first. Lengths that a usual slip would mend stand before
  /// the others, then those that need the least change. One length more than needed cannot tell
  /// for sure which is mistaken: tape the first of them again.
  std::vector<Suspect> suspects;
};
inline constexpr double kFitsWithin = 3;  // common practice: 3 in 1,000 good plots are doubted

struct PlotRemedy {
  Better by = Better::kSecondDiagonal;
  std::string at;  // JSON pointer to the length, or empty
  Length corner_sigma_after;
  Measured<Area> area_after;
};

struct MeasuredPlot {
  std::array<PlotCorner, 4> corners;
  std::array<double, 64> covariance;  // m²: x and y of each corner in turn
  Measured<Area> area;
  Length corner_sigma;        // of the corner that is least sure
  std::optional<int> hollow;  // the corner (0 to 3) at which the plot is bent inwards
  std::optional<PlotCheck> check;
  std::vector<PlotRemedy> remedies;  // what would make the corners surer, best first
  [[nodiscard]] geometry::Polygon outline() const;
};

/// The plot that the lengths give: the first side along the page's x, the plot above it, as the
/// document's `sides_m` and `diagonal_m` are read. With both diagonals the six lengths are adjusted
/// by least squares.
/// In:     plan lengths (not along a slope: `plan_length`), 0.1 to 2000 m.
/// Out:    corners, area and their sigmas; sigmas grow by as much as the six lengths do not fit.
///         With one diagonal, corners 2 and 4 are on its two sides; a plot that is hollow at corner
///         2 or 4 is found by the second diagonal alone, and only an outline can say it in the
///         document (`hollow` is then 1 or 3).
/// Errors: kImpossibleValue at the length concerned: out of range, a side longer than the other
///         three together, a diagonal too long or too short for two sides; kNoAnswer if three
///         corners lie in one line as far as the tape can tell; kCrossedOutline if the six lengths
///         fit only a plot that crosses itself (corners taken out of order).
/// Tested: PlotByTape (closed forms), golden/plot/trilateration, PlotAdjusted (a search without
///         derivatives), FirstMeasures (simulated plots).
/// Source: [closed-form] the law of cosines, weighted least squares, and propagation of errors by
///         the Jacobian; [shoelace] the area.
[[nodiscard]] Result<MeasuredPlot> plot_by_tape(const PlotByTape& taped,
                                                const TapeErrors& tape = {});

/// The plan length of a tape laid along a slope that rises or falls by `rise` from end to end.
/// Errors: kImpossibleValue at `/rise_m` if it rises by as much as the tape is long.
/// Tested: PlanLength. Source: [closed-form] Pythagoras.
[[nodiscard]] Result<Length> plan_length(Length along_the_ground, Length rise);

}  // namespace spadework::ground
