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
#include "tests/faces_scenes.h"
#include "tests/golden/sky/read_csv.h"

namespace spadework::testing {
namespace {

using light::testing::box;
using light::testing::opaque;
using light::testing::rad;
using light::testing::toward;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::UnorderedElementsAre;

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
  FacesScene scene(kHead + kWall + kFig);
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
  FacesScene scene(kHead + wires("row", "[[0,-3],[0,3]]"));
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
  FacesScene straight(kHead + kWall + kFig);
  const double c = 5 * std::cos(rad(25)), s = 5 * std::sin(rad(25));
  // With the page's up at 25° a line to the true east runs 25° anticlockwise of the page's right.
  std::ostringstream turned;
  turned << head(kLatitude, 0, "UTC", 25) << "[[wall]]\nid = \"wall\"\nline = [[" << -c << "," << -s
         << "],[" << c << "," << s << "]]\nheight_m = 2\nkind = \"brick\"\n";
  FacesScene other(turned.str());
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
  FacesScene scene(kHead + kWall + kFig);
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
  FacesScene scene(kHead + kWall +
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
  FacesScene scene(example("ker-avel.toml"));
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
  FacesScene scene(example("ker-avel.toml"));
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

TEST(Face, IsNotShadedByWhatGrowsOnIt) {
  const std::string hedge =
      "[[wall]]\nid = \"hedge\"\nline = [[-6,-4],[6,-4]]\nheight_m = 2.4\n"
      "kind = \"privet hedge\"\n";
  FacesScene bare(kHead + hedge + kWall + wires("row", "[[-2,-2],[2,-2]]"));
  FacesScene grown(kHead + hedge + kWall + wires("row", "[[-2,-2],[2,-2]]", "runner bean"));
  expect_same(bare.year("row.south"), grown.year("row.south"));
  expect_same(bare.year("row.north"), grown.year("row.north"));
  // What is tied to bare wires grows on them too.
  FacesScene tied(kHead + hedge + kWall + wires("row", "[[-2,-2],[2,-2]]") +
                  "[[plant]]\nid = \"vine\"\ncrop = \"grape\"\nat = [0,-2.2]\n");
  expect_same(bare.year("row.south"), tied.year("row.south"));
  // The fig does not shade its own wall, but another plant's does.
  FacesScene fig(kHead + kWall + kFig);
  FacesScene wall(kHead + kWall);
  expect_same(wall.year("wall.south"), fig.year("wall.south"));
  FacesScene apple(kHead + kWall + "[[plant]]\nid = \"apple\"\ncrop = \"apple\"\nat = [0,-1.5]\n");
  EXPECT_LT(apple.year("wall.south")[5].dli_mol_m2_d, wall.year("wall.south")[5].dli_mol_m2_d);
  EXPECT_LT(grown.year("wall.south")[7].dli_mol_m2_d, bare.year("wall.south")[7].dli_mol_m2_d);
}

// A wall that turns a corner: its inner faces shade each other, its outer ones are free.
TEST(Face, IsShadedByTheOtherLegsOfItsWall) {
  FacesScene bent(kHead +
                  "[[wall]]\nid = \"wall\"\nline = [[-5,0],[5,0],[5,-6]]\nheight_m = 2\n"
                  "kind = \"brick\"\n");
  EXPECT_THAT(bent.ids(),
              UnorderedElementsAre("wall.north", "wall.south", "wall.east", "wall.west"));
  FacesScene straight(kHead + kWall);
  const auto june = [](FacesScene& scene, const std::string& id) {
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
  FacesScene with(kHead + kWall + things), without(kHead + kWall);
  for (const std::string id : {"wall.south", "wall.north"}) {
    const light::YearSun dark = with.year(id), bright = without.year(id);
    for (std::size_t m = 0; m < 12; ++m) {
      EXPECT_LE(dark[m].sun_h_per_day, bright[m].sun_h_per_day) << id << m;
      EXPECT_LE(dark[m].dli_mol_m2_d, bright[m].dli_mol_m2_d * (1 + 1e-6)) << id << m;
      EXPECT_GE(dark[m].dli_mol_m2_d, 0) << id << m;
    }
  }
}

}  // namespace
}  // namespace spadework::testing
