// Front door of the exchange room: weather files in. Reading them from disk is the caller's.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/base.h"
#include "climate/weather.h"

namespace spadework::exchange {

/// The days of a weather file: an hourly EPW file, or a CSV file with a line a day, whichever the
/// bytes are.
/// In:     the file's bytes, at most 64 MB, and its name for the messages.
/// Out:    days by date, each once; figures that the file lacks are not there. Notes, at most
///         eight, say what it lacks and what was passed over.
///         EPW: highest and lowest of the hourly temperatures (a little inside the true ones, for
///         an hour's figure is that at its end); rain; radiation on level ground; sunshine counted
///         in whole hours whose mean direct beam is over 120 W/m² (more than a recorder shows on
///         days of broken cloud). A day's figure is there if all 24 hours have it. A typical year
///         carries the dates of the year 2026.
///         CSV: names of columns with units, `date` and any of `tmax_c`, `tmin_c`, `rain_mm`,
///         `sunshine_h`, `global_mj_m2`, `diffuse_mj_m2` and their like (docs of `columns.h`).
/// Errors: `where` is "name:line:column". kSyntax: no weather file, lines too short, hours missing
///         or out of order; kMissingKey: no column to use; kWrongType: no number, no date;
///         kImpossibleValue: figures that cannot be; kConflict: a day, an hour or a column twice;
///         kTooLarge.
/// Tested: golden/weather; damage/weather; fuzz/weather_fuzz.
/// Source: [epw-format] fields and marks of what is missing; [wmo8] for sunshine.
[[nodiscard]] Result<climate::Weather> read_weather(std::string_view bytes, std::string_view name);

/// What makes one doubt that the file belongs to the garden: its place is over 50 km away or 150 m
/// higher or lower; its clocks stand over 3 h from the sun's at its longitude; its light comes over
/// three quarters of an hour early or late; more than one day in fifty has more sunshine or
/// radiation than the garden's sky. Plain sentences, at most six, none if all is well.
/// In:     a file as `read_weather` gives it; the garden's place; the units of the sentences.
/// Source: [fao56] Eq. 21 to 25 and 34 for the sky; the limits are our own.
[[nodiscard]] std::vector<std::string> file_doubts(const climate::Weather& weather, Angle latitude,
                                                   Angle longitude, Length elevation,
                                                   Units units = Units::kMetric);

}  // namespace spadework::exchange
