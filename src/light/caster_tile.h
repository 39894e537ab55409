// One direction after another over a tile of a receiver's cells. What is made of it (sun counted,
// light summed) is the caller's business. For the caster alone.
#pragma once

#include <vector>

#include "light/caster_chords.h"
#include "light/caster_grid.h"
#include "light/caster_kernels.h"
#include "light/caster_outline.h"

namespace spadework::light {

/// A part of a grid, at most kTileColumns wide.
struct Tile {
  int first_column = 0, columns = 0, first_row = 0, rows = 0;
  [[nodiscard]] std::size_t words() const { return static_cast<std::size_t>(rows) * kRowWords; }
  [[nodiscard]] int blocks() const { return (columns + 7) / 8; }  // of 8 columns
  /// Floats in a row of sums.
  [[nodiscard]] std::size_t stride() const { return static_cast<std::size_t>(blocks()) * 8; }
};

enum class Cover {
  kOpen,   // nothing falls on the tile: all its bits are 0
  kMixed,  // the bits tell
  kDark,   // opaque things shade every cell
};

class TileCaster {
 public:
  /// Keeps references.
  TileCaster(const Standing& standing, Tile tile, const Kernels& kernels);

  /// Casts the shadows of one beam. `dark` has room for Tile::words(): its bits tell the cells
  /// before which something opaque stands, and those that the receiver does not count. It is kept
  /// for the calls below, which belong to the beam cast last and do not want kDark.
  [[nodiscard]] Cover cast(const Beam& beam, std::uint64_t* dark);
  /// Adds weight × transmission to every cell's sum; rows of Tile::stride() floats.
  void shine(float weight, float* sums);
  void shine2(float weight, float other_weight, float* sums, float* other_sums);
  /// The bodies whose shadows may fall on the tile under a beam: those that are there on its day,
  /// or with day 0 on any; holds until the next call.
  [[nodiscard]] const std::vector<std::size_t>& may_fall(const Beam& beam);
  /// The shadow of one body alone, and which rows it falls on: sets its bits when it is opaque,
  /// else adds to `way`, in rows of Tile::stride(), how many metres of it a ray passes, or 1 for a
  /// skin.
  RowRange cast_body(std::size_t body, const Beam& beam, std::uint64_t* bits, float* way);

  /// Whether any of some boxes' shadows may reach the tile.
  [[nodiscard]] bool may_reach(const Boxes& boxes, const Beam& beam);
  /// For bodies some of which were moved, the rest being see-through ones that stay: the cells that
  /// the moved ones darken of those that are not `dark` without them. False when there are none to
  /// be sure: then `newly` (with room for Tile::words()) is not to be read.
  [[nodiscard]] bool cast_moved(const Beam& beam, const std::vector<char>& moved,
                                const std::uint64_t* dark, std::uint64_t* newly);

  /// Sets the bits of the cells too that lose over half of the beam to what lets light through.
  /// After shine.
  void deepen();
  /// The cells that the receiver does not count.
  [[nodiscard]] const std::vector<std::uint64_t>& blank() const { return blank_; }

 private:
  enum class Way {
    kSkin,    // the same depth throughout the shadow
    kBulge,   // an ellipsoid that stands clear of the plane
    kChords,  // the stretch inside, cell by cell
  };
  /// A see-through body whose shadow falls on the tile.
  struct Falling {
    const CastBody* cast = nullptr;
    Way way = Way::kSkin;
    bool has_core = false;  // the spans where a ray loses over half to it alone are known
    bool stays = false;
    float depth = 0;  // per crossing or per metre
    RowRange rows;
    std::size_t first_span = 0;
    EllipseShadow ellipse;
    Passage passage;
  };

  /// Narrows open_ to the rows from the first to the last that are not wholly dark.
  void narrow_open();
  RowRange trace(std::size_t body, const Beam& beam, const EllipseShadow& ellipse, double core);
  RowRange darken(std::size_t body, const Beam& beam);
  void darken_by_chords(const geometry::RoundSolid& round, const Beam& beam, RowRange rows,
                        std::size_t first_span);
  /// `stays`: it matters only where others overlap it.
  void note_falling(std::size_t body, float depth, const Beam& beam, bool stays = false);
  void trace_core(Falling& falling);
  void note_overlaps(RowRange rows);
  void note(const Falling& falling, RowRange rows);
  [[nodiscard]] bool meets(std::size_t body, std::size_t other, const Beam& beam) const;
  /// What lets light through over the cells of a row that are asked for; none: nothing is.
  [[nodiscard]] Window window() const;
  [[nodiscard]] ThroughRow through_row(int row, const std::uint64_t* asked);
  void add_extra(Falling& falling, int row, int from, int first, int last);
  [[nodiscard]] std::size_t word_of(int row) const {
    return static_cast<std::size_t>(row - tile_.first_row) * kRowWords;
  }
  [[nodiscard]] Spans outer(std::size_t at) { return {from_.data() + at, to_.data() + at}; }
  [[nodiscard]] Spans core(std::size_t at) {
    return {core_from_.data() + at, core_to_.data() + at};
  }

  const Standing& standing_;
  const Tile tile_;
  const Kernels& kernels_;
  Outlines outlines_;
  std::uint64_t* dark_ = nullptr;
  std::uint64_t full_[kRowWords];  // a row that is wholly dark
  std::vector<std::uint64_t> blank_;
  RowRange counted_rows_;  // beyond them all is blank
  RowRange open_;
  std::vector<std::uint64_t> may_fall_;
  std::vector<std::size_t> bodies_;
  std::vector<std::int32_t> from_, to_, core_from_, core_to_;
  std::size_t spans_ = 0;         // how many of them count
  std::vector<Falling> falling_;  // the first falling_count_ of them count
  std::size_t falling_count_ = 0;
  std::vector<std::uint64_t> once_, twice_, core_, moved_,
      asked_;  // bits of see-through shadows; twice_ also
               // where one alone has to be looked at
  Passage passage_;
  std::vector<BulgeRow> bulges_;
  std::vector<float> extra_, chord_m_;
  std::vector<double> room_doubles_;
  OutlineRoom room_{};
};

}  // namespace spadework::light
