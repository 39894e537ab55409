// What the light of any scene has to keep to: laws that follow from what light, shade and crowns
// are, on random scenes and, below, on whole gardens. Clouds are invented. [closed-form]
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "light/light.h"
#include "light/light_testing.h"
#include "tests/scenes.h"

namespace spadework::testing {
namespace {

using namespace light::testing;  // NOLINT: suns and bodies
using light::BeamLight;
using light::cast_light;
using light::cast_sky;
using light::CastOptions;
using light::Cloud;
using light::kMonths;
using light::kParts;
using light::Receiver;
using light::Scene;
using light::SkyDirection;
using light::SkyLight;
using light::SunSample;
using light::SunYear;

/// Sums of floats round by as much, of the open light; nothing more may come between two ways to
/// the same figure.
constexpr double kRounding = 4e-6;

garden::Garden site(double latitude_deg) {
  garden::Garden garden;
  garden.site.latitude = degrees(latitude_deg);
  garden.site.longitude = degrees(-4.36);
  return garden;
}

/// An invented year of light: brighter in summer, the more so the nearer to a pole.
Cloud cloud(double latitude_deg) {
  Cloud cloud;
  for (std::size_t m = 0; m < 12; ++m) {
    const double summer =
        (latitude_deg < 0 ? 1 : -1) * std::cos(rad(30.0 * static_cast<double>(m)));
    const double swing = 8.5 * std::abs(latitude_deg) / 48;
    cloud.radiation[m].global_mj_m2_d = std::max(0.0, 11 + swing * summer);
    cloud.sunshine_h_per_day[m] = 4 + 2.5 * summer;
  }
  return cloud;
}

/// Some of a year's suns: whole days, one in `step`.
std::vector<SunSample> some_suns(const SunYear& year, int step) {
  std::vector<SunSample> suns;
  for (const SunSample& sun : year.samples)
    if (sun.day_of_year % step == 0) suns.push_back(sun);
  return suns;
}

Body random_body(Random& random, int number) {
  const Vec2 at{random.between(-5, 5), random.between(-5, 5)};
  const std::string id = "thing" + std::to_string(number);
  const double foot = random.between(-0.5, 1.5), high = random.between(0.5, 4);
  Body body{id, {}, static_cast<Through>(random.below(3)), {}};
  if (random.below(2) == 0) {
    body.shape = box(at, random.between(0.3, 4), random.between(0.1, 1), foot, foot + high,
                     random.between(0, 7));
  } else {
    body.shape = RoundSolid{static_cast<RoundShape>(random.below(4)), at, foot, foot + high,
                            random.between(0.3, 2)};
  }
  if (body.through == Through::kOpaque) {
    body.depth = {1};
    return body;
  }
  body.depth.assign(366, static_cast<float>(random.between(0.05, 0.3)));
  for (std::size_t day = 115; day < 310; ++day) body.depth[day] *= 4;
  return body;
}

std::vector<Body> random_bodies(Random& random, int n) {
  std::vector<Body> bodies;
  for (int i = 0; i < n; ++i) bodies.push_back(random_body(random, i));
  return bodies;
}

/// A level bed, one among the crowns, a slope and a wall's face, of 3 m by 2.
std::vector<Receiver> receivers() {
  Receiver face = light::level_receiver({}, 0, 0, 0.25, 12, 8);
  face.origin = {0.1, 0.2, 0.05};
  face.u_axis = {0.8, 0.6, 0}, face.v_axis = {0, 0, 1}, face.w_axis = {0.6, -0.8, 0};
  return {light::level_receiver({-1.5, -1}, 0.4, 0, 0.25, 12, 8),
          light::level_receiver({-1, -1}, 0, 1.1, 0.25, 12, 8),
          light::ground_receiver({-1.5, -1}, 0.02, {0.1, -0.2}, 0.25, 12, 8), face};
}

SkyLight sky_of(const Scene& scene, const Receiver& receiver, const CastOptions& options = {}) {
  return cast_sky(scene, receiver, light::sky_over(receiver, {}, degrees(0), 241), options);
}

/// Every share of the sky of every month and cell, both skies one after the other.
std::vector<double> shares_of(const SkyLight& sky) {
  std::vector<double> shares;
  for (const int state : sky.state_of_month) {
    for (const auto* planes : {&sky.uniform, &sky.overcast})
      for (const float share : (*planes)[static_cast<std::size_t>(state)])
        shares.push_back(static_cast<double>(share));
  }
  return shares;
}

/// Every amount of the beam of every month that has samples, cell by cell.
std::vector<double> amounts_of(const BeamLight& light) {
  std::vector<double> amounts;
  for (const auto& month : light.beam_mol_m2)
    for (const float amount : month) amounts.push_back(static_cast<double>(amount));
  return amounts;
}

std::vector<std::uint32_t> counts_of(const BeamLight& light) {
  std::vector<std::uint32_t> counts;
  for (int plane = 0; plane < kMonths * kParts; ++plane) {
    const auto& cells = light.lit.plane(plane / kParts, plane % kParts);
    counts.insert(counts.end(), cells.begin(), cells.end());
  }
  return counts;
}

/// The light of a scene on a receiver.
struct Lit {
  std::vector<std::uint32_t> counts;
  std::vector<double> beam, sky;
  Lit(const Scene& scene, const Receiver& receiver, const std::vector<SunSample>& suns,
      const CastOptions& options = {}) {
    const BeamLight light = cast_light(scene, receiver, suns, options);
    counts = counts_of(light), beam = amounts_of(light);
    sky = shares_of(sky_of(scene, receiver, options));
  }
  friend bool operator==(const Lit&, const Lit&) = default;
};

/// How many figures of `less` are over those of `more` by more than rounding; all are of the same
/// cells.
template <class T>
long over(const std::vector<T>& less, const std::vector<T>& more, double room) {
  EXPECT_EQ(less.size(), more.size());
  long n = 0;
  for (std::size_t i = 0; i < less.size(); ++i)
    n += static_cast<double>(less[i]) > static_cast<double>(more[i]) + room;
  return n;
}
double largest(const std::vector<double>& values) {
  return *std::max_element(values.begin(), values.end());
}

void expect_no_brighter(const Lit& dark, const Lit& bright) {
  EXPECT_EQ(over(dark.counts, bright.counts, 0), 0);
  EXPECT_EQ(over(dark.beam, bright.beam, kRounding * largest(bright.beam)), 0);
  EXPECT_EQ(over(dark.sky, bright.sky, kRounding), 0);
}

// --- cell by cell ---

TEST(Amounts, AreNeverNegativeNorOverThoseOfTheOpenPlane) {
  Random random(1);
  for (const double latitude : {-43.0, 0.0, 48.41, 66.0}) {
    const auto suns = some_suns(sun_year(site(latitude), cloud(latitude)), 9);
    for (int garden = 0; garden < 6; ++garden) {
      const Scene scene(random_bodies(random, 14));
      for (const Receiver& receiver : receivers()) {
        const Lit lit(scene, receiver, suns), open(Scene(), receiver, suns);
        expect_no_brighter(lit, open);
        EXPECT_GE(*std::min_element(lit.beam.begin(), lit.beam.end()), 0);
        EXPECT_GE(*std::min_element(lit.sky.begin(), lit.sky.end()), 0);
        EXPECT_LE(largest(open.sky), 1 + kRounding);
      }
    }
  }
}

TEST(AddingAThing, NeverAddsLight) {
  Random random(2);
  const auto suns = some_suns(sun_year(site(48.41), cloud(48.41)), 9);
  for (int garden = 0; garden < 12; ++garden) {
    std::vector<Body> bodies = random_bodies(random, 8);
    const Scene before(bodies);
    bodies.insert(bodies.begin() + random.below(9), random_body(random, 8));
    const Scene after(bodies);
    long darker = 0;
    for (const Receiver& receiver : receivers()) {
      const Lit dark(after, receiver, suns), bright(before, receiver, suns);
      expect_no_brighter(dark, bright);
      darker += over(bright.sky, dark.sky, kRounding);
    }
    EXPECT_GT(darker, 0) << garden;  // it stands within sight
  }
}

TEST(ThinningACrown, NeverDarkens) {
  Random random(3);
  const auto suns = some_suns(sun_year(site(48.41), cloud(48.41)), 9);
  for (int garden = 0; garden < 12; ++garden) {
    const std::vector<Body> bodies = random_bodies(random, 12);
    std::vector<Body> thinner = bodies;
    for (Body& body : thinner) {
      if (body.through == Through::kOpaque) continue;
      const auto share = static_cast<float>(random.between(0, 0.98));
      for (float& depth : body.depth) depth *= share;
    }
    for (const Receiver& receiver : receivers())
      expect_no_brighter({Scene(bodies), receiver, suns}, {Scene(thinner), receiver, suns});
  }
}

TEST(OrderOfThings, ChangesNoBitOfTheAmounts) {
  Random random(4);
  const auto suns = some_suns(sun_year(site(48.41), cloud(48.41)), 15);
  std::vector<Body> bodies = random_bodies(random, 20);
  std::vector<Lit> first;
  for (const Receiver& receiver : receivers()) first.emplace_back(Scene(bodies), receiver, suns);
  for (int shuffle = 0; shuffle < 5; ++shuffle) {
    for (std::size_t i = bodies.size(); i > 1; --i)
      std::swap(bodies[i - 1], bodies[static_cast<std::size_t>(random.below(static_cast<int>(i)))]);
    for (std::size_t r = 0; r < first.size(); ++r)
      EXPECT_TRUE(Lit(Scene(bodies), receivers()[r], suns) == first[r]) << r;
  }
}

TEST(BuildsOfTheLoops, GiveTheSameBitsOfTheAmounts) {
  Random random(5);
  const auto suns = some_suns(sun_year(site(48.41), cloud(48.41)), 15);
  for (int garden = 0; garden < 12; ++garden) {
    const Scene scene(random_bodies(random, 16));
    for (const Receiver& receiver : receivers()) {
      CastOptions scalar, avx2;
      scalar.backend = light::Backend::kScalar, avx2.backend = light::Backend::kAvx2;
      EXPECT_TRUE(Lit(scene, receiver, suns, scalar) == Lit(scene, receiver, suns, avx2)) << garden;
    }
  }
}

/// Receivers of more rows than one band, and of more columns than one tile.
std::vector<Receiver> wide_receivers() {
  return {light::level_receiver({-3, -3}, 0.1, 0.1, 0.05, 90, 210),
          light::level_receiver({-6, -1}, 0, 0.4, 0.04, 300, 40)};
}

TEST(NumberOfThreads, ChangesNoBitOfTheBeam) {
  Random random(6);
  const SunYear year = sun_year(site(48.41), cloud(48.41));
  const Scene scene(random_bodies(random, 12));
  std::vector<SunSample> june;
  for (const SunSample& sun : some_suns(year, 5))
    if (sun.month == 5) june.push_back(sun);
  for (const Receiver& receiver : wide_receivers()) {
    for (const auto& suns : {some_suns(year, 30), june}) {
      const BeamLight one = cast_light(scene, receiver, suns);
      for (const int threads : {2, 3, 8, 40}) {
        CastOptions options;
        options.threads = threads;
        const BeamLight many = cast_light(scene, receiver, suns, options);
        EXPECT_TRUE(many.lit == one.lit) << threads;
        EXPECT_TRUE(many.beam_mol_m2 == one.beam_mol_m2) << threads;
      }
    }
  }
}

TEST(NumberOfThreads, ChangesNoBitOfTheSky) {
  Random random(7);
  const Scene scene(random_bodies(random, 12));
  for (const Receiver& receiver : wide_receivers()) {
    const auto one = shares_of(sky_of(scene, receiver));
    for (const int threads : {2, 3, 8, 40}) {
      CastOptions options;
      options.threads = threads;
      EXPECT_TRUE(shares_of(sky_of(scene, receiver, options)) == one) << threads;
    }
  }
}

// An upright mirror through the middle of the receiver: things, suns and the directions of the sky.
TEST(MirroredScenes, KeepTheAmountsAndSwapMorningAndAfternoon) {
  Random random(8);
  const auto suns = some_suns(sun_year(site(48.41), cloud(48.41)), 15);
  auto swapped = suns;
  for (SunSample& sun : swapped) {
    sun.toward_sun.x = -sun.toward_sun.x;
    sun.part = static_cast<std::uint8_t>(2 - sun.part);
  }
  const Receiver bed = light::level_receiver({-1.5, -1}, 0, 0, 0.25, 12, 8);
  auto sky = light::sky_over(bed, {}, degrees(0), 241), mirrored_sky = sky;
  for (SkyDirection& direction : mirrored_sky) direction.toward.x = -direction.toward.x;
  for (int garden = 0; garden < 8; ++garden) {
    std::vector<Body> bodies = random_bodies(random, 12), mirrored;
    for (Body body : bodies) {
      if (auto* round = std::get_if<RoundSolid>(&body.shape)) {
        round->axis.x = -round->axis.x;
      } else {
        auto& solid = std::get<Solid>(body.shape);
        for (Vec3& corner : solid.corners) corner.x = -corner.x;
        for (geometry::HalfSpace& face : solid.faces) face.normal.x = -face.normal.x;
      }
      mirrored.push_back(body);
    }
    const Scene one(bodies), other(mirrored);
    const BeamLight here = cast_light(one, bed, suns), there = cast_light(other, bed, swapped);
    const SkyLight above = cast_sky(one, bed, sky), twin = cast_sky(other, bed, mirrored_sky);
    for (std::size_t cell = 0; cell < 96; ++cell) {
      const std::size_t to = cell / 12 * 12 + 11 - cell % 12;
      for (int month = 0; month < kMonths; ++month) {
        const auto m = static_cast<std::size_t>(month);
        for (int part = 0; part < kParts; ++part)
          ASSERT_EQ(here.lit.at(month, part, cell), there.lit.at(month, 2 - part, to));
        ASSERT_NEAR(here.beam_mol_m2[m][cell], there.beam_mol_m2[m][to],
                    kRounding * largest(amounts_of(here)));
        ASSERT_NEAR(above.uniform[static_cast<std::size_t>(above.state_of_month[m])][cell],
                    twin.uniform[static_cast<std::size_t>(twin.state_of_month[m])][to], kRounding);
      }
    }
  }
}

// --- places ---

light::Place bed_of(double cell_m) {
  light::Place place;
  place.id = "bed";
  place.receivers = {light::level_receiver({-1.2, -0.6}, 0.3, 0.2, cell_m,
                                           static_cast<int>(std::lround(2.4 / cell_m)),
                                           static_cast<int>(std::lround(1.2 / cell_m)))};
  place.receivers[0].counted.assign(static_cast<std::size_t>(place.receivers[0].cells()), 1);
  return place;
}

light::YearSun year_of(const light::Place& place, const std::vector<Body>& bodies,
                       const SunYear& sun, double latitude) {
  return (*light::sun_of_places(site(latitude), {place}, bodies, sun, 1, nullptr))[0].months;
}

TEST(PlacesAmounts, LieBetweenNoneAndTheOpenSkys) {
  Random random(9);
  for (const double latitude : {-43.0, 0.0, 48.41, 66.0}) {
    const SunYear sun = sun_year(site(latitude), cloud(latitude));
    const auto open = year_of(bed_of(0.1), {}, sun, latitude);
    const auto shaded = year_of(bed_of(0.1), random_bodies(random, 10), sun, latitude);
    for (std::size_t m = 0; m < 12; ++m) {
      SCOPED_TRACE(std::to_string(latitude) + " month " + std::to_string(m + 1));
      // The open level bed gets all of the open sky, whose sums are made without a cast.
      EXPECT_NEAR(open[m].dli_mol_m2_d, sun.open_mol_m2_d[m], 2e-5 * sun.open_mol_m2_d[m] + 1e-9);
      EXPECT_NEAR(open[m].sun_h_per_day, sun.open_sun_h[m], 1e-9);
      EXPECT_GE(shaded[m].dli_mol_m2_d, 0);
      EXPECT_LE(shaded[m].dli_mol_m2_d, open[m].dli_mol_m2_d * (1 + kRounding));
      EXPECT_LE(shaded[m].sun_h_per_day, open[m].sun_h_per_day);
      EXPECT_LE(shaded[m].sunshine_h_per_day, shaded[m].sun_h_per_day + 1e-12);
      if (sun.open_mol_m2_d[m] > 0) {
        EXPECT_NEAR(shaded[m].share_of_open, shaded[m].dli_mol_m2_d / sun.open_mol_m2_d[m], 1e-12);
      } else {
        EXPECT_TRUE(std::isnan(shaded[m].share_of_open));
      }
    }
  }
}

TEST(PlacesAmounts, ChangeLittleWhenTheCellIsHalved) {
  Random random(10);
  const SunYear sun = sun_year(site(48.41), cloud(48.41));
  for (int garden = 0; garden < 6; ++garden) {
    const std::vector<Body> bodies = random_bodies(random, 10);
    const auto coarse = year_of(bed_of(0.1), bodies, sun, 48.41);
    const auto fine = year_of(bed_of(0.05), bodies, sun, 48.41);
    for (std::size_t m = 0; m < 12; ++m) {
      EXPECT_NEAR(coarse[m].share_of_open, fine[m].share_of_open, 0.01);
      EXPECT_NEAR(coarse[m].sun_h_per_day, fine[m].sun_h_per_day, 0.06);
    }
  }
}

}  // namespace
}  // namespace spadework::testing
