#include "light/caster_run.h"

#include <algorithm>
#include <bit>

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

OpenBeams::OpenBeams(const Standing& standing, const Kernels& kernels, Tile tile,
                     const TileCaster& caster)
    : standing_(standing),
      kernels_(kernels),
      caster_(caster),
      is_whole_(tile.columns == standing.grid().columns && tile.rows == standing.grid().rows) {
  const double half_columns = (standing.grid().columns - 1) / 2.0;
  const double half_rows = (standing.grid().rows - 1) / 2.0;
  grid_ = {half_columns, half_rows, half_columns, half_rows};
  may_fall_.resize(standing.boxes().x.size() / 64 + 1);
}

bool OpenBeams::has(const Beam& beam) {
  if (is_whole_) return caster_.nothing_may_fall();
  const BoxRows boxes = standing_.boxes().rows();
  kernels_.may_fall(boxes, beam.shift, grid_, may_fall_.data());
  for (std::size_t word = 0; word * 64 < boxes.n; ++word) {
    for (std::uint64_t bits = may_fall_[word]; bits != 0; bits &= bits - 1) {
      const std::size_t body = word * 64 + static_cast<std::size_t>(std::countr_zero(bits));
      if (standing_.bodies()[body].body->depth_on(beam.day_of_year) > 0) return false;
    }
  }
  return true;
}

LeafStates leaf_states(const Standing& standing) {
  constexpr std::array<int, 12> kMiddles{16, 46, 75, 106, 136, 167, 197, 228, 259, 289, 320, 350};
  LeafStates states;
  std::vector<std::vector<float>> seen;
  for (std::size_t month = 0; month < kMiddles.size(); ++month) {
    std::vector<float> depths;
    for (const CastBody& cast : standing.bodies())
      depths.push_back(cast.body->depth_on(kMiddles[month]));
    const auto same = std::find(seen.begin(), seen.end(), depths);
    states.of_month[month] = static_cast<int>(same - seen.begin());
    if (same != seen.end()) continue;
    seen.push_back(std::move(depths));
    states.days.push_back(kMiddles[month]);
  }
  return states;
}

}  // namespace spadework::light
