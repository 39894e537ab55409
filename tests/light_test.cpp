// The sun hours of whole gardens, from the document to the figure.
#include "light/light.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "sky/sky.h"
#include "tests/scenes.h"

namespace spadework::testing {
namespace {

using light::YearSun;

YearSun sun_of(const std::string& text, const std::string& id, int threads = 1,
               const std::string& scheme = "proposed") {
  study::Study study = study_of(text, threads);
  const auto year = study.places_year(scheme);
  EXPECT_TRUE(year.has_value());
  const light::PlaceSun* sun = (*year)->find(id);
  EXPECT_NE(sun, nullptr) << id;
  return sun->months;
}

const std::string kBed = "[[bed]]\nid = \"bed\"\nat = [-0.5, -0.5]\nsize = [1, 1]\n";

/// Hours a day of a month in which `lit(sun)` holds and the beam is strong, in 2-minute steps
/// straight from the sky: no caster, no samples.
template <class Lit>
double stepped_hours(double latitude, double longitude, unsigned month, Lit lit) {
  const sky::Site site{degrees(latitude), degrees(longitude), metres(0)};
  const sky::Almanac almanac = sky::Almanac::of_year(kReferenceYear);
  double hours = 0;
  const int days = days_in_month(kReferenceYear, month);
  for (int day = 1; day <= days; ++day) {
    const LocalDate date = make_date(kReferenceYear, month, static_cast<unsigned>(day));
    for (int step = 0; step < 720; ++step) {
      const UtcTime t{utc_midnight(date).unix_s + (step + 0.5) * 120 - longitude * 240};
      const sky::SunSample sun = sky::sun_sample(t, date, site, degrees(0), almanac);
      if (sun.elevation > degrees(0) && sun.clear.direct_normal > sky::kSunshineThreshold &&
          lit(sun))
        hours += 1.0 / 30;
    }
  }
  return hours / days;
}

// One sun an hour, its phase shifted from day to day, against 2-minute steps: 0.04 h a day in the
// mean of the months, and no month far off.
TEST(SunHours, OfAnOpenBedAreThoseOfTheStrongSun) {
  for (const double latitude : {-43.0, 0.0, 48.41, 66.0}) {
    const YearSun year = sun_of(head(latitude, 0, "UTC") + kBed, "bed");
    double off = 0;
    for (unsigned m = 1; m <= 12; ++m) {
      const double expected =
          stepped_hours(latitude, 0, m, [](const sky::SunSample&) { return true; });
      EXPECT_NEAR(year[m - 1].sun_h_per_day, expected, 0.15) << latitude << " month " << m;
      off += std::abs(year[m - 1].sun_h_per_day - expected) / 12;
    }
    EXPECT_LT(off, 0.04) << latitude;
  }
}

// A long wall to the south, its top h above the soil and its face d away, hides the sun where
// tan(elevation) < h / d · cos(azimuth from south): closed form.
TEST(SunHours, BehindALongWallFollowTheClosedFormOfItsShadow) {
  const double h = 2, d = 3;
  const YearSun year = sun_of(head(48.41, 0, "UTC") +
                                  "[[wall]]\nid = \"w\"\nline = [[-900, -3.15], [900, -3.15]]\n"
                                  "thickness_m = 0.3\nheight_m = 2\nkind = \"brick\"\n"
                                  "[[bed]]\nid = \"bed\"\nat = [-0.05, -0.05]\nsize = [0.1, 0.1]\n",
                              "bed");
  for (unsigned m = 1; m <= 12; ++m) {
    const double expected = stepped_hours(48.41, 0, m, [&](const sky::SunSample& sun) {
      return sun.towards.z * d >= h * -sun.towards.y;
    });
    EXPECT_NEAR(year[m - 1].sun_h_per_day, expected, 0.1) << "month " << m;
  }
}

TEST(SunHours, BehindTheSkylineFollowItsAltitude) {
  const YearSun year =
      sun_of(head(48.41, 0, "UTC") + "[ground]\nhorizon = [[0, 20]]\n" + kBed, "bed");
  for (const unsigned m : {1U, 4U, 6U}) {
    const double expected = stepped_hours(
        48.41, 0, m, [](const sky::SunSample& sun) { return sun.elevation > degrees(20); });
    EXPECT_NEAR(year[m - 1].sun_h_per_day, expected, 0.1) << "month " << m;
  }
}

TEST(SunHours, PartsOfTheDayAddUp) {
  const YearSun year = sun_of(head(48.41, -4.36, "Europe/Paris") +
                                  "[[wall]]\nid = \"w\"\nline = [[2, -5], [2, 5]]\nheight_m = 2\n"
                                  "kind = \"brick\"\n" +
                                  kBed,
                              "bed");
  for (const light::MonthSun& month : year) {
    EXPECT_NEAR(month.morning_h + month.midday_h + month.afternoon_h, month.sun_h_per_day, 1e-12);
    EXPECT_LE(month.midday_h, 4 + 1e-9);
  }
  EXPECT_LT(year[5].morning_h, year[5].afternoon_h);  // the wall stands to the east
}

TEST(SunHours, EastWestMirroredSwapMorningAndAfternoon) {
  const auto text = [](int sign) {
    const auto x = [&](double v) { return std::to_string(sign * v); };
    return head(48.41, 0, "UTC") + "[[wall]]\nid = \"w\"\nline = [[" + x(2) + ", -5], [" + x(2.5) +
           ", 5]]\nheight_m = 2\nkind = \"brick\"\n[[tree]]\nid = \"t\"\nkind = \"apple\"\nat = [" +
           x(-3) + ", -2]\nheight_m = 4\ncrown_width_m = 3\n" + kBed;
  };
  const YearSun east = sun_of(text(1), "bed"), west = sun_of(text(-1), "bed");
  for (std::size_t m = 0; m < 12; ++m) {
    // Not to the last bit: the real year's declination moves through the day (the mirrored suns of
    // one sky are told in src/light/caster_test.cpp, to the bit).
    EXPECT_NEAR(east[m].morning_h, west[m].afternoon_h, 0.12) << "month " << m + 1;
    EXPECT_NEAR(east[m].afternoon_h, west[m].morning_h, 0.12) << "month " << m + 1;
    EXPECT_NEAR(east[m].midday_h, west[m].midday_h, 0.12) << "month " << m + 1;
  }
}

// To the bit on the same suns: declinations and hour angles mirrored by hand, closed form.
TEST(SunHours, LatitudeAndSeasonTurnedSouthGiveTheSameHours) {
  const auto cast_at = [](double latitude, double sign) {
    std::vector<light::SunSample> suns;
    for (int day = 1; day <= 365; day += 3) {
      const double declination = sign * -23.44 * std::cos(2 * M_PI * (day + 10) / 365);
      for (double hour = -7.9; hour < 8; hour += 0.25) {
        light::SunSample sun;
        sun.toward_sun = sky::direction_from_hour_angle(degrees(latitude), degrees(declination),
                                                        degrees(hour * 15), degrees(0));
        if (sun.toward_sun.z <= 0) continue;
        sun.beam_w_m2 = 500;
        suns.push_back(sun);
      }
    }
    const double south = latitude > 0 ? -1 : 1;  // towards the equator
    const geometry::Solid wall = geometry::prism(
        geometry::rectangle_about({0.7, south * 2.03}, {3, 0.31}, 0), {0, {}}, {1.83, {}});
    const light::Scene scene({{"w", wall, garden::Through::kOpaque, {1.0F}}});
    const auto receiver = light::level_receiver({-1.5, -1.5}, 0, 0.0, 0.1, 30, 30);
    const auto counts = light::cast(scene, receiver, suns, {});
    double lit = 0;
    for (std::size_t i = 0; i < 900; ++i) lit += counts.at(0, 1, i) + counts.at(0, 0, i);
    return lit / 900;
  };
  EXPECT_GT(cast_at(48.41, 1), 100);
  EXPECT_NEAR(cast_at(48.41, 1), cast_at(-48.41, -1), 0.02);
}

const std::string kFull = head(48.41, -4.36, "Europe/Paris", 340) + R"(
[ground]
spots = [[-6,-6,0],[6,-6,0.2],[6,6,1.1],[-6,6,0.8],[0,0,0.6]]
[[wall]]
id = "a"
line = [[-4,-3],[4,-3.5]]
height_m = 1.6
kind = "stone"
[[wall]]
id = "b"
line = [[3,-3],[3,4]]
height_m = 1.8
kind = "hurdle"
[[tree]]
id = "c"
kind = "medlar"
at = [-2.5, 0.5]
height_m = 5
crown_width_m = 4.2
[[building]]
id = "d"
outline = [[-5,3],[-1,3],[-1,5],[-5,5]]
eaves_m = 2.1
ridge_m = 3
[[seat]]
id = "e"
at = [1.5, 2.5]
facing = [0, 0]
roof = { height_m = 2.1, overhang_m = 0.2 }
sides = "trellis"
)" + kBed;

TEST(SunHours, DoNotDependOnTheOrderOfThings) {
  const auto first = kFull.find("[[wall]]"), second = kFull.find("[[wall]]", first + 1);
  const auto third = kFull.find("[[tree]]"), fourth = kFull.find("[[building]]");
  const std::string shuffled = kFull.substr(0, first) + kFull.substr(third, fourth - third) +
                               kFull.substr(second, third - second) + kFull.substr(fourth) +
                               kFull.substr(first, second - first);
  const YearSun a = sun_of(kFull, "bed"), b = sun_of(shuffled, "bed");
  for (std::size_t m = 0; m < 12; ++m) {
    EXPECT_EQ(a[m].sun_h_per_day, b[m].sun_h_per_day);
    EXPECT_EQ(a[m].morning_h, b[m].morning_h);
  }
}

TEST(SunHours, AreTheSameBitsOnOneThreadAndTwo) {
  const YearSun a = sun_of(kFull, "bed", 1), b = sun_of(kFull, "bed", 2);
  for (std::size_t m = 0; m < 12; ++m) EXPECT_EQ(a[m].sun_h_per_day, b[m].sun_h_per_day);
}

TEST(SunHours, NeverGrowWhenAThingIsAdded) {
  const char* things[] = {
      "[[wall]]\nid = \"x\"\nline = [[-3,-1.5],[3,-1.7]]\nheight_m = 1\nkind = \"close board\"\n",
      "[[tree]]\nid = \"x\"\nkind = \"birch\"\nat = [1, -4]\nheight_m = 7\ncrown_width_m = 3\n",
      "[[object]]\nid = \"x\"\noutline = [[1,-2],[2,-2],[2,-1],[1,-1]]\nheight_m = 1.2\nwhat = "
      "\"bin\"\n",
      "[[support]]\nid = \"x\"\nkind = \"obelisk\"\nat = [0, -1]\nheight_m = 2\n",
      "[[cover]]\nid = \"x\"\nkind = \"fleece\"\nover = \"bed\"\n"};
  const YearSun before = sun_of(kFull, "bed");
  for (const char* thing : things) {
    const YearSun after = sun_of(kFull + thing, "bed");
    for (std::size_t m = 0; m < 12; ++m)
      EXPECT_LE(after[m].sun_h_per_day, before[m].sun_h_per_day) << thing << m;
  }
}

TEST(SunHours, OfALowBedInASlopeLoseTheLowSunToTheGround) {
  // Ground rising to the south at 1 in 2 from the bed's southern edge.
  const std::string slope = head(48.41, 0, "UTC") +
                            "[ground]\nspots = [[-20,0.5,0],[20,0.5,0],[-20,-20,10],[20,-20,10],"
                            "[-20,20,0],[20,20,0]]\n[[bed]]\nid = \"bed\"\nat = [-0.5, 0.5]\n"
                            "size = [1, 1]\nlevel_m = -0.3\n";
  const YearSun year = sun_of(slope, "bed");
  EXPECT_EQ(year[11].sun_h_per_day, 0);  // the noon sun of December stands lower than the slope
  EXPECT_GT(year[5].sun_h_per_day, 6);
}

TEST(BedsAtTheirOwnHeight, AHigherBedSeesOverTheWall) {
  const auto bed = [](const char* level) {
    return head(48.41, 0, "UTC") +
           "[[wall]]\nid = \"w\"\nline = [[-9,-2],[9,-2]]\nheight_m = 1.2\nkind = \"brick\"\n"
           "[[bed]]\nid = \"bed\"\nat = [-0.5,-0.5]\nsize = [1,1]\nlevel_m = " +
           level + "\n";
  };
  const YearSun low = sun_of(bed("0"), "bed"), high = sun_of(bed("0.6"), "bed"),
                over = sun_of(bed("1.3"), "bed"),
                open = sun_of(head(48.41, 0, "UTC") + kBed, "bed");
  EXPECT_LT(low[11].sun_h_per_day, high[11].sun_h_per_day);
  EXPECT_EQ(over[11].sun_h_per_day, open[11].sun_h_per_day);
}

TEST(PlantsOverAnOutline, AreMeasuredOverAllOfIt) {
  const std::string text = head(48.41, 0, "UTC") + R"(
[[plant]]
id = "patch"
crop = "strawberry"
outline = [[0,0],[6,0],[6,2],[0,2]]
)";
  study::Study study = study_of(text);
  const auto year = study.places_year("proposed");
  ASSERT_TRUE(year.has_value());
  const light::Place& place = (*year)->find("patch")->place;
  EXPECT_NEAR(in_square_metres(place.area), 12, 1e-9);
  EXPECT_EQ(place.receivers.size(), 1u);
  EXPECT_EQ(place.receivers[0].cells(), 60 * 20);
}

