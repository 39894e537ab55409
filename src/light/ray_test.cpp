// One ray against closed forms, and the caster against the ray: shadows by corners and outlines on
// one side, faces and quadratics on the other.
#include "light/ray.h"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <limits>
#include <numbers>
#include <string>
#include <vector>

#include "light/caster.h"
#include "light/light_testing.h"

namespace spadework::light {
namespace {

using namespace testing;  // NOLINT: suns and bodies
using geometry::dot;

Body crown(RoundShape shape, double x, double foot, double top, double radius, float per_metre) {
  return {"tree", RoundSolid{shape, {x, 0}, foot, top, radius}, Through::kPerMetre, {per_metre}};
}

// Closed form: tests/golden/light/analytic.csv, 2 (1 − (1 + x) e^−x) / x², x = K 2R.
TEST(RayDepth, GivesTheMeanTransmissionOfASpheresShadow) {
  std::ifstream in(std::string(SPADEWORK_SOURCE_DIR) + "/tests/golden/light/analytic.csv");
  const std::string kind = "beer_lambert_sphere_mean_T,x=";
  int seen = 0;
  for (std::string line; std::getline(in, line);) {
    if (line.rfind(kind, 0) != 0) continue;
    ++seen;
    const double x = std::stod(line.substr(kind.size()));
    const double expected = std::stod(line.substr(line.rfind(',') + 1));
    const double radius = 1.5, sine = std::sin(rad(50));
    const Scene scene(
        {crown(RoundShape::kEllipsoid, 0, 1, 4, radius, static_cast<float>(x / (2 * radius)))});
    const Vec3 sun = toward(50, 90);
    // Of the plane through the middle of the sphere the shadow is an ellipse 1 / sin el as long.
    constexpr int kSide = 400;
    double sum = 0;
    int n = 0;
    for (int j = 0; j < kSide; ++j) {
      for (int i = 0; i < kSide; ++i) {
        const double a = (2 * i + 1.0) / kSide - 1, b = (2 * j + 1.0) / kSide - 1;
        if (a * a + b * b > 1) continue;
        const Vec3 under = Vec3{radius * a / sine, radius * b, 2.5} + sun * -4;
        sum += std::exp(-along_ray(scene, under, sun, 1).depth);
        ++n;
      }
    }
    EXPECT_NEAR(sum / n, expected, 0.0003) << line;
  }
  EXPECT_EQ(seen, 7);
}

TEST(RayDepth, IsTheStretchInsideEachShape) {  // closed form: chords straight up and level
  const auto depth = [](RoundShape shape, Vec3 from, Vec3 to) {
    return along_ray(Scene({crown(shape, 0, 2, 6, 1.5, 0.5F)}), from, to, 1).depth;
  };
  const Vec3 up{0, 0, 3};
  for (const RoundShape shape :
       {RoundShape::kEllipsoid, RoundShape::kColumn, RoundShape::kCone, RoundShape::kDome}) {
    EXPECT_NEAR(depth(shape, {0, 0, 0}, up), 2, 1e-9);    // 4 m high, half a depth a metre
    EXPECT_NEAR(depth(shape, {0, 0, 5}, up), 0.5, 1e-9);  // the stretch that lies ahead
    EXPECT_EQ(depth(shape, {0, 0, 6.1}, up), 0);          // behind
    EXPECT_EQ(depth(shape, {1.51, 0, 0}, up), 0);         // past its side
  }
  const double part = std::sqrt(0.75);  // at half the radius
  EXPECT_NEAR(depth(RoundShape::kEllipsoid, {0.75, 0, 0}, up), 2 * part, 1e-9);
  EXPECT_NEAR(depth(RoundShape::kColumn, {0.75, 0, 0}, up), 2, 1e-9);
  EXPECT_NEAR(depth(RoundShape::kCone, {0.75, 0, 0}, up), 1, 1e-9);
  EXPECT_NEAR(depth(RoundShape::kDome, {0.75, 0, 0}, up), 2 * part, 1e-9);
  EXPECT_NEAR(depth(RoundShape::kCone, {-9, 0, 4}, {1, 0, 0}), 0.75, 1e-9);  // half way up
  EXPECT_NEAR(depth(RoundShape::kDome, {-9, 0, 4}, {1, 0, 0}), 1.5 * part, 1e-9);
}

TEST(Ray, NamesTheThingAtWhichLessThanHalfIsLeft) {
  const auto screen = [](const char* id, double x, float depth) {
    return Body{id, box({x, -1}, 0.1, 2, 0, 2), Through::kPerCrossing, {depth}};
  };
  const Scene scene({screen("far", 3, 0.3F), opaque("wall", box({5, -1}, 1, 2, 0, 2)),
                     screen("near", 1, 0.3F), screen("middle", 2, 0.3F)});
  const RayResult all = along_ray(scene, {0, 0, 1}, {1, 0, 0}, 1);
  ASSERT_EQ(all.hits.size(), 4U);
  const std::vector<std::string> order{"near", "middle", "far", "wall"};
  for (std::size_t i = 0; i < 4; ++i)
    EXPECT_EQ(scene.things()[static_cast<std::size_t>(all.hits[i].thing)], order[i]);
  EXPECT_EQ(all.first_blocker, scene.thing_index("far"));  // 0.9 > ln 2 at the third
  EXPECT_TRUE(std::isinf(all.depth));
  const LeftOut thin = leave_out(scene, {scene.thing_index("far")});
  EXPECT_EQ(along_ray(scene, {0, 0, 1}, {1, 0, 0}, 1, thin).first_blocker,
            scene.thing_index("wall"));
  const LeftOut both = leave_out(scene, {scene.thing_index("wall"), scene.thing_index("far")});
  EXPECT_TRUE(along_ray(scene, {0, 0, 1}, {1, 0, 0}, 1, both).sunlit());
}

// ---- the caster against the ray

constexpr int kCells = 40;
constexpr double kCell_m = 0.3;

Vec2 somewhere(Random& random) { return {random.between(-1, 13), random.between(-1, 13)}; }

RoundSolid random_round(Random& random, double ground) {
  static constexpr RoundShape kShapes[] = {RoundShape::kEllipsoid, RoundShape::kColumn,
                                           RoundShape::kCone, RoundShape::kDome};
  const double foot = ground + random.between(-0.5, 2);
  return {kShapes[random.below(4)], somewhere(random), foot, foot + random.between(0.5, 5),
          random.between(0.3, 2.5)};
}

/// A shed, a crown thin or dense, an opaque ball, a hedge, a screen, or a see-through net about a
/// bush, upon ground of a slope. Leaves come on day 100 and go after day 280.
Body random_body(Random& random, Vec2 slope, int number) {
  const std::string id = "thing" + std::to_string(number);
  const Vec2 at = somewhere(random);
  const double ground = dot(slope, at), turn = random.between(0, 7);
  const auto leaves = static_cast<float>(random.between(0.1, 1.2));
  std::vector<float> year(366, leaves * 0.3F);
  std::fill(year.begin() + 99, year.begin() + 280, leaves);
  switch (random.below(6)) {
    case 0:
      return opaque(id, box(at, random.between(0.3, 3), random.between(0.1, 2), ground - 2,
                            ground + random.between(0.5, 3), turn));
    case 1:
      return opaque(id, random_round(random, ground));
    case 2:
      return {id,
              box(at, random.between(2, 8), random.between(0.4, 1), ground - 2, ground + 2, turn),
              Through::kPerMetre, year};
    case 3:
      return {id,
              box(at, random.between(1, 6), 0.03, ground - 2, ground + 2, turn),
              Through::kPerCrossing,
              {static_cast<float>(random.between(0.1, 0.8))}};
    case 4:
      return {id, random_round(random, ground), Through::kPerCrossing, {0.4F}};
    default:
      return {id, random_round(random, ground), Through::kPerMetre, year};
  }
}

/// Level on the ground, on the slope, turned at the height of the crowns, and upright.
std::vector<Receiver> receivers_of(Random& random, Vec2 slope) {
  const double turn = random.between(0, 7), half = kCells * kCell_m / 2;
  const Vec2 corner = Vec2{6, 6} + geometry::turned({-half, -half}, turn);
  Receiver face = level_receiver({}, 0, 0, kCell_m, kCells, kCells);
  face.w_axis = {std::cos(turn), std::sin(turn), 0};
  face.u_axis = {-std::sin(turn), std::cos(turn), 0};
  face.v_axis = {0, 0, 1};
  face.origin = Vec3{6, 6, -4} - face.u_axis * half;
  return {level_receiver({0.01, 0.02}, 0, 0.01, kCell_m, kCells, kCells),
          ground_receiver({0.01, 0.02}, 0.01, slope, kCell_m, kCells, kCells),
          level_receiver(corner, turn, random.between(0.5, 3), kCell_m, kCells, kCells), face};
}

struct Tally {
  long asked = 0, lit = 0, differ = 0, far_from_an_edge = 0;
};

/// Whether rays from within one cell of a centre tell the given answer too.
bool told_within_a_cell(const Scene& scene, const Receiver& receiver, int column, int row,
                        const SunSample& sun, bool answer) {
  const Vec3 at = cell_centre(receiver, column, row);
  const Vec3 across = cell_centre(receiver, column + 1, row) - at;
  const Vec3 up = cell_centre(receiver, column, row + 1) - at;
  for (double radius = 1e-7; radius <= 1; radius *= std::sqrt(10.0)) {
    for (int k = 0; k < 32; ++k) {
      const double turn = 2 * std::numbers::pi * k / 32;
      const Vec3 off = across * (radius * std::cos(turn)) + up * (radius * std::sin(turn));
      if (along_ray(scene, at + off, sun.toward_sun, sun.day_of_year).sunlit() == answer)
        return true;
    }
  }
  return false;
}

void compare(const Scene& scene, const Receiver& receiver, const std::vector<SunSample>& suns,
             Tally& tally) {
  const LitCounts counts = cast(scene, receiver, suns);
  for (const SunSample& sun : suns) {
    if (dot(receiver.w_axis, sun.toward_sun) <= 1e-6) continue;
    for (int cell = 0; cell < receiver.cells(); ++cell) {
      const int i = cell % receiver.columns, j = cell / receiver.columns;
      const bool caster = counts.at(sun.month, sun.part, static_cast<std::size_t>(cell)) == 1;
      const bool ray =
          along_ray(scene, cell_centre(receiver, i, j), sun.toward_sun, sun.day_of_year).sunlit();
      ++tally.asked, tally.lit += ray ? 1 : 0;
      if (caster == ray) continue;
      ++tally.differ;
      if (!told_within_a_cell(scene, receiver, i, j, sun, caster)) ++tally.far_from_an_edge;
    }
  }
}

/// One sun for each month and part, with leaves and without.
std::vector<SunSample> random_suns(Random& random) {
  std::vector<SunSample> suns;
  for (int i = 0; i < kMonths * kParts; ++i)
    suns.push_back(sample(toward(random.between(2, 89), random.between(0, 360)),
                          1 + random.below(366), i / kParts, i % kParts));
  return suns;
}

// Two independent roads to one answer: at most 0.001 % may differ, all at edges, where single
// precision and double part ways; crowns hold, overhang and stand beside the cells.
TEST(ShadowCaster, AgreesWithTheRayUnderCrownsHedgesAndScreens) {
  Tally tallies[4];
  for (int garden = 0; garden < 100; ++garden) {
    Random random(static_cast<std::uint64_t>(300 + garden));
    const Vec2 slope{random.between(-0.3, 0.3), random.between(-0.3, 0.3)};
    std::vector<Body> bodies;
    for (int i = 10 + random.below(16); i > 0; --i) bodies.push_back(random_body(random, slope, i));
    const Scene scene(bodies);
    const std::vector<SunSample> suns = random_suns(random);
    const std::vector<Receiver> receivers = receivers_of(random, slope);
    for (std::size_t r = 0; r < receivers.size(); ++r) {
      const long far_before = tallies[r].far_from_an_edge;
      compare(scene, receivers[r], suns, tallies[r]);
      EXPECT_EQ(tallies[r].far_from_an_edge, far_before)
          << "garden " << garden << ", receiver " << r;
    }
  }
  static constexpr const char* kNames[] = {"level", "slope", "turned", "face"};
  for (std::size_t r = 0; r < 4; ++r) {
    const Tally& tally = tallies[r];
    RecordProperty(std::string(kNames[r]) + "_asked", std::to_string(tally.asked));
    RecordProperty(std::string(kNames[r]) + "_differ", std::to_string(tally.differ));
    EXPECT_LE(tally.differ * 100000, tally.asked) << kNames[r];
    EXPECT_GT(tally.lit * 10, tally.asked) << kNames[r];
    EXPECT_LT(tally.lit * 10, tally.asked * 9) << kNames[r];
  }
}

TEST(ShadowCaster, AgreesWithTheRayInsideACrownOfEachShape) {
  for (const RoundShape shape :
       {RoundShape::kEllipsoid, RoundShape::kColumn, RoundShape::kCone, RoundShape::kDome}) {
    Random random(17);
    // The plane cuts the crown in its middle, at its foot and near its top; a third of the suns
    // stand steeper than the cone's side.
    const Scene scene({crown(shape, 0, 1, 5, 2, 0.45F)});
    Tally tally;
    for (const double z : {1.0, 1.7, 3.0, 4.5}) {
      compare(scene, level_receiver({-3, -3}, 0.1, z, 0.1, 60, 60), random_suns(random), tally);
      compare(scene, ground_receiver({-3, -3}, z, {0.2, -0.35}, 0.1, 60, 60), random_suns(random),
              tally);
    }
    EXPECT_EQ(tally.far_from_an_edge, 0) << static_cast<int>(shape);
    EXPECT_LE(tally.differ * 100000, tally.asked) << static_cast<int>(shape);
    EXPECT_LT(tally.lit, tally.asked * 95 / 100) << static_cast<int>(shape);
  }
}

}  // namespace
}  // namespace spadework::light
