// The kernels themselves, written once over lanes: D4 (four doubles), F8 (eight floats), I4 (four
// whole numbers) and B256 (256 bits), which the two builds define before they include this file.
// No fused multiply-add, and the same operations in the same order: both give the same bits.
// No #pragma once: it belongs to the file that includes it.

/// Flanks this near to level are left out: no row of cells tells them from the shadow's ends.
constexpr double kLevelFlank = 1e-7;
constexpr double kBeyond = 1e300;

struct MaskTable {
  alignas(32) std::uint64_t from[kTileColumns + 1][kRowWords];
};
constexpr MaskTable make_mask_table() {
  MaskTable table{};
  for (int column = 0; column <= kTileColumns; ++column) {
    for (int word = 0; word < static_cast<int>(kRowWords); ++word) {
      const int first = column - 64 * word;
      table.from[column][word] = first <= 0   ? ~std::uint64_t{0}
                                 : first < 64 ? ~std::uint64_t{0} << first
                                              : 0;
    }
  }
  return table;
}
/// Row c: the bits of the columns from c on.
constexpr MaskTable kColumnsFrom = make_mask_table();

SW_INLINE B256 span_bits(std::int32_t from, std::int32_t to) {
  const auto first = static_cast<std::uint32_t>(from), end = static_cast<std::uint32_t>(to);
  return B256::without(B256::load(kColumnsFrom.from[first]), B256::load(kColumnsFrom.from[end]));
}

SW_KERNEL void may_fall(const BoxRows& boxes, Shift shift, const Window& window,
                        std::uint64_t* bits) {
  for (std::size_t word = 0; word < (boxes.n + 63) / 64; ++word) bits[word] = 0;
  const D4 sx = D4::all(shift.x_per_w), sy = D4::all(shift.y_per_w);
  const D4 size_x = size_of(sx), size_y = size_of(sy);
  for (std::size_t i = 0; i < boxes.n; i += 4) {
    const D4 x = D4::load(boxes.x + i) - D4::all(window.x);
    const D4 y = D4::load(boxes.y + i) - D4::all(window.y);
    const D4 w = D4::load(boxes.w + i), half_w = D4::load(boxes.half_w + i);
    const D4 room_x = D4::load(boxes.half_x + i) + D4::all(window.half_x);
    const D4 room_y = D4::load(boxes.half_y + i) + D4::all(window.half_y);
    // Across the page, up it, and square to the way the shadows fall.
    const D4 off_x = size_of(x - sx * w), off_y = size_of(y - sy * w);
    const D4 off = size_of(y * sx - x * sy);
    const unsigned falls = not_over(off_x, room_x + size_x * half_w) &
                           not_over(off_y, room_y + size_y * half_w) &
                           not_over(off, room_y * size_x + room_x * size_y);
    bits[i / 64] |= static_cast<std::uint64_t>(falls) << (i % 64);
  }
}

SW_KERNEL std::uint64_t facing(const FaceRows& faces, double x, double y, double z) {
  std::uint64_t bits = 0;
  for (std::size_t f = 0; f < faces.n; f += 4) {
    const D4 ahead = D4::load(faces.x + f) * D4::all(x) + D4::load(faces.y + f) * D4::all(y) +
                     D4::load(faces.z + f) * D4::all(z);
    bits |= static_cast<std::uint64_t>(over(ahead, D4::all(0))) << f;
  }
  return bits;
}

/// A shadow between flanks.
struct Flanks {
  int lefts = 0, rights = 0;
  RowRange rows;
};

