// Twelve months out of the document, the weather file and the stations. For the climate room alone.
#pragma once

#include "climate/climate.h"

namespace spadework::climate {

/// Fills `months`, the year's sums and `swing_share`; all else of `out` must be there.
void make_months(PlaceClimate& out);

}  // namespace spadework::climate
