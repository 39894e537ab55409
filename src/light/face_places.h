// The light of what is trained and of what climbs: the faces of walls, buildings, trellises and
// wires, and the supports that are grown over all around.
//
// A face is measured on its own upright plane, a millimetre before it, from the ground or the soil
// before it to its top. It gets the beam by the cosine to that plane while the sun stands before
// it, and the sky before it. Both are told against an open, level plot: with the sun low, in
// winter, a face to the south can get more. What the ground and walls throw back is not counted.
//
// An arch, an obelisk, a wigwam and a cage have no one face: their leaves look every way. Their
// light is that of a plant, level, and the mean over their whole height: so it can be held against
// what a crop is said to need. (The mean over their sides would call a cone in the open half
// shaded.)
#pragma once

#include <string>
#include <vector>

#include "light/places.h"

namespace spadework::light {

/// Supports and faces as places, in the order of the garden's supports, walls and buildings.
///
/// Listed are: every support that is grown over all around; the faces of trellises and wires, but
/// for one with its back to a wall; those of walls and buildings (up to the eaves) on which a plant
/// is trained: a woody plant or a climber that stands within 0.4 m before it, or within 0.6 m what
/// is trained flat. Every other face can be named in `also`.
///
/// A face's id is that of its thing, a dot and the way that it looks, by the true bearing:
/// `lane-wall.south`, `cordon-wires.north-east`. Legs of a bent line that look the same way are one
/// place; where both of its sides have such they are told apart, `….south-inside` and
/// `….south-outside`. A support that is grown over all around goes by its own id.
///
/// A support's frame and leaves and the plants trained on a face do not shade it. What has
/// disappeared into another wall or a building is not counted.
/// Errors: none; ids in `also` that are no faces are passed over.
[[nodiscard]] std::vector<Place> face_places(const Scenery& scenery,
                                             const std::vector<std::string>& also = {});

/// Plants that are trained against a wall, by themselves or on a support before it, as places: of
/// the face the patch that they grow over, as wide as their spread about each stem and as high as
/// they grow. Of a face that has disappeared there is no patch.
[[nodiscard]] std::vector<Place> trained_places(const Scenery& scenery);

/// The ids of all of them, listed or not.
[[nodiscard]] std::vector<std::string> face_ids(const Scenery& scenery);

}  // namespace spadework::light
