// First measures, asked of the server: closed forms, and what is missing or cannot be.
#include <gtest/gtest.h>

#include <cmath>

#include "server/server_testing.h"

namespace spadework::server {
namespace {

class Measuring : public Serving {
 protected:
  json measured(json asked, int status = 200) {
    if (at.empty()) at = garden();
    const auto got = post(at + "/measure", asked);
    EXPECT_EQ(got->status, status) << asked << got->body;
    return json::parse(got->body);
  }
  std::string at;
};

TEST_F(Measuring, ASquareOfTenMetresHasAHundred) {
  const json plot = measured({{"what", "plot"},
                              {"sides", {10, "10 m", "1000 cm", 10}},
                              {"diagonal", 10 * std::sqrt(2.0)}});
  EXPECT_NEAR(plot["area_m2"], 100, 1e-9);
  EXPECT_NEAR(plot["corners"][2]["at_m"][0], 10, 1e-9);
  EXPECT_NEAR(plot["corners"][2]["at_m"][1], 10, 1e-9);
  EXPECT_GT(plot["corners"][2]["sigma_m"], 0.01);
  EXPECT_FALSE(plot["remedies"].empty());
  EXPECT_EQ(plot["remedies"][0]["says"].get<std::string>().substr(0, 4), "Tape");
}

TEST_F(Measuring, FeetAndInchesAreReadHoweverTheyAreWritten) {
  const auto area = [&](const char* side) {
    return measured(
               {{"what", "plot"}, {"sides", {side, side, side, side}}, {"diagonal", 14}})["area_m2"]
        .get<double>();
  };
  EXPECT_NEAR(area("32 ft 6 in"), area("32' 6\""), 1e-9);
}

TEST_F(Measuring, ASecondDiagonalTellsThatALengthIsMistaken) {
  const double across = 10 * std::sqrt(2.0);
  json asked = {{"what", "plot"}, {"sides", {10, 10, 10, 10}}, {"diagonal", across}};
  asked["second_diagonal"] = across;
  EXPECT_EQ(measured(asked)["fits"], true);
  asked["second_diagonal"] = across + 1;
  const json wrong = measured(asked);
  EXPECT_EQ(wrong["fits"], false);
  ASSERT_FALSE(wrong["suspects"].empty());
}

// Closed form: at solar noon the sun stands 90° − latitude + declination high; on the longest day
// the declination is 23.44°.
TEST_F(Measuring, AtNoonShadowsTellNorthAndHeight) {
  const json noon = measured({{"what", "noon"}, {"day", "06-21"}});
  EXPECT_EQ(noon["points"], "north");
  const double clock = noon["clock_h"];
  const json north = measured({{"what", "north"},
                               {"day", "06-21"},
                               {"clock", clock},
                               {"foot_m", {2, 2}},
                               {"tip_m", {2, 3}}});
  const double turn = north["plan_north_deg"];
  EXPECT_NEAR(std::remainder(turn, 360), 0, 0.1);
  const json height =
      measured({{"what", "height"}, {"day", "06-21"}, {"clock", clock}, {"along", 2}});
  const double elevation = (90 - 48.41 + 23.44) * std::numbers::pi / 180;
  EXPECT_NEAR(height["height_m"], 2 * std::tan(elevation), 0.01);
  const json pegged = measured({{"what", "height"},
                                {"day", "06-21"},
                                {"clock", clock},
                                {"along", 2},
                                {"pegged", true},
                                {"clock_set", true}});
  EXPECT_LT(pegged["sigma_m"], height["sigma_m"]);
}

TEST_F(Measuring, AShadowDrawnWithANorthTellsThatNorth) {
  const json at_three = {{"day", "06-21"}, {"clock", 15.2}};
  json asked = at_three;
  asked["what"] = "shadow", asked["thing"] = "medlar";
  const json shadow = measured(asked);
  ASSERT_EQ(shadow["ends"].size(), 1U);
  asked = at_three;
  asked["what"] = "north";
  asked["foot_m"] = shadow["ends"][0]["foot_m"], asked["tip_m"] = shadow["ends"][0]["tip_m"];
  EXPECT_NEAR(measured(asked)["plan_north_deg"], 340, 0.1);  // as kGarden has it
  asked = {{"what", "shadow"}, {"thing", "lane-wall"}, {"day", "06-21"}, {"clock", 15.2}};
  EXPECT_EQ(measured(asked)["ends"].size(), 2U);
  asked["clock"] = 2;
  EXPECT_EQ(measured(asked, 422)["error"]["where"], "/clock");
}

TEST_F(Measuring, WhatIsGuessedSaysWhatWouldNarrowIt) {
  const json place = {{"title", "Plot"},
                      {"latitude_deg", 48.4},
                      {"longitude_deg", -4.4},
                      {"time_zone", "Europe/Paris"},
                      {"guessed", {"latitude_deg"}}};
  const auto begun = post("/api/gardens", {{"begin", place}});
  ASSERT_EQ(begun->status, 201) << begun->body;
  const std::string mine = "/api/gardens/" + json::parse(begun->body)["id"].get<std::string>();
  const json wall = {
      {"line", {{0, 0}, {5, 0}}}, {"height_m", 2}, {"kind", "stone"}, {"guessed", {"height_m"}}};
  json now = json::parse(get(mine)->body);
  const auto added = post(mine + "/edits", {{"command", "1"},
                                            {"change", now["head"]["change"]},
                                            {"scheme", "found"},
                                            {"add", "wall"},
                                            {"set", wall}});
  ASSERT_EQ(added->status, 200) << added->body;
  now = json::parse(get(mine)->body);
  EXPECT_EQ(now["singles"]["garden"]["guessed"]["value"], json({"plan_north_deg", "latitude_deg"}));
  EXPECT_TRUE(now["singles"]["ground"].empty());
  const json narrows = now["narrows"];
  EXPECT_NE(narrows["garden.plan_north_deg"].get<std::string>().find("at noon"), std::string::npos);
  EXPECT_NE(narrows["garden.latitude_deg"].get<std::string>().find("map"), std::string::npos);
  EXPECT_NE(narrows["wall.height_m"].get<std::string>().find("then ± "), std::string::npos);
}

TEST_F(Measuring, FistsAndKneesBecomeFiguresOfTheDocument) {
  const json skyline = measured(
      {{"what", "skyline"},
       {"points", {{{"bearing_deg", 180}, {"fists", 1.5}}, {{"bearing_deg", 90}, {"fists", 0}}}}});
  EXPECT_EQ(skyline["horizon"], json({{90, 0}, {180, 15}}));
  const json fall = measured(
      {{"what", "fall"}, {"mark", "knee"}, {"times", 2}, {"toward_m", {0, -1}}, {"over", "20 m"}});
  EXPECT_NEAR(fall["falls_m"], 1, 1e-9);
  EXPECT_NEAR(fall["toward_deg"], 160, 1e-9);  // down a page whose up is 340°
  EXPECT_NEAR(fall["grade"], 0.05, 1e-9);
  EXPECT_FALSE(fall["guessed"].empty());
}

TEST_F(Measuring, SaysWhereAFigureIsMissingOrCannotBe) {
  const std::vector<std::pair<json, std::string>> wrongs = {
      {{{"what", "dance"}}, "/what"},
      {json::object(), "/what"},
      {{{"what", "plot"}, {"sides", {1, 2, 3}}}, "/sides"},
      {{{"what", "plot"}, {"sides", {10, 10, 10, "ten"}}, {"diagonal", 14}}, "/sides/3"},
      {{{"what", "plot"}, {"sides", {10, 10, 10, 10}}}, "/diagonal"},
      {{{"what", "plot"}, {"sides", {10, 10, 10, 10}}, {"diagonal", 25}}, "/diagonal_m"},
      {{{"what", "noon"}}, "/day"},
      {{{"what", "north"}, {"day", "06-21"}, {"clock", 12}, {"foot_m", {0, 0}}}, "/tip_m"},
      {{{"what", "height"}, {"day", "06-21"}, {"clock", 2}, {"along", 3}}, "/clock"},
      {{{"what", "skyline"}, {"points", {7}}}, "/points"},
      {{{"what", "fall"}, {"mark", "toe"}, {"toward_m", {0, 1}}, {"over", 3}}, "/mark"},
      {{{"what", "fall"}, {"falls", 1}, {"toward_m", {0, 0}}, {"over", 3}}, "/toward_m"}};
  for (const auto& [asked, where] : wrongs) {
    if (at.empty()) at = garden();
    const auto got = post(at + "/measure", asked);
    EXPECT_GE(got->status, 400) << asked;
    EXPECT_LT(got->status, 500) << asked;
    EXPECT_EQ(json::parse(got->body)["error"]["where"], where) << asked << got->body;
  }
}

}  // namespace
}  // namespace spadework::server