SW_INLINE Flanks flanks_of(const Outline& outline, Shift shift, TileRows rows,
                           const OutlineRoom& room) {
  const D4 sx = D4::all(shift.x_per_w), sy = D4::all(shift.y_per_w);
  // Lines for which there may be fewer than two are bounded beyond all grids.
  room.left.at0[1] = -kBeyond, room.left.slope[1] = 0;
  room.right.at0[1] = kBeyond, room.right.slope[1] = 0;
  D4 low = D4::all(kBeyond), high = D4::all(-kBeyond);
  for (int k = 0; k <= outline.n; k += 4) {
    const D4 w = D4::load(outline.w + k);
    const D4 x = D4::load(outline.x + k) - sx * w, y = D4::load(outline.y + k) - sy * w;
    x.store(room.x + k);
    y.store(room.y + k);
    low = lesser(low, y), high = greater(high, y);
  }
  Flanks flanks;
  flanks.rows.first = whole_from(low.least(), rows.first, rows.last);
  flanks.rows.last = whole_from(high.most(), rows.first, rows.last);
  if (flanks.rows.empty()) return flanks;
  for (int k = 0; k < outline.n; ++k) {
    const double up = room.y[k + 1] - room.y[k];
    if (!(up > kLevelFlank || up < -kLevelFlank)) continue;
    const double slope = (room.x[k + 1] - room.x[k]) / up;
    const double at0 = room.x[k] - room.y[k] * slope;
    if (up > 0) {  // anticlockwise: upwards on the right
      room.right.at0[flanks.rights] = at0;
      room.right.slope[flanks.rights++] = slope;
    } else {
      room.left.at0[flanks.lefts] = at0;
      room.left.slope[flanks.lefts++] = slope;
    }
  }
  return flanks;
}

/// Fewer flanks on one side than the other are made up by lines that bound nothing.
SW_INLINE int even_out(Flanks& flanks, const OutlineRoom& room) {
  const auto fill = [](Sides side, int& n, int to, double beyond) {
    for (; n < to; ++n) side.at0[n] = beyond, side.slope[n] = 0;
  };
  const int n = flanks.lefts > flanks.rights ? flanks.lefts : flanks.rights;
  fill(room.left, flanks.lefts, n, -kBeyond);
  fill(room.right, flanks.rights, n, kBeyond);
  return n;
}

/// N lines to each side, kept in registers; `act(row, from, to)` for every fourth row.
template <int N, class Act>
SW_INLINE void over_rows(RowRange rows, const OutlineRoom& room, int columns, Act act) {
  D4 left_at0[N], left_slope[N], right_at0[N], right_slope[N];
  for (int k = 0; k < N; ++k) {
    left_at0[k] = D4::all(room.left.at0[k]), left_slope[k] = D4::all(room.left.slope[k]);
    right_at0[k] = D4::all(room.right.at0[k]), right_slope[k] = D4::all(room.right.slope[k]);
  }
  const D4 none = D4::all(0), all = D4::all(columns);
  for (int row = rows.first; row < rows.last; row += 4) {
    const D4 j = D4::count_from(row);
    D4 left = left_at0[0] + j * left_slope[0], right = right_at0[0] + j * right_slope[0];
    for (int k = 1; k < N; ++k) {
      left = greater(left_at0[k] + j * left_slope[k], left);
      right = lesser(right_at0[k] + j * right_slope[k], right);
    }
    act(row, whole_from(left, none, all), whole_from(right, none, all));
  }
}

template <class Act>
SW_INLINE void over_rows(Flanks flanks, const OutlineRoom& room, int columns, Act act) {
  switch (even_out(flanks, room)) {
    case 0:
      return;
    case 1:
    case 2:
      return over_rows<2>(flanks.rows, room, columns, act);
    case 3:
      return over_rows<3>(flanks.rows, room, columns, act);
    case 4:
      return over_rows<4>(flanks.rows, room, columns, act);
    default:
      break;
  }
  const D4 none = D4::all(0), all = D4::all(columns);
  for (int row = flanks.rows.first; row < flanks.rows.last; row += 4) {
    const D4 j = D4::count_from(row);
    D4 left = D4::all(-kBeyond), right = D4::all(kBeyond);
    for (int k = 0; k < flanks.lefts; ++k) {
      left = greater(D4::all(room.left.at0[k]) + j * D4::all(room.left.slope[k]), left);
      right = lesser(D4::all(room.right.at0[k]) + j * D4::all(room.right.slope[k]), right);
    }
    act(row, whole_from(left, none, all), whole_from(right, none, all));
  }
}

