// Whose ink and letter is whose, on every drawing of a garden.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "geometry/palette.h"

namespace spadework::light {

/// The garden's takers in their order, most first: the first five have inks of their own, the
/// others share the dotted graphite; each has its letter. The skyline is grey and has none.
class TakerInks {
 public:
  explicit TakerInks(const std::vector<std::string>& ranked);

  /// Gives the next letters to those that are not ranked yet; they are graphite.
  void add(const std::vector<std::string>& ids);
  /// As geometry::taker_fill counts: from 0; −1 the skyline; what is not ranked is graphite.
  [[nodiscard]] int ink(std::string_view id) const;
  /// "A" to "Z", then "AA", "AB" …; empty for the skyline and for what is not ranked.
  [[nodiscard]] std::string letter(std::string_view id) const;
  [[nodiscard]] bool has_own_ink(std::string_view id) const {
    const int place = ink(id);
    return place >= 0 && place < static_cast<int>(geometry::kTakerInks.size());
  }

 private:
  [[nodiscard]] std::size_t rank(std::string_view id) const;
  std::vector<std::string> ranked_;
  std::size_t first_ = 0;  // of them, those that may have an ink
};

}  // namespace spadework::light
