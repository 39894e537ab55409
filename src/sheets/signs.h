// Signs that a bundled face lacks, drawn with the pen: arrows, ≈, ≤, ≥, ′, ″.
#pragma once

#include <optional>

#include "geometry/drawing.h"

namespace spadework::sheets {

/// A sign on the em square: x from where the pen stands, y DOWN from the foot of the letters.
struct Sign {
  double advance_em = 0;
  double weight_em = 0;  // of the pen
  geometry::Path strokes;
};
/// Nothing if the sign is not known. The weight of the pen follows the face's own − and <.
[[nodiscard]] std::optional<Sign> drawn_sign(char32_t letter, geometry::Face face,
                                             geometry::Weight weight);

/// A small box that stands for a letter which the bundled faces do not have.
[[nodiscard]] Sign foreign_letter(geometry::Face face, geometry::Weight weight);

}  // namespace spadework::sheets
