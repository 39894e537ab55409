// A plot from its sides and diagonals: closed forms, a second way to every figure, what cannot be.
#include "ground/plot.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <numbers>
#include <sstream>

#include "base/random.h"
#include "ground/adjust.h"

namespace spadework::ground {
namespace {

using geometry::Polygon;
using geometry::Vec2;
using ::testing::HasSubstr;

PlotByTape taped(std::array<double, 4> sides_m, double diagonal_m, double second_m = 0) {
  PlotByTape plot;
  for (std::size_t i = 0; i < 4; ++i) plot.sides[i] = metres(sides_m[i]);
  plot.diagonal = metres(diagonal_m);
  if (second_m > 0) plot.second_diagonal = metres(second_m);
  return plot;
}

/// The lengths of a plot with these corners, the second diagonal too if `both`.
PlotByTape taped_round(const Polygon& corners, bool both) {
  const auto way = [&](std::size_t a, std::size_t b) {
    return geometry::length(corners[b] - corners[a]);
  };
  return taped({way(0, 1), way(1, 2), way(2, 3), way(3, 0)}, way(0, 2), both ? way(1, 3) : 0);
}

Length& length_of(PlotByTape& plot, int number) {
  if (number < 4) return plot.sides[static_cast<std::size_t>(number)];
  return number == kFirstDiagonal ? plot.diagonal : *plot.second_diagonal;
}

MeasuredPlot plot_of(const PlotByTape& plot, const TapeErrors& tape = {}) {
  auto result = plot_by_tape(plot, tape);
  EXPECT_TRUE(result.has_value()) << (result ? "" : result.error().message);
  return result ? *result : MeasuredPlot{};
}

Error error_of(const PlotByTape& plot) {
  const auto result = plot_by_tape(plot);
  EXPECT_FALSE(result.has_value());
  return result ? Error{} : result.error();
}

void expect_corners(const MeasuredPlot& plot, const Polygon& corners, double within = 1e-9) {
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(plot.corners[i].at.x, corners[i].x, within) << "corner " << i + 1;
    EXPECT_NEAR(plot.corners[i].at.y, corners[i].y, within) << "corner " << i + 1;
  }
}

/// A rectangle with its corners moved about.
Polygon some_plot(Random& random) {
  const double a = random.between(8, 30), b = random.between(8, 30);
  const auto off = [&](double side) { return side * random.between(-0.2, 0.2); };
  return {{0, 0}, {a, 0}, {a + off(a), b + off(b)}, {off(a), b + off(b)}};
}

/// Every length equally sure, so that closed forms are short.
constexpr TapeErrors kEven{metres(0.03), 0};

TEST(PlotByTape, OfASquareIsTheSquare) {
  const MeasuredPlot plot = plot_of(taped({10, 10, 10, 10}, 10 * std::numbers::sqrt2));
  expect_corners(plot, {{0, 0}, {10, 0}, {10, 10}, {0, 10}}, 1e-7);
  EXPECT_NEAR(in_square_metres(plot.area.value), 100, 1e-6);
  EXPECT_FALSE(plot.hollow || plot.check);
}

TEST(PlotByTape, OfThreeFourFiveIsARectangle) {
  const MeasuredPlot plot = plot_of(taped({3, 4, 3, 4}, 5, 5));
  expect_corners(plot, {{0, 0}, {3, 0}, {3, 4}, {0, 4}});
  EXPECT_NEAR(in_square_metres(plot.area.value), 12, 1e-9);
  EXPECT_NEAR(in_metres(plot.check->misclosure.value), 0, 1e-9);
  EXPECT_TRUE(plot.check->fits);
  EXPECT_TRUE(plot.check->suspects.empty());
}

// Of a rectangle a by b with diagonal p: x3 = (a² + p² − b²) / 2a moves by p/a of the diagonal and
// −b/a of the second side and, just there, not at all with the first; y3 moves with b alone.
TEST(PlotByTape, OfARectangleIsAsSureAsTheClosedFormSays) {
  const double a = 12, b = 5, p = 13, s = 0.03;
  const MeasuredPlot plot = plot_of(taped({a, b, a, b}, p), kEven);
  EXPECT_NEAR(in_metres(plot.corners[0].sigma_most), 0, 1e-12);
  EXPECT_NEAR(in_metres(plot.corners[1].sigma_x), s, 1e-9);
  EXPECT_NEAR(in_metres(plot.corners[1].sigma_y), 0, 1e-12);
  EXPECT_NEAR(in_metres(plot.corners[2].sigma_x), s * std::hypot(p / a, b / a), 1e-9);
  EXPECT_NEAR(in_metres(plot.corners[2].sigma_y), s, 1e-9);
  EXPECT_GE(plot.corners[2].sigma_most, plot.corners[2].sigma_x);
}

// A square of side s whose two diagonals are both taped longer by d: its side grows by √2 d / 4.
TEST(PlotByTape, SharesOutAMisclosureAsTheClosedFormOfASquareSays) {
  const double s = 10, d = 0.05;
  const double diagonal = s * std::numbers::sqrt2 + d;
  const MeasuredPlot plot = plot_of(taped({s, s, s, s}, diagonal, diagonal), kEven);
  EXPECT_TRUE(plot.check->fits);
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(in_metres(plot.check->adjusted[i]), s + std::numbers::sqrt2 * d / 4, 1e-4);
  }
}

