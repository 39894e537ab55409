// The print against rays with one thing after another left out: what "taken" and "twice" mean.
#include "light/print.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <set>

#include "light/light_testing.h"
#include "light/print_regions.h"
#include "light/ray.h"
#include "light/skyline.h"
#include "light/taker_inks.h"
#include "light/takers.h"

namespace spadework::light {
namespace {

using namespace testing;  // NOLINT: suns and bodies

garden::Garden site(bool hills = false) {
  garden::Garden garden;
  garden.site.latitude = degrees(48.41);
  garden.site.longitude = degrees(-4.36);
  garden.site.time_zone = TimeZone("UTC", {{UtcTime{-1e12}, 0, false}});
  if (hills)
    garden.ground.horizon = {{degrees(60), degrees(3)},
                             {degrees(120), degrees(16)},
                             {degrees(180), degrees(4)},
                             {degrees(250), degrees(14)}};
  return garden;
}

Place bed(int columns = 3, int rows = 3) {
  Place place;
  place.id = "bed";
  place.receivers = {level_receiver({-0.6, -1.5}, 0.4, 0.2, 0.2, columns, rows)};
  place.receivers[0].counted.assign(static_cast<std::size_t>(columns * rows), 1);
  return place;
}

/// Boxes, and crowns of which two are one thing's.
std::vector<Body> things(Random& random) {
  std::vector<Body> bodies;
  for (int i = 0; i < 5; ++i) {
    const Vec2 at{random.between(-4, 4), random.between(-5, -0.5)};
    bodies.push_back(
        opaque("box" + std::to_string(i), box(at, random.between(0.3, 4), random.between(0.2, 1), 0,
                                              random.between(0.5, 2.5), random.between(0, 3))));
  }
  for (int i = 0; i < 5; ++i) {
    Body tree{"tree" + std::to_string(i % 4),
              RoundSolid{RoundShape::kEllipsoid,
                         {random.between(-4, 4), random.between(-5, 2)},
                         random.between(0, 1),
                         random.between(2, 5),
                         random.between(0.5, 2)},
              Through::kPerMetre,
              {}};
    tree.depth.assign(366, static_cast<float>(random.between(0.05, 0.2)));
    for (std::size_t day = 115; day < 310; ++day) tree.depth[day] *= 5;
    bodies.push_back(tree);
  }
  return bodies;
}

/// What a cell must say, by leaving out each thing and the skyline in turn.
struct Wanted {
  int lit = 0, once = 0, twice = 0;
  std::map<std::string, int> first_once, first_twice;
  std::map<std::string, std::set<std::string>> seconds;
};

Wanted wanted(const Place& place, const Scene& scene, Vec3 towards, int day, bool behind) {
  Wanted out;
  const Receiver& receiver = place.receivers[0];
  const auto id = [&](int thing) { return scene.things()[static_cast<std::size_t>(thing)]; };
  for (int cell = 0; cell < receiver.columns * receiver.rows; ++cell) {
    const Vec3 p = cell_centre(receiver, cell % receiver.columns, cell / receiver.columns);
    const RayResult all = along_ray(scene, p, towards, day);
    if (all.sunlit() && !behind) {
      ++out.lit;
      continue;
    }
    bool given_back = all.sunlit();  // by the skyline
    for (int t = 0; t < static_cast<int>(scene.things().size()); ++t)
      given_back = given_back ||
                   (!behind && along_ray(scene, p, towards, day, leave_out(scene, {t})).sunlit());
    const std::string first = all.sunlit() ? kSkylineId : id(all.first_blocker);
    ++(given_back ? out.once : out.twice);
    ++(given_back ? out.first_once : out.first_twice)[first];
    if (given_back) continue;
    const RayResult next = along_ray(scene, p, towards, day, leave_out(scene, {all.first_blocker}));
    out.seconds[first].insert(next.sunlit() ? kSkylineId : id(next.first_blocker));
  }
  return out;
}

std::string id_of(const SunPrint& print, int taker) {
  if (taker == kNoTaker) return "";
  if (taker == kSkylineTaker) return kSkylineId;
  return print.takers[static_cast<std::size_t>(taker)].id;
}

TEST(SunPrint, SaysOfEveryCellWhatRaysWithEachThingLeftOutSay) {
  Random random(20270117);
  const garden::Garden garden = site(true);
  const sky::Almanac almanac = sky::Almanac::of_year(kReferenceYear);
  const sky::Site where{garden.site.latitude, garden.site.longitude, garden.site.elevation};
  int strong = 0, striped = 0, single = 0;
  for (int scenes = 0; scenes < 3; ++scenes) {
    const Scene scene(things(random));
    const Place place = bed();
    const SunPrint print = sun_print(garden, place, scene, {23, 0.4, 24});
    for (int c = 0; c < print.columns; ++c) {
      const int day = print.day_of(c);
      const LocalDate date = date_of_day(kReferenceYear, day);
      for (int r = 0; r < print.rows; ++r) {
        const PrintCell& cell = print.at(c, r);
        const sky::SunSample sun =
            sky::sun_sample(garden.site.time_zone.at_clock(date, (r + 0.5) * 0.4), date, where,
                            garden.site.plan_north, almanac);
        ASSERT_EQ(cell.strong, sun.clear.direct_normal > sky::kSunshineThreshold);
        if (!cell.strong) {
          EXPECT_EQ(cell.lit + cell.taken(), 0);
          continue;
        }
        ++strong;
        const bool behind = sun.elevation <= skyline_altitude(garden.ground.horizon, sun.azimuth);
        const Wanted want = wanted(place, scene, sun.towards, day, behind);
        ASSERT_NEAR(static_cast<double>(cell.lit), want.lit / 9.0, 1e-6);
        ASSERT_NEAR(static_cast<double>(cell.once), want.once / 9.0, 1e-6);
        ASSERT_NEAR(static_cast<double>(cell.twice), want.twice / 9.0, 1e-6);
        const bool stripes = want.twice > 0 && want.twice >= want.once;
        ASSERT_EQ(cell.striped(), stripes);
        const auto& firsts = stripes ? want.first_twice : want.first_once;
        if (firsts.empty()) {
          EXPECT_EQ(cell.taker, kNoTaker);
          continue;
        }
        const std::string ink = id_of(print, cell.taker);
        ASSERT_TRUE(firsts.count(ink)) << ink;
        for (const auto& [id, times] : firsts) EXPECT_LE(times, firsts.at(ink)) << id;
        if (stripes) {
          EXPECT_TRUE(want.seconds.at(ink).count(id_of(print, cell.second)));
        }
        ++(stripes ? striped : single);
      }
    }
  }
  EXPECT_GT(strong, 1000);
  EXPECT_GT(striped, 100);
  EXPECT_GT(single, 100);
}

// Two roads to the same hours: rays at a few points every day, and the shadows of 4,100 suns on
// every cell. 2 % of the year's hours of sun, for the suns are an hour apart.
TEST(SunPrint, CountsTheHoursTakenAndTakenTwiceAsTakersDo) {
  Random random(20270118);
  const garden::Garden garden = site(true);
  const SunYear sun = sun_year(garden);
  for (int scenes = 0; scenes < 3; ++scenes) {
    const Scene scene(things(random));
    const Place place = bed();
    const SunPrint print = sun_print(garden, place, scene, {2, 0.2, 24}, 2);
    const Takers takers = takers_of(garden, place, scene, sun);
    const double open = print.lit_h + print.lost_h;
    EXPECT_GT(takers.taken_twice_h, 100);
    EXPECT_NEAR(print.lost_h, takers.lost_h, 0.02 * open);
    EXPECT_NEAR(print.taken_twice_h, takers.taken_twice_h, 0.02 * open);
    double first = print.skyline_first_h;
    for (const PrintTaker& taker : print.takers) first += taker.first_h;
    EXPECT_NEAR(first, print.lost_h, 1e-6 * open);
    for (std::size_t i = 1; i < print.takers.size(); ++i)
      EXPECT_GE(print.takers[i - 1].first_h, print.takers[i].first_h);
  }
}

TEST(SunPrint, OfAnOpenPlaceHasNoTakers) {
  const SunPrint print = sun_print(site(), bed(), Scene(std::vector<Body>{}), {30, 0.5, 24});
  EXPECT_TRUE(print.takers.empty());
  EXPECT_EQ(print.lost_h, 0);
  for (const PrintCell& cell : print.cells) {
    EXPECT_EQ(cell.lit, cell.strong ? 1 : 0);
    EXPECT_EQ(cell.taker, kNoTaker);
  }
}

TEST(SunPrint, IsTheSameOnTwoThreads) {
  Random random(20270119);
  const Scene scene(things(random));
  const SunPrint one = sun_print(site(), bed(), scene, {20, 0.5, 24}, 1),
                 two = sun_print(site(), bed(), scene, {20, 0.5, 24}, 2);
  EXPECT_EQ(one.lost_h, two.lost_h);
  ASSERT_EQ(one.cells.size(), two.cells.size());
  for (std::size_t i = 0; i < one.cells.size(); ++i) {
    EXPECT_EQ(one.cells[i].lit, two.cells[i].lit);
    EXPECT_EQ(one.cells[i].taker, two.cells[i].taker);
    EXPECT_EQ(one.cells[i].second, two.cells[i].second);
  }
}

/// Flat veils across the way north, each of one optical depth.
Scene veils(const std::vector<double>& depths) {
  std::vector<Body> bodies;
  for (std::size_t i = 0; i < depths.size(); ++i) {
    Body veil{"v" + std::to_string(i),
              box({-1, 1 + static_cast<double>(i)}, 2, 0.2, 0, 2),
              Through::kPerCrossing,
              {}};
    veil.depth.assign(366, static_cast<float>(depths[i]));
    bodies.push_back(veil);
  }
  return Scene(std::move(bodies));
}
RayTakers through(const std::vector<double>& depths) {
  return takers_on(along_ray(veils(depths), {0, 0, 1}, {0, 1, 0}, 1));
}

// Half of the light is a depth of ln 2 = 0.69.
TEST(TakersOnRay, AreTwiceOnlyWhenNoneAloneGivesTheSunBack) {
  EXPECT_EQ(through({0.3, 0.3}).first, -1);
  EXPECT_FALSE(through({0.3, 0.3}).twice);
  const RayTakers one = through({2.0});
  EXPECT_EQ(one.first, 0);
  EXPECT_EQ(one.second, -1);
  EXPECT_FALSE(one.twice);
  const RayTakers either = through({0.5, 0.5});  // 1.0: either gone leaves 0.5
  EXPECT_EQ(either.first, 1);
  EXPECT_FALSE(either.twice);
  const RayTakers three = through({0.4, 0.4, 0.4});  // any one gone leaves 0.8
  EXPECT_EQ(three.first, 1);
  EXPECT_EQ(three.second, 2);
  EXPECT_TRUE(three.twice);
  const RayTakers two = through({2.0, 3.0});
  EXPECT_EQ(two.first, 0);
  EXPECT_EQ(two.second, 1);
  EXPECT_TRUE(two.twice);
  const RayTakers last = through({0.65, 0.05, 0.05});  // without the first 0.1 is left
  EXPECT_EQ(last.first, 1);
  EXPECT_FALSE(last.twice);
}

// The hill stands behind the wall: of an hour that both take the wall is the first.
TEST(SunPrint, PutsTheSkylineBehindEveryThing) {
  garden::Garden garden = site();
  garden.ground.horizon = {{degrees(0), degrees(30)}, {degrees(180), degrees(30)}};
  const SunPrint bare = sun_print(garden, bed(), Scene(std::vector<Body>{}), {90, 0.5, 24});
  const SunPrint walled = sun_print(
      garden, bed(), Scene({opaque("wall", box({-50, -3.5}, 100, 1, 0, 3.8))}), {90, 0.5, 24});
  const int noon = 24;  // of the first of January: the sun is 18° up, the wall higher
  EXPECT_EQ(bare.at(0, noon).taker, kSkylineTaker);
  EXPECT_FALSE(bare.at(0, noon).striped());
  EXPECT_EQ(bare.at(0, noon).once, 1);
  EXPECT_EQ(id_of(walled, walled.at(0, noon).taker), "wall");
  EXPECT_EQ(walled.at(0, noon).second, kSkylineTaker);
  EXPECT_EQ(walled.at(0, noon).twice, 1);
}

// ---- its regions ----

SunPrint blank(int columns, int rows) {
  SunPrint print;
  print.columns = columns;
  print.rows = rows;
  PrintCell lit;
  lit.day = lit.strong = true;
  lit.lit = 1;
  print.cells.assign(static_cast<std::size_t>(columns * rows), lit);
  print.takers = {{"a", 1}, {"b", 1}};
  return print;
}
void take(SunPrint& print, int from_column, int to_column, int from_row, int to_row, float lit,
          int taker, int second = kNoTaker) {
  for (int c = from_column; c < to_column; ++c) {
    for (int r = from_row; r < to_row; ++r) {
      PrintCell& cell = print.cells[static_cast<std::size_t>(c * print.rows + r)];
      cell.lit = lit;
      (second == kNoTaker ? cell.once : cell.twice) = 1 - lit;
      cell.taker = taker;
      cell.second = second;
    }
  }
}

TEST(PrintRegions, AreLitHalfOrWholeByTheShareThatIsLit) {
  SunPrint print = blank(40, 40);
  take(print, 0, 10, 0, 10, 0.76F, 0);
  take(print, 10, 20, 0, 10, 0.75F, 0);
  take(print, 20, 30, 0, 10, 0.25F, 0);
  take(print, 30, 40, 0, 10, 0.0F, 0, 1);
  const PrintRegions regions = regions_of(print);
  const auto kind_at = [&](int c, int r) {
    return regions
        .kinds[static_cast<std::size_t>(regions.kind_of[static_cast<std::size_t>(c * 40 + r)])];
  };
  EXPECT_EQ(kind_at(5, 5).what, RegionKind::What::kLit);
  EXPECT_EQ(kind_at(15, 5).what, RegionKind::What::kHalf);
  EXPECT_EQ(kind_at(25, 5).what, RegionKind::What::kWhole);
  EXPECT_FALSE(kind_at(25, 5).striped());
  EXPECT_TRUE(kind_at(35, 5).striped());
  EXPECT_EQ(kind_at(35, 5).cells, 100);
}

TEST(PrintRegions, GiveSpecksToWhatLiesAround) {
  SunPrint print = blank(30, 30);
  take(print, 10, 12, 10, 12, 0, 0);
  take(print, 20, 26, 20, 26, 0, 1);
  const PrintRegions regions = regions_of(print);
  EXPECT_EQ(regions.kinds.size(), 2u);
  EXPECT_EQ(regions.kinds[0].cells, 900 - 36);
  EXPECT_EQ(pieces_of(print, regions.kind_of).size(), 2u);
}

TEST(PrintRegions, FindTheRoomForANameWithinAPiece) {
  SunPrint print = blank(40, 40);
  take(print, 5, 30, 5, 9, 0, 0);    // a low bar
  take(print, 20, 30, 9, 20, 0, 0);  // and a block on its right
  const PrintRegions regions = regions_of(print);
  for (const Piece& piece : pieces_of(print, regions.kind_of)) {
    if (regions.kinds[static_cast<std::size_t>(piece.kind)].what == RegionKind::What::kLit)
      continue;
    const auto room = room_within(print, piece, 8, 12);
    ASSERT_TRUE(room);
    EXPECT_GE(room->x - 4, 20);
    EXPECT_LE(room->x + 4, 30);
    EXPECT_GE(room->y - 6, 5);
    EXPECT_LE(room->y + 6, 20);
    EXPECT_TRUE(room_within(print, piece, 25, 4));
    EXPECT_FALSE(room_within(print, piece, 25, 5));
    EXPECT_FALSE(room_within(print, piece, 11, 12));
  }
}

// A stair of steps 3 across and 1 up becomes straight; its area stays, and long sides too.
TEST(PrintRegions, SmoothStairsButNotCorners) {
  const auto stair = [](int c, int r) { return r < 4 + c / 3; };
  const geometry::Path path =
      without_steps(geometry::outline_of_cells(30, 20, stair, geometry::Affine{}), {1, 1});
  const auto lines = geometry::flattened(path);
  ASSERT_EQ(lines.size(), 1u);
  double area = 0;
  const std::vector<Vec2>& ring = lines[0].points;
  for (std::size_t i = 0; i < ring.size(); ++i)
    area += geometry::cross(ring[i], ring[(i + 1) % ring.size()]) / 2;
  EXPECT_NEAR(std::abs(area), 255, 1.5);  // 30 × 4 + 3 × (0 + 1 + … + 9)
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec2 p = ring[i];
    if (p.x < 4 || p.x > 26 || p.y < 0.5) continue;
    EXPECT_NEAR(p.y, 4 + (p.x - 1.5) / 3, 0.01 + 1e-9) << p.x;
  }
  const geometry::Path box =
      without_steps(geometry::outline_of_cells(
                        9, 9, [](int, int) { return true; }, geometry::Affine{}),
                    {1, 1});
  EXPECT_EQ(geometry::flattened(box)[0].points.size(), 4u);
}

TEST(TakerInks, BelongToTheGardensFirstFiveAndNeverToTheSkyline) {
  TakerInks inks({"a", "skyline", "b", "c", "d", "e", "f"});
  EXPECT_EQ(inks.ink("skyline"), -1);
  EXPECT_EQ(inks.letter("skyline"), "");
  EXPECT_EQ(inks.ink("b"), 1);
  EXPECT_EQ(inks.letter("b"), "B");
  EXPECT_TRUE(inks.has_own_ink("e"));
  EXPECT_FALSE(inks.has_own_ink("f"));
  EXPECT_EQ(inks.letter("f"), "F");
  EXPECT_FALSE(inks.has_own_ink("unknown"));
  EXPECT_EQ(inks.letter("unknown"), "");
}

TEST(TakerInks, GoOnWithTwoLettersAfterZ) {
  std::vector<std::string> ids;
  for (int i = 0; i < 60; ++i) ids.push_back("thing" + std::to_string(i));
  TakerInks inks(ids);
  EXPECT_EQ(inks.letter("thing25"), "Z");
  EXPECT_EQ(inks.letter("thing26"), "AA");
  EXPECT_EQ(inks.letter("thing51"), "AZ");
  EXPECT_EQ(inks.letter("thing52"), "BA");
  inks.add({"thing3", "new"});
  EXPECT_EQ(inks.letter("thing3"), "D");
  EXPECT_EQ(inks.letter("new"), "BI");
}

TEST(TakerInks, OfLatecomersIsGraphiteEvenWhereInksAreLeft) {
  TakerInks inks({"a", "b"});
  inks.add({"c"});
  EXPECT_EQ(inks.letter("c"), "C");
  EXPECT_FALSE(inks.has_own_ink("c"));
}

}  // namespace
}  // namespace spadework::light
