// The shadow caster: which of the sun's directions reach each cell of a receiver, and how much
// light they bring.
//
// Not a ray for each cell. For one direction the shadow of a convex solid on the receiving plane is
// a convex polygon: it is filled as row spans, spans are joined as bits, and the bits of many
// directions are counted at once. Crowns, hedges and screens add optical depth where their shadows
// fall. Results depend neither on the order of the bodies nor on the number of threads.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "base/progress.h"
#include "light/receiver.h"
#include "light/samples.h"
#include "light/scene.h"

namespace spadework::light {

inline constexpr int kMonths = 12;
inline constexpr int kParts = 3;  // morning, midday, afternoon

/// Which build of the innermost loops to run. They give the same bits.
enum class Backend { kAuto, kScalar, kAvx2 };

struct CastOptions {
  /// A sample counts as sunshine when its direct-normal beam is over this: the World
  /// Meteorological Organization's threshold. 0 or less takes every sample. Source: [wmo8]
  double least_beam_w_m2 = 120;
  LeftOut left_out;  // things not to cast; see leave_out()
  /// Bodies that rise no more than this above the receiving plane cast nothing on it.
  double ignore_m = 1e-6;
  int threads = 1;
  Backend backend = Backend::kAuto;  // kAvx2 on a processor without it runs as kScalar
  /// One step for each sample that is cast; the caller starts it. When cancelled, the cast stops
  /// soon and its result is not complete.
  Progress* progress = nullptr;
};

/// How many samples each cell is sunlit in, by month and part of the day.
class LitCounts {
 public:
  LitCounts() = default;
  LitCounts(int columns, int rows) : columns_(columns), rows_(rows) {}

  [[nodiscard]] int columns() const { return columns_; }
  [[nodiscard]] int rows() const { return rows_; }
  /// month 0 to 11, part 0 to 2, cell = row · columns + column.
  [[nodiscard]] std::uint32_t at(int month, int part, std::size_t cell) const {
    const auto& plane = planes_[plane_index(month, part)];
    return plane.empty() ? 0 : plane[cell];
  }
  /// Of all parts of the day together.
  [[nodiscard]] std::uint32_t of_month(int month, std::size_t cell) const {
    return at(month, 0, cell) + at(month, 1, cell) + at(month, 2, cell);
  }
  [[nodiscard]] bool any_in(int month) const {
    return !(plane(month, 0).empty() && plane(month, 1).empty() && plane(month, 2).empty());
  }
  /// All cells of a month and part; empty stands for 0 everywhere.
  [[nodiscard]] const std::vector<std::uint32_t>& plane(int month, int part) const {
    return planes_[plane_index(month, part)];
  }
  [[nodiscard]] std::vector<std::uint32_t>& plane(int month, int part) {
    return planes_[plane_index(month, part)];
  }
  /// False when the cast was cancelled: then the counts mean nothing.
  [[nodiscard]] bool complete() const { return complete_; }
  void set_incomplete() { complete_ = false; }
  friend bool operator==(const LitCounts&, const LitCounts&) = default;

 private:
  static std::size_t plane_index(int month, int part) {
    return static_cast<std::size_t>(month * kParts + part);
  }
  int columns_ = 0, rows_ = 0;
  bool complete_ = true;
  std::array<std::vector<std::uint32_t>, static_cast<std::size_t>(kMonths* kParts)> planes_;
};

/// Counts, for every cell, the samples whose sun reaches the cell's centre: the beam is over the
/// threshold and falls on the face of the receiver, nothing opaque stands in its way, and what lets
/// light through leaves at least a half of it.
/// In:     samples in any number and order; one whose direction is no direction is passed over.
///         What stands in cells that the receiver does not count means nothing.
/// Out:    4 bytes for each cell, month and part that has samples. A centre on the very edge of a
///         shadow is in it on the edge's left and lower sides only.
/// Errors: none; a sample's month beyond 11 or part beyond 2 is a broken invariant.
/// Source: closed form (parallel projection); Beer–Lambert for crowns. [closed-form]
[[nodiscard]] LitCounts cast(const Scene& scene, const Receiver& receiver,
                             std::span<const SunSample> samples, const CastOptions& options = {});

/// The sun of every cell as counts, and as light.
struct BeamLight {
  LitCounts lit;
  /// Sums of SunSample::light that reach a cell's own plane: mol/m², by month (empty without
  /// samples) and cell.
  std::array<std::vector<float>, kMonths> beam_mol_m2;
};

/// As cast(), and the light that each sample's beam brings: SunSample::light times the share that
/// comes through times the cosine to the receiving plane. The threshold concerns the counts alone.
/// Source: closed form; Beer–Lambert for crowns. [closed-form]
[[nodiscard]] BeamLight cast_light(const Scene& scene, const Receiver& receiver,
                                   std::span<const SunSample> samples,
                                   const CastOptions& options = {});

}  // namespace spadework::light
