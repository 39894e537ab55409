// Paints a drawing on any cairo surface. Inside the room only.
#pragma once

#include <cairo.h>

#include <cstdint>
#include <vector>

#include "base/result.h"
#include "geometry/drawing.h"
#include "sheets/cell_raster.h"
#include "sheets/text_layout.h"

namespace spadework::sheets {

/// Paints in user units of one millimetre.
void paint_drawing(cairo_t* canvas, const geometry::Drawing& drawing, const Fonts::Inside& fonts);

/// A cairo image of the raster; free it with cairo_surface_destroy.
[[nodiscard]] cairo_surface_t* surface_of(const Raster& raster);
/// The surface as a PNG file.
[[nodiscard]] Result<std::vector<std::uint8_t>> png_bytes(cairo_surface_t* surface);
/// kImpossibleValue if the drawing cannot be printed.
[[nodiscard]] Result<void> check_drawing(const geometry::Drawing& drawing);

/// What both back ends draw for a fill that is not flat.
struct FillMarks {
  std::vector<geometry::Segment> lines;
  std::vector<geometry::Vec2> dots;
  double size_mm = 0;  // of the line or the dot
  geometry::Paint ink;
};
[[nodiscard]] FillMarks fill_marks(const geometry::Path& path, const geometry::Fill& fill);

}  // namespace spadework::sheets