// The ground under them falls 1 in 5: no plant may lie under it.
TEST(PlantsOverAnOutline, OnASlopeSeeWhatARowOnItSees) {
  const std::string slope = head(48.41, 0, "UTC") +
                            "[ground]\nspots = [[-20,-20,0],[20,-20,0],[20,20,8],[-20,20,8]]\n"
                            "[[plant]]\nid = \"p\"\ncrop = \"strawberry\"\n";
  const YearSun all_over = sun_of(slope + "outline = [[-4,-4],[4,-4],[4,4],[-4,4]]\n", "p");
  const YearSun row = sun_of(slope + "row = [[-4,0],[4,0]]\ncount = 5\n", "p");
  for (const std::size_t m : {0u, 3u, 5u})
    EXPECT_NEAR(all_over[m].sun_h_per_day, row[m].sun_h_per_day, 0.1);
}

TEST(ThingsInABed, StandOnItsSoil) {
  const std::string bed = head(48.41, 0, "UTC") +
                          "[[bed]]\nid = \"bed\"\nat = [0,0]\nsize = [3,2]\nlevel_m = 0.5\n"
                          "boards = { height = 0.6, courses = 1, thickness = 0.05 }\n";
  study::Study study =
      study_of(bed +
               "[[container]]\nid = \"pot\"\nat = [1,1]\nvolume_l = 20\nheight_m = 0.3\n"
               "crop = \"basil\"\n[[object]]\nid = \"o\"\nheight_m = 0.8\nwhat = \"box\"\n"
               "outline = [[2,1],[2.2,1],[2.2,1.2],[2,1.2]]\n[[wall]]\nid = \"w\"\n"
               "line = [[0.5,1.5],[2.5,1.5]]\nheight_m = 0.8\nkind = \"brick\"\n");
  const auto year = study.places_year("proposed");
  ASSERT_TRUE(year.has_value());
  EXPECT_NEAR((*year)->find("pot")->place.level_m, 0.8, 1e-9);
  const auto stand = study.stand("proposed");
  for (const garden::Body& body : (*stand)->bodies) {
    if (body.thing != "o" && body.thing != "w") continue;
    double top = 0;
    for (const geometry::Vec3& p : std::get<geometry::Solid>(body.shape).corners)
      top = std::max(top, p.z);
    EXPECT_NEAR(top, 1.3, 1e-9) << body.thing;
  }
}

