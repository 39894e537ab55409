// Every line here has its counterpart in caster_kernels_scalar.cpp, operation by operation: both
// give the same bits. No fused multiply-add.
#include "light/caster_kernels.h"

#if defined(__x86_64__)

#include <immintrin.h>

#include <algorithm>

#define SW_AVX2 [[gnu::target("avx2")]]

namespace spadework::light {
namespace {

SW_AVX2 inline __m256d size_of(__m256d v) { return _mm256_andnot_pd(_mm256_set1_pd(-0.0), v); }

SW_AVX2 inline __m256d both(__m256d a, __m256d b) { return _mm256_and_pd(a, b); }

SW_AVX2 void may_fall(const BoxRows& boxes, Shift shift, const Window& window,
                      std::uint64_t* bits) {
  std::fill(bits, bits + (boxes.n + 63) / 64, std::uint64_t{0});
  const __m256d sx = _mm256_set1_pd(shift.x_per_w), sy = _mm256_set1_pd(shift.y_per_w);
  const __m256d size_x = size_of(sx), size_y = size_of(sy);
  const __m256d at_x = _mm256_set1_pd(window.x), at_y = _mm256_set1_pd(window.y);
  const __m256d wide = _mm256_set1_pd(window.half_x), high = _mm256_set1_pd(window.half_y);
  for (std::size_t i = 0; i < boxes.n; i += 4) {
    const __m256d x = _mm256_sub_pd(_mm256_loadu_pd(boxes.x + i), at_x);
    const __m256d y = _mm256_sub_pd(_mm256_loadu_pd(boxes.y + i), at_y);
    const __m256d w = _mm256_loadu_pd(boxes.w + i), half_w = _mm256_loadu_pd(boxes.half_w + i);
    const __m256d room_x = _mm256_add_pd(_mm256_loadu_pd(boxes.half_x + i), wide);
    const __m256d room_y = _mm256_add_pd(_mm256_loadu_pd(boxes.half_y + i), high);
    const __m256d off_x = size_of(_mm256_sub_pd(x, _mm256_mul_pd(sx, w)));
    const __m256d off_y = size_of(_mm256_sub_pd(y, _mm256_mul_pd(sy, w)));
    const __m256d off = size_of(_mm256_sub_pd(_mm256_mul_pd(y, sx), _mm256_mul_pd(x, sy)));
    const __m256d most_x = _mm256_add_pd(room_x, _mm256_mul_pd(size_x, half_w));
    const __m256d most_y = _mm256_add_pd(room_y, _mm256_mul_pd(size_y, half_w));
    const __m256d most =
        _mm256_add_pd(_mm256_mul_pd(room_y, size_x), _mm256_mul_pd(room_x, size_y));
    const __m256d within =
        both(_mm256_cmp_pd(off_x, most_x, _CMP_LE_OQ), _mm256_cmp_pd(off_y, most_y, _CMP_LE_OQ));
    const int falls = _mm256_movemask_pd(both(within, _mm256_cmp_pd(off, most, _CMP_LE_OQ)));
    bits[i / 64] |= static_cast<std::uint64_t>(static_cast<unsigned>(falls)) << (i % 64);
  }
}

/// As whole_from of the plain build: the least whole number that is not under v, within bounds.
SW_AVX2 inline __m128i whole_from(__m256d v, __m256d low, __m256d high) {
  const __m256d within = _mm256_min_pd(_mm256_max_pd(v, low), high);
  return _mm256_cvttpd_epi32(_mm256_ceil_pd(within));
}

SW_AVX2 inline double least_of(__m256d v) {
  const __m128d two = _mm_min_pd(_mm256_castpd256_pd128(v), _mm256_extractf128_pd(v, 1));
  return _mm_cvtsd_f64(_mm_min_sd(two, _mm_unpackhi_pd(two, two)));
}

SW_AVX2 inline double most_of(__m256d v) {
  const __m128d two = _mm_max_pd(_mm256_castpd256_pd128(v), _mm256_extractf128_pd(v, 1));
  return _mm_cvtsd_f64(_mm_max_sd(two, _mm_unpackhi_pd(two, two)));
}

/// The edges that bound the shadow, their ends in room.edge_…; how many.
SW_AVX2 std::size_t bounding_edges(const HullRows& hull, geometry::Vec3 toward,
                                   const TraceRoom& room) {
  const __m256d tx = _mm256_set1_pd(toward.x), ty = _mm256_set1_pd(toward.y);
  const __m256d tz = _mm256_set1_pd(toward.z), zero = _mm256_setzero_pd();
  for (std::size_t f = 0; f < hull.faces; f += 4) {
    const __m256d x = _mm256_mul_pd(_mm256_loadu_pd(hull.normal_x + f), tx);
    const __m256d y = _mm256_mul_pd(_mm256_loadu_pd(hull.normal_y + f), ty);
    const __m256d z = _mm256_mul_pd(_mm256_loadu_pd(hull.normal_z + f), tz);
    const __m256d facing = _mm256_add_pd(_mm256_add_pd(x, y), z);
    _mm256_storeu_si256(reinterpret_cast<__m256i*>(room.lit + f),
                        _mm256_castpd_si256(_mm256_cmp_pd(facing, zero, _CMP_GT_OQ)));
  }
  std::size_t n = 0;
  for (std::size_t e = 0; e < hull.edges; ++e) {
    const HullEdge& edge = hull.edge[e];
    room.edge_x0[n] = room.x[edge.from], room.edge_y0[n] = room.y[edge.from];
    room.edge_x1[n] = room.x[edge.to], room.edge_y1[n] = room.y[edge.to];
    n += static_cast<std::size_t>(room.lit[edge.face_a] != room.lit[edge.face_b]);
  }
  return n;
}

/// The edges turned upwards, with their slopes and the rows that they cross.
SW_AVX2 void ready_edges(const TraceRoom& room, std::size_t edges, int first_row, int last_row) {
  const __m256d first = _mm256_set1_pd(first_row), last = _mm256_set1_pd(last_row);
  for (std::size_t e = 0; e < edges; e += 4) {
    const __m256d xa = _mm256_loadu_pd(room.edge_x0 + e), ya = _mm256_loadu_pd(room.edge_y0 + e);
    const __m256d xb = _mm256_loadu_pd(room.edge_x1 + e), yb = _mm256_loadu_pd(room.edge_y1 + e);
    const __m256d down = _mm256_cmp_pd(ya, yb, _CMP_GT_OQ);
    const __m256d x0 = _mm256_blendv_pd(xa, xb, down), x1 = _mm256_blendv_pd(xb, xa, down);
    const __m256d y0 = _mm256_blendv_pd(ya, yb, down), y1 = _mm256_blendv_pd(yb, ya, down);
    _mm256_storeu_pd(room.edge_x0 + e, x0);
    _mm256_storeu_pd(room.edge_y0 + e, y0);
    _mm256_storeu_pd(room.slope + e, _mm256_div_pd(_mm256_sub_pd(x1, x0), _mm256_sub_pd(y1, y0)));
    _mm_storeu_si128(reinterpret_cast<__m128i*>(room.edge_first + e), whole_from(y0, first, last));
    _mm_storeu_si128(reinterpret_cast<__m128i*>(room.edge_last + e), whole_from(y1, first, last));
  }
}

/// Widens the rows' left and right ends by where an edge's shadow crosses them.
SW_AVX2 inline void draw_edge(const TraceRoom& room, std::size_t e, int first_row) {
  const __m256d x0 = _mm256_set1_pd(room.edge_x0[e]), y0 = _mm256_set1_pd(room.edge_y0[e]);
  const __m256d slope = _mm256_set1_pd(room.slope[e]), four = _mm256_set1_pd(4);
  const __m256d lanes = _mm256_setr_pd(0, 1, 2, 3);
  const int first = room.edge_first[e], last = room.edge_last[e];
  __m256d j = _mm256_add_pd(_mm256_set1_pd(first), lanes);
  const __m256d end = _mm256_set1_pd(last);
  for (int row = first; row < last; row += 4, j = _mm256_add_pd(j, four)) {
    double* left = room.left + (row - first_row);
    double* right = room.right + (row - first_row);
    const __m256d x = _mm256_add_pd(x0, _mm256_mul_pd(_mm256_sub_pd(j, y0), slope));
    const __m256d was_left = _mm256_loadu_pd(left), was_right = _mm256_loadu_pd(right);
    const __m256d mine = _mm256_cmp_pd(j, end, _CMP_LT_OQ);
    _mm256_storeu_pd(left, _mm256_blendv_pd(was_left, _mm256_min_pd(x, was_left), mine));
    _mm256_storeu_pd(right, _mm256_blendv_pd(was_right, _mm256_max_pd(x, was_right), mine));
  }
}

/// The rows' ends as columns. True when every row runs from the first to the last.
SW_AVX2 bool spans_of(const TraceRoom& room, int rows, int columns, std::int32_t* from,
                      std::int32_t* to) {
  const __m256d none = _mm256_setzero_pd(), all = _mm256_set1_pd(columns);
  __m128i gaps = _mm_setzero_si128();
  for (int k = 0; k < rows; k += 4) {
    const __m128i left = whole_from(_mm256_loadu_pd(room.left + k), none, all);
    const __m128i right = whole_from(_mm256_loadu_pd(room.right + k), none, all);
    _mm_storeu_si128(reinterpret_cast<__m128i*>(from + k), left);
    _mm_storeu_si128(reinterpret_cast<__m128i*>(to + k), right);
    const __m128i gap = _mm_or_si128(left, _mm_sub_epi32(_mm_set1_epi32(columns), right));
    const __m128i mine = _mm_cmpgt_epi32(_mm_set1_epi32(rows - k), _mm_setr_epi32(0, 1, 2, 3));
    gaps = _mm_or_si128(gaps, _mm_and_si128(gap, mine));
  }
  return _mm_testz_si128(gaps, gaps) != 0;
}

SW_AVX2 Traced trace(const HullRows& hull, Shift shift, geometry::Vec3 toward, Cells cells,
                     const TraceRoom& room, std::int32_t* from, std::int32_t* to) {
  const __m256d sx = _mm256_set1_pd(shift.x_per_w), sy = _mm256_set1_pd(shift.y_per_w);
  const __m256d endless = _mm256_set1_pd(std::numeric_limits<double>::infinity());
  const __m256d least = _mm256_set1_pd(-std::numeric_limits<double>::infinity());
  __m256d x_low = endless, x_high = least, y_low = endless, y_high = least;
  for (std::size_t k = 0; k < hull.corners; k += 4) {
    const __m256d w = _mm256_loadu_pd(hull.w + k);
    const __m256d x = _mm256_sub_pd(_mm256_loadu_pd(hull.x + k), _mm256_mul_pd(sx, w));
    const __m256d y = _mm256_sub_pd(_mm256_loadu_pd(hull.y + k), _mm256_mul_pd(sy, w));
    _mm256_storeu_pd(room.x + k, x);
    _mm256_storeu_pd(room.y + k, y);
    x_low = _mm256_min_pd(x_low, x), x_high = _mm256_max_pd(x_high, x);
    y_low = _mm256_min_pd(y_low, y), y_high = _mm256_max_pd(y_high, y);
  }
  const __m256d ends = _mm256_setr_pd(least_of(y_low), most_of(y_high), 0, 0);
  const __m128i rows_from =
      whole_from(ends, _mm256_set1_pd(cells.first_row), _mm256_set1_pd(cells.last_row));
  Traced traced;
  traced.first_row = _mm_extract_epi32(rows_from, 0);
  traced.last_row = _mm_extract_epi32(rows_from, 1);
  if (traced.first_row >= traced.last_row || most_of(x_high) < 0 ||
      least_of(x_low) > cells.columns - 1)
    return {};
  const int rows = traced.last_row - traced.first_row;
  for (int k = 0; k < rows; k += 4) {
    _mm256_storeu_pd(room.left + k, endless);
    _mm256_storeu_pd(room.right + k, least);
  }
  const std::size_t edges = bounding_edges(hull, toward, room);
  ready_edges(room, edges, traced.first_row, traced.last_row);
  for (std::size_t e = 0; e < edges; ++e) draw_edge(room, e, traced.first_row);
  const bool full = spans_of(room, rows, cells.columns, from, to);
  traced.covers = full && rows == cells.last_row - cells.first_row;
  return traced;
}

/// All bits from each place on; none from 64 on.
SW_AVX2 inline __m256i bits_from(__m128i place) {
  return _mm256_sllv_epi64(_mm256_set1_epi64x(-1), _mm256_cvtepu32_epi64(place));
}

SW_AVX2 inline void set_bits(std::uint64_t* dark, __m128i from, __m128i to) {
  const __m256i more = _mm256_andnot_si256(bits_from(to), bits_from(from));
  auto* four = reinterpret_cast<__m256i*>(dark);
  _mm256_storeu_si256(four, _mm256_or_si256(_mm256_loadu_si256(four), more));
}

SW_AVX2 void shade(std::uint64_t* dark, std::size_t words, const std::int32_t* from,
                   const std::int32_t* to, int rows) {
  const __m128i zero = _mm_setzero_si128();
  if (words == 1) {
    for (int k = 0; k < rows; k += 4) {
      const __m128i mine = _mm_cmpgt_epi32(_mm_set1_epi32(rows - k), _mm_setr_epi32(0, 1, 2, 3));
      const __m128i left = _mm_loadu_si128(reinterpret_cast<const __m128i*>(from + k));
      const __m128i right = _mm_loadu_si128(reinterpret_cast<const __m128i*>(to + k));
      set_bits(dark + k, _mm_and_si128(left, mine), _mm_and_si128(right, mine));
    }
    return;
  }
  const __m128i starts = _mm_setr_epi32(0, 64, 128, 192);
  for (int k = 0; k < rows; ++k, dark += words) {
    for (int word = from[k] / 256 * 4; word * 64 < to[k]; word += 4) {
      const __m128i base = _mm_add_epi32(starts, _mm_set1_epi32(word * 64));
      const __m128i left = _mm_max_epi32(_mm_sub_epi32(_mm_set1_epi32(from[k]), base), zero);
      const __m128i right = _mm_max_epi32(_mm_sub_epi32(_mm_set1_epi32(to[k]), base), zero);
      set_bits(dark + word, left, right);
    }
  }
}

SW_AVX2 inline __m256 bulge(__m256 x, __m256 peak, __m256 fall) {
  const __m256 square = _mm256_mul_ps(x, x);
  const __m256 left = _mm256_sub_ps(peak, _mm256_mul_ps(fall, square));
  return _mm256_sqrt_ps(_mm256_max_ps(left, _mm256_setzero_ps()));
}

SW_AVX2 void add_bulge(float* depth, int n, float first, float peak, float fall) {
  const __m256 start = _mm256_set1_ps(first);
  const __m256 peaks = _mm256_set1_ps(peak), falls = _mm256_set1_ps(fall);
  const __m256 eight = _mm256_set1_ps(8);
  __m256 k = _mm256_setr_ps(0, 1, 2, 3, 4, 5, 6, 7);
  int cell = 0;
  for (; cell + 8 <= n; cell += 8) {
    const __m256 more = bulge(_mm256_add_ps(start, k), peaks, falls);
    _mm256_storeu_ps(depth + cell, _mm256_add_ps(_mm256_loadu_ps(depth + cell), more));
    k = _mm256_add_ps(k, eight);
  }
  if (cell == n) return;
  alignas(32) float rest[8];
  _mm256_store_ps(rest, bulge(_mm256_add_ps(start, k), peaks, falls));
  for (int lane = 0; cell < n; ++cell, ++lane) depth[cell] += rest[lane];
}

SW_AVX2 inline __m256d at(__m256d k, double at0, double step) {
  return _mm256_add_pd(_mm256_set1_pd(at0), _mm256_mul_pd(k, _mm256_set1_pd(step)));
}

SW_AVX2 void chords(const ChordRow& row, int n, float* chord_m) {
  const __m256d zero = _mm256_setzero_pd(), four = _mm256_set1_pd(4);
  const __m256d endless = _mm256_set1_pd(std::numeric_limits<double>::infinity());
  __m256d k = _mm256_setr_pd(0, 1, 2, 3);
  for (int cell = 0; cell < n; cell += 4, k = _mm256_add_pd(k, four)) {
    __m256d near = zero, far = endless;
    for (std::size_t f = 0; f < row.nears; ++f)
      near = _mm256_max_pd(near, at(k, row.near_at0[f], row.near_step[f]));
    for (std::size_t f = 0; f < row.fars; ++f)
      far = _mm256_min_pd(far, at(k, row.far_at0[f], row.far_step[f]));
    if (row.bulge != Bulge::kNone) {
      const __m256d slope = at(k, row.half1, row.half2);
      const __m256d square = _mm256_add_pd(_mm256_set1_pd(row.half0), _mm256_mul_pd(k, slope));
      const __m256d half = _mm256_sqrt_pd(_mm256_max_pd(square, zero));
      const __m256d mid = at(k, row.mid0, row.mid_step);
      if (row.bulge == Bulge::kBetween) {
        near = _mm256_max_pd(near, _mm256_sub_pd(mid, half));
        far = _mm256_min_pd(far, _mm256_add_pd(mid, half));
      } else if (row.bulge == Bulge::kBefore) {
        far = _mm256_min_pd(far, _mm256_sub_pd(mid, half));
      } else {
        near = _mm256_max_pd(near, _mm256_add_pd(mid, half));
      }
    }
    const __m256d stretch = _mm256_max_pd(_mm256_sub_pd(far, near), zero);
    _mm_storeu_ps(chord_m + cell, _mm256_cvtpd_ps(stretch));
  }
}

SW_AVX2 void darken(const float* depth, int from, int to, float most, std::uint64_t* dark) {
  const __m256 limit = _mm256_set1_ps(most);
  for (int k = from; k < to; k += 8) {
    const __m256 deep = _mm256_cmp_ps(_mm256_loadu_ps(depth + k), limit, _CMP_GT_OQ);
    const auto bits = static_cast<std::uint64_t>(static_cast<unsigned>(_mm256_movemask_ps(deep)));
    dark[k / 64] |= bits << (k % 64);
  }
}

}  // namespace

const Kernels& avx2_kernels() {
  static constexpr Kernels kKernels{may_fall, trace, shade, add_bulge, chords, darken};
  return kKernels;
}

bool has_avx2() { return __builtin_cpu_supports("avx2") != 0; }

}  // namespace spadework::light

#else

namespace spadework::light {
const Kernels& avx2_kernels() { return scalar_kernels(); }
bool has_avx2() { return false; }
}  // namespace spadework::light

#endif
