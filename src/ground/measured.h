// A measured figure with how sure it is, the usual errors of tape, clock and eye, and what can be
// done to know a figure better.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/quantity.h"
#include "geometry/vec.h"

namespace spadework::ground {

/// A figure and its plus or minus: one standard deviation, within which the truth lies two times in
/// three.
template <class Q>
struct Measured {
  Q value{};
  Q sigma{};
};

/// How far a length by tape is out, one standard deviation: a fixed part for holding both ends, and
/// a share for sag, pull and a line that is not quite straight. The tapings of one plot are taken
/// as independent; a tape that is too long throughout makes the whole plot too small, and no
/// diagonal tells.
struct TapeErrors {
  Length fixed = metres(0.02);  // common practice, no source
  double share = 0.001;         // common practice, no source: 1 cm in 10 m
};
/// The standard deviation of one taping. Out: fixed + share · length.
/// Errors: none. Source: [memory] the two parts.
[[nodiscard]] constexpr Length tape_sigma(Length length, const TapeErrors& tape = {}) {
  return tape.fixed + length * tape.share;
}

/// What would make a figure surer.
enum class Better {
  kSecondDiagonal,  // tape the other diagonal
  kTapeAgain,       // tape the same length once more, by itself, and take the mean
  kSetClock,        // set the clock by a time signal
  kMarkTip,         // mark the shadow's end with a peg, to a centimetre
  kTallerStick,     // a stick twice as tall
  kOtherHour,       // the same shadow at another hour of the day
  kLevelTip,        // level from foot to shadow's end
  kExactPlace,      // the plot's own coordinates instead of a town's
  kOwnFist,         // count the fists from level to overhead
  kLevelFall,       // level the fall with a hose or a board and spirit level
  kTapeOver,        // tape the way over which it falls
};
/// Its name in JSON: `second_diagonal`, `tape_again`, …
[[nodiscard]] std::string_view better_name(Better better);

/// One thing to do, and how sure the figure would then be.
template <class Q>
struct Remedy {
  Better by = Better::kTapeAgain;
  std::string at;                   // JSON pointer to the input concerned, or empty
  Q sigma_after{};                  // instead of the figure's sigma
  std::optional<double> clock_h{};  // of kOtherHour: when, by the clock
};

/// Of remedies those that take at least a tenth off the plus or minus, best first, at most three.
template <class R, class Sigma>
std::vector<R> worth_doing(std::vector<R> remedies, double sigma_now, const Sigma& after) {
  std::erase_if(remedies, [&](const R& remedy) { return after(remedy) > 0.9 * sigma_now; });
  std::stable_sort(remedies.begin(), remedies.end(),
                   [&](const R& a, const R& b) { return after(a) < after(b); });
  if (remedies.size() > 3) remedies.resize(3);
  return remedies;
}
template <class Q>
std::vector<Remedy<Q>> worth_doing(std::vector<Remedy<Q>> remedies, Q sigma_now) {
  return worth_doing(std::move(remedies), sigma_now.si(),
                     [](const Remedy<Q>& remedy) { return remedy.sigma_after.si(); });
}

/// The true bearing of a direction in the plan; `garden::toward_bearing` is its inverse.
/// In:     a direction of any length above 0; plan_north: the true bearing of the page's up.
/// Out:    0 to 360°. Errors: none. Source: [closed-form]
[[nodiscard]] Angle bearing_on_plan(geometry::Vec2 direction, Angle plan_north);

/// An angle as 0 up to 360°.
[[nodiscard]] Angle turned_round(Angle angle);

}  // namespace spadework::ground
