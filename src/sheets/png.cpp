#include "sheets/png.h"

#include <cmath>

#include "sheets/canvas.h"

namespace spadework::sheets {

Result<std::vector<std::uint8_t>> to_png(const geometry::Drawing& drawing, const Fonts& fonts,
                                         double dots_per_mm) {
  if (const Result<void> checked = check_drawing(drawing); !checked)
    return tl::unexpected(checked.error());
  if (!(dots_per_mm > 0))
    return fail(ErrorCode::kImpossibleValue, "",
                "a picture needs more than 0 dots to the millimetre");
  // A hair less, so that 297 mm at 10 dots do not become 2971.
  const double width = std::ceil(drawing.width_mm * dots_per_mm - 1e-6);
  const double height = std::ceil(drawing.height_mm * dots_per_mm - 1e-6);
  if (!(width * height <= 1e8) || width > 32000 || height > 32000)
    return fail(ErrorCode::kTooLarge, "", "the picture would have over 100 million dots",
                "ask for fewer dots to the millimetre, or a smaller sheet");
  cairo_surface_t* surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(width),
                                                        static_cast<int>(height));
  cairo_t* canvas = cairo_create(surface);
  cairo_scale(canvas, dots_per_mm, dots_per_mm);
  paint_drawing(canvas, drawing, fonts.inside());
  cairo_destroy(canvas);
  Result<std::vector<std::uint8_t>> bytes = png_bytes(surface);
  cairo_surface_destroy(surface);
  return bytes;
}

}  // namespace spadework::sheets
