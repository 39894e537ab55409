// One direction after another over a receiver, row by row. What is made of a row (sun counted,
// light summed) is the caller's business. For the caster alone.
#pragma once

#include <vector>

#include "light/caster_chords.h"
#include "light/caster_grid.h"
#include "light/caster_kernels.h"

namespace spadework::light {

/// One row of cells under one beam.
struct BeamRow {
  std::uint64_t* dark = nullptr;   // bit k: something opaque stands before cell k; the caller may
                                   // set more
  const float* depth = nullptr;    // optical depth of what lets light through …
  int deep_from = 0, deep_to = 0;  // … for these cells, multiples of 8; 0 for all others, and not
                                   // always told for dark ones
};

class RowCaster {
 public:
  /// For the rows [first_row, last_row) of a receiver. Keeps a reference to `standing`.
  RowCaster(const Standing& standing, int first_row, int last_row, const Kernels& kernels);

  /// Casts the shadows of one beam. False when every cell is dark: then there are no rows to ask.
  [[nodiscard]] bool cast(const Beam& beam);
  /// A row of the beam cast last; ask for each row once.
  [[nodiscard]] BeamRow row(int row) {
    if (falling_count_ == 0) return {dark_row(row), depth_.data(), 0, 0};
    return row_with_depth(row);
  }

  /// 64-bit words in a row of `dark`: 1 or a multiple of 4.
  [[nodiscard]] std::size_t words() const { return words_; }

 private:
  struct Span {
    int from = 0, to = 0;  // columns [from, to)
  };
  enum class Way {
    kSkin,    // the same depth throughout the shadow
    kBulge,   // an ellipsoid that stands clear of the plane
    kChords,  // the stretch inside, cell by cell
  };
  /// A see-through body whose shadow falls on the receiver.
  struct Falling {
    const CastBody* cast = nullptr;
    Way way = Way::kSkin;
    float depth = 0;  // per crossing or per metre
    Traced rows;
    std::size_t first_span = 0;
    EllipseShadow ellipse;
    Passage passage;
  };

  /// The shadow's spans, added at the end of from_ and to_.
  Traced trace(std::size_t body, const Beam& beam, const EllipseShadow* ellipse);
  void trace_ellipse(std::size_t body, const Beam& beam, const EllipseShadow& ellipse,
                     Traced& traced);
  bool darken(std::size_t body, const Beam& beam);
  void darken_by_chords(const geometry::RoundSolid& round, const Beam& beam, const Traced& rows,
                        std::size_t first_span);
  void note_falling(std::size_t body, float depth, const Beam& beam);
  [[nodiscard]] BeamRow row_with_depth(int row);
  void add_depth(Falling& falling, int row, Span span);
  [[nodiscard]] std::uint64_t* dark_row(int row) {
    return dark_.data() + static_cast<std::size_t>(row - cells_.first_row) * words_;
  }

  const Standing& standing_;
  const Kernels& kernels_;
  Cells cells_;
  std::size_t words_;
  std::vector<std::uint64_t> dark_;
  std::vector<std::uint64_t> may_fall_;
  std::vector<std::int32_t> from_,
      to_;                        // spans of shadows, one after another; a few places to spare
  std::size_t spans_ = 0;         // how many of them count
  std::vector<Falling> falling_;  // the first falling_count_ of them count
  std::size_t falling_count_ = 0;
  Passage passage_;
  std::vector<float> depth_, chord_m_;
  std::vector<double> room_doubles_;
  std::vector<std::uint64_t> room_words_;
  std::vector<std::int32_t> room_ints_;
  TraceRoom room_{};
};

}  // namespace spadework::light
