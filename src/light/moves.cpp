#include "light/moves.h"

#include <algorithm>
#include <functional>
#include <tuple>

#include "base/check.h"
#include "base/parallel.h"
#include "light/caster_run.h"
#include "light/caster_tally.h"

namespace spadework::light {
namespace {

/// A direction in which some cell of the tile is sunlit without the thing.
struct OpenBeam {
  Beam beam;
  bool any_dark = false;  // what follows tells which; else none is
  std::size_t bits = 0;   // where its words begin in MoveTile::dark
};

/// A month's part.
struct MoveShare {
  int month = 0, part = 0;
  std::vector<OpenBeam> beams;
};

/// What is kept of a tile, of some months.
struct MoveTile {
  Tile tile;
  std::vector<MoveShare> shares;
  std::vector<std::uint64_t> dark;  // without the thing; of a row as many words as its columns want

  [[nodiscard]] std::size_t words() const {
    return static_cast<std::size_t>(tile.columns + 63) / 64;
  }
  void keep(const std::uint64_t* bits) {
    for (int row = 0; row < tile.rows; ++row, bits += kRowWords)
      dark.insert(dark.end(), bits, bits + words());
  }
  /// The bits as the tile has them, in `room` where they are kept closer.
  [[nodiscard]] const std::uint64_t* open_up(std::size_t at, std::uint64_t* room) const {
    const std::uint64_t* from = dark.data() + at;
    if (words() == kRowWords) return from;
    for (int row = 0; row < tile.rows; ++row, from += words())
      std::copy_n(from, words(), room + static_cast<std::size_t>(row) * kRowWords);
    return room;
  }
};

}  // namespace

struct Moves::Kept {
  Receiver receiver;
  CastOptions options;
  std::string thing;
  /// See-through bodies of the other things, with what orders them in a scene.
  Scene veils;
  std::vector<std::vector<double>> veil_contents;
  std::vector<MoveTile> tiles;
  LitCounts without;
};

namespace {

void keep_share(const Standing& standing, TileCaster& caster, Tally& tally,
                const std::vector<Beam>& beams, MoveTile& kept, MoveShare& share,
                LitCounts& without) {
  for (const Beam& beam : beams) {
    std::uint64_t* bits = tally.room();
    switch (caster.cast(beam, bits)) {
      case Cover::kOpen:
        share.beams.push_back({beam, false, 0});
        break;
      case Cover::kDark:
        tally.keep_dark();
        break;
      case Cover::kMixed:
        caster.deepen();
        share.beams.push_back({beam, true, kept.dark.size()});
        kept.keep(bits);
        tally.keep();
    }
  }
  std::uint32_t* plane = without.plane(share.month, share.part).data();
  tally.add_to(plane, standing.grid().columns);
  const auto times = static_cast<std::uint32_t>(beams.size());
  over_cells(standing.grid(), kept.tile,
             [&](std::size_t cell, std::size_t) { plane[cell] = times - plane[cell]; });
}

/// The bodies of the thing that moves among those over a receiver.
struct Moved {
  std::vector<char> is_moved;
  Boxes boxes;  // of those that are