// The slopes by moving each length a little: no least squares in it.
TEST(PlotByTape, IsAsSureAsMovingEachLengthALittleSays) {
  Random random(41);
  for (int trial = 0; trial < 50; ++trial) {
    const Polygon corners = some_plot(random);
    const PlotByTape lengths = taped_round(corners, false);
    const MeasuredPlot plot = plot_of(lengths);
    const auto corners_of = [](const PlotByTape& l) {
      return geometry::quadrilateral({in_metres(l.sides[0]), in_metres(l.sides[1]),
                                      in_metres(l.sides[2]), in_metres(l.sides[3])},
                                     in_metres(l.diagonal));
    };
    std::array<double, 64> expected{};
    double area_variance = 0;
    for (int number = 0; number < 5; ++number) {
      PlotByTape more = lengths, less = lengths;
      length_of(more, number) = length_of(more, number) + metres(1e-5);
      length_of(less, number) = length_of(less, number) - metres(1e-5);
      const Polygon up = corners_of(more), down = corners_of(less);
      PlotByTape same = lengths;
      const double sigma_m = in_metres(tape_sigma(length_of(same, number)));
      std::array<double, 8> slope{};
      for (std::size_t c = 0; c < 4; ++c) {
        slope[2 * c] = (up[c].x - down[c].x) / 2e-5 * sigma_m;
        slope[2 * c + 1] = (up[c].y - down[c].y) / 2e-5 * sigma_m;
      }
      for (std::size_t i = 0; i < 8; ++i) {
        for (std::size_t k = 0; k < 8; ++k) expected[i * 8 + k] += slope[i] * slope[k];
      }
      const double by = (geometry::area(up) - geometry::area(down)) / 2e-5 * sigma_m;
      area_variance += by * by;
    }
    for (std::size_t i = 0; i < 64; ++i) EXPECT_NEAR(plot.covariance[i], expected[i], 1e-7);
    EXPECT_NEAR(in_square_metres(plot.area.sigma), std::sqrt(area_variance), 1e-4);
  }
}

/// The sum of squares that the corners of x leave: x2, x3, y3, x4, y4.
double misfit(const std::array<double, 5>& x, PlotByTape lengths) {
  const Polygon at = {{0, 0}, {x[0], 0}, {x[1], x[2]}, {x[3], x[4]}};
  PlotByTape now = taped_round(at, true);
  double sum = 0;
  for (int i = 0; i < 6; ++i) {
    const double sigma = in_metres(tape_sigma(length_of(lengths, i)));
    const double off = in_metres(length_of(now, i) - length_of(lengths, i)) / sigma;
    sum += off * off;
  }
  return sum;
}