TEST(SpotOnTheBoards, LiesOnTheRim) {
  study::Study study = study_of(head(48.41, 0, "UTC") +
                                "[[bed]]\nid = \"bed\"\nat = [0,0]\nsize = [3,2]\nlevel_m = 0.5\n"
                                "boards = { height = 0.6, courses = 1, thickness = 0.05 }\n");
  const auto spot = study.spot_year("proposed", {0.02, 1}, metres(0));
  ASSERT_TRUE(spot.has_value());
  EXPECT_NEAR(spot->place.level_m, 0.53, 1e-9);
  EXPECT_GT(spot->months[5].sun_h_per_day, 14);
}

TEST(PlantsInALongRow, AreMeasuredAtAShareOfThem) {
  study::Study study = study_of(head(48.41, 0, "UTC") + R"(
[[plant]]
id = "edge"
crop = "strawberry"
row = [[0,0],[900,0]]
count = 100000
)");
  const auto year = study.places_year("proposed");
  ASSERT_TRUE(year.has_value());
  EXPECT_LE((*year)->find("edge")->place.receivers.size(), 60u);
}

TEST(SpotDay, GivesTheTimesOfTheWallsClosedForm) {
  study::Study study = study_of(head(48.41, 0, "UTC") +
                                "[[wall]]\nid = \"w\"\nline = [[-900,-3.15],[900,-3.15]]\n"
                                "thickness_m = 0.3\nheight_m = 2\nkind = \"brick\"\n");
  const LocalDate date = make_date(2026, 3, 10);
  const auto day = study.spot_day("proposed", {0, 0}, metres(0.2), date);
  ASSERT_TRUE(day.has_value());
  ASSERT_FALSE(day->intervals.empty());
  const sky::Site site{degrees(48.41), degrees(0), metres(0)};
  const sky::Almanac almanac = sky::Almanac::of_year(2026);
  const auto lit = [&](double hour) {
    const auto sun = sky::sun_sample(UtcTime{utc_midnight(date).unix_s + hour * 3600}, date, site,
                                     degrees(0), almanac);
    return sun.clear.direct_normal > sky::kSunshineThreshold &&
           sun.towards.z * 3 > (2 - 0.201) * -sun.towards.y;
  };
  double hours = 0;
  for (const auto& interval : day->intervals) {
    EXPECT_TRUE(lit(interval.start_h + 30.0 / 3600));
    EXPECT_FALSE(lit(interval.start_h - 30.0 / 3600));
    EXPECT_TRUE(lit(interval.end_h - 30.0 / 3600));
    EXPECT_FALSE(lit(interval.end_h + 30.0 / 3600));
    hours += interval.end_h - interval.start_h;
  }
  EXPECT_NEAR(day->sun_h, hours, 1e-9);
}