  Moved(const Standing& standing, const Scene& own) {
    const SceneBody* first = own.bodies().data();
    for (std::size_t i = 0; i < standing.bodies().size(); ++i) {
      const SceneBody* body = standing.bodies()[i].body;
      const bool is_own =
          !std::less<>()(body, first) && std::less<>()(body, first + own.bodies().size());
      is_moved.push_back(static_cast<char>(is_own));
      if (is_own) boxes.add(standing.boxes(), i);
    }
    boxes.pad();
  }
};

void move_tile(const Standing& standing, const Moved& moved, const CastOptions& options,
               const MoveTile& kept, const LitCounts& without, LitCounts& out) {
  const Kernels& kernels = kernels_for(options.backend);
  TileCaster caster(standing, kept.tile, kernels);
  Tally tally(kept.tile, kernels);
  std::vector<std::uint64_t> room(kept.tile.words());
  for (const MoveShare& share : kept.shares) {
    for (const OpenBeam& open : share.beams) {
      if (!caster.may_reach(moved.boxes, open.beam)) continue;
      const std::uint64_t* dark =
          open.any_dark ? kept.open_up(open.bits, room.data()) : caster.blank().data();
      if (caster.cast_moved(open.beam, moved.is_moved, dark, tally.room())) tally.keep();
    }
    tally.take_from(without.plane(share.month, share.part).data(),
                    out.plane(share.month, share.part).data(), standing.grid().columns);
  }
}

}  // namespace

Moves::~Moves() = default;
Moves::Moves(Moves&&) noexcept = default;
Moves& Moves::operator=(Moves&&) noexcept = default;

Moves::Moves(const Scene& scene, const Receiver& receiver, std::span<const SunSample> samples,
             const std::string& thing, const CastOptions& options)
    : kept_(std::make_unique<Kept>()) {
  Kept& kept = *kept_;
  kept.receiver = receiver;
  kept.options = options;
  kept.thing = thing;
  kept.without = LitCounts(receiver.columns, receiver.rows);
  if (receiver.columns <= 0 || receiver.rows <= 0) return;
  const LeftOut& out = options.left_out;
  const int own = scene.thing_index(thing);
  LeftOut left_out = out.empty() ? LeftOut(scene.things().size(), 0) : out;
  if (own >= 0) left_out[static_cast<std::size_t>(own)] = 1;
  std::vector<garden::Body> veils;
  for (const SceneBody& body : scene.bodies()) {
    if (is_left_out(left_out, body.thing)) continue;
    if (body.body.through != garden::Through::kOpaque) veils.push_back(body.body);
  }
  kept.veils = Scene(std::move(veils));
  for (const SceneBody& veil : kept.veils.bodies()) kept.veil_contents.push_back(veil.content());
  const Standing standing(scene, receiver, left_out, options.ignore_m);
  std::array<std::array<std::vector<Beam>, kParts>, kMonths> beams;
  for (const SunSample& sample : samples) {
    SW_CHECK_LT(static_cast<int>(sample.month), kMonths);
    SW_CHECK_LT(static_cast<int>(sample.part), kParts);
    const bool bright = options.least_beam_w_m2 <= 0 ||
                        static_cast<double>(sample.beam_w_m2) > options.least_beam_w_m2;
    if (!bright) continue;
    if (const auto beam = beam_over(standing.grid(), sample))
      beams[sample.month][sample.part].push_back(*beam);
  }
  // Each thread its part of the months of every tile.
  const auto parts = static_cast<std::size_t>(std::max(1, options.threads));
  for (const Tile& tile : tiles_of(standing.grid()))
    kept.tiles.insert(kept.tiles.end(), parts, MoveTile{tile, {}, {}});
  std::size_t turn = 0;
  for (int month = 0; month < kMonths; ++month) {
    for (int part = 0; part < kParts; ++part) {
      if (beams[static_cast<std::size_t>(month)][static_cast<std::size_t>(part)].empty()) continue;
      kept.without.plane(month, part).resize(static_cast<std::size_t>(receiver.cells()));
      for (std::size_t t = turn++ % parts; t < kept.tiles.size(); t += parts)
        kept.tiles[t].shares.push_back({month, part, {}});
    }
  }
  parallel_for(static_cast<int>(kept.tiles.size()), options.threads, [&](int i) {
    MoveTile& tile = kept.tiles[static_cast<std::size_t>(i)];
    const Kernels& kernels = kernels_for(options.backend);
    TileCaster caster(standing, tile.tile, kernels);
    Tally tally(tile.tile, kernels);
    for (MoveShare& share : tile.shares)
      keep_share(standing, caster, tally,
                 beams[static_cast<std::size_t>(share.month)][static_cast<std::size_t>(share.part)],
                 tile, share, kept.without);
    tile.dark.shrink_to_fit();
  });
}

LitCounts Moves::with(const std::vector<garden::Body>& bodies) const {
  LitCounts out(kept_->receiver.columns, kept_->receiver.rows);
  std::vector<garden::Body> own = bodies;
  for (garden::Body& body : own) body.thing = kept_->thing;
  with(Scene(std::move(own)), out);
  return out;
}

void Moves::with(const Scene& own, LitCounts& out) const {
  const Kept& kept = *kept_;
  if (out.columns() != kept.receiver.columns || out.rows() != kept.receiver.rows)
    out = LitCounts(kept.receiver.columns, kept.receiver.rows);
  for (int month = 0; month < kMonths; ++month) {
    for (int part = 0; part < kParts; ++part)
      out.plane(month, part).resize(kept.without.plane(month, part).size());
  }
  const Standing standing(bodies_with(own), kept.receiver, kept.options.ignore_m);
  const Moved moved(standing, own);
  parallel_for(static_cast<int>(kept.tiles.size()), kept.options.threads, [&](int i) {
    move_tile(standing, moved, kept.options, kept.tiles[static_cast<std::size_t>(i)], kept.without,
              out);
  });
}

/// The thing's bodies; and the others' veils, which matter where its own overlap them. In the order
/// of one scene.
std::vector<const SceneBody*> Moves::bodies_with(const Scene& own) const {
  std::vector<const SceneBody*> all;
  bool veiled = false;
  for (const SceneBody& body : own.bodies()) {
    veiled |= body.body.through != garden::Through::kOpaque;
    all.push_back(&body);
  }
  if (!veiled) return all;
  std::vector<std::vector<double>> contents;
  for (const SceneBody* body : all) contents.push_back(body->content());
  std::vector<const SceneBody*> merged;
  std::size_t next = 0;
  for (std::size_t v = 0; v < kept_->veils.bodies().size(); ++v) {
    const SceneBody& veil = kept_->veils.bodies()[v];
    while (next < all.size() && std::tie(contents[next], all[next]->body.thing) <
                                    std::tie(kept_->veil_contents[v], veil.body.thing))
      merged.push_back(all[next++]);
    merged.push_back(&veil);
  }
  merged.insert(merged.end(), all.begin() + static_cast<std::ptrdiff_t>(next), all.end());
  return merged;
}

}  // namespace spadework::light