// Another way to the same place: step along each axis and along the diagonals of pairs, halve the
// step when nothing is gained.
TEST(PlotAdjusted, IsWhereASearchWithoutDerivativesEnds) {
  Random random(7);
  for (int trial = 0; trial < 12; ++trial) {
    const Polygon corners = some_plot(random);
    PlotByTape lengths = taped_round(corners, true);
    for (int i = 0; i < 6; ++i)
      length_of(lengths, i) = length_of(lengths, i) + metres(random.between(-0.04, 0.04));
    const MeasuredPlot plot = plot_of(lengths);
    std::array<double, 5> x = {corners[1].x, corners[2].x, corners[2].y, corners[3].x,
                               corners[3].y};
    double best = misfit(x, lengths);
    for (double step = 0.02; step > 1e-7;) {
      bool gained = false;
      for (std::size_t i = 0; i < 5; ++i) {
        for (std::size_t k = i; k < 5; ++k) {
          for (const double a : {-1.0, 1.0}) {
            for (const double b : {-1.0, 1.0}) {
              std::array<double, 5> moved = x;
              moved[i] += a * step;
              if (k != i) moved[k] += b * step;
              const double there = misfit(moved, lengths);
              if (there < best) best = there, x = moved, gained = true;
            }
          }
        }
      }
      if (!gained) step /= 2;
    }
    EXPECT_NEAR(plot.corners[1].at.x, x[0], 2e-5);
    EXPECT_NEAR(plot.corners[2].at.x, x[1], 2e-5);
    EXPECT_NEAR(plot.corners[2].at.y, x[2], 2e-5);
    EXPECT_NEAR(plot.corners[3].at.x, x[3], 2e-5);
    EXPECT_NEAR(plot.corners[3].at.y, x[4], 2e-5);
    // With one length over, what is left is the misclosure over its sigma, squared.
    EXPECT_NEAR(best, plot.check->in_sigmas * plot.check->in_sigmas, 0.02 * best + 1e-3);
  }
}

// golden/plot/trilateration: Ghilani and Wolf, example 14.2.
TEST(PlotAdjustedGolden, GhilaniAndWolfExample14Point2) {
  std::ifstream in(std::string(SPADEWORK_SOURCE_DIR) + "/tests/golden/plot/trilateration/data.csv");
  std::string line;
  std::getline(in, line);
  HeldPoints points;
  std::vector<TapedLength> lengths;
  std::vector<double> corrections;
  Vec2 found;
  while (std::getline(in, line)) {
    std::array<double, 6> cell{};
    std::istringstream cells(line);
    for (double& value : cell) {
      std::string text;
      std::getline(cells, text, ',');
      value = std::stod(text);
    }
    points.at.push_back({cell[0], cell[1]});
    lengths.push_back({points.at.size() - 1, 3, cell[2], 1});
    corrections.push_back(cell[3]);
    found = {cell[4], cell[5]};
  }
  ASSERT_EQ(points.at.size(), 3U);
  points.at.push_back({6900, 4600});
  points.x_held = points.y_held = {true, true, true, false};
  const AdjustedPoints adjusted = adjust(points, lengths);
  EXPECT_TRUE(adjusted.settled);
  EXPECT_NEAR(adjusted.at[3].x, found.x, 0.0006);
  EXPECT_NEAR(adjusted.at[3].y, found.y, 0.0006);
  for (std::size_t i = 0; i < 3; ++i)
    EXPECT_NEAR(adjusted.corrections_m[i], corrections[i], 0.00006);
}

TEST(PlotAdjusted, DoesNotSettleWhereALengthIsMissing) {
  HeldPoints points{{{0, 0}, {10, 0}, {5, 5}}, {true, true, false}, {true, true, false}};
  EXPECT_FALSE(adjust(points, {{0, 2, 7, 0.03}}).settled);
  EXPECT_TRUE(adjust(points, {{0, 2, 7, 0.03}, {1, 2, 7, 0.03}}).settled);
}

