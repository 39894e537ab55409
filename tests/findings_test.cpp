// What the findings tell: things that stand in each other's way, levels, boundaries, weather.
#include <gtest/gtest.h>

#include "tests/scenes.h"

namespace spadework::testing {
namespace {

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

/// What is said of things about a bed from 0, 0 to 4, 2.
std::vector<std::string> said_about_bed(const std::string& things) {
  std::vector<std::string> said;
  for (const garden::Finding& finding :
       findings_of("[[bed]]\nid = \"bed-4\"\nat = [0, 0]\nsize = [4, 2]\n" + things)) {
    EXPECT_FALSE(finding.mend.empty()) << finding.says;
    said.push_back(finding.says);
  }
  return said;
}
using Said = std::vector<std::string>;

TEST(Findings, TellWhatStandsInABed) {
  EXPECT_EQ(said_about_bed("[[tank]]\nid = \"butt\"\nat = [2, 1]\nlitres = 200\n"),
            Said{"butt stands in bed-4."});
  EXPECT_EQ(said_about_bed("[[seat]]\nid = \"seat-1\"\nat = [2, 1]\nfacing = [2, 5]\n"),
            Said{"seat-1 stands in bed-4."});
  EXPECT_EQ(said_about_bed("[[seat]]\nid = \"seat-1\"\nat = [2, 2]\nfacing = [2, 5]\n"),
            Said{"seat-1 stands partly in bed-4, by 0.3 m²."});
  EXPECT_EQ(said_about_bed("[[object]]\nid = \"bin\"\noutline = [[1,1],[2,1],[2,1.5],[1,1.5]]\n"
                           "height_m = 1\nwhat = \"a bin\"\n"),
            Said{"bin stands in bed-4."});
}

TEST(Findings, LeaveAloneWhatTouchesABedOrBelongsInOne) {
  // The seat's back is 2 cm over the bed's edge.
  EXPECT_EQ(said_about_bed("[[seat]]\nid = \"seat-1\"\nat = [2, 2.23]\nfacing = [2, 5]\n"), Said{});
  EXPECT_EQ(said_about_bed("[[wall]]\nid = \"w\"\nline = [[-1, 0.03], [5, 0.03]]\nheight_m = 1\n"
                           "kind = \"brick\"\n"),
            Said{});
  EXPECT_EQ(said_about_bed(R"(
[[tree]]
id = "medlar"
kind = "medlar"
at = [1, 1]
height_m = 3
crown_width_m = 2
[[support]]
id = "wigwam"
kind = "wigwam"
at = [2, 1]
height_m = 2
[[container]]
id = "pot"
at = [3, 1]
volume_l = 20
[[plant]]
id = "leeks"
crop = "leek"
row = [[0.5, 0.5], [3.5, 0.5]]
count = 10
[[wall]]
id = "edging"
line = [[0.2, 1.8], [3.8, 1.8]]
height_m = 0.4
kind = "beech hedge"
[[tank]]
id = "gone"
at = [2, 1]
litres = 200
removed = true
)"),
            Said{});
}

TEST(Findings, TellLinesThroughABedAndABedOverAPath) {
  EXPECT_EQ(said_about_bed("[[wall]]\nid = \"fence-1\"\nline = [[2, -1], [2, 3]]\nheight_m = 1\n"
                           "kind = \"close board\"\n"),
            Said{"fence-1 runs through bed-4 for 1.9 m."});
  EXPECT_EQ(said_about_bed("[[wall]]\nid = \"hedge\"\nline = [[2, -1], [2, 1.55]]\nheight_m = 1\n"
                           "kind = \"beech hedge\"\n"),
            Said{"hedge runs through bed-4 for 1.5 m."});
  EXPECT_EQ(said_about_bed("[[path]]\nid = \"walk\"\nline = [[3, -1], [3, 4], [6, 4]]\n"
                           "width_m = 0.5\n"),
            Said{"bed-4 lies over walk, by 1.0 m²."});
}

TEST(Findings, TellWhatStandsInTheWayOfOtherThings) {
  const auto findings = findings_of(R"(
[[building]]
id = "shed"
outline = [[0,0],[3,0],[3,2],[0,2]]
eaves_m = 2
[[path]]
id = "walk"
line = [[5, 0], [5, 9], [9, 9]]
width_m = 1
[[tank]]
id = "butt"
at = [1, 5]
litres = 500
[[tank]]
id = "second-butt"
at = [1.3, 5]
litres = 500
[[tree]]
id = "medlar"
kind = "medlar"
at = [5.2, 4]
height_m = 3
crown_width_m = 2
[[tree]]
id = "plum"
kind = "plum"
at = [0.9, 5.1]
height_m = 3
crown_width_m = 2
[[seat]]
id = "bench"
at = [2, 1.9]
facing = [2, 9]
[[wall]]
id = "fence"
line = [[1.5, -1], [1.5, 1.25]]
height_m = 1
kind = "close board"
)");
  Said said;
  for (const garden::Finding& finding : findings) said.push_back(finding.says);
  EXPECT_EQ(said,
            (Said{"bench stands inside shed.", "plum stands inside butt.",
                  "butt and second-butt overlap by 0.3 m².", "fence runs through shed for 1.2 m.",
                  "medlar stands in the way on walk."}));
}

TEST(Findings, CountThingsWhereTheSchemeHasThem) {
  const std::string text = head(48, 0, "UTC") + R"(
[[bed]]
id = "bed"
at = [0, 0]
size = [4, 2]
[[tank]]
id = "butt"
at = [9, 9]
litres = 200
[[change]]
thing = "butt"
at = [2, 1]
)";
  study::Study study = study_of(text);
  EXPECT_TRUE(study.findings("found")->empty());
  EXPECT_EQ(study.findings("proposed")->size(), 1u);
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

TEST(Findings, TakeTheDoubtsAboutAWeatherFileAsTheyAreGiven) {
  study::Study study = study_of(head(48, 0, "UTC"));
  EXPECT_TRUE(study.findings("proposed")->empty());
  study.set_weather(weather_of(60, 12, 4), {"The weather file is of another place."});
  const auto findings = study.findings("proposed");
  ASSERT_EQ(findings->size(), 1u);
  EXPECT_EQ(findings->front().grade, garden::Grade::kShould);
  EXPECT_EQ(findings->front().says, "The weather file is of another place.");
  // From 48° to 60° along a meridian: 12/360 of 40,030 km.
  EXPECT_NEAR(findings->front().numbers.front().number, 1334, 1);
  study.set_weather(std::nullopt);
  EXPECT_TRUE(study.findings("proposed")->empty());
}

TEST(Findings, TellNightsWarmerThanDaysByMonth) {
  study::Study study = study_of(head(48, 0, "UTC") + "[[climate.month]]\nmonth = 1\ntmin_c = 25\n");
  const auto findings = study.findings("proposed");
  ASSERT_EQ(findings->size(), 1u);
  EXPECT_NE(findings->front().says.find("January"), std::string::npos);
  EXPECT_EQ(findings->front().numbers.at(1).number, 25);
}

}  // namespace
}  // namespace spadework::testing
