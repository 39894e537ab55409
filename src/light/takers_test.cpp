// Takers against casting the year again without each thing: their definition.
#include "light/takers.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>

#include "light/light_testing.h"
#include "light/ray.h"
#include "light/year.h"

namespace spadework::light {
namespace {

using namespace testing;  // NOLINT: suns and bodies

garden::Garden site() {
  garden::Garden garden;
  garden.site.latitude = degrees(48.41);
  garden.site.longitude = degrees(-4.36);
  return garden;
}

/// An invented year of light, dull in winter.
Cloud cloud() {
  Cloud cloud;
  for (std::size_t m = 0; m < 12; ++m) {
    cloud.radiation[m].global_mj_m2_d = 11 - 8.5 * std::cos(rad(30.0 * static_cast<double>(m)));
    cloud.sunshine_h_per_day[m] = 4 - 2.5 * std::cos(rad(30.0 * static_cast<double>(m)));
  }
  return cloud;
}

Place bed(double z = 0.2) {
  Place place;
  place.id = "bed";
  place.receivers = {level_receiver({-0.6, -1.5}, 0.2, z, 0.2, 6, 15)};
  place.receivers[0].counted.assign(90, 1);
  for (std::size_t i = 0; i < 90; i += 11) place.receivers[0].counted[i] = 0;
  return place;
}

std::vector<Body> things(Random& random) {
  std::vector<Body> bodies;
  for (int i = 0; i < 5; ++i) {
    const Vec2 at{random.between(-4, 4), random.between(-5, -0.5)};
    bodies.push_back(
        opaque("box" + std::to_string(i), box(at, random.between(0.3, 4), random.between(0.2, 1), 0,
                                              random.between(0.5, 2.5), random.between(0, 3))));
  }
  for (int i = 0; i < 4; ++i) {
    Body tree{"tree" + std::to_string(i % 3),  // two crowns are one thing's
              RoundSolid{static_cast<RoundShape>(i),
                         {random.between(-4, 4), random.between(-5, 2)},
                         random.between(0, 1),
                         random.between(2, 5),
                         random.between(0.5, 2)},
              i == 2 ? Through::kPerCrossing : Through::kPerMetre,
              {}};
    tree.depth.assign(366, static_cast<float>(random.between(0.05, 0.2)));
    for (std::size_t day = 115; day < 310; ++day) tree.depth[day] *= 5;
    bodies.push_back(tree);
  }
  bodies.push_back(opaque("tree0", box({1, -2}, 0.3, 0.3, 0, 2)));  // a stem: opaque and veiled
  return bodies;
}

struct Year {
  double hours = 0, light = 0;
};
Year year_of(const std::vector<Body>& bodies, const SunYear& sun) {
  const auto places = sun_of_places(site(), {bed()}, bodies, sun, 1, nullptr);
  Year year;
  for (std::size_t m = 0; m < 12; ++m) {
    year.hours += (*places)[0].months[m].sun_h_per_day * sun.days_in_month[m];
    year.light += (*places)[0].months[m].dli_mol_m2_d * sun.days_in_month[m];
  }
  return year;
}

TEST(Takers, TakeWhatThePlaceWouldWinBackWithoutThem) {
  Random random(20261101);
  const SunYear sun = sun_year(site(), cloud());
  for (int garden = 0; garden < 4; ++garden) {
    const std::vector<Body> bodies = things(random);
    const Takers takers = takers_of(site(), bed(), Scene(bodies), sun);
    const Year with = year_of(bodies, sun), open = year_of({}, sun);
    EXPECT_NEAR(takers.lost_h, open.hours - with.hours, 1e-6);
    EXPECT_NEAR(takers.lost_mol_m2, open.light - with.light, 1e-4 * open.light);
    std::map<std::string, Taker> by_id;
    for (const Taker& taker : takers.takers) by_id[taker.id] = taker;
    for (const Body& body : bodies) {
      std::vector<Body> others;
      for (const Body& other : bodies)
        if (other.thing != body.thing) others.push_back(other);
      const Year without = year_of(others, sun);
      const Taker& taker = by_id[body.thing];
      EXPECT_NEAR(taker.sun_h_per_year, without.hours - with.hours, 0.02) << body.thing;
      EXPECT_NEAR(taker.light_mol_m2_per_year, without.light - with.light, 2e-5 * open.light)
          << body.thing;
      EXPECT_LE(taker.sun_h_per_year, takers.lost_h + 1e-9);
      EXPECT_LE(taker.light_mol_m2_per_year, takers.lost_mol_m2 + 1e-9);
    }
  }
}

TEST(Takers, OfTwoWallsInLineTakeTheirHoursTwice) {
  const Body near = opaque("near", box({-50, -2}, 100, 0.2, 0, 2));
  const Body far = opaque("far", box({-50, -4}, 100, 0.2, 0, 4));  // seen no lower than the near
  const SunYear sun = sun_year(site(), cloud());
  const Takers both = takers_of(site(), bed(), Scene({near, far}), sun);
  EXPECT_GT(both.taken_twice_h, 100);
  double gains = 0;
  for (const Taker& taker : both.takers) gains += taker.sun_h_per_year;
  EXPECT_NEAR(gains + both.taken_twice_h, both.lost_h, 1e-6);  // no veils: each hour has one owner
}

TEST(Takers, TwoVeilsThatTakeTheSunTogetherBothGiveItBack) {
  const Body one{"one", box({-50, -3}, 100, 1, 0, 100), Through::kPerCrossing, {0.5F}};
  const Body two{"two", box({-50, -6}, 100, 1, 0, 100), Through::kPerCrossing, {0.5F}};
  const SunYear sun = sun_year(site(), cloud());
  const Takers takers = takers_of(site(), bed(), Scene({one, two}), sun);
  ASSERT_EQ(takers.takers.size(), 2U);
  EXPECT_NEAR(takers.takers[0].sun_h_per_year, takers.lost_h, 1e-6);
  EXPECT_NEAR(takers.takers[1].sun_h_per_year, takers.lost_h, 1e-6);
  EXPECT_EQ(takers.taken_twice_h, 0);
}

TEST(Takers, TheSkylineIsOne) {
  garden::Garden hilly = site();
  hilly.ground.horizon = {{degrees(0), degrees(12)}};
  const SunYear sun = sun_year(hilly, cloud());
  const Takers takers = takers_of(hilly, bed(), Scene(), sun);
  ASSERT_EQ(takers.takers.size(), 1U);
  EXPECT_EQ(takers.takers[0].id, kSkylineId);
  const SunYear flat = sun_year(site(), cloud());
  double open_h = 0;
  for (std::size_t m = 0; m < 12; ++m) open_h += flat.open_sun_h[m] * flat.days_in_month[m];
  double open_mol = 0, sky_mol = 0;
  for (std::size_t m = 0; m < 12; ++m) {
    open_mol += flat.open_mol_m2_d[m] * flat.days_in_month[m];
    sky_mol += flat.sky_mol_m2_d[m] * flat.days_in_month[m];
  }
  // Of a uniform sky sin² 12° lies behind the hills, of an overcast one less.
  const double low = std::sin(rad(12)) * std::sin(rad(12));
  EXPECT_GT(takers.takers[0].light_mol_m2_per_year, 0.5 * low * sky_mol);
  EXPECT_LT(takers.takers[0].light_mol_m2_per_year, low * open_mol);
  const auto over = cast(Scene(), spot_receiver({0, 0, 0}), sun.samples);
  double seen_h = 0;
  for (int m = 0; m < 12; ++m) seen_h += over.of_month(m, 0);
  EXPECT_NEAR(takers.takers[0].sun_h_per_year, open_h - seen_h, 1e-6);
}

TEST(Takers, DoNotDependOnTheBuildOfTheLoops) {
  Random random(7);
  const Scene scene(things(random));
  const SunYear sun = sun_year(site(), cloud());
  const Takers a = takers_of(site(), bed(), scene, sun, Backend::kScalar);
  const Takers b = takers_of(site(), bed(), scene, sun, Backend::kAvx2);
  ASSERT_EQ(a.takers.size(), b.takers.size());
  for (std::size_t i = 0; i < a.takers.size(); ++i) {
    EXPECT_EQ(a.takers[i].sun_h_per_year, b.takers[i].sun_h_per_year);
    EXPECT_EQ(a.takers[i].light_mol_m2_per_year, b.takers[i].light_mol_m2_per_year);
  }
}

}  // namespace
}  // namespace spadework::light
