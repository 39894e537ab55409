// The sun print as a sheet: days across, clock hours up; yellow where the sun is on the place, ink
// where something takes it, grey at night.
#pragma once

#include <string>
#include <vector>

#include "facts/facts.h"
#include "garden/garden.h"
#include "geometry/drawing.h"
#include "geometry/surface.h"
#include "light/print.h"

namespace spadework::light {

struct PrintSheet {
  const garden::Garden& garden;
  const geometry::Surface& surface;
  const facts::Catalogue& catalogue;
  const SunPrint& print;
  std::string says;  // "as proposed"
  /// The garden's takers, most first: the first five have their inks everywhere.
  std::vector<std::string> ranked;
  std::array<double, 12> month_sun_h{};  // what the table says, written beneath
};

/// A lying A4 sheet with key, a small plan that shows the place and its takers, scale bar and
/// north.
[[nodiscard]] geometry::Drawing print_drawing(const PrintSheet& sheet);

}  // namespace spadework::light
