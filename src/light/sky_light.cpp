#include "light/sky_light.h"

#include <algorithm>
#include <cmath>

#include "base/parallel.h"
#include "light/caster_run.h"
#include "light/caster_shadows.h"
#include "light/skyline.h"
#include "sky/cloudy_sky.h"
#include "sky/direction.h"
#include "sky/dome.h"

namespace spadework::light {
namespace {

using geometry::cross;
using geometry::dot;
using geometry::length;
using geometry::Vec3;

/// Mean of the overcast sky's radiance over a level plane's directions: 1 but for their number.
double overcast_mean(const std::vector<Vec3>& dome) {
  double sum = 0;
  for (const Vec3& d : dome) sum += sky::overcast_radiance(d.z);
  return sum / static_cast<double>(dome.size());
}

struct SkyBeam {
  Beam beam;
  float uniform = 0, overcast = 0;
};

class SkyCaster {
 public:
  SkyCaster(const Scene& scene, const Receiver& receiver, std::span<const SkyDirection> sky,
            const CastOptions& options)
      : standing_(scene, receiver, options.left_out, options.ignore_m),
        options_(options),
        things_(scene.things().size()),
        states_(leaf_states({&standing_})) {
    out_.state_of_month = states_.of_month;
    const auto cells = static_cast<std::size_t>(receiver.cells());
    out_.uniform.assign(states_.days.size(), std::vector<float>(cells));
    out_.overcast = out_.uniform;
    for (const SkyDirection& direction : sky) {
      if (direction.behind) continue;
      SunSample sample;
      sample.toward_sun = direction.toward;
      if (const auto beam = beam_over(standing_.grid(), sample))
        beams_.push_back({*beam, direction.uniform, direction.overcast});
    }
  }

  SkyLight run() {
    // Where leaves change over a place, its shadows are cast once for all states.
    constexpr std::size_t kPlaceCells = 8192;
    const auto tiles = tiles_of(standing_.grid());
    const int states = static_cast<int>(states_.days.size());
    const auto cells = static_cast<std::size_t>(standing_.grid().rows) *
                       static_cast<std::size_t>(standing_.grid().columns);
    if (states > 1 && cells <= kPlaceCells) {
      parallel_for(static_cast<int>(tiles.size()), options_.threads,
                   [&](int i) { cast_states(tiles[static_cast<std::size_t>(i)]); });
      return std::move(out_);
    }
    // The sky in parts, whatever the threads, so that sums are the same.
    constexpr int kSkyParts = 4;
    for (const Tile& tile : tiles) {
      std::vector<Sums> sums(static_cast<std::size_t>(states * kSkyParts));
      parallel_for(states * kSkyParts, options_.threads, [&](int i) {
        const std::size_t n = beams_.size(), part = static_cast<std::size_t>(i % kSkyParts);
        sums[static_cast<std::size_t>(i)] = cast_state(
            tile, states_.days[static_cast<std::size_t>(i / kSkyParts)],
            {beams_.data() + n * part / kSkyParts, beams_.data() + n * (part + 1) / kSkyParts});
      });
      for (std::size_t state = 0; state < static_cast<std::size_t>(states); ++state)
        add_up(tile, state, {sums.data() + state * kSkyParts, kSkyParts});
    }
    return std::move(out_);
  }

 private:
  /// Sums of one state over a tile.
  struct Sums {
    std::vector<float> uniform, overcast;
    double open_uniform = 0, open_overcast = 0;  // of directions that nothing stands in
    double most_uniform = 0, most_overcast = 0;  // of all, were nothing in the way
  };

  [[nodiscard]] Sums cast_state(const Tile& tile, int day, std::span<const SkyBeam> beams) const {
    TileCaster caster(standing_, tile, kernels_for(options_.backend));
    std::vector<std::uint64_t> dark(tile.words());
    Sums sums;
    sums.uniform.resize(static_cast<std::size_t>(tile.rows) * tile.stride());
    sums.overcast = sums.uniform;
    for (SkyBeam sky : beams) {
      if (options_.progress != nullptr && options_.progress->cancelled()) break;
      sky.beam.day_of_year = day;
      sums.most_uniform += sky.uniform, sums.most_overcast += sky.overcast;
      switch (caster.cast(sky.beam, dark.data())) {
        case Cover::kOpen:
          sums.open_uniform += sky.uniform, sums.open_overcast += sky.overcast;
          break;
        case Cover::kMixed:
          caster.shine2(sky.uniform, sky.overcast, sums.uniform.data(), sums.overcast.data());
          break;
        case Cover::kDark:
          break;
      }
    }
    return sums;
  }

  /// Takes the parts of the sky together.
  void add_up(const Tile& tile, std::size_t state, std::span<const Sums> parts) {
    over_cells(standing_.grid(), tile, [&](std::size_t cell, std::size_t at) {
      double uniform = 0, overcast = 0, most_uniform = 0, most_overcast = 0;
      for (const Sums& part : parts) {
        uniform += static_cast<double>(part.uniform[at]) + part.open_uniform;
        overcast += static_cast<double>(part.overcast[at]) + part.open_overcast;
        most_uniform += part.most_uniform, most_overcast += part.most_overcast;
      }
      out_.uniform[state][cell] = static_cast<float>(std::min(most_uniform, uniform));
      out_.overcast[state][cell] = static_cast<float>(std::min(most_overcast, overcast));
    });
  }

