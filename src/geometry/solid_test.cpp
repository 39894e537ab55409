#include "geometry/solid.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "base/random.h"
#include "geometry/polygon.h"

namespace spadework::geometry {
namespace {

double chord(const std::optional<std::pair<double, double>>& stretch) {
  return stretch ? stretch->second - stretch->first : 0;
}

TEST(RayInside, AUnitBoxIsCrossedOverItsWidth) {
  const Solid box = prism(rectangle({0, 0}, {1, 1}, 0), Incline{0, {}}, Incline{1, {}});
  EXPECT_NEAR(chord(ray_inside(box, {-2, 0.5, 0.5}, {1, 0, 0})), 1, 1e-12);
  EXPECT_FALSE(ray_inside(box, {-2, 1.5, 0.5}, {1, 0, 0}));
  EXPECT_FALSE(ray_inside(box, {2, 0.5, 0.5}, {1, 0, 0}));                      // it lies behind
  EXPECT_NEAR(chord(ray_inside(box, {0.5, 0.5, 0.5}, {0, 0, 1})), 0.5, 1e-12);  // from within
}

TEST(RayInside, ASlantingTopCutsTheRayWhereItsPlaneLies) {
  // The top rises from 1 at x = 0 to 2 at x = 1.
  const Solid wedge = prism(rectangle({0, 0}, {1, 1}, 0), Incline{0, {}}, Incline{1, {1, 0}});
  EXPECT_NEAR(chord(ray_inside(wedge, {0.25, 0.5, 0}, {0, 0, 1})), 1.25, 1e-12);
  EXPECT_NEAR(chord(ray_inside(wedge, {-1, 0.5, 1.5}, {1, 0, 0})), 0.5, 1e-12);
}

// Chords of a sphere: 2 √(R² − d²) for a ray at distance d from the middle. Closed form.
TEST(RayInside, ASpheresChordFollowsTheClosedForm) {
  const RoundSolid sphere{RoundShape::kEllipsoid, {3, 4}, 1, 5, 2};
  for (const double d : {0.0, 0.7, 1.9}) {
    EXPECT_NEAR(chord(ray_inside(sphere, {-9, 4 + d, 3}, {1, 0, 0})), 2 * std::sqrt(4 - d * d),
                1e-9);
  }
  EXPECT_FALSE(ray_inside(sphere, {-9, 6.01, 3}, {1, 0, 0}));
}

TEST(RayInside, ColumnConeAndDomeFollowTheirClosedForms) {
  const RoundSolid column{RoundShape::kColumn, {0, 0}, 1, 5, 2};
  EXPECT_NEAR(chord(ray_inside(column, {0.5, 0.5, -3}, {0, 0, 1})), 4, 1e-12);
  EXPECT_NEAR(chord(ray_inside(column, {-9, 1, 3}, {1, 0, 0})), 2 * std::sqrt(3), 1e-12);
  const RoundSolid cone{RoundShape::kCone, {0, 0}, 1, 5, 2};
  EXPECT_NEAR(chord(ray_inside(cone, {-9, 0, 3}, {1, 0, 0})), 2, 1e-12);  // radius 1 half way up
  EXPECT_NEAR(chord(ray_inside(cone, {1, 0, -3}, {0, 0, 1})), 2, 1e-12);  // up to where r = 1
  EXPECT_NEAR(chord(ray_inside(cone, {0, 0, 9}, {0, 0, -1})), 4, 1e-12);  // along the axis
  const RoundSolid dome{RoundShape::kDome, {0, 0}, 1, 3, 2};              // a half sphere
  EXPECT_NEAR(chord(ray_inside(dome, {0, 0, -3}, {0, 0, 1})), 2, 1e-12);
  EXPECT_NEAR(chord(ray_inside(dome, {-9, 0, 2}, {1, 0, 0})), 2 * std::sqrt(3), 1e-12);
  EXPECT_FALSE(ray_inside(dome, {-9, 0, 0.5}, {1, 0, 0}));
}

bool holds(const RoundSolid& s, Vec3 p) {
  if (p.z < s.bottom_z || p.z > s.top_z) return false;
  const double r = length(p.plan() - s.axis), up = (p.z - s.bottom_z) / (s.top_z - s.bottom_z);
  switch (s.shape) {
    case RoundShape::kColumn:
      return r <= s.radius;
    case RoundShape::kCone:
      return r <= s.radius * (1 - up);
    case RoundShape::kDome:
      return r * r <= s.radius * s.radius * (1 - up * up);
    case RoundShape::kEllipsoid:
      return r * r / (s.radius * s.radius) + (2 * up - 1) * (2 * up - 1) <= 1;
  }
  return false;
}

// Independent of the roots of quadratics: points along the ray, told by the shape's definition.
TEST(RayInside, RoundSolidsAgreeWithPointsAlongTheRay) {
  Random random(17);
  for (int round = 0; round < 2000; ++round) {
    const RoundSolid s{static_cast<RoundShape>(random.below(4)),
                       {0.3, -0.2},
                       0.5,
                       random.between(1, 6),
                       random.between(0.3, 3)};
    const Vec3 from{random.between(-5, 5), random.between(-5, 5), random.between(-1, 6)};
    const Vec3 toward{random.between(-1, 1), random.between(-1, 1), random.between(-1, 1)};
    if (length(toward) < 0.1) continue;
    const auto stretch = ray_inside(s, from, toward);
    int inside = 0;
    constexpr int kSteps = 2000;
    const double far = 15 / length(toward);
    for (int k = 0; k < kSteps; ++k) inside += holds(s, from + toward * (far * (k + 0.5) / kSteps));
    EXPECT_NEAR(chord(stretch), far * inside / kSteps, 3 * far / kSteps) << "round " << round;
  }
}

TEST(EnclosingCorners, EncloseTheSolidClosely) {
  for (const RoundShape shape :
       {RoundShape::kEllipsoid, RoundShape::kColumn, RoundShape::kCone, RoundShape::kDome}) {
    const RoundSolid s{shape, {1, 2}, 0.5, 4.5, 2};
    // As far as the solid reaches in any direction, and at most a tenth farther.
    Random random(19);
    for (int k = 0; k < 200; ++k) {
      const Vec3 d{random.between(-1, 1), random.between(-1, 1), random.between(-1, 1)};
      double hull = -1e9, solid = -1e9;
      for (const Vec3& c : enclosing_corners(s)) hull = std::max(hull, dot(d, c));
      for (int i = 0; i <= 40; ++i) {
        for (int j = 0; j < 80; ++j) {
          const double z = 0.5 + 4.0 * i / 40, turn = 2 * std::numbers::pi * j / 80;
          for (double r = 2; r >= 0; r -= 0.1) {
            const Vec3 p{1 + r * std::cos(turn), 2 + r * std::sin(turn), z};
            if (holds(s, p)) {
              solid = std::max(solid, dot(d, p));
              break;
            }
          }
        }
      }
      EXPECT_GE(hull, solid - 1e-9);
      EXPECT_LE(hull, solid + 0.45 * length(d));
    }
  }
}

}  // namespace
}  // namespace spadework::geometry
