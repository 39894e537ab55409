#include "light/takers.h"

#include <algorithm>
#include <bit>
#include <cmath>

#include "light/caster_run.h"
#include "light/caster_shadows.h"
#include "light/sky_light.h"

namespace spadework::light {
namespace {

/// What one beam is worth.
struct Worth {
  double hours = 0;  // a lit cell's sun; 0: not counted
  double light = 0;  // mol/m² on the receiver's plane
};

struct Gain {
  double hours = 0, light = 0;  // summed over cells
};

/// What is taken from the cells of one tile under one beam after another.
class TileTakers {
 public:
  TileTakers(const Standing& standing, const Receiver& receiver, Tile tile, std::size_t things,
             const Kernels& kernels)
      : kernels_(kernels),
        tile_(tile),
        counted_(receiver, tile),
        shadows_(standing, tile, things, kernels) {
    skyline_.thing = static_cast<int>(things);
    skyline_.last_row = tile.rows;
    skyline_.has_bits = true;
    skyline_.bits = counted_.bits();
    for (auto* bits : {&once_, &twice_, &seen_, &given_back_, &open_, &lit_})
      bits->resize(tile.words());
    const auto floats = static_cast<std::size_t>(tile.rows) * tile.stride();
    for (auto* sums : {&depth_, &passed_, &passed_without_}) sums->resize(floats);
  }

  /// Casts the shadows of a beam, of all bodies that are ever there when its day is 0;
  /// `behind_skyline`: the whole tile lies in the skyline's.
  void cast(const Beam& beam, bool behind_skyline) {
    behind_skyline_ = behind_skyline;
    shadows_.cast(beam);
  }

  /// The shadows of the beam cast last as they are on a day.
  void set_day(int day) {
    shadows_.set_day(day);
    veiled_ = shadows_.join(once_, depth_);
    if (behind_skyline_) once_ = counted_.bits();
    if (veiled_)
      kernels_.transmit(depth_.data(), nullptr, static_cast<int>(depth_.size()), passed_.data());
    // Where a second thing stands too.
    std::fill(twice_.begin(), twice_.end(), 0);
    if (behind_skyline_) {
      for (std::size_t i = 0; i < shadows_.count(); ++i) note_twice(shadows_[i], counted_.bits());
    }
    if (shadows_.count() < 2) return;
    std::fill(seen_.begin(), seen_.end(), 0);
    for (std::size_t i = 0; i < shadows_.count(); ++i) {
      const ThingShadow& shadow = shadows_[i];
      note_twice(shadow, seen_);
      if (!shadow.has_bits) continue;
      const std::size_t end = static_cast<std::size_t>(shadow.last_row) * kRowWords;
      for (auto k = static_cast<std::size_t>(shadow.first_row) * kRowWords; k < end; ++k)
        seen_[k] |= shadow.bits[k];
    }
  }

  [[nodiscard]] bool nothing_falls() const { return shadows_.count() == 0 && !behind_skyline_; }
  /// Whether the shadows of the beam cast last may differ from day to day.
  [[nodiscard]] bool changes() const { return shadows_.changes(); }

  /// Adds what each thing takes of the beam cast last.
  void weigh(const Worth& worth, std::vector<Gain>& gains, Gain& lost, double& twice_h) {
    const bool sunny = worth.hours > 0;
    std::fill(given_back_.begin(), given_back_.end(), 0);
    double light = 0;
    for (int row = 0; row < tile_.rows; ++row) {
      const std::size_t word = words_of(row), cell = cells_of(row);
      for (std::size_t k = word; k < word + kRowWords; ++k)
        open_[k] = counted_.bits()[k] & ~once_[k];
      light += light_of(passed_, cell, &open_[word]);
      if (!sunny) continue;
      if (veiled_)
        kernels_.bits_over(&depth_[cell], nullptr, tile_.blocks(), kMostDepth, &lit_[word]);
      for (std::size_t k = word; k < word + kRowWords; ++k)
        lit_[k] = veiled_ ? open_[k] & ~lit_[k] : open_[k];
    }
    each_shadow([&](const ThingShadow& shadow) { weigh_thing(shadow, worth, gains); });
    lost.light += worth.light * (counted_.count() - light);
    if (!sunny) return;
    int lit_cells = 0, twice = 0;
    for (std::size_t k = 0; k < lit_.size(); ++k) {
      lit_cells += std::popcount(lit_[k]);
      twice += std::popcount(counted_.bits()[k] & ~lit_[k] & ~given_back_[k]);
    }
    lost.hours += worth.hours * (counted_.count() - lit_cells);
    twice_h += twice * worth.hours;
  }

