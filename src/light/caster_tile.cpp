#include "light/caster_tile.h"

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

constexpr std::size_t kMostCoreLines = 32;

/// Whether the shadow's outline and its depth are those of the plain shape.
bool is_exact(const CastBody& cast) {
  const geometry::RoundSolid* round = cast.body->round();
  return round == nullptr ||
         (round->shape == RoundShape::kEllipsoid && cast.whole && !round->is_cut());
}

/// Bits of a row that are set in one and not in the other.
struct RowBits {
  std::uint64_t words[kRowWords];
  RowBits(const std::uint64_t* bits, const std::uint64_t* without) {
    for (std::size_t k = 0; k < kRowWords; ++k) words[k] = bits[k] & ~without[k];
  }
  [[nodiscard]] bool any() const { return (words[0] | words[1] | words[2] | words[3]) != 0; }
};

/// The columns from the first bit of a row that is set to past the last; there is one.
RowRange columns_of(const std::uint64_t* bits) {
  int first = 0, last = static_cast<int>(kRowWords) - 1;
  while (bits[first] == 0) ++first;
  while (bits[last] == 0) --last;
  return {64 * first + std::countr_zero(bits[first]),
          64 * last + 64 - std::countl_zero(bits[last])};
}

}  // namespace

TileCaster::TileCaster(const Standing& standing, Tile tile, const Kernels& kernels)
    : standing_(standing),
      tile_(tile),
      kernels_(kernels),
      outlines_(standing, tile.first_column, kernels) {
  may_fall_.resize(standing.boxes().x.size() / 64 + 1);
  once_.resize(tile.words());
  twice_.resize(tile.words());
  core_.resize(tile.words());
  moved_.resize(tile.words());
  asked_.resize(tile.words());
  extra_.resize(tile.stride());
  chord_m_.resize(tile.stride() + 4);
  for (int word = 0; word < static_cast<int>(kRowWords); ++word) {
    const int n = std::clamp(tile.columns - 64 * word, 0, 64);
    full_[word] = n == 64 ? ~std::uint64_t{0} : (std::uint64_t{1} << n) - 1;
  }
  counted_rows_ = {tile.first_row, tile.first_row + tile.rows};
  blank_.resize(tile.words());
  if (!standing.counted().empty()) {
    for (int row = 0; row < tile.rows; ++row) {
      const auto cell = static_cast<std::size_t>((tile.first_row + row) * standing.grid().columns +
                                                 tile.first_column);
      for (int k = 0; k < tile.columns; ++k) {
        const bool blank = standing.counted()[cell + static_cast<std::size_t>(k)] == 0;
        blank_[static_cast<std::size_t>(row) * kRowWords + static_cast<std::size_t>(k / 64)] |=
            static_cast<std::uint64_t>(blank) << (k % 64);
      }
    }
    open_ = counted_rows_;
    dark_ = blank_.data();
    narrow_open();
    counted_rows_ = open_;
  }
  const std::size_t corners = std::max(outlines_.most(), kMostCoreLines) + 8;
  room_doubles_.resize(6 * corners);
  double* at = room_doubles_.data();
  const auto take = [&] { return std::exchange(at, at + corners); };
  room_ = {take(), take(), {take(), take()}, {take(), take()}};
}

Cover TileCaster::cast(const Beam& beam, std::uint64_t* dark) {
  dark_ = dark;
  std::copy(blank_.begin(), blank_.end(), dark);
  spans_ = 0;
  falling_count_ = 0;
  open_ = counted_rows_;
  bool opaque = false;
  for (const std::size_t body : may_fall(beam)) {
    const SceneBody& scene_body = *standing_.bodies()[body].body;
    if (scene_body.body.through != Through::kOpaque) {  // these come last
      note_falling(body, scene_body.depth_on(beam.day_of_year), beam);
      continue;
    }
    darken(body, beam);
    narrow_open();
    if (open_.empty()) return Cover::kDark;
    opaque = true;
  }
  if (falling_count_ > 0) note_overlaps({tile_.first_row, tile_.first_row + tile_.rows});
  return opaque || falling_count_ > 0 ? Cover::kMixed : Cover::kOpen;
}

