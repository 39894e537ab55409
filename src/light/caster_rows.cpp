#include "light/caster_rows.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <utility>

namespace spadework::light {
namespace {

using garden::Through;
using geometry::RoundShape;

/// The least whole number that is not under v, kept within [low, high]; 0 <= low. NaN gives low.
int whole_from(double v, int low, int high) {
  const double within = v > low ? v : low;
  if (within >= high) return high;
  const int whole = static_cast<int>(within);
  return whole + static_cast<int>(whole < within);
}

/// Narrows [from, to) to its first and last bit that is not set.
void trim_to_clear(const std::uint64_t* row, int& from, int& to) {
  while (from < to) {
    const std::uint64_t clear = ~row[from / 64] >> (from % 64);
    if (clear != 0) {
      from += std::countr_zero(clear);
      break;
    }
    from = (from / 64 + 1) * 64;
  }
  while (from < to) {
    const int last = to - 1;
    const std::uint64_t clear = ~row[last / 64] << (63 - last % 64);
    if (clear != 0) {
      to -= std::countl_zero(clear);
      break;
    }
    to = last / 64 * 64;
  }
  from = std::min(from, to);
}

}  // namespace

RowCaster::RowCaster(const Standing& standing, int first_row, int last_row, const Kernels& kernels)
    : standing_(standing),
      kernels_(kernels),
      cells_{standing.grid().columns, first_row, last_row},
      words_(static_cast<std::size_t>(standing.grid().columns + 63) / 64) {
  if (words_ > 1) words_ = (words_ + 3) / 4 * 4;
  const auto rows = static_cast<std::size_t>(last_row - first_row);
  dark_.resize(rows * words_ + 3);
  may_fall_.resize(standing.boxes().x.size() / 64 + 1);
  depth_.resize(words_ * 64);
  chord_m_.resize(words_ * 64);
  std::size_t corners = 0, faces = 0, edges = 0;
  for (const CastBody& cast : standing.bodies()) {
    corners = std::max(corners, cast.corners);
    faces = std::max(faces, cast.faces);
    edges = std::max(edges, cast.edges + 4);
  }
  room_doubles_.resize(2 * corners + 5 * edges + 2 * (rows + 4));
  room_words_.resize(faces);
  room_ints_.resize(2 * edges);
  double* at = room_doubles_.data();
  const auto take = [&](std::size_t n) { return std::exchange(at, at + n); };
  room_.x = take(corners), room_.y = take(corners);
  room_.edge_x0 = take(edges), room_.edge_y0 = take(edges);
  room_.edge_x1 = take(edges), room_.edge_y1 = take(edges), room_.slope = take(edges);
  room_.left = take(rows + 4), room_.right = take(rows + 4);
  room_.lit = room_words_.data();
  room_.edge_first = room_ints_.data(), room_.edge_last = room_ints_.data() + edges;
}

bool RowCaster::cast(const Beam& beam) {
  std::fill(dark_.begin(), dark_.end(), std::uint64_t{0});
  spans_ = 0;
  falling_count_ = 0;
  const double columns = cells_.columns - 1, rows = cells_.last_row - 1 - cells_.first_row;
  const Window window{columns / 2, cells_.first_row + rows / 2, columns / 2, rows / 2};
  const BoxRows boxes = standing_.boxes().rows();
  kernels_.may_fall(boxes, beam.shift, window, may_fall_.data());
  for (std::size_t word = 0; word * 64 < boxes.n; ++word) {
    for (std::uint64_t bits = may_fall_[word]; bits != 0; bits &= bits - 1) {
      const std::size_t body = word * 64 + static_cast<std::size_t>(std::countr_zero(bits));
      const SceneBody& scene_body = *standing_.bodies()[body].body;
      const float depth = scene_body.depth_on(beam.day_of_year);
      if (!(depth > 0)) continue;
      if (scene_body.body.through != Through::kOpaque) {
        note_falling(body, depth, beam);
      } else if (darken(body, beam)) {
        return false;
      }
    }
  }
  return true;
}

/// True when the body alone shades every cell.
bool RowCaster::darken(std::size_t body, const Beam& beam) {
  const CastBody& cast = standing_.bodies()[body];
  const geometry::RoundSolid* round = cast.body->round();
  EllipseShadow ellipse;
  if (cast.corners == 0)
    ellipse = ellipse_shadow(standing_.grid(), ellipsoid_of(*round), beam.toward);
  const std::size_t first_span = spans_;
  const Traced rows = trace(body, beam, &ellipse);
  spans_ = first_span;
  if (rows.first_row >= rows.last_row) return false;
  const bool exact = round == nullptr || (round->shape == RoundShape::kEllipsoid && cast.whole);
  if (!exact) {
    darken_by_chords(*round, beam, rows, first_span);
    return false;
  }
  kernels_.shade(dark_row(rows.first_row), words_, from_.data() + first_span,
                 to_.data() + first_span, rows.last_row - rows.first_row);
  return rows.covers;
}

void RowCaster::darken_by_chords(const geometry::RoundSolid& round, const Beam& beam,
                                 const Traced& rows, std::size_t first_span) {
  passage_.through_round(standing_.grid(), round, beam.toward);
  for (int j = rows.first_row; j < rows.last_row; ++j) {
    const std::size_t span = first_span + static_cast<std::size_t>(j - rows.first_row);
    const int from = from_[span], n = to_[span] - from;
    if (n <= 0) continue;
    kernels_.chords(passage_.row(from, j), n, chord_m_.data());
    std::uint64_t* dark = dark_row(j);
    for (int k = 0; k < n; ++k) {
      const auto inside = static_cast<std::uint64_t>(chord_m_[static_cast<std::size_t>(k)] > 0);
      dark[(from + k) / 64] |= inside << ((from + k) % 64);
    }
  }
}

void RowCaster::note_falling(std::size_t body, float depth, const Beam& beam) {
  const CastBody& cast = standing_.bodies()[body];
  if (falling_count_ == falling_.size()) falling_.emplace_back();
  Falling& falling = falling_[falling_count_];
  const geometry::RoundSolid* round = cast.body->round();
  if (cast.corners == 0)
    falling.ellipse = ellipse_shadow(standing_.grid(), ellipsoid_of(*round), beam.toward);
  falling.cast = &cast;
  falling.depth = depth;
  falling.first_span = spans_;
  falling.rows = trace(body, beam, &falling.ellipse);
  if (falling.rows.first_row >= falling.rows.last_row) return;
  ++falling_count_;
  const bool exact = round == nullptr || (round->shape == RoundShape::kEllipsoid && cast.whole);
  falling.way = Way::kChords;
  if (exact && cast.body->body.through == Through::kPerCrossing) {
    falling.way = Way::kSkin;
  } else if (exact && round != nullptr) {
    falling.way = Way::kBulge;
  } else if (round != nullptr) {
    falling.passage.through_round(standing_.grid(), *round, beam.toward);
  } else {
    falling.passage.through_faces(standing_.grid(), cast.body->hull->faces, beam.toward);
  }
}

Traced RowCaster::trace(std::size_t body, const Beam& beam, const EllipseShadow* ellipse) {
  const std::size_t most = spans_ + static_cast<std::size_t>(cells_.last_row - cells_.first_row);
  if (from_.size() < most + 4) {
    from_.resize(2 * most + 4);
    to_.resize(2 * most + 4);
  }
  const CastBody& cast = standing_.bodies()[body];
  Traced traced;
  if (cast.corners > 0) {
    traced = kernels_.trace(standing_.hull(cast), beam.shift, beam.toward, cells_, room_,
                            from_.data() + spans_, to_.data() + spans_);
  } else {
    trace_ellipse(body, beam, *ellipse, traced);
  }
  if (traced.first_row < traced.last_row)
    spans_ += static_cast<std::size_t>(traced.last_row - traced.first_row);
  return traced;
}

void RowCaster::trace_ellipse(std::size_t body, const Beam& beam, const EllipseShadow& ellipse,
                              Traced& traced) {
  // The shadow of the box bounds it too: that of a dome is smaller than its whole ellipsoid's.
  const Boxes& boxes = standing_.boxes();
  const double x = boxes.x[body] - beam.shift.x_per_w * boxes.w[body];
  const double y = boxes.y[body] - beam.shift.y_per_w * boxes.w[body];
  const double half_x = boxes.half_x[body] + std::abs(beam.shift.x_per_w) * boxes.half_w[body];
  const double half_y = boxes.half_y[body] + std::abs(beam.shift.y_per_w) * boxes.half_w[body];
  const double one = (-1 - ellipse.side.at0) / ellipse.side.up;
  const double other = (1 - ellipse.side.at0) / ellipse.side.up;
  traced.first_row =
      whole_from(std::max(y - half_y, std::min(one, other)), cells_.first_row, cells_.last_row);
  traced.last_row =
      whole_from(std::min(y + half_y, std::max(one, other)), cells_.first_row, cells_.last_row);
  std::size_t span = spans_;
  for (int j = traced.first_row; j < traced.last_row; ++j, ++span) {
    const double side = ellipse.side.at(0, j), centre = ellipse.centre.at(0, j);
    const double half = std::sqrt(std::max(0.0, 1 - side * side) / ellipse.curve);
    from_[span] = whole_from(std::max(x - half_x, centre - half), 0, cells_.columns);
    to_[span] = whole_from(std::min(x + half_x, centre + half), 0, cells_.columns);
  }
}

BeamRow RowCaster::row_with_depth(int row) {
  BeamRow result{dark_row(row), depth_.data(), cells_.columns, 0};
  const auto span_of = [&](const Falling& falling) {
    if (row < falling.rows.first_row || row >= falling.rows.last_row) return Span{};
    const std::size_t at =
        falling.first_span + static_cast<std::size_t>(row - falling.rows.first_row);
    Span span{from_[at], to_[at]};
    trim_to_clear(result.dark, span.from, span.to);
    return span;
  };
  for (std::size_t i = 0; i < falling_count_; ++i) {
    const Span span = span_of(falling_[i]);
    if (span.from >= span.to) continue;
    result.deep_from = std::min(result.deep_from, span.from);
    result.deep_to = std::max(result.deep_to, span.to);
  }
  if (result.deep_from >= result.deep_to) return {result.dark, depth_.data(), 0, 0};
  result.deep_from = result.deep_from / 8 * 8;
  result.deep_to = (result.deep_to + 7) / 8 * 8;
  std::fill(depth_.begin() + result.deep_from, depth_.begin() + result.deep_to, 0.0F);
  for (std::size_t i = 0; i < falling_count_; ++i) {
    const Span span = span_of(falling_[i]);
    if (span.from < span.to) add_depth(falling_[i], row, span);
  }
  return result;
}

void RowCaster::add_depth(Falling& falling, int row, Span span) {
  float* depth = depth_.data() + span.from;
  const int n = span.to - span.from;
  if (falling.way == Way::kSkin) {
    for (int k = 0; k < n; ++k) depth[k] += falling.depth;
    return;
  }
  if (falling.way == Way::kBulge) {
    const EllipseShadow& ellipse = falling.ellipse;
    const double side = ellipse.side.at(0, row);
    const double most = static_cast<double>(falling.depth) * ellipse.longest_m;
    const double peak = most * most * (1 - side * side);
    kernels_.add_bulge(depth, n, static_cast<float>(span.from - ellipse.centre.at(0, row)),
                       static_cast<float>(peak), static_cast<float>(most * most * ellipse.curve));
    return;
  }
  kernels_.chords(falling.passage.row(span.from, row), n, chord_m_.data());
  const float* chord_m = chord_m_.data();
  if (falling.cast->body->body.through == Through::kPerCrossing) {
    for (int k = 0; k < n; ++k) depth[k] += chord_m[k] > 0 ? falling.depth : 0;
  } else {
    for (int k = 0; k < n; ++k) depth[k] += falling.depth * chord_m[k];
  }
}

}  // namespace spadework::light
