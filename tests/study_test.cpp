// What is computed when, and the chains behind figures.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

#include "tests/scenes.h"

namespace spadework::testing {
namespace {

const std::string kGarden = head(48.41, -4.36, "Europe/Paris") + R"(
[[wall]]
id = "lane-wall"
line = [[-4,-2],[4,-2]]
height_m = 1.8
kind = "brick"
guessed = ["height_m"]
[[tree]]
id = "medlar"
kind = "medlar"
at = [3, 0]
height_m = 5
crown_width_m = 4
[[bed]]
id = "long-bed"
at = [-1.5, -0.6]
size = [3, 1.2]
)";

TEST(Study, ComputesEachResultOnce) {
  study::Study study = study_of(kGarden);
  ASSERT_TRUE(study.places_year("proposed"));
  const int after_first = study.computed();
  ASSERT_TRUE(study.places_year("proposed"));
  EXPECT_EQ(study.computed(), after_first);
  // As found is the same garden here: its places are the same result.
  ASSERT_TRUE(study.places_year("found"));
  EXPECT_EQ(study.computed(), after_first + 1);  // the scheme resolved, no light cast
}

TEST(Study, ComputesAgainOnlyWhatItsInputsChange) {
  study::Study study = study_of(kGarden);
  ASSERT_TRUE(study.places_year("proposed"));
  const int before = study.computed();
  study.replace(draft_of(kGarden + "[[want]]\ncrop = \"pea\"\namount = \"6 kg\"\n"));
  ASSERT_TRUE(study.places_year("proposed"));
  EXPECT_EQ(study.computed(), before + 1);
  study.replace(draft_of(kGarden + "[[change]]\nthing = \"lane-wall\"\nheight_m = 1.2\n"));
  const auto lower = study.places_year("proposed");
  ASSERT_TRUE(lower);
  EXPECT_EQ(study.computed(), before + 3);
}

TEST(Takers, OfEachMonthAddUpToTheYears) {
  study::Study study = study_of(kGarden);
  const auto year = study.takers("found", {"long-bed"});
  ASSERT_TRUE(year);
  std::map<std::string, double> sums;
  for (int m = 0; m < 12; ++m) {
    const auto of_month = study.takers("found", {"long-bed"}, nullptr, {m});
    for (const light::Taker& taker : (*of_month)->find("long-bed")->takers)
      sums[taker.id] += taker.sun_h_per_year;
  }
  const auto& takers = (*year)->find("long-bed")->takers;
  ASSERT_GE(takers.size(), 2U);
  for (const light::Taker& taker : takers)
    EXPECT_NEAR(sums[taker.id], taker.sun_h_per_year, 1e-6) << taker.id;
}

TEST(Inks, StayWithTheirThingsInEveryProposal) {
  study::Study study = study_of(kGarden + R"(
[[change]]
thing = "lane-wall"
height_m = 0.4
[[wall]]
id = "new-wall"
line = [[-4,-1.2],[4,-1.2]]
height_m = 3
kind = "brick"
status = "proposed"
)");
  const auto found = study.takers("found"), proposed = study.takers("proposed");
  ASSERT_TRUE(found && proposed);
  const auto inked = (*found)->inked();
  ASSERT_FALSE(inked.empty());
  // The new wall takes far more than what is left of the old one, which keeps its place.
  for (std::size_t i = 0; i < inked.size(); ++i) EXPECT_EQ((*proposed)->ranked[i], inked[i]);
  EXPECT_EQ((*proposed)->ranked[inked.size()], "new-wall");
}

bool any_trace(const Trace& trace, const std::function<bool(const Trace&)>& holds) {
  return holds(trace) || std::any_of(trace.inputs.begin(), trace.inputs.end(),
                                     [&](const Trace& input) { return any_trace(input, holds); });
}

TEST(Why, LeadsFromTheFigureToTheDocumentTheFactsAndTheirSources) {
  study::Study study = study_of(kGarden);
  const auto trace = study.why("proposed", "/light/places/long-bed/months/5/sun_h_per_day");
  ASSERT_TRUE(trace.has_value()) << trace.error().hint;
  const auto year = study.places_year("proposed");
  EXPECT_EQ(trace->number, (*year)->find("long-bed")->months[5].sun_h_per_day);
  EXPECT_FALSE(trace->method.empty());
  const auto has = [&](const std::string& name) {
    return any_trace(*trace, [&](const Trace& t) { return t.name == name; });
  };
  EXPECT_TRUE(has("garden.latitude_deg"));
  EXPECT_TRUE(has("long-bed: level of the soil"));
  EXPECT_TRUE(has("medlar"));
  EXPECT_TRUE(any_trace(*trace, [](const Trace& t) { return t.where == "test.toml:5:1"; }));
  EXPECT_TRUE(
      any_trace(*trace, [](const Trace& t) { return t.standing == Standing::kFromMemory; }));
}

TEST(Why, TellsThatAFigureRestsOnAGuess) {
  study::Study study = study_of(kGarden);
  const auto trace = study.why("proposed", "/light/places/long-bed/months/Jan/sun_h_per_day");
  ASSERT_TRUE(trace.has_value());
  EXPECT_EQ(trace->value.rfind("≈", 0), 0u) << trace->value;
}

TEST(Why, EverySourceThatAChainNamesResolves) {
  study::Study study = study_of(kGarden);
  const auto trace = study.why("proposed", "/light/places/0/months/3/afternoon_h");
  ASSERT_TRUE(trace.has_value());
  any_trace(*trace, [](const Trace& t) {
    for (const std::string& key : t.sources) EXPECT_NE(catalogue().source(key), nullptr) << key;
    return false;
  });
}

TEST(Why, ReachesEveryFigureThatIsShown) {
  study::Study study = study_of(kGarden);
  const auto value = [&](const std::string& pointer) {
    const auto trace = study.why("proposed", pointer);
    EXPECT_TRUE(trace.has_value()) << pointer;
    return trace ? trace->number : -1;
  };
  const auto year = study.places_year("proposed");
  const light::PlaceSun* bed = (*year)->find("long-bed");
  EXPECT_EQ(value("/light/places/long-bed/months/2/midday_h"), bed->months[2].midday_h);
  // June and July by their days.
  const auto mean = [&](double light::MonthSun::*figure) {
    return (30 * bed->months[5].*figure + 31 * bed->months[6].*figure) / 61;
  };
  const std::string both = "/light/places/long-bed/months/5,6/";
  EXPECT_NEAR(value(both + "sun_h_per_day"), mean(&light::MonthSun::sun_h_per_day), 1e-12);
  EXPECT_NEAR(value(both + "midday_h"), mean(&light::MonthSun::midday_h), 1e-12);
  EXPECT_NEAR(value(both + "sunshine_h_per_day"), mean(&light::MonthSun::sunshine_h_per_day),
              1e-12);
  EXPECT_NEAR(value(both + "dli_mol_m2_d"), mean(&light::MonthSun::dli_mol_m2_d), 1e-12);
  EXPECT_NEAR(value(both + "share_of_open"), mean(&light::MonthSun::share_of_open), 1e-12);
  EXPECT_FALSE(study.why("proposed", "/light/places/long-bed/months/5,/midday_h").has_value());
  EXPECT_EQ(value("/light/places/long-bed/level_m"), bed->place.level_m);
  EXPECT_EQ(value("/light/places/long-bed/area_m2"), in_square_metres(bed->place.area));
  const auto day = study.places_day("proposed", make_date(2026, 6, 21));
  EXPECT_EQ(value("/light/day/2026-06-21/places/long-bed/sun_h"),
            (*day)->find("long-bed")->months[5].sun_h_per_day);
  const auto spot = study.spot_year("proposed", {1, 2}, metres(0.5));
  EXPECT_EQ(value("/light/at/1,2,0.5/months/5/sun_h_per_day"), spot->months[5].sun_h_per_day);
  EXPECT_EQ(value("/light/day/06-21/at/1,2,0.5/sun_h"),
            study.spot_day("proposed", {1, 2}, metres(0.5), make_date(2026, 6, 21))->sun_h);
}

const Trace* link_named(const Trace& trace, const std::string& name) {
  if (trace.name == name) return &trace;
  for (const Trace& input : trace.inputs) {
    if (const Trace* found = link_named(input, name)) return found;
  }
  return nullptr;
}

double number_named(const Trace& trace, const std::string& name) {
  const Trace* found = link_named(trace, name);
  EXPECT_NE(found, nullptr) << name;
  return found == nullptr ? 0 : found->number;
}

TEST(Why, HoursAreTheOpensLessWhatIsTaken) {
  study::Study study = study_of(kGarden);
  for (const char* figure : {"sun_h_per_day", "morning_h", "midday_h", "afternoon_h"}) {
    for (const char* month : {"0", "5", "9"}) {
      const auto trace = study.why(
          "proposed", std::string("/light/places/long-bed/months/") + month + "/" + figure);
      ASSERT_TRUE(trace.has_value());
      const double open = number_named(*trace, "strong sun in the open");
      const Trace* taken = link_named(*trace, "taken by things and the skyline");
      // A level bed: no sun is turned away from it.
      EXPECT_NEAR(trace->number, open - (taken == nullptr ? 0 : taken->number),
                  taken == nullptr ? 0.05 : 1e-9)
          << figure << month;
    }
  }
}

TEST(Why, TheLightOfALevelBedIsTheOpensLessWhatIsTaken) {
  study::Study study = study_of(kGarden);
  const auto trace = study.why("proposed", "/light/places/long-bed/months/0/dli_mol_m2_d");
  ASSERT_TRUE(trace.has_value());
  const double open = number_named(*trace, "light in the open in January");
  EXPECT_NEAR(trace->number, open - number_named(*trace, "taken by things and the skyline"),
              1e-4 * open);
  EXPECT_NEAR(trace->number,
              number_named(*trace, "from the sun") + number_named(*trace, "from the sky"),
              1e-9 * open);
}

TEST(Why, WhatOpaqueThingsTakeAddsUpToWhatIsTaken) {
  study::Study study = study_of(head(48.41, -4.36, "Europe/Paris") + R"(
[[wall]]
id = "east"
line = [[1.5, -2], [1.5, 2]]
height_m = 2
kind = "brick"
[[wall]]
id = "south"
line = [[-2, -1.5], [1, -1.5]]
height_m = 2
kind = "brick"
[[wall]]
id = "farther-south"
line = [[-2, -2], [1, -2]]
height_m = 2
kind = "brick"
[[bed]]
id = "bed"
at = [-1, -1]
size = [2, 2]
)");
  const auto lost = study.why("proposed", "/light/places/bed/lost_h");
  ASSERT_TRUE(lost.has_value());
  double sum = 0;
  for (const char* part : {"east", "south", "farther-south", "by two at once"}) {
    if (const Trace* trace = link_named(*lost, part)) sum += trace->number;
  }
  EXPECT_NEAR(sum, lost->number, 1);  // less than half an hour a year is not told
  EXPECT_GT(number_named(*lost, "by two at once"), 50);
  const auto twice = study.why("proposed", "/light/places/bed/taken_twice_h");
  EXPECT_EQ(twice->number, number_named(*lost, "by two at once"));
}

TEST(Why, AThingsMonthsAddUpToItsYear) {
  study::Study study = study_of(kGarden);
  const auto year =
      study.why("proposed", "/light/places/long-bed/takers/lane-wall/light_mol_m2_per_year");
  ASSERT_TRUE(year.has_value());
  double sum = 0;
  for (unsigned m = 0; m < 12; ++m) {
    const auto month = study.why(
        "proposed", "/light/places/long-bed/months/" + std::to_string(m) + "/dli_mol_m2_d");
    sum += number_named(*month, "lane-wall") * days_in_month(kReferenceYear, m + 1);
  }
  EXPECT_NEAR(sum, year->number, 1e-3 * year->number);
}

TEST(Why, EveryNewFigureShowsWhatIsGuessedAndWhatIsFromMemory) {
  study::Study study = study_of(kGarden);
  for (const char* figure :
       {"months/11/sunshine_h_per_day", "months/11/dli_mol_m2_d", "months/11/share_of_open",
        "takers/lane-wall/sun_h_per_year", "takers/0/light_mol_m2_per_year", "lost_h",
        "taken_twice_h", "class"}) {
    const auto trace = study.why("proposed", std::string("/light/places/long-bed/") + figure);
    ASSERT_TRUE(trace.has_value()) << figure;
    EXPECT_TRUE(any_trace(*trace, [](const Trace& t) {
      return t.standing == Standing::kGuessed && t.where == "test.toml:13:1";
    })) << figure;
    EXPECT_TRUE(any_trace(*trace, [](const Trace& t) {
      return t.standing == Standing::kFromMemory;
    })) << figure;
    any_trace(*trace, [](const Trace& t) {
      for (const std::string& key : t.sources) EXPECT_NE(catalogue().source(key), nullptr) << key;
      return false;
    });
  }
}

TEST(Why, LeafDatesOfTheSouthAreHalfAYearLater) {
  const auto in_leaf = [](double latitude) {
    study::Study study = study_of(head(latitude, 172, "UTC") + R"(
[[tree]]
id = "tree"
kind = "medlar"
at = [1, 0]
height_m = 5
crown_width_m = 4
[[bed]]
id = "bed"
at = [-1, -1]
size = [1, 1]
)");
    const auto trace = study.why("proposed", "/light/places/bed/takers/tree/sun_h_per_year");
    EXPECT_TRUE(trace.has_value());
    return number_named(*trace, "medlar in full leaf");
  };
  EXPECT_NEAR(in_leaf(-44) - in_leaf(44), 365 / 2.0, 1);
}

TEST(Why, TheClimateIsExplainedFromTheUsersOwnMonths) {
  study::Study study =
      study_of(kGarden + "[[climate.month]]\nmonth = 6\nsunshine_h_per_day = 7.5\n");
  const auto light = study.why("proposed", "/light/places/long-bed/months/5/dli_mol_m2_d");
  ASSERT_TRUE(light.has_value());
  EXPECT_TRUE(any_trace(
      *light, [](const Trace& t) { return t.number == 7.5 && t.where.starts_with("test.toml:"); }));
  const auto own = study.why("proposed", "/climate/months/5/sunshine_h_per_day");
  EXPECT_EQ(own->number, 7.5);
  EXPECT_FALSE(
      any_trace(*own, [](const Trace& t) { return t.value.find("weighs") != std::string::npos; }));
}

TEST(Why, TellsWhatAPointerCouldHaveNamed) {
  study::Study study = study_of(kGarden);
  const auto hint = [&](const char* pointer) {
    const auto trace = study.why("proposed", pointer);
    EXPECT_FALSE(trace.has_value()) << pointer;
    EXPECT_EQ(trace.error().code, ErrorCode::kWrongUse);
    return trace.error().hint;
  };
  EXPECT_NE(hint("/light/places/longbed/months/5/sun_h_per_day").find("long-bed"),
            std::string::npos);
  EXPECT_NE(hint("/light/places/long-bed/months/12/sun_h_per_day").find("0"), std::string::npos);
  EXPECT_NE(hint("/light/places/long-bed/months/5/sun").find("sun_h_per_day"), std::string::npos);
  EXPECT_NE(hint("/bill").find("/light/places"), std::string::npos);
  EXPECT_NE(hint("").find("/light/places"), std::string::npos);
  EXPECT_NE(hint("/light/places/").find("long-bed"), std::string::npos);
}

TEST(Study, AWeatherFileIsPartOfWhatLightRestsOn) {
  study::Study study = study_of(kGarden);
  const auto before = study.places_year("proposed");
  climate::Weather weather = weather_of(48.4, 20, 10);
  for (climate::WeatherDay& day : weather.days) day.sunshine_h = 1;
  study.set_weather(std::move(weather));
  const auto after = study.places_year("proposed");
  EXPECT_LT((*after)->places[0].months[5].dli_mol_m2_d,
            (*before)->places[0].months[5].dli_mol_m2_d);
  EXPECT_EQ((*after)->places[0].months[5].sun_h_per_day,
            (*before)->places[0].months[5].sun_h_per_day);
}

}  // namespace
}  // namespace spadework::testing