Window TileCaster::window() const {
  const double half_columns = (tile_.columns - 1) / 2.0, half_rows = (tile_.rows - 1) / 2.0;
  return {tile_.first_column + half_columns, tile_.first_row + half_rows, half_columns, half_rows};
}

bool TileCaster::may_reach(const Boxes& boxes, const Beam& beam) {
  if (may_fall_.size() < boxes.x.size() / 64 + 1) may_fall_.resize(boxes.x.size() / 64 + 1);
  kernels_.may_fall(boxes.rows(), beam.shift, window(), may_fall_.data());
  const std::size_t words = (boxes.x.size() + 63) / 64;
  return std::any_of(may_fall_.begin(), may_fall_.begin() + static_cast<std::ptrdiff_t>(words),
                     [](std::uint64_t bits) { return bits != 0; });
}

const std::vector<std::size_t>& TileCaster::may_fall(const Beam& beam) {
  const BoxRows boxes = standing_.boxes().rows();
  kernels_.may_fall(boxes, beam.shift, window(), may_fall_.data());
  bodies_.clear();
  for (std::size_t word = 0; word * 64 < boxes.n; ++word) {
    for (std::uint64_t bits = may_fall_[word]; bits != 0; bits &= bits - 1) {
      const std::size_t body = word * 64 + static_cast<std::size_t>(std::countr_zero(bits));
      const bool there =
          beam.day_of_year == 0 || standing_.bodies()[body].body->depth_on(beam.day_of_year) > 0;
      if (there) bodies_.push_back(body);
    }
  }
  return bodies_;
}

RowRange TileCaster::cast_body(std::size_t body, const Beam& beam, std::uint64_t* bits,
                               float* way) {
  const SceneBody& scene_body = *standing_.bodies()[body].body;
  spans_ = 0;
  falling_count_ = 0;
  if (scene_body.body.through == Through::kOpaque) {
    dark_ = bits;
    open_ = {tile_.first_row, tile_.first_row + tile_.rows};
    return darken(body, beam);
  }
  note_falling(body, 1, beam);
  if (falling_count_ == 0) return {};
  const RowRange rows = falling_[0].rows;
  for (int j = rows.first; j < rows.last; ++j) {
    const std::size_t span = static_cast<std::size_t>(j - rows.first);
    if (from_[span] >= to_[span]) continue;
    const std::uint64_t* all = &full_[0];
    kernels_.add_depth(through_row(j, all), from_[span] / 8, (to_[span] + 7) / 8,
                       way + static_cast<std::size_t>(j - tile_.first_row) * tile_.stride());
  }
  return rows;
}

void TileCaster::narrow_open() {
  const auto is_full = [&](int row) {
    const std::uint64_t* dark = dark_ + word_of(row);
    return ((dark[0] ^ full_[0]) | (dark[1] ^ full_[1]) | (dark[2] ^ full_[2]) |
            (dark[3] ^ full_[3])) == 0;
  };
  while (!open_.empty() && is_full(open_.first)) ++open_.first;
  while (!open_.empty() && is_full(open_.last - 1)) --open_.last;
}

RowRange TileCaster::darken(std::size_t body, const Beam& beam) {
  const CastBody& cast = standing_.bodies()[body];
  if (cast.corners > 0 && is_exact(cast)) {
    const Outline outline = outlines_.of(body, beam);
    const TileRows rows{tile_.columns, open_.first, open_.last};
    if (outline.n == 0) return {};
    return kernels_.shade_outline(outline, beam.shift, rows, room_, dark_ + word_of(open_.first));
  }
  EllipseShadow ellipse;
  if (cast.corners == 0)
    ellipse = ellipse_shadow(standing_.grid(), ellipsoid_of(*cast.body->round()), beam.toward);
  const std::size_t first_span = spans_;
  const RowRange range = trace(body, beam, ellipse, 0);
  spans_ = first_span;
  if (range.empty()) return {};
  if (is_exact(cast)) {
    kernels_.shade(outer(first_span), range.last - range.first, dark_ + word_of(range.first));
  } else {
    darken_by_chords(*cast.body->round(), beam, range, first_span);
  }
  return range;
}

