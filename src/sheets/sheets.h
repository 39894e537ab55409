// Front door of the sheets room: drawings (geometry/drawing.h) become files. The same drawing looks
// the same as SVG and as PNG: hatches, stipples, broken lines, words and signs come from one place.
//
//   const Result<Fonts> fonts = Fonts::open(bytes);
//   Result<std::string> svg = to_svg(drawing, *fonts);
//   Result<std::vector<std::uint8_t>> png = to_png(drawing, *fonts, 8);
#pragma once

#include "sheets/fonts.h"
#include "sheets/png.h"
#include "sheets/svg.h"
