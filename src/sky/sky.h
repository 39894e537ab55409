// Front door of the sky room: where the sun is, how strong its beam is on a clear day, and what
// beam and sky bring under clouds.
//
// The room knows a site (latitude, longitude, elevation), instants and dates; it knows nothing of
// gardens or shadows. Its story, from the ground up:
//
//   spa.h             the solar position algorithm, every step of it
//   delta_t.h         how far the Earth's turning lags behind uniform time
//   solar_position.h  the sun over a site at an instant; an Almanac for many instants
//   direction.h       bearings and hour angles as vectors in the plan's axes
//   sun_events.h      rise, set and noon of a date; polar day and polar night
//   atmosphere.h      pressure with height, and the air mass the beam comes through
//   clear_sky.h       the fixed clear day that defines the sun hour, and its threshold
//   year_samples.h    the sun directions of a year and of a day, each with its share of time
//
// A figure of light for a month or a year comes from `year_samples`: hourly samples whose phase
// walks by the golden ratio, so that a month's means are as good as from steps of minutes. A named
// day takes `day_samples`. In both, a sample gives sun when nothing stands in the direction
// `towards`, the receiver faces it, and `clear.direct_normal` is over `kSunshineThreshold`.
#pragma once

#include "sky/atmosphere.h"
#include "sky/clear_sky.h"
#include "sky/cloudy_sky.h"
#include "sky/delta_t.h"
#include "sky/direction.h"
#include "sky/dome.h"
#include "sky/solar_position.h"
#include "sky/spa.h"
#include "sky/sun_events.h"
#include "sky/year_samples.h"
