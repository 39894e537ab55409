// A drawing as SVG: lines as lines, words as words, its faces embedded.
#pragma once

#include <string>

#include "base/result.h"
#include "geometry/drawing.h"
#include "sheets/fonts.h"

namespace spadework::sheets {

struct SvgOptions {
  /// False when the page around it has the faces, and gives the class `tnum` tabular figures.
  bool embed_fonts = true;
  std::string id_prefix;  // before every id, when several drawings stand on one page
};

/// The drawing as an SVG document, 1 user unit to the millimetre of paper. The same drawing gives
/// the same bytes. Figures are rounded to 3 decimals. Only the faces that are used are embedded.
/// Errors: kImpossibleValue for a size that is not above 0 and below 10 m, or a figure that is not
/// finite.
[[nodiscard]] Result<std::string> to_svg(const geometry::Drawing& drawing, const Fonts& fonts,
                                         const SvgOptions& options = {});

/// One group as it stands in such a document, its ids made unique among themselves alone.
[[nodiscard]] Result<std::string> to_svg(const geometry::Group& group, const Fonts& fonts,
                                         const SvgOptions& options = {});

}  // namespace spadework::sheets
