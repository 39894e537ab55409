#include "server/measure_words.h"

#include <fmt/format.h>

#include <cmath>

namespace spadework::server {
namespace {

/// "the second side", of a pointer into what was taped.
std::string length_called(const std::string& at) {
  static constexpr const char* kSides[] = {"first", "second", "third", "fourth"};
  if (at.starts_with("/sides_m/") && at.size() == 10 && at[9] >= '0' && at[9] <= '3')
    return fmt::format("the {} side", kSides[at[9] - '0']);
  if (at == "/diagonal_m") return "the diagonal";
  if (at == "/second_diagonal_m") return "the second diagonal";
  return "it";
}

}  // namespace

std::string better_says(ground::Better better, const std::string& at) {
  using ground::Better;
  switch (better) {
    case Better::kSecondDiagonal:
      return "Tape the other diagonal too";
    case Better::kTapeAgain:
      return fmt::format("Tape {} once more, by itself", length_called(at));
    case Better::kSetClock:
      return "Set the clock by a time signal";
    case Better::kMarkTip:
      return "Mark the shadow’s end with a peg";
    case Better::kTallerStick:
      return "Take a stick twice as tall";
    case Better::kOtherHour:
      return "Look at the same shadow at another hour";
    case Better::kLevelTip:
      return "Level from the foot to the shadow’s end";
    case Better::kExactPlace:
      return "Give the plot’s own coordinates instead of a town’s";
    case Better::kOwnFist:
      return "Count your own fists from level to overhead";
    case Better::kLevelFall:
      return "Level the fall with a hose, or a board and a spirit level";
    case Better::kTapeOver:
      return "Tape the way over which it falls";
  }
  return "";
}

std::string sigma_says(Length sigma, Units units) {
  if (units == Units::kImperial) {
    const double inches = in_metres(sigma) / 0.0254;
    return inches < 12 ? fmt::format("± {:.0f} in", std::max(1.0, std::ceil(inches)))
                       : fmt::format("± {:.1f} ft", inches / 12);
  }
  const double cm = in_metres(sigma) * 100;
  return cm < 100 ? fmt::format("± {:.0f} cm", std::max(1.0, std::ceil(cm)))
                  : fmt::format("± {:.1f} m", cm / 100);
}

}  // namespace spadework::server
