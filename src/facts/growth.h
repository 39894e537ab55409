// Growth by date: when a crop stands, how tall, and how much of the beam its leaves take.
#pragma once

#include <optional>

#include "facts/leaves.h"

namespace spadework::facts {

enum class GrowthWay {
  kSown,      // sown or planted, grows, is gone after the harvest
  kDiesDown,  // comes from the ground each spring and dies down to it
  kWoody,     // keeps its height; its leaves come and go
  kEvergreen  // the same all year
};
[[nodiscard]] std::string_view growth_way_name(GrowthWay way);  // "sown", "dies down", …

/// Lengths of the four stages, in days, as FAO-56 cuts a crop's life: from planting to a tenth of
/// full cover; on to full cover; on to the start of maturity; on to the harvest.
/// Source: [fao56] chapter 6.
struct Stages {
  double initial_d = 0, development_d = 0, mid_d = 0, late_d = 0;
  [[nodiscard]] double sum_d() const { return initial_d + development_d + mid_d + late_d; }
};

/// How a crop grows through an ordinary year of the northern hemisphere at `reference_latitude`,
/// near sea level.
struct Growth {
  GrowthWay way = GrowthWay::kSown;
  /// Of full growth: square metres of leaf (one side) over a square metre of the ground that the
  /// plant covers; of what climbs or is trained flat, over a square metre of its face.
  Fact<double> leaf_area;
  /// Optical depth for the direct beam of a square metre of leaf in a cubic metre, per metre: the K
  /// of Beer and Lambert's law. Source: [monsi1953]
  Fact<double> extinction;
  Fact<double> bare_share;  // of that depth, what stems and twigs keep without leaves; woody ones
  Fact<double> foot_share;  // of the height, what is bare stem below the leaves
  Fact<YearDay> planted;    // of what is sown: out in the garden, sown or planted
  Fact<Stages> stages;      // of what is sown
  bool fades = false;       // of what is sown: its leaves dwindle to none through the late stage
  std::optional<Fact<YearDay>> until;  // of what is sown: no later than this, as after a frost
  LeafDates leaves;                    // of what dies down (up, full grown, failing, gone) or woody
  Fact<Angle> reference_latitude;
};

/// The growth at a place. Leaf dates move as `leaf_dates_at` has it. What is planted in the first
/// seven months moves as spring does, later as autumn does, but by no more than three weeks either
/// way: growers follow their frosts more than their latitude (from memory). `until` moves as autumn
/// does. Moved dates stand as derived.
[[nodiscard]] Growth growth_at(Growth growth, const LeafPlace& place);

/// The growth at a place (from `growth_at`) when it is planted there on that calendar day,
/// whichever hemisphere it lies in; without effect on what is not sown.
[[nodiscard]] Growth planted_on(Growth growth, int day_of_year, bool southern);

/// How far a crop is on a day.
struct Grown {
  double height = 0;  // share of the full height, 0 (not there) to 1
  double depth = 0;   // share of full growth's optical depth within that height, 0 to 1
};
/// What is sown reaches a tenth of its height by the end of the initial stage and all of it by the
/// end of development, in straight lines, as FAO-56 has the cover of the ground; what dies down
/// grows as its leaves unfold, and fails at its full height.
/// In:  day_of_year as `leaf_share`; `southern` turns the year by half.
/// Out: never fails.
[[nodiscard]] Grown grown(const Growth& growth, int day_of_year, bool southern);

}  // namespace spadework::facts
