// Quick moves: one thing moved, changed, added or gone, and the year's sun again. What all other
// things take is cast once and kept; only the thing's own shadows are cast anew.
#pragma once

#include <memory>
#include <span>
#include <string>
#include <vector>

#include "light/caster.h"

namespace spadework::light {

class Moves {
 public:
  /// Casts the year without the thing (whose id may be new).
  /// In:     as cast(). When `options.progress` is cancelled meanwhile, the moves are of no use.
  /// Memory: 8 bytes for each 64 cells of a row and sample: 20 MB for a year over 200 × 150 cells.
  Moves(const Scene& scene, const Receiver& receiver, std::span<const SunSample> samples,
        const std::string& thing, const CastOptions& options = {});
  ~Moves();
  Moves(Moves&&) noexcept;
  Moves& operator=(Moves&&) noexcept;

  /// The counts with the thing standing as these bodies; none: it is gone.
  /// Out:    exactly those of cast() over the whole scene with the bodies in it.
  /// Errors: none.
  /// Tested: moves_test.cpp, against casting everything anew.
  /// Source: closed form (parallel projection); Beer–Lambert for crowns. [closed-form]
  [[nodiscard]] LitCounts with(const std::vector<garden::Body>& bodies) const;
  /// How many samples fewer than without the thing; a plane is empty where no cell has fewer. In: a
  /// scene of the thing alone, called as it was when these moves began.
  [[nodiscard]] LitCounts lost(const Scene& own) const;
  [[nodiscard]] const LitCounts& without() const;

 private:
  struct Kept;
  std::unique_ptr<Kept> kept_;
};

}  // namespace spadework::light
