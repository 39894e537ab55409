#include "light/taker_inks.h"

#include <algorithm>

#include "light/takers.h"

namespace spadework::light {

TakerInks::TakerInks(const std::vector<std::string>& ranked) {
  add(ranked);
  first_ = ranked_.size();
}

void TakerInks::add(const std::vector<std::string>& ids) {
  for (const std::string& id : ids) {
    if (id != kSkylineId && rank(id) == ranked_.size()) ranked_.push_back(id);
  }
}

std::size_t TakerInks::rank(std::string_view id) const {
  return static_cast<std::size_t>(std::find(ranked_.begin(), ranked_.end(), id) - ranked_.begin());
}

int TakerInks::ink(std::string_view id) const {
  if (id == kSkylineId) return -1;
  const std::size_t place = rank(id);
  // What came later is graphite even where the garden has fewer takers than inks.
  return static_cast<int>(place < first_ ? place : std::max(place, geometry::kTakerInks.size()));
}

std::string TakerInks::letter(std::string_view id) const {
  std::size_t place = rank(id);
  if (place == ranked_.size()) return {};
  std::string letters;
  for (++place; place > 0; place = (place - 1) / 26)
    letters.insert(letters.begin(), static_cast<char>('A' + (place - 1) % 26));
  return letters;
}

}  // namespace spadework::light
