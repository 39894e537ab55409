#include "ground/by_eye.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace spadework::ground {
namespace {

constexpr double kHighest_deg = 89;    // as the document takes a skyline
constexpr double kReadTo_fists = 0.5;  // half fists are told apart
constexpr double kBodies_share = 0.1;  // how people differ, one standard deviation
constexpr double kLevelled_m = 0.02;

/// The standard deviation of what lies evenly between two ends.
double evenly(double low, double high) { return (high - low) / std::sqrt(12.0); }

constexpr std::array<double, 4> kMarks_m = {0.1, 0.5, 1.0, 1.7};

/// How far it is from halfway to the mark below to halfway to the mark above: of the ankle from a
/// third of it, the least fall that one would speak of; above the head as far as below.
double mark_sigma_m(std::size_t mark) {
  const double low = mark == 0 ? kMarks_m[0] / 3 : (kMarks_m[mark - 1] + kMarks_m[mark]) / 2;
  const double high = mark + 1 < kMarks_m.size() ? (kMarks_m[mark] + kMarks_m[mark + 1]) / 2
                                                 : kMarks_m[mark] + (kMarks_m[mark] - low);
  return evenly(low, high);
}

double grade_sigma(const Measured<Length>& falls, const Measured<Length>& over) {
  return std::hypot(falls.sigma / over.value,
                    (falls.value / over.value) * (over.sigma / over.value));
}

std::vector<Remedy<double>> fall_remedies(const FallTold& told, double now) {
  const Measured<Length> levelled{told.falls.value,
                                  std::min(told.falls.sigma, metres(kLevelled_m))};
  const Measured<Length> taped{told.over.value,
                               std::min(told.over.sigma, tape_sigma(told.over.value))};
  return worth_doing<Remedy<double>>(
      {{Better::kLevelFall, "/falls_m", grade_sigma(levelled, told.over)},
       {Better::kTapeOver, "/over", grade_sigma(told.falls, taped)}},
      now, [](const Remedy<double>& remedy) { return remedy.sigma_after; });
}

}  // namespace

Result<FistSize> own_fist(double fists_overhead) {
  constexpr double kFewest = 5, kMost = 18, kCountedShare = 0.03;
  if (!(fists_overhead >= kFewest && fists_overhead <= kMost)) {
    return fail(ErrorCode::kImpossibleValue, "/fists_overhead",
                fmt::format("{:g} fists from the level to overhead cannot be", fists_overhead),
                "most people count about nine; hold the arm straight");
  }
  return FistSize{degrees(90 / fists_overhead), kCountedShare};
}

Result<Measured<Angle>> altitude_of_fists(double fists, const FistSize& fist) {
  const double altitude_deg = fists * in_degrees(fist.wide);
  if (!(altitude_deg >= 0 && altitude_deg <= kHighest_deg)) {
    return fail(ErrorCode::kImpossibleValue, "/fists",
                fmt::format("{:g} fists cannot be: overhead is {:.0f} fists", fists,
                            90 / in_degrees(fist.wide)),
                "count the fists from the level up to the skyline, 0 where it is level");
  }
  const double read_deg = evenly(-kReadTo_fists / 2, kReadTo_fists / 2) * in_degrees(fist.wide);
  return Measured<Angle>{degrees(altitude_deg),
                         degrees(std::hypot(altitude_deg * fist.share, read_deg))};
}

Result<FistSkyline> skyline_of_fists(const std::vector<FistPoint>& points, const FistSize& fist) {
  if (points.empty()) {
    return fail(ErrorCode::kMissingKey, "", "no direction was told",
                "give the fists in at least one direction");
  }
  struct Point {
    Angle bearing;
    Measured<Angle> altitude;
    double fists;
  };
  std::vector<Point> told;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const Angle bearing = turned_round(points[i].bearing);
    const auto altitude = altitude_of_fists(points[i].fists, fist);
    if (!altitude) {
      Error error = altitude.error();
      error.where = fmt::format("/{}/fists", i);
      return tl::unexpected<Error>(std::move(error));
    }
    const bool again = std::any_of(told.begin(), told.end(), [&](const Point& p) {
      return std::abs(in_degrees(p.bearing - bearing)) < 1e-9;
    });
    if (again) {
      return fail(ErrorCode::kConflict, fmt::format("/{}/bearing", i),
                  fmt::format("the skyline toward {:.0f}° is told twice", in_degrees(bearing)),
                  "keep one of the two");
    }
    told.push_back({bearing, *altitude, points[i].fists});
  }
  std::sort(told.begin(), told.end(),
            [](const Point& a, const Point& b) { return a.bearing < b.bearing; });
  FistSkyline skyline;
  const Point* highest = &told.front();
  for (const Point& point : told) {
    skyline.points.push_back({point.bearing, point.altitude.value});
    skyline.sigma.push_back(point.altitude.sigma);
    if (point.fists > highest->fists) highest = &point;
  }
  const auto counted = altitude_of_fists(highest->fists, {fist.wide, own_fist(9)->share});
  skyline.remedies = worth_doing<Angle>({{Better::kOwnFist, "/fists_overhead", counted->sigma}},
                                        highest->altitude.sigma);
  return skyline;
}

Length body_mark(BodyMark mark) { return metres(kMarks_m[static_cast<std::size_t>(mark)]); }

Result<Measured<Length>> fall_by_body(BodyMark mark, double times) {
  if (!(times > 0 && times <= 20)) {
    return fail(ErrorCode::kImpossibleValue, "/times", fmt::format("{:g} times cannot be", times),
                "give how many times over, more than 0 and at most 20");
  }
  const double height_m = in_metres(body_mark(mark));
  const double sigma_m =
      times * std::hypot(mark_sigma_m(static_cast<std::size_t>(mark)), kBodies_share * height_m);
  return Measured<Length>{metres(height_m * times), metres(sigma_m)};
}

Measured<Length> fall_by_eye(Length falls) { return {falls, falls * 0.25}; }

Measured<Length> fall_by_level(Length falls) { return {falls, metres(kLevelled_m)}; }

Measured<Length> over_by_pacing(Length over) { return {over, over * 0.1}; }

Result<ToldFall> fall_told(const FallTold& told) {
  const double falls_m = in_metres(told.falls.value), over_m = in_metres(told.over.value);
  if (!(falls_m >= 0 && falls_m <= 200)) {
    return fail(ErrorCode::kImpossibleValue, "/falls_m",
                fmt::format("a fall of {:g} m cannot be", falls_m),
                "give 0 to 200 m; where the ground rises, turn the arrow round");
  }
  if (!(over_m >= 0.1 && over_m <= 2000)) {
    return fail(ErrorCode::kImpossibleValue, "/over",
                fmt::format("a way of {:g} m cannot be", over_m),
                "give over how many metres it falls so far, 0.1 to 2000");
  }
  ToldFall out;
  out.falls = told.falls;
  out.toward = {turned_round(told.toward.value), told.toward.sigma};
  out.falls_m = falls_m;
  out.toward_deg = in_degrees(out.toward.value);
  out.over_m = over_m;
  out.grade = {falls_m / over_m, grade_sigma(told.falls, told.over)};
  if (told.falls.sigma > std::max(metres(0.05), told.falls.value * 0.05))
    out.guessed.emplace_back("falls_m");
  if (told.toward.sigma > degrees(5)) out.guessed.emplace_back("toward_deg");
  if (told.over.sigma > told.over.value * 0.05) out.guessed.emplace_back("over");
  out.remedies = fall_remedies(told, out.grade.sigma);
  return out;
}

}  // namespace spadework::ground
