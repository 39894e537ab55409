#include "light/moves.h"

#include <algorithm>
#include <functional>
#include <mutex>
#include <optional>
#include <utility>

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

/// Bodies stand in a scene by what they are, then by the thing's name.
std::pair<std::vector<double>, std::string> rank_of(const SceneBody& body) {
  return {body.content(), body.body.thing};
}

}  // namespace

struct Moves::Kept {
  Receiver receiver;
  CastOptions options;
  std::string thing;
  /// See-through bodies of the other things; those over the receiver, with what orders them in a
  /// scene.
  Scene veils;
  std::optional<Standing> veils_over;
  std::vector<std::pair<std::vector<double>, std::string>> veil_ranks;
  std::vector<MoveTile> tiles;
  LitCounts without;

  /// The thing's bodies; and the others' veils, which matter where its own overlap them. In the
  /// order of one scene.
  [[nodiscard]] Standing standing_with(const Scene& own) const;
};

Standing Moves::Kept::standing_with(const Scene& own) const {
  const Standing alone(own, receiver, LeftOut(), options.ignore_m);
  std::vector<std::size_t> before;
  for (const CastBody& body : alone.bodies()) {
    const bool opaque = body.body->body.through == garden::Through::kOpaque;  // these come first
    const auto place =
        opaque ? veil_ranks.begin()
               : std::upper_bound(veil_ranks.begin(), veil_ranks.end(), rank_of(*body.body));
    before.push_back(static_cast<std::size_t>(place - veil_ranks.begin()));
  }
  const bool veiled = std::any_of(alone.bodies().begin(), alone.bodies().end(), [](const auto& b) {
    return b.body->body.through != garden::Through::kOpaque;
  });
  return veiled ? veils_over->with(alone, before) : alone;
}

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

/// Adds what the tile's cells lose; `mutex` guards the planes' first use.
void move_tile(const Standing& standing, const Moved& moved, const CastOptions& options,
               const MoveTile& kept, LitCounts& lost, std::mutex& mutex) {
  const Kernels& kernels = kernels_for(options.backend);
  TileCaster caster(standing, kept.tile, kernels);
  Tally tally(kept.tile, kernels);
  std::vector<std::uint64_t> room(kept.tile.words());
  for (const MoveShare& share : kept.shares) {
    bool any = false;
    for (const OpenBeam& open : share.beams) {
      if (!caster.may_reach(moved.boxes, open.beam)) continue;
      const std::uint64_t* dark =
          open.any_dark ? kept.open_up(open.bits, room.data()) : caster.blank().data();
      if (!caster.cast_moved(open.beam, moved.is_moved, dark, tally.room())) continue;
      tally.keep();
      any = true;
    }
    if (!any) continue;
    std::vector<std::uint32_t>& plane = lost.plane(share.month, share.part);
    {
      const std::scoped_lock lock(mutex);
      plane.resize(static_cast<std::size_t>(lost.columns()) *
                   static_cast<std::size_t>(lost.rows()));
    }
    tally.add_to(plane.data(), standing.grid().columns);
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
  kept.options.progress = nullptr;  // that of this work alone
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
  kept.veils_over.emplace(kept.veils, receiver, LeftOut(), options.ignore_m);
  for (const CastBody& veil : kept.veils_over->bodies())
    kept.veil_ranks.push_back(rank_of(*veil.body));
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
    for (MoveShare& share : tile.shares) {
      if (options.progress != nullptr && options.progress->cancelled()) return;
      keep_share(standing, caster, tally,
                 beams[static_cast<std::size_t>(share.month)][static_cast<std::size_t>(share.part)],
                 tile, share, kept.without);
    }
    tile.dark.shrink_to_fit();
  });
}

const LitCounts& Moves::without() const { return kept_->without; }

LitCounts Moves::with(const std::vector<garden::Body>& bodies) const {
  std::vector<garden::Body> own = bodies;
  for (garden::Body& body : own) body.thing = kept_->thing;
  const LitCounts taken = lost(Scene(std::move(own)));
  LitCounts out = kept_->without;
  for (int month = 0; month < kMonths; ++month) {
    for (int part = 0; part < kParts; ++part) {
      const std::vector<std::uint32_t>& plane = taken.plane(month, part);
      for (std::size_t cell = 0; cell < plane.size(); ++cell)
        out.plane(month, part)[cell] -= plane[cell];
    }
  }
  return out;
}

LitCounts Moves::lost(const Scene& own) const {
  const Kept& kept = *kept_;
  LitCounts lost(kept.receiver.columns, kept.receiver.rows);
  const Standing standing = kept.standing_with(own);
  const Moved moved(standing, own);
  if (moved.boxes.x.empty()) return lost;
  std::mutex mutex;
  parallel_for(static_cast<int>(kept.tiles.size()), kept.options.threads, [&](int i) {
    move_tile(standing, moved, kept.options, kept.tiles[static_cast<std::size_t>(i)], lost, mutex);
  });
  return lost;
}

}  // namespace spadework::light
