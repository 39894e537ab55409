// Two hundred plots at many latitudes and dates, measured over and over with errors of tape, clock,
// shadow's end, level and place: the truth lies as far off as the stated plus or minus says.
#include "ground/first_measures.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <numbers>

#include "base/random.h"
#include "geometry/polygon.h"
#include "sky/direction.h"

namespace spadework::testing {
namespace {

using geometry::Polygon;
using geometry::Vec2;
using geometry::Vec3;
using namespace ground;

constexpr std::uint64_t kSeed = 20260301;
constexpr int kPlots = 200, kTimesEach = 50;
constexpr double kDegree = std::numbers::pi / 180;

/// Normally spread, mean 0 and standard deviation 1, by Box and Muller.
double normal(Random& random) {
  return std::sqrt(-2 * std::log(1 - random.unit())) *
         std::cos(2 * std::numbers::pi * random.unit());
}

/// How errors lie to the stated sigmas.
class Ratios {
 public:
  explicit Ratios(std::string what) : what_(std::move(what)) {}
  void add(double error, double sigma) {
    const double ratio = std::abs(error / sigma);
    ++count_;
    within_one_ += ratio <= 1 ? 1 : 0;
    within_two_ += ratio <= 2 ? 1 : 0;
    squares_ += ratio * ratio;
  }
  /// About 68 % within one sigma, at least 95 % within two, and neither too bold nor too modest.
  void expect_honest(double least_within_one = 0.66, double most_within_one = 0.71) const {
    const double one = within_one_ / count_, two = within_two_ / count_;
    const double rms = std::sqrt(squares_ / count_);
    std::cout << "    " << what_ << ": " << count_ << " times, " << 100 * one
              << " % within one sigma, " << 100 * two << " % within two, rms " << rms << "\n";
    EXPECT_GE(count_, kPlots) << what_;
    EXPECT_GE(one, least_within_one) << what_;
    EXPECT_LE(one, most_within_one) << what_;
    EXPECT_GE(two, 0.95) << what_;
    EXPECT_GT(rms, 0.9) << what_;
    EXPECT_LT(rms, 1.1) << what_;
  }