SW_KERNEL RowRange shade_outline(const Outline& outline, Shift shift, TileRows rows,
                                 const OutlineRoom& room, std::uint64_t* dark) {
  const Flanks flanks = flanks_of(outline, shift, rows, room);
  if (flanks.rows.empty()) return {};
  const int first = rows.first, last = flanks.rows.last;
  const auto shade_four = [dark, first, last](int row, I4 left, I4 right) SW_INLINE_LAMBDA {
    alignas(16) std::int32_t from[4], to[4];
    left.store(from);
    right.store(to);
    std::uint64_t* words = dark + static_cast<std::size_t>(row - first) * kRowWords;
    const int n = last - row;
    const auto shade_row = [&](int k) SW_INLINE_LAMBDA {
      std::uint64_t* at = words + static_cast<std::size_t>(k) * kRowWords;
      (B256::load(at) | span_bits(from[k], to[k])).store(at);
    };
    if (n >= 4) {
      shade_row(0), shade_row(1), shade_row(2), shade_row(3);
    } else {
      for (int k = 0; k < n; ++k) shade_row(k);
    }
  };
  over_rows(flanks, room, rows.columns, shade_four);
  return flanks.rows;
}

SW_KERNEL RowRange trace_outline(const Outline& outline, Shift shift, TileRows rows,
                                 const OutlineRoom& room, Spans spans) {
  const Flanks flanks = flanks_of(outline, shift, rows, room);
  if (flanks.rows.empty()) return {};
  const int first = flanks.rows.first;
  over_rows(flanks, room, rows.columns,
            [spans, first](int row, I4 left, I4 right) SW_INLINE_LAMBDA {
              left.store(spans.from + (row - first));
              right.store(spans.to + (row - first));
            });
  return flanks.rows;
}

SW_KERNEL void trace_between(int lefts, int rights, TileRows rows, const OutlineRoom& room,
                             Spans spans) {
  over_rows(Flanks{lefts, rights, {rows.first, rows.last}}, room, rows.columns,
            [spans, first = rows.first](int row, I4 left, I4 right) SW_INLINE_LAMBDA {
              left.store(spans.from + (row - first));
              right.store(spans.to + (row - first));
            });
}

SW_KERNEL void trace_ellipse(const EllipseRows& ellipse, TileRows rows, Spans outer, Spans core) {
  const D4 one = D4::all(1), none = D4::all(0), all = D4::all(rows.columns);
  const D4 half = D4::all(ellipse.half), inner = D4::all(ellipse.core);
  const D4 low = D4::all(ellipse.low), high = D4::all(ellipse.high);
  for (int row = rows.first, k = 0; row < rows.last; row += 4, k += 4) {
    const D4 j = D4::count_from(row);
    const D4 side = D4::all(ellipse.side0) + j * D4::all(ellipse.side_step);
    const D4 centre = D4::all(ellipse.centre0) + j * D4::all(ellipse.centre_step);
    const D4 square = side * side;
    const D4 reach = root(greater(one - square, none)) * half;
    whole_from(greater(low, centre - reach), none, all).store(outer.from + k);
    whole_from(lesser(high, centre + reach), none, all).store(outer.to + k);
    const D4 deep = root(greater(inner - square, none)) * half;
    whole_from(centre - deep, none, all).store(core.from + k);
    whole_from(centre + deep, none, all).store(core.to + k);
  }
}

SW_KERNEL void shade(Spans spans, int rows, std::uint64_t* dark) {
  for (int k = 0; k < rows; ++k, dark += kRowWords)
    (B256::load(dark) | span_bits(spans.from[k], spans.to[k])).store(dark);
}

SW_KERNEL void note(Spans spans, int rows, std::uint64_t* once, std::uint64_t* twice) {
  for (int k = 0; k < rows; ++k, once += kRowWords, twice += kRowWords) {
    const B256 bits = span_bits(spans.from[k], spans.to[k]), seen = B256::load(once);
    (B256::load(twice) | (seen & bits)).store(twice);
    (seen | bits).store(once);
  }
}

