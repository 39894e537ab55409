// What a newcomer measures first, each figure with how sure it is and what would make it surer:
//
//   measured.h   a figure with its plus or minus; errors of the tape; what to do for a surer one
//   plot.h       the plot from four sides and one diagonal, or two
//   shadows.h    north and heights from a shadow and the clock; the noon shadow
//   by_eye.h     the skyline in fists; how far and which way the ground falls
#pragma once

#include "ground/by_eye.h"
#include "ground/measured.h"
#include "ground/plot.h"
#include "ground/shadows.h"
