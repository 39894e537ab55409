// The caster's innermost loops, in two builds that give the same bits: plain, and for processors
// with AVX2. A tile is at most 256 columns wide; a row of its cells is 256 bits. For the caster
// alone.
#pragma once

#include <cstddef>
#include <cstdint>

namespace spadework::light {

inline constexpr int kTileColumns = 256;
inline constexpr std::size_t kRowWords = 4;  // of 64 bits
inline constexpr int kBatch = 8;             // rows of bits that are counted at once
inline constexpr int kCountBits = 8;         // a tally holds up to 255

/// Where a beam falls: the shadow of a point at (x, y, w) lies at (x − x_per_w w, y − y_per_w w).
struct Shift {
  double x_per_w = 0, y_per_w = 0;
};

/// The boxes of n bodies (n a multiple of 4) by middles and half sizes: x and y in cells, w above
/// the receiving plane.
struct BoxRows {
  const double *x, *y, *w, *half_x, *half_y, *half_w;
  std::size_t n = 0;
};

/// Cells whose centres lie within half_x of x and half_y of y.
struct Window {
  double x = 0, y = 0, half_x = 0, half_y = 0;
};

/// Faces of a solid by their normals; n a multiple of 4, at most 64.
struct FaceRows {
  const double *x, *y, *z;
  std::size_t n = 0;
};

/// The corners around a convex shadow, in order; n + 4 places, the first four again at the end.
struct Outline {
  const double *x, *y, *w;
  int n = 0;
};

/// Rows [first, last) and columns [0, columns) of a tile.
struct TileRows {
  int columns = 0, first = 0, last = 0;
};

/// A convex shadow between lines: x = at0 + row × slope. Room for as many as there are corners.
struct Sides {
  double *at0, *slope;
};
/// Room to work in: the outline's corners on the plane (n + 4 places) and its two flanks.
struct OutlineRoom {
  double *x, *y;
  Sides left, right;
};

/// Which rows [first, last) a shadow falls on.
struct RowRange {
  int first = 0, last = 0;
  [[nodiscard]] bool empty() const { return first >= last; }
};

/// The shadow of an ellipsoid: in a row its centre lies at centre0 + row × centre_step, and with
/// side = side0 + row × side_step it reaches √(1 − side²) × half to either side, and no further
/// than the bounds. Its core, of which each ray loses over a half by itself, reaches
/// √(core − side²) × half; core <= 0: none.
struct EllipseRows {
  double centre0 = 0, centre_step = 0, side0 = 0, side_step = 0, half = 0, core = 0;
  double low = 0, high = 0;
};

/// The columns [from, to) of each row; room for 4 more than there are rows.
struct Spans {
  std::int32_t *from, *to;
};

/// A crown over one row: depth = √max(0, peak − fall (column − centre)²) in the blocks of 8
/// columns [first_block, last_block), 0 outside.
struct BulgeRow {
  float centre = 0, peak = 0, fall = 0;
  int first_block = 0, last_block = 0;
};
/// What lets light through over one row. `extra`, where not null, holds depth cell by cell.
struct ThroughRow {
  const BulgeRow* bulges = nullptr;
  int n = 0;
  const float* extra = nullptr;
};

/// How the bulge of a round body bounds the stretch of a ray inside it.
enum class Bulge {
  kNone,     // not round
  kBetween,  // between middle − half and middle + half
  kBefore,   // before middle − half: steeply up out of a cone
  kAfter,    // after middle + half: steeply down into a cone
};

/// Bounds of the stretch inside a body for the cells of one row: for the k-th cell every line is
/// at0[f] + k step[f], the middle mid0 + k mid_step, and half² = half0 + k (half1 + k half2).
struct ChordRow {
  const double *near_at0 = nullptr, *near_step = nullptr;
  const double *far_at0 = nullptr, *far_step = nullptr;
  std::size_t nears = 0, fars = 0;
  Bulge bulge = Bulge::kNone;
  double mid0 = 0, mid_step = 0, half0 = 0, half1 = 0, half2 = 0;
};

struct Kernels {
  /// One bit for each box whose shadow may reach the window.
  void (*may_fall)(const BoxRows& boxes, Shift shift, const Window& window, std::uint64_t* bits);
  /// One bit for each face that the beam meets from the front.
  std::uint64_t (*facing)(const FaceRows& faces, double x, double y, double z);
  /// Sets the bits of the cells in an outline's shadow, and tells its rows. `dark` begins with the
  /// row `rows.first`.
  RowRange (*shade_outline)(const Outline& outline, Shift shift, TileRows rows,
                            const OutlineRoom& room, std::uint64_t* dark);
  /// The same as spans, from the first row of the result on.
  RowRange (*trace_outline)(const Outline& outline, Shift shift, TileRows rows,
                            const OutlineRoom& room, Spans spans);
  /// The spans of an ellipse and of its core over the rows.
  void (*trace_ellipse)(const EllipseRows& ellipse, TileRows rows, Spans outer, Spans core);
  /// The spans between the first `lefts` and `rights` flanks of `room` over the rows.
  void (*trace_between)(int lefts, int rights, TileRows rows, const OutlineRoom& room, Spans spans);
  /// Sets the bits of one span a row.
  void (*shade)(Spans spans, int rows, std::uint64_t* dark);
  /// once: in some span; twice: in two or more.
  void (*note)(Spans spans, int rows, std::uint64_t* once, std::uint64_t* twice);