TEST(SpotDay, InPolarNightHasNoIntervalsAndInPolarDayKeepsTheMidnight) {
  study::Study study = study_of(head(78, 15, "Arctic/Longyearbyen"));
  const auto night = study.spot_day("proposed", {0, 0}, metres(0), make_date(2026, 12, 21));
  ASSERT_TRUE(night.has_value());
  EXPECT_EQ(night->sun_h, 0);
  EXPECT_EQ(night->events.kind, sky::DayKind::kDownAllDay);
  const auto day = study.spot_day("proposed", {0, 0}, metres(0), make_date(2026, 6, 21));
  ASSERT_TRUE(day.has_value());
  EXPECT_NEAR(day->sun_h, 24, 0.01);
  EXPECT_EQ(day->events.kind, sky::DayKind::kUpAllDay);
}

TEST(Field, AgreesWithTheBedsOwnFigure) {
  study::Study study = study_of(kFull);
  const auto year = study.places_year("proposed");
  const auto field = study.field("proposed", 0.1);
  ASSERT_TRUE(year.has_value() && field.has_value());
  const light::Field& f = **field;
  for (const std::size_t month : {0u, 3u, 6u}) {
    double sum = 0, n = 0;
    for (std::size_t i = 0; i < f.lies_on.size(); ++i) {
      if (f.lies_on[i] == 0) sum += static_cast<double>(f.months[month][i]), n += 1;
    }
    ASSERT_GT(n, 80);
    EXPECT_NEAR(sum / n, (*year)->find("bed")->months[month].sun_h_per_day, 0.05);
  }
}

