// The light of crowns, hedges and screens beside Embree, an independent ray tracer (see
// embree_light_test.cpp): rays go on through everything that lets light through, and what they
// passed weakens them by Beer and Lambert. Embree knows round shapes by their triangles.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "light/caster.h"
#include "light/sky_light.h"
#include "tests/oracle/embree_bodies.h"
#include "tests/oracle/random_gardens.h"

namespace spadework::light {
namespace {

using namespace testing;  // NOLINT: suns and bodies
using geometry::dot;
using geometry::frustum;
using oracle::OpaqueScene;
using oracle::random_solid;
using oracle::VeilScene;

constexpr int kGardens = 100;
constexpr int kCells = 30;  // along each side of a receiver
constexpr double kCell_m = 0.4;
constexpr int kSuns = 12;
constexpr int kSkyDirectionsHere = 121;
constexpr int kEverySkyCell = 57;  // one cell of so many, spread over rows and columns

constexpr int kFirstLeaf = 110, kLastLeaf = 300;  // days of the year

std::vector<float> depths(Random& random, double least, double most) {
  const auto full = static_cast<float>(random.between(least, most));
  if (random.below(2) == 0) return {full};  // evergreen
  std::vector<float> by_day(366, 0.2F * full);
  for (std::size_t day = kFirstLeaf; day < kLastLeaf; ++day) by_day[day] = full;
  return by_day;
}

/// Something that lets light through: a crown of any of the four shapes, a hedge, a tent of net.
Body random_veil(Random& random, int number, Vec2 ground_slope) {
  const Vec2 middle{random.between(-1, 13), random.between(-1, 13)};
  const double low = dot(ground_slope, middle) + random.between(-0.5, 2);
  const double high = low + random.between(0.8, 4.5), radius = random.between(0.4, 2.5);
  Body veil{"veil" + std::to_string(number), {}, Through::kPerMetre, {}};
  veil.depth = depths(random, 0.05, 1.5);
  if (number % 6 < 4) {
    veil.shape = RoundSolid{static_cast<RoundShape>(number % 6), middle, low, high, radius};
  } else if (number % 6 == 4) {
    veil.shape = box(middle, random.between(1, 6), random.between(0.2, 1), low - 1, high - 1,
                     random.between(0, 7));
  } else {
    veil.shape = frustum(random_footprint(random, middle, radius, 3 + random.below(6)), low,
                         {middle.x + 0.1, middle.y, high}, random.between(0.2, 1));
  }
  if (random.below(4) == 0) {
    veil.through = Through::kPerCrossing;
    veil.depth = depths(random, 0.1, 1.5);
  }
  return veil;
}

std::vector<Body> random_garden(Random& random, Vec2 slope) {
  std::vector<Body> bodies;
  for (int i = 1 + random.below(4); i > 0; --i)
    bodies.push_back(opaque("thing" + std::to_string(i), random_solid(random, slope)));
  bodies.push_back(opaque(  // and something round: a stem, a topiary
      "round", RoundSolid{static_cast<RoundShape>(random.below(4)),
                          {random.between(0, 12), random.between(0, 12)},
                          random.between(-1, 1),
                          random.between(1.5, 4),
                          random.between(0.1, 1)}));
  const int first = random.below(6);
  for (int i = 4 + random.below(7); i > 0; --i)
    bodies.push_back(random_veil(random, first + i, slope));
  return bodies;
}

constexpr std::array kKinds{"level", "low",  "among_crowns", "above",
                            "slope", "face", "wide",         "tall"};

std::vector<Receiver> receivers_of(Random& random, Vec2 slope) {
  const double half = kCells * kCell_m / 2, turn = random.between(0, 7);
  const Vec2 corner = Vec2{6, 6} + geometry::turned({-half, -half}, turn);
  const auto level = [&](double z) {
    return level_receiver(corner, turn, z, kCell_m, kCells, kCells);
  };
  Receiver face = level_receiver({}, 0, 0, kCell_m, kCells, kCells);
  const double bearing = random.between(0, 7);
  face.w_axis = {std::cos(bearing), std::sin(bearing), 0};
  face.u_axis = {-std::sin(bearing), std::cos(bearing), 0};
  face.v_axis = {0, 0, 1};
  face.origin = Vec3{6, 6, -4} - face.u_axis * half;
  return {level_receiver({0.01, 0.02}, 0, 0, kCell_m, kCells, kCells),
          level(random.between(0.1, 1)),
          level(random.between(1, 3.5)),
          level(random.between(3.5, 6)),
          ground_receiver({0.01, 0.02}, 0.003, slope, kCell_m, kCells, kCells),
          face,
          level_receiver({0, random.between(1, 11)}, 0.03, 0.1, 0.04, 300, 4),  // two tiles across
          level_receiver({random.between(1, 11), 0}, 0.03, 0.1, 0.05, 5, 240)};
}

/// One sun a month, each on a day of its own, with light 1.
std::vector<SunSample> random_suns(Random& random) {
  std::vector<SunSample> suns;
  for (int i = 0; i < kSuns; ++i) {
    suns.push_back(sample(toward(random.between(2, 88), random.between(0, 360)),
                          1 + random.below(366), i, i % kParts));
    suns.back().light = 1;
  }
  return suns;
}

/// A garden as Embree sees it.
struct Traced {
  OpaqueScene opaque;
  VeilScene veils;
  explicit Traced(const std::vector<Body>& bodies) : opaque(bodies), veils(bodies) {}