/// Three bits to a sum and what is carried.
SW_INLINE B256 add(B256 a, B256 b, B256 c, B256& carry) {
  const B256 either = a ^ b;
  carry = (a & b) | (either & c);
  return either ^ c;
}
SW_INLINE B256 add(B256 a, B256 b, B256& carry) {
  carry = a & b;
  return a ^ b;
}

SW_KERNEL void count(const std::uint64_t* const* bits, std::size_t words, std::uint64_t* tally) {
  for (std::size_t word = 0; word < words; word += kRowWords) {
    B256 two[4], four[2], eight, carry;
    const auto at = [&](int k) { return B256::load(bits[k] + word); };
    const B256 a = add(at(0), at(1), at(2), two[0]);
    const B256 b = add(at(3), at(4), at(5), two[1]);
    const B256 c = add(a, b, at(6), two[2]);
    const B256 ones = add(c, at(7), two[3]);
    const B256 d = add(two[0], two[1], two[2], four[0]);
    const B256 twos = add(d, two[3], four[1]);
    const B256 fours = add(four[0], four[1], eight);
    std::uint64_t* plane = tally + word;
    const B256 digits[4] = {ones, twos, fours, eight};
    carry = B256::without(ones, ones);
    for (int k = 0; k < kCountBits; ++k, plane += words) {
      const B256 was = B256::load(plane);
      (k < 4 ? add(was, digits[k], carry, carry) : add(was, carry, carry)).store(plane);
    }
  }
}

SW_INLINE unsigned byte_of(const std::uint64_t* bits, int block) {
  return static_cast<unsigned>(bits[block / 8] >> (8 * (block % 8)) & 0xFF);
}

SW_KERNEL void untally(const std::uint64_t* tally, std::size_t plane_words, int blocks,
                       std::uint32_t* counts) {
  B256 any = B256::load(tally);
  for (std::size_t k = 1; k < static_cast<std::size_t>(kCountBits); ++k)
    any = any | B256::load(tally + k * plane_words);
  if (any.is_zero()) return;
  for (int block = 0; block < blocks; ++block) {
    F8 sum = F8::all(0);  // up to 255: exact
    for (int k = 0; k < kCountBits; ++k) {
      const unsigned bits = byte_of(tally + static_cast<std::size_t>(k) * plane_words, block);
      sum = sum + F8::all(static_cast<float>(1 << k)).only(bits);
    }
    sum.add_as_counts(counts + 8 * block);
  }
}

SW_KERNEL void settle(std::size_t words, const std::uint64_t* core, const std::uint64_t* twice,
                      const std::uint64_t* moved, const std::uint64_t* dark, std::uint64_t* newly,
                      std::uint64_t* asked) {
  for (std::size_t k = 0; k < words; k += kRowWords) {
    const B256 veil = B256::load(moved + k), was_dark = B256::load(dark + k);
    const B256 now = B256::without(B256::load(newly + k) | (B256::load(core + k) & veil), was_dark);
    now.store(newly + k);
    B256::without(B256::without(B256::load(twice + k) & veil, was_dark), now).store(asked + k);
  }
}

SW_INLINE D4 at(D4 k, double at0, double step) { return D4::all(at0) + k * D4::all(step); }

SW_KERNEL void chords(const ChordRow& row, int first, int last, float* chord_m) {
  for (int cell = first & ~3; cell < last; cell += 4) {
    const D4 k = D4::count_from(cell);
    D4 near = D4::all(0), far = D4::all(kBeyond);
    for (std::size_t f = 0; f < row.nears; ++f)
      near = greater(at(k, row.near_at0[f], row.near_step[f]), near);
    for (std::size_t f = 0; f < row.fars; ++f)
      far = lesser(at(k, row.far_at0[f], row.far_step[f]), far);
    if (row.bulge != Bulge::kNone) {
      const D4 square = D4::all(row.half0) + k * at(k, row.half1, row.half2);
      const D4 half = root(greater(square, D4::all(0)));
      const D4 mid = at(k, row.mid0, row.mid_step);
      if (row.bulge == Bulge::kBetween) {
        near = greater(mid - half, near);
        far = lesser(mid + half, far);
      } else if (row.bulge == Bulge::kBefore) {
        far = lesser(mid - half, far);
      } else {
        near = greater(mid + half, near);
      }
    }
    greater(far - near, D4::all(0)).store_as_floats(chord_m + cell);
  }
}

