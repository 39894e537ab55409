// Plants and climbers as bodies of leaves: Beer and Lambert along rays, leaf area kept whole,
// growth by date, and no plant in its own shade.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <map>
#include <numbers>
#include <sstream>

#include "garden/bodies.h"
#include "light/light.h"
#include "tests/scenes.h"

namespace spadework::testing {
namespace {

using facts::Crop;
using garden::Body;
using geometry::Vec3;

constexpr int kJuly = 200, kJanuary = 15;

std::vector<Body> bodies_of(const std::string& text) {
  study::Study study = study_of(text);
  auto stand = study.stand("proposed");
  EXPECT_TRUE(stand.has_value());
  return (*stand)->bodies;
}

const Crop& crop(const std::string& name) {
  const Crop* found = catalogue().crops.find(name);
  EXPECT_NE(found, nullptr) << name;
  return *found;
}

/// K times the leaf area index: the depth straight down through full growth, or through a face.
double full_depth(const Crop& of) { return of.growth.extinction.value * of.growth.leaf_area.value; }

std::string plant(const std::string& what, const std::string& where) {
  return head(50, 0, "UTC") + "[[plant]]\nid = \"p\"\ncrop = \"" + what + "\"\n" + where;
}

double middle_spread(const Crop& of) {
  return in_metres(of.spread.value.min + of.spread.value.max) / 2;
}
double middle_height(const Crop& of) {
  return in_metres(of.height.value.min + of.height.value.max) / 2;
}

double depth_along(const std::vector<Body>& bodies, Vec3 from, Vec3 toward, int day) {
  return light::along_ray(light::Scene(bodies), from, toward, day).depth;
}
double depth_down(const std::vector<Body>& bodies, double x, double y, int day) {
  return depth_along(bodies, {x, y, -5}, {0, 0, 1}, day);
}

/// The sum over the plan of the depth straight down: K times the leaf area of what stands there.
double summed_depth_m2(const std::vector<Body>& bodies, double reach, int day, double step = 0.02) {
  const light::Scene scene(bodies);
  double sum = 0;
  for (double x = -reach + step / 2; x < reach; x += step) {
    for (double y = -reach + step / 2; y < reach; y += step)
      sum += light::along_ray(scene, {x, y, -5}, {0, 0, 1}, day).depth * step * step;
  }
  return sum;
}

// Closed form: K × leaf area in a cubic metre × the way through. [monsi1953]
TEST(RowOfPlants, TakesKTimesLeafAreaTimesTheWayThrough) {
  const Crop& potato = crop("potato");
  const double wide = middle_spread(potato), high = middle_height(potato);
  const auto bodies = bodies_of(plant("potato", "row = [[-3,0],[3,0]]\ncount = 13\n"));
  const double per_metre = full_depth(potato) / high;
  // Thirteen discs of leaves over a box of 6 m and one spread: that share of full density.
  const double thinned =
      std::min(1.0, 13 * std::numbers::pi / 4 * wide * wide / ((6 + wide) * wide));
  for (const double across : {0.0, 0.4, 1.0}) {
    const double way = wide * std::hypot(1, across);
    const Vec3 from{-4 * across, -4, high / 4};
    EXPECT_NEAR(depth_along(bodies, from, {across, 1, 0}, 160), per_metre * thinned * way,
                per_metre * way * 1e-5);
  }
}

TEST(RowOfPlants, ThatTouchIsOneLongBodyAndApartIsOneEach) {
  EXPECT_EQ(bodies_of(plant("gooseberry", "row = [[0,0],[6,0]]\ncount = 6\n")).size(), 1u);
  EXPECT_EQ(bodies_of(plant("gooseberry", "row = [[0,0],[15,0]]\ncount = 6\n")).size(), 6u);
  EXPECT_EQ(bodies_of(plant("gooseberry", "row = [[0,0],[99,0]]\ncount = 40\n")).size(), 1u);
}

TEST(RowOfPlants, HasAsMuchLeafApartOrThinnedIntoOne) {
  const Crop& of = crop("gooseberry");
  const double one = full_depth(of) * std::numbers::pi / 4 * std::pow(middle_spread(of), 2);
  const auto alone = bodies_of(plant("gooseberry", "at = [0,0]\n"));
  EXPECT_NEAR(summed_depth_m2(alone, 1, kJuly), one, one * 0.005);
  const auto few = bodies_of(plant("gooseberry", "row = [[-4,0],[4,0]]\ncount = 5\n"));
  EXPECT_NEAR(summed_depth_m2(few, 5, kJuly), 5 * one, 5 * one * 0.01);
  const auto many = bodies_of(plant("gooseberry", "row = [[-20,0],[20,0]]\ncount = 20\n"));
  EXPECT_NEAR(summed_depth_m2(many, 21, kJuly, 0.05), 20 * one, 20 * one * 0.03);
}

// However many layers: straight down, K × leaf area index × the share of the height reached.
TEST(GrowingPlant, TakesStraightDownWhatItHasGrown) {
  for (const char* name : {"sweetcorn", "dill", "french-bean-dwarf", "sunflower"}) {
    const Crop& of = crop(name);
    const auto bodies = bodies_of(plant(name, "at = [0,0]\n"));
    const facts::Growth growth = growth_at(of.growth, {degrees(50), metres(0)});
    for (int day = 1; day <= 365; day += 7) {
      const facts::Grown now = grown(growth, day, false);
      EXPECT_NEAR(depth_down(bodies, 0, 0, day), full_depth(of) * now.height * now.depth, 1e-4)
          << name << " " << day;
    }
  }
}

TEST(GrowingPlant, HasAtMostThreeLayersAndShadesNoHigherThanItIs) {
  EXPECT_EQ(bodies_of(plant("lettuce", "at = [0,0]\n")).size(), 1u);
  EXPECT_EQ(bodies_of(plant("dill", "at = [0,0]\n")).size(), 2u);
  const auto corn = bodies_of(plant("sweetcorn", "at = [0,0]\nplanted = 2025-05-01\n"));
  ASSERT_EQ(corn.size(), 3u);
  // Stages of 30 and 30 days: half grown 43 days after planting.
  EXPECT_GT(depth_along(corn, {0, -2, 0.3}, {0, 1, 0}, 121 + 43), 0);
  EXPECT_EQ(depth_along(corn, {0, -2, 1.6}, {0, 1, 0}, 121 + 43), 0);
  EXPECT_GT(depth_along(corn, {0, -2, 1.6}, {0, 1, 0}, 121 + 60), 0);
  EXPECT_EQ(depth_along(corn, {0, -2, 0.3}, {0, 1, 0}, 120), 0);
  EXPECT_EQ(depth_along(corn, {0, -2, 0.3}, {0, 1, 0}, 121 + 100), 0);  // cleared
}

TEST(LowPlants, HaveNoBody) {
  for (const char* name : {"thyme", "alpine-strawberry", "cress"})
    EXPECT_TRUE(bodies_of(plant(name, "row = [[0,0],[3,0]]\ncount = 9\n")).empty()) << name;
  EXPECT_FALSE(bodies_of(plant("thyme", "at = [0,0]\n") + "[crop.\"thyme\"]\nheight_m = 0.5\n")
                   .empty());  // the grower's own figure
}

TEST(Bushes, AreBareInWinterAndSomeTwigsRemain) {
  for (const char* name : {"blackcurrant", "raspberry", "apple"}) {
    const Crop& of = crop(name);
    const auto bodies = bodies_of(plant(name, "at = [0,0]\n"));
    const double full = depth_down(bodies, 0, 0, kJuly);
    EXPECT_GT(full, 0) << name;
    EXPECT_NEAR(depth_down(bodies, 0, 0, kJanuary), of.growth.bare_share.value * full, 1e-4)
        << name;
  }
}

// The mean over an ellipsoid's shadow straight down is a sphere's: 2 (1 − (1 + x) e^−x) / x², of
// which the orchard's trees of trees.toml (K = 0.6, Jackson 1981) have 0.26. [closed-form]
TEST(FruitTrees, LetThroughAsMuchAsAnOrchardTreeOfTheirKind) {
  const auto bodies = bodies_of(plant("apple", "at = [0,0]\n"));
  const light::Scene scene(bodies);
  const double radius = middle_spread(crop("apple")) / 2;
  double sum = 0;
  int rays = 0;
  for (double x = -radius; x < radius; x += 0.01) {
    for (double y = -radius; y < radius; y += 0.01) {
      if (std::hypot(x, y) > radius) continue;
      sum += std::exp(-light::along_ray(scene, {x, y, -1}, {0, 0, 1}, kJuly).depth);
      ++rays;
    }
  }
  EXPECT_NEAR(sum / rays, catalogue().trees.find("apple")->beam_through.leaf_on.value, 0.01);
}

TEST(PlantsOverAnOutline, TakeTheirWholeDepthEverywhere) {
  const auto bodies =
      bodies_of(plant("rhubarb", "outline = [[-2,-1],[2,-1],[2,1],[0,1],[0,0],[-2,0]]\n"));
  for (const auto& [x, y] : {std::pair{-1.9, -0.5}, {1.5, 0.9}, {0.1, -0.9}})
    EXPECT_NEAR(depth_down(bodies, x, y, 180), full_depth(crop("rhubarb")), 1e-5);
  EXPECT_EQ(depth_down(bodies, -1, 0.5, 180), 0);
}

TEST(PlantsOverAnOutline, FollowTheSlope) {
  const auto bodies = bodies_of(
      head(50, 0, "UTC") + "[ground]\nspots = [[-9,-9,0],[9,-9,0],[9,9,9],[-9,9,9]]\n" +
      "[[plant]]\nid = \"p\"\ncrop = \"rhubarb\"\noutline = [[-2,-2],[2,-2],[2,2],[-2,2]]\n");
  const double high = middle_height(crop("rhubarb"));
  for (const double y : {-1.5, 0.0, 1.5}) {
    const double ground = 4.5 + y / 2;
    EXPECT_GT(depth_along(bodies, {0, y, ground + high - 0.05}, {1, 0, 0}, 180), 0);
    EXPECT_EQ(depth_along(bodies, {0, y, ground + high + 0.05}, {1, 0, 0}, 180), 0);
  }
}

std::string support(const std::string& kind, const std::string& what, const std::string& more) {
  return head(50, 0, "UTC") + "[[support]]\nid = \"s\"\nkind = \"" + kind + "\"\ncrop = \"" + what +
         "\"\n" + more;
}

/// Only the leaves: frames let a share through at each crossing.
std::vector<Body> leaves_of(const std::string& text) {
  std::vector<Body> bodies = bodies_of(text);
  std::erase_if(bodies, [](const Body& b) { return b.through != garden::Through::kPerMetre; });
  return bodies;
}

TEST(Climber, OnATrellisIsAThinScreenThatRisesWithTheMonths) {
  const Crop& bean = crop("runner bean");
  const auto leaves =
      leaves_of(support("trellis", "runner bean", "line = [[-2,0],[2,0]]\nheight_m = 1.8\n"));
  EXPECT_EQ(leaves.size(), 3u);
  const auto through = [&](double z, int day) {
    return depth_along(leaves, {0, -3, z}, {0, 1, 0}, day);
  };
  for (const double z : {0.1, 0.9, 1.7}) EXPECT_NEAR(through(z, 220), full_depth(bean), 1e-4);
  EXPECT_EQ(through(1.85, 220), 0);
  EXPECT_EQ(through(0.1, 100), 0);
  double top_before = 0;
  for (int day = 146; day < 200; ++day) {  // planted on 25 May, in stages of 20 and 30 days
    EXPECT_GE(through(0.1, day), through(0.9, day));
    EXPECT_GE(through(0.9, day), through(1.7, day));
    EXPECT_GE(through(1.7, day), top_before);
    top_before = through(1.7, day);
  }
  EXPECT_EQ(through(1.7, 160), 0);
}

TEST(Climber, StopsWhereItGrowsNoFarther) {
  const auto leaves = leaves_of(support("wires", "pea", "line = [[-2,0],[2,0]]\nheight_m = 4\n"));
  EXPECT_GT(depth_along(leaves, {0, -3, 1.9}, {0, 1, 0}, 160), 0);
  EXPECT_EQ(depth_along(leaves, {0, -3, 2.1}, {0, 1, 0}, 160), 0);  // 2 m at most
}

TEST(Climber, CoversBothSidesOfAnArchAndAsMuchOfItsTopAsItReaches) {
  const std::string arch = "at = [0,0]\nheight_m = 2.3\nwidth_m = 1.4\ndepth_m = 0.6\n";
  const Crop& bean = crop("runner bean");  // 3 m: over the whole of 2.3 + 0.7
  const auto leaves = leaves_of(support("arch", "runner bean", arch));
  EXPECT_NEAR(depth_along(leaves, {-3, 0, 1}, {1, 0, 0}, 220), 2 * full_depth(bean), 1e-4);
  EXPECT_NEAR(depth_down(leaves, 0, 0, 220), full_depth(bean), 1e-4);
  EXPECT_EQ(depth_down(leaves, 0, 0, 170), 0);  // not yet at the top
  const auto squash = leaves_of(support("arch", "climbing winter squash", arch));  // 2.5 m
  EXPECT_NEAR(depth_down(squash, 0, 0, 220), full_depth(crop("climbing winter squash")) * 0.2 / 0.7,
              1e-4);
}

// An obelisk's cone holds the leaves of its four sides: (w + w) (1 + taper) h of face.
TEST(Climber, OnAConeHasTheLeavesOfAllItsSides) {
  for (const auto& [kind, tip] : {std::pair{"obelisk", 0.1}, {"wigwam", 0.0}}) {
    const auto leaves =
        leaves_of(support(kind, "sweet pea", "at = [0,0]\nheight_m = 1.8\nwidth_m = 0.6\n"));
    const double face_m2 = 2 * 0.6 * (1 + tip) * 1.8;
    EXPECT_NEAR(summed_depth_m2(leaves, 0.6, 190, 0.01), full_depth(crop("sweet pea")) * face_m2,
                0.04)
        << kind;
  }
}

TEST(Climber, FillsACage) {
  const auto leaves =
      leaves_of(support("cage", "raspberry", "at = [0,0]\nheight_m = 2.2\nwidth_m = 2\n"));
  EXPECT_NEAR(depth_down(leaves, 0.5, 0.5, kJuly), full_depth(crop("raspberry")), 1e-4);
}

TEST(Climber, ThatIsUndecidedHasNoLeaves) {
  EXPECT_TRUE(leaves_of(support("arch", "undecided", "at = [0,0]\nheight_m = 2\n")).empty());
}

TEST(Climber, AndThePlantAtItsFootAreCountedOnce) {
  const std::string wires = support("wires", "apple", "line = [[-3,0],[3,0]]\nheight_m = 1.6\n");
  const std::string cordons =
      "[[plant]]\nid = \"p\"\ncrop = \"apple\"\nrow = [[-2,0],[2,0.2]]\ncount = 5\n";
  EXPECT_EQ(leaves_of(wires).size(), leaves_of(wires + cordons).size());
  const std::string other = "[[plant]]\nid = \"p\"\ncrop = \"pear\"\nat = [0,0]\n";
  EXPECT_EQ(leaves_of(wires).size() + 1, leaves_of(wires + other).size());
}

TEST(TrainedTree, AgainstAWallIsAScreenAlongIt) {
  const auto leaves = leaves_of(plant("fig", "at = [0,0.3]\n") +
                                "[[wall]]\nid = \"w\"\nline = [[-5,0],[5,0]]\nheight_m = 2.5\n"
                                "kind = \"brick\"\n");
  ASSERT_EQ(leaves.size(), 1u);
  double deep = 0, wide = 0;
  for (const Vec3& p : std::get<geometry::Solid>(leaves[0].shape).corners)
    deep = std::max(deep, std::abs(p.y - 0.3)), wide = std::max(wide, std::abs(p.x));
  EXPECT_NEAR(deep, 0.15, 1e-9);
  EXPECT_NEAR(wide, middle_spread(crop("fig")) / 2, 1e-9);
}

light::YearSun sun_of(const std::string& text, const std::string& id) {
  study::Study study = study_of(text);
  const auto year = study.places_year("proposed");
  EXPECT_TRUE(year.has_value());
  const light::PlaceSun* sun = (*year)->find(id);
  EXPECT_NE(sun, nullptr) << id;
  return sun->months;
}

/// Hours of the whole year, a day.
double sum_h(const light::YearSun& year) {
  double sum = 0;
  for (const light::MonthSun& month : year) sum += month.sun_h_per_day;
  return sum;
}

TEST(OwnLeaves, NeverShadeTheirOwnPlace) {
  const double open = sum_h(sun_of(plant("alpine strawberry", "at = [0,0]\n"), "p"));
  for (const char* where :
       {"at = [0,0]\n", "row = [[-3,0],[3,0]]\ncount = 9\n", "row = [[-30,0],[30,0]]\ncount = 9\n",
        "outline = [[-2,-2],[2,-2],[2,2],[-2,2]]\n"}) {
    for (const char* name : {"redcurrant", "sweetcorn", "bay", "rhubarb"})
      EXPECT_NEAR(sum_h(sun_of(plant(name, where), "p")), open, 1e-9) << name << where;
  }
}

TEST(OwnLeaves, NeverShadeTheirOwnPlaceInABedOrPotOrOnASupport) {
  const std::string bed =
      "[[bed]]\nid = \"bed\"\nat = [-2,-1]\nsize = [4,2]\nlevel_m = 0\nfreeboard_m = 0.03\n"
      "boards = { height = 0.2, courses = 1, thickness = 0.05 }\n";
  const double open = sum_h(sun_of(plant("alpine strawberry", "at = [0,9]\n"), "p"));
  for (const char* name : {"tomato", "lettuce", "blackcurrant"}) {
    EXPECT_NEAR(sum_h(sun_of(plant(name, "row = [[-1,0],[1,0]]\ncount = 4\n") + bed, "p")), open,
                1e-9)
        << name;
  }
  // In a deep bed it is measured no lower than the rim.
  const std::string deep =
      "[[bed]]\nid = \"bed\"\nat = [-2,-1]\nsize = [4,2]\nlevel_m = 0\n"
      "freeboard_m = 0.25\nboards = { height = 0.5, courses = 1, thickness = "
      "0.05 }\n";
  EXPECT_NEAR(sum_h(sun_of(plant("lettuce", "at = [0,0]\n") + deep, "p")), open, 1e-9);
  const std::string pot =
      "[[container]]\nid = \"pot\"\nat = [0,0]\nvolume_l = 80\ncrop = \"bay\"\n";
  EXPECT_NEAR(sum_h(sun_of(head(50, 0, "UTC") + pot, "pot")), open, 1e-9);
  const std::string wires = support("wires", "apple", "line = [[-3,0],[3,0]]\nheight_m = 1.6\n");
  const std::string cordons =
      "[[plant]]\nid = \"p\"\ncrop = \"apple\"\nrow = [[-2,0],[2,0]]\ncount = 5\n";
  EXPECT_NEAR(sum_h(sun_of(wires + cordons, "p")), open, 1e-9);
}

TEST(LeavesInABed, AreCountedAgainstTheBed) {
  const std::string bed = "[[bed]]\nid = \"bed\"\nat = [-2,-1]\nsize = [4,2]\nlevel_m = 0\n";
  const auto bare = sun_of(head(50, 0, "UTC") + bed, "bed");
  const auto sown = sun_of(plant("tomato", "row = [[-1.5,0],[1.5,0]]\ncount = 7\n") + bed, "bed");
  EXPECT_LT(sown[7].sun_h_per_day, bare[7].sun_h_per_day - 1);
  EXPECT_EQ(sown[2].sun_h_per_day, bare[2].sun_h_per_day);  // nothing stands there in March
}

TEST(OtherPlants, ShadeTheirNeighbours) {
  const std::string two = plant("gooseberry", "at = [0,0]\n") +
                          "[[plant]]\nid = \"tall\"\ncrop = \"jerusalem artichoke\"\n"
                          "row = [[-3,-1],[3,-1]]\ncount = 10\n";
  const auto alone = sun_of(plant("gooseberry", "at = [0,0]\n"), "p"), beside = sun_of(two, "p");
  EXPECT_LT(beside[7].sun_h_per_day, alone[7].sun_h_per_day - 1);
  EXPECT_EQ(beside[1].sun_h_per_day, alone[1].sun_h_per_day);  // died down
}

/// The garden that has each form of planting of a crop.
std::string every_form(double latitude, const std::string& id, const std::string& height) {
  std::string text = head(latitude, 0, "UTC");
  const auto add = [&](const std::string& table, const std::string& name, const std::string& more) {
    text += "[[" + table + "]]\nid = \"" + name + "\"\ncrop = \"" + id + "\"\n" + more;
  };
  add("plant", "one", "at = [0,0]\n");
  add("plant", "close", "row = [[0,5],[3,5]]\ncount = 31\n");  // 0.1 m apart
  add("plant", "bent", "row = [[0,8],[9,8],[9,19]]\ncount = 400\n");
  add("plant", "wide", "row = [[0,30],[900,30]]\ncount = 50\n");
  add("plant", "all-over", "outline = [[20,0],[24,0],[24,3],[22,1],[20,3]]\n");
  add("container", "pot", "at = [30,0]\nvolume_l = 50\n");
  double x = 40;
  for (const char* kind : {"arch", "obelisk", "trellis", "wires", "wigwam", "cage"}) {
    add("support", kind,
        "kind = \"" + std::string(kind) + "\"\nat = [" + std::to_string(x) +
            ",0]\nheight_m = " + height + "\n");
    x += 10;
  }
  return text;
}

TEST(EveryCrop, HasBodiesWithoutErrorInEveryFormAtSixtyNorthAndSouth) {
  for (const Crop& of : catalogue().crops.all()) {
    for (const double latitude : {60.0, -60.0}) {
      for (const char* height : {"0.1", "2.2"}) {
        const auto bodies = bodies_of(every_form(latitude, of.id, height));
        std::map<std::string, int> leafy;
        for (const Body& body : bodies) {
          EXPECT_TRUE(body.depth.size() == 1 || body.depth.size() == 366) << of.id;
          for (const float depth : body.depth) {
            EXPECT_GE(depth, 0) << of.id;
            EXPECT_TRUE(std::isfinite(depth)) << of.id;
          }
          if (body.through == garden::Through::kPerMetre) ++leafy[body.thing];
        }
        const light::Scene scene(bodies);  // every shape is sound
        EXPECT_LE(scene.bodies().size(), bodies.size());
        for (const auto& [thing, count] : leafy) EXPECT_LE(count, 9) << of.id << " " << thing;
      }
    }
  }
}

TEST(ManyPlants, MakeFewBodies) {
  for (const char* where :
       {"row = [[0,0],[50,0]]\ncount = 100000\n", "row = [[0,0],[1900,0]]\ncount = 1000\n",
        "row = [[0,0],[50,0],[50,50],[0,50]]\ncount = 500\n"})
    EXPECT_LE(bodies_of(plant("sweetcorn", where)).size(), 9u) << where;
  EXPECT_LE(bodies_of(plant("pumpkin", "row = [[0,0],[60,0]]\ncount = 13\n")).size(), 3 * 13u);
}

TEST(Thinning, LowersTheDepthOfEveryRay) {
  // Fewer plants along the same row, and a leafless winter, take no more of any ray.
  const auto dense = bodies_of(plant("blackcurrant", "row = [[-3,0],[3,0]]\ncount = 7\n"));
  const auto thin = bodies_of(plant("blackcurrant", "row = [[-3,0],[3,0]]\ncount = 5\n"));
  Random random(7);
  for (int i = 0; i < 2000; ++i) {
    const Vec3 from{random.between(-4, 4), random.between(-2, 2), random.between(0, 2)};
    const Vec3 toward{random.between(-1, 1), random.between(-1, 1), random.between(0, 1)};
    if (geometry::length(toward) < 0.1) continue;
    const double summer = depth_along(dense, from, toward, kJuly);
    EXPECT_LE(depth_along(thin, from, toward, kJuly), summer + 1e-9);
    EXPECT_LE(depth_along(dense, from, toward, kJanuary), summer + 1e-9);
  }
}

TEST(SouthernYear, IsTheNorthernHalfAYearLater) {
  for (const char* name : {"potato", "runner bean", "blackcurrant", "rhubarb", "bay"}) {
    const auto of = [&](double latitude) {
      return bodies_of(head(latitude, 0, "UTC") + "[[plant]]\nid = \"p\"\ncrop = \"" + name +
                       "\"\nrow = [[-1,0],[1,0]]\ncount = 6\n");
    };
    const auto north = of(52), south = of(-52);
    ASSERT_EQ(north.size(), south.size());
    for (int day = 1; day <= 365; ++day) {
      const int later = (day + 182 - 1) % 365 + 1, latest = (day + 183 - 1) % 365 + 1;
      for (std::size_t i = 0; i < north.size(); ++i) {
        const float low = std::min(south[i].depth_on(later), south[i].depth_on(latest));
        const float high = std::max(south[i].depth_on(later), south[i].depth_on(latest));
        EXPECT_GE(north[i].depth_on(day), low - 1e-5F) << name << day;
        EXPECT_LE(north[i].depth_on(day), high + 1e-5F) << name << day;
      }
    }
  }
}

TEST(Planted, MovesWhatIsSownAndNotWhatLives) {
  const auto early = bodies_of(plant("potato", "at = [0,0]\nplanted = 2026-03-20\n"));
  const auto late = bodies_of(plant("potato", "at = [0,0]\nplanted = 2026-05-20\n"));
  EXPECT_GT(early[0].depth_on(120), 0);
  EXPECT_EQ(late[0].depth_on(120), 0);
  EXPECT_EQ(early[0].depth_on(120), late[0].depth_on(120 + 61));
  const auto bush = bodies_of(plant("gooseberry", "at = [0,0]\nplanted = 2026-11-20\n"));
  const auto old = bodies_of(plant("gooseberry", "at = [0,0]\nplanted = 2001-02-20\n"));
  EXPECT_EQ(bush[0].depth, old[0].depth);
}

TEST(LeavesByPlace, ComeLaterAndGoEarlierFartherNorthAndHigher) {
  const auto hedge = [](double latitude, double elevation_m) {
    return bodies_of(head(latitude, 0, "UTC", 0, elevation_m) +
                     "[[wall]]\nid = \"w\"\nline = [[0,0],[5,0]]\nheight_m = 2\n"
                     "kind = \"hawthorn hedge\"\n")[0];
  };
  const Body here = hedge(50, 0), north = hedge(55, 0), high = hedge(50, 610);
  for (const int day : {95, 105, 290, 305}) {
    EXPECT_LT(north.depth_on(day), here.depth_on(day)) << day;
    EXPECT_NEAR(high.depth_on(day), north.depth_on(day), 1e-6) << day;  // 5 × 122 m as 5 degrees
  }
  EXPECT_EQ(north.depth_on(kJuly), here.depth_on(kJuly));
  EXPECT_EQ(north.depth_on(kJanuary), here.depth_on(kJanuary));
}

TEST(TreesShadow, IsCastWithTheBeamNotTheTotal) {
  const facts::TreeKind& kind = *catalogue().trees.find("red-maple");
  const auto bodies = bodies_of(head(50, 0, "UTC") +
                                "[[tree]]\nid = \"t\"\nkind = \"red maple\"\nat = [0,0]\n"
                                "height_m = 9\ncrown_width_m = 6\n");
  const auto depth = [&](facts::LightQuantity of) {
    return garden::crown_depth_per_m(light_through(kind, of, true)->value,
                                     kind.beam_through.of_crown.value);
  };
  EXPECT_NEAR(bodies[0].depth_on(kJuly), depth(facts::LightQuantity::kBeam), 1e-5);
  EXPECT_GT(bodies[0].depth_on(kJuly), depth(facts::LightQuantity::kTotalSolar) * 1.2);
}

TEST(KerAvel, GrowsBySixtyBodiesAtMost) {
  std::ifstream file(SPADEWORK_SOURCE_DIR "/examples/ker-avel.toml");
  std::stringstream text;
  text << file.rdbuf();
  const garden::Draft draft = draft_of(text.str());
  study::Study study(draft, {catalogue(), stations(), "test"}, 1);
  const auto stand = study.stand("proposed");
  ASSERT_TRUE(stand.has_value());
  const garden::Garden& g = (*stand)->garden;
  const auto grows = [&](const std::string& id) {
    const auto has = [&](const auto& things) {
      return std::any_of(things.begin(), things.end(), [&](const auto& t) { return t.id == id; });
    };
    return has(g.plants) || has(g.supports) || has(g.containers);
  };
  long leafy = 0;
  for (const Body& body : (*stand)->bodies)
    leafy += body.through == garden::Through::kPerMetre && grows(body.thing);
  EXPECT_GT(leafy, 20);
  EXPECT_LE(leafy, 60);
}

}  // namespace
}  // namespace spadework::testing
