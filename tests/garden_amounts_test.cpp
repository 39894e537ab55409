// What the light of whole gardens has to keep to, from the document to the figure, under the
// weather that the study finds or is told. Laws that follow from what light and shade are.
// [closed-form]
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "light/light.h"
#include "tests/scenes.h"

namespace spadework::testing {
namespace {

using study::PlacesYear;
using study::Shared;

constexpr double kRounding = 4e-6;  // of the open light

Shared<PlacesYear> year_of(const std::string& text, int threads = 1) {
  study::Study study = study_of(text, threads);
  const auto year = study.places_year("proposed");
  EXPECT_TRUE(year.has_value());
  return *year;
}
light::YearSun light_of(const std::string& text, const std::string& id) {
  const Shared<PlacesYear> year = year_of(text);
  const light::PlaceSun* place = year->find(id);
  EXPECT_NE(place, nullptr) << id;
  return place->months;
}

const std::string kBed = "[[bed]]\nid = \"bed\"\nat = [-0.5, -0.5]\nsize = [1, 1]\n";
const std::vector<std::string> kThings{
    R"([[wall]]
id = "a"
line = [[-4,-3],[4,-3.5]]
height_m = 1.6
kind = "stone"
)",
    R"([[wall]]
id = "b"
line = [[3,-3],[3,4]]
height_m = 1.8
kind = "hurdle"
)",
    R"([[tree]]
id = "c"
kind = "medlar"
at = [-2.5, -1.5]
height_m = 5
crown_width_m = 4.2
)",
    R"([[building]]
id = "d"
outline = [[-5,3],[-1,3],[-1,5],[-5,5]]
eaves_m = 2.1
ridge_m = 3
)",
    R"([[seat]]
id = "e"
at = [1.5, 2.5]
facing = [0, 0]
roof = { height_m = 2.1, overhang_m = 0.2 }
sides = "trellis"
)",
    R"([[plant]]
id = "f"
crop = "raspberry"
row = [[1.5, -1], [1.5, 1.5]]
count = 5
)",
    R"([[support]]
id = "g"
kind = "obelisk"
at = [0.9, -1.2]
height_m = 2
)",  kBed};
const std::string kGround =
    "[ground]\nspots = [[-6,-6,0],[6,-6,0.2],[6,6,1.1],[-6,6,0.8],[0,0,0.6]]\n";

std::string garden_at(double latitude, const std::string& zone) {
  std::string text = head(latitude, -4.36, zone, 340) + kGround;
  for (const std::string& thing : kThings) text += thing;
  return text;
}
const std::string kHead = head(48.41, -4.36, "Europe/Paris", 340);
const std::string kFull = garden_at(48.41, "Europe/Paris");

void expect_no_brighter(const light::YearSun& dark, const light::YearSun& bright) {
  for (std::size_t m = 0; m < 12; ++m) {
    EXPECT_LE(dark[m].dli_mol_m2_d, bright[m].dli_mol_m2_d * (1 + kRounding)) << m + 1;
    EXPECT_LE(dark[m].sun_h_per_day, bright[m].sun_h_per_day) << m + 1;
    EXPECT_LE(dark[m].sunshine_h_per_day, bright[m].sunshine_h_per_day + 1e-12) << m + 1;
  }
}
double year_sum(const light::YearSun& year) {
  double sum = 0;
  for (const light::MonthSun& month : year) sum += month.dli_mol_m2_d;
  return sum;
}

// Faust and Logan's 2.018 mol of light in a megajoule (45 % of it at 4.48 µmol/J), whatever the
// hours it comes in and whatever part of it is sky.
TEST(GardensLight, InTheOpenIsTheRadiationOfTheMonthInMoles) {
  const auto radiation = [](int month) { return month == 7 ? 21.5 : 2 + 0.1 * month; };
  std::string months;
  for (int m = 1; m <= 12; ++m)
    months += "[[climate.month]]\nmonth = " + std::to_string(m) +
              "\nradiation_mj_m2_per_day = " + std::to_string(radiation(m)) + "\n";
  const light::YearSun year = light_of(head(48.41, -4.36, "Europe/Paris") + months + kBed, "bed");
  for (int m = 1; m <= 12; ++m) {
    const light::MonthSun& month = year[static_cast<std::size_t>(m - 1)];
    const double moles = radiation(m) * 0.45 * 4.48;
    EXPECT_NEAR(month.dli_mol_m2_d, moles, 0.002 * moles) << m;
    EXPECT_NEAR(month.share_of_open, 1, 1e-4) << m;
  }
}

TEST(GardensLight, LiesBetweenNoneAndTheOpenSkys) {
  for (const auto& [latitude, zone] :
       {std::pair{48.41, "Europe/Paris"}, {-43.0, "Australia/Hobart"}, {66.0, "Europe/Oslo"}}) {
    const Shared<PlacesYear> year = year_of(garden_at(latitude, zone));
    ASSERT_EQ(year->places.size(), 4U);
    for (const light::PlaceSun& place : year->places) {
      for (std::size_t m = 0; m < 12; ++m) {
        const light::MonthSun& month = place.months[m];
        SCOPED_TRACE(place.place.id + " month " + std::to_string(m + 1));
        EXPECT_GE(month.dli_mol_m2_d, 0);
        EXPECT_LE(month.dli_mol_m2_d, year->sun.open_mol_m2_d[m] * (1 + kRounding));
        EXPECT_GE(month.sun_h_per_day, 0);
        EXPECT_LE(month.sun_h_per_day, year->sun.open_sun_h[m]);
        EXPECT_LE(month.sunshine_h_per_day, month.sun_h_per_day + 1e-12);
      }
    }
    double open = 0;
    for (const double month : year->sun.open_mol_m2_d) open += month;
    EXPECT_LT(year_sum(year->find("bed")->months), 0.9 * open);
  }
}