TEST(Field, OnRollingGroundAgreesWithSpotsOnIt) {
  study::Study study = study_of(kFull);
  const auto field = study.field("proposed", 0.1);
  ASSERT_TRUE(field.has_value());
  const light::Field& f = **field;
  for (const auto& [c, r] : {std::pair{12, 30}, {50, 22}, {68, 70}, {33, 61}}) {
    const auto spot = study.spot_year("proposed", f.middle(c, r), metres(0));
    ASSERT_TRUE(spot.has_value());
    if (f.lies_on[f.index(c, r)] != light::kOnGround) continue;
    for (const std::size_t m : {0u, 3u, 6u, 9u})
      EXPECT_NEAR(static_cast<double>(f.months[m][f.index(c, r)]), spot->months[m].sun_h_per_day,
                  1e-4);
  }
}

TEST(Field, BeyondItsLimitIsRefusedWithACellThatWouldDo) {
  study::Study study = study_of(head(48, 0, "UTC") +
                                "[boundary]\noutline = [[-1000,-1000],[1000,-1000],[1000,1000],"
                                "[-1000,1000]]\n");
  const auto field = study.field("proposed", 0.01);
  ASSERT_FALSE(field);
  EXPECT_EQ(field.error().code, ErrorCode::kNoAnswer);
  EXPECT_NE(field.error().hint.find("1.5"), std::string::npos);  // 2,000 m / √1.8 M
}

