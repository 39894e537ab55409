// Hulls: corners and edges against counts and volumes known in closed form.
#include "light/hull.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>
#include <string>
#include <vector>

#include "light/light_testing.h"

namespace spadework::light {
namespace {

using namespace testing;  // NOLINT: suns and bodies
using geometry::dot;
using geometry::frustum;
using geometry::prism;

std::vector<Vec2> ring(int sides) {
  std::vector<Vec2> corners;
  for (int i = 0; i < sides; ++i)
    corners.push_back(geometry::turned({2, 0}, 2 * std::numbers::pi * (i + 0.1) / sides));
  return corners;
}

/// Every corner of the part lies on or within every face, and each edge's two faces hold both its
/// ends.
void expect_sound(const Hull& hull, const std::string& which) {
  for (const Vec3& p : hull.corners) {
    for (const geometry::HalfSpace& face : hull.faces)
      EXPECT_LE(dot(face.normal, p), face.offset + 1e-9) << which;
  }
  for (const HullEdge& edge : hull.edges) {
    for (const std::int32_t f : {edge.face_a, edge.face_b}) {
      if (f < 0) continue;
      const geometry::HalfSpace& face = hull.faces[static_cast<std::size_t>(f)];
      for (const std::uint32_t end : {edge.from, edge.to})
        EXPECT_NEAR(dot(face.normal, hull.corners[end]), face.offset, 1e-6) << which;
    }
  }
}

/// Euler: corners − edges + faces = 2.
int euler(const Hull& hull, int faces) {
  return static_cast<int>(hull.corners.size()) - static_cast<int>(hull.edges.size()) + faces;
}

TEST(Hull, OfPrismsHasTheirCornersAndEdges) {
  for (int sides = 3; sides <= 90; ++sides) {  // beyond 64: more faces than bits in a word
    const auto hull = hull_of(prism(ring(sides), {0, {}}, {3, {0.2, -0.1}}));
    ASSERT_TRUE(hull);
    EXPECT_TRUE(hull->told_by_faces);
    EXPECT_EQ(hull->corners.size(), static_cast<std::size_t>(2 * sides));
    EXPECT_EQ(hull->edges.size(), static_cast<std::size_t>(3 * sides));
    EXPECT_EQ(euler(*hull, sides + 2), 2);
    expect_sound(*hull, std::to_string(sides));
  }
}

TEST(Hull, OfAPyramidHasOneTip) {
  const auto hull = hull_of(frustum(ring(7), 0, {0.2, 0.1, 3}, 1));
  ASSERT_TRUE(hull);
  EXPECT_EQ(hull->corners.size(), 8U);
  EXPECT_EQ(hull->edges.size(), 14U);
  expect_sound(*hull, "pyramid");
}

TEST(Hull, OfARidgeWhereTwoCornersFallTogetherIsAWedge) {
  // The top meets the bottom along the side at x = 2: a wedge of 6 corners, 9 edges, 5 faces.
  const auto hull = hull_of(prism(rectangle({0, 0}, 2, 3, 0), {0, {}}, {2, {-1, 0}}));
  ASSERT_TRUE(hull);
  EXPECT_EQ(hull->corners.size(), 6U);
  expect_sound(*hull, "wedge");
  // The side at x = 2 has no height: its face holds nothing but the wedge's thin edge.
  std::set<std::pair<std::uint32_t, std::uint32_t>> edges;
  for (const HullEdge& edge : hull->edges) edges.insert(std::minmax(edge.from, edge.to));
  EXPECT_EQ(edges.size(), 9U);
}

TEST(Hull, OfWhatHasNoVolumeIsNothing) {
  EXPECT_FALSE(hull_of(Solid{}));
  EXPECT_FALSE(hull_of(box({0, 0}, 2, 3, 1, 1)));
  EXPECT_FALSE(hull_of(box({0, 0}, 0, 3, 0, 1, 0.4)));
  EXPECT_FALSE(hull_of(box({0, 0}, 0, 0, 0, 1)));
  EXPECT_TRUE(hull_of(box({0, 0}, 2, 3, 0, 0.001)));
}

TEST(Hull, WhoseFacesAreMissingDrawsEveryPairOfCorners) {
  Solid bare = box({0, 0}, 1, 1, 0, 1);
  bare.faces.clear();
  const auto hull = hull_of(bare);
  ASSERT_TRUE(hull);
  EXPECT_FALSE(hull->told_by_faces);
  EXPECT_EQ(hull->edges.size(), 28U);  // 8 · 7 / 2
}

const Vec3 kUp{0, 0, 1};

TEST(PartAbove, IsTheWholeOrNothingWhereThePlaneMissesTheBody) {
  const auto hull = hull_of(box({0, 0}, 1, 1, 1, 2));
  ASSERT_TRUE(hull);
  const auto whole = part_above(*hull, {0, 0, 1}, kUp, 1e-6);
  ASSERT_TRUE(whole);
  EXPECT_EQ(whole->corners.size(), 8U);
  EXPECT_EQ(whole->faces.size(), hull->faces.size());
  EXPECT_FALSE(part_above(*hull, {0, 0, 2}, kUp, 1e-6));
  EXPECT_FALSE(part_above(*hull, {0, 0, 3}, kUp, 1e-6));
  EXPECT_FALSE(part_above(*hull, {0, 0, 1.995}, kUp, 0.01));  // what rises 5 mm is passed over
  EXPECT_TRUE(part_above(*hull, {0, 0, 1.995}, kUp, 1e-6));
}

TEST(PartAbove, OfACubeCutAcrossItsDiagonalIsHalfOfItWithASixSidedFoot) {
  const auto cube = hull_of(box({-1, -1}, 2, 2, -1, 1));
  ASSERT_TRUE(cube);
  const auto half = part_above(*cube, {0, 0, 0}, {3, 3, 3}, 1e-6);
  ASSERT_TRUE(half);
  // Closed form: 4 of 8 corners lie above, and the plane meets 6 edges in their middles.
  EXPECT_EQ(half->corners.size(), 10U);
  EXPECT_EQ(half->edges.size(), 15U);
  EXPECT_EQ(euler(*half, 7), 2);
  expect_sound(*half, "half a cube");
  int middles = 0;
  for (const Vec3& p : half->corners) {
    if (std::abs(p.x + p.y + p.z) > 1e-12) continue;
    ++middles;
    EXPECT_NEAR(geometry::length(p), std::numbers::sqrt2, 1e-12);
  }
  EXPECT_EQ(middles, 6);
}

TEST(PartAbove, ThroughCornersKeepsThemOnce) {
  // A plane through a vertical edge's two corners and two others: the prism over a triangle.
  const auto cube = hull_of(box({0, 0}, 1, 1, 0, 1));
  ASSERT_TRUE(cube);
  const auto half = part_above(*cube, {0, 0, 0}, {1, -1, 0}, 1e-6);
  ASSERT_TRUE(half);
  EXPECT_EQ(half->corners.size(), 6U);
  EXPECT_EQ(half->edges.size(), 9U);
  expect_sound(*half, "triangle");
}

TEST(PartAbove, OfRandomPrismsAndPlanesIsSound) {
  Random random(5);
  int cut = 0;
  for (int i = 0; i < 500; ++i) {
    const auto hull = hull_of(prism(random_footprint(random, {0, 0}, 2, 3 + random.below(8)),
                                    {-1, {}}, {2, {random.between(-0.3, 0.3), 0.1}}));
    ASSERT_TRUE(hull);
    const Vec3 normal{random.between(-1, 1), random.between(-1, 1), random.between(-1, 1)};
    const auto part =
        part_above(*hull, {random.between(-1, 1), random.between(-1, 1), 0.5}, normal, 1e-6);
    if (!part) continue;
    ++cut;
    EXPECT_TRUE(part->told_by_faces) << i;
    expect_sound(*part, std::to_string(i));
  }
  EXPECT_GT(cut, 400);
}

}  // namespace
}  // namespace spadework::light
