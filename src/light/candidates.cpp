#include "light/candidates.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "base/check.h"
#include "base/parallel.h"
#include "light/caster_run.h"
#include "light/caster_shadows.h"
#include "light/sky_light.h"

namespace spadework::light {
namespace {

/// A direction, and what it is worth on each of some days: one for a sun, the leaves' states for
/// the sky.
struct WorthOnDay {
  int day = 1;
  double hours = 0, light = 0;
};
struct Direction {
  Beam beam;
  std::vector<WorthOnDay> worths;
};

/// Losses over one tile, summed over cells.
class TileLosses {
 public:
  TileLosses(const Standing& others, const Standing& candidates, const Receiver& receiver,
             Tile tile, std::size_t things, std::size_t n, const Kernels& kernels)
      : kernels_(kernels),
        counted_(receiver, tile),
        others_(others, tile, things, kernels),
        candidates_(candidates, tile, n, kernels),
        dark_(tile.words()),
        depth_(static_cast<std::size_t>(tile.rows) * tile.stride()),
        passed_(depth_.size()),
        losses_(n) {}

  void add(Direction direction) {
    direction.beam.day_of_year = direction.worths.size() == 1 ? direction.worths[0].day : 0;
    candidates_.cast(direction.beam);
    candidates_.set_day(direction.worths[0].day);
    if (candidates_.count() == 0 && !candidates_.changes()) return;
    others_.cast(direction.beam);
    for (const WorthOnDay& worth : direction.worths) {
      candidates_.set_day(worth.day);
      if (candidates_.count() == 0) continue;
      others_.set_day(worth.day);
      sum_others();
      for (std::size_t i = 0; i < candidates_.count(); ++i) weigh(candidates_[i], worth);
    }
  }

  [[nodiscard]] int cells() const { return counted_.count(); }
  [[nodiscard]] const std::vector<Loss>& losses() const { return losses_; }

 private:
  void sum_others() {
    if (!others_.join(dark_, depth_)) std::fill(depth_.begin(), depth_.end(), 0.0F);
    kernels_.transmit(depth_.data(), nullptr, static_cast<int>(depth_.size()), passed_.data());
  }

  void weigh(const ThingShadow& shadow, const WorthOnDay& worth) {
    int hours = 0;
    double light = 0;
    counted_.each_word(shadow.first_row, shadow.last_row, [&](std::size_t k, std::size_t first) {
      const std::uint64_t open = counted_.bits()[k] & ~dark_[k];
      const std::uint64_t darkened = shadow.has_bits ? open & shadow.bits[k] : std::uint64_t{0};
      each_bit(shadow.has_depth ? open : darkened, [&](int cell) {
        const std::size_t at = first + static_cast<std::size_t>(cell);
        const bool gone = (darkened >> cell & 1) != 0;
        const float own = shadow.has_depth ? shadow.depth[at] : 0;
        if (!gone && own <= 0) return;
        const double had = static_cast<double>(passed_[at]);
        light += gone ? had : had * -std::expm1(-static_cast<double>(own));
        hours += depth_[at] <= kMostDepth && (gone || depth_[at] + own > kMostDepth);
      });
    });
    Loss& loss = losses_[static_cast<std::size_t>(shadow.thing)];
    loss.sun_h += hours * worth.hours;
    loss.light_mol_m2 += light * worth.light;
  }

