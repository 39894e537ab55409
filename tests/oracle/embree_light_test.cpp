// The shadow caster beside Embree, an independent ray tracer: Wald I, Woop S, Benthin C, Johnson
// GS, Ernst M (2014) Embree: a kernel framework for efficient CPU ray tracing. ACM Transactions on
// Graphics 33(4):143. Version 3 in robust mode; Apache-2.0. It knows the solids by triangles only.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "light/caster.h"
#include "tests/oracle/embree_bodies.h"
#include "tests/oracle/random_gardens.h"

namespace spadework::light {
namespace {

using namespace testing;  // NOLINT: suns and bodies
using geometry::dot;
using oracle::OpaqueScene;
using oracle::random_solid;

constexpr int kGardens = 200;
constexpr int kCells = 48;  // along each side of a receiver
constexpr double kCell_m = 0.25;

std::vector<Receiver> receivers_of(Random& random, Vec2 ground_slope) {
  const double turn = random.between(0, 7);
  // The garden's square turned about its middle.
  const double half = kCells * kCell_m / 2;
  const Vec2 corner = Vec2{6, 6} + geometry::turned({-half, -half}, turn);
  Receiver face = level_receiver({}, 0, 0, kCell_m, kCells, kCells);
  const double bearing = random.between(0, 7);
  face.w_axis = {std::cos(bearing), std::sin(bearing), 0};
  face.u_axis = {-std::sin(bearing), std::cos(bearing), 0};
  face.v_axis = {0, 0, 1};
  face.origin = Vec3{6, 6, -3} - face.u_axis * half;
  return {level_receiver({0.01, 0.02}, 0, 0, kCell_m, kCells, kCells),
          level_receiver(corner, turn, random.between(0.1, 1), kCell_m, kCells, kCells),
          level_receiver(corner, turn, random.between(1, 3.5), kCell_m, kCells, kCells),
          ground_receiver({0.01, 0.02}, 0.003, ground_slope, kCell_m, kCells, kCells), face};
}

/// One sun for each month and part of the day, so that each can be told from the counts.
std::vector<SunSample> random_suns(Random& random) {
  std::vector<SunSample> suns;
  for (int i = 0; i < kMonths * kParts; ++i)
    suns.push_back(
        sample(toward(random.between(1, 88), random.between(0, 360)), 1, i / kParts, i % kParts));
  return suns;
}

struct Tally {
  long long asked = 0, lit = 0, differ = 0, far_from_an_edge = 0;
};

/// Whether Embree itself tells the given answer somewhere on the receiver within one cell of the
/// centre of a cell: on rings from a hundred-thousandth of a cell to one cell.
bool told_within_a_cell(const OpaqueScene& triangles, const Receiver& receiver, int column, int row,
                        Vec3 sun, bool answer) {
  const Vec3 at = cell_centre(receiver, column, row);
  const Vec3 across = cell_centre(receiver, column + 1, row) - at;
  const Vec3 up = cell_centre(receiver, column, row + 1) - at;
  for (double radius = 1e-5; radius <= 1; radius *= std::sqrt(10.0)) {
    for (int k = 0; k < 32; ++k) {
      const double turn = 2 * std::numbers::pi * k / 32;
      const Vec3 off = across * (radius * std::cos(turn)) + up * (radius * std::sin(turn));
      if (triangles.sunlit(at + off, sun) == answer) return true;
    }
  }
  return false;
}

void compare(const Scene& scene, const OpaqueScene& triangles, const Receiver& receiver,
             const std::vector<SunSample>& suns, Tally& tally) {
  const LitCounts counts = cast(scene, receiver, suns);
  for (const SunSample& sun : suns) {
    if (dot(receiver.w_axis, sun.toward_sun) <= 1e-6) {
      ASSERT_TRUE(counts.plane(sun.month, sun.part).empty());
      continue;
    }
    for (int j = 0; j < receiver.rows; ++j) {
      for (int i = 0; i < receiver.columns; ++i) {
        const auto cell = static_cast<std::size_t>(j * receiver.columns + i);
        const bool ours = counts.at(sun.month, sun.part, cell) == 1;
        const bool theirs = triangles.sunlit(cell_centre(receiver, i, j), sun.toward_sun);
        ++tally.asked, tally.lit += theirs ? 1 : 0;
        if (ours == theirs) continue;
        ++tally.differ;
        if (!told_within_a_cell(triangles, receiver, i, j, sun.toward_sun, ours))
          ++tally.far_from_an_edge;
      }
    }
  }
}

// Of cells and directions at most 0.001 % may differ, as single precision and double disagree about
// centres a hundredth of a millimetre from the edge of a shadow; and every one lies at an edge.
TEST(ShadowCaster, SeesWhatEmbreeSeesIn200RandomGardens) {
  std::array<Tally, 5> tallies;
  for (int garden = 0; garden < kGardens; ++garden) {
    Random random(static_cast<std::uint64_t>(7000 + garden));
    const Vec2 slope{random.between(-0.3, 0.3), random.between(-0.3, 0.3)};
    std::vector<Body> bodies;
    for (int i = 4 + random.below(12); i > 0; --i)
      bodies.push_back(opaque("thing" + std::to_string(i), random_solid(random, slope)));
    const OpaqueScene triangles(bodies);
    const Scene scene(bodies);
    ASSERT_EQ(scene.bodies().size(), bodies.size()) << "garden " << garden;
    const std::vector<SunSample> suns = random_suns(random);
    const std::vector<Receiver> receivers = receivers_of(random, slope);
    for (std::size_t r = 0; r < receivers.size(); ++r) {
      const long long far_before = tallies[r].far_from_an_edge;
      compare(scene, triangles, receivers[r], suns, tallies[r]);
      EXPECT_EQ(tallies[r].far_from_an_edge, far_before)
          << "garden " << garden << ", receiver " << r;
    }
  }
  static constexpr const char* kNames[] = {"level", "turned_low", "turned_high", "slope", "face"};
  Tally all;
  for (std::size_t r = 0; r < tallies.size(); ++r) {
    const Tally& tally = tallies[r];
    RecordProperty(std::string(kNames[r]) + "_asked", std::to_string(tally.asked));
    RecordProperty(std::string(kNames[r]) + "_differ", std::to_string(tally.differ));
    EXPECT_LE(tally.differ * 100000, tally.asked) << kNames[r];
    // Light and shade both: a comparison in the dark would prove nothing.
    EXPECT_GT(tally.lit * 10, tally.asked) << kNames[r];
    EXPECT_LT(tally.lit * 10, tally.asked * 9) << kNames[r];
    all.asked += tally.asked, all.differ += tally.differ;
  }
  EXPECT_GE(all.asked, 50'000'000);
  EXPECT_LE(all.differ * 100000, all.asked);
}

}  // namespace
}  // namespace spadework::light
