#include "sky/clear_sky.h"

#include <gtest/gtest.h>

#include <cmath>

#include "sky/atmosphere.h"
#include "tests/golden/sky/read_csv.h"

namespace spadework::sky {
namespace {

using golden::Row;
using golden::sky_table;

// golden/sky/standard_pressure.
TEST(StandardPressureGolden, FallsWithHeight) {
  for (const Row& row : sky_table("standard_pressure/data.csv")) {
    EXPECT_NEAR(in_pascals(standard_pressure(metres(row.number("altitude_m")))),
                row.number("pressure_pa"), 0.001);
  }
}

// golden/sky/air_mass: Kasten and Young 1989.
TEST(AirMassGolden, KastenAndYoung) {
  for (const Row& row : sky_table("air_mass/data.csv")) {
    EXPECT_NEAR(relative_air_mass(degrees(90 - row.number("zenith_deg"))),
                row.number("relative_air_mass"), 0.0005);
  }
}

TEST(AirMass, ThinsWithPressureAndStopsGrowingAtTheHorizon) {
  EXPECT_NEAR(absolute_air_mass(degrees(30), pascals(101325 / 2.0)),
              relative_air_mass(degrees(30)) / 2, 1e-12);
  EXPECT_EQ(relative_air_mass(degrees(-3)), relative_air_mass(degrees(0)));
  EXPECT_NEAR(relative_air_mass(degrees(0)), 37.92, 0.01);
}

// golden/sky/ineichen_perez.
TEST(ClearSkyGolden, IneichenAndPerez) {
  for (const Row& row : sky_table("ineichen_perez/data.csv")) {
    const ClearSky sky =
        ineichen_perez(degrees(90 - row.number("zenith_deg")), row.number("absolute_air_mass"),
                       row.number("linke_turbidity"), metres(row.number("altitude_m")),
                       watts_per_m2(row.number("extraterrestrial_w_m2")));
    const double ghi = row.number("ghi_w_m2"), dni = row.number("dni_w_m2");
    const double dhi = row.number("dhi_w_m2");
    EXPECT_NEAR(in_watts_per_m2(sky.global_horizontal), ghi, 1e-7 * ghi);
    EXPECT_NEAR(in_watts_per_m2(sky.direct_normal), dni, 1e-7 * dni);
    EXPECT_NEAR(in_watts_per_m2(sky.diffuse_horizontal), dhi, 1e-7 * dhi);
  }
}

// golden/sky/clearsky_grid: by zenith and turbidity.
TEST(ClearSkyGolden, GridOfZenithAndTurbidity) {
  for (const Row& row : sky_table("clearsky_grid/data.csv")) {
    const Angle elevation = degrees(90 - row.number("zenith"));
    const double air_mass = relative_air_mass(elevation);
    EXPECT_NEAR(air_mass, row.number("airmass_KY89"), 0.00001);
    const ClearSky sky =
        ineichen_perez(elevation, air_mass, row.number("linke"), metres(50), watts_per_m2(1367));
    EXPECT_NEAR(in_watts_per_m2(sky.global_horizontal), row.number("ineichen_ghi"), 0.001);
    EXPECT_NEAR(in_watts_per_m2(sky.direct_normal), row.number("ineichen_dni"), 0.001);
    EXPECT_NEAR(in_watts_per_m2(sky.diffuse_horizontal), row.number("ineichen_dhi"), 0.001);
  }
}

// golden/sky/clearsky_grid: Bird and Hulstrom's beam, another model of a clean temperate sky.
TEST(ClearSkyGolden, FixedTurbidityIsNearAnotherModelsBeam) {
  int compared = 0;
  for (const Row& row : sky_table("clearsky_grid/data.csv")) {
    if (row.number("linke") != kLinkeTurbidity || row.number("zenith") > 80) continue;
    const Angle elevation = degrees(90 - row.number("zenith"));
    const ClearSky sky = ineichen_perez(elevation, relative_air_mass(elevation), kLinkeTurbidity,
                                        metres(0), kSolarConstant);
    EXPECT_NEAR(in_watts_per_m2(sky.direct_normal) / row.number("bird_dni"), 1, 0.13);
    ++compared;
  }
  EXPECT_EQ(compared, 10);
}

// golden/sky/eot_declination: the distance of an independent program.
TEST(ExtraterrestrialGolden, SpencersSeriesFollowsTheDistance) {
  for (const Row& row : sky_table("eot_declination/data.csv")) {
    const Irradiance exact = extraterrestrial_irradiance(row.number("spa_R_AU"));
    const int day = static_cast<int>(row.number("doy"));
    EXPECT_NEAR(extraterrestrial_irradiance_of_day(day) / exact, 1, 0.0015) << row.text("date");
  }
}

SunPosition sun_at(double elevation_deg) {
  SunPosition sun;
  sun.apparent_elevation = degrees(elevation_deg);
  return sun;
}

TEST(ClearSky, BalancesBeamAndSkyOnTheLevel) {
  const Site site{degrees(45), degrees(0), metres(600)};
  for (double elevation : {0.5, 3.0, 12.0, 45.0, 90.0}) {
    const ClearSky sky = clear_sky(sun_at(elevation), site);
    const double level =
        in_watts_per_m2(sky.direct_normal) * std::sin(in_radians(degrees(elevation)));
    EXPECT_NEAR(in_watts_per_m2(sky.global_horizontal),
                level + in_watts_per_m2(sky.diffuse_horizontal), 1e-9);
    EXPECT_GT(sky.diffuse_horizontal, Irradiance{});
    EXPECT_GT(sky.direct_normal, Irradiance{});
  }
}

TEST(ClearSky, IsDarkWithTheSunDown) {
  const Site site{degrees(45), degrees(0), metres(600)};
  for (double elevation : {0.0, -0.1, -45.0}) {
    const ClearSky sky = clear_sky(sun_at(elevation), site);
    EXPECT_EQ(sky.direct_normal, Irradiance{});
    EXPECT_EQ(sky.global_horizontal, Irradiance{});
    EXPECT_EQ(sky.diffuse_horizontal, Irradiance{});
  }
}

TEST(ClearSky, BeamGrowsWithTheSunsHeightAndTheSites) {
  double before = 0;
  for (double elevation = 0.25; elevation <= 90; elevation += 0.25) {
    const Site low{degrees(45), degrees(0), metres(0)}, high{degrees(45), degrees(0), metres(2000)};
    const double beam = in_watts_per_m2(clear_sky(sun_at(elevation), low).direct_normal);
    EXPECT_GT(beam, before) << elevation;
    EXPECT_GT(in_watts_per_m2(clear_sky(sun_at(elevation), high).direct_normal), beam) << elevation;
    before = beam;
  }
}

TEST(SunshineThreshold, IsPassedWithTheSunAboutFourDegreesUpAtTheSea) {
  EXPECT_EQ(in_watts_per_m2(kSunshineThreshold), 120);
  const Site sea{degrees(45), degrees(0), metres(0)};
  EXPECT_LT(clear_sky(sun_at(3.85), sea).direct_normal, kSunshineThreshold);
  EXPECT_GT(clear_sky(sun_at(4.00), sea).direct_normal, kSunshineThreshold);
}

}  // namespace
}  // namespace spadework::sky
