// Which faces of walls, buildings and supports are places, where they reach, and what is trained
// against them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "tests/faces_scenes.h"

namespace spadework::testing {
namespace {

using light::testing::rad;
using light::testing::toward;
using study::PlacesYear;
using study::Shared;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::UnorderedElementsAre;

// --- what is listed, and its names ---

TEST(FacesListed, AreThoseOnWhichSomethingGrowsOrCan) {
  const auto listed = [](const std::string& text) { return FacesScene(kHead + text).listed(); };
  EXPECT_THAT(listed(kWall), IsEmpty());
  EXPECT_THAT(listed(kWall + kFig), ElementsAre("wall.south"));
  EXPECT_THAT(listed(kWall + "[[plant]]\nid = \"a\"\ncrop = \"morello cherry\"\nat = [2,0.4]\n"),
              ElementsAre("wall.north"));
  EXPECT_THAT(listed(kWall + "[[plant]]\nid = \"a\"\ncrop = \"lettuce\"\nat = [2,-0.4]\n"),
              IsEmpty());
  EXPECT_THAT(listed(kWall + "[[plant]]\nid = \"a\"\ncrop = \"apple\"\nat = [2,-1.2]\n"),
              IsEmpty());
  EXPECT_THAT(listed(wires("row", "[[0,-2],[4,-2]]")), ElementsAre("row.south", "row.north"));
  // With its back to a wall; between two walls.
  EXPECT_THAT(listed(kWall + wires("row", "[[-2,-0.4],[2,-0.4]]")), ElementsAre("row.south"));
  const std::string opposite =
      "[[wall]]\nid = \"other\"\nline = [[-5,-0.8],[5,-0.8]]\n"
      "height_m = 2\nkind = \"brick\"\nthickness_m = 0.3\n";
  EXPECT_THAT(listed(kWall + opposite + wires("row", "[[-2,-0.4],[2,-0.4]]")),
              ElementsAre("row.south", "row.north"));
  // What grows on a support before a wall does not grow on the wall.
  EXPECT_THAT(listed(kWall + wires("row", "[[-2,-0.4],[2,-0.4]]", "grape") +
                     "[[plant]]\nid = \"vine\"\ncrop = \"grape\"\nat = [0,-0.5]\n"),
              ElementsAre("row.south"));
  // In the order of supports, walls, buildings.
  const std::string byre =
      "[[building]]\nid = \"byre\"\noutline = [[-5,4],[5,4],[5,8],[-5,8]]\n"
      "eaves_m = 2.4\nridge_m = 4\n";
  EXPECT_THAT(listed(byre + kWall + kFig + wires("row", "[[-4,-4],[-4,-6]]") +
                     "[[plant]]\nid = \"b\"\ncrop = \"peach\"\nrow = [[-3,3.7],[3,3.7]]\n"
                     "count = 3\n"),
              ElementsAre("row.west", "row.east", "wall.south", "byre.south"));
}

TEST(FacesOfABuilding, ReachUpToTheEaves) {
  FacesScene scene(kHead +
                   "[[building]]\nid = \"byre\"\noutline = [[0,0],[6,0],[6,4],[0,4]]\n"
                   "eaves_m = 2.4\nridge_m = 4\n");
  EXPECT_THAT(scene.ids(),
              UnorderedElementsAre("byre.south", "byre.east", "byre.north", "byre.west"));
  EXPECT_NEAR(in_square_metres(scene.place("byre.south").area), 6 * 2.4, 1e-6);
  EXPECT_NEAR(in_square_metres(scene.place("byre.west").area), 4 * 2.4, 1e-6);
}

TEST(FacesNamed, AloneByTheWayTheyLookWithinHalfAQuarter) {
  for (int bearing = 0; bearing < 360; bearing += 15) {
    // A line whose right-hand side looks towards `bearing`.
    const double way = rad(bearing - 90.0);
    std::ostringstream line;
    line << "[[0,0],[" << -4 * std::sin(way) << "," << -4 * std::cos(way) << "]]";
    FacesScene scene(kHead + wires("row", line.str()));
    static const char* names[] = {"north", "north-east", "east", "south-east",
                                  "south", "south-west", "west", "north-west"};
    for (const light::Place& place : scene.faces()) {
      const double looks = in_degrees(*place.bearing);
      const auto nearest = static_cast<std::size_t>(std::lround(looks / 45)) % 8;
      if (std::abs(std::fmod(looks, 45.0) - 22.5) < 1) continue;
      EXPECT_EQ(place.id, std::string("row.") + names[nearest]);
      const double apart = std::abs(std::remainder(looks - bearing, 180.0));
      EXPECT_NEAR(apart, 0, 1e-3);
    }
  }
}

// A walled garden: each way has an inner and an outer face.
TEST(FacesOfAWallAround, AreToldApartAsInsideAndOutside) {
  for (const char* line : {"[[0,0],[8,0],[8,6],[0,6],[0,0]]", "[[0,0],[0,6],[8,6],[8,0],[0,0]]"}) {
    FacesScene scene(kHead + "[[wall]]\nid = \"w\"\nline = " + line +
                     "\nheight_m = 2\nkind = \"brick\"\nthickness_m = 0.2\n");
    EXPECT_THAT(scene.ids(),
                UnorderedElementsAre("w.north-inside", "w.north-outside", "w.east-inside",
                                     "w.east-outside", "w.south-inside", "w.south-outside",
                                     "w.west-inside", "w.west-outside"));
    // The inner face to the south is on the north leg, 0.1 m within the line at both ends.
    const light::Place inner = scene.place("w.south-inside");
    EXPECT_NEAR(in_square_metres(inner.area), 7.8 * 2, 1e-6);
    EXPECT_NEAR(inner.receivers.front().origin.y, 5.9, 0.01);
    EXPECT_NEAR(in_square_metres(scene.place("w.south-outside").area), 8.2 * 2, 1e-6);
  }
}

TEST(FacesOfALineOfManyLegs, ThatLookTheSameWayAreOnePlace) {
  FacesScene scene(kHead +
                   "[[wall]]\nid = \"w\"\nline = [[0,0],[4,0.3],[8,0],[12,0.4]]\n"
                   "height_m = 2\nkind = \"brick\"\n");
  EXPECT_THAT(scene.ids(), UnorderedElementsAre("w.north", "w.south"));
  const light::Place south = scene.place("w.south");
  EXPECT_EQ(south.receivers.size(), 3u);
  EXPECT_NEAR(in_degrees(*south.bearing), 178, 3);
}

// --- supports that are grown over all around ---

TEST(SupportGrownAllAround, HasTheOpensLightWhenItStandsAlone) {
  for (const std::string kind : {"arch", "obelisk", "wigwam", "cage"}) {
    FacesScene scene(kHead + "[[support]]\nid = \"it\"\nkind = \"" + kind +
                     "\"\nat = [0,0]\nheight_m = 2\ncrop = \"runner bean\"\n");
    EXPECT_THAT(scene.listed(), ElementsAre("it"));
    const light::Place place = scene.place("it");
    EXPECT_EQ(light::place_kind_name(place.kind), "support");
    EXPECT_FALSE(place.bearing);
    const light::YearSun year = scene.year("it");
    const light::SunYear sun = sun_of(scene);
    for (std::size_t m = 0; m < 12; ++m) {
      EXPECT_NEAR(year[m].sun_h_per_day, sun.open_sun_h[m], 1e-9) << kind << m;
      EXPECT_NEAR(year[m].share_of_open, 1, 1e-4) << kind << m;
    }
  }
}

// Its lower half behind a wall to the south, its upper half above: at noon half of its levels.
TEST(SupportGrownAllAround, IsMeasuredOverItsWholeHeight) {
  FacesScene scene(kHead +
                   "[[support]]\nid = \"it\"\nkind = \"obelisk\"\nat = [0,2]\nheight_m = 2\n"
                   "[[wall]]\nid = \"w\"\nline = [[-9,0],[9,0]]\nheight_m = 1.6\n"
                   "kind = \"brick\"\nthickness_m = 0.1\n");
  const light::Place place = scene.place("it");
  ASSERT_EQ(place.receivers.size(), 4u);
  const light::Scene around = scene.around(place);
  const double rise =
      std::tan(rad(18));  // of the winter sun; the wall shades up to 1.6 − 1.95 · rise
  for (const light::Receiver& level : place.receivers) {
    const double z = level.origin.z;
    const light::LitCounts lit =
        light::cast(around, level, {{light::testing::sample(toward(18, 180), 355, 11, 1)}});
    const unsigned middle = lit.of_month(11, static_cast<std::size_t>(level.cells() / 2));
    EXPECT_EQ(middle, z > 1.6 - 1.95 * rise ? 1u : 0u) << z;
  }
}

// --- slopes, beds, and what cannot be ---

TEST(FaceOnASlope, FollowsTheTopAndStartsAtTheGround) {
  const std::string slope = "[ground]\nspots = [[-20,-20,-2],[20,-20,2],[20,20,2],[-20,20,-2]]\n";
  FacesScene scene(kHead + slope + kWall);  // the ground rises a tenth along it
  const light::Place south = scene.place("wall.south");
  EXPECT_NEAR(in_square_metres(south.area), 20, 1e-6);
  EXPECT_NEAR(south.level_m, 1, 0.03);
  const light::Receiver& face = south.receivers.front();
  for (int row = 0; row < face.rows; ++row) {
    for (int column = 0; column < face.columns; ++column) {
      const geometry::Vec3 p = cell_centre(face, column, row);
      const bool in = p.z > 0.1 * p.x && p.z < 0.1 * p.x + 2;
      if (std::abs(p.z - 0.1 * p.x) < 1e-6 || std::abs(p.z - 0.1 * p.x - 2) < 1e-6) continue;
      EXPECT_EQ(face.counted[static_cast<std::size_t>(row * face.columns + column)], in) << p.x;
    }
  }
}

// The ground rises by four tenths to the east: there a sun must stand over 21.8° to clear it.
TEST(FaceOnASlope, IsShadedByTheGroundThatRisesBeforeItAlone) {
  const std::string slope =
      "[ground]\nspots = [[-40,-40,-16],[40,-40,16],[40,40,16],[-40,40,-16]]\n";
  const std::string across =
      "[[wall]]\nid = \"w\"\nline = [[0,-5],[0,5]]\nheight_m = 2\n"
      "kind = \"brick\"\n";
  FacesScene sloping(kHead + slope + across), level(kHead + across);
  const light::YearSun east = sloping.year("w.east"), free = level.year("w.east");
  for (std::size_t m = 0; m < 12; ++m) {
    EXPECT_LT(east[m].sun_h_per_day, free[m].sun_h_per_day) << m;
    EXPECT_LT(east[m].dli_mol_m2_d, 0.95 * free[m].dli_mol_m2_d) << m;
  }
  EXPECT_LT(east[5].sun_h_per_day, free[5].sun_h_per_day - 0.5);
  expect_same(sloping.year("w.west"), level.year("w.west"));
  const light::Place place = sloping.place("w.east");
  const light::Scene around = sloping.around(place);
  const auto sees = [&](double elevation) {  // from 5 cm over the ground
    return light::along_ray(around, {0.2, 0, 0.13}, toward(elevation, 90), 180).sunlit();
  };
  EXPECT_FALSE(sees(21));
  EXPECT_TRUE(sees(22.5));
}

TEST(FaceBehindABed, StartsAboveTheSoilBeforeIt) {
  const std::string bed = "[[bed]]\nid = \"bed\"\nat = [-2,-1.2]\nsize = [4,1]\nlevel_m = 0.4\n";
  FacesScene scene(kHead + kWall + bed);
  // For 4 of its 10 m the soil lies 0.4 m up its foot.
  EXPECT_NEAR(in_square_metres(scene.place("wall.south").area), 20 - 4 * 0.4, 0.1);
  EXPECT_NEAR(in_square_metres(scene.place("wall.north").area), 20, 1e-6);
}

TEST(FaceThatIsBuried, IsNotListedAndIsDarkWhenAskedFor) {
  const std::string low =
      "[[wall]]\nid = \"kerb\"\nline = [[-2,0],[2,0]]\nheight_m = 0.3\n"
      "kind = \"brick\"\nthickness_m = 0.2\n";
  const std::string bed =
      "[[bed]]\nid = \"bed\"\nat = [-3,-2.1]\nsize = [6,2]\nlevel_m = 0.8\n"
      "boards = { height = \"900 mm\", courses = 1, thickness = \"38 mm\" }\n";
  FacesScene scene(kHead + low + bed + "[[plant]]\nid = \"fig\"\ncrop = \"fig\"\nat = [0,-0.3]\n");
  EXPECT_THAT(scene.listed(), IsEmpty());
  const light::Place south = scene.place("kerb.south");
  EXPECT_EQ(in_square_metres(south.area), 0);
  const light::YearSun year = scene.year("kerb.south");
  for (const light::MonthSun& month : year) {
    EXPECT_EQ(month.sun_h_per_day, 0);
    EXPECT_NEAR(month.dli_mol_m2_d, 0, 1e-6);
  }
}

// The end of a wall that runs 2 m into a building is gone.
TEST(FaceThatRunsIntoABuilding, EndsThere) {
  FacesScene scene(kHead + kWall +
                   "[[building]]\nid = \"byre\"\noutline = [[3,-2],[9,-2],[9,2],[3,2]]\n"
                   "eaves_m = 2.4\n");
  EXPECT_NEAR(in_square_metres(scene.place("wall.south").area), 8 * 2, 0.3);
}

TEST(FacesOfWhatHasNoLengthOrHeight, AreNone) {
  garden::Garden garden = garden_of(kHead + kWall + wires("row", "[[0,-2],[4,-2]]") +
                                    "[[support]]\nid = \"cone\"\nkind = \"obelisk\"\n"
                                    "at = [0,5]\nheight_m = 2\n");
  const geometry::Surface surface = ground::ground_surface(garden);
  const std::vector<double> levels;
  const light::Scenery scenery{garden, surface, levels, catalogue()};
  garden.walls[0].line = {{1, 1}};
  garden.supports[0].height = metres(0);
  garden.supports[1].height = metres(0);
  EXPECT_THAT(light::face_ids(scenery), IsEmpty());
  EXPECT_THAT(light::face_places(scenery), IsEmpty());
  garden.walls[0].line = {{1, 1}, {1, 1}, {1, 1}};
  EXPECT_THAT(light::face_ids(scenery), IsEmpty());
  // There and back again: the inner faces lie within the wall itself.
  garden.walls[0].line = {{0, 0}, {5, 0}, {0, 0.01}};
  for (const light::Place& place : light::face_places(scenery, light::face_ids(scenery))) {
    EXPECT_FALSE(place.receivers.empty()) << place.id;
    EXPECT_TRUE(std::isfinite(place.level_m)) << place.id;
  }
}

TEST(Faces, OfAVeryLongWallAreMeasuredInFewerCells) {
  FacesScene scene(kHead +
                   "[[wall]]\nid = \"w\"\nline = [[-1500,0],[1500,0]]\nheight_m = 30\n"
                   "kind = \"brick\"\n");
  const light::Place place = scene.place("w.south");
  EXPECT_LT(place.receivers.front().cells(), 25'000);
  EXPECT_NEAR(in_square_metres(place.area), 3000 * 30, 1);
}

// --- through the study ---

TEST(FacesInTheStudy, AreTheSameAskedForAloneOrAmongAll) {
  FacesScene scene(kHead + kWall + kFig + wires("row", "[[-4,-4],[-4,-6]]"));
  const auto all = scene.study().places_year("proposed");
  for (const std::string id : {"wall.south", "row.east"}) {
    ASSERT_NE((*all)->find(id), nullptr) << id;
    expect_same((*all)->find(id)->months, scene.year(id));
  }
  EXPECT_EQ((*all)->find("wall.north"), nullptr);
  const auto ids = *scene.study().place_ids("proposed");
  EXPECT_NE(std::find(ids.begin(), ids.end(), "wall.north"), ids.end());
  EXPECT_EQ(std::count(ids.begin(), ids.end(), "wall.south"), 1);
}

TEST(FacesInTheStudy, SayWhyAndHaveASunPrint) {
  FacesScene scene(kHead + kWall + kFig);
  const auto why =
      scene.study().why("proposed", "/light/places/wall.north/months/Jun/sun_h_per_day");
  ASSERT_TRUE(why);
  EXPECT_NEAR(why->number, scene.year("wall.north")[5].sun_h_per_day, 1e-9);
  const auto wall = std::find_if(why->inputs.begin(), why->inputs.end(), [](const Trace& input) {
    return input.name.starts_with("wall.height");
  });
  EXPECT_NE(wall, why->inputs.end());
  // The sun behind the wall is nobody's doing.
  for (const Trace& input : why->inputs) EXPECT_NE(input.name, "wall");
  const auto none = scene.study().why("proposed", "/light/places/wall.up/months/Jun/sun_h_per_day");
  ASSERT_FALSE(none);
  EXPECT_EQ(none.error().code, ErrorCode::kWrongUse);
  const auto print = scene.study().print("proposed", "wall.north");
  ASSERT_TRUE(print);
  EXPECT_TRUE((*print)->is_face);
  EXPECT_NEAR((*print)->month_sun_h[5], scene.year("wall.north")[5].sun_h_per_day, 0.1);
  EXPECT_EQ((*print)->month_sun_h[11], 0);
}

// --- plants by walls ---

const std::string kLongWall =
    "[[wall]]\nid = \"wall\"\nline = [[-10,0],[10,0]]\nheight_m = 2.5\nkind = \"brick\"\n";
const std::string kShed =
    "[[object]]\nid = \"shed\"\nheight_m = 2.5\noutline = [[-10,-4],[-2,-4],[-2,-1],[-10,-1]]\n";
std::string fig_at(const std::string& id, const std::string& at) {
  return "[[plant]]\nid = \"" + id + "\"\ncrop = \"fig against a wall\"\nat = " + at + "\n";
}
double sun_in(const light::YearSun& year) {
  double sum = 0;
  for (const light::MonthSun& month : year) sum += month.sun_h_per_day / 12;
  return sum;
}

// In the open every patch of a wall's face has the light of the whole face.
TEST(TrainedPlant, HasTheLightOfTheFaceThatItGrowsOver) {
  FacesScene scene(kHead + kLongWall + fig_at("one", "[-6,-0.3]") + fig_at("two", "[7,-0.3]"));
  const light::YearSun face = scene.year("wall.south");
  for (const char* id : {"one", "two"}) {
    const light::YearSun own = scene.year(id);
    for (std::size_t m = 0; m < 12; ++m) {
      EXPECT_NEAR(own[m].sun_h_per_day, face[m].sun_h_per_day, 1e-9) << id << m;
      EXPECT_NEAR(own[m].share_of_open, face[m].share_of_open, 1e-6) << id << m;
    }
  }
}

// Espaliers on one wall, one of them behind a shed: each its own light.
TEST(TrainedPlant, HasItsOwnPatchOfAFaceThatIsShadedAtOneEnd) {
  FacesScene scene(kHead + kLongWall + kShed + fig_at("one", "[-6,-0.3]") +
                   fig_at("two", "[7,-0.3]"));
  const double one = sun_in(scene.year("one")), two = sun_in(scene.year("two"));
  const double face = sun_in(scene.year("wall.south"));
  EXPECT_LT(one, 0.7 * two);
  EXPECT_LT(one, face);
  EXPECT_GT(two, face);
  FacesScene open(kHead + kLongWall + fig_at("two", "[7,-0.3]"));
  EXPECT_NEAR(two, sun_in(open.year("two")), 0.2);
}

// On its support before a wall: the patch of that, as wide as the support at the most.
TEST(TrainedPlant, KeepsToItsSupport) {
  FacesScene scene(kHead + kLongWall + wires("w", "[[-1,-0.25],[1,-0.25]]", "grape") +
                   "[[plant]]\nid = \"vine\"\ncrop = \"grape\"\nat = [0,-0.3]\n");
  for (const light::Place& place : light::places(scene.scenery())) {
    if (place.id != "vine") continue;
    ASSERT_TRUE(place.bearing.has_value());
    EXPECT_NEAR(in_degrees(*place.bearing), 180, 1e-6);
    for (const light::Receiver& receiver : place.receivers) {
      EXPECT_NEAR(receiver.w_axis.z, 0, 1e-12);
      EXPECT_LE(receiver.columns * receiver.cell_m, 2.01);
    }
    return;
  }
  FAIL();
}

// A bush by a wall spreads on its own side: none of its leaves are looked for beyond.
TEST(PlantByAWall, IsMeasuredOnItsOwnSide) {
  FacesScene scene(kHead + kLongWall +
                   "[[plant]]\nid = \"bush\"\ncrop = \"blackcurrant\"\nat = [0,-0.5]\n");
  bool any = false;
  for (const light::Place& place : light::places(scene.scenery())) {
    if (place.id != "bush") continue;
    for (const light::Receiver& receiver : place.receivers) {
      for (int row = 0; row < receiver.rows; ++row) {
        for (int column = 0; column < receiver.columns; ++column) {
          if (receiver.counted[static_cast<std::size_t>(row * receiver.columns + column)] == 0)
            continue;
          any = true;
          EXPECT_LT(light::cell_centre(receiver, column, row).y, 0);
        }
      }
    }
  }
  EXPECT_TRUE(any);
}

}  // namespace
}  // namespace spadework::testing
