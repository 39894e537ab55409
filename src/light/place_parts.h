// What places stand on. For the makers of places alone.
#pragma once

#include <string>
#include <vector>

#include "light/places.h"

namespace spadework::light {

inline constexpr double kCell = 0.1;    // metres: the cells of most places
inline constexpr double kLift = 0.001;  // receivers lie a millimetre above what they measure

/// The soil of the bed at a point, or the ground.
[[nodiscard]] double level_at(const Scenery& scenery, geometry::Vec2 p);
/// The level under which what leans over a bed from outside is not measured: its rim; else the
/// ground.
[[nodiscard]] double rim_at(const Scenery& scenery, geometry::Vec2 at);
/// Gives a place its own bodies: those of the bed that it stands in, or else the ground's.
void stand_on(const Scenery& scenery, geometry::Vec2 at, Place& place);
/// Whether a body belongs to one of the things that are left out.
[[nodiscard]] bool is_replaced(const garden::Body& body, const std::vector<std::string>& replaces);

}  // namespace spadework::light