void TileCaster::darken_by_chords(const geometry::RoundSolid& round, const Beam& beam,
                                  RowRange rows, std::size_t first_span) {
  passage_.through_round(standing_.grid(), round, beam.toward);
  for (int j = rows.first; j < rows.last; ++j) {
    const std::size_t span = first_span + static_cast<std::size_t>(j - rows.first);
    const int from = from_[span], n = to_[span] - from;
    if (n <= 0) continue;
    kernels_.chords(passage_.row(tile_.first_column + from, j), 0, n, chord_m_.data());
    std::uint64_t* dark = dark_ + word_of(j);
    for (int k = 0; k < n; ++k) {
      const auto inside = static_cast<std::uint64_t>(chord_m_[static_cast<std::size_t>(k)] > 0);
      dark[(from + k) / 64] |= inside << ((from + k) % 64);
    }
  }
}

void TileCaster::note_falling(std::size_t body, float depth, const Beam& beam, bool stays) {
  const CastBody& cast = standing_.bodies()[body];
  if (falling_count_ == falling_.size()) falling_.emplace_back();
  Falling& falling = falling_[falling_count_];
  const geometry::RoundSolid* round = cast.body->round();
  falling.cast = &cast;
  falling.depth = depth;
  falling.first_span = spans_;
  falling.has_core = false;
  falling.stays = stays;
  falling.way = Way::kChords;
  if (is_exact(cast) && cast.body->body.through == Through::kPerCrossing) {
    falling.way = Way::kSkin;
  } else if (is_exact(cast) && round != nullptr) {
    falling.way = Way::kBulge;
  }
  double core = 0;  // no ray loses over half to it alone
  if (cast.corners == 0) {
    falling.ellipse = ellipse_shadow(standing_.grid(), ellipsoid_of(*round), beam.toward);
    const double share =
        static_cast<double>(kMostDepth) / (static_cast<double>(depth) * falling.ellipse.longest_m);
    if (falling.way == Way::kBulge && !stays) core = 1 - share * share;
  }
  falling.rows = trace(body, beam, falling.ellipse, core);
  if (falling.rows.empty()) return;
  ++falling_count_;
  if (falling.way != Way::kChords) return;
  if (round != nullptr) {
    falling.passage.through_round(standing_.grid(), *round, beam.toward);
  } else {
    falling.passage.through_faces(standing_.grid(), cast.body->hull->faces, beam.toward);
    if (cast.body->body.through == Through::kPerMetre && !stays) trace_core(falling);
  }
}

/// The stretch inside a convex body is over some length in a convex part of its shadow.
void TileCaster::trace_core(Falling& falling) {
  // So that a line along a row bounds the rows all the same.
  constexpr double kLeastAcross = 1e-9;
  const auto& lines = falling.passage.where_over(static_cast<double>(kMostDepth / falling.depth));
  if (lines.size() > kMostCoreLines) return;
  int lefts = 0, rights = 0;
  for (const Linear& line : lines) {
    const double across = std::abs(line.across) < kLeastAcross
                              ? std::copysign(kLeastAcross, line.across)
                              : line.across;
    const double at0 = -(line.at0 + line.across * tile_.first_column) / across;
    if (across > 0) {
      room_.left.at0[lefts] = at0;
      room_.left.slope[lefts++] = -line.up / across;
    } else {
      room_.right.at0[rights] = at0;
      room_.right.slope[rights++] = -line.up / across;
    }
  }
  for (; lefts < 2; ++lefts) room_.left.at0[lefts] = -1e300, room_.left.slope[lefts] = 0;
  for (; rights < 2; ++rights) room_.right.at0[rights] = 1e300, room_.right.slope[rights] = 0;
  kernels_.trace_between(lefts, rights, {tile_.columns, falling.rows.first, falling.rows.last},
                         room_, core(falling.first_span));
  falling.has_core = true;
}