  const Kernels& kernels_;
  CountedCells counted_;
  ThingShadows others_, candidates_;
  std::vector<std::uint64_t> dark_;
  std::vector<float> depth_, passed_;
  std::vector<Loss> losses_;
};

/// All candidates as one scene: each a thing by its number.
Scene scene_of(std::span<const std::vector<garden::Body>> candidates) {
  std::vector<garden::Body> all;
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    for (garden::Body body : candidates[i]) {
      body.thing = std::to_string(i);
      all.push_back(std::move(body));
    }
  }
  return Scene(std::move(all));
}

/// The year's suns and the sky over a receiver, those taken.
std::vector<Direction> directions_over(const garden::Garden& garden, const Receiver& receiver,
                                       const Standing& others, const Standing& candidates,
                                       const SunYear& year, int every) {
  std::vector<Direction> directions;
  const Grid& grid = others.grid();
  const double upright = 1 / geometry::length(grid.w_axis);
  for (std::size_t i = 0; i < year.samples.size(); i += static_cast<std::size_t>(every)) {
    const SunSample& sample = year.samples[i];
    const auto beam = beam_over(grid, sample);
    if (!beam) continue;
    const bool strong = static_cast<double>(sample.beam_w_m2) > CastOptions{}.least_beam_w_m2;
    const double cosine = geometry::dot(grid.w_axis, beam->toward) * upright;
    directions.push_back({*beam,
                          {{beam->day_of_year, strong ? every * year.hours_each : 0,
                            every * cosine * static_cast<double>(sample.light)}}});
  }
  if (!year.has_light()) return directions;
  const LeafStates states = leaf_states({&others, &candidates});
  const auto sky = sky_over(receiver, garden.ground.horizon, garden.site.plan_north);
  for (std::size_t i = 0; i < sky.size(); i += static_cast<std::size_t>(every)) {
    SunSample sample;
    sample.toward_sun = sky[i].toward;
    const auto beam = beam_over(grid, sample);
    if (!beam || sky[i].behind) continue;
    Direction direction{*beam, {}};
    for (const int day : states.days) direction.worths.push_back({day, 0, 0});
    for (std::size_t m = 0; m < 12; ++m) {
      direction.worths[static_cast<std::size_t>(states.of_month[m])].light +=
          every * year.sky_mol_m2_d[m] * year.days_in_month[m] *
          (year.overcast[m] * static_cast<double>(sky[i].overcast) +
           (1 - year.overcast[m]) * static_cast<double>(sky[i].uniform));
    }
    directions.push_back(std::move(direction));
  }
  return directions;
}

}  // namespace

std::vector<Loss> losses(const garden::Garden& garden, const Place& place, const Scene& scene,
                         std::span<const std::vector<garden::Body>> candidates, const SunYear& year,
                         const CandidateOptions& options) {
  constexpr std::size_t kChunks = 16;  // the same whatever the threads
  SW_CHECK(options.every >= 1);
  const Scene standing_in = scene_of(candidates);
  // Scene tells its things in an order of its own.
  std::vector<std::size_t> number;
  for (const std::string& id : standing_in.things()) number.push_back(std::stoul(id));
  std::vector<Loss> out(candidates.size());
  double cells = 0;
  for (const Receiver& receiver : place.receivers) {
    const Standing others(scene, receiver, {}, CastOptions{}.ignore_m);
    const Standing them(standing_in, receiver, {}, CastOptions{}.ignore_m);
    const auto directions = directions_over(garden, receiver, others, them, year, options.every);
    for (const Tile& tile : tiles_of(others.grid())) {
      std::vector<std::vector<Loss>> chunks(kChunks);
      parallel_for(static_cast<int>(kChunks), options.threads, [&](int c) {
        TileLosses losses(others, them, receiver, tile, scene.things().size(), number.size(),
                          kernels_for(options.backend));
        const auto chunk = static_cast<std::size_t>(c);
        for (std::size_t i = chunk; i < directions.size(); i += kChunks) losses.add(directions[i]);
        chunks[chunk] = losses.losses();
      });
      cells += CountedCells(receiver, tile).count();
      for (const std::vector<Loss>& chunk : chunks) {
        for (std::size_t i = 0; i < chunk.size(); ++i) {
          out[number[i]].sun_h += chunk[i].sun_h;
          out[number[i]].light_mol_m2 += chunk[i].light_mol_m2;
        }
      }
    }
  }
  for (Loss& loss : out) loss.sun_h /= cells, loss.light_mol_m2 /= cells;
  return out;
}

}  // namespace spadework::light