  /// Adds kBatch rows of bits, `words` words each (a multiple of 4), to `tally`: kCountBits planes
  /// of `words` words.
  void (*count)(const std::uint64_t* const* bits, std::size_t words, std::uint64_t* tally);
  /// Adds the tally of one row (planes `plane_words` apart) to counts by cell, in blocks of 8.
  void (*untally)(const std::uint64_t* tally, std::size_t plane_words, int blocks,
                  std::uint32_t* counts);
  /// For moved bodies, word by word (a multiple of 4): newly = (newly | core in moved) less dark;
  /// asked = twice in moved less dark and newly.
  void (*settle)(std::size_t words, const std::uint64_t* core, const std::uint64_t* twice,
                 const std::uint64_t* moved, const std::uint64_t* dark, std::uint64_t* newly,
                 std::uint64_t* asked);

  /// chord_m[k] = the stretch inside, at least 0, for k in [first, last); may write up to 3 before
  /// and after.
  void (*chords)(const ChordRow& row, int first, int last, float* chord_m);
  /// Sets the bits of those cells of `asked` whose depth is over `most`.
  void (*deepen)(const ThroughRow& through, const std::uint64_t* asked, int blocks, float most,
                 std::uint64_t* dark);
  /// depth[k] += the depth of `through` over the columns of the blocks [first, last).
  void (*add_depth)(const ThroughRow& through, int first, int last, float* depth);
  /// passed[k] = e^−max(0, depth − without) for n cells, a multiple of 8; `without` may be null.
  void (*transmit)(const float* depth, const float* without, int n, float* passed);
  /// The sum of the values of a row's cells whose bits are set.
  float (*sum_where)(const float* values, const std::uint64_t* bits, int blocks);
  /// The bits of a row's cells whose depth, less `without` (which may be null), is over `most`.
  void (*bits_over)(const float* depth, const float* without, int blocks, float most,
                    std::uint64_t* bits);
  /// sum[k] += weight × e^−depth over the cells whose bit in `dark` is not set; `veiled` has the
  /// bits of all cells with any depth.
  void (*shine)(const ThroughRow& through, const std::uint64_t* dark, const std::uint64_t* veiled,
                int blocks, float weight, float* sum);
  /// The same for two sums at once.
  void (*shine2)(const ThroughRow& through, const std::uint64_t* dark, const std::uint64_t* veiled,
                 int blocks, float weight, float other_weight, float* sum, float* other_sum);
};

[[nodiscard]] const Kernels& scalar_kernels();
/// Only where the processor has AVX2 (see has_avx2).
[[nodiscard]] const Kernels& avx2_kernels();
[[nodiscard]] bool has_avx2();

}  // namespace spadework::light
