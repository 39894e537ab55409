// A cell image as pixels, ready to be placed. Inside the room only.
#pragma once

#include <cstdint>
#include <vector>

#include "geometry/drawing.h"

namespace spadework::sheets {

struct Raster {
  int width = 0, height = 0;
  std::vector<std::uint32_t> argb;  // 0xAARRGGBB, opaque or 0
};

/// One pixel to a cell when crisp; when smooth so many that they lie about a third of a millimetre
/// apart, at most 16 by 16 to a cell and 6 million in all.
[[nodiscard]] Raster raster_of(const geometry::CellImage& image);

}  // namespace spadework::sheets