  [[nodiscard]] int cells() const { return counted_.count(); }

 private:
  void note_twice(const ThingShadow& shadow, const std::vector<std::uint64_t>& seen) {
    if (!shadow.has_bits) return;
    const std::size_t end = static_cast<std::size_t>(shadow.last_row) * kRowWords;
    for (auto k = static_cast<std::size_t>(shadow.first_row) * kRowWords; k < end; ++k)
      twice_[k] |= seen[k] & shadow.bits[k];
  }

  template <class Act>
  void each_shadow(Act act) const {
    for (std::size_t i = 0; i < shadows_.count(); ++i) act(shadows_[i]);
    if (behind_skyline_) act(skyline_);
  }

  [[nodiscard]] static std::size_t words_of(int row) {
    return static_cast<std::size_t>(row) * kRowWords;
  }
  [[nodiscard]] std::size_t cells_of(int row) const {
    return static_cast<std::size_t>(row) * tile_.stride();
  }
  /// What a row's cells have; without veils all that comes.
  [[nodiscard]] double light_of(const std::vector<float>& passed, std::size_t cell,
                                const std::uint64_t* bits) const {
    if (veiled_)
      return static_cast<double>(kernels_.sum_where(&passed[cell], bits, tile_.blocks()));
    int cells = 0;
    for (std::size_t k = 0; k < kRowWords; ++k) cells += std::popcount(bits[k]);
    return cells;
  }

  /// Without the thing: what more comes through, and where the sun is given back.
  void weigh_thing(const ThingShadow& shadow, const Worth& worth, std::vector<Gain>& gains) {
    const float* own = shadow.has_depth ? shadow.depth.data() : nullptr;
    int hours = 0;
    double light = 0;
    for (int row = shadow.first_row; row < shadow.last_row; ++row) {
      const std::size_t word = words_of(row), cell = cells_of(row);
      std::uint64_t open[kRowWords], any = 0;  // without the thing
      for (std::size_t k = 0; k < kRowWords; ++k) {
        const std::uint64_t alone =
            shadow.has_bits ? shadow.bits[word + k] & ~twice_[word + k] : std::uint64_t{0};
        open[k] = open_[word + k] | (alone & counted_.bits()[word + k]);
        any |= own ? open[k] : open[k] ^ open_[word + k];
      }
      if (any == 0) continue;
      if (own != nullptr)
        kernels_.transmit(&depth_[cell], own + cell, static_cast<int>(tile_.stride()),
                          &passed_without_[cell]);
      light += light_of(own ? passed_without_ : passed_, cell, open) -
               light_of(passed_, cell, &open_[word]);
      if (worth.hours <= 0) continue;
      std::uint64_t deep[kRowWords] = {};
      if (veiled_)
        kernels_.bits_over(&depth_[cell], own ? own + cell : nullptr, tile_.blocks(), kMostDepth,
                           deep);
      for (std::size_t k = 0; k < kRowWords; ++k) {
        const std::uint64_t back = open[k] & ~deep[k] & ~lit_[word + k];
        hours += std::popcount(back);
        given_back_[word + k] |= back;
      }
    }
    Gain& gain = gains[static_cast<std::size_t>(shadow.thing)];
    gain.hours += hours * worth.hours;
    gain.light += light * worth.light;
  }

  const Kernels& kernels_;
  Tile tile_;
  CountedCells counted_;
  ThingShadows shadows_;
  ThingShadow skyline_;
  bool behind_skyline_ = false, veiled_ = false;
  std::vector<std::uint64_t> once_, twice_, seen_, given_back_, open_, lit_;
  std::vector<float> depth_, passed_, passed_without_;
};

/// Months with one state of the leaves share the sky's beams: what they are worth together.
struct SkyWorth {
  int day = 1;  // of the year, for the leaves
  double uniform = 0, overcast = 0;
};

/// Directions of the sky by state of the leaves, as cast_sky() has them.
std::vector<SkyWorth> sky_worths(const Standing& standing, const SunYear& year) {
  const LeafStates states = leaf_states({&standing});
  std::vector<SkyWorth> worths(states.days.size());
  for (std::size_t m = 0; m < 12; ++m) {
    SkyWorth& worth = worths[static_cast<std::size_t>(states.of_month[m])];
    const double mol = year.sky_mol_m2_d[m] * year.days_in_month[m];
    worth.overcast += mol * year.overcast[m];
    worth.uniform += mol * (1 - year.overcast[m]);
  }
  for (std::size_t s = 0; s < worths.size(); ++s) worths[s].day = states.days[s];
  return worths;
}

class PlaceTakers {
 public:
  PlaceTakers(const garden::Garden& garden, const Scene& scene, const SunYear& year,
              Backend backend)
      : garden_(garden), scene_(scene), year_(year), backend_(backend) {
    gains_.resize(scene.things().size() + 1);
  }

