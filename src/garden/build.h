// Typed things from resolved entries. For the garden room alone.
#pragma once

#include <vector>

#include "garden/keys.h"

namespace spadework::garden {

/// Fills the garden's lists from its entries; `marks` runs beside them.
/// `before`: the entries of changed things as they were, by id.
void build_things(Garden& garden, const std::vector<Mark>& marks, const PointMap& points,
                  const std::map<std::string, const Entry*>& before);

}  // namespace spadework::garden