const Polygon kUneven = {{0, 0}, {17.3, 0}, {19.8, 14.1}, {-2.6, 11.2}};

// The second diagonal by the angles at the first corner.
TEST(PlotCheck, TellsByWhatTheSecondDiagonalIsOff) {
  PlotByTape lengths = taped_round(kUneven, true);
  lengths.second_diagonal = *lengths.second_diagonal + metres(0.06);
  const MeasuredPlot plot = plot_of(lengths);
  const double a = in_metres(lengths.sides[0]), b = in_metres(lengths.sides[1]),
               c = in_metres(lengths.sides[2]), d = in_metres(lengths.sides[3]),
               p = in_metres(lengths.diagonal);
  const double angle = std::acos((a * a + p * p - b * b) / (2 * a * p)) +
                       std::acos((d * d + p * p - c * c) / (2 * d * p));
  const double second = std::sqrt(a * a + d * d - 2 * a * d * std::cos(angle));
  EXPECT_NEAR(in_metres(plot.check->misclosure.value), in_metres(*lengths.second_diagonal) - second,
              1e-9);
  EXPECT_NEAR(in_metres(plot.check->misclosure.value), 0.06, 1e-9);
  EXPECT_GT(plot.check->misclosure.sigma, tape_sigma(*lengths.second_diagonal));
  EXPECT_TRUE(plot.check->fits);
}

TEST(PlotCheck, NamesTheLengthThatAWholeMetreWouldMend) {
  int first = 0, trials = 0;
  Random random(3);
  for (int trial = 0; trial < 60; ++trial) {
    const Polygon corners = some_plot(random);
    PlotByTape lengths = taped_round(corners, true);
    const int number = random.below(6);
    const Length was = length_of(lengths, number);
    length_of(lengths, number) = was + metres(random.below(2) == 0 ? -1 : 1);
    const auto plot = plot_by_tape(lengths);
    if (!plot || plot->check->fits) continue;  // the slip made something that cannot be, or can
    ++trials;
    ASSERT_EQ(plot->check->suspects.size(), 6U);
    const Suspect& head = plot->check->suspects.front();
    first += head.number == number ? 1 : 0;
    bool told = false;
    for (const Suspect& suspect : plot->check->suspects) {
      if (suspect.number == kSecondDiagonal) {  // for it, the misclosure itself is what is wanted
        EXPECT_NEAR(in_metres(suspect.taped - suspect.fits.value),
                    in_metres(plot->check->misclosure.value), 1e-6);
        EXPECT_NEAR(in_metres(suspect.fits.sigma), in_metres(plot->check->misclosure.sigma), 1e-6);
      }
      if (suspect.number != number) continue;
      told = true;
      EXPECT_EQ(suspect.slip, Slip::kWholeUnit);
      EXPECT_NEAR(in_metres(suspect.fits.value), in_metres(was), 1e-6);
    }
    EXPECT_TRUE(told);
  }
  // Lengths without error: the slip shows through. What tape errors leave of it is FirstMeasures'.
  EXPECT_GT(trials, 40);
  EXPECT_EQ(first, trials);
}

TEST(PlotCheck, KnowsSwappedDigitsAndFeet) {
  PlotByTape lengths = taped({17.3, 14.32, 22.59, 11.5}, 24.31);
  const MeasuredPlot clean = plot_of(lengths);
  lengths.second_diagonal = metres(geometry::length(clean.corners[3].at - clean.corners[1].at));
  lengths.sides[3] = metres(15.1);
  const MeasuredPlot plot = plot_of(lengths);
  ASSERT_FALSE(plot.check->fits);
  EXPECT_EQ(plot.check->suspects.front().number, 3);
  EXPECT_EQ(plot.check->suspects.front().slip, Slip::kDigitsSwapped);
  lengths.sides[3] = metres(11.5 + 10 * 0.3048);
  lengths.units = Units::kImperial;
  const MeasuredPlot feet = plot_of(lengths);
  EXPECT_EQ(feet.check->suspects.front().number, 3);
  EXPECT_EQ(feet.check->suspects.front().slip, Slip::kTenUnits);
}

