#include "study/answers.h"

#include <gtest/gtest.h>

namespace spadework::study {
namespace {

TEST(Hours, AreSaidAsOneSaysThem) {
  EXPECT_EQ(hours_says(0), "no sun");
  EXPECT_EQ(hours_says(0.05), "no sun");
  EXPECT_EQ(hours_says(0.34), "20 minutes");
  EXPECT_EQ(hours_says(0.7), "40 minutes");
  EXPECT_EQ(hours_says(0.8), "1 hour");
  EXPECT_EQ(hours_says(1.3), "1½ hours");
  EXPECT_EQ(hours_says(5.4), "5½ hours");
  EXPECT_EQ(hours_says(11.9), "12 hours");
}

light::PlaceSun place_with(double morning, double midday, double afternoon) {
  light::PlaceSun sun;
  sun.place.id = "low-bed";
  for (light::MonthSun& month : sun.months)
    month = {morning + midday + afternoon, morning, midday, afternoon, 0, 0, 0};
  return sun;
}
light::SunYear days() {
  light::SunYear year;
  year.days_in_month.fill(30);
  return year;
}

TEST(PlaceAnswer, TellsHoursWhenClassAndWhoTakesMost) {
  const std::vector<int> growing{3, 4, 5, 6, 7, 8};
  light::Takers takers;
  takers.takers = {{"hedge", 1.5 * 6 * 30, 100}, {"medlar", 100, 200}};
  EXPECT_EQ(place_answer(place_with(3.5, 1.5, 0.5), days(), &takers, growing),
            "About 5½ hours of sun on a clear day, April to September, mostly in the morning. Part "
            "sun. Hedge takes 1½ hours a day.");
  takers.takers = {{"low-bed", 0.5 * 6 * 30, 100}};
  EXPECT_TRUE(place_answer(place_with(3.5, 1.5, 0.5), days(), &takers, growing)
                  .ends_with("Its own boards take 30 minutes a day."));
  takers.takers = {{"currants", 2 * 6 * 30, 100}};
  EXPECT_TRUE(place_answer(place_with(3.5, 1.5, 0.5), days(), &takers, growing)
                  .ends_with("Currants take 2 hours a day."));
  EXPECT_EQ(place_answer(place_with(2, 3, 2), days(), nullptr, std::vector<int>{0}),
            "About 7 hours of sun on a clear day, in January. Full sun.");
  EXPECT_EQ(place_answer(place_with(0, 0, 0), days(), nullptr, growing),
            "No sun to speak of, April to September. Shade.");
}

/// The next step where a key of a table is a guess.
std::string step_for(const std::string& table, const std::string& key) {
  Stand stand;
  garden::Entry entry;
  entry.table = table;
  if (table != "garden" && table != "ground" && table != "boundary") entry.id = "pine";
  garden::Value one, all;
  one.is = key;
  all.is = garden::List{one};
  entry.fields.push_back({"guessed", {}, all});
  stand.garden.entries.push_back(entry);
  return next_step(stand, {});
}

TEST(NextStep, SaysWhatToDoAboutAGuess) {
  EXPECT_EQ(step_for("garden", "latitude_deg"),
            "Give the plot’s own coordinates: the place is a guess, and light rests on it.");
  EXPECT_EQ(step_for("garden", "plan_north_deg"),
            "Find north by a stick’s shadow: where it lies is a guess, and light rests on it.");
  EXPECT_EQ(step_for("ground", "spots"),
            "Measure the ground’s levels: they are guesses, and light rests on them.");
  EXPECT_EQ(step_for("tree", "height_m"),
            "Measure the height of pine: it is a guess, and light rests on it.");
  EXPECT_EQ(step_for("tree", "at"),
            "Measure where pine stands: its place is a guess, and light rests on it.");
  // Light does not rest on what the soil is like.
  EXPECT_EQ(step_for("ground", "ph"), "Choose a thing on the sheet to see its figures.");
}

TEST(GardenAnswer, CountsBedsByTheirSun) {
  PlacesYear year;
  year.sun = days();
  year.places = {place_with(3, 3, 1), place_with(1, 1, 0.5), place_with(3, 4, 1)};
  year.places[1].place.id = "dark-bed", year.places[2].place.id = "best-bed";
  EXPECT_EQ(garden_answer(year, std::vector<int>{5}),
            "Of 3 beds, 2 have full sun and 1 has part shade, in June. The sunniest is best-bed "
            "with about 8 hours a day, the darkest dark-bed with about 2½ hours.");
  year.places.pop_back();
  EXPECT_EQ(garden_answer(year, std::vector<int>{5}),
            "Of 2 beds, 1 has full sun and 1 has part shade, in June. The sunniest is low-bed with "
            "about 7 hours a day, the darkest dark-bed with about 2½ hours.");
}

TEST(GardenAnswer, OfBedsWithTheSameSunNamesNoneTheSunniest) {
  PlacesYear year;
  year.sun = days();
  year.places = {place_with(3, 4, 1), place_with(3, 4, 1)};
  EXPECT_EQ(garden_answer(year, std::vector<int>{5}),
            "Of 2 beds, 2 have full sun, in June. All get about 8 hours a day.");
}

TEST(GardenAnswer, OfOneBedOrNoneIsASentence) {
  PlacesYear year;
  year.sun = days();
  EXPECT_EQ(garden_answer(year, std::vector<int>{5}),
            "No beds yet: with one, its light is told here.");
  year.places = {place_with(2, 3, 2)};
  EXPECT_EQ(garden_answer(year, std::vector<int>{5}),
            "Low-bed has about 7 hours of sun on a clear day, in June. Full sun.");
  year.places = {place_with(0, 0, 0)};
  EXPECT_EQ(garden_answer(year, std::vector<int>{5}),
            "Low-bed has no sun to speak of, in June. Shade.");
}

}  // namespace
}  // namespace spadework::study