RowRange TileCaster::trace(std::size_t body, const Beam& beam, const EllipseShadow& ellipse,
                           double core_share) {
  const std::size_t most = spans_ + static_cast<std::size_t>(tile_.rows) + 4;
  if (from_.size() < most) {
    for (auto* spans : {&from_, &to_, &core_from_, &core_to_}) spans->resize(2 * most);
  }
  const CastBody& cast = standing_.bodies()[body];
  TileRows rows{tile_.columns, tile_.first_row, tile_.first_row + tile_.rows};
  RowRange range;
  if (cast.corners > 0) {
    const Outline outline = outlines_.of(body, beam);
    if (outline.n > 0)
      range = kernels_.trace_outline(outline, beam.shift, rows, room_, outer(spans_));
  } else {
    // The shadow of the box bounds it too: that of a dome is smaller than its whole ellipsoid's.
    const Boxes& boxes = standing_.boxes();
    const double x = boxes.x[body] - beam.shift.x_per_w * boxes.w[body] - tile_.first_column;
    const double y = boxes.y[body] - beam.shift.y_per_w * boxes.w[body];
    const double half_x = boxes.half_x[body] + std::abs(beam.shift.x_per_w) * boxes.half_w[body];
    const double half_y = boxes.half_y[body] + std::abs(beam.shift.y_per_w) * boxes.half_w[body];
    const double one = (-1 - ellipse.side.at0) / ellipse.side.up;
    const double other = (1 - ellipse.side.at0) / ellipse.side.up;
    range.first = whole_from(std::max(y - half_y, std::min(one, other)), rows.first, rows.last);
    range.last = whole_from(std::min(y + half_y, std::max(one, other)), rows.first, rows.last);
    if (range.empty()) return {};
    rows.first = range.first, rows.last = range.last;
    kernels_.trace_ellipse(
        {ellipse.centre.at0 - tile_.first_column, ellipse.centre.up, ellipse.side.at0,
         ellipse.side.up, 1 / std::sqrt(ellipse.curve), core_share, x - half_x, x + half_x},
        rows, outer(spans_), core(spans_));
  }
  if (range.empty()) return {};
  spans_ += static_cast<std::size_t>(range.last - range.first);
  return range;
}

void TileCaster::note_overlaps(RowRange rows) {
  const std::size_t first = word_of(rows.first), words = word_of(rows.last) - first;
  for (auto* bits : {&once_, &twice_, &core_})
    std::fill_n(bits->begin() + static_cast<std::ptrdiff_t>(first), words, std::uint64_t{0});
  for (std::size_t i = 0; i < falling_count_; ++i) note(falling_[i], rows);
}

/// Of the rows asked for.
void TileCaster::note(const Falling& falling, RowRange asked) {
  const RowRange rows{std::max(asked.first, falling.rows.first),
                      std::min(asked.last, falling.rows.last)};
  if (rows.empty()) return;
  const int n = rows.last - rows.first;
  const std::size_t word = word_of(rows.first);
  const std::size_t span =
      falling.first_span + static_cast<std::size_t>(rows.first - falling.rows.first);
  kernels_.note(outer(span), n, &once_[word], &twice_[word]);
  if (falling.stays) return;
  if (falling.way == Way::kChords && !falling.has_core) {
    kernels_.shade(outer(span), n, &twice_[word]);
  } else if (falling.way != Way::kSkin) {
    kernels_.shade(core(span), n, &core_[word]);
  } else if (falling.depth > kMostDepth) {
    kernels_.shade(outer(span), n, &core_[word]);
  }
}

