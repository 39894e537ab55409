// How far the turning Earth has fallen behind uniform time.
#pragma once

namespace spadework::sky {

/// ΔT: terrestrial time minus universal time.
/// In:     a year (−1999 to 3000) and month 1 to 12 of the Gregorian calendar.
/// Out:    seconds. After 2005 it is a forecast: about 6 s too large in 2026, which moves the sun
/// by
///         0.00007°.
/// Errors: none.
/// Source: [delta-t] all polynomials.
[[nodiscard]] double delta_t_s(int year, unsigned month);

}  // namespace spadework::sky
