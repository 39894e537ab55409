// What is computed when, the chains behind figures, and findings.
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>

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
  EXPECT_EQ(value("/light/places/long-bed/level_m"), bed->place.level_m);
  EXPECT_EQ(value("/light/places/long-bed/area_m2"), in_square_metres(bed->place.area));
  const auto day = study.places_day("proposed", make_date(2026, 6, 21));
  EXPECT_EQ(value("/light/day/2026-06-21/places/long-bed/sun_h"),
            (*day)->find("long-bed")->months[5].sun_h_per_day);
  const auto spot = study.spot_year("proposed", {1, 2}, metres(0.5));
  EXPECT_EQ(value("/light/at/1,2,0.5/months/5/sun_h_per_day"), spot->months[5].sun_h_per_day);
  EXPECT_NEAR(value("/light/day/06-21/at/1,2,0.5/sun_h"),
              study.spot_day("proposed", {1, 2}, metres(0.5), make_date(2026, 6, 21))->sun_h, 0.07);
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

std::vector<garden::Finding> findings_of(const std::string& things) {
  study::Study study = study_of(head(48, 0, "UTC") + things);
  auto findings = study.findings("proposed");
  EXPECT_TRUE(findings.has_value());
  EXPECT_TRUE(study.places_year("proposed").has_value());  // findings never stop the light
  return std::move(*findings);
}

TEST(Findings, TellABedUnderAShedWithTheAreaThatIsShared) {
  const auto findings = findings_of(R"(
[[building]]
id = "shed"
outline = [[0,0],[3,0],[3,2],[0,2]]
eaves_m = 2
[[bed]]
id = "bed"
at = [2, 0.5]
size = [3, 1]
)");
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].grade, garden::Grade::kMust);
  EXPECT_EQ(findings[0].about, (std::vector<std::string>{"bed", "shed"}));
  EXPECT_NEAR(findings[0].numbers[0].number, 1.0, 1e-9);
  EXPECT_FALSE(findings[0].mend.empty());
}

TEST(Findings, TellOverlappingBuildingsAndLeaveNeighboursAlone) {
  const auto findings = findings_of(R"(
[[building]]
id = "a"
outline = [[0,0],[3,0],[3,2],[0,2]]
eaves_m = 2
[[building]]
id = "b"
outline = [[2,1],[5,1],[5,3],[2,3]]
eaves_m = 2
[[building]]
id = "c"
outline = [[5,1],[7,1],[7,3],[5,3]]
eaves_m = 2
)");
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].about, (std::vector<std::string>{"a", "b"}));
}

TEST(Findings, TellABedOffTheSurveyedGroundAndBeyondTheBoundary) {
  const auto findings = findings_of(R"(
[boundary]
outline = [[0,0],[10,0],[10,10],[0,10]]
[ground]
spots = [[0,0,0],[10,0,0],[10,10,1],[0,10,1]]
[[bed]]
id = "far"
at = [9, 4]
size = [3, 1]
)");
  ASSERT_EQ(findings.size(), 2u);
  for (const garden::Finding& finding : findings)
    EXPECT_EQ(finding.about, std::vector<std::string>{"far"});
}

}  // namespace
}  // namespace spadework::testing
