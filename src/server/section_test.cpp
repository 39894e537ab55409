// The section that is answered: the study's figures and a picture, or what is wrong in plain words.
#include "study/section.h"

#include "server/server_testing.h"

namespace spadework::server {
namespace {

TEST_F(Serving, TellsASectionAsTheStudyHasIt) {
  const std::string at = garden();
  const auto got = get(at + "/section?from=3.5,0&to=3.5,7&day=06-21&clock=14.5&mm_per_m=25");
  ASSERT_EQ(got->status, 200) << got->body;
  const json told = json::parse(got->body);
  study::Study study = testing::study_of(kGarden);
  const auto stand = study.stand("proposed");
  const auto section =
      study::section_of(**stand, testing::catalogue(), {{3.5, 0}, {3.5, 7}},
                        study::SectionMoment{make_date(kReferenceYear, 6, 21), 14.5});
  ASSERT_TRUE(section.has_value());
  EXPECT_EQ(told["length_m"], 7.0);
  EXPECT_EQ(told["high_m"], study::levels_of(*section).high_m);
  EXPECT_GT(told["high_m"], told["cuts"][1]["top_m"].get<double>() - 1e-9);
  EXPECT_LE(told["low_m"], told["ground"][0][1]);
  ASSERT_EQ(told["beds"].size(), 1U);
  EXPECT_EQ(told["beds"][0]["id"], "low-bed");
  EXPECT_EQ(told["beds"][0]["level_m"], section->beds[0].level_m);
  EXPECT_TRUE(told["beds"][0]["boards"].is_null());
  ASSERT_EQ(told["cuts"].size(), section->cuts.size());
  EXPECT_EQ(told["cuts"][0]["id"], "lane-wall");
  EXPECT_EQ(told["cuts"][1]["id"], "medlar");
  EXPECT_EQ(told["cuts"][1]["top_m"], section->cuts[1].top_m);
  ASSERT_EQ(told["lit"].size(), section->lit.size());
  ASSERT_FALSE(section->lit.empty());
  EXPECT_EQ(told["lit"][0][0], section->lit[0].from_m);
  EXPECT_EQ(told["sun"]["up_deg"], section->sun->up_deg);
  EXPECT_EQ(told["sun_says"], section->sun_says);
  const std::string svg = told["svg"];
  EXPECT_NE(svg.find("<svg"), std::string::npos);
  EXPECT_NE(svg.find("low-bed"), std::string::npos);
}

TEST_F(Serving, TellsASectionWithoutASunWhereNoneIsAskedForOrItIsDown) {
  const std::string at = garden();
  const json plain = json::parse(get(at + "/section?from=1,1&to=8,6")->body);
  EXPECT_TRUE(plain["sun"].is_null());
  EXPECT_EQ(plain["sun_says"], "");
  EXPECT_TRUE(plain["lit"].empty());
  const json night = json::parse(get(at + "/section?from=1,1&to=8,6&day=06-21&clock=1")->body);
  EXPECT_TRUE(night["sun"].is_null());
  EXPECT_EQ(night["sun_says"], "the sun is down");
}

TEST_F(Serving, SaysWhatIsWrongWithASection) {
  const std::string at = garden();
  for (const auto& [query, where] : std::vector<std::pair<std::string, std::string>>{
           {"", "from"},
           {"from=1,1", "to"},
           {"from=1,1&to=8", "to"},
           {"from=a,1&to=8,2", "from"},
           {"from=1,1&to=8,2m", "to"},
           {"from=1,1&to=1,1", "to"},
           {"from=nan,1&to=1,1", "line"},
           {"from=-5,-5&to=-5,9", "from"},
           {"from=1,1&to=8,6&day=06-21", "clock"},
           {"from=1,1&to=8,6&clock=9", "day"},
           {"from=1,1&to=8,6&day=06-31&clock=9", "day"},
           {"from=1,1&to=8,6&day=06-21&clock=25", "clock"},
           {"from=1,1&to=8,6&mm_per_m=0", "mm_per_m"},
           {"from=1,1&to=8,6&mm_per_m=x", "mm_per_m"}}) {
    const auto got = get(at + "/section?" + query);
    EXPECT_EQ(got->status, 400) << query << got->body;
    EXPECT_EQ(json::parse(got->body)["error"]["where"], where) << query << got->body;
    EXPECT_FALSE(json::parse(got->body)["error"]["message"].get<std::string>().empty());
  }
  EXPECT_EQ(get(at + "/section?scheme=none&from=1,1&to=8,6")->status, 400);
}

}  // namespace
}  // namespace spadework::server
