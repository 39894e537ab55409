#include "light/caster_run.h"

#include <algorithm>

namespace spadework::light {

std::vector<Tile> tiles_of(const Grid& grid, int least) {
  constexpr int kMostRows = 192, kLeastRows = 16;  // a tile's bits and sums stay near
  const int across = (grid.columns + kTileColumns - 1) / kTileColumns;
  const int wide = ((grid.columns + across - 1) / across + 7) / 8 * 8;
  const int wanted =
      std::max((grid.rows + kMostRows - 1) / kMostRows, (least + across - 1) / across);
  const int bands = std::clamp(wanted, 1, std::max(1, grid.rows / kLeastRows));
  std::vector<Tile> tiles;
  for (int band = 0; band < bands; ++band) {
    const int first = grid.rows * band / bands, last = grid.rows * (band + 1) / bands;
    for (int column = 0; column < grid.columns; column += wide)
      tiles.push_back({column, std::min(wide, grid.columns - column), first, last - first});
  }
  return tiles;
}

}  // namespace spadework::light