TEST(GardensLight, NeverGrowsWhenAThingIsAdded) {
  std::string text = kHead + kGround + kBed;
  light::YearSun before = light_of(text, "bed");
  double darker = 0;
  for (const std::string& thing : kThings) {
    if (thing == kBed) continue;
    text += thing;
    const light::YearSun after = light_of(text, "bed");
    SCOPED_TRACE(thing);
    expect_no_brighter(after, before);
    darker += year_sum(before) - year_sum(after);
    before = after;
  }
  EXPECT_GT(darker, 0.2 * year_sum(before));
  text += "[[cover]]\nid = \"x\"\nkind = \"fleece\"\nover = \"bed\"\n";
  expect_no_brighter(light_of(text, "bed"), before);
}

TEST(GardensLight, NeverGrowsBehindASkyline) {
  const std::string hills = "[ground]\nhorizon = [[0, 3], [120, 15], [200, 4], [280, 9]]\n";
  const light::YearSun open = light_of(kHead + kBed, "bed"),
                       behind = light_of(kHead + hills + kBed, "bed");
  expect_no_brighter(behind, open);
  EXPECT_LT(year_sum(behind), 0.99 * year_sum(open));
}

TEST(GardensLight, NeverShrinksWhenATreeLosesItsLeaves) {
  const std::string dead = "condition = \"dead\"\n";
  std::string bare = kHead + kGround;
  for (const std::string& thing : kThings) bare += thing == kThings[2] ? thing + dead : thing;
  const light::YearSun leafy = light_of(kFull, "bed"), leafless = light_of(bare, "bed");
  expect_no_brighter(leafy, leafless);
  EXPECT_GT(leafless[6].dli_mol_m2_d, 1.01 * leafy[6].dli_mol_m2_d);
}

void expect_same_bits(const PlacesYear& a, const PlacesYear& b) {
  ASSERT_EQ(a.places.size(), b.places.size());
  for (const light::PlaceSun& one : a.places) {
    const light::PlaceSun* other = b.find(one.place.id);
    ASSERT_NE(other, nullptr) << one.place.id;
    for (std::size_t m = 0; m < 12; ++m) {
      EXPECT_EQ(one.months[m].dli_mol_m2_d, other->months[m].dli_mol_m2_d) << one.place.id;
      EXPECT_EQ(one.months[m].sun_h_per_day, other->months[m].sun_h_per_day) << one.place.id;
      EXPECT_EQ(one.months[m].morning_h, other->months[m].morning_h) << one.place.id;
    }
  }
}

TEST(GardensLight, IsTheSameBitsInAnyOrderOfThingsAndOnAnyNumberOfThreads) {
  const Shared<PlacesYear> first = year_of(kFull);
  for (const int threads : {2, 5}) expect_same_bits(*first, *year_of(kFull, threads));
  for (const std::size_t from : {3U, 6U}) {
    std::string text = kHead + kGround;
    for (std::size_t i = 0; i < kThings.size(); ++i) text += kThings[(i * 3 + from) % 8];
    expect_same_bits(*first, *year_of(text));
  }
}

// The dome of the sky has no mirror plane, and the real sun's declination moves through the day.
TEST(GardensLight, OfAMirroredGardenIsTheSame) {
  const auto text = [](int sign) {
    const auto x = [&](double v) { return std::to_string(sign * v); };
    return head(48.41, 0, "UTC") + "[[wall]]\nid = \"w\"\nline = [[" + x(2) + ", -5], [" + x(2.5) +
           ", 5]]\nheight_m = 2\nkind = \"brick\"\n[[tree]]\nid = \"t\"\nkind = \"apple\"\nat = [" +
           x(-3) + ", -2]\nheight_m = 4\ncrown_width_m = 3\n" + kBed;
  };
  const light::YearSun east = light_of(text(1), "bed"), west = light_of(text(-1), "bed");
  for (std::size_t m = 0; m < 12; ++m) {
    EXPECT_NEAR(east[m].share_of_open, west[m].share_of_open, 0.01) << m + 1;
    EXPECT_NEAR(east[m].morning_h, west[m].afternoon_h, 0.12) << m + 1;
    EXPECT_NEAR(east[m].afternoon_h, west[m].morning_h, 0.12) << m + 1;
  }
  EXPECT_LT(year_sum(east), 0.9 * year_sum(light_of(head(48.41, 0, "UTC") + kBed, "bed")));
}

TEST(GardensTakers, NeverTakeMoreThanIsLost) {
  study::Study study = study_of(kFull);
  const auto takers = study.takers("proposed");
  ASSERT_TRUE(takers.has_value());
  EXPECT_EQ((*takers)->places.size(), 4U);
  for (const study::PlaceTakers& place : (*takers)->places) {
    EXPECT_FALSE(place.takers.takers.empty()) << place.place;
    for (const light::Taker& taker : place.takers.takers) {
      EXPECT_LE(taker.sun_h_per_year, place.takers.lost_h + 1e-9) << taker.id;
      EXPECT_LE(taker.light_mol_m2_per_year, place.takers.lost_mol_m2 * (1 + kRounding))
          << taker.id;
      EXPECT_GE(taker.light_mol_m2_per_year, 0) << taker.id;
      EXPECT_GE(taker.sun_h_per_year, 0) << taker.id;
    }
    EXPECT_LE(place.takers.taken_twice_h, place.takers.lost_h + 1e-9);
  }
}

}  // namespace
}  // namespace spadework::testing
