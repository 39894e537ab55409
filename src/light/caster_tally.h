// Counting in how many directions each cell was dark: bits are added to bits, 256 cells at a time.
// For the caster alone.
#pragma once

#include <vector>

#include "light/caster_tile.h"

namespace spadework::light {

class Tally {
 public:
  /// Keeps a reference.
  Tally(Tile tile, const Kernels& kernels);

  /// Room for the bits of one direction; they count when kept.
  [[nodiscard]] std::uint64_t* room() { return batch_.data() + filled_ * tile_.words(); }
  void keep();
  /// One direction in which every cell was dark.
  void keep_dark() { ++all_dark_; }
  /// Adds the counts to the tile's cells of a plane `columns` wide, and starts anew.
  void add_to(std::uint32_t* plane, int columns);

 private:
  void count_batch();
  void drain();
  /// Calls `act` with each of the tile's cells and its count, and starts anew.
  template <class Act>
  void settle(int columns, Act act);

  Tile tile_;
  const Kernels& kernels_;
  std::vector<std::uint64_t> batch_, planes_;
  std::size_t filled_ = 0;
  int batches_ = 0;
  std::uint32_t all_dark_ = 0;
  std::vector<std::uint32_t> counts_;  // of full planes, by the tile's cells
};

}  // namespace spadework::light
