// The light on the faces of walls and supports: from the document to the figure against closed
// forms, hand computations, single rays and laws. [closed-form]
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <numbers>
#include <sstream>
#include <string>
#include <vector>

#include "light/light.h"
#include "light/light_testing.h"
#include "sky/cloudy_sky.h"
#include "tests/golden/sky/read_csv.h"
#include "tests/scenes.h"

namespace spadework::testing {
namespace {

using light::testing::box;
using light::testing::opaque;
using light::testing::rad;
using light::testing::toward;
using study::PlacesYear;
using study::Shared;

constexpr double kLatitude = 48.41;
const std::string kHead = head(kLatitude, 0, "UTC");
const std::string kWall =
    "[[wall]]\nid = \"wall\"\nline = [[-5,0],[5,0]]\nheight_m = 2\n"
    "kind = \"brick\"\nthickness_m = 0.3\n";
/// A fig trained against the south side of that wall.
const std::string kFig = "[[plant]]\nid = \"fig\"\ncrop = \"fig\"\nat = [0,-0.35]\n";

std::string wires(const std::string& id, const std::string& line, const std::string& crop = "") {
  return "[[support]]\nid = \"" + id + "\"\nkind = \"wires\"\nline = " + line +
         "\nheight_m = 1.8\n" + (crop.empty() ? "" : "crop = \"" + crop + "\"\n");
}

/// A scheme with its study: places as the study sees them.
class Scene {
 public:
  explicit Scene(const std::string& text) : study_(study_of(text)) {
    stand_ = *study_.stand("proposed");
  }
  light::Scenery scenery() const {
    return {stand_->garden, stand_->surface, stand_->bed_levels_m, catalogue()};
  }
  const garden::Garden& garden() const { return stand_->garden; }
  std::vector<light::Place> faces(const std::vector<std::string>& also = {}) const {
    return light::face_places(scenery(), also);
  }
  std::vector<std::string> listed() const {
    std::vector<std::string> ids;
    for (const light::Place& place : faces()) ids.push_back(place.id);
    return ids;
  }
  std::vector<std::string> ids() const { return light::face_ids(scenery()); }
  light::Place place(const std::string& id) const {
    for (light::Place& place : faces({id})) {
      if (place.id == id) return std::move(place);
    }
    ADD_FAILURE() << "no place " << id;
    return {};
  }
  light::Scene around(const light::Place& place) const {
    return light::Scene(light::with_own(stand_->bodies, place.own, place.replaces));
  }
  light::YearSun year(const std::string& id) {
    return (*study_.places_year("proposed", nullptr, {id}))->find(id)->months;
  }
  light::MonthSun day(const std::string& id, unsigned month, unsigned day) {
    const auto year = study_.places_day("proposed", make_date(2026, month, day), {id});
    return (*year)->find(id)->months[month - 1];
  }
  study::Study& study() { return study_; }

