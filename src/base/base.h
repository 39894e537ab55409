// Front door of the base room: quantities, results, traces, dates, words, seeded randomness,
// progress and threads. It knows nothing of gardens.
#pragma once

#include "base/check.h"
#include "base/date.h"
#include "base/measures.h"
#include "base/parallel.h"
#include "base/progress.h"
#include "base/quantity.h"
#include "base/random.h"
#include "base/result.h"
#include "base/text.h"
#include "base/trace.h"