/// Whether the shadows of two bodies may meet: by their boxes.
bool TileCaster::meets(std::size_t body, std::size_t other, const Beam& beam) const {
  const Boxes& b = standing_.boxes();
  const double sx = beam.shift.x_per_w, sy = beam.shift.y_per_w;
  const double x = b.x[body] - b.x[other], y = b.y[body] - b.y[other], w = b.w[body] - b.w[other];
  const double half_w = b.half_w[body] + b.half_w[other];
  const double half_x = b.half_x[body] + b.half_x[other];
  const double half_y = b.half_y[body] + b.half_y[other];
  return std::abs(x - sx * w) <= half_x + std::abs(sx) * half_w &&
         std::abs(y - sy * w) <= half_y + std::abs(sy) * half_w &&
         std::abs(y * sx - x * sy) <= half_y * std::abs(sx) + half_x * std::abs(sy);
}

bool TileCaster::cast_moved(const Beam& beam, const std::vector<char>& moved,
                            const std::uint64_t* dark, std::uint64_t* newly) {
  RowRange rows{tile_.first_row + tile_.rows, tile_.first_row};
  const auto widen = [&](RowRange more) {
    if (!more.empty()) rows = {std::min(rows.first, more.first), std::max(rows.last, more.last)};
  };
  dark_ = newly;
  open_ = {tile_.first_row, tile_.first_row + tile_.rows};
  spans_ = 0;
  falling_count_ = 0;
  bool cleared = false;
  const auto clear = [&] {
    if (!cleared) std::fill_n(newly, tile_.words(), std::uint64_t{0});
    cleared = true;
  };
  const std::vector<std::size_t>& bodies = may_fall(beam);
  for (const std::size_t body : bodies) {
    if (moved[body] == 0) continue;
    const SceneBody& scene_body = *standing_.bodies()[body].body;
    if (scene_body.body.through == Through::kOpaque) {
      clear();
      widen(darken(body, beam));
    } else {
      note_falling(body, scene_body.depth_on(beam.day_of_year), beam);
    }
  }
  for (std::size_t i = 0; i < falling_count_; ++i) widen(falling_[i].rows);
  if (rows.empty()) return false;
  clear();
  const std::size_t first = word_of(rows.first), words = word_of(rows.last) - first;
  if (falling_count_ > 0) {
    note_overlaps(rows);
    std::copy_n(once_.begin() + static_cast<std::ptrdiff_t>(first), words,
                moved_.begin() + static_cast<std::ptrdiff_t>(first));
    for (const std::size_t body : bodies) {
      if (moved[body] != 0) continue;
      const auto meets_moved = [&](std::size_t other) {
        return moved[other] != 0 && meets(body, other, beam);
      };
      if (std::none_of(bodies.begin(), bodies.end(), meets_moved)) continue;
      const std::size_t before = falling_count_;
      note_falling(body, standing_.bodies()[body].body->depth_on(beam.day_of_year), beam, true);
      if (falling_count_ > before) note(falling_[before], rows);
    }
  }
  if (falling_count_ == 0) {
    for (std::size_t k = first; k < first + words; ++k) newly[k] &= ~dark[k];
    return true;
  }
  kernels_.settle(words, &core_[first], &twice_[first], &moved_[first], dark + first, newly + first,
                  &asked_[first]);
  for (int j = rows.first; j < rows.last; ++j) {
    const std::uint64_t* asked = &asked_[word_of(j)];
    if ((asked[0] | asked[1] | asked[2] | asked[3]) != 0)
      kernels_.deepen(through_row(j, asked), asked, tile_.blocks(), kMostDepth, newly + word_of(j));
  }
  return true;
}

