#include "light/caster_shadows.h"

#include <algorithm>

namespace spadework::light {
namespace {

/// The words or cells of some rows.
template <class T>
void clear_rows(std::vector<T>& of_tile, int first_row, int last_row, std::size_t each) {
  if (of_tile.empty() || first_row >= last_row) return;
  std::fill(
      of_tile.begin() + static_cast<std::ptrdiff_t>(static_cast<std::size_t>(first_row) * each),
      of_tile.begin() + static_cast<std::ptrdiff_t>(static_cast<std::size_t>(last_row) * each),
      T{});
}

}  // namespace

CountedCells::CountedCells(const Receiver& receiver, Tile tile) : tile_(tile), bits_(tile.words()) {
  for (int row = 0; row < tile.rows; ++row) {
    for (int column = 0; column < tile.columns; ++column) {
      const int cell = (tile.first_row + row) * receiver.columns + tile.first_column + column;
      if (!receiver.counted.empty() && !receiver.counted[static_cast<std::size_t>(cell)]) continue;
      bits_[static_cast<std::size_t>(row) * kRowWords + static_cast<std::size_t>(column / 64)] |=
          std::uint64_t{1} << (column % 64);
      ++count_;
    }
  }
}

ThingShadows::ThingShadows(const Standing& standing, Tile tile, std::size_t things,
                           const Kernels& kernels)
    : standing_(standing), tile_(tile), caster_(standing, tile, kernels), at_(things, -1) {}

void ThingShadows::clear(BodyShadow& shadow) const {
  clear_rows(shadow.bits, shadow.first_row, shadow.last_row, kRowWords);
  clear_rows(shadow.way, shadow.first_row, shadow.last_row, tile_.stride());
}

void ThingShadows::clear(ThingShadow& shadow) const {
  clear_rows(shadow.bits, shadow.first_row, shadow.last_row, kRowWords);
  clear_rows(shadow.depth, shadow.first_row, shadow.last_row, tile_.stride());
}

void ThingShadows::cast(const Beam& beam) {
  for (std::size_t i = 0; i < body_count_; ++i) clear(bodies_[i]);
  body_count_ = 0;
  const std::size_t cells = static_cast<std::size_t>(tile_.rows) * tile_.stride();
  for (const std::size_t body : caster_.may_fall(beam)) {
    if (body_count_ == bodies_.size()) bodies_.emplace_back();
    BodyShadow& shadow = bodies_[body_count_];
    shadow.body = standing_.bodies()[body].body;
    shadow.opaque = shadow.body->body.through == garden::Through::kOpaque;
    if (shadow.opaque) {
      shadow.bits.resize(tile_.words());
    } else {
      shadow.way.resize(cells);
    }
    const RowRange rows = caster_.cast_body(body, beam, shadow.bits.data(), shadow.way.data());
    if (rows.empty()) continue;
    shadow.first_row = rows.first - tile_.first_row;
    shadow.last_row = rows.last - tile_.first_row;
    ++body_count_;
  }
}

void ThingShadows::set_day(int day) {
  for (std::size_t i = 0; i < count_; ++i) {
    at_[static_cast<std::size_t>(shadows_[i].thing)] = -1;
    clear(shadows_[i]);
  }
  count_ = 0;
  for (std::size_t i = 0; i < body_count_; ++i) add(bodies_[i], day);
}

bool ThingShadows::changes() const {
  const auto seasonal = [](const BodyShadow& shadow) { return shadow.body->body.depth.size() > 1; };
  return std::any_of(bodies_.begin(), bodies_.begin() + static_cast<std::ptrdiff_t>(body_count_),
                     seasonal);
}

ThingShadow& ThingShadows::shadow_of(int thing) {
  int& at = at_[static_cast<std::size_t>(thing)];
  if (at >= 0) return shadows_[static_cast<std::size_t>(at)];
  at = static_cast<int>(count_);
  if (count_ == shadows_.size()) shadows_.emplace_back();
  ThingShadow& shadow = shadows_[count_++];
  shadow.thing = thing;
  shadow.first_row = tile_.rows, shadow.last_row = 0;
  shadow.has_bits = shadow.has_depth = false;
  return shadow;
}

void ThingShadows::add(const BodyShadow& body, int day) {
  const float per_way = body.body->depth_on(day);
  if (!(per_way > 0)) return;
  ThingShadow& shadow = shadow_of(body.body->thing);
  shadow.first_row = std::min(shadow.first_row, body.first_row);
  shadow.last_row = std::max(shadow.last_row, body.last_row);
  const std::size_t each = body.opaque ? kRowWords : tile_.stride();
  const std::size_t first = static_cast<std::size_t>(body.first_row) * each;
  const std::size_t end = static_cast<std::size_t>(body.last_row) * each;
  if (body.opaque) {
    shadow.has_bits = true;
    shadow.bits.resize(tile_.words());
    for (std::size_t k = first; k < end; ++k) shadow.bits[k] |= body.bits[k];
  } else {
    shadow.has_depth = true;
    shadow.depth.resize(static_cast<std::size_t>(tile_.rows) * tile_.stride());
    for (std::size_t k = first; k < end; ++k) shadow.depth[k] += per_way * body.way[k];
  }
}

bool ThingShadows::join(std::vector<std::uint64_t>& dark, std::vector<float>& depth) const {
  std::fill(dark.begin(), dark.end(), 0);
  bool veiled = false;
  for (std::size_t i = 0; i < count_; ++i) {
    const ThingShadow& shadow = shadows_[i];
    if (shadow.has_bits) {
      const std::size_t end = static_cast<std::size_t>(shadow.last_row) * kRowWords;
      for (auto k = static_cast<std::size_t>(shadow.first_row) * kRowWords; k < end; ++k)
        dark[k] |= shadow.bits[k];
    }
    if (!shadow.has_depth) continue;
    if (!veiled) std::fill(depth.begin(), depth.end(), 0.0F);
    veiled = true;
    const std::size_t end = static_cast<std::size_t>(shadow.last_row) * tile_.stride();
    for (auto k = static_cast<std::size_t>(shadow.first_row) * tile_.stride(); k < end; ++k)
      depth[k] += shadow.depth[k];
  }
  return veiled;
}

}  // namespace spadework::light
