// A drawing as pixels.
#pragma once

#include <cstdint>
#include <vector>

#include "base/result.h"
#include "geometry/drawing.h"
#include "sheets/fonts.h"

namespace spadework::sheets {

/// The drawing as a PNG, width and height rounded up to whole dots.
/// In:     dots to the millimetre of paper: 3.78 is a screen's 96 to the inch, 11.81 print's 300.
/// Errors: kImpossibleValue as for SVG and for dots not above 0; kTooLarge above 100 million dots.
[[nodiscard]] Result<std::vector<std::uint8_t>> to_png(const geometry::Drawing& drawing,
                                                       const Fonts& fonts, double dots_per_mm);

}  // namespace spadework::sheets
