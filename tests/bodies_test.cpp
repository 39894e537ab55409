// What things look like to light: roofs, walls on slopes, crowns, frames. Closed forms throughout.
#include "garden/bodies.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>

#include "tests/scenes.h"

namespace spadework::testing {
namespace {

using garden::Body;
using geometry::Solid;
using geometry::Vec3;

std::vector<Body> bodies_of(const std::string& text, const std::string& scheme = "proposed") {
  study::Study study = study_of(text);
  auto stand = study.stand(scheme);
  EXPECT_TRUE(stand.has_value());
  return (*stand)->bodies;
}

/// The highest and lowest corner of a thing's solids.
std::pair<double, double> reach_of(const std::vector<Body>& bodies, const std::string& id) {
  double low = 1e9, high = -1e9;
  for (const Body& body : bodies) {
    if (body.thing != id || !std::holds_alternative<Solid>(body.shape)) continue;
    for (const Vec3& p : std::get<Solid>(body.shape).corners)
      low = std::min(low, p.z), high = std::max(high, p.z);
  }
  return {low, high};
}

double roof_volume(const std::vector<garden::RoofPiece>& pieces) {
  double sum = 0;
  for (const auto& piece : pieces)
    sum += geometry::area(piece.footprint) * piece.top.at(geometry::centroid(piece.footprint));
  return sum;
}

garden::Building shed(garden::RoofForm roof, const geometry::Polygon& outline) {
  garden::Building building;
  building.outline = outline;
  building.eaves = metres(2.4);
  building.ridge = metres(3.6);
  building.roof = roof;
  return building;
}

// Volume under the roof of an a × b house (a ≥ b), eaves e, rise r: flat a b e; gable and mono
// a b (e + r/2); hip a b e + r b (3a − b) / 6.
TEST(Roofs, HoldTheVolumeOfTheirClosedForms) {
  const double a = 7, b = 4, e = 2.4, r = 1.2;
  for (const double turn : {0.0, 0.35}) {
    const auto outline = geometry::rectangle({3, 2}, {a, b}, turn);
    const auto volume = [&](garden::RoofForm roof) {
      return roof_volume(garden::roof_pieces(shed(roof, outline), e, degrees(0)));
    };
    EXPECT_NEAR(volume(garden::RoofForm::kFlat), a * b * e, 1e-9);
    EXPECT_NEAR(volume(garden::RoofForm::kGable), a * b * (e + r / 2), 1e-9);
    EXPECT_NEAR(volume(garden::RoofForm::kMono), a * b * (e + r / 2), 1e-9);
    EXPECT_NEAR(volume(garden::RoofForm::kHip), a * b * e + r * b * (3 * a - b) / 6, 1e-9);
  }
}

TEST(Roofs, AMonoRoofRisesTowardsTheSideNamed) {
  garden::Building building = shed(garden::RoofForm::kMono, geometry::rectangle({0, 0}, {4, 3}, 0));
  building.high_side = degrees(0);  // north; the page's up points to 340°
  const auto pieces = garden::roof_pieces(building, 2.4, degrees(340));
  // True north lies 20° clockwise of the page's up: towards (sin 20°, cos 20°).
  ASSERT_EQ(pieces.size(), 1u);
  const auto slope = pieces[0].top.slope;
  EXPECT_NEAR(std::atan2(slope.x, slope.y), 20 * M_PI / 180, 1e-9);
  EXPECT_GT(slope.y, 0);
}

// Over an L of two wings the hipped roof is the higher of the roofs of its two long rectangles.
TEST(Roofs, AHippedLIsTheUnionOfItsWings) {
  const geometry::Polygon outline = {{0, 0}, {8, 0}, {8, 3}, {3, 3}, {3, 7}, {0, 7}};
  const auto pieces = garden::roof_pieces(shed(garden::RoofForm::kHip, outline), 2.4, degrees(0));
  const auto top = [&](geometry::Vec2 p) {
    double z = -1;
    for (const auto& piece : pieces) {
      if (geometry::contains(piece.footprint, p)) z = std::max(z, piece.top.at(p));
    }
    return z;
  };
  const double steep = 1.2 / 1.5;  // both wings are 3 wide: the ridge lies 1.5 in
  EXPECT_NEAR(top({5, 1.501}), 2.4 + steep * 1.499, 1e-6);
  EXPECT_NEAR(top({1.501, 5}), 2.4 + steep * 1.499, 1e-6);
  EXPECT_NEAR(top({7.6, 1.4}), 2.4 + steep * 0.4, 1e-6);
}

const std::string kSlope = head(48, 0, "UTC") + R"(
[ground]
spots = [[0,0,0],[20,0,0],[20,20,2],[0,20,2]]
)";

TEST(Wall, FollowsTheGroundUnlessItsTopIsLevel) {
  const std::string line = "id = \"w\"\nline = [[5,0],[5,20]]\nheight_m = 1.5\nkind = \"brick\"\n";
  const auto following = bodies_of(kSlope + "[[wall]]\n" + line);
  const auto level = bodies_of(kSlope + "[[wall]]\n" + line + "top = \"level\"\n");
  const auto top_at = [](const std::vector<Body>& bodies, double y) {
    double z = -1e9;
    for (const Body& body : bodies) {
      for (const Vec3& p : std::get<Solid>(body.shape).corners) {
        if (std::abs(p.y - y) < 1e-6) z = std::max(z, p.z);
      }
    }
    return z;
  };
  EXPECT_NEAR(top_at(following, 0), 1.5, 1e-9);
  EXPECT_NEAR(top_at(following, 20), 3.5, 1e-9);
  EXPECT_NEAR(top_at(level, 0), 3.5, 1e-9);  // 1.5 m above the highest ground
  EXPECT_NEAR(top_at(level, 20), 3.5, 1e-9);
}

TEST(Wall, OverABendInTheGroundIsCutThere) {
  const auto bodies = bodies_of(head(48, 0, "UTC") + R"(
[ground]
spots = [[0,0,0],[10,0,0],[0,10,1],[10,10,1],[0,20,0],[10,20,0]]
[[wall]]
id = "w"
line = [[5,2],[5,18]]
height_m = 1
kind = "stone"
)");
  double top = -1;
  for (const Body& body : bodies) {
    for (const Vec3& p : std::get<Solid>(body.shape).corners) top = std::max(top, p.z);
  }
  EXPECT_NEAR(top, 2, 1e-6);  // over the crest at y = 10
  EXPECT_GE(bodies.size(), 2u);
}

// A closed square of 4 m, 0.4 m thick: its footprint is the ring between squares of 4.4 and 3.6 m.
TEST(Wall, ThatClosesIsMitredThereToo) {
  const auto bodies = bodies_of(head(48, 0, "UTC") +
                                "[[wall]]\nid = \"w\"\nline = [[0,0],[4,0],[4,4],[0,4],[0,0]]\n"
                                "height_m = 1\nthickness_m = 0.4\nkind = \"brick\"\n");
  double sum = 0;
  for (const Body& body : bodies) {
    geometry::Polygon foot;
    const auto& corners = std::get<Solid>(body.shape).corners;
    for (std::size_t i = 0; i < corners.size(); i += 2) foot.push_back(corners[i].plan());
    sum += geometry::area(foot);
  }
  EXPECT_NEAR(sum, 4.4 * 4.4 - 3.6 * 3.6, 1e-9);
}

// Two legs that meet at 9.5°: each keeps its full thickness to its end.
TEST(Wall, KeepsItsThicknessAtASharpCorner) {
  const auto bodies = bodies_of(head(48, 0, "UTC") +
                                "[[wall]]\nid = \"w\"\nline = [[-3,0],[3,0],[-3,1]]\nheight_m = 1\n"
                                "thickness_m = 0.4\nkind = \"brick\"\n");
  double sum = 0;
  for (const Body& body : bodies) {
    geometry::Polygon foot;
    const auto& corners = std::get<Solid>(body.shape).corners;
    for (std::size_t i = 0; i < corners.size(); i += 2) foot.push_back(corners[i].plan());
    sum += geometry::area(foot);
  }
  EXPECT_NEAR(sum, 0.4 * (6 + std::hypot(6, 1)), 1e-9);
}

TEST(Building, StandsOnTheHighestGroundUnderIt) {
  const auto bodies = bodies_of(kSlope + R"(
[[building]]
id = "b"
outline = [[2,5],[6,5],[6,10],[2,10]]
eaves_m = 2.2
)");
  const auto [low, high] = reach_of(bodies, "b");
  EXPECT_NEAR(high, 1.0 + 2.2, 1e-9);
  EXPECT_LT(low, 0.5);
}

// Mean transmission over the shadow of a sphere, 2 (1 − (1+x) e^−x) / x²: values of analytic.csv.
TEST(CrownDepth, InvertsTheMeanOverASpheresShadow) {
  std::ifstream file(SPADEWORK_SOURCE_DIR "/tests/golden/light/analytic.csv");
  ASSERT_TRUE(file.good());
  int seen = 0;
  for (std::string line; std::getline(file, line);) {
    if (line.rfind("beer_lambert_sphere_mean_T,x=", 0) != 0) continue;
    const double x = std::stod(line.substr(29));
    const double through = std::stod(line.substr(line.rfind(',') + 1));
    EXPECT_NEAR(garden::crown_depth_per_m(through, metres(2.5)) * 2.5, x, 2e-5 * (1 + x * x))
        << line;
    ++seen;
  }
  EXPECT_EQ(seen, 7);
}

TEST(Tree, IsThinInWinterAndItsLiftedCrownKeepsItsDensity) {
  const std::string tree = head(48, 0, "UTC") + R"(
[[tree]]
id = "t"
kind = "apple"
at = [0, 0]
height_m = 5
crown_base_m = 1.5
crown_width_m = 4
)";
  const auto whole = bodies_of(tree);
  const auto lifted = bodies_of(tree + "[[change]]\nthing = \"t\"\ncrown_base_m = 2.5\n");
  ASSERT_EQ(whole[0].through, garden::Through::kPerMetre);
  EXPECT_LT(whole[0].depth_on(15), whole[0].depth_on(180) / 2);
  EXPECT_EQ(whole[0].depth, lifted[0].depth);
  const auto dead = bodies_of(tree + "condition = \"dead\"\n");
  EXPECT_EQ(dead[0].depth_on(180), whole[0].depth_on(15));
}

