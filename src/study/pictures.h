// The pictures of a garden's light: which results a sheet shows, put together.
#pragma once

#include <string>

#include "geometry/drawing.h"
#include "study/shown.h"

namespace spadework::study {

/// How fine a field is drawn: 0.1 m, in large gardens as fine as paper and screen show.
[[nodiscard]] double drawn_cell_m(const garden::Garden& garden);

/// The sheet of the hours of sun, of months (none: the growing ones) or a day, or of sun and shade
/// at a moment. `cell_m` 0: as above. `against`: another scheme, for what this one wins and loses
/// (not at a moment, which has no hours).
/// Errors: those of the study.
[[nodiscard]] Result<geometry::Drawing> light_picture(Study& study, const std::string& scheme,
                                                      When when, double cell_m = 0,
                                                      const std::string& against = "");
/// The sheet of a place's sun print. Errors: those of the study.
[[nodiscard]] Result<geometry::Drawing> print_picture(Study& study, const std::string& scheme,
                                                      const std::string& place);

}  // namespace spadework::study