  /// Infinite behind opaque things.
  [[nodiscard]] double depth(Vec3 at, Vec3 toward, int day) const {
    if (!opaque.sunlit(at, toward)) return std::numeric_limits<double>::infinity();
    return veils.depth(veils.chords(at, toward), day);
  }
};

struct Tally {
  long long asked = 0, lit = 0, veiled = 0, differ = 0;
  long long far_off = 0;     // by over 2 % of the open light
  double off = 0, bias = 0;  // of the light, in sum
  double veiled_off = 0;     // of it, behind crowns
  long long sky_asked = 0;
  double sky_off = 0;
};

void compare_sun(const Scene& scene, const Traced& traced, const Receiver& receiver,
                 const std::vector<SunSample>& suns, Tally& tally) {
  const BeamLight ours = cast_light(scene, receiver, suns);
  for (const SunSample& sun : suns) {
    const double cosine = dot(receiver.w_axis, sun.toward_sun) / geometry::length(receiver.w_axis);
    const auto& light = ours.beam_mol_m2[sun.month];
    if (cosine <= 1e-6) {
      ASSERT_TRUE(light.empty());
      continue;
    }
    for (int cell = 0; cell < receiver.cells(); ++cell) {
      const Vec3 at = cell_centre(receiver, cell % receiver.columns, cell / receiver.columns);
      const double depth = traced.depth(at, sun.toward_sun, sun.day_of_year);
      const bool lit = depth <= static_cast<double>(kMostDepth);
      const auto index = static_cast<std::size_t>(cell);
      const double off = static_cast<double>(light[index]) / cosine - std::exp(-depth);
      ++tally.asked, tally.lit += lit;
      tally.differ += lit != (ours.lit.at(sun.month, sun.part, index) == 1);
      tally.off += std::abs(off), tally.bias += off;
      tally.far_off += std::abs(off) > 0.02;
      if (!(depth > 0) || std::isinf(depth)) continue;
      ++tally.veiled, tally.veiled_off += std::abs(off);
    }
  }
}

void compare_sky(const Scene& scene, const Traced& traced, const Receiver& receiver, Tally& tally) {
  const auto sky = sky_over(receiver, {}, degrees(0), kSkyDirectionsHere);
  const SkyLight ours = cast_sky(scene, receiver, sky);
  for (int cell = 3; cell < receiver.cells(); cell += kEverySkyCell) {
    const Vec3 at = cell_centre(receiver, cell % receiver.columns, cell / receiver.columns);
    // The middles of January and July: without leaves and with them.
    std::array<double, 2> uniform{}, overcast{};
    for (const SkyDirection& direction : sky) {
      if (!traced.opaque.sunlit(at, direction.toward)) continue;
      const VeilScene::Chords chords = traced.veils.chords(at, direction.toward);
      for (std::size_t season = 0; season < 2; ++season) {
        const double passed = std::exp(-traced.veils.depth(chords, season == 0 ? 16 : 197));
        uniform[season] += passed * static_cast<double>(direction.uniform);
        overcast[season] += passed * static_cast<double>(direction.overcast);
      }
    }
    for (std::size_t season = 0; season < 2; ++season) {
      const auto state = static_cast<std::size_t>(ours.state_of_month[season == 0 ? 0 : 6]);
      const auto index = static_cast<std::size_t>(cell);
      tally.sky_asked += 2;
      tally.sky_off +=
          std::abs(static_cast<double>(ours.uniform[state][index]) - uniform[season]) +
          std::abs(static_cast<double>(ours.overcast[state][index]) - overcast[season]);
    }
  }
}

void record(const std::string& kind, const Tally& tally) {
  const auto share = [&](const char* what, double part, double whole) {
    ::testing::Test::RecordProperty(kind + what, std::to_string(part / whole));
  };
  const auto asked = static_cast<double>(tally.asked);
  ::testing::Test::RecordProperty(kind + "_asked", std::to_string(tally.asked));
  share("_veiled_share", static_cast<double>(tally.veiled), asked);
  share("_lit_differs_share", static_cast<double>(tally.differ), asked);
  share("_light_off", tally.off, asked);
  share("_light_bias", tally.bias, asked);
  share("_light_off_behind_crowns", tally.veiled_off, static_cast<double>(tally.veiled));
  share("_far_off_share", static_cast<double>(tally.far_off), asked);
  share("_sky_off", tally.sky_off, static_cast<double>(tally.sky_asked));
}

// Within 0.1 % of the open light in the mean over cells and directions, and over those behind
// crowns alone: the strips of triangles stand off a round crown by a thousandth of its radius.
TEST(Crowns, LetThroughWhatEmbreeTracesThroughThemIn100RandomGardens) {
  std::array<Tally, kKinds.size()> tallies;
  for (int garden = 0; garden < kGardens; ++garden) {
    Random random(static_cast<std::uint64_t>(9100 + garden));
    const Vec2 slope{random.between(-0.3, 0.3), random.between(-0.3, 0.3)};
    const std::vector<Body> bodies = random_garden(random, slope);
    const Traced traced(bodies);
    const Scene scene(bodies);
    ASSERT_EQ(scene.bodies().size(), bodies.size()) << "garden " << garden;
    const std::vector<SunSample> suns = random_suns(random);
    const std::vector<Receiver> receivers = receivers_of(random, slope);
    for (std::size_t r = 0; r < receivers.size(); ++r) {
      compare_sun(scene, traced, receivers[r], suns, tallies[r]);
      compare_sky(scene, traced, receivers[r], tallies[r]);
    }
  }
  for (std::size_t r = 0; r < tallies.size(); ++r) {
    const Tally& tally = tallies[r];
    const auto asked = static_cast<double>(tally.asked);
    record(kKinds[r], tally);
    EXPECT_LE(tally.off, 0.001 * asked) << kKinds[r];
    EXPECT_LE(tally.veiled_off, 0.001 * static_cast<double>(tally.veiled)) << kKinds[r];
    EXPECT_LE(static_cast<double>(tally.far_off), 0.0002 * asked) << kKinds[r];
    EXPECT_LE(std::abs(tally.bias), 0.0005 * asked) << kKinds[r];
    EXPECT_LE(static_cast<double>(tally.differ), 0.001 * asked) << kKinds[r];
    EXPECT_LE(tally.sky_off, 0.001 * static_cast<double>(tally.sky_asked)) << kKinds[r];
    // Crowns in the way, light and shade: else nothing would be proved.
    EXPECT_GT(tally.asked, 100'000) << kKinds[r];
    EXPECT_GT(static_cast<double>(tally.veiled), 0.03 * asked) << kKinds[r];
    EXPECT_GT(static_cast<double>(tally.lit), 0.2 * asked) << kKinds[r];
    EXPECT_LT(static_cast<double>(tally.lit), 0.98 * asked) << kKinds[r];
  }
}

// The tracer itself: chords of a ball, closed form, from outside and from within.
TEST(EmbreeTracer, FindsTheChordsOfABall) {
  const Body ball{
      "ball", RoundSolid{RoundShape::kEllipsoid, {1, 2}, 1, 5, 2}, Through::kPerMetre, {0.5F}};
  const VeilScene veils({ball});
  const Vec3 middle{1, 2, 3}, toward{0.48, 0.6, 0.64}, across{0.8, -0.64, 0};
  EXPECT_NEAR(veils.chords(middle, toward)[0], 2, 0.003);
  EXPECT_NEAR(veils.chords(middle - toward * 9, toward)[0], 4, 0.006);
  EXPECT_NEAR(veils.chords(middle - toward, toward)[0], 3, 0.004);
  EXPECT_EQ(veils.chords(middle + toward * 2.1, toward)[0], 0);
  EXPECT_NEAR(veils.chords(middle - toward * 9 + across, toward)[0],
              2 * std::sqrt(4 - dot(across, across)), 0.01);
  EXPECT_NEAR(veils.depth(veils.chords(middle, toward), 1), 1, 0.002);
}

}  // namespace
}  // namespace spadework::light