 private:
  study::Study study_;
  Shared<study::Stand> stand_;
};

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::UnorderedElementsAre;

light::SunYear sun_of(Scene& scene) { return (*scene.study().places_year("proposed"))->sun; }

/// The open sky of an upright plane: half of a uniform one; of an overcast one
/// (1 + 2 sin e) / 3 by 2/3 ∫ (1 + 2 sin e) cos² e de over 7π/9.
constexpr double kHalf = 0.5;
const double kOvercast = (std::numbers::pi / 4 + 2.0 / 3) * (2.0 / 3) / (7 * std::numbers::pi / 9);

// --- the sky ---

TEST(SkyOfAFace, IsHalfOfAUniformSkyAnd396ThousandthsOfAnOvercastOne) {  // [cie-overcast]
  EXPECT_NEAR(kOvercast, 0.396, 0.0005);
  for (const double bearing : {0.0, 37.0, 90.0, 180.0, 261.0}) {
    const geometry::Vec3 out{std::sin(rad(bearing)), std::cos(rad(bearing)), 0};
    const light::Receiver face = light::face_receiver({0, 0, 0}, out, 0.1, 1, 1);
    double uniform = 0, overcast = 0;
    for (const light::SkyDirection& sky : light::sky_over(face, {}, degrees(0))) {
      EXPECT_GT(dot(sky.toward, out), 0);
      EXPECT_GT(sky.toward.z, 0);
      uniform += static_cast<double>(sky.uniform), overcast += static_cast<double>(sky.overcast);
    }
    EXPECT_NEAR(uniform, kHalf, 0.003) << bearing;
    EXPECT_NEAR(overcast, kOvercast, 0.003) << bearing;
  }
}

// An endless wall across the way, its top at the height angle e from the point: (1 − sin e) / 2.
TEST(SkyOfAFace, OppositeAWallIsTheClosedForm) {
  const light::Receiver face = light::face_receiver({0, 0, 0}, {0, -1, 0}, 0.1, 1, 20);
  for (const double away : {0.5, 1.0, 2.5, 6.0}) {
    constexpr double kHigh = 3;
    const light::Scene scene({opaque("wall", box({-20000, -away - 0.1}, 40000, 0.1, -1, kHigh))});
    const light::SkyLight sky = light::cast_sky(scene, face, light::sky_over(face, {}, degrees(0)));
    for (int row = 0; row < face.rows; ++row) {
      const double e = std::atan2(kHigh - cell_centre(face, 0, row).z, away);
      EXPECT_NEAR(static_cast<double>(sky.uniform[0][static_cast<std::size_t>(row)]),
                  (1 - std::sin(e)) / 2, 0.01)
          << away << " " << row;
    }
  }
}

// pvlib's vertical planes: the beam and the bright sky about the sun by the cosine, of the rest of
// the sky a half.
TEST(LightOfAFace, IsTheModelOfHayAndDavies) {
  int rows = 0;
  for (const golden::Row& row : golden::sky_table("hay_davies/data.csv")) {
    if (row.number("tilt_deg") != 90) continue;
    ++rows;
    const double sine = std::cos(rad(row.number("zenith_deg")));
    const double beam = row.number("beam_w_m2"), diffuse = row.number("diffuse_w_m2");
    const double about_sun = diffuse * beam / row.number("above_w_m2");  // the model's index
    const double facing = rad(row.number("facing_deg"));
    const light::Receiver face =
        light::face_receiver({0, 0, 0}, {std::sin(facing), std::cos(facing), 0}, 0.1, 1, 1);
    light::SunSample sun;
    sun.toward_sun = toward(90 - row.number("zenith_deg"), row.number("azimuth_deg"));
    sun.beam_w_m2 = static_cast<float>(beam);
    sun.light = static_cast<float>(beam + about_sun / sine);
    const light::BeamLight lit = light::cast_light({}, face, {{sun}});
    const light::SkyLight sky = light::cast_sky({}, face, light::sky_over(face, {}, degrees(0)));
    const double on_face =
        (lit.beam_mol_m2[0].empty() ? 0 : static_cast<double>(lit.beam_mol_m2[0][0])) +
        (diffuse - about_sun) * static_cast<double>(sky.uniform[0][0]);
    const double cosine =
        std::max(0.0, dot(sun.toward_sun, geometry::Vec3{std::sin(facing), std::cos(facing), 0}));
    const double wanted = beam * cosine + row.number("tilted_diffuse_w_m2");
    EXPECT_NEAR(on_face, wanted, 0.003 * diffuse + 0.01) << row.text("zenith_deg");
  }
  EXPECT_GE(rows, 9);
}

// --- the sun ---

// Due south, nothing in the way. At the equinox the sun stands before it from its rise in the east
// to its set in the west, in winter all day; in summer while it is south of the east and west:
// 2/15 acos(tan d / tan latitude).
TEST(SunOfAFace, ToTheSouthIsWhileTheSunIsSouthOfEastAndWest) {
  Scene scene(kHead + kWall + kFig);
  const auto open = [&](unsigned month, unsigned day) {
    const auto year = scene.study().places_day("proposed", make_date(2026, month, day));
    return (*year)->sun.open_sun_h[month - 1];
  };
  EXPECT_NEAR(scene.day("wall.south", 3, 20).sun_h_per_day, open(3, 20), 0.1);
  EXPECT_NEAR(scene.day("wall.south", 12, 21).sun_h_per_day, open(12, 21), 0.01);
  const double june =
      2.0 / 15 * std::acos(std::tan(rad(23.44)) / std::tan(rad(kLatitude))) / rad(1);
  EXPECT_NEAR(scene.day("wall.south", 6, 21).sun_h_per_day, june, 0.07);
  EXPECT_NEAR(scene.day("wall.north", 6, 21).sun_h_per_day, open(6, 21) - june, 0.07);
  EXPECT_EQ(scene.day("wall.north", 12, 21).sun_h_per_day, 0);
}

TEST(SunOfAFace, OfTheEastInTheMorningIsThatOfTheWestInTheAfternoon) {
  Scene scene(kHead + wires("row", "[[0,-3],[0,3]]"));
  const light::YearSun east = scene.year("row.east"), west = scene.year("row.west");
  const light::SunYear sun = sun_of(scene);
  for (std::size_t m = 0; m < 12; ++m) {
    // One sun an hour; between morning and evening the season moves on.
    EXPECT_NEAR(east[m].morning_h, west[m].afternoon_h, 0.15) << m;
    EXPECT_NEAR(east[m].midday_h, west[m].midday_h, 0.15) << m;
    EXPECT_EQ(east[m].afternoon_h, 0) << m;
    EXPECT_EQ(west[m].morning_h, 0) << m;
    // The whole day belongs to one or the other.
    EXPECT_NEAR(east[m].sun_h_per_day + west[m].sun_h_per_day, sun.open_sun_h[m], 0.01) << m;
    EXPECT_NEAR(east[m].dli_mol_m2_d / west[m].dli_mol_m2_d, 1, 0.02) << m;
  }
}

// The page's up may lie anywhere: the same wall drawn turned by as much has the same light.
TEST(SunOfAFace, DoesNotDependOnHowThePageLies) {
  Scene straight(kHead + kWall + kFig);
  const double c = 5 * std::cos(rad(25)), s = 5 * std::sin(rad(25));
  // With the page's up at 25° a line to the true east runs 25° anticlockwise of the page's right.
  std::ostringstream turned;
  turned << head(kLatitude, 0, "UTC", 25) << "[[wall]]\nid = \"wall\"\nline = [[" << -c << "," << -s
         << "],[" << c << "," << s << "]]\nheight_m = 2\nkind = \"brick\"\n";
  Scene other(turned.str());
  EXPECT_NEAR(in_degrees(*other.place("wall.south").bearing), 180, 1e-3);
  const light::YearSun a = straight.year("wall.south"), b = other.year("wall.south");
  for (std::size_t m = 0; m < 12; ++m) {
    EXPECT_NEAR(a[m].sun_h_per_day, b[m].sun_h_per_day, 0.01) << m;
    EXPECT_NEAR(a[m].dli_mol_m2_d, b[m].dli_mol_m2_d, 0.003 * a[m].dli_mol_m2_d) << m;
  }
}

// --- a whole document, by hand ---

// A fig on a south wall with nothing around. Each sun of the year that stands south of the wall
// brings its light by the cosine; of the sky half, or 0.396 as far as it is overcast.
TEST(EspalierOnASouthWall, HasTheLightThatIsReckonedByHand) {
  Scene scene(kHead + kWall + kFig);
  EXPECT_THAT(scene.listed(), ElementsAre("wall.south"));
  const light::Place place = scene.place("wall.south");
  EXPECT_EQ(light::place_kind_name(place.kind), "face");
  EXPECT_NEAR(in_degrees(*place.bearing), 180, 1e-9);
  EXPECT_NEAR(in_square_metres(place.area), 10 * 2, 1e-6);
  EXPECT_NEAR(place.level_m, 1, 0.03);
  const light::YearSun year = scene.year("wall.south");
  const light::SunYear sun = sun_of(scene);
  std::array<double, 12> beam{}, hours{};
  for (const light::SunSample& sample : sun.samples) {
    const double before = -sample.toward_sun.y;  // the page's up is north
    if (before <= 0) continue;
    beam[sample.month] += static_cast<double>(sample.light) * before;
    if (static_cast<double>(sample.beam_w_m2) > 120) hours[sample.month] += sun.hours_each;
  }
  for (std::size_t m = 0; m < 12; ++m) {
    const double days = sun.days_in_month[m];
    const double sky = sun.overcast[m] * kOvercast + (1 - sun.overcast[m]) * kHalf;
    const double light = beam[m] / days + sun.sky_mol_m2_d[m] * sky;
    EXPECT_NEAR(year[m].dli_mol_m2_d, light, 0.005 * light) << m;
    EXPECT_NEAR(year[m].share_of_open, light / sun.open_mol_m2_d[m], 0.005) << m;
    EXPECT_NEAR(year[m].sun_h_per_day, hours[m] / days, 0.001) << m;
  }
  EXPECT_GT(year[11].share_of_open, 1);  // the low sun of December
  EXPECT_LT(year[5].share_of_open, 0.5);
}

// The roof of a seat hangs 1 m out over a wall 2 m high, its underside at 2.2 m. A sun whose height
// as seen in the section is p shades what lies above 2.2 m − 1 m · tan p.
TEST(EspalierUnderARoof, IsShadedDownToTheClosedFormsLine) {
  Scene scene(kHead + kWall +
              "[[seat]]\nid = \"bench\"\nat = [0,-0.65]\nfacing = [0,-3]\nsize = [30,1]\n"
              "roof = { height_m = 2.2, overhang_m = 0 }\n");
  const light::Place place = scene.place("wall.south");
  ASSERT_EQ(place.receivers.size(), 1u);
  const light::Receiver& face = place.receivers.front();
  const light::Scene around = scene.around(place);
  for (const double elevation : {8.0, 18.2, 41.6, 65.0}) {
    for (const double bearing : {150.0, 180.0, 215.0}) {
      const geometry::Vec3 sun = toward(elevation, bearing);
      const double line = 2.2 - 0.998 * sun.z / -sun.y;  // the face lies 2 mm nearer at most
      const light::LitCounts lit =
          light::cast(around, face, {{light::testing::sample(sun, 180, 5, 1)}});
      for (int row = 0; row < face.rows; ++row) {
        const double z = cell_centre(face, face.columns / 2, row).z;
        if (std::abs(z - line) < 0.01 || std::abs(z - 2) < 0.01 || z > 2) continue;
        const auto cell = static_cast<std::size_t>(row * face.columns + face.columns / 2);
        EXPECT_EQ(lit.of_month(5, cell), z < line ? 1u : 0u)
            << elevation << " " << bearing << " " << z;
      }
    }
  }
}

// --- by another road ---

std::string example(const std::string& name) {
  std::ifstream in(std::string(SPADEWORK_SOURCE_DIR) + "/examples/" + name);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

/// A few cells of a place that count.
std::vector<std::pair<std::size_t, geometry::Vec3>> some_cells(const light::Receiver& r) {
  std::vector<std::pair<std::size_t, geometry::Vec3>> cells;
  for (const auto& [u, v] : {std::pair{0.1, 0.2}, {0.35, 0.8}, {0.6, 0.5}, {0.9, 0.3}}) {
    const int column = static_cast<int>(u * r.columns), row = static_cast<int>(v * r.rows);
    const auto cell = static_cast<std::size_t>(row * r.columns + column);
    if (r.counted[cell]) cells.emplace_back(cell, cell_centre(r, column, row));
  }
  return cells;
}

const std::vector<std::string> kKerAvelFaces{"byre-trellis.south-east", "lane-wall-west.north",
                                             "hedge.east", "pea-wires.north-west",
                                             "berry-wires.west"};

// Single rays to every fifth sun of the year.
TEST(FacesOfKerAvel, HaveTheSunThatRaysFind) {
  Scene scene(example("ker-avel.toml"));
  const light::SunYear year = light::sun_year(scene.garden());
  std::vector<light::SunSample> suns;
  for (std::size_t i = 0; i < year.samples.size(); i += 5) suns.push_back(year.samples[i]);
  int asked = 0, apart = 0;
  for (const std::string& id : kKerAvelFaces) {
    const light::Place place = scene.place(id);
    const light::Receiver& face = place.receivers.front();
    const light::Scene around = scene.around(place);
    const light::LitCounts lit = light::cast(around, face, suns);
    for (const auto& [cell, at] : some_cells(face)) {
      unsigned by_rays = 0, by_cast = 0;
      for (const light::SunSample& sun : suns)
        by_rays += dot(face.w_axis, sun.toward_sun) > 0 &&
                   light::along_ray(around, at, sun.toward_sun, sun.day_of_year).sunlit();
      for (int m = 0; m < 12; ++m) by_cast += lit.of_month(m, cell);
      asked += static_cast<int>(by_rays);
      apart += std::abs(static_cast<int>(by_rays) - static_cast<int>(by_cast));
    }
  }
  EXPECT_GT(asked, 1000);
  EXPECT_LE(apart, asked / 500);
}

// Rays over a grid of heights and bearings of its own, 2° apart.
TEST(FacesOfKerAvel, HaveTheSkyThatRaysFind) {
  Scene scene(example("ker-avel.toml"));
  double errors = 0;
  int cells = 0;
  for (const std::string& id : kKerAvelFaces) {
    const light::Place place = scene.place(id);
    const light::Receiver& face = place.receivers.front();
    const light::Scene around = scene.around(place);
    const light::SkyLight sky =
        light::cast_sky(around, face, light::sky_over(face, {}, degrees(0)));
    for (const auto& [cell, at] : some_cells(face)) {
      double uniform = 0;
      for (double e = 1; e < 90; e += 2) {
        for (double b = 1; b < 360; b += 2) {
          const geometry::Vec3 way = toward(e, b);
          const double cosine = dot(face.w_axis, way);
          if (cosine <= 0) continue;
          const double solid = std::cos(rad(e)) * rad(2) * rad(2);
          uniform += std::exp(-light::along_ray(around, at, way, 196).depth) * cosine * solid;
        }
      }
      const auto state = static_cast<std::size_t>(sky.state_of_month[6]);
      const double error =
          static_cast<double>(sky.uniform[state][cell]) - uniform / std::numbers::pi;
      EXPECT_LE(std::abs(error), 0.012) << id << " " << cell;
      errors += std::abs(error), ++cells;
    }
  }
  EXPECT_GT(cells, 15);
  EXPECT_LT(errors / cells, 0.004);
}

// --- what does not shade a face, and what does ---

void expect_same(const light::YearSun& a, const light::YearSun& b) {
  for (std::size_t m = 0; m < 12; ++m) {
    EXPECT_EQ(a[m].sun_h_per_day, b[m].sun_h_per_day) << m;
    EXPECT_EQ(a[m].dli_mol_m2_d, b[m].dli_mol_m2_d) << m;
  }
}

TEST(Face, IsNotShadedByWhatGrowsOnIt) {
  const std::string hedge =
      "[[wall]]\nid = \"hedge\"\nline = [[-6,-4],[6,-4]]\nheight_m = 2.4\n"
      "kind = \"privet hedge\"\n";
  Scene bare(kHead + hedge + kWall + wires("row", "[[-2,-2],[2,-2]]"));
  Scene grown(kHead + hedge + kWall + wires("row", "[[-2,-2],[2,-2]]", "runner bean"));
  expect_same(bare.year("row.south"), grown.year("row.south"));
  expect_same(bare.year("row.north"), grown.year("row.north"));
  // What is tied to bare wires grows on them too.
  Scene tied(kHead + hedge + kWall + wires("row", "[[-2,-2],[2,-2]]") +
             "[[plant]]\nid = \"vine\"\ncrop = \"grape\"\nat = [0,-2.2]\n");
  expect_same(bare.year("row.south"), tied.year("row.south"));
  // The fig does not shade its own wall, but another plant's does.
  Scene fig(kHead + kWall + kFig);
  Scene wall(kHead + kWall);
  expect_same(wall.year("wall.south"), fig.year("wall.south"));
  Scene apple(kHead + kWall + "[[plant]]\nid = \"apple\"\ncrop = \"apple\"\nat = [0,-1.5]\n");
  EXPECT_LT(apple.year("wall.south")[5].dli_mol_m2_d, wall.year("wall.south")[5].dli_mol_m2_d);
  EXPECT_LT(grown.year("wall.south")[7].dli_mol_m2_d, bare.year("wall.south")[7].dli_mol_m2_d);
}

// A wall that turns a corner: its inner faces shade each other, its outer ones are free.
TEST(Face, IsShadedByTheOtherLegsOfItsWall) {
  Scene bent(kHead +
             "[[wall]]\nid = \"wall\"\nline = [[-5,0],[5,0],[5,-6]]\nheight_m = 2\n"
             "kind = \"brick\"\n");
  EXPECT_THAT(bent.ids(),
              UnorderedElementsAre("wall.north", "wall.south", "wall.east", "wall.west"));
  Scene straight(kHead + kWall);
  const auto june = [](Scene& scene, const std::string& id) {
    return scene.year(id)[5].dli_mol_m2_d;
  };
  EXPECT_LT(june(bent, "wall.south"), 0.97 * june(straight, "wall.south"));
  EXPECT_NEAR(june(bent, "wall.north"), june(straight, "wall.north"), 1e-4);
  const light::Takers takers =
      (*bent.study().takers("proposed", {"wall.south"}))->places.front().takers;
  ASSERT_EQ(takers.takers.size(), 1u);
  EXPECT_EQ(takers.takers.front().id, "wall");
  EXPECT_LE(takers.takers.front().sun_h_per_year, takers.lost_h * (1 + 1e-9));
}

TEST(Face, BrightensWhenWhatStandsBeforeItGoes) {
  const std::string things =
      "[[tree]]\nid = \"medlar\"\nkind = \"medlar\"\nat = [1,-3]\n"
      "height_m = 5\ncrown_width_m = 4\n";
  Scene with(kHead + kWall + things), without(kHead + kWall);
  for (const std::string id : {"wall.south", "wall.north"}) {
    const light::YearSun dark = with.year(id), bright = without.year(id);
    for (std::size_t m = 0; m < 12; ++m) {
      EXPECT_LE(dark[m].sun_h_per_day, bright[m].sun_h_per_day) << id << m;
      EXPECT_LE(dark[m].dli_mol_m2_d, bright[m].dli_mol_m2_d * (1 + 1e-6)) << id << m;
      EXPECT_GE(dark[m].dli_mol_m2_d, 0) << id << m;
    }
  }
}

// --- what is listed, and its names ---

TEST(FacesListed, AreThoseOnWhichSomethingGrowsOrCan) {
  const auto listed = [](const std::string& text) { return Scene(kHead + text).listed(); };
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
  Scene scene(kHead +
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
    Scene scene(kHead + wires("row", line.str()));
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
    Scene scene(kHead + "[[wall]]\nid = \"w\"\nline = " + line +
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
  Scene scene(kHead +
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
    Scene scene(kHead + "[[support]]\nid = \"it\"\nkind = \"" + kind +
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
  Scene scene(kHead +
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
  Scene scene(kHead + slope + kWall);  // the ground rises a tenth along it
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
  Scene sloping(kHead + slope + across), level(kHead + across);
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
  Scene scene(kHead + kWall + bed);
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
  Scene scene(kHead + low + bed + "[[plant]]\nid = \"fig\"\ncrop = \"fig\"\nat = [0,-0.3]\n");
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
  Scene scene(kHead + kWall +
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
  Scene scene(kHead +
              "[[wall]]\nid = \"w\"\nline = [[-1500,0],[1500,0]]\nheight_m = 30\n"
              "kind = \"brick\"\n");
  const light::Place place = scene.place("w.south");
  EXPECT_LT(place.receivers.front().cells(), 25'000);
  EXPECT_NEAR(in_square_metres(place.area), 3000 * 30, 1);
}

// --- through the study ---

TEST(FacesInTheStudy, AreTheSameAskedForAloneOrAmongAll) {
  Scene scene(kHead + kWall + kFig + wires("row", "[[-4,-4],[-4,-6]]"));
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
  Scene scene(kHead + kWall + kFig);
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
  Scene scene(kHead + kLongWall + fig_at("one", "[-6,-0.3]") + fig_at("two", "[7,-0.3]"));
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
  Scene scene(kHead + kLongWall + kShed + fig_at("one", "[-6,-0.3]") + fig_at("two", "[7,-0.3]"));
  const double one = sun_in(scene.year("one")), two = sun_in(scene.year("two"));
  const double face = sun_in(scene.year("wall.south"));
  EXPECT_LT(one, 0.7 * two);
  EXPECT_LT(one, face);
  EXPECT_GT(two, face);
  Scene open(kHead + kLongWall + fig_at("two", "[7,-0.3]"));
  EXPECT_NEAR(two, sun_in(open.year("two")), 0.2);
}

// On its support before a wall: the patch of that, as wide as the support at the most.
TEST(TrainedPlant, KeepsToItsSupport) {
  Scene scene(kHead + kLongWall + wires("w", "[[-1,-0.25],[1,-0.25]]", "grape") +
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
  Scene scene(kHead + kLongWall +
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
