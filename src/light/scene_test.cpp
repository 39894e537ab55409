// What a scene's symmetries demand of the caster, and how it keeps its bodies.
// Sources: metamorphic laws that follow from the definition of a shadow. [closed-form]
#include "light/scene.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "light/caster.h"
#include "light/light_testing.h"

namespace spadework::light {
namespace {

using namespace testing;  // NOLINT: suns and bodies

constexpr int kColumns = 72, kRows = 40;  // more columns than bits in a word
constexpr double kCell_m = 0.25;          // exact in binary

/// A number of whole 64ths of a metre: sums and shifts of such are exact.
double exact(Random& random, double low, double high) {
  return std::round(random.between(low, high) * 64) / 64;
}

/// Solids and crowns of every sort with exact coordinates, about a grid of 18 by 10 m.
Body random_body(Random& random, int number) {
  static constexpr RoundShape kShapes[] = {RoundShape::kEllipsoid, RoundShape::kColumn,
                                           RoundShape::kCone, RoundShape::kDome};
  const std::string id = "thing" + std::to_string(number);
  const Vec2 at{exact(random, -1, 18), exact(random, -1, 10)};
  const double foot = exact(random, -1, 2), high = exact(random, 0.5, 4);
  if (random.below(2) == 0) {
    const auto through = static_cast<Through>(random.below(3));
    const auto depth =
        through == Through::kOpaque ? 1.0F : static_cast<float>(random.between(0.1, 1));
    const RoundSolid round{kShapes[random.below(4)], at, foot, foot + high,
                           exact(random, 0.3, 2.5)};
    return {id, round, through, {depth}};
  }
  std::vector<Vec2> footprint =
      random_footprint(random, at, random.between(0.4, 2.5), 3 + random.below(4));
  for (Vec2& p : footprint) p = {std::round(p.x * 64) / 64, std::round(p.y * 64) / 64};
  Body body{id, geometry::prism(footprint, {foot, {}}, {foot + high, {}}), Through::kOpaque, {1}};
  if (random.below(3) == 0) body.through = Through::kPerMetre, body.depth = {0.7F};
  if (random.below(3) == 0) body.through = Through::kPerCrossing, body.depth = {0.4F};
  return body;
}

std::vector<Body> random_bodies(std::uint64_t seed, int n) {
  Random random(seed);
  std::vector<Body> bodies;
  for (int i = 0; i < n; ++i) bodies.push_back(random_body(random, i));
  return bodies;
}

/// Every body with each of its points moved by a map of the plan that keeps lengths.
template <class Map, class Turn>
std::vector<Body> moved(std::vector<Body> bodies, Map point, Turn direction) {
  for (Body& body : bodies) {
    if (auto* round = std::get_if<RoundSolid>(&body.shape)) {
      round->axis = point(round->axis);
      continue;
    }
    Solid& solid = std::get<Solid>(body.shape);
    for (Vec3& p : solid.corners) {
      const Vec2 q = point(p.plan());
      p = {q.x, q.y, p.z};
    }
    for (geometry::HalfSpace& face : solid.faces) {
      const Vec2 n = direction(face.normal.plan());
      const Vec2 from = point({0, 0});
      face.normal = {n.x, n.y, face.normal.z};
      face.offset += geometry::dot(n, from);
    }
  }
  return bodies;
}

const std::vector<SunSample>& suns() {
  static const std::vector<SunSample> kSuns = year_of_suns(47);
  return kSuns;
}
Receiver bed() { return level_receiver({0, 0}, 0, 0, kCell_m, kColumns, kRows); }
/// Planes of every sort on which the laws are tried.
std::vector<Receiver> receivers() {
  Receiver face = level_receiver({}, 0, 0, kCell_m, kColumns, kRows);
  face.w_axis = {0, -1, 0}, face.u_axis = {1, 0, 0}, face.v_axis = {0, 0, 1};
  face.origin = {0, 5.3, -2};
  return {bed(), level_receiver({5, -3}, 0.6, 0.7, kCell_m, kColumns, kRows),
          ground_receiver({0, 0}, 0.2, {0.15, -0.25}, kCell_m, kColumns, kRows), face};
}

long long total(const LitCounts& counts) {
  long long sum = 0;
  for (int month = 0; month < kMonths; ++month) {
    for (int cell = 0; cell < counts.columns() * counts.rows(); ++cell)
      sum += counts.of_month(month, static_cast<std::size_t>(cell));
  }
  return sum;
}

TEST(AddingABody, NeverAddsSunToAnyCell) {
  const std::vector<Body> bodies = random_bodies(1, 14);
  for (const Receiver& receiver : receivers()) {
    LitCounts before = cast(Scene(), receiver, suns());
    const long long open = total(before);
    for (std::size_t n = 1; n <= bodies.size(); ++n) {
      const std::vector<Body> some(bodies.begin(), bodies.begin() + static_cast<std::ptrdiff_t>(n));
      const LitCounts after = cast(Scene(some), receiver, suns());
      for (int plane = 0; plane < kMonths * kParts; ++plane) {
        for (std::size_t cell = 0; cell < std::size_t{kColumns * kRows}; ++cell)
          ASSERT_LE(after.at(plane / kParts, plane % kParts, cell),
                    before.at(plane / kParts, plane % kParts, cell))
              << n << " bodies, cell " << cell;
      }
      before = after;
    }
    EXPECT_LT(total(before), open * 9 / 10);
  }
}

TEST(OrderOfBodies, DoesNotMatterToTheLastBit) {
  std::vector<Body> bodies = random_bodies(2, 20);
  bodies.push_back(bodies[3]);  // the same body twice, and once more as another thing's
  bodies.push_back(bodies[3]);
  bodies.back().thing = "another";
  Random random(9);
  for (const Receiver& receiver : receivers()) {
    const LitCounts first = cast(Scene(bodies), receiver, suns());
    for (int again = 0; again < 3; ++again) {
      for (std::size_t i = bodies.size(); i > 1; --i)
        std::swap(bodies[i - 1],
                  bodies[static_cast<std::size_t>(random.below(static_cast<int>(i)))]);
      EXPECT_TRUE(cast(Scene(bodies), receiver, suns()) == first);
    }
  }
}

TEST(OrderOfBodies, DoesNotTurnASumOfDepthsThatRoundsEitherWay) {
  // Three depths whose sum is the limit to a rounding: some orders of adding are over, some not.
  Random random(11);
  std::vector<float> depths(3);
  const auto over = [](float a, float b, float c) { return a + b + c > kMostDepth; };
  do {
    for (float& depth : depths) depth = static_cast<float>(random.between(0.1, 0.3));
    depths[2] = kMostDepth - (depths[0] + depths[1]);
    depths[2] = std::nextafter(depths[2], random.below(2) == 0 ? 0.0F : 1.0F);
  } while (over(depths[0], depths[1], depths[2]) == over(depths[2], depths[1], depths[0]));
  std::vector<Body> screens;
  for (std::size_t i = 0; i < 3; ++i) {
    const double low = 1 + static_cast<double>(i);
    screens.push_back({"screen" + std::to_string(i),
                       box({-5, -5}, 10, 10, low, low + 0.5),
                       Through::kPerCrossing,
                       {depths[i]}});
  }
  const std::vector<SunSample> noon{sample({0, 0, 1})};
  const LitCounts first = cast(Scene(screens), level_receiver({0, 0}, 0, 0, 0.1, 8, 8), noon);
  std::vector<std::size_t> order{0, 1, 2};
  do {
    const Scene scene({screens[order[0]], screens[order[1]], screens[order[2]]});
    EXPECT_TRUE(cast(scene, level_receiver({0, 0}, 0, 0, 0.1, 8, 8), noon) == first);
  } while (std::next_permutation(order.begin(), order.end()));
}

TEST(ThreadsAndBackends, GiveTheSameBits) {
  const Scene scene(random_bodies(3, 20));
  for (const Receiver& receiver : receivers()) {
    CastOptions options;
    options.backend = Backend::kScalar;
    const LitCounts plain = cast(scene, receiver, suns(), options);
    EXPECT_LT(total(plain), total(cast(Scene(), receiver, suns())));
    for (const Backend backend : {Backend::kScalar, Backend::kAvx2, Backend::kAuto}) {
      for (const int threads : {1, 2, 5}) {
        options.backend = backend, options.threads = threads;
        EXPECT_TRUE(cast(scene, receiver, suns(), options) == plain)
            << static_cast<int>(backend) << " on " << threads;
      }
    }
    // One month alone is shared by bands of rows.
    std::vector<SunSample> june;
    for (const SunSample& sun : suns())
      if (sun.month == 5) june.push_back(sun);
    options.threads = 2;
    const LitCounts banded = cast(scene, receiver, june, options);
    for (int part = 0; part < kParts; ++part)
      EXPECT_EQ(banded.plane(5, part), plain.plane(5, part)) << part;
  }
}

/// Cells that differ between a picture and its mirrored twin, of all months and parts; `twin` tells
/// where cell (i, j) went, and `part_of` which part of the day became which.
template <class Twin, class Part>
long cells_that_differ(const LitCounts& a, const LitCounts& b, Twin twin, Part part_of) {
  long differ = 0;
  for (int plane = 0; plane < kMonths * kParts; ++plane) {
    const int month = plane / kParts, part = plane % kParts;
    for (int j = 0; j < a.rows(); ++j) {
      for (int i = 0; i < a.columns(); ++i)
        differ += a.at(month, part, static_cast<std::size_t>(j * a.columns() + i)) !=
                  b.at(month, part_of(part), twin(i, j));
    }
  }
  return differ;
}

// Exactly, cell by cell: negated coordinates round alike.
TEST(EastAndWestMirrored, SwapMorningAndAfternoon) {
  const std::vector<Body> bodies = random_bodies(4, 16);
  const double width = kColumns * kCell_m;
  const auto mirrored = moved(
      bodies,
      [&](Vec2 p) {
        return Vec2{width - p.x, p.y};
      },
      [](Vec2 n) {
        return Vec2{-n.x, n.y};
      });
  std::vector<SunSample> swapped = suns();
  for (SunSample& sun : swapped) {
    sun.toward_sun.x = -sun.toward_sun.x;
    sun.part = static_cast<std::uint8_t>(2 - sun.part);
  }
  const LitCounts one = cast(Scene(bodies), bed(), suns());
  const LitCounts other = cast(Scene(mirrored), bed(), swapped);
  const long differ = cells_that_differ(
      one, other,
      [](int i, int j) { return static_cast<std::size_t>(j * kColumns + kColumns - 1 - i); },
      [](int part) { return 2 - part; });
  EXPECT_EQ(differ, 0);
  EXPECT_NE(one.plane(3, 0), one.plane(3, 2));  // morning and afternoon are not the same by chance
}

TEST(LatitudeAndSeasonTurnedSouth, GiveTheSameCountsNorthAndSouthFlipped) {
  const std::vector<Body> bodies = random_bodies(5, 16);
  const double depth = kRows * kCell_m;
  const auto flipped = moved(
      bodies,
      [&](Vec2 p) {
        return Vec2{p.x, depth - p.y};
      },
      [](Vec2 n) {
        return Vec2{n.x, -n.y};
      });
  for (const double latitude : {12.0, 43.0, 66.0}) {
    std::vector<SunSample> north, south;
    for (int month = 0; month < kMonths; ++month) {
      const double declination = -23.44 * std::cos(rad(30.0 * month + 10));
      for (int step = 0; step < 100; ++step) {
        const double hour_angle = 3.6 * step - 180 + 1.1;
        const int part = hour_angle < -30 ? 0 : hour_angle < 30 ? 1 : 2;
        const Vec3 here = sun_at(latitude, declination, hour_angle);
        const Vec3 there = sun_at(-latitude, -declination, hour_angle);
        ASSERT_EQ(here.x, there.x);
        ASSERT_EQ(here.y, -there.y);
        ASSERT_EQ(here.z, there.z);
        if (here.z < 0.01) continue;
        north.push_back(sample(here, 1, month, part));
        south.push_back(sample(there, 1, month, part));
      }
    }
    const long differ = cells_that_differ(
        cast(Scene(bodies), bed(), north), cast(Scene(flipped), bed(), south),
        [](int i, int j) { return static_cast<std::size_t>((kRows - 1 - j) * kColumns + i); },
        [](int part) { return part; });
    EXPECT_EQ(differ, 0) << latitude;
  }
}

TEST(ShiftByWholeCells, ChangesNothing) {
  const std::vector<Body> bodies = random_bodies(6, 16);
  const Vec2 by{37 * kCell_m, -1024 * kCell_m};
  const auto shifted = moved(
      bodies, [&](Vec2 p) { return p + by; }, [](Vec2 n) { return n; });
  const LitCounts here = cast(Scene(bodies), bed(), suns());
  // Garden and grid together.
  EXPECT_TRUE(cast(Scene(shifted), level_receiver(by, 0, 0, kCell_m, kColumns, kRows), suns()) ==
              here);
  // The grid alone, and part of it: each cell keeps its figure.
  constexpr int kRight = 5, kUp = 3;
  const LitCounts part = cast(Scene(bodies),
                              level_receiver({kRight * kCell_m, kUp * kCell_m}, 0, 0, kCell_m,
                                             kColumns - kRight, kRows - kUp),
                              suns());
  const long differ = cells_that_differ(
      part, here,
      [](int i, int j) { return static_cast<std::size_t>((j + kUp) * kColumns + i + kRight); },
      [](int p) { return p; });
  EXPECT_EQ(differ, 0);
}

TEST(Scene, KeepsEachThingOnceInTheOrderGiven) {
  const Scene scene(
      {opaque("shed", box({0, 0}, 1, 1, 0, 1)), opaque("wall", box({5, 0}, 1, 1, 0, 1)),
       opaque("shed", box({1, 0}, 1, 1, 0, 1)), opaque("flat", box({1, 0}, 0, 1, 0, 1))});
  EXPECT_EQ(scene.things(), (std::vector<std::string>{"shed", "wall", "flat"}));
  EXPECT_EQ(scene.bodies().size(), 3U);
  EXPECT_EQ(scene.thing_index("wall"), 1);
  EXPECT_EQ(scene.thing_index("tree"), -1);
}

TEST(LeavingThingsOut, IsCastingWithoutThem) {
  const std::vector<Body> bodies = random_bodies(7, 12);
  const Scene scene(bodies);
  CastOptions options;
  options.left_out = leave_out(scene, {2, 5, -1, 99});  // the last two are no things
  std::vector<Body> rest;
  for (const Body& body : bodies)
    if (body.thing != "thing2" && body.thing != "thing5") rest.push_back(body);
  EXPECT_TRUE(cast(scene, bed(), suns(), options) == cast(Scene(rest), bed(), suns()));
  EXPECT_FALSE(cast(scene, bed(), suns(), options) == cast(scene, bed(), suns()));
  EXPECT_TRUE(leave_out(scene, {}).empty());
}

}  // namespace
}  // namespace spadework::light