/// One bit for each byte that is not 0: its lowest.
SW_INLINE std::uint64_t bytes_in(std::uint64_t bits) {
  bits |= bits >> 4;
  bits |= bits >> 2;
  bits |= bits >> 1;
  return bits & 0x0101010101010101U;
}
/// The cells of a word of columns that lie within the blocks.
SW_INLINE std::uint64_t within(int word, int blocks) {
  const int n = blocks - 8 * word;
  return n >= 8 ? ~std::uint64_t{0} : (std::uint64_t{1} << (8 * n)) - 1;
}
/// Calls `act(block, cells)` for the blocks of a word whose marks are set.
template <class Act>
SW_INLINE void each_block(std::uint64_t marks, std::uint64_t bits, int word, Act act) {
  for (; marks != 0; marks &= marks - 1) {
    const int shift = __builtin_ctzll(marks);
    act(8 * word + shift / 8, static_cast<unsigned>(bits >> shift & 0xFF));
  }
}

/// The depth over the 8 columns of a block.
SW_INLINE F8 depth_of(const ThroughRow& through, int block) {
  F8 depth = through.extra ? F8::load(through.extra + 8 * block) : F8::all(0);
  const F8 columns = F8::count_from(static_cast<float>(8 * block));
  for (int i = 0; i < through.n; ++i) {
    const BulgeRow& bulge = through.bulges[i];
    if (block < bulge.first_block || block >= bulge.last_block) continue;
    const F8 off = columns - F8::all(bulge.centre);
    const F8 left = F8::all(bulge.peak) - F8::all(bulge.fall) * (off * off);
    depth = depth + root(greater(left, F8::all(0)));
  }
  return depth;
}

SW_KERNEL void deepen(const ThroughRow& through, const std::uint64_t* asked, int blocks, float most,
                      std::uint64_t* dark) {
  for (int word = 0; 8 * word < blocks; ++word) {
    std::uint64_t deep = 0;
    const auto look = [&](int block, unsigned cells) SW_INLINE_LAMBDA {
      const unsigned over_most = over(depth_of(through, block), F8::all(most)) & cells;
      deep |= static_cast<std::uint64_t>(over_most) << (8 * (block % 8));
    };
    each_block(bytes_in(asked[word]), asked[word], word, look);
    dark[word] |= deep;
  }
}

/// e^−depth for depth >= 0, to 3 in 10^7 (depths over 80 as 80): 2^−n times a polynomial for the
/// rest, Taylor's to the sixth power over a half on either side. Source: closed form.
SW_INLINE F8 transmission(F8 depth) {
  const F8 x = lesser(depth, F8::all(80)) * F8::all(-1.44269504F);
  const F8 whole = to_nearest(x);
  const F8 f = (x - whole) * F8::all(0.693147181F);
  F8 p = F8::all(1.0F / 720);
  p = p * f + F8::all(1.0F / 120);
  p = p * f + F8::all(1.0F / 24);
  p = p * f + F8::all(1.0F / 6);
  p = p * f + F8::all(0.5F);
  p = p * f + F8::all(1);
  p = p * f + F8::all(1);
  return times_power_of_two(p, whole);
}

SW_KERNEL void add_depth(const ThroughRow& through, int first, int last, float* depth) {
  for (int block = first; block < last; ++block)
    (F8::load(depth + 8 * block) + depth_of(through, block)).store(depth + 8 * block);
}