  void add(const Receiver& receiver) {
    const Standing standing(scene_, receiver, {}, CastOptions{}.ignore_m);
    const auto sky = year_.has_light()
                         ? sky_over(receiver, garden_.ground.horizon, garden_.site.plan_north)
                         : std::vector<SkyDirection>{};
    for (const Tile& tile : tiles_of(standing.grid())) {
      TileTakers takers(standing, receiver, tile, scene_.things().size(), kernels_for(backend_));
      if (takers.cells() == 0) continue;
      cells_ += takers.cells();
      add_suns(standing.grid(), year_.samples, false, takers);
      add_suns(standing.grid(), year_.behind, true, takers);
      add_sky(standing, sky, takers);
    }
  }

  Takers result() const {
    Takers out;
    for (std::size_t i = 0; i < gains_.size(); ++i) {
      const Gain& gain = gains_[i];
      if (gain.hours <= 0 && gain.light <= 0) continue;
      const std::string id = i < scene_.things().size() ? scene_.things()[i] : kSkylineId;
      out.takers.push_back({id, gain.hours / cells_, gain.light / cells_});
    }
    std::stable_sort(out.takers.begin(), out.takers.end(), [](const Taker& a, const Taker& b) {
      return std::pair(a.light_mol_m2_per_year, a.sun_h_per_year) >
             std::pair(b.light_mol_m2_per_year, b.sun_h_per_year);
    });
    out.lost_h = lost_.hours / cells_;
    out.lost_mol_m2 = lost_.light / cells_;
    out.taken_twice_h = twice_h_ / cells_;
    return out;
  }

 private:
  void add_suns(const Grid& grid, const std::vector<SunSample>& samples, bool behind_skyline,
                TileTakers& takers) {
    const double upright = 1 / geometry::length(grid.w_axis);
    for (const SunSample& sample : samples) {
      const auto beam = beam_over(grid, sample);
      if (!beam) continue;
      const bool strong = static_cast<double>(sample.beam_w_m2) > CastOptions{}.least_beam_w_m2;
      takers.cast(*beam, behind_skyline);
      takers.set_day(beam->day_of_year);
      if (takers.nothing_falls()) continue;
      takers.weigh(
          {strong ? year_.hours_each : 0,
           static_cast<double>(sample.light) * geometry::dot(grid.w_axis, beam->toward) * upright},
          gains_, lost_, twice_h_);
    }
  }

  void add_sky(const Standing& standing, const std::vector<SkyDirection>& sky, TileTakers& takers) {
    const std::vector<SkyWorth> worths = sky_worths(standing, year_);
    for (const SkyDirection& direction : sky) {
      SunSample sample;
      sample.toward_sun = direction.toward;
      auto beam = beam_over(standing.grid(), sample);
      if (!beam) continue;
      const auto light = [&](const SkyWorth& worth) {
        return worth.uniform * static_cast<double>(direction.uniform) +
               worth.overcast * static_cast<double>(direction.overcast);
      };
      beam->day_of_year = 0;
      takers.cast(*beam, direction.behind);
      double all_year = 0;
      for (const SkyWorth& worth : worths) all_year += light(worth);
      for (const SkyWorth& worth : worths) {
        takers.set_day(worth.day);
        const bool once = !takers.changes();
        if (!takers.nothing_falls())
          takers.weigh({0, once ? all_year : light(worth)}, gains_, lost_, twice_h_);
        if (once) break;
      }
    }
  }

  const garden::Garden& garden_;
  const Scene& scene_;
  const SunYear& year_;
  Backend backend_;
  std::vector<Gain> gains_;  // by thing, the skyline last
  Gain lost_;
  double twice_h_ = 0;
  double cells_ = 0;
};

}  // namespace

Takers takers_of(const garden::Garden& garden, const Place& place, const Scene& scene,
                 const SunYear& year, Backend backend) {
  PlaceTakers takers(garden, scene, year, backend);
  for (const Receiver& receiver : place.receivers) takers.add(receiver);
  return takers.result();
}

}  // namespace spadework::light