TEST(PlotCheck, LessSureWhereTheLengthsDoNotFit) {
  PlotByTape lengths = taped_round(kUneven, true);
  const Length good = plot_of(lengths).corner_sigma;
  lengths.second_diagonal = *lengths.second_diagonal + metres(0.5);
  const MeasuredPlot plot = plot_of(lengths);
  EXPECT_FALSE(plot.check->fits);
  EXPECT_NEAR(plot.corner_sigma / good, plot.check->in_sigmas, 0.2 * plot.check->in_sigmas);
}

TEST(PlotByTape, FindsAPlotThatIsHollowAtTheFourthCornerByTheSecondDiagonal) {
  const Polygon dart = {{0, 0}, {20, 0}, {19, 16}, {13, 5}};
  const MeasuredPlot plot = plot_of(taped_round(dart, true));
  expect_corners(plot, dart, 1e-7);
  EXPECT_EQ(plot.hollow, 3);
  EXPECT_NEAR(in_square_metres(plot.area.value), geometry::area(dart), 1e-6);
  // Without it, the fourth corner is taken to lie beyond the diagonal.
  EXPECT_GT(plot_of(taped_round(dart, false)).area.value, plot.area.value);
  const Polygon hollow_at_3 = {{0, 0}, {20, 0}, {8, 6}, {3, 19}};
  const MeasuredPlot third = plot_of(taped_round(hollow_at_3, false));
  expect_corners(third, hollow_at_3, 1e-7);
  EXPECT_EQ(third.hollow, 2);
}

TEST(PlotByTape, RefusesCornersOutOfOrder) {
  const Polygon swapped = {kUneven[0], kUneven[1], kUneven[3], kUneven[2]};
  const Error error = error_of(taped_round(swapped, true));
  EXPECT_EQ(error.code, ErrorCode::kCrossedOutline);
  EXPECT_EQ(error.where, "/second_diagonal_m");
  EXPECT_THAT(error.hint, HasSubstr("in order"));
}

TEST(PlotByTape, RefusesWhatCannotBeAtTheLengthConcerned) {
  const Error round = error_of(taped({12, 9, 42, 11}, 15));
  EXPECT_EQ(round.where, "/sides_m/2");
  EXPECT_EQ(round.message,
            "side 3 is 42.00 m, but the other three sides together are only 32.00 m: they cannot "
            "reach round");
  const Error longer = error_of(taped({12, 9, 12, 11}, 21.5));
  EXPECT_EQ(longer.where, "/diagonal_m");
  EXPECT_THAT(longer.message, HasSubstr("too long, as sides 1 and 2 together are only 21.00 m"));
  EXPECT_THAT(longer.hint, HasSubstr("longer than 3.00 m and shorter than 21.00 m"));
  const Error shorter = error_of(taped({12, 9, 14, 5}, 8));
  EXPECT_EQ(shorter.where, "/diagonal_m");
  EXPECT_THAT(shorter.message, HasSubstr("too short, as side 3 is 9.00 m longer than side 4"));
  const Error second = error_of(taped({12, 9, 12, 9}, 15, 30));
  EXPECT_EQ(second.where, "/second_diagonal_m");
  EXPECT_EQ(error_of(taped({12, 9, 12, 0}, 15)).where, "/sides_m/3");
  EXPECT_EQ(error_of(taped({12, std::nan(""), 12, 9}, 15)).where, "/sides_m/1");
  EXPECT_EQ(error_of(taped({12, 2500, 12, 9}, 15)).where, "/sides_m/1");
}

TEST(PlotByTape, RefusesThreeCornersInOneLine) {
  const Error error = error_of(taped({12, 9, 14, 15}, 20.98));
  EXPECT_EQ(error.code, ErrorCode::kNoAnswer);
  EXPECT_THAT(error.message, HasSubstr("corners 1, 2 and 3 lie so nearly in one line"));
  EXPECT_THAT(error_of(taped({14, 15, 12, 9}, 20.98)).message, HasSubstr("corners 1, 4 and 3"));
}

