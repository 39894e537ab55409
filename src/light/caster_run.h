// What the casts of sun, sky and takers share. For the casters alone.
#pragma once

#include <array>
#include <initializer_list>
#include <vector>

#include "light/caster.h"
#include "light/caster_tile.h"

namespace spadework::light {

[[nodiscard]] inline const Kernels& kernels_for(Backend backend) {
  return backend != Backend::kScalar && has_avx2() ? avx2_kernels() : scalar_kernels();
}

/// Parts of a grid, alike in size; the same whatever the threads, so that sums are too.
[[nodiscard]] std::vector<Tile> tiles_of(const Grid& grid);

/// The states of the leaves of all these that differ among the months, each as that of a month's
/// middle.
struct LeafStates {
  std::array<int, 12> of_month{};
  std::vector<int> days;  // by state: a day of the year
};
[[nodiscard]] LeafStates leaf_states(std::initializer_list<const Standing*> standings);

/// Calls `act` with the place in a plane of the grid and in the sums of a tile, for every cell of
/// the tile.
template <class Act>
void over_cells(const Grid& grid, const Tile& tile, Act act) {
  for (int row = 0; row < tile.rows; ++row) {
    const std::size_t cell =
        static_cast<std::size_t>(tile.first_row + row) * static_cast<std::size_t>(grid.columns) +
        static_cast<std::size_t>(tile.first_column);
    const std::size_t sum = static_cast<std::size_t>(row) * tile.stride();
    for (std::size_t k = 0; k < static_cast<std::size_t>(tile.columns); ++k) act(cell + k, sum + k);
  }
}

}  // namespace spadework::light
