#include "ground/measured.h"

#include <cmath>

#include "base/check.h"

namespace spadework::ground {

std::string_view better_name(Better better) {
  switch (better) {
    case Better::kSecondDiagonal:
      return "second_diagonal";
    case Better::kTapeAgain:
      return "tape_again";
    case Better::kSetClock:
      return "set_clock";
    case Better::kMarkTip:
      return "mark_tip";
    case Better::kTallerStick:
      return "taller_stick";
    case Better::kOtherHour:
      return "other_hour";
    case Better::kLevelTip:
      return "level_tip";
    case Better::kExactPlace:
      return "exact_place";
    case Better::kOwnFist:
      return "own_fist";
    case Better::kLevelFall:
      return "level_fall";
    case Better::kTapeOver:
      return "tape_over";
  }
  SW_CHECK(false);
}

Angle turned_round(Angle angle) {
  const double turns = in_degrees(angle) / 360;
  const double inside = (turns - std::floor(turns)) * 360;
  return degrees(inside >= 360 ? 0 : inside);
}

Angle bearing_on_plan(geometry::Vec2 direction, Angle plan_north) {
  return turned_round(plan_north + radians(std::atan2(direction.x, direction.y)));
}

}  // namespace spadework::ground
