// A sun print cut into the regions that are painted alike, with their outlines and the rooms in
// them for a name. For the print's drawing alone.
#pragma once

#include <optional>
#include <vector>

#include "geometry/path.h"
#include "light/print.h"

namespace spadework::light {

/// What is painted alike. Of a place that is lit over three quarters plain yellow; from a quarter
/// on half-hatched; less in the ink of what takes the most, or of two.
struct RegionKind {
  enum class What { kLit, kHalf, kWhole };
  What what = What::kLit;
  int taker = kNoTaker, second = kNoTaker;
  int cells = 0;

  [[nodiscard]] bool striped() const { return second != kNoTaker; }
};

inline constexpr int kNoRegion = -1;  // night, weak sun, the sun behind a face

struct PrintRegions {
  std::vector<RegionKind> kinds;  // in the order of painting: lit, halves, wholes, large ones first
  std::vector<int> kind_of;       // of each cell as SunPrint::cells, or kNoRegion
};

/// Specks of a few cells are given to what lies around them: in the drawing, not in the data.
[[nodiscard]] PrintRegions regions_of(const SunPrint& print);

/// Cells of one kind that hang together by their sides.
struct Piece {
  int kind = 0;
  std::vector<int> cells;  // places in SunPrint::cells
};
[[nodiscard]] std::vector<Piece> pieces_of(const SunPrint& print, const std::vector<int>& kind_of);

/// The middle of the box of `columns` × `rows` cells that lies wholly within the piece and nearest
/// to its own middle, in columns and rows (of cells' corners); nothing when none fits.
[[nodiscard]] std::optional<geometry::Vec2> room_within(const SunPrint& print, const Piece& piece,
                                                        int columns, int rows);
/// The middle of the piece's cell that lies nearest to the mean of all.
[[nodiscard]] geometry::Vec2 heart_of(const SunPrint& print, const Piece& piece);

/// A path along the cells' sides with its small steps smoothed: a stair runs through the middles of
/// its steps. Corners of longer sides stay. `step` is a cell's size on paper.
[[nodiscard]] geometry::Path without_steps(const geometry::Path& stairs, geometry::Vec2 step);

}  // namespace spadework::light
