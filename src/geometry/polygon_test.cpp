#include "geometry/polygon.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/random.h"

namespace spadework::geometry {
namespace {

const Polygon kL = {{0, 0}, {6, 0}, {6, 2}, {2, 2}, {2, 5}, {0, 5}};

double sum_of_areas(const std::vector<Polygon>& parts) {
  double sum = 0;
  for (const Polygon& part : parts) sum += area(part);
  return sum;
}

/// A star-shaped outline about the origin: never crosses itself.
Polygon random_outline(Random& random, int corners) {
  Polygon out;
  for (int i = 0; i < corners; ++i) {
    const double turn = 2 * std::numbers::pi * (i + 0.8 * random.unit()) / corners;
    const double r = random.between(0.5, 4);
    out.push_back({r * std::cos(turn), r * std::sin(turn)});
  }
  return out;
}

TEST(Area, OfAnLIsItsTwoRectangles) {
  EXPECT_DOUBLE_EQ(area(kL), 6 * 2 + 2 * 3);
  EXPECT_GT(signed_area(kL), 0);
}

// Centroid of the L by the composite of two rectangles: closed form.
TEST(Centroid, OfAnLIsTheWeightedMeanOfItsRectangles) {
  const Vec2 c = centroid(kL);
  EXPECT_NEAR(c.x, (12 * 3.0 + 6 * 1.0) / 18, 1e-12);
  EXPECT_NEAR(c.y, (12 * 1.0 + 6 * 3.5) / 18, 1e-12);
}

TEST(CrossesItself, SeesABowTieAndATouchButNotAnL) {
  EXPECT_FALSE(crosses_itself(kL));
  EXPECT_TRUE(crosses_itself({{0, 0}, {2, 2}, {2, 0}, {0, 2}}));
  EXPECT_TRUE(crosses_itself({{0, 0}, {4, 0}, {4, 4}, {2, 0}, {0, 4}}));  // a corner on an edge
  EXPECT_TRUE(crosses_itself({{0, 0}, {4, 0}, {1, 0}, {1, 3}}));          // folds back on itself
}

// By definition: its edges are the pairs of points that have all others on their left.
TEST(ConvexHull, HasTheEdgesThatLeaveAllPointsOnTheirLeft) {
  Random random(19);
  for (int i = 0; i < 50; ++i) {
    std::vector<Vec2> points;
    for (int k = 0; k < 25; ++k) points.push_back({random.between(0, 9), random.between(0, 7)});
    std::vector<std::pair<double, double>> expected, corners;
    for (const Vec2 a : points) {
      for (const Vec2 b : points) {
        const bool is_edge = !(a == b) && std::all_of(points.begin(), points.end(), [&](Vec2 p) {
          return p == a || p == b || cross(b - a, p - a) > 0;
        });
        if (is_edge) expected.emplace_back(a.x, a.y);
      }
    }
    for (const Vec2 p : convex_hull(points)) corners.emplace_back(p.x, p.y);
    std::sort(expected.begin(), expected.end());
    std::sort(corners.begin(), corners.end());
    EXPECT_EQ(corners, expected);
  }
  EXPECT_EQ(convex_hull({{2, 2}, {0, 0}, {1, 1}}), (Polygon{{0, 0}, {2, 2}}));
  EXPECT_TRUE(convex_hull({}).empty());
}

TEST(ConvexParts, CoverRandomOutlinesExactlyOnce) {
  Random random(7);
  for (int round = 0; round < 300; ++round) {
    const Polygon outline = random_outline(random, 3 + random.below(12));
    const auto parts = convex_parts(outline);
    EXPECT_NEAR(sum_of_areas(parts), area(outline), 1e-9) << "round " << round;
    for (const Polygon& part : parts) EXPECT_TRUE(is_convex(part)) << "round " << round;
    for (int k = 0; k < 20; ++k) {
      const Vec2 p{random.between(-4, 4), random.between(-4, 4)};
      if (distance_to_outline(p, outline) < 1e-6) continue;
      int held = 0;
      bool on_a_seam = false;
      for (const Polygon& part : parts) {
        held += contains(part, p);
        on_a_seam = on_a_seam || distance_to_outline(p, part) < 1e-9;
      }
      if (on_a_seam) continue;
      EXPECT_EQ(held, contains(outline, p) ? 1 : 0) << "round " << round;
    }
  }
}

TEST(ConvexCover, OfAnLHoldsBothOfItsLongRectangles) {
  const auto cover = convex_cover(kL);
  const auto has = [&](double size) {
    return std::any_of(cover.begin(), cover.end(),
                       [&](const Polygon& part) { return std::abs(area(part) - size) < 1e-9; });
  };
  EXPECT_TRUE(has(6 * 2));
  EXPECT_TRUE(has(2 * 5));
}

TEST(ConvexCover, NeverReachesOutsideTheOutline) {
  Random random(11);
  for (int round = 0; round < 200; ++round) {
    const Polygon outline = random_outline(random, 4 + random.below(5));
    for (const Polygon& part : convex_cover(outline)) {
      EXPECT_TRUE(is_convex(part));
      const Vec2 c = centroid(part);
      if (area(part) < 1e-6 || distance_to_outline(c, outline) < 1e-6) continue;
      EXPECT_TRUE(contains(outline, c)) << "round " << round;
    }
  }
}

TEST(OutsideAndSharedParts, AddUpToTheWhole) {
  Random random(13);
  for (int round = 0; round < 300; ++round) {
    const Polygon a = rectangle_about({random.between(-1, 1), random.between(-1, 1)}, {3, 2},
                                      random.between(0, 3));
    const Polygon b = rectangle_about({random.between(-1, 1), random.between(-1, 1)}, {2, 2.5},
                                      random.between(0, 3));
    const Polygon shared = shared_part(a, b);
    const double inside = shared.empty() ? 0 : area(shared);
    EXPECT_NEAR(inside + sum_of_areas(outside_parts(a, b)), area(a), 1e-9) << "round " << round;
  }
}

TEST(Inset, OfARectangleLosesTwiceTheMarginEachWay) {
  EXPECT_NEAR(area(inset(rectangle({0, 0}, {3.6, 1.2}, 0.3), 0.05)), 3.5 * 1.1, 1e-12);
  EXPECT_TRUE(inset(rectangle({0, 0}, {3.6, 1.2}, 0.3), 0.7).empty());
  EXPECT_NEAR(area(inset(kL, 0.1)), 18 - 0.1 * 22 + 4 * 0.01,
              1e-12);  // A − m P + 4 m², five corners out, one in
}

TEST(Rectangle, TurnsAnticlockwiseAboutItsCorner) {
  const Polygon r = rectangle({1, 1}, {2, 1}, std::numbers::pi / 2);
  EXPECT_NEAR(r[1].x, 1, 1e-12);
  EXPECT_NEAR(r[1].y, 3, 1e-12);
  EXPECT_NEAR(r[3].x, 0, 1e-12);
}

TEST(RoundPolygon, HasTheAreaOfTheCircle) {
  for (const int sides : {5, 8, 12})
    EXPECT_NEAR(area(round_polygon({3, 4}, 0.7, sides)), std::numbers::pi * 0.49, 1e-12);
}

TEST(LongDirection, FollowsTheLongSideHoweverTurned) {
  for (const double turn : {0.0, 0.4, 1.2, 2.9}) {
    const Vec2 d = long_direction(rectangle({0, 0}, {5, 2}, turn));
    EXPECT_NEAR(std::abs(dot(d, turned({1, 0}, turn))), 1, 1e-9);
  }
}

}  // namespace
}  // namespace spadework::geometry
