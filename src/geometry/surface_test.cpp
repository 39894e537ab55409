#include "geometry/surface.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/random.h"

namespace spadework::geometry {
namespace {

const Box2 kDomain{{-5, -5}, {25, 25}};

std::vector<Vec3> random_spots(Random& random, int n) {
  std::vector<Vec3> spots;
  for (int i = 0; i < n; ++i)
    spots.push_back({std::round(random.between(0, 20) * 1000) / 1000,
                     std::round(random.between(0, 20) * 1000) / 1000, random.between(0, 3)});
  return spots;
}

TEST(Surface, PassesThroughEverySpot) {
  Random random(3);
  for (int round = 0; round < 40; ++round) {
    const auto spots = random_spots(random, 1 + random.below(60));
    const Surface surface(spots, kDomain);
    for (const Vec3& p : spots) EXPECT_NEAR(surface.at(p.plan()), p.z, 1e-6) << "round " << round;
  }
}

TEST(Surface, CoversItsDomainOnceWithTriangles) {
  Random random(4);
  for (int round = 0; round < 40; ++round) {
    const Surface surface(random_spots(random, 2 + random.below(80)), kDomain);
    double whole = 0;
    for (const Facet& f : surface.facets())
      whole += signed_area({f.corners[0], f.corners[1], f.corners[2]});
    EXPECT_NEAR(whole, 900, 1e-6) << "round " << round;
  }
}

// The definition: no spot lies inside the circle through the corners of any triangle.
TEST(Surface, TrianglesAreDelaunay) {
  Random random(5);
  const auto spots = random_spots(random, 120);
  const Surface surface(spots, kDomain);
  for (const Facet& f : surface.facets()) {
    const Vec2 a = f.corners[0], b = f.corners[1] - a, c = f.corners[2] - a;
    const double d = 2 * cross(b, c);
    const Vec2 u{(c.y * dot(b, b) - b.y * dot(c, c)) / d, (b.x * dot(c, c) - c.x * dot(b, b)) / d};
    for (const Vec3& p : spots) EXPECT_GE(length(p.plan() - (a + u)), length(u) - 1e-6);
  }
}

TEST(Surface, ThroughAPlaneIsThePlaneEvenBeyondTheSpots) {
  const auto z = [](double x, double y) { return 0.2 + 0.03 * x - 0.07 * y; };
  std::vector<Vec3> spots;
  for (const Vec2 p : {Vec2{0, 0}, {11, 0}, {11, 26}, {0, 26}, {4, 9}}) {
    spots.push_back({p.x, p.y, z(p.x, p.y)});
  }
  const Surface surface(spots, Box2{{-10, -10}, {21, 36}});
  EXPECT_EQ(surface.planes(), 1);
  EXPECT_NEAR(surface.at({-8, 30}), z(-8, 30), 1e-9);
  EXPECT_NEAR(
      surface.mean_under(rectangle({2, 2}, {3, 1}, 0.4)),
      z(centroid(rectangle({2, 2}, {3, 1}, 0.4)).x, centroid(rectangle({2, 2}, {3, 1}, 0.4)).y),
      1e-9);
}

TEST(Surface, SpotsOnARegularGridAndInOneLineDoNotTripIt) {
  std::vector<Vec3> grid;
  for (int i = 0; i < 12; ++i) {
    for (int j = 0; j < 12; ++j) grid.push_back({i * 1.0, j * 1.0, 0.1 * i * j});
  }
  const Surface surface(grid, kDomain);
  for (const Vec3& p : grid) EXPECT_NEAR(surface.at(p.plan()), p.z, 1e-9);
  const Surface line({{0, 0, 0}, {5, 5, 1}, {10, 10, 2}}, kDomain);
  EXPECT_NEAR(line.at({5, 5}), 1, 1e-9);
  EXPECT_NEAR(line.at({2.5, 2.5}), 0.5, 1e-9);
  const Surface one({{3, 3, 1.5}}, kDomain);
  EXPECT_NEAR(one.at({20, 20}), 1.5, 1e-9);
}

TEST(Surface, RangeAndBreaksAgreeWithSampling) {
  Random random(6);
  const Surface surface(random_spots(random, 30), kDomain);
  const Polygon outline = rectangle({4, 6}, {5, 3}, 0.5);
  const auto range = surface.range_under(outline);
  for (int k = 0; k < 4000; ++k) {
    const Vec2 p = outline[0] + (outline[1] - outline[0]) * random.unit() +
                   (outline[3] - outline[0]) * random.unit();
    EXPECT_LE(surface.at(p), range.high + 1e-9);
    EXPECT_GE(surface.at(p), range.low - 1e-9);
  }
  const Vec2 a{1, 2}, b{18, 15};
  const auto breaks = surface.breaks_along(a, b);
  for (std::size_t i = 0; i + 1 < breaks.size(); ++i) {
    const auto level = [&](double t) { return surface.at(a + (b - a) * t); };
    const double s = breaks[i], t = breaks[i + 1];
    EXPECT_NEAR(level((s + t) / 2), (level(s + 1e-9) + level(t - 1e-9)) / 2, 1e-5);
  }
}

}  // namespace
}  // namespace spadework::geometry
