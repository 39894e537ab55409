#include "light/caster_tally.h"

#include <algorithm>

namespace spadework::light {

Tally::Tally(Tile tile, const Kernels& kernels)
    : tile_(tile),
      kernels_(kernels),
      batch_(static_cast<std::size_t>(kBatch) * tile.words()),
      planes_(static_cast<std::size_t>(kCountBits) * tile.words()),
      counts_(static_cast<std::size_t>(tile.rows) * tile.stride()) {}

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
    kernels_.untally(planes_.data() + static_cast<std::size_t>(row) * kRowWords, tile_.words(),
                     tile_.blocks(),
                     counts_.data() + static_cast<std::size_t>(row) * tile_.stride());
  std::fill(planes_.begin(), planes_.end(), 0);
  batches_ = 0;
}

template <class Act>
void Tally::settle(int columns, Act act) {
  if (filled_ > 0) {
    std::fill(batch_.begin() + static_cast<std::ptrdiff_t>(filled_ * tile_.words()), batch_.end(),
              0);
    count_batch();
  }
  drain();
  for (int row = 0; row < tile_.rows; ++row) {
    const std::uint32_t* count = counts_.data() + static_cast<std::size_t>(row) * tile_.stride();
    const std::size_t cell =
        static_cast<std::size_t>(tile_.first_row + row) * static_cast<std::size_t>(columns) +
        static_cast<std::size_t>(tile_.first_column);
    for (std::size_t k = 0; k < static_cast<std::size_t>(tile_.columns); ++k)
      act(cell + k, count[k] + all_dark_);
  }
  std::fill(counts_.begin(), counts_.end(), 0);
  all_dark_ = 0;
}

void Tally::add_to(std::uint32_t* plane, int columns) {
  settle(columns, [plane](std::size_t cell, std::uint32_t dark) { plane[cell] += dark; });
}

}  // namespace spadework::light