TEST(PlotByTape, AnswersOrRefusesWhateverLengths) {
  Random random(11);
  int answered = 0, refused = 0;
  for (int trial = 0; trial < 20000; ++trial) {
    const auto any = [&] { return std::pow(10.0, random.between(-0.5, 2)); };
    const bool alike = trial % 2 == 0;
    const auto side = [&] { return alike ? random.between(8, 12) : any(); };
    PlotByTape lengths = taped({side(), side(), side(), side()}, alike ? 14 : any());
    if (trial % 3 != 0) lengths.second_diagonal = metres(alike ? random.between(11, 16) : any());
    const auto plot = plot_by_tape(lengths);
    if (!plot) {
      ++refused;
      EXPECT_TRUE(plot.error().where[0] == '/' && !plot.error().hint.empty());
      continue;
    }
    ++answered;
    ASSERT_TRUE(std::isfinite(in_metres(plot->corner_sigma)) && plot->corner_sigma > metres(0));
    ASSERT_TRUE(std::isfinite(in_square_metres(plot->area.sigma)));
    ASSERT_FALSE(geometry::crosses_itself(plot->outline()))
        << trial << ": " << in_metres(lengths.sides[0]) << " " << in_metres(lengths.sides[1]) << " "
        << in_metres(lengths.sides[2]) << " " << in_metres(lengths.sides[3]) << " "
        << in_metres(lengths.diagonal) << " "
        << in_metres(lengths.second_diagonal.value_or(metres(0))) << " off "
        << (plot->check ? plot->check->in_sigmas : 0);
  }
  EXPECT_GT(answered, 5000);
  EXPECT_GT(refused, 5000);
}

TEST(PlotByTape, TellsWhatASecondDiagonalWouldBring) {
  const MeasuredPlot plot = plot_of(taped_round(kUneven, false));
  ASSERT_FALSE(plot.remedies.empty());
  const auto remedy = std::find_if(plot.remedies.begin(), plot.remedies.end(),
                                   [](const auto& r) { return r.by == Better::kSecondDiagonal; });
  ASSERT_NE(remedy, plot.remedies.end());
  EXPECT_EQ(remedy->at, "/second_diagonal_m");
  const MeasuredPlot then = plot_of(taped_round(kUneven, true));
  EXPECT_NEAR(in_metres(remedy->corner_sigma_after), in_metres(then.corner_sigma), 1e-6);
  EXPECT_NEAR(in_square_metres(remedy->area_after.sigma), in_square_metres(then.area.sigma), 1e-6);
  EXPECT_LE(remedy->corner_sigma_after, plot.corner_sigma * 0.9);
  for (const PlotRemedy& r : plot.remedies) EXPECT_LT(r.corner_sigma_after, plot.corner_sigma);
}

TEST(PlotByTape, ScalesWithTheTape) {
  const MeasuredPlot plot = plot_of(taped_round(kUneven, true), kEven);
  const MeasuredPlot twice = plot_of(taped_round(kUneven, true), {metres(0.06), 0});
  EXPECT_NEAR(twice.corner_sigma / plot.corner_sigma, 2, 1e-9);
  EXPECT_NEAR(twice.area.sigma / plot.area.sigma, 2, 1e-9);
}

// 20.000 m on a slope with 2.4 m of rise: 19.855 m (Pythagoras).
TEST(PlanLength, IsTheLevelLegOfTheTape) {
  EXPECT_NEAR(in_metres(*plan_length(metres(20), metres(2.4))), 19.85548, 5e-6);
  EXPECT_EQ(*plan_length(metres(20), metres(-2.4)), *plan_length(metres(20), metres(2.4)));
  EXPECT_EQ(plan_length(metres(2), metres(2)).error().where, "/rise_m");
}

}  // namespace
}  // namespace spadework::ground
