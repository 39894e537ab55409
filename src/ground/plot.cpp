#include "ground/plot.h"

#include <fmt/format.h>

#include <cmath>

#include "ground/plot_parts.h"

namespace spadework::ground {
namespace {

using geometry::Polygon;
using geometry::Vec2;

/// The corners by five lengths on one side of the first diagonal or on both, and what the second
/// diagonal says of them.
struct Folding {
  AdjustedPoints five;
  Measured<Length> misclosure;
  double in_sigmas = 0;
  [[nodiscard]] bool fits() const { return std::abs(in_sigmas) <= kFitsWithin; }
};

/// Mirrors corner 4 over the line from corner 1 to corner 3.
Polygon folded_over(Polygon corners) {
  const Vec2 u = geometry::unit(corners[2]);
  corners[3] = u * (2 * dot(u, corners[3])) - corners[3];
  return corners;
}

Folding folding(const Polygon& start, const SixLengths& lengths) {
  Folding out;
  out.five = adjusted_corners(start, lengths, 5);
  if (!lengths.both) return out;
  const Vec2 way = out.five.at[3] - out.five.at[1];
  const Vec2 u = geometry::unit(way);
  const std::array<double, 4> slope = {-u.x, -u.y, u.x, u.y};  // of its length, by corners 2 and 4
  constexpr std::array<std::size_t, 4> kCoordinate = {2, 3, 6, 7};
  double variance = lengths.sigma_m[5] * lengths.sigma_m[5];
  for (std::size_t i = 0; i < 4; ++i) {
    for (std::size_t k = 0; k < 4; ++k)
      variance += slope[i] * slope[k] * out.five.covariance_of(kCoordinate[i], kCoordinate[k]);
  }
  out.misclosure = {metres(lengths.m[5] - geometry::length(way)), metres(std::sqrt(variance))};
  out.in_sigmas = out.misclosure.value / out.misclosure.sigma;
  return out;
}

Error crossed(const SixLengths& lengths) {
  return Error{
      ErrorCode::kCrossedOutline, length_pointer(kSecondDiagonal),
      fmt::format("with a diagonal of {} from corner 2 to corner 4 the sides cross each other",
                  length_says(metres(lengths.m[5]), lengths.units, 2)),
      "number the corners in order as you walk round the plot: the sides go from 1 to 2, 2 to 3, 3 "
      "to 4 and 4 to 1, the diagonals from 1 to 3 and 2 to 4"};
}

/// The area and its sigma by the shoelace's derivatives.
Measured<Area> area_of(const AdjustedPoints& points) {
  std::array<double, 8> slope{};
  for (std::size_t i = 0; i < 4; ++i) {
    const Vec2 next = points.at[(i + 1) % 4], last = points.at[(i + 3) % 4];
    slope[2 * i] = (next.y - last.y) / 2;
    slope[2 * i + 1] = (last.x - next.x) / 2;
  }
  double variance = 0;
  for (std::size_t i = 0; i < 8; ++i) {
    for (std::size_t k = 0; k < 8; ++k)
      variance += slope[i] * slope[k] * points.covariance_of(i, k);
  }
  return {square_metres(geometry::area(points.at)), square_metres(std::sqrt(variance))};
}

PlotCorner corner_of(const AdjustedPoints& points, std::size_t i) {
  const double xx = points.covariance_of(2 * i, 2 * i);
  const double yy = points.covariance_of(2 * i + 1, 2 * i + 1);
  const double xy = points.covariance_of(2 * i, 2 * i + 1);
  const double most = (xx + yy) / 2 + std::hypot((xx - yy) / 2, xy);
  return {points.at[i], metres(std::sqrt(xx)), metres(std::sqrt(yy)), metres(std::sqrt(most)),
          radians(std::atan2(2 * xy, xx - yy) / 2)};
}

Length least_sure(const AdjustedPoints& points) {
  Length most;
  for (std::size_t i = 0; i < 4; ++i) most = std::max(most, corner_of(points, i).sigma_most);
  return most;
}

std::optional<int> hollow_corner(const Polygon& corners) {
  const double whole = geometry::signed_area(corners);
  for (std::size_t i = 0; i < 4; ++i) {
    const Vec2 in = corners[i] - corners[(i + 3) % 4], out = corners[(i + 1) % 4] - corners[i];
    if (cross(in, out) * whole < 0) return static_cast<int>(i);
  }
  return std::nullopt;
}

/// How sure the corners would be with one length more, or with one taped twice.
std::vector<PlotRemedy> plot_remedies(const Polygon& corners, const SixLengths& lengths,
                                      const TapeErrors& tape, Length now) {
  std::vector<PlotRemedy> out;
  const auto with = [&](Better by, int number, SixLengths changed) {
    // As if every length fitted: the sigmas hang on where the corners are.
    for (std::size_t i = 0; i < 6; ++i)
      changed.m[i] = geometry::length(corners[kEnds[i].to] - corners[kEnds[i].from]);
    const AdjustedPoints then = adjusted_corners(corners, changed, changed.both ? 6 : 5);
    out.push_back({by, length_pointer(number), least_sure(then), area_of(then)});
  };
  if (!lengths.both) {
    SixLengths more = lengths;
    more.both = true;
    more.sigma_m[5] =
        in_metres(tape_sigma(metres(geometry::length(corners[3] - corners[1])), tape));
    with(Better::kSecondDiagonal, kSecondDiagonal, more);
  }
  for (std::size_t i = 0; i < (lengths.both ? 6U : 5U); ++i) {
    SixLengths twice = lengths;
    twice.sigma_m[i] /= std::sqrt(2.0);
    with(Better::kTapeAgain, static_cast<int>(i), twice);
  }
  return worth_doing(std::move(out), in_metres(now),
                     [](const PlotRemedy& remedy) { return in_metres(remedy.corner_sigma_after); });
}

/// The adjustment of all six lengths; where they do not fit, its sigmas grow by as much.
PlotCheck adjust_all(const Folding& chosen, const SixLengths& lengths, AdjustedPoints& points) {
  PlotCheck check;
  check.misclosure = chosen.misclosure;
  check.in_sigmas = chosen.in_sigmas;
  check.fits = chosen.fits();
  const AdjustedPoints six = adjusted_corners(chosen.five.at, lengths, 6);
  if (six.settled && !geometry::crosses_itself(six.at)) points = six;
  for (std::size_t i = 0; i < 6; ++i)
    check.adjusted[i] = metres(geometry::length(points.at[kEnds[i].to] - points.at[kEnds[i].from]));
  if (check.fits) return check;
  for (double& entry : points.covariance) entry *= check.in_sigmas * check.in_sigmas;
  check.suspects = suspects_of(lengths, chosen.five.at, check.in_sigmas);
  return check;
}

}  // namespace

std::string length_pointer(int number) {
  if (number == kFirstDiagonal) return "/diagonal_m";
  if (number == kSecondDiagonal) return "/second_diagonal_m";
  return fmt::format("/sides_m/{}", number);
}

std::string_view slip_name(Slip slip) {
  constexpr std::array<std::string_view, 4> kNames = {"none", "whole_unit", "ten_units",
                                                      "digits_swapped"};
  return kNames[static_cast<std::size_t>(slip)];
}

AdjustedPoints adjusted_corners(const Polygon& start, const SixLengths& lengths,
                                std::size_t count) {
  std::vector<TapedLength> taped;
  for (std::size_t i = 0; i < count; ++i)
    taped.push_back({kEnds[i].from, kEnds[i].to, lengths.m[i], lengths.sigma_m[i]});
  return adjust({start, {true, false, false, false}, {true, true, false, false}}, taped);
}

Polygon MeasuredPlot::outline() const {
  return {corners[0].at, corners[1].at, corners[2].at, corners[3].at};
}

Result<MeasuredPlot> plot_by_tape(const PlotByTape& taped, const TapeErrors& tape) {
  const SixLengths lengths = six_lengths(taped, tape);
  if (const auto ok = can_close(lengths); !ok) return tl::unexpected<Error>(ok.error());
  const Polygon start = geometry::quadrilateral(
      {lengths.m[0], lengths.m[1], lengths.m[2], lengths.m[3]}, lengths.m[4]);
  Folding chosen = folding(start, lengths);
  if (lengths.both && !chosen.fits()) {
    const Folding other = folding(folded_over(start), lengths);
    if (other.five.settled && other.fits()) {
      if (geometry::crosses_itself(other.five.at)) return tl::unexpected<Error>(crossed(lengths));
      chosen = other;
    }
  }
  MeasuredPlot plot;
  AdjustedPoints points = chosen.five;
  if (lengths.both) plot.check = adjust_all(chosen, lengths, points);
  for (std::size_t i = 0; i < 4; ++i) plot.corners[i] = corner_of(points, i);
  std::copy(points.covariance.begin(), points.covariance.end(), plot.covariance.begin());
  plot.area = area_of(points);
  plot.corner_sigma = least_sure(points);
  plot.hollow = hollow_corner(points.at);
  if (!plot.check || plot.check->fits)
    plot.remedies = plot_remedies(points.at, lengths, tape, plot.corner_sigma);
  return plot;
}

Result<Length> plan_length(Length along_the_ground, Length rise) {
  const double tape_m = in_metres(along_the_ground), rise_m = in_metres(rise);
  if (!(std::abs(rise_m) < tape_m)) {
    return fail(ErrorCode::kImpossibleValue, "/rise_m",
                "the ground cannot rise or fall by as much as the tape is long",
                "give how much higher or lower one end is than the other");
  }
  return metres(std::sqrt(tape_m * tape_m - rise_m * rise_m));
}

}  // namespace spadework::ground
