// The shadow caster against closed forms, and on input at the edge of sense.
// Closed forms: tests/golden/light/analytic.csv (see case.toml beside it for the formulas).
#include "light/caster.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>
#include <string>
#include <vector>

#include "light/light_testing.h"
#include "tests/golden/light/read_analytic.h"

namespace spadework::light {
namespace {

using namespace testing;  // NOLINT: suns and bodies
using golden::Case;
using golden::cases;

CastOptions every_sample() {
  CastOptions options;
  options.least_beam_w_m2 = 0;
  return options;
}

/// A day's suns at steps of so many seconds, a quarter of a step off noon: morning's and
/// afternoon's then do not fall alike, and their errors do not add.
std::vector<SunSample> day_of_suns(double latitude_deg, double declination_deg, int step_s) {
  std::vector<SunSample> suns;
  for (int i = 0; i < 86400 / step_s; ++i) {
    const double hour_angle_deg = (i + 0.25) * step_s / 240.0 - 180;
    const Vec3 sun = sun_at(latitude_deg, declination_deg, hour_angle_deg);
    if (sun.z > 0) suns.push_back(sample(sun));
  }
  return suns;
}

double hours_at_the_origin(const Body& wall, const Case& c, int step_s) {
  const LitCounts counts =
      cast(Scene({wall}), spot_receiver({0, 0, 0}),
           day_of_suns(c.of.at("lat"), c.of.at("dec"), step_s), every_sample());
  return counts.of_month(0, 0) * step_s / 3600.0;
}

constexpr double kLong_m = 20000;  // half the length of a wall that stands for an endless one
constexpr double kThin_m = 0.01;

TEST(SunHours, BehindAnEastWestWallAreTheClosedForms) {
  for (const Case& c : cases("EWwall_sun_hours", 100)) {
    const Body wall = opaque(
        "wall", box({-kLong_m, -c.of.at("d") - kThin_m}, 2 * kLong_m, kThin_m, 0, c.of.at("h")));
    EXPECT_NEAR(hours_at_the_origin(wall, c, 120), c.value, 0.03) << c.line;
    EXPECT_NEAR(hours_at_the_origin(wall, c, 10), c.value, 0.003) << c.line;
  }
}

TEST(SunHours, EastOfANorthSouthWallAreTheClosedForms) {
  for (const Case& c : cases("NSwall_west_sun_hours", 100)) {
    const Body wall = opaque(
        "wall", box({-c.of.at("d") - kThin_m, -kLong_m}, kThin_m, 2 * kLong_m, 0, c.of.at("h")));
    EXPECT_NEAR(hours_at_the_origin(wall, c, 120), c.value, 0.03) << c.line;
    EXPECT_NEAR(hours_at_the_origin(wall, c, 10), c.value, 0.003) << c.line;
  }
}

/// How far the shadow of a long east-west wall reaches north from its northern face, along one
/// column of cells.
double shadow_length_m(double height_m, Vec3 sun, double cell_m) {
  const Body wall = opaque("wall", box({-kLong_m, -kThin_m}, 2 * kLong_m, kThin_m, 0, height_m));
  const auto rows = static_cast<int>(12 / cell_m);
  const LitCounts counts =
      cast(Scene({wall}), level_receiver({0, 0}, 0, 0, cell_m, 1, rows), {{sample(sun)}});
  int dark = 0;
  for (int j = 0; j < rows; ++j) dark += counts.of_month(0, static_cast<std::size_t>(j)) == 0;
  return dark * cell_m;
}

TEST(ShadowLength, AtNoonIsTheClosedForm) {
  for (const Case& c : cases("noon_shadow_h=1", 9))
    EXPECT_NEAR(shadow_length_m(1, sun_at(c.of.at("lat"), c.of.at("dec"), 0), 0.0025), c.value,
                0.0025)
        << c.line;
}

TEST(ShadowLength, OfAnEastWestWallStaysTheSameAllDayAtTheEquinox) {
  for (const Case& c : cases("equinox_EW_shadow_width_h=2", 4)) {
    for (double hour_angle = -82.5; hour_angle < 90; hour_angle += 7.5)
      EXPECT_NEAR(shadow_length_m(2, sun_at(c.of.at("lat"), 0, hour_angle), 0.0025), c.value,
                  0.0025)
          << c.line << " at hour angle " << hour_angle;
  }
}

TEST(ShadowLength, EqualsHeightAt45Degrees) {  // closed form: h / tan 45°
  EXPECT_NEAR(shadow_length_m(2, toward(45, 180), 0.0025), 2, 0.0025);
}

/// A count of cell centres within a convex outline is off by at most one in each row and column.
struct Area {
  double m2 = 0, tolerance_m2 = 0;
};

Area dark_area(const Body& body, Vec3 sun) {
  constexpr double kCell_m = 0.01;
  constexpr int kSide = 3000;
  const Receiver ground = level_receiver({-15, -15}, 0, 0, kCell_m, kSide, kSide);
  const LitCounts counts = cast(Scene({body}), ground, {{sample(sun)}}, every_sample());
  const auto& lit = counts.plane(0, 1);
  long dark = 0;
  int left = kSide, right = -1, low = kSide, high = -1;
  for (int j = 0; j < kSide; ++j) {
    for (int i = 0; i < kSide; ++i) {
      if (lit[static_cast<std::size_t>(j * kSide + i)] != 0) continue;
      ++dark;
      left = std::min(left, i), right = std::max(right, i);
      low = std::min(low, j), high = std::max(high, j);
    }
  }
  EXPECT_TRUE(left > 0 && low > 0 && right < kSide - 1 && high < kSide - 1) << "runs off the grid";
  const int half_outline = right - left + 1 + high - low + 1;
  return {static_cast<double>(dark) * kCell_m * kCell_m, half_outline * kCell_m * kCell_m};
}

TEST(ShadowArea, OfABoxIsTheClosedForm) {
  for (const Case& c : cases("box_shadow_area_", 12)) {
    const double a = c.of.at("a"), b = c.of.at("b");
    const Body shed = opaque("shed", box({-a / 2, -b / 2}, a, b, 0, c.of.at("h")));
    // g is how far the sun stands off the normal of side a.
    const Area area = dark_area(shed, toward(c.of.at("el"), 180 + c.of.at("g")));
    EXPECT_NEAR(area.m2, c.value, area.tolerance_m2) << c.line;
  }
}

RoundSolid ball(double radius, double foot_z) {
  return {RoundShape::kEllipsoid, {0, 0}, foot_z, foot_z + 2 * radius, radius};
}

TEST(ShadowArea, OfASphereIsTheClosedForm) {
  for (const Case& c : cases("sphere_shadow_area_R=1", 4)) {
    const double bearing = 37;  // as good as any other
    const Area area = dark_area(opaque("ball", ball(1, 0.5)), toward(c.of.at("el"), bearing));
    EXPECT_NEAR(area.m2, c.value, area.tolerance_m2) << c.line;
  }
}

TEST(ShadowArea, OfASeeThroughSphereIsWhereTheChordTakesHalf) {
  // Closed form: chord 2 √(R² − r²) times K reaches ln 2 at r² = R² − (ln 2 / 2K)².
  for (const double per_metre : {0.4, 0.7, 2.0}) {
    const Body crown{"tree", ball(1, 0.5), Through::kPerMetre, {static_cast<float>(per_metre)}};
    const double half_chord = std::numbers::ln2 / (2 * per_metre);
    const Area area = dark_area(crown, toward(35, 200));
    EXPECT_NEAR(area.m2, std::numbers::pi * (1 - half_chord * half_chord) / std::sin(rad(35)),
                area.tolerance_m2)
        << per_metre;
  }
}

TEST(ShadowArea, OfAColumnAndAConeAreTheClosedForms) {
  // Column: its two discs and what they sweep. Cone: the disc and the tangents from the tip's
  // shadow, at L = h cot(el) > R from the foot.
  const double R = 1, h = 3, cot = 1 / std::tan(rad(40));
  const Area column =
      dark_area(opaque("post", RoundSolid{RoundShape::kColumn, {0, 0}, 0, h, R}), toward(40, 250));
  EXPECT_NEAR(column.m2, std::numbers::pi * R * R + 2 * R * h * cot, column.tolerance_m2);
  const double L = h * cot, half_turn = std::acos(R / L);
  const Area cone =
      dark_area(opaque("fir", RoundSolid{RoundShape::kCone, {0, 0}, 0, h, R}), toward(40, 250));
  EXPECT_NEAR(cone.m2, R * R * (std::numbers::pi - half_turn) + R * std::sqrt(L * L - R * R),
              cone.tolerance_m2);
}

/// Directions over the dome, as many as its cosine asks for: Fibonacci's spiral on the unit disc,
/// lifted to the dome (Nusselt's analogue). Source: closed form.
std::vector<SunSample> cosine_dome(int n) {
  const double golden_angle = std::numbers::pi * (3 - std::sqrt(5.0));
  std::vector<SunSample> dome;
  for (int i = 0; i < n; ++i) {
    const double r2 = (i + 0.5) / n, turn = golden_angle * i;
    dome.push_back(sample(
        {std::sqrt(r2) * std::cos(turn), std::sqrt(r2) * std::sin(turn), std::sqrt(1 - r2)}));
  }
  return dome;
}

double sky_view(const std::vector<Body>& bodies) {
  static const std::vector<SunSample> kDome = cosine_dome(40000);
  const LitCounts counts = cast(Scene(bodies), spot_receiver({0, 0, 0}), kDome, every_sample());
  return counts.of_month(0, 0) / static_cast<double>(kDome.size());
}

Body wall_to_the_south(double half_length, double distance, double height) {
  return opaque("wall",
                box({-half_length, -distance - kThin_m}, 2 * half_length, kThin_m, 0, height));
}

TEST(SkyView, BeforeWallsAndInCanyonsIsTheClosedForm) {
  for (const Case& c : cases("SVF_infinite_wall_h=2", 5))
    EXPECT_NEAR(sky_view({wall_to_the_south(kLong_m, c.of.at("d"), 2)}), c.value, 0.001) << c.line;
  for (const Case& c : cases("SVF_finite_wall_h=2_d=1_centred", 5))
    EXPECT_NEAR(sky_view({wall_to_the_south(c.of.at("len") / 2, 1, 2)}), c.value, 0.001) << c.line;
  for (const Case& c : cases("SVF_canyon_centre", 4)) {
    const Body north =
        opaque("north", box({-kLong_m, 1}, 2 * kLong_m, kThin_m, 0, 2 * c.of.at("H/W")));
    const Body south = wall_to_the_south(kLong_m, 1, 2 * c.of.at("H/W"));
    EXPECT_NEAR(sky_view({north, south}), c.value, 0.001) << c.line;
  }
}

TEST(SkyView, InACircularClearingIsTheClosedForm) {
  constexpr int kBoards = 180;  // their inner faces touch a circle of 1 m
  const double half = std::tan(std::numbers::pi / kBoards);
  for (const Case& c : cases("SVF_circular_clearing_centre", 4)) {
    std::vector<Body> ring;
    for (int i = 0; i < kBoards; ++i) {
      const double turn = 2 * std::numbers::pi * i / kBoards;
      const Vec2 corner = geometry::turned({1, -half}, turn);
      ring.push_back(opaque("ring", box(corner, kThin_m, 2 * half, 0, c.of.at("h/R"), turn)));
    }
    EXPECT_NEAR(sky_view(ring), c.value, 0.001) << c.line;
  }
}

// The rule of the sun hour: transmissions that multiply to at least a half.
TEST(LitRule, TakesATransmissionOfExactlyAHalfAndNoLess) {
  const auto lit_behind = [](const std::vector<float>& depths, Through through) {
    std::vector<Body> bodies;
    for (std::size_t i = 0; i < depths.size(); ++i) {
      const auto south = -2 - 2 * static_cast<double>(i);  // each 1 m deep
      bodies.push_back({"screen", box({-50, south}, 100, 1, -100, 100), through, {depths[i]}});
    }
    return cast(Scene(bodies), spot_receiver({0, 0, 0}), {{sample({0, -1, 1e-6})}}).of_month(0, 0);
  };
  const auto half = static_cast<float>(std::numbers::ln2);
  for (const Through through : {Through::kPerCrossing, Through::kPerMetre}) {
    EXPECT_EQ(lit_behind({half}, through), 1U);
    EXPECT_EQ(lit_behind({half / 2, half / 2}, through), 1U);
    EXPECT_EQ(lit_behind({0.694F}, through), 0U);
    EXPECT_EQ(lit_behind({half / 2, half / 2, 0.001F}, through), 0U);
  }
}

Body roof(float depth = 1) {
  return {"roof", box({-5, -5}, 10, 10, 2, 3), Through::kOpaque, {depth}};
}
const Vec3 kZenith{0, 0, 1};

TEST(LitRule, AsksForABeamOverTheThreshold) {  // [wmo8]: over 120 W/m², not at it
  SunSample sun = sample(kZenith);
  const auto lit = [&](float beam, double least) {
    sun.beam_w_m2 = beam;
    CastOptions options;
    options.least_beam_w_m2 = least;
    return cast(Scene(), spot_receiver({0, 0, 0}), {{sun}}, options).of_month(0, 0);
  };
  EXPECT_EQ(lit(120, 120), 0U);
  EXPECT_EQ(lit(120.01F, 120), 1U);
  EXPECT_EQ(lit(0, 0), 1U);
}

// From here on: input at the edge of sense. What is right follows from the definitions.
TEST(OddInput, BodiesWithoutVolumeTakeNoLight) {
  const std::vector<Body> flat{opaque("a", box({-5, -5}, 0, 10, 0, 3)),
                               opaque("b", box({-5, -5}, 10, 10, 2, 2)),
                               opaque("c", box({-5, -5}, 0, 0, 0, 3)),
                               opaque("d", RoundSolid{RoundShape::kEllipsoid, {0, 0}, 1, 3, 0}),
                               opaque("e", RoundSolid{RoundShape::kCone, {0, 0}, 2, 2, 3}),
                               opaque("f", Solid{})};
  EXPECT_EQ(cast(Scene(flat), spot_receiver({0, 0, 0}), {{sample(kZenith)}}).of_month(0, 0), 1U);
}

TEST(OddInput, BodiesBelowThePlaneTakeNoLight) {
  const Receiver high = level_receiver({-2, -2}, 0.3, 3, 0.25, 16, 16);
  std::vector<SunSample> suns;
  for (int bearing = 0; bearing < 360; bearing += 15) suns.push_back(sample(toward(5, bearing)));
  const std::vector<Body> below{
      roof(),
      {"tree", RoundSolid{RoundShape::kDome, {0, 0}, 0, 3, 2}, Through::kPerMetre, {9}},
      opaque("ball", ball(1.4, 0.2))};  // roof and tree reach the plane to a hair
  const LitCounts counts = cast(Scene(below), high, suns);
  for (std::size_t cell = 0; cell < 256; ++cell) ASSERT_EQ(counts.of_month(0, cell), suns.size());
}

TEST(OddInput, ASunAtTheHorizonIsCastOrPassedOverButNeverWild) {
  const Scene wall({opaque("wall", box({5, -1000}, 0.2, 2000, 0, 2))});
  const Receiver bed = level_receiver({-2, -2}, 0, 0, 0.25, 16, 16);
  for (const double rise : {1e-3, 1e-6, 1e-8}) {  // a metre of shadow for each of its 1/rise
    const LitCounts east = cast(wall, bed, {{sample({1, 0, rise})}});
    const LitCounts west = cast(wall, bed, {{sample({-1, 0, rise})}});
    for (std::size_t cell = 0; cell < 256; ++cell) {
      ASSERT_EQ(east.of_month(0, cell), 0U) << rise;
      ASSERT_EQ(west.of_month(0, cell), 1U) << rise;
    }
  }
  for (const double rise : {1e-10, 0.0, -0.0, -1e-3, -1.0})
    EXPECT_TRUE(cast(wall, bed, {{sample({1, 0, rise})}}).plane(0, 1).empty()) << rise;
}

TEST(OddInput, ADirectionThatIsNoneIsPassedOver) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double infinity = std::numeric_limits<double>::infinity();
  const std::vector<SunSample> suns{sample({0, 0, 0}), sample({nan, 0, 1}), sample({0, 0, nan}),
                                    sample({infinity, 0, 1}), sample(kZenith)};
  const LitCounts counts = cast(Scene(), spot_receiver({0, 0, 0}), suns);
  EXPECT_EQ(counts.of_month(0, 0), 1U);
  EXPECT_TRUE(counts.complete());
}

TEST(OddInput, WithoutSamplesOrCellsNothingIsCounted) {
  const LitCounts none = cast(Scene({roof()}), spot_receiver({0, 0, 0}), {});
  EXPECT_EQ(none.of_month(0, 0), 0U);
  EXPECT_TRUE(none.complete());
  const LitCounts empty =
      cast(Scene({roof()}), level_receiver({0, 0}, 0, 0, 0.1, 0, 5), {{sample(kZenith)}});
  EXPECT_EQ(empty.columns(), 0);
  EXPECT_TRUE(empty.plane(0, 1).empty());
}

TEST(OddInput, AnOpaqueBodyOfDepthNoneOnADayIsNotThere) {
  Body cover = roof();
  cover.depth.assign(366, 1);
  for (std::size_t day = 100; day < 200; ++day) cover.depth[day - 1] = 0;
  const Scene scene({cover});
  const std::vector<SunSample> suns{sample(kZenith, 99, 0), sample(kZenith, 100, 1),
                                    sample(kZenith, 199, 2), sample(kZenith, 200, 3),
                                    sample(kZenith, 366, 4)};
  const LitCounts counts = cast(scene, spot_receiver({0, 0, 0}), suns);
  const std::vector<std::uint32_t> expected{0, 1, 1, 0, 0};
  for (int month = 0; month < 5; ++month)
    EXPECT_EQ(counts.of_month(month, 0), expected[static_cast<std::size_t>(month)]) << month;
  EXPECT_EQ(cast(Scene({roof(0)}), spot_receiver({0, 0, 0}), suns).of_month(0, 0), 1U);
}

TEST(OddInput, ACancelledCastSaysThatItIsNotComplete) {
  Progress progress;
  CastOptions options;
  options.progress = &progress;
  const std::vector<SunSample> suns{sample(kZenith), sample(toward(40, 200))};
  progress.start(2);
  EXPECT_TRUE(cast(Scene({roof()}), spot_receiver({0, 0, 0}), suns, options).complete());
  EXPECT_DOUBLE_EQ(progress.share(), 1);
  progress.start(2);
  progress.cancel();
  EXPECT_FALSE(cast(Scene({roof()}), spot_receiver({0, 0, 0}), suns, options).complete());
  EXPECT_DOUBLE_EQ(progress.share(), 0);
}

TEST(OddInput, CountsOfMonthsOnAGridWiderThanAWordAreKept) {
  // A roof over all but the last column of widths about the ends of the caster's words of 64 bits.
  for (const int columns : {1, 63, 64, 65, 128, 129, 255, 256, 257}) {
    const Body cover = opaque("roof", box({-1, -1}, columns, 12, 1, 2));
    const Receiver bed = level_receiver({0, 0}, 0, 0, 1, columns, 10);
    const LitCounts counts = cast(Scene({cover}), bed, {{sample(kZenith, 1, 7, 2)}});
    for (std::size_t cell = 0; cell < static_cast<std::size_t>(bed.cells()); ++cell) {
      const bool last = static_cast<int>(cell) % columns == columns - 1;
      ASSERT_EQ(counts.at(7, 2, cell), last ? 1U : 0U) << columns << " columns, cell " << cell;
    }
  }
}

}  // namespace
}  // namespace spadework::light
