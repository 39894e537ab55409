#include "light/moves.h"

#include <algorithm>

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
  std::size_t bits = 0;   // where its words begin in MoveShare::dark
};

/// A month's part over a tile.
struct MoveShare {
  int month = 0, part = 0;
  Tile tile;
  std::vector<OpenBeam> beams;
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
  std::vector<garden::Body> veils;  // see-through bodies of the other things
  std::vector<MoveShare> shares;
  LitCounts without;
};

namespace {

void keep_share(const Standing& standing, const CastOptions& options,
                const std::vector<Beam>& beams, MoveShare& share, LitCounts& without) {
  const Kernels& kernels = kernels_for(options.backend);
  TileCaster caster(standing, share.tile, kernels);
  Tally tally(share.tile, kernels);
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
        share.beams.push_back({beam, true, share.dark.size()});
        share.keep(bits);
        tally.keep();
    }
  }
  share.dark.shrink_to_fit();
  std::uint32_t* plane = without.plane(share.month, share.part).data();
  tally.add_to(plane, standing.grid().columns);
  const auto times = static_cast<std::uint32_t>(beams.size());
  over_cells(standing.grid(), share.tile,
             [&](std::size_t cell, std::size_t) { plane[cell] = times - plane[cell]; });
}

/// The bodies of the thing that moves among those over a receiver.
struct Moved {
  std::vector<char> is_moved;
  Boxes boxes;  // of those that are

  Moved(const Standing& standing, int thing) {
    for (std::size_t i = 0; i < standing.bodies().size(); ++i) {
      is_moved.push_back(static_cast<char>(standing.bodies()[i].body->thing == thing));
      if (is_moved.back() != 0) boxes.add(standing.boxes(), i);
    }
    boxes.pad();
  }
};

void move_share(const Standing& standing, const Moved& moved, const CastOptions& options,
                const MoveShare& share, const LitCounts& without, LitCounts& out) {
  const Kernels& kernels = kernels_for(options.backend);
  TileCaster caster(standing, share.tile, kernels);
  Tally tally(share.tile, kernels);
  std::vector<std::uint64_t> room(share.tile.words());
  for (const OpenBeam& open : share.beams) {
    if (!caster.may_reach(moved.boxes, open.beam)) continue;
    const std::uint64_t* dark =
        open.any_dark ? share.open_up(open.bits, room.data()) : caster.blank().data();
    if (caster.cast_moved(open.beam, moved.is_moved, dark, tally.room())) tally.keep();
  }
  tally.take_from(without.plane(share.month, share.part).data(),
                  out.plane(share.month, share.part).data(), standing.grid().columns);
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
  for (const SceneBody& body : scene.bodies()) {
    if (is_left_out(left_out, body.thing)) continue;
    if (body.body.through != garden::Through::kOpaque) kept.veils.push_back(body.body);
  }
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
  for (int month = 0; month < kMonths; ++month) {
    for (int part = 0; part < kParts; ++part) {
      if (beams[static_cast<std::size_t>(month)][static_cast<std::size_t>(part)].empty()) continue;
      kept.without.plane(month, part).resize(static_cast<std::size_t>(receiver.cells()));
      for (const Tile& tile : tiles_of(standing.grid()))
        kept.shares.push_back({month, part, tile, {}, {}});
    }
  }
  parallel_for(static_cast<int>(kept.shares.size()), options.threads, [&](int i) {
    MoveShare& share = kept.shares[static_cast<std::size_t>(i)];
    keep_share(standing, options,
               beams[static_cast<std::size_t>(share.month)][static_cast<std::size_t>(share.part)],
               share, kept.without);
  });
}

LitCounts Moves::with(const std::vector<garden::Body>& bodies) const {
  LitCounts out(kept_->receiver.columns, kept_->receiver.rows);
  with(bodies, out);
  return out;
}

void Moves::with(const std::vector<garden::Body>& bodies, LitCounts& out) const {
  const Kept& kept = *kept_;
  if (out.columns() != kept.receiver.columns || out.rows() != kept.receiver.rows)
    out = LitCounts(kept.receiver.columns, kept.receiver.rows);
  for (int month = 0; month < kMonths; ++month) {
    for (int part = 0; part < kParts; ++part)
      out.plane(month, part).resize(kept.without.plane(month, part).size());
  }
  std::vector<garden::Body> all;
  bool veiled = false;
  for (garden::Body body : bodies) {
    veiled |= body.through != garden::Through::kOpaque;
    body.thing = kept.thing;
    all.push_back(std::move(body));
  }
  // Other veils matter where the thing's own overlap them.
  if (veiled) all.insert(all.end(), kept.veils.begin(), kept.veils.end());
  const Scene scene(std::move(all));
  const Standing standing(scene, kept.receiver, {}, kept.options.ignore_m);
  const int own = scene.thing_index(kept.thing);
  const Moved moved(standing, own);
  parallel_for(static_cast<int>(kept.shares.size()), kept.options.threads, [&](int i) {
    move_share(standing, moved, kept.options, kept.shares[static_cast<std::size_t>(i)],
               kept.without, out);
  });
}

}  // namespace spadework::light
