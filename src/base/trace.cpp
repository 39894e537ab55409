#include "base/trace.h"

#include <string_view>

namespace spadework {

std::string_view standing_name(Standing standing) {
  switch (standing) {
    case Standing::kMeasured:
      return "measured";
    case Standing::kGuessed:
      return "guessed";
    case Standing::kAssumed:
      return "assumed";
    case Standing::kPublished:
      return "published";
    case Standing::kSecondHand:
      return "second_hand";
    case Standing::kFromMemory:
      return "from_memory";
    case Standing::kDerived:
      return "derived";
  }
  return "derived";
}

std::string_view standing_says(Standing standing) {
  switch (standing) {
    case Standing::kMeasured:
      return "as you gave it";
    case Standing::kGuessed:
      return "your guess, not measured yet";
    case Standing::kAssumed:
      return "not given, so assumed";
    case Standing::kPublished:
      return "read in its source";
    case Standing::kSecondHand:
      return "read at second hand";
    case Standing::kFromMemory:
      return "from memory, not checked";
    case Standing::kDerived:
      return "computed";
  }
  return "computed";
}

}  // namespace spadework
