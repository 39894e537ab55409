// Front door of the light room: what sun every place gets, and who takes it.
//
//   receiver.h  the planes on which light is measured: level beds, ground on a slope, spots, faces
//   places.h    every bed, seat, plant and spot with its receivers
//   face_places.h  walls and supports: what is trained on them or climbs
//   scene.h     the garden's bodies made ready
//   caster.h    for each direction of the sun, the cells in shadow: row spans, not rays
//   ray.h       one ray and what stands in its way: slower, by another road
//   skyline.h   the far skyline
//   year.h      sun hours of places by month and part of the day
//   field.h     sun hours of every cell
//   spot.h      one spot on one day, with the times to the second
//   print.h     the sun print of a place
//
// A sun hour is an hour in which the sun stands clear of every thing (what stands in the way lets
// at least half of the beam through), faces the receiver, and the clear-sky direct-normal beam is
// over 120 W/m². Source: [wmo8]; [ineichen-perez] for the beam.
#pragma once

#include "light/candidates.h"
#include "light/caster.h"
#include "light/classes.h"
#include "light/face_places.h"
#include "light/field.h"
#include "light/moves.h"
#include "light/places.h"
#include "light/print.h"
#include "light/ray.h"
#include "light/receiver.h"
#include "light/samples.h"
#include "light/scene.h"
#include "light/sky_light.h"
#include "light/skyline.h"
#include "light/spot.h"
#include "light/sun_year.h"
#include "light/takers.h"
#include "light/year.h"
