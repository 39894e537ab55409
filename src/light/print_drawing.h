// The sun print as a sheet: days across, clock hours up; yellow where the sun is on the place, ink
// where something takes it, stripes of two inks where two do at once, grey at night.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "garden/garden.h"
#include "geometry/drawing.h"
#include "light/print.h"
#include "light/takers.h"

namespace spadework::light {

struct PrintSheet {
  const garden::Garden& garden;
  const SunPrint& print;
  const Takers& takers;  // of the place: the hours in the key are the table's
  std::string says;      // "as proposed"
  /// The garden's takers, most first: the first five have their inks everywhere.
  std::vector<std::string> ranked;
  std::array<double, 12> month_sun_h{};  // what the table says, written beneath
  std::array<bool, 12> on_guesses{};     // of them, those that rest on guesses
};

/// A lying A4 sheet with the key of what takes the sun and how many hours a year, a small plan that
/// shows the place and its takers, scale bar and north.
[[nodiscard]] geometry::Drawing print_drawing(const PrintSheet& sheet);

}  // namespace spadework::light