void TileCaster::shine(float weight, float* sums) {
  const bool veiled = falling_count_ > 0;
  static constexpr std::uint64_t kNothing[kRowWords] = {};
  for (int j = tile_.first_row; j < tile_.first_row + tile_.rows; ++j, sums += tile_.stride()) {
    const std::uint64_t* dark = dark_ + word_of(j);
    const std::uint64_t* veil = veiled ? &once_[word_of(j)] : kNothing;
    const RowBits seen(veil, dark);
    const ThroughRow through = seen.any() ? through_row(j, seen.words) : ThroughRow{};
    kernels_.shine(through, dark, veil, tile_.blocks(), weight, sums);
  }
}

void TileCaster::shine2(float weight, float other_weight, float* sums, float* other_sums) {
  const bool veiled = falling_count_ > 0;
  static constexpr std::uint64_t kNothing[kRowWords] = {};
  for (int j = tile_.first_row; j < tile_.first_row + tile_.rows; ++j) {
    const std::uint64_t* dark = dark_ + word_of(j);
    const std::uint64_t* veil = veiled ? &once_[word_of(j)] : kNothing;
    const RowBits seen(veil, dark);
    const ThroughRow through = seen.any() ? through_row(j, seen.words) : ThroughRow{};
    kernels_.shine2(through, dark, veil, tile_.blocks(), weight, other_weight, sums, other_sums);
    sums += tile_.stride(), other_sums += tile_.stride();
  }
}

void TileCaster::deepen() {
  if (falling_count_ == 0) return;
  for (int j = tile_.first_row; j < tile_.first_row + tile_.rows; ++j) {
    const std::size_t word = word_of(j);
    std::uint64_t* dark = dark_ + word;
    for (std::size_t k = 0; k < kRowWords; ++k) dark[k] |= core_[word + k];
    const RowBits asked(&twice_[word], dark);
    if (asked.any())
      kernels_.deepen(through_row(j, asked.words), asked.words, tile_.blocks(), kMostDepth, dark);
  }
}

ThroughRow TileCaster::through_row(int row, const std::uint64_t* asked) {
  const RowRange columns = columns_of(asked);
  bulges_.clear();
  bool extra = false;
  for (std::size_t i = 0; i < falling_count_; ++i) {
    Falling& falling = falling_[i];
    if (row < falling.rows.first || row >= falling.rows.last) continue;
    const std::size_t span =
        falling.first_span + static_cast<std::size_t>(row - falling.rows.first);
    const int from = from_[span], to = to_[span];
    const int first = std::max(from, columns.first), last = std::min(to, columns.last);
    if (first >= last) continue;
    if (falling.way == Way::kBulge) {
      const EllipseShadow& ellipse = falling.ellipse;
      const double side = ellipse.side.at(0, row);
      const double most = static_cast<double>(falling.depth) * ellipse.longest_m;
      bulges_.push_back({static_cast<float>(ellipse.centre.at(0, row) - tile_.first_column),
                         static_cast<float>(most * most * (1 - side * side)),
                         static_cast<float>(most * most * ellipse.curve), from / 8, (to + 7) / 8});
      continue;
    }
    if (!extra) std::fill(extra_.begin(), extra_.end(), 0.0F);
    extra = true;
    add_extra(falling, row, from, first - from, last - from);
  }
  return {bulges_.data(), static_cast<int>(bulges_.size()), extra ? extra_.data() : nullptr};
}

/// Over the columns from + first to from + last.
void TileCaster::add_extra(Falling& falling, int row, int from, int first, int last) {
  float* depth = extra_.data() + from;
  if (falling.way == Way::kSkin) {
    for (int k = first; k < last; ++k) depth[k] += falling.depth;
    return;
  }
  kernels_.chords(falling.passage.row(tile_.first_column + from, row), first, last,
                  chord_m_.data());
  const float* chord_m = chord_m_.data();
  if (falling.cast->body->body.through == Through::kPerCrossing) {
    for (int k = first; k < last; ++k) depth[k] += chord_m[k] > 0 ? falling.depth : 0;
  } else {
    for (int k = first; k < last; ++k) depth[k] += falling.depth * chord_m[k];
  }
}

}  // namespace spadework::light
