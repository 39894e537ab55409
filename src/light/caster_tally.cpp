#include "light/caster_tally.h"

#include <algorithm>

namespace spadework::light {

Tally::Tally(Tile tile, const Kernels& kernels)
    : tile_(tile),
      kernels_(kernels),
      batch_(static_cast<std::size_t>(kBatch) * tile.words()),
      planes_(static_cast<std::size_t>(kCountBits) * tile.words()),
      counts_(static_cast<std::size_t>(tile.rows) * static_cast<std::size_t>(tile.columns)) {}

void Tally::keep() {
  if (++filled_ == static_cast<std::size_t>(kBatch)) count_batch();
}

void Tally::count_batch() {
  const std::uint64_t* bits[kBatch];
  for (std::size_t k = 0; k < static_cast<std::size_t>(kBatch); ++k)
    bits[k] = batch_.data() + k * tile_.words();
  kernels_.count(bits, tile_.words(), planes_.data());
  filled_ = 0;
  constexpr int kMostBatches = ((1 << kCountBits) - 1) / kBatch;
  if (++batches_ == kMostBatches) drain();
}

void Tally::drain() {
  if (batches_ == 0) return;
  for (int row = 0; row < tile_.rows; ++row)
    kernels_.untally(
        planes_.data() + static_cast<std::size_t>(row) * kRowWords, tile_.words(), tile_.columns,
        counts_.data() + static_cast<std::size_t>(row) * static_cast<std::size_t>(tile_.columns));
  std::fill(planes_.begin(), planes_.end(), 0);
  batches_ = 0;
}

void Tally::finish() {
  if (filled_ > 0) {
    std::fill(batch_.begin() + static_cast<std::ptrdiff_t>(filled_ * tile_.words()), batch_.end(),
              0);
    count_batch();
  }
  drain();
}

void Tally::add_to(std::uint32_t* plane, int columns) {
  finish();
  const std::uint32_t* count = counts_.data();
  for (int row = tile_.first_row; row < tile_.first_row + tile_.rows; ++row) {
    std::uint32_t* cell = plane +
                          static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
                          tile_.first_column;
    for (int k = 0; k < tile_.columns; ++k) cell[k] += *count++ + all_dark_;
  }
  std::fill(counts_.begin(), counts_.end(), 0);
  all_dark_ = 0;
}

void Tally::take_from(std::uint32_t* plane, int columns) {
  finish();
  const std::uint32_t* count = counts_.data();
  for (int row = tile_.first_row; row < tile_.first_row + tile_.rows; ++row) {
    std::uint32_t* cell = plane +
                          static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
                          tile_.first_column;
    for (int k = 0; k < tile_.columns; ++k) cell[k] -= *count++ + all_dark_;
  }
  std::fill(counts_.begin(), counts_.end(), 0);
  all_dark_ = 0;
}

}  // namespace spadework::light