 private:
  std::string what_;
  double count_ = 0, within_one_ = 0, within_two_ = 0, squares_ = 0;
};

/// A plot as it truly is.
struct TruePlot {
  Polygon corners;  // as plot_by_tape lays them
  Angle plan_north;
  Vec2 grade;  // rise over run in the plan
  ShadowPlace place;
  LocalDate date;
  double clock_h = 12;
  sky::SunPosition sun;
};

TruePlot some_plot(Random& random) {
  TruePlot plot;
  const double a = random.between(6, 50), b = random.between(6, 50);
  const auto off = [&](double side) { return side * random.between(-0.25, 0.25); };
  plot.corners = {{0, 0}, {a, 0}, {a + off(a), b + off(b)}, {off(a), b + off(b)}};
  plot.plan_north = degrees(random.between(0, 360));
  plot.grade = geometry::turned({random.between(0, 0.15), 0}, random.between(0, 6.283));
  const double longitude_deg = random.between(-180, 180);
  plot.place.site = {degrees(random.between(-65, 68)), degrees(longitude_deg),
                     metres(random.between(0, 800))};
  plot.place.time_zone = TimeZone(
      "fixed", {{UtcTime{-1e12}, static_cast<int>(std::lround(longitude_deg / 15)) * 3600, false}});
  do {  // a day and an hour at which the sun can be measured by
    plot.date = date_of_day(2026, 1 + random.below(365));
    plot.clock_h = random.between(4, 21);
    plot.sun =
        sky::sun_position(plot.place.time_zone.at_clock(plot.date, plot.clock_h), plot.place.site);
  } while (plot.sun.apparent_elevation < degrees(8) || plot.sun.apparent_elevation > degrees(65));
  return plot;
}

/// The place as it is told: off by its sigma each way.
ShadowPlace told_place(const TruePlot& plot, Length sigma, Random& random) {
  ShadowPlace told = plot.place;
  told.place_sigma = sigma;
  const double off_deg = in_metres(sigma) / 6371000 / kDegree;
  told.site.latitude = told.site.latitude + degrees(normal(random) * off_deg);
  told.site.longitude =
      told.site.longitude +
      degrees(normal(random) * off_deg / std::cos(in_radians(plot.place.site.latitude)));
  return told;
}

/// Where the ray over the top of an upright thing at the plan's origin meets the sloping ground.
Vec3 shadow_end(const TruePlot& plot, double height_m, Angle elevation) {
  const Vec3 sun = sky::direction_towards(plot.sun.azimuth, elevation, plot.plan_north);
  // The top (0, 0, h) less s times the sun's direction lies on the ground, z = grade · (x, y).
  const double s = height_m / (sun.z - dot(plot.grade, Vec2{sun.x, sun.y}));
  return Vec3{0, 0, height_m} + sun * -s;
}

double taped_m(double true_m, Random& random) {
  return true_m + normal(random) * in_metres(tape_sigma(metres(true_m)));
}

PlotByTape tape_round(const Polygon& corners, bool both, Random& random) {
  const auto tape = [&](std::size_t a, std::size_t b) {
    return metres(taped_m(geometry::length(corners[b] - corners[a]), random));
  };
  PlotByTape out{{tape(0, 1), tape(1, 2), tape(2, 3), tape(3, 0)}, tape(0, 2), {}, Units::kMetric};
  if (both) out.second_diagonal = tape(1, 3);
  return out;
}

/// The coordinates that are free: x of corner 2, x and y of corners 3 and 4.
constexpr std::array<std::size_t, 5> kFree = {2, 4, 5, 6, 7};

double coordinate(const Polygon& corners, std::size_t i) {
  return i % 2 == 0 ? corners[i / 2].x : corners[i / 2].y;
}

/// The squared distance of five errors by their covariance, by Gauss's elimination.
double squared_distance(const std::array<double, 64>& covariance, std::array<double, 5> error) {
  std::array<std::array<double, 6>, 5> rows{};
  for (std::size_t i = 0; i < 5; ++i) {
    for (std::size_t k = 0; k < 5; ++k) rows[i][k] = covariance[kFree[i] * 8 + kFree[k]];
    rows[i][5] = error[i];
  }
  for (std::size_t i = 0; i < 5; ++i) {
    for (std::size_t k = i + 1; k < 5; ++k) {
      const double by = rows[k][i] / rows[i][i];
      for (std::size_t c = i; c < 6; ++c) rows[k][c] -= by * rows[i][c];
    }
  }
  std::array<double, 5> solved{};
  double sum = 0;
  for (std::size_t i = 5; i-- > 0;) {
    solved[i] = rows[i][5];
    for (std::size_t k = i + 1; k < 5; ++k) solved[i] -= rows[i][k] * solved[k];
    solved[i] /= rows[i][i];
    sum += solved[i] * error[i];
  }
  return sum;
}

void measure_plots(bool both) {
  Random random(kSeed);
  Ratios corners(both ? "corners by six lengths" : "corners by five lengths");
  Ratios area(both ? "area by six lengths" : "area by five lengths");
  Ratios misclosure("misclosure");
  double distance = 0;
  int doubted = 0;
  for (int i = 0; i < kPlots; ++i) {
    const TruePlot truth = some_plot(random);
    for (int k = 0; k < kTimesEach; ++k) {
      const auto plot = plot_by_tape(tape_round(truth.corners, both, random));
      ASSERT_TRUE(plot) << plot.error().message;
      if (both) {
        misclosure.add(plot->check->in_sigmas, 1);
        doubted += plot->check->fits ? 0 : 1;
      }
      std::array<double, 5> error{};
      for (std::size_t c = 0; c < 5; ++c) {
        error[c] = coordinate(plot->outline(), kFree[c]) - coordinate(truth.corners, kFree[c]);
        corners.add(error[c], std::sqrt(plot->covariance[kFree[c] * 9]));
      }
      distance += squared_distance(plot->covariance, error);
      area.add(in_square_metres(plot->area.value) - geometry::area(truth.corners),
               in_square_metres(plot->area.sigma));
    }
  }
  corners.expect_honest();
  area.expect_honest();
  // Five free coordinates: the mean squared distance is five.
  EXPECT_NEAR(distance / (kPlots * kTimesEach), 5, 0.25);
  if (!both) return;
  misclosure.expect_honest();
  EXPECT_LT(doubted, kPlots * kTimesEach / 100);  // 27 in 10,000 by chance
}

TEST(FirstMeasures, PlotBySidesAndOneDiagonalIsAsSureAsItSays) { measure_plots(false); }

TEST(FirstMeasures, PlotBySidesAndBothDiagonalsIsAsSureAsItSays) { measure_plots(true); }

TEST(FirstMeasures, TheSecondDiagonalNarrowsThePlot) {
  Random random(kSeed);
  double before = 0, after = 0;
  for (int i = 0; i < kPlots; ++i) {
    const TruePlot truth = some_plot(random);
    before += in_metres(plot_by_tape(tape_round(truth.corners, false, random))->corner_sigma);
    after += in_metres(plot_by_tape(tape_round(truth.corners, true, random))->corner_sigma);
  }
  std::cout << "    the least sure corner: " << before / kPlots << " m by five lengths, "
            << after / kPlots << " m by six\n";
  EXPECT_LT(after, 0.9 * before);
}

// One length more than needed tells that something is mistaken, and only by usual slips what.
TEST(FirstMeasures, ALengthAMetreOffIsAmongTheFirstSuspects) {
  Random random(kSeed);
  int told = 0, first = 0, among_three = 0;
  for (int i = 0; i < 5 * kPlots; ++i) {
    PlotByTape taped = tape_round(some_plot(random).corners, true, random);
    const int number = random.below(6);
    Length& length = number < 4    ? taped.sides[static_cast<std::size_t>(number)]
                     : number == 4 ? taped.diagonal
                                   : *taped.second_diagonal;
    length = length + metres(random.below(2) == 0 ? -1 : 1);
    const auto plot = plot_by_tape(taped);
    if (!plot || plot->check->fits) continue;
    ++told;
    const auto& suspects = plot->check->suspects;
    for (std::size_t k = 0; k < suspects.size() && k < 3; ++k) {
      if (suspects[k].number != number) continue;
      ++among_three;
      first += k == 0 ? 1 : 0;
    }
  }
  std::cout << "    a metre off: told " << told << " of " << 5 * kPlots << " times, named first "
            << first << ", among the first three " << among_three << "\n";
  EXPECT_GT(told, 5 * kPlots * 9 / 10);
  EXPECT_GT(first, told * 2 / 5);        // by chance one in six
  EXPECT_GT(among_three, told * 4 / 5);  // by chance one in two
}

TEST(FirstMeasures, NorthFromAShadowIsAsSureAsItSays) {
  Random random(kSeed);
  Ratios north("north from a shadow");
  const ShadowErrors errors;
  double sigma_deg = 0;
  for (int i = 0; i < kPlots; ++i) {
    const TruePlot truth = some_plot(random);
    const double level_m = random.between(1, 8);  // the shadow's length, were the ground level
    const double height_m = level_m * std::tan(in_radians(truth.sun.apparent_elevation));
    const Vec2 foot{random.between(0, 20), random.between(0, 20)};
    const Vec2 tip = foot + shadow_end(truth, height_m, truth.sun.apparent_elevation).plan();
    for (int k = 0; k < kTimesEach; ++k) {
      const ShadowPlace place = told_place(truth, metres(i % 2 == 0 ? 0 : 40000), random);
      const Vec2 off{normal(random), normal(random)};
      const auto told =
          plan_north_from_shadow(place, {foot, tip + off * in_metres(errors.tip), truth.date,
                                         truth.clock_h + normal(random) * errors.clock_min / 60});
      ASSERT_TRUE(told) << told.error().message;
      const double error = in_degrees(told->plan_north.value - truth.plan_north);
      north.add(error - 360 * std::round(error / 360), in_degrees(told->plan_north.sigma));
      sigma_deg += in_degrees(told->plan_north.sigma);
    }
  }
  std::cout << "    mean sigma " << sigma_deg / (kPlots * kTimesEach) << " degrees\n";
  north.expect_honest();
}

// The noon shadow: drawn when the clock shows the told time, on level ground.
TEST(FirstMeasures, NoonShadowIsAsSureAsItSays) {
  Random random(kSeed);
  Ratios noon("north at noon");
  const ShadowErrors errors;
  for (int i = 0; i < kPlots; ++i) {
    const TruePlot truth = some_plot(random);
    for (int k = 0; k < kTimesEach; ++k) {
      const ShadowPlace place = told_place(truth, metres(i % 2 == 0 ? 0 : 40000), random);
      const auto told = noon_shadow(place, truth.date, metres(1.5));
      if (!told || told->bearing.sigma > kLeastSureNorth) break;  // no noon to go by that day
      const UtcTime drawn{told->at.unix_s + normal(random) * errors.clock_min * 60};
      const auto sun = sky::sun_position(drawn, truth.place.site);
      const auto d = sky::direction_towards(sun.azimuth, sun.apparent_elevation, degrees(0));
      const Vec2 off{normal(random), normal(random)};
      const Vec2 tip = Vec2{d.x, d.y} * (-1.5 / d.z) + off * in_metres(errors.tip);
      const double error = in_degrees(bearing_on_plan(tip, degrees(0)) - told->bearing.value);
      noon.add(error - 360 * std::round(error / 360), in_degrees(told->bearing.sigma));
    }
  }
  noon.expect_honest();
}

TEST(FirstMeasures, HeightFromAShadowIsAsSureAsItSays) {
  Random random(kSeed);
  Ratios heights("height from a shadow");
  const ShadowErrors errors;
  double share = 0;
  for (int i = 0; i < kPlots; ++i) {
    const TruePlot truth = some_plot(random);
    const double height_m = random.between(1.5, 12);
    const Length rise_sigma = i % 3 == 0 ? metres(0.02) : kLooksLevel;
    for (int k = 0; k < kTimesEach; ++k) {
      // The eye takes some point of the half-shadow for its end.
      const double blur_deg = random.between(-1, 1) * 0.26667 / truth.sun.distance_au;
      const Vec3 end =
          shadow_end(truth, height_m, truth.sun.apparent_elevation + degrees(blur_deg));
      const double along_m =
          taped_m(geometry::length(end.plan()), random) + normal(random) * in_metres(errors.tip);
      const auto told =
          height_from_shadow(told_place(truth, metres(i % 2 == 0 ? 0 : 40000), random),
                             {metres(along_m),
                              {metres(end.z + normal(random) * in_metres(rise_sigma)), rise_sigma},
                              truth.date,
                              truth.clock_h + normal(random) * errors.clock_min / 60});
      ASSERT_TRUE(told) << told.error().message;
      heights.add(in_metres(told->height.value) - height_m, in_metres(told->height.sigma));
      share += in_metres(told->height.sigma) / height_m;
    }
  }
  std::cout << "    mean sigma " << 100 * share / (kPlots * kTimesEach) << " % of the height\n";
  heights.expect_honest();
}

// Falls of every size, told by whichever mark of one's own body is nearest.
TEST(FirstMeasures, AFallInKneesAndWaistsIsAsSureAsItSays) {
  Random random(kSeed);
  Ratios falls("fall by the body");
  for (int i = 0; i < kPlots * kTimesEach; ++i) {
    const double truth_m = random.between(0.034, 2.05), own = 1 + 0.1 * normal(random);
    BodyMark nearest = BodyMark::kAnkle;
    for (const BodyMark mark : {BodyMark::kKnee, BodyMark::kWaist, BodyMark::kHead}) {
      const auto off = [&](BodyMark m) {
        return std::abs(in_metres(body_mark(m)) * own - truth_m);
      };
      if (off(mark) < off(nearest)) nearest = mark;
    }
    const auto told = fall_by_body(nearest);
    falls.add(in_metres(told->value) - truth_m, in_metres(told->sigma));
  }
  falls.expect_honest(0.56, 0.71);  // evenly spread for the most part: 58 % within one sigma
}

TEST(FirstMeasures, ASkylineInFistsIsAsSureAsItSays) {
  Random random(kSeed);
  Ratios fists("skyline in fists");
  for (int i = 0; i < kPlots * kTimesEach; ++i) {
    const double truth_deg = random.between(0, 50), own_deg = 10 * (1 + 0.1 * normal(random));
    const auto told = altitude_of_fists(std::round(truth_deg / own_deg * 2) / 2);
    fists.add(in_degrees(told->value) - truth_deg, in_degrees(told->sigma));
  }
  fists.expect_honest(0.6, 0.75);
}

}  // namespace
}  // namespace spadework::testing