// Two roads to one figure: hourly suns and shadows of corners, 10-minute suns and rays on faces.
TEST(SunPrint, AgreesWithThePlacesYear) {
  study::Study study = study_of(kFull);
  const auto year = study.places_year("proposed");
  const auto print = study.print("proposed", "bed");
  ASSERT_TRUE(year.has_value() && print.has_value());
  const YearSun& months = (*year)->find("bed")->months;
  for (std::size_t m = 0; m < 12; ++m)
    EXPECT_NEAR((*print)->month_sun_h[m], months[m].sun_h_per_day, 0.35) << "month " << m + 1;
}

TEST(SunPrint, NamesTheFirstThingInTheWay) {
  study::Study study = study_of(head(48.41, 0, "UTC") + R"(
[[wall]]
id = "near"
line = [[-9,-2],[9,-2]]
height_m = 2.5
kind = "brick"
[[wall]]
id = "far"
line = [[-9,-4],[9,-4]]
height_m = 4
kind = "brick"
[[seat]]
id = "s"
at = [0, 0]
facing = [0, -1]
)");
  const auto print = study.print("proposed", "s");
  ASSERT_TRUE(print.has_value());
  ASSERT_FALSE((*print)->takers.empty());
  // In January's noon both stand in the way: the nearer is the first.
  const auto& cell = (*print)->at(6, 144);
  ASSERT_GE(cell.taker, 0);
  EXPECT_EQ((*print)->takers[static_cast<std::size_t>(cell.taker)].id, "near");
  EXPECT_EQ((*print)->first_day, 1);
}

TEST(SunPrint, StartsInJulyInTheSouth) {
  study::Study study = study_of(head(-43, 172, "Pacific/Auckland") + kBed);
  const auto print = study.print("proposed", "bed");
  ASSERT_TRUE(print.has_value());
  EXPECT_EQ((*print)->first_day, 182);
  EXPECT_EQ((*print)->day_of(0), 182);
}

TEST(Skyline, IsStraightBetweenItsPointsAndJoinedAcrossNorth) {
  const std::vector<garden::Ground::HorizonPoint> points = {
      {degrees(90), degrees(4)}, {degrees(180), degrees(12)}, {degrees(270), degrees(6)}};
  const auto at = [&](double bearing) {
    return in_degrees(light::skyline_altitude(points, degrees(bearing)));
  };
  EXPECT_NEAR(at(135), 8, 1e-9);
  EXPECT_NEAR(at(180), 12, 1e-9);
  EXPECT_NEAR(at(0), 5, 1e-9);  // half way from 270° to 90°
  EXPECT_NEAR(at(315), 5.5, 1e-9);
  EXPECT_NEAR(at(-45), 5.5, 1e-9);
  EXPECT_NEAR(in_degrees(light::skyline_altitude({}, degrees(10))), 0, 1e-12);
}

}  // namespace
}  // namespace spadework::testing
