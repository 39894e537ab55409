// The light field: sun hours and DLI of every cell of the garden, the ground following its slope
// and beds at their own levels.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "light/moves.h"
#include "light/year.h"

namespace spadework::light {

/// What a cell of the field lies on.
inline constexpr std::int32_t kNoCell = -2;  // inside a building, on boards or outside the boundary
inline constexpr std::int32_t kOnGround = -1;  // 0, 1, …: that bed of the garden

struct Field {
  geometry::Vec2 corner;  // lower left, plan
  double cell_m = 0.1;
  int columns = 0, rows = 0;
  std::vector<std::int32_t> lies_on;  // columns × rows, row by row from the bottom
  /// Clear-sky sun hours a day of a month (0 to 11), by cell.
  std::array<std::vector<float>, 12> months;
  /// DLI under the month's cloud, mol/m² a day, by cell; empty for a year without light.
  std::array<std::vector<float>, 12> dli;

  [[nodiscard]] std::size_t index(int column, int row) const {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
           static_cast<std::size_t>(column);
  }
  [[nodiscard]] geometry::Vec2 middle(int column, int row) const {
    return corner + geometry::Vec2{(column + 0.5) * cell_m, (row + 0.5) * cell_m};
  }
};

/// The most cells a field may have.
inline constexpr long kMostFieldCells = 2'000'000;

/// The field over the boundary, or over all that is drawn where there is none.
/// Errors: kNoAnswer beyond `kMostFieldCells`, saying which cell would do.
[[nodiscard]] Result<Field> sun_field(const Scenery& scenery,
                                      const std::vector<garden::Body>& bodies, const SunYear& year,
                                      double cell_m, int threads, Progress* progress);

struct FieldBand;

struct FieldMovesOptions {
  int threads = 1;
  /// Of the year's suns every so manieth is looked at, and what changes counts as many times. 1 is
  /// exact. With 4, over the cells that change, a month's hours are off by 0.15 h a day in the mean
  /// and those of April to September together by 0.07 h; by 2 h and 0.5 h at the most.
  int every = 1;
  std::vector<int> months;  // 0 to 11, those that are wanted; none: all
  /// When it is cancelled while they are made, the moves are of no use.
  Progress* progress = nullptr;
};

/// A field whose one thing moves: the sun hours again, as quickly as moves.h can. What is measured
/// stays where it is: for a bed or a building that moves, cast the field anew.
class FieldMoves {
 public:
  /// In:     the field as sun_field() gave it; `thing`: its id, which may be new.
  FieldMoves(const Scenery& scenery, const std::vector<garden::Body>& bodies, const SunYear& year,
             const Field& field, const std::string& thing, const FieldMovesOptions& options);

  /// Writes Field::months as they are with the thing standing as these bodies: with every = 1
  /// exactly those of sun_field(). The DLI and other months are not touched.
  /// Tested: field_moves_test.cpp.
  void with(const std::vector<garden::Body>& thing, Field& field) const;

 private:
  /// Hours by the suns that are looked at, set right for all of them.
  [[nodiscard]] float with_rest(std::size_t month, std::size_t cell, float hours) const;

  SunYear year_;
  int threads_;
  std::vector<std::size_t> months_;
  std::array<std::vector<float>, 12> bare_;  // without the thing
  /// With every > 1: what to add to the hours by the suns that are looked at.
  std::array<std::vector<float>, 12> rest_;
  std::shared_ptr<const std::vector<FieldBand>> bands_;
  std::vector<Moves> moves_;
};

/// Mean of the sun hours over some months (0 to 11), weighted by their days, by cell; NaN where
/// there is no cell.
[[nodiscard]] std::vector<float> field_mean(const Field& field, const SunYear& year,
                                            const std::vector<int>& months);

/// Mean of the cells' figures over each of so many beds; nothing for a bed without cells.
[[nodiscard]] std::vector<std::optional<double>> bed_means(const Field& field,
                                                           const std::vector<float>& figures,
                                                           std::size_t beds);

}  // namespace spadework::light
