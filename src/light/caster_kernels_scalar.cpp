// Every line here has its counterpart in caster_kernels_avx2.cpp, operation by operation: both give
// the same bits.
#include <algorithm>
#include <cmath>

#include "light/caster_kernels.h"

namespace spadework::light {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

template <class T>
T greater(T a, T b) {
  return a > b ? a : b;
}
template <class T>
T lesser(T a, T b) {
  return a < b ? a : b;
}

/// The least whole number that is not under v, kept within [low, high]; 0 <= low. NaN gives low.
std::int32_t whole_from(double v, double low, double high) {
  const double within = lesser(greater(v, low), high);
  const auto whole = static_cast<std::int32_t>(within);
  return whole + static_cast<std::int32_t>(whole < within);
}

void may_fall(const BoxRows& boxes, Shift shift, const Window& window, std::uint64_t* bits) {
  std::fill(bits, bits + (boxes.n + 63) / 64, std::uint64_t{0});
  const double sx = shift.x_per_w, sy = shift.y_per_w;
  const double size_x = std::abs(sx), size_y = std::abs(sy);
  for (std::size_t i = 0; i < boxes.n; ++i) {
    const double x = boxes.x[i] - window.x, y = boxes.y[i] - window.y;
    const double room_x = boxes.half_x[i] + window.half_x;
    const double room_y = boxes.half_y[i] + window.half_y;
    // Across the page, up it, and square to the way the shadows fall.
    const double off_x = std::abs(x - sx * boxes.w[i]), off_y = std::abs(y - sy * boxes.w[i]);
    const double off = std::abs(y * sx - x * sy);
    const bool falls = static_cast<int>(off_x <= room_x + size_x * boxes.half_w[i]) &
                       static_cast<int>(off_y <= room_y + size_y * boxes.half_w[i]) &
                       static_cast<int>(off <= room_y * size_x + room_x * size_y);
    bits[i / 64] |= static_cast<std::uint64_t>(falls) << (i % 64);
  }
}

/// The edges that bound the shadow, their ends in room.edge_…; how many.
std::size_t bounding_edges(const HullRows& hull, geometry::Vec3 toward, const TraceRoom& room) {
  for (std::size_t f = 0; f < hull.faces; ++f) {
    const double facing =
        hull.normal_x[f] * toward.x + hull.normal_y[f] * toward.y + hull.normal_z[f] * toward.z;
    room.lit[f] = facing > 0 ? ~std::uint64_t{0} : 0;
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

/// Widens the rows' left and right ends by where an edge's shadow crosses them.
void draw_edge(const TraceRoom& room, std::size_t e, int first_row, int last_row) {
  double x0 = room.edge_x0[e], y0 = room.edge_y0[e], x1 = room.edge_x1[e], y1 = room.edge_y1[e];
  if (y0 > y1) std::swap(x0, x1), std::swap(y0, y1);
  const double slope = (x1 - x0) / (y1 - y0);
  const int first = whole_from(y0, first_row, last_row), last = whole_from(y1, first_row, last_row);
  double* left = room.left - first_row;
  double* right = room.right - first_row;
  for (int j = first; j < last; ++j) {
    const double x = x0 + (j - y0) * slope;
    left[j] = lesser(x, left[j]);
    right[j] = greater(x, right[j]);
  }
}

Traced trace(const HullRows& hull, Shift shift, geometry::Vec3 toward, Cells cells,
             const TraceRoom& room, std::int32_t* from, std::int32_t* to) {
  double x_low = kInfinity, x_high = -kInfinity, y_low = kInfinity, y_high = -kInfinity;
  for (std::size_t k = 0; k < hull.corners; ++k) {
    room.x[k] = hull.x[k] - shift.x_per_w * hull.w[k];
    room.y[k] = hull.y[k] - shift.y_per_w * hull.w[k];
    x_low = lesser(x_low, room.x[k]), x_high = greater(x_high, room.x[k]);
    y_low = lesser(y_low, room.y[k]), y_high = greater(y_high, room.y[k]);
  }
  Traced traced;
  traced.first_row = whole_from(y_low, cells.first_row, cells.last_row);
  traced.last_row = whole_from(y_high, cells.first_row, cells.last_row);
  if (traced.first_row >= traced.last_row || x_high < 0 || x_low > cells.columns - 1) return {};
  const int rows = traced.last_row - traced.first_row;
  std::fill_n(room.left, rows, kInfinity);
  std::fill_n(room.right, rows, -kInfinity);
  const std::size_t edges = bounding_edges(hull, toward, room);
  for (std::size_t e = 0; e < edges; ++e) draw_edge(room, e, traced.first_row, traced.last_row);
  traced.covers = rows == cells.last_row - cells.first_row;
  for (int k = 0; k < rows; ++k) {
    from[k] = whole_from(room.left[k], 0, cells.columns);
    to[k] = whole_from(room.right[k], 0, cells.columns);
    traced.covers = traced.covers && from[k] == 0 && to[k] == cells.columns;
  }
  return traced;
}

void set_bits(std::uint64_t* row, std::int32_t from, std::int32_t to) {
  if (from >= to) return;
  const std::int32_t first = from / 64, last = (to - 1) / 64;
  const std::uint64_t head = ~std::uint64_t{0} << (from % 64);
  const std::uint64_t tail = ~std::uint64_t{0} >> (63 - (to - 1) % 64);
  if (first == last) {
    row[first] |= head & tail;
    return;
  }
  row[first] |= head;
  for (std::int32_t word = first + 1; word < last; ++word) row[word] = ~std::uint64_t{0};
  row[last] |= tail;
}

void shade(std::uint64_t* dark, std::size_t words, const std::int32_t* from, const std::int32_t* to,
           int rows) {
  for (int k = 0; k < rows; ++k, dark += words) set_bits(dark, from[k], to[k]);
}

void add_bulge(float* depth, int n, float first, float peak, float fall) {
  for (int k = 0; k < n; ++k) {
    const float x = first + static_cast<float>(k);
    depth[k] += std::sqrt(greater(peak - fall * (x * x), 0.0F));
  }
}

void chords(const ChordRow& row, int n, float* chord_m) {
  for (int cell = 0; cell < n; ++cell) {
    const double k = cell;
    double near = 0, far = kInfinity;
    for (std::size_t f = 0; f < row.nears; ++f)
      near = greater(near, row.near_at0[f] + k * row.near_step[f]);
    for (std::size_t f = 0; f < row.fars; ++f)
      far = lesser(far, row.far_at0[f] + k * row.far_step[f]);
    if (row.bulge != Bulge::kNone) {
      const double half = std::sqrt(greater(row.half0 + k * (row.half1 + k * row.half2), 0.0));
      const double mid = row.mid0 + k * row.mid_step;
      if (row.bulge == Bulge::kBetween) {
        near = greater(near, mid - half);
        far = lesser(far, mid + half);
      } else if (row.bulge == Bulge::kBefore) {
        far = lesser(far, mid - half);
      } else {
        near = greater(near, mid + half);
      }
    }
    chord_m[cell] = static_cast<float>(greater(far - near, 0.0));
  }
}

void darken(const float* depth, int from, int to, float most, std::uint64_t* dark) {
  for (int k = from; k < to; k += 8) {
    std::uint64_t bits = 0;
    for (int lane = 0; lane < 8; ++lane)
      bits |= static_cast<std::uint64_t>(depth[k + lane] > most) << lane;
    dark[k / 64] |= bits << (k % 64);
  }
}

}  // namespace

const Kernels& scalar_kernels() {
  static constexpr Kernels kKernels{may_fall, trace, shade, add_bulge, chords, darken};
  return kKernels;
}

}  // namespace spadework::light
