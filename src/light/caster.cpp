#include "light/caster.h"

#include <algorithm>

#include "base/check.h"
#include "base/parallel.h"
#include "light/caster_run.h"
#include "light/caster_tally.h"

namespace spadework::light {
namespace {

/// A sample's beam over the receiver.
struct CountedBeam {
  Beam beam;
  bool counts = false;  // as sunshine
  float light = 0;      // on the receiver's plane
};
using BeamsByPart = std::array<std::array<std::vector<CountedBeam>, kParts>, kMonths>;

BeamsByPart beams_by_part(const Grid& grid, std::span<const SunSample> samples, bool with_light,
                          const CastOptions& options) {
  BeamsByPart by_part;
  const double upright = 1 / geometry::length(grid.w_axis);
  for (const SunSample& sample : samples) {
    SW_CHECK_LT(static_cast<int>(sample.month), kMonths);
    SW_CHECK_LT(static_cast<int>(sample.part), kParts);
    const bool bright = options.least_beam_w_m2 <= 0 ||
                        static_cast<double>(sample.beam_w_m2) > options.least_beam_w_m2;
    if (!bright && !(with_light && sample.light > 0)) continue;
    const auto beam = beam_over(grid, sample);
    if (!beam) continue;
    const double cosine = geometry::dot(grid.w_axis, beam->toward) * upright;
    const double light = with_light ? static_cast<double>(sample.light) * cosine : 0;
    by_part[sample.month][sample.part].push_back({*beam, bright, static_cast<float>(light)});
  }
  return by_part;
}

/// A month over a tile: what one thread does at a time.
struct Share {
  int month = 0;
  Tile tile;
  std::size_t beams = 0;
};

class Caster {
 public:
  Caster(const Scene& scene, const Receiver& receiver, std::span<const SunSample> samples,
         bool with_light, const CastOptions& options)
      : standing_(scene, receiver, options.left_out, options.ignore_m),
        kernels_(kernels_for(options.backend)),
        options_(options),
        with_light_(with_light),
        beams_(beams_by_part(standing_.grid(), samples, with_light, options)) {
    out_.lit = LitCounts(receiver.columns, receiver.rows);
  }

  BeamLight run() {
    make_room();
    const std::vector<Share> shares = shares_of();
    parallel_for(static_cast<int>(shares.size()), options_.threads,
                 [&](int i) { cast_share(shares[static_cast<std::size_t>(i)]); });
    if (options_.progress != nullptr && options_.progress->cancelled()) out_.lit.set_incomplete();
    return std::move(out_);
  }

 private:
  void make_room() {
    const auto cells = static_cast<std::size_t>(standing_.grid().columns) *
                       static_cast<std::size_t>(standing_.grid().rows);
    for (int month = 0; month < kMonths; ++month) {
      bool any = false;
      for (int part = 0; part < kParts; ++part) {
        const auto& beams = beams_of(month, part);
        any |= !beams.empty();
        const auto counted = [](const CountedBeam& beam) { return beam.counts; };
        if (std::any_of(beams.begin(), beams.end(), counted))
          out_.lit.plane(month, part).resize(cells);
      }
      if (with_light_ && any) out_.beam_mol_m2[static_cast<std::size_t>(month)].resize(cells);
    }
  }

  std::vector<Share> shares_of() const {
    std::array<std::size_t, kMonths> beams{};
    for (int month = 0; month < kMonths; ++month) {
      for (int part = 0; part < kParts; ++part)
        beams[static_cast<std::size_t>(month)] += beams_of(month, part).size();
    }
    std::vector<Share> shares;
    for (const Tile& tile : tiles_of(standing_.grid())) {
      for (int month = 0; month < kMonths; ++month) {
        const std::size_t n = beams[static_cast<std::size_t>(month)];
        if (n > 0) shares.push_back({month, tile, n});
      }
    }
    // The longest first, so that threads end together.
    std::stable_sort(shares.begin(), shares.end(),
                     [](const Share& a, const Share& b) { return a.beams > b.beams; });
    return shares;
  }

  void cast_share(const Share& share) {
    TileCaster caster(standing_, share.tile, kernels_);
    Tally tally(share.tile, kernels_);
    std::vector<float> sums;
    if (with_light_) sums.resize(static_cast<std::size_t>(share.tile.rows) * share.tile.stride());
    float open = 0;  // light that came to all cells alike
    for (int part = 0; part < kParts; ++part) {
      std::uint32_t times = 0;
      for (const CountedBeam& counted : beams_of(share.month, part)) {
        if (!step(share.tile)) return;
        times += static_cast<std::uint32_t>(counted.counts);
        switch (caster.cast(counted.beam, tally.room())) {
          case Cover::kOpen:
            open += counted.light;
            break;
          case Cover::kDark:
            if (counted.counts) tally.keep_dark();
            break;
          case Cover::kMixed:
            if (counted.light > 0) caster.shine(counted.light, sums.data());
            if (!counted.counts) break;
            caster.deepen();
            tally.keep();
        }
      }
      if (times > 0) finish(share, part, times, tally);
    }
    if (with_light_) finish_light(share, sums, open);
  }

  /// False when the work was stopped.
  bool step(const Tile& tile) const {
    if (options_.progress == nullptr) return true;
    if (options_.progress->cancelled()) return false;
    if (tile.first_row == 0 && tile.first_column == 0) options_.progress->step();
    return true;
  }

  void finish(const Share& share, int part, std::uint32_t times, Tally& tally) {
    std::uint32_t* plane = out_.lit.plane(share.month, part).data();
    const int columns = standing_.grid().columns;
    tally.add_to(plane, columns);
    over_cells(standing_.grid(), share.tile,
               [&](std::size_t cell, std::size_t) { plane[cell] = times - plane[cell]; });
  }

  void finish_light(const Share& share, const std::vector<float>& sums, float open) {
    std::vector<float>& out = out_.beam_mol_m2[static_cast<std::size_t>(share.month)];
    over_cells(standing_.grid(), share.tile,
               [&](std::size_t cell, std::size_t sum) { out[cell] = sums[sum] + open; });
  }

  [[nodiscard]] const std::vector<CountedBeam>& beams_of(int month, int part) const {
    return beams_[static_cast<std::size_t>(month)][static_cast<std::size_t>(part)];
  }

  const Standing standing_;
  const Kernels& kernels_;
  const CastOptions& options_;
  bool with_light_;
  BeamsByPart beams_;
  BeamLight out_;
};

BeamLight run(const Scene& scene, const Receiver& receiver, std::span<const SunSample> samples,
              bool with_light, const CastOptions& options) {
  BeamLight none;
  none.lit = LitCounts(receiver.columns, receiver.rows);
  if (receiver.columns <= 0 || receiver.rows <= 0) return none;
  return Caster(scene, receiver, samples, with_light, options).run();
}

}  // namespace

LitCounts cast(const Scene& scene, const Receiver& receiver, std::span<const SunSample> samples,
               const CastOptions& options) {
  return run(scene, receiver, samples, false, options).lit;
}

BeamLight cast_light(const Scene& scene, const Receiver& receiver,
                     std::span<const SunSample> samples, const CastOptions& options) {
  return run(scene, receiver, samples, true, options);
}

}  // namespace spadework::light
