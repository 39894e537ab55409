// Candidates against casting the year again with each of them.
#include "light/candidates.h"

#include <gtest/gtest.h>

#include <cmath>

#include "light/light_testing.h"
#include "light/year.h"

namespace spadework::light {
namespace {

using namespace testing;  // NOLINT: suns and bodies

garden::Garden site() {
  garden::Garden garden;
  garden.site.latitude = degrees(-41.3);
  garden.site.longitude = degrees(174.8);
  return garden;
}

SunYear year_of_light() {
  Cloud cloud;
  for (std::size_t m = 0; m < 12; ++m) {
    cloud.radiation[m].global_mj_m2_d = 13 + 8 * std::cos(rad(30.0 * static_cast<double>(m)));
    cloud.sunshine_h_per_day[m] = 5 + 2 * std::cos(rad(30.0 * static_cast<double>(m)));
  }
  return sun_year(site(), cloud);
}

Place bed() {
  Place place;
  place.id = "bed";
  place.receivers = {level_receiver({-0.6, -1.5}, 0.2, 0.2, 0.2, 6, 15)};
  place.receivers[0].counted.assign(90, 1);
  place.receivers[0].counted[7] = 0;
  return place;
}

Body leafy(const char* id, Vec2 at, double summer) {
  Body tree{id, RoundSolid{RoundShape::kEllipsoid, at, 0.8, 4, 1.6}, Through::kPerMetre, {}};
  tree.depth.assign(366, 0.08F);
  for (std::size_t day = 0; day < 366; ++day)
    if (day < 120 || day > 290) tree.depth[day] = static_cast<float>(summer);
  return tree;
}

std::vector<Body> others() {
  return {opaque("wall", box({-4, 2}, 8, 0.3, 0, 1.8)), leafy("plum", {2, 1.5}, 0.5),
          opaque("shed", box({-4, -1}, 2, 2, 0, 2.2, 0.3))};
}

struct Year {
  double hours = 0, light = 0;
};
Year year_of(std::vector<Body> bodies, const std::vector<Body>& more, const SunYear& sun) {
  bodies.insert(bodies.end(), more.begin(), more.end());
  const auto places = sun_of_places(site(), {bed()}, bodies, sun, 1, nullptr);
  Year year;
  for (std::size_t m = 0; m < 12; ++m) {
    year.hours += (*places)[0].months[m].sun_h_per_day * sun.days_in_month[m];
    year.light += (*places)[0].months[m].dli_mol_m2_d * sun.days_in_month[m];
  }
  return year;
}

TEST(Candidates, TakeWhatTheYearLosesWhenTheyStand) {
  const SunYear sun = year_of_light();
  std::vector<std::vector<Body>> candidates;
  for (const Vec2 at : {Vec2{0, 3}, Vec2{1, 2.2}, Vec2{-2, 2.5}, Vec2{3, 0}, Vec2{0, -4}}) {
    candidates.push_back({leafy("it", at, 0.7)});
    candidates.push_back({opaque("it", box(at, 1.5, 0.2, 0, 2, 0.5))});
    candidates.push_back({leafy("it", at, 0.4), opaque("it", box(at, 0.2, 0.2, 0, 1.5))});
  }
  candidates.push_back({});  // nothing takes nothing
  const auto found = losses(site(), bed(), Scene(others()), candidates, sun);
  ASSERT_EQ(found.size(), candidates.size());
  const Year without = year_of(others(), {}, sun);
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    const Year with = year_of(others(), candidates[i], sun);
    EXPECT_NEAR(found[i].sun_h, without.hours - with.hours, 0.02) << i;
    EXPECT_NEAR(found[i].light_mol_m2, without.light - with.light, 3e-5 * without.light) << i;
  }
  EXPECT_EQ(found.back().sun_h, 0);
}

TEST(Candidates, AreTheSameOnAnyNumberOfThreads) {
  const SunYear sun = year_of_light();
  const std::vector<std::vector<Body>> candidates{{leafy("a", {0, 3}, 0.7)},
                                                  {leafy("a", {1, 3}, 0.7)}};
  CandidateOptions two;
  two.threads = 2;
  const auto a = losses(site(), bed(), Scene(others()), candidates, sun);
  const auto b = losses(site(), bed(), Scene(others()), candidates, sun, two);
  for (std::size_t i = 0; i < a.size(); ++i) {
    EXPECT_EQ(a[i].sun_h, b[i].sun_h);
    EXPECT_EQ(a[i].light_mol_m2, b[i].light_mol_m2);
  }
}

TEST(Candidates, ByEveryEighthSunAreNear) {
  const SunYear sun = year_of_light();
  Random random(12);
  std::vector<std::vector<Body>> candidates;
  for (int i = 0; i < 40; ++i)
    candidates.push_back({leafy("it", {random.between(-3, 3), random.between(1, 4)}, 0.7)});
  CandidateOptions eighth;
  eighth.every = 8;
  const auto exact = losses(site(), bed(), Scene(others()), candidates, sun);
  const auto quick = losses(site(), bed(), Scene(others()), candidates, sun, eighth);
  double off = 0, most = 0;
  for (std::size_t i = 0; i < exact.size(); ++i) {
    off += std::abs(exact[i].sun_h - quick[i].sun_h) / 40;
    most = std::max(most, exact[i].sun_h);
  }
  EXPECT_GT(most, 300);
  EXPECT_LT(off, 20);  // hours a year
}

}  // namespace
}  // namespace spadework::light
