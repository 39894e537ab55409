#include "light/caster_run.h"

#include <algorithm>

namespace spadework::light {

std::vector<Tile> tiles_of(const Grid& grid) {
  constexpr int kMostRows = 192;  // a tile's bits and sums stay near
  const int across = (grid.columns + kTileColumns - 1) / kTileColumns;
  const int wide = ((grid.columns + across - 1) / across + 7) / 8 * 8;
  const int bands = (grid.rows + kMostRows - 1) / kMostRows;
  std::vector<Tile> tiles;
  for (int band = 0; band < bands; ++band) {
    const int first = grid.rows * band / bands, last = grid.rows * (band + 1) / bands;
    for (int column = 0; column < grid.columns; column += wide)
      tiles.push_back({column, std::min(wide, grid.columns - column), first, last - first});
  }
  return tiles;
}

LeafStates leaf_states(std::initializer_list<const Standing*> standings) {
  constexpr std::array<int, 12> kMiddles{16, 46, 75, 106, 136, 167, 197, 228, 259, 289, 320, 350};
  LeafStates states;
  std::vector<std::vector<float>> seen;
  for (std::size_t month = 0; month < kMiddles.size(); ++month) {
    std::vector<float> depths;
    for (const Standing* standing : standings) {
      for (const CastBody& cast : standing->bodies())
        depths.push_back(cast.body->depth_on(kMiddles[month]));
    }
    const auto same = std::find(seen.begin(), seen.end(), depths);
    states.of_month[month] = static_cast<int>(same - seen.begin());
    if (same != seen.end()) continue;
    seen.push_back(std::move(depths));
    states.days.push_back(kMiddles[month]);
  }
  return states;
}

}  // namespace spadework::light
