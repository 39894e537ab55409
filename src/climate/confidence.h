// How sure a figure from stations is, by how far they stand. Found by leaving stations out: each of
// the table was predicted from the others as a garden would be, with those nearer than a distance
// taken away, and set against what it reports itself. Two in three errors (68.27 %) are smaller
// than the figures here; `confidence_test.cpp` makes the tables again and compares.
#pragma once

#include <array>
#include <cstddef>
#include <optional>

namespace spadework::climate {

/// Errors by how far the nearest station counts (rows) and by how much higher or lower the stations
/// stand (columns).
inline constexpr std::array<double, 7> kFar_km = {25, 50, 100, 200, 400, 800, 1200};
inline constexpr std::array<double, 3> kHigher_m = {0, 200, 500};
using ErrorTable = std::array<std::array<double, kHigher_m.size()>, kFar_km.size()>;
[[nodiscard]] const ErrorTable& temperature_errors();  // of a month, K
[[nodiscard]] const ErrorTable& sunshine_errors();     // of a month, as share of the day's length

/// A place whose nearest station counts as farther is told so: for temperatures, and for sunshine,
/// which changes slower from place to place.
inline constexpr double kFarForWarmth_km = 100;
inline constexpr double kFarForSunshine_km = 200;
/// How sure a figure would be beside a station is told for this distance.
inline constexpr double kBeside_km = 25;
/// Height differences from this on are told.
inline constexpr double kHigh_m = 100;
/// Farther than this nothing was tried (the last row holds stations that count as 1,200 km to 1.3
/// times as far): no plus or minus is told.
inline constexpr double kFarthestTried_km = 1560;

/// The same for sunshine from the swing of temperature: it does not grow with distance.
/// Source: [stations].
inline constexpr double kSwingError = 0.112;
/// How far the errors of stations' sunshine 400 km away and more and those of the swing's go
/// together (correlation). Source: [stations].
inline constexpr double kErrAlike = 0.50;
/// What Ångström's equation itself may be out by, as a share of what arrives above the air: printed
/// pairs of its coefficients lie 0.02 to 0.05 from the general one where the sun shines 30 to 70 %
/// of the day. Source: [frere-popov1979] against [fao56].
inline constexpr double kEquationError = 0.03;

/// How much the swing of temperature counts in a figure of sunshine beside that of stations: the
/// share that makes the error of both together least, given how far they err alike. So stations
/// are near enough to speak alone while their error is under kErrAlike times that of the swing,
/// which is to about 250 km.
/// In:     the error of the stations' sunshine, as share of the day's length. Out: 0 to 1.
/// Source: [closed-form] the best linear unbiased mean of two.
[[nodiscard]] double swing_share(double stations_error);
/// The error of the two together. In: the swing's share; the error of the stations' sunshine.
[[nodiscard]] double sunshine_error(double swing_share, double stations_error);

/// Between the rows and columns, and on beyond the last as the last two go.
/// In:     how far the nearest station counts in km; height of the stations over the place in m,
///         of either sign.
/// Out:    two in three errors are smaller. Source: [stations].
[[nodiscard]] double error_at(const ErrorTable& table, double far_km, double height_m);
/// The same; nothing where the nearest station counts as farther than was tried.
[[nodiscard]] std::optional<double> tried_error_at(const ErrorTable& table, double far_km,
                                                   double height_m);

}  // namespace spadework::climate