SW_KERNEL void transmit(const float* depth, const float* without, int n, float* passed) {
  for (int k = 0; k < n; k += 8) {
    F8 left = F8::load(depth + k);
    if (without != nullptr) left = greater(left - F8::load(without + k), F8::all(0));
    transmission(left).store(passed + k);
  }
}

SW_KERNEL float sum_where(const float* values, const std::uint64_t* bits, int blocks) {
  F8 sum = F8::all(0);
  for (int word = 0; 8 * word < blocks; ++word) {
    const auto add_block = [&](int block, unsigned cells) SW_INLINE_LAMBDA {
      sum = sum + F8::load(values + 8 * block).only(cells);
    };
    each_block(bytes_in(bits[word]), bits[word], word, add_block);
  }
  float lanes[8];
  sum.store(lanes);
  return ((lanes[0] + lanes[4]) + (lanes[1] + lanes[5])) +
         ((lanes[2] + lanes[6]) + (lanes[3] + lanes[7]));
}

SW_KERNEL void bits_over(const float* depth, const float* without, int blocks, float most,
                         std::uint64_t* bits) {
  const F8 limit = F8::all(most);
  for (int word = 0; word < static_cast<int>(kRowWords); ++word) bits[word] = 0;
  for (int block = 0; block < blocks; ++block) {
    F8 left = F8::load(depth + 8 * block);
    if (without != nullptr) left = left - F8::load(without + 8 * block);
    bits[block / 8] |= static_cast<std::uint64_t>(over(left, limit)) << (8 * (block % 8));
  }
}

SW_KERNEL void shine(const ThroughRow& through, const std::uint64_t* dark,
                     const std::uint64_t* veiled, int blocks, float weight, float* sum) {
  const F8 full = F8::all(weight);
  for (int word = 0; 8 * word < blocks; ++word) {
    const std::uint64_t lit = ~dark[word] & within(word, blocks);
    const std::uint64_t behind_veils = bytes_in(lit & veiled[word]);
    const auto open = [&](int block, unsigned cells) SW_INLINE_LAMBDA {
      (F8::load(sum + 8 * block) + full.only(cells)).store(sum + 8 * block);
    };
    each_block(bytes_in(lit) & ~behind_veils, lit, word, open);
    const auto veil = [&](int block, unsigned cells) SW_INLINE_LAMBDA {
      const F8 light = full * transmission(depth_of(through, block));
      (F8::load(sum + 8 * block) + light.only(cells)).store(sum + 8 * block);
    };
    each_block(behind_veils, lit, word, veil);
  }
}

SW_KERNEL void shine2(const ThroughRow& through, const std::uint64_t* dark,
                      const std::uint64_t* veiled, int blocks, float weight, float other_weight,
                      float* sum, float* other_sum) {
  const F8 one = F8::all(weight), two = F8::all(other_weight);
  for (int word = 0; 8 * word < blocks; ++word) {
    const std::uint64_t lit = ~dark[word] & within(word, blocks);
    const std::uint64_t behind_veils = bytes_in(lit & veiled[word]);
    const auto add = [&](int block, F8 passed) SW_INLINE_LAMBDA {
      (F8::load(sum + 8 * block) + passed * one).store(sum + 8 * block);
      (F8::load(other_sum + 8 * block) + passed * two).store(other_sum + 8 * block);
    };
    const auto open = [&](int block, unsigned cells)
                          SW_INLINE_LAMBDA { add(block, F8::all(1).only(cells)); };
    each_block(bytes_in(lit) & ~behind_veils, lit, word, open);
    const auto veil = [&](int block, unsigned cells) SW_INLINE_LAMBDA {
      add(block, transmission(depth_of(through, block)).only(cells));
    };
    each_block(behind_veils, lit, word, veil);
  }
}

constexpr Kernels kKernels{may_fall,      facing,    shade_outline, trace_outline, trace_ellipse,
                           trace_between, shade,     note,          count,         untally,
                           settle,        chords,    deepen,        add_depth,     transmit,
                           sum_where,     bits_over, shine,         shine2};