  void cast_states(const Tile& tile) {
    const Kernels& kernels = kernels_for(options_.backend);
    ThingShadows shadows(standing_, tile, things_, kernels);
    std::vector<std::uint64_t> dark(tile.words());
    std::vector<float> depth(static_cast<std::size_t>(tile.rows) * tile.stride());
    Sums always;
    always.uniform = always.overcast = depth;
    std::vector<Sums> sums(states_.days.size(), always);
    double most_uniform = 0, most_overcast = 0;
    for (SkyBeam sky : beams_) {
      if (options_.progress != nullptr && options_.progress->cancelled()) return;
      most_uniform += sky.uniform, most_overcast += sky.overcast;
      sky.beam.day_of_year = 0;
      shadows.cast(sky.beam);
      const bool changes = shadows.changes();
      for (std::size_t state = 0; state < (changes ? sums.size() : 1); ++state) {
        Sums& to = changes ? sums[state] : always;
        shadows.set_day(states_.days[state]);
        if (shadows.count() == 0) {
          to.open_uniform += sky.uniform, to.open_overcast += sky.overcast;
          continue;
        }
        const bool veiled = shadows.join(dark, depth);
        shine(tile, kernels, sky, dark, veiled ? &depth : nullptr, to);
      }
    }
    for (std::size_t state = 0; state < sums.size(); ++state) {
      const Sums& own = sums[state];
      const auto all = [](double most, float a, float b, double open_a, double open_b) {
        return static_cast<float>(
            std::min(most, static_cast<double>(a) + static_cast<double>(b) + open_a + open_b));
      };
      over_cells(standing_.grid(), tile, [&](std::size_t cell, std::size_t sum) {
        out_.uniform[state][cell] = all(most_uniform, own.uniform[sum], always.uniform[sum],
                                        own.open_uniform, always.open_uniform);
        out_.overcast[state][cell] = all(most_overcast, own.overcast[sum], always.overcast[sum],
                                         own.open_overcast, always.open_overcast);
      });
    }
  }

  static void shine(const Tile& tile, const Kernels& kernels, const SkyBeam& sky,
                    const std::vector<std::uint64_t>& dark, const std::vector<float>* depth,
                    Sums& to) {
    static constexpr std::uint64_t kNone[kRowWords] = {};
    static constexpr std::uint64_t kAll[kRowWords] = {~0ULL, ~0ULL, ~0ULL, ~0ULL};
    for (std::size_t row = 0; row < static_cast<std::size_t>(tile.rows); ++row) {
      const std::size_t at = row * tile.stride();
      const ThroughRow through{nullptr, 0, depth ? depth->data() + at : nullptr};
      kernels.shine2(through, dark.data() + row * kRowWords, depth ? kAll : kNone, tile.blocks(),
                     sky.uniform, sky.overcast, to.uniform.data() + at, to.overcast.data() + at);
    }
  }

  const Standing standing_;
  const CastOptions& options_;
  std::size_t things_;
  LeafStates states_;
  SkyLight out_;
  std::vector<SkyBeam> beams_;
};

}  // namespace

std::vector<SkyDirection> sky_over(const Receiver& receiver,
                                   const std::vector<garden::Ground::HorizonPoint>& horizon,
                                   Angle plan_north, int directions) {
  const std::vector<Vec3> dome = sky::cosine_dome(directions);
  const double each = 1 / static_cast<double>(directions);
  const double overcast_each = each / overcast_mean(dome);
  const Vec3 up = receiver.w_axis * (1 / length(receiver.w_axis));
  const bool is_level = std::hypot(up.x, up.y) < 1e-9;
  const Vec3 side = is_level ? Vec3{1, 0, 0} : cross({0, 0, 1}, up) * (1 / std::hypot(up.x, up.y));
  const Vec3 other = cross(up, side);
  std::vector<SkyDirection> sky;
  for (const Vec3& d : dome) {
    const Vec3 toward = side * d.x + other * d.y + up * d.z;
    if (toward.z <= 0) continue;
    const Angle elevation = radians(std::asin(std::min(1.0, toward.z)));
    const Angle bearing = radians(std::atan2(toward.x, toward.y)) + plan_north;
    sky.push_back({toward, static_cast<float>(each),
                   static_cast<float>(overcast_each * sky::overcast_radiance(toward.z)),
                   elevation <= skyline_altitude(horizon, bearing)});
  }
  return sky;
}

SkyLight cast_sky(const Scene& scene, const Receiver& receiver, std::span<const SkyDirection> sky,
                  const CastOptions& options) {
  if (receiver.columns <= 0 || receiver.rows <= 0) {
    SkyLight none;
    none.uniform.resize(1), none.overcast.resize(1);
    return none;
  }
  return SkyCaster(scene, receiver, sky, options).run();
}

}  // namespace spadework::light
