// The caster's innermost loops, in two builds that give the same bits: plain, and for processors
// with AVX2. For the caster alone.
#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>

#include "geometry/vec.h"
#include "light/hull.h"

namespace spadework::light {

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

/// A convex solid over a grid. The lists of corners and faces are multiples of 4 long: the last
/// corner may be repeated, and normals of 0 added.
struct HullRows {
  const double *x, *y, *w;
  std::size_t corners = 0;
  const double *normal_x, *normal_y, *normal_z;  // in the garden
  std::size_t faces = 0;
  const HullEdge* edge;  // every edge with its two faces
  std::size_t edges = 0;
};

/// Columns from 0 on, and rows [first_row, last_row).
struct Cells {
  int columns = 0, first_row = 0, last_row = 0;
};

/// Room to work in for trace().
struct TraceRoom {
  double *x, *y;                                          // one for each corner
  std::uint64_t* lit;                                     // one for each face
  double *edge_x0, *edge_y0, *edge_x1, *edge_y1, *slope;  // one for each edge, and 4 more
  std::int32_t *edge_first, *edge_last;                   // the same
  double *left, *right;                                   // one for each row, and 4 more
};

/// A shadow by its rows [first_row, last_row).
struct Traced {
  int first_row = 0, last_row = 0;
  bool covers = false;  // every cell asked for lies in it
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
  /// The shadow of a solid: row first_row + k covers the columns [from[k], to[k]). Both lists have
  /// room for 4 more than there are rows.
  Traced (*trace)(const HullRows& hull, Shift shift, geometry::Vec3 toward, Cells cells,
                  const TraceRoom& room, std::int32_t* from, std::int32_t* to);
  /// Sets the bits [from[k], to[k]) of row k for k in [0, rows); a row has `words` words, 1 or a
  /// multiple of 4. May write up to 3 rows further what is there already.
  void (*shade)(std::uint64_t* dark, std::size_t words, const std::int32_t* from,
                const std::int32_t* to, int rows);
  /// depth[k] += √max(0, peak − fall (first + k)²) for k in [0, n).
  void (*add_bulge)(float* depth, int n, float first, float peak, float fall);
  /// chord_m[k] = the stretch inside, at least 0, for k in [0, n); may write up to 3 further.
  void (*chords)(const ChordRow& row, int n, float* chord_m);
  /// Sets the bits of the cells in [from, to) with depth over `most`; both multiples of 8.
  void (*darken)(const float* depth, int from, int to, float most, std::uint64_t* dark);
};

[[nodiscard]] const Kernels& scalar_kernels();
/// Only where the processor has AVX2 (see has_avx2).
[[nodiscard]] const Kernels& avx2_kernels();
[[nodiscard]] bool has_avx2();

}  // namespace spadework::light
