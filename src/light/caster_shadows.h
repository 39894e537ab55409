// The shadows of things one by one, under one beam after another. For the casters alone.
#pragma once

#include <bit>
#include <vector>

#include "light/caster_tile.h"
#include "light/receiver.h"

namespace spadework::light {

/// The cells of a tile that its receiver counts.
class CountedCells {
 public:
  CountedCells(const Receiver& receiver, Tile tile);

  [[nodiscard]] int count() const { return count_; }
  [[nodiscard]] const std::vector<std::uint64_t>& bits() const { return bits_; }
  /// Calls `act` with each word of the rows [first, last) of the tile that has counted cells, and
  /// the place of its first cell in the tile's sums.
  template <class Act>
  void each_word(int first, int last, Act act) const {
    for (int row = first; row < last; ++row) {
      for (int k = 0; 64 * k < tile_.columns; ++k) {
        const std::size_t at =
            static_cast<std::size_t>(row) * kRowWords + static_cast<std::size_t>(k);
        if (bits_[at] != 0)
          act(at,
              static_cast<std::size_t>(row) * tile_.stride() + static_cast<std::size_t>(64 * k));
      }
    }
  }
  template <class Act>
  void each_word(Act act) const {
    each_word(0, tile_.rows, act);
  }

 private:
  Tile tile_;
  int count_ = 0;
  std::vector<std::uint64_t> bits_;
};

/// Calls `act` with the number of each bit that is set.
template <class Act>
void each_bit(std::uint64_t bits, Act act) {
  for (; bits != 0; bits &= bits - 1) act(std::countr_zero(bits));
}

/// The shadow of one thing on one day, over the tile's rows [first_row, last_row); outside them its
/// bits and depths are 0.
struct ThingShadow {
  int thing = 0;
  int first_row = 0, last_row = 0;
  bool has_bits = false, has_depth = false;
  std::vector<std::uint64_t> bits;  // of the whole tile
  std::vector<float> depth;         // the same, in rows of Tile::stride()
};

class ThingShadows {
 public:
  /// Keeps a reference; `things`: how many there are.
  ThingShadows(const Standing& standing, Tile tile, std::size_t things, const Kernels& kernels);

  /// Casts the bodies that are there on the beam's day; all that ever are when its day is 0.
  void cast(const Beam& beam);
  /// Makes of them the things' shadows on a day.
  void set_day(int day);
  /// Whether those may differ from day to day.
  [[nodiscard]] bool changes() const;

  /// All of the day's shadows in one: bits of the whole tile, and depths, 0 where there are none.
  /// Whether there are any depths.
  bool join(std::vector<std::uint64_t>& dark, std::vector<float>& depth) const;

  /// Whether no body's shadow falls, on any day that was asked for.
  [[nodiscard]] bool none() const { return body_count_ == 0; }
  [[nodiscard]] std::size_t count() const { return count_; }
  [[nodiscard]] const ThingShadow& operator[](std::size_t i) const { return shadows_[i]; }

 private:
  /// The shadow of one body: bits, or the way through it cell by cell.
  struct BodyShadow {
    const SceneBody* body = nullptr;
    bool opaque = false;
    int first_row = 0, last_row = 0;  // of the tile
    std::vector<std::uint64_t> bits;
    std::vector<float> way;
  };
  void clear(BodyShadow& shadow) const;
  void clear(ThingShadow& shadow) const;
  void add(const BodyShadow& body, int day);
  ThingShadow& shadow_of(int thing);

  const Standing& standing_;
  Tile tile_;
  TileCaster caster_;
  std::vector<BodyShadow> bodies_;  // the first body_count_ of them count
  std::size_t body_count_ = 0;
  std::vector<ThingShadow> shadows_;  // the first count_ of them count
  std::size_t count_ = 0;
  std::vector<int> at_;  // by thing: its place in shadows_, or −1
};

}  // namespace spadework::light