TEST(BedFrame, RisesTheFreeboardAboveTheSoil) {
  const auto bodies = bodies_of(kSlope + R"(
[[bed]]
id = "bed"
at = [5, 5]
size = [3, 1]
boards = { height = "225 mm", courses = 2, thickness = "50 mm" }
level_m = 0.7
)");
  EXPECT_EQ(bodies.size(), 1u);
  EXPECT_NEAR(reach_of(bodies, "bed").second, 0.73, 1e-9);
}

TEST(Cover, StandsOnlyInItsSeason) {
  const auto bodies = bodies_of(head(48, 0, "UTC") + R"(
[[bed]]
id = "bed"
at = [0, 0]
size = [3, 1]
[[cover]]
id = "frame"
kind = "frame"
over = "bed"
from = "10-15"
until = "03-31"
)");
  ASSERT_FALSE(bodies.empty());
  EXPECT_GT(bodies[0].depth_on(1), 0);
  EXPECT_GT(bodies[0].depth_on(300), 0);
  EXPECT_EQ(bodies[0].depth_on(180), 0);
}

TEST(EveryKindOfSupport, MakesABody) {
  for (const char* kind : {"arch", "obelisk", "trellis", "wires", "wigwam", "cage"}) {
    const auto bodies = bodies_of(head(48, 0, "UTC") + "[[support]]\nid = \"s\"\nkind = \"" + kind +
                                  "\"\nat = [3, 3]\nheight_m = 2\n");
    EXPECT_FALSE(bodies.empty()) << kind;
    EXPECT_NEAR(reach_of(bodies, "s").second, 2, 1e-9) << kind;
  }
}

TEST(Support, TurnsAnticlockwiseAboutItsPlace) {
  const std::string text = head(48, 0, "UTC") +
                           "[[support]]\nid = \"s\"\nkind = \"trellis\"\nat = [3, 3]\n"
                           "height_m = 2\nwidth_m = 2\n";
  const auto widest = [](const std::vector<Body>& bodies) {
    double x = 0, y = 0;
    for (const Vec3& p : std::get<Solid>(bodies[0].shape).corners)
      x = std::max(x, std::abs(p.x - 3)), y = std::max(y, std::abs(p.y - 3));
    return std::pair(x, y);
  };
  EXPECT_NEAR(widest(bodies_of(text)).first, 1, 1e-9);
  EXPECT_NEAR(widest(bodies_of(text + "turn_deg = 90\n")).second, 1, 1e-9);
}

}  // namespace
}  // namespace spadework::testing
