// Front door of the climate room (being built).
#pragma once
#include "climate/nearby.h"
#include "climate/radiation.h"
#include "climate/stations.h"
