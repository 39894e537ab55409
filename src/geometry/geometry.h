// Front door of the geometry room: points, polygons, solids, triangulated surfaces, and the display
// list of a drawing. Metres throughout; it knows nothing of gardens.
#pragma once

#include "geometry/drawing.h"
#include "geometry/polygon.h"
#include "geometry/solid.h"
#include "geometry/surface.h"
#include "geometry/vec.h"
