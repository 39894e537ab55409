// Typed things from resolved entries. For the garden room alone.
#pragma once

#include <vector>

#include "garden/keys.h"

namespace spadework::garden {

/// Fills the garden's lists from its entries; `marks` runs beside them.
void build_things(Garden& garden, const std::vector<Mark>& marks, const PointMap& points);

}  // namespace spadework::garden
