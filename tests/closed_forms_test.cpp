// The closed forms of tests/golden/light/analytic.csv that no test beside the source takes up, and
// the account of all its rows.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <numbers>
#include <sstream>
#include <string>
#include <vector>

#include "light/light.h"
#include "light/light_testing.h"
#include "tests/golden/light/read_analytic.h"

namespace spadework::testing {
namespace {

using namespace light::testing;  // NOLINT: suns and bodies
using golden::Case;
using golden::cases;

// Mean over the shadow of a sphere, cells a fiftieth of its radius: 1 less what is taken in all,
// over the ellipse that its shadow is.
TEST(LightUnderASphere, IsTheClosedFormWithinAHalfPercent) {
  constexpr double kRadius = 1.5, kCell_m = kRadius / 50;
  for (const Case& c : cases("beer_lambert_sphere_mean_T", 7)) {
    const double x = c.of.at("x"), elevation = 50;
    const Body crown{"tree",
                     RoundSolid{geometry::RoundShape::kEllipsoid, {0, 0}, 0.5, 3.5, kRadius},
                     garden::Through::kPerMetre,
                     {static_cast<float>(x / (2 * kRadius))}};
    light::SunSample sun = sample(toward(elevation, 215));
    sun.light = 1;
    const light::Receiver ground = light::level_receiver({-1, -1}, 0, 0, kCell_m, 200, 200);
    const light::BeamLight light = light::cast_light(light::Scene({crown}), ground, {{sun}});
    double taken = 0;
    for (const float beam : light.beam_mol_m2[0])
      taken += 1 - static_cast<double>(beam) / sun.toward_sun.z;
    const double shadow = std::numbers::pi * kRadius * kRadius / sun.toward_sun.z;
    EXPECT_NEAR(1 - taken * kCell_m * kCell_m / shadow, c.value, 0.005 * c.value) << c.line;
  }
}

// The caster takes the sun for a point. Cast from all over its disc, the shadow of an edge 5 m away
// fades over the closed form's width, 2 · 5 m · tan 0.2665°: that much is left out.
TEST(EdgeOfAShadow, UnderTheSunsWholeDiscFadesOverTheClosedFormsWidth) {
  for (const Case& c : cases("penumbra_m", 1)) {
    constexpr double kDisc_deg = 0.2665, kCell_m = 0.0001;
    constexpr int kColumns = 600, kSuns = 800;
    std::vector<light::SunSample> suns;
    for (int i = 0; i < kSuns; ++i) {  // across the disc
      const double off = kDisc_deg * (2.0 * i / (kSuns - 1) - 1);
      suns.push_back(sample({std::sin(rad(off)), 0, std::cos(rad(off))}));
    }
    const Body roof = opaque("roof", box({-20, -1}, 20, 2, 5, 5.0005));
    const light::LitCounts lit = light::cast(
        light::Scene({roof}),
        light::level_receiver({-kColumns / 2 * kCell_m, 0}, 0, 0, kCell_m, kColumns, 1), suns);
    int fading = 0;
    for (std::size_t cell = 0; cell < kColumns; ++cell) {
      const unsigned n = lit.of_month(0, cell);
      fading += n > 0 && n < kSuns;
    }
    EXPECT_GT(lit.of_month(0, kColumns - 1), lit.of_month(0, 0));
    EXPECT_NEAR(fading * kCell_m, c.value, 3 * kCell_m) << c.line;
  }
}

/// A kind of row, how many there are, and a test that takes them all.
struct Kind {
  const char* name;
  std::size_t rows;
  const char* test;
};
constexpr Kind kKinds[] = {
    {"EWwall_sun_hours", 100, "src/light/caster_test.cpp"},
    {"NSwall_west_sun_hours", 100, "src/light/caster_test.cpp"},
    {"noon_shadow_h=1", 9, "src/light/caster_test.cpp"},
    {"equinox_EW_shadow_width_h=2", 4, "src/light/caster_test.cpp"},
    {"box_shadow_area_", 12, "src/light/caster_test.cpp"},
    {"sphere_shadow_area_R=1", 4, "src/light/caster_test.cpp"},
    {"beer_lambert_sphere_mean_T", 7, "tests/closed_forms_test.cpp"},
    {"SVF_infinite_wall_h=2", 5, "src/light/sky_light_test.cpp"},
    {"SVF_finite_wall_h=2_d=1_centred", 5, "src/light/sky_light_test.cpp"},
    {"SVF_canyon_centre", 4, "src/light/sky_light_test.cpp"},
    {"SVF_circular_clearing_centre", 4, "src/light/sky_light_test.cpp"},
    {"CIE_overcast_Eh_over_Lz", 1, "src/light/sky_light_test.cpp"},
    {"CIE_overcast_circular_horizon_fraction", 4, "src/light/sky_light_test.cpp"},
    {"penumbra_m", 1, "tests/closed_forms_test.cpp"},
};

std::string text_of(const std::string& file) {
  std::ifstream in(std::string(SPADEWORK_SOURCE_DIR) + "/" + file);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

TEST(ClosedForms, AreAllTakenUpByATest) {
  std::size_t all = 0;
  for (const Kind& kind : kKinds) {
    all += cases(kind.name, kind.rows).size();
    const std::string taken =
        "cases(\"" + std::string(kind.name) + "\", " + std::to_string(kind.rows) + ")";
    EXPECT_NE(text_of(kind.test).find(taken), std::string::npos) << kind.test << ": " << taken;
  }
  EXPECT_EQ(all, 260U);
  const std::string table = text_of("tests/golden/light/analytic.csv");
  const auto lines = static_cast<std::size_t>(std::count(table.begin(), table.end(), '\n'));
  EXPECT_EQ(lines, all + 1);  // and the line of names
}

}  // namespace
}  // namespace spadework::testing
