// Quick moves against casting everything anew.
#include "light/moves.h"

#include <gtest/gtest.h>

#include "light/light_testing.h"

namespace spadework::light {
namespace {

using namespace testing;  // NOLINT: suns and bodies

Body crown(const std::string& id, Random& random, int shape) {
  Body tree{id,
            RoundSolid{static_cast<RoundShape>(shape),
                       {random.between(0, 12), random.between(0, 9)},
                       random.between(-0.5, 1.5),
                       random.between(2, 5),
                       random.between(0.8, 2.5)},
            Through::kPerMetre,
            {}};
  tree.depth.assign(366, static_cast<float>(random.between(0.05, 0.2)));
  for (std::size_t day = 115; day < 310; ++day) tree.depth[day] *= 4;
  return tree;
}

std::vector<Body> others(Random& random) {
  std::vector<Body> bodies;
  for (int i = 0; i < 6; ++i)
    bodies.push_back(
        opaque("box" + std::to_string(i),
               box({random.between(0, 12), random.between(0, 9)}, random.between(0.3, 4),
                   random.between(0.2, 1), 0, random.between(0.5, 2.5), random.between(0, 3))));
  for (int i = 0; i < 6; ++i) bodies.push_back(crown("tree" + std::to_string(i), random, i % 4));
  bodies.push_back({"net", box({3, 3}, 4, 3, 0.2, 0.8), Through::kPerCrossing, {0.3F}});
  return bodies;
}

void expect_same(const std::vector<Body>& fixed, const std::vector<Body>& moved,
                 const Receiver& receiver, const std::vector<SunSample>& suns, const Moves& moves) {
  std::vector<Body> all = fixed;
  all.insert(all.end(), moved.begin(), moved.end());
  EXPECT_EQ(moves.with(moved), cast(Scene(all), receiver, suns));
}

TEST(Moves, GiveWhatCastingEverythingAnewGives) {
  const std::vector<SunSample> suns = year_of_suns(48.4);
  for (int garden = 0; garden < 3; ++garden) {
    Random random(static_cast<std::uint64_t>(31 + garden));
    const std::vector<Body> fixed = others(random);
    const Receiver ground = garden == 0 ? level_receiver({0, 0}, 0, 0.02, 0.2, 60, 45)
                                        : ground_receiver({0, 0}, 0.1, {0.1, -0.05}, 0.25, 48, 36);
    const Moves moves(Scene(fixed), ground, suns, "it");
    for (int move = 0; move < 4; ++move) {
      const Body wall =
          opaque("it", box({random.between(0, 10), random.between(0, 8)}, 3, 0.3, 0, 2, 0.4));
      Body stem = opaque("it", box({4, 4}, 0.3, 0.3, 0, 2));
      const Body leaves = crown("it", random, move);
      expect_same(fixed, {wall}, ground, suns, moves);
      expect_same(fixed, {leaves}, ground, suns, moves);
      expect_same(fixed, {leaves, stem, crown("it", random, 0)}, ground, suns, moves);
    }
    expect_same(fixed, {}, ground, suns, moves);
  }
}

TEST(Moves, OfAThingOfTheSceneLeaveItsFirstPlace) {
  Random random(5);
  std::vector<Body> fixed = others(random);
  const Body tree = crown("it", random, 0);
  std::vector<Body> all = fixed;
  all.insert(all.begin(), tree);
  const std::vector<SunSample> suns = year_of_suns(-37);
  const Receiver ground = level_receiver({0, 0}, 0.3, 0.02, 0.25, 48, 36);
  const Moves moves(Scene(all), ground, suns, "it");
  expect_same(fixed, {}, ground, suns, moves);
  expect_same(fixed, {tree}, ground, suns, moves);
}

TEST(Moves, OnGridsWiderThanATileAndByThreadsAreTheSame) {
  Random random(6);
  const std::vector<Body> fixed = others(random);
  std::vector<SunSample> suns = year_of_suns(52);
  suns.resize(600);
  const Receiver ground = level_receiver({0, 0}, 0, 0.02, 0.04, 300, 225);
  CastOptions options;
  options.threads = 2;
  const Moves moves(Scene(fixed), ground, suns, "it", options);
  expect_same(fixed, {crown("it", random, 0)}, ground, suns, moves);
}

}  // namespace
}  // namespace spadework::light
