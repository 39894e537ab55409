// What is done to a garden over the wire: begun, edited, undone, its schemes.
#include <gtest/gtest.h>

#include "server/server_testing.h"

namespace spadework::server {
namespace {

class Editing : public Serving {};

TEST_F(Editing, MakesAChangeInTheProposalAndUndoesIt) {
  const std::string at = garden();
  const auto done = edit(at, {{"scheme", "proposed"}, {"thing", "medlar"}, {"move_m", {1, 0.5}}});
  ASSERT_EQ(done->status, 200) << done->body;
  EXPECT_EQ(json::parse(done->body)["head"]["undo"], "medlar moved");
  EXPECT_EQ((*thing(state(at), "medlar"))["corners"], json({{4, 4.5}}));
  EXPECT_EQ((*thing(state(at), "medlar"))["mark"], "changed");
  EXPECT_EQ((*thing(state(at, "found"), "medlar"))["corners"], json({{3, 4}}));
  const auto typed =
      edit(at, {{"scheme", "proposed"}, {"thing", "medlar"}, {"set", {{"height_m", "4,5"}}}});
  ASSERT_EQ(typed->status, 200) << typed->body;
  EXPECT_EQ((*thing(state(at), "medlar"))["fields"]["height_m"]["value"], 4.5);
  const auto feet =
      edit(at, {{"scheme", "proposed"}, {"thing", "medlar"}, {"set", {{"height_m", "15 ft"}}}});
  ASSERT_EQ(feet->status, 200) << feet->body;
  EXPECT_EQ((*thing(state(at), "medlar"))["fields"]["height_m"]["typed"], "15 ft");
  const auto wrong =
      edit(at, {{"scheme", "proposed"}, {"thing", "medlar"}, {"set", {{"height_m", "tall"}}}});
  EXPECT_EQ(wrong->status, 422);
  EXPECT_FALSE(json::parse(wrong->body)["error"]["message"].get<std::string>().empty());
  for (int i = 0; i < 3; ++i) {
    const json head = state(at)["head"];
    EXPECT_EQ(
        post(at + "/steps",
             {{"command", "u" + std::to_string(i)}, {"change", head["change"]}, {"step", "undo"}})
            ->status,
        200);
  }
  EXPECT_EQ(get(at + "/document")->body, kGarden);
  server.reset();
  begin();
  const json head = state(at)["head"];
  EXPECT_EQ(head["redo"], "medlar moved");
  EXPECT_EQ(
      post(at + "/steps", {{"command", "r"}, {"change", head["change"]}, {"step", "redo"}})->status,
      200);
  EXPECT_EQ((*thing(state(at), "medlar"))["corners"], json({{4, 4.5}}));
}

TEST_F(Editing, TakesABareFigureInTheUnitsOfTheGarden) {
  const std::string at = garden();
  const auto set = [&](const json& keys) {
    return edit(at, {{"scheme", "found"}, {"thing", "medlar"}, {"set", keys}});
  };
  const auto height = [&] { return (*thing(state(at, "found"), "medlar"))["fields"]["height_m"]; };
  ASSERT_EQ(set({{"height_m", "9"}})->status, 200);
  EXPECT_EQ(height()["value"], 9);
  ASSERT_EQ(edit(at, {{"table", "garden"}, {"set", {{"units", "imperial"}}}})->status, 200);
  EXPECT_EQ(height()["value"], 9);  // of the document: metres
  ASSERT_EQ(set({{"height_m", "9"}})->status, 200);
  EXPECT_EQ(height()["typed"], "9 ft");
  EXPECT_NEAR(height()["value"].get<double>(), 2.7432, 1e-9);
  ASSERT_EQ(set({{"height_m", 4}})->status, 200);  // a number is the document's
  EXPECT_EQ(height()["value"], 4);
  const auto sides =
      edit(at, {{"scheme", "found"}, {"thing", "low-bed"}, {"set", {{"size", {"10", 1.2}}}}});
  ASSERT_EQ(sides->status, 200) << sides->body;
  const json size = (*thing(state(at, "found"), "low-bed"))["fields"]["size"]["value"];
  EXPECT_NEAR(size[0].get<double>(), 3.048, 1e-9);
  EXPECT_EQ(size[1], 1.2);
}

TEST_F(Editing, TakesValuesWithPartsAsTheyAreTyped) {
  const std::string at = garden();
  const auto set = [&](const json& keys) {
    return edit(at, {{"scheme", "found"}, {"thing", "low-bed"}, {"set", keys}});
  };
  const auto field = [&](const char* key) {
    return (*thing(state(at, "found"), "low-bed"))["fields"][key];
  };
  ASSERT_EQ(edit(at, {{"table", "garden"}, {"set", {{"units", "imperial"}}}})->status, 200);
  const auto line = [&](const std::string& key) {
    const std::string text = get(at + "/document")->body;
    const std::size_t from = text.find("\n" + key + " = ") + 1;
    return text.substr(from, text.find('\n', from) - from);
  };
  ASSERT_EQ(set({{"boards", {{"thickness", "1 1/2 in"}, {"height", "9 1/4 in"}}}})->status, 200);
  EXPECT_EQ(line("boards"), R"(boards = { height = "9 1/4 in", thickness = "1 1/2 in" })");
  EXPECT_EQ(field("boards")["parts"]["height"], "9 1/4 in");
  EXPECT_NEAR(field("boards")["value"]["height"].get<double>(), 0.23495, 1e-9);
  const json mix = {{{"material", "topsoil"}, {"share", "0,6"}},
                    {{"material", "manure"}, {"share", 0.4}}};
  ASSERT_EQ(set({{"mix", mix}})->status, 200);
  EXPECT_EQ(
      line("mix"),
      R"(mix = [{ material = "topsoil", share = 0.6 }, { material = "manure", share = 0.4 }])");
  ASSERT_EQ(set({{"history", {{"2026", {"potato"}}, {"2025", "cucurbit"}}}})->status, 200);
  EXPECT_EQ(line("history"), R"(history = { 2025 = "cucurbit", 2026 = ["potato"] })");
  ASSERT_EQ(set({{"cap", {{"material", "straw"}, {"depth_m", "4"}}}})->status, 422);  // 4 ft
  ASSERT_EQ(set({{"outline", {{"2", "27 ft 6 in"}, {4, "1"}, {0.3048, 1.5}}}})->status, 200);
  EXPECT_EQ(line("outline").find("outline = [["), 0u);
  const std::string text = get(at + "/document")->body;
  EXPECT_NE(text.find(R"([["2 ft", "27 ft 6 in"], [4, "1 ft"], ["1 ft", 1.5]])"), std::string::npos)
      << text;
  const json labour = {{"start", "2027-04-10"},
                       {"weeks_away", {"2027-05-10"}},
                       {"people", {{{"name", "she"}, {"mass_kg", "64"}}}}};
  ASSERT_EQ(edit(at, {{"table", "labour"}, {"set", labour}})->status, 200);
  EXPECT_EQ(line("weeks_away"), "weeks_away = [2027-05-10]");
  EXPECT_EQ(line("people"), R"(people = [{ name = "she", mass_kg = 64 }])");
  const json ground = {{"horizon", {{90, "4,5"}}}, {"spots", {{"0", 1, "-6 in"}}}};
  ASSERT_EQ(edit(at, {{"table", "ground"}, {"set", ground}})->status, 200);
  EXPECT_EQ(line("horizon"), "horizon = [[90, 4.5]]");
  EXPECT_EQ(line("spots"), R"(spots = [["0 ft", 1, "-6 in"]])");
}

TEST_F(Editing, KeepsFiguresOfPartsThatStayAsTheyWereTyped) {
  const std::string at = garden();
  const json parts = {{"height", "225 mm"}, {"courses", "2"}};
  const auto set = [&](const json& keys) {
    return edit(at, {{"scheme", "found"}, {"thing", "low-bed"}, {"set", keys}})->status;
  };
  ASSERT_EQ(set({{"boards", parts}, {"at", {"2.00", "2.50"}}}), 200);
  const json fields = (*thing(state(at, "found"), "low-bed"))["fields"];
  json boards = fields["boards"]["parts"];
  EXPECT_EQ(boards, json({{"height", "225 mm"}, {"courses", 2}}));
  boards["courses"] = "3";
  ASSERT_EQ(set({{"boards", boards}}), 200);
  EXPECT_NE(get(at + "/document")->body.find(R"({ height = "225 mm", courses = 3 })"),
            std::string::npos);
}

TEST_F(Editing, TellsOfWhichPartAFigureCannotBe) {
  const std::string at = garden();
  const auto part = [&](const json& keys) {
    const auto refused = edit(at, {{"scheme", "found"}, {"thing", "low-bed"}, {"set", keys}});
    EXPECT_GE(refused->status, 400) << keys;
    const json error = json::parse(refused->body)["error"];
    return error.value("part", std::string());
  };
  const json soil = {{"material", "topsoil"}, {"share", 0.5}};
  EXPECT_EQ(part({{"mix", {soil, {{"material", "manure"}, {"share", "1.4"}}}}}), "/mix/1/share");
  EXPECT_EQ(part({{"mix", {soil, {{"share", 0.5}}}}}), "/mix/1/material");
  EXPECT_EQ(part({{"mix", {soil, {{"material", "manure"}, {"share", "1,200"}}}}}), "/mix/1/share");
  EXPECT_EQ(part({{"history", {{"2026", {"brassica", "cabbages of old"}}}}}), "/history/2026/1");
  EXPECT_EQ(part({{"size", {2, -1}}}), "/size/1");
  EXPECT_EQ(part({{"level_with", "nobody"}}), "/level_with");
  EXPECT_EQ(part({{"outline", {{0, 0}, {1, 0}, {1, "tall"}}}}), "/outline/2/1");
}

TEST_F(Editing, TakesFiguresAsTheyAreTyped) {
  const std::string at = garden();
  const auto set = [&](const std::string& text) {
    return edit(at, {{"scheme", "found"}, {"thing", "medlar"}, {"set", {{"height_m", text}}}});
  };
  const auto height = [&] { return (*thing(state(at, "found"), "medlar"))["fields"]["height_m"]; };
  for (const char* text : {"7' 6\"", "7’ 6”", "7′ 6″"}) {
    ASSERT_EQ(set(text)->status, 200) << text;
    EXPECT_EQ(height()["typed"], "7' 6\"");
    EXPECT_NEAR(height()["value"].get<double>(), 2.286, 1e-9);
    ASSERT_EQ(set("5")->status, 200);
  }
  ASSERT_EQ(set("2,5 m")->status, 200);
  EXPECT_EQ(height()["typed"], "2.5 m");
  ASSERT_EQ(set("2,5")->status, 200);
  EXPECT_EQ(height()["value"], 2.5);
  ASSERT_EQ(set("0,125")->status, 200);
  EXPECT_EQ(height()["value"], 0.125);
  const auto hint = [&](const std::string& text) {
    const auto refused = set(text);
    EXPECT_EQ(refused->status, 422) << text;
    return json::parse(refused->body)["error"]["hint"].get<std::string>();
  };
  EXPECT_EQ(hint("1,200"), "1200 or 1.2?");
  EXPECT_EQ(hint("1,200 mm"), "1200 or 1.2?");
  EXPECT_EQ(hint("1.234,5"), "Write nothing between thousands: 1234.5.");
  EXPECT_EQ(hint("1,234.5"), "Write nothing between thousands: 1234.5.");
  EXPECT_EQ(hint("1,234,567"), "Write nothing between thousands: 1234567.");
}

TEST_F(Editing, TakesAnEditSentTwiceOnceAndRefusesAStaleOne) {
  const std::string at = garden();
  const json change = state(at)["head"]["change"];
  const json move = {{"command", "same"},
                     {"change", change},
                     {"scheme", "found"},
                     {"thing", "medlar"},
                     {"move_m", {1, 0}}};
  EXPECT_EQ(post(at + "/edits", move)->status, 200);
  EXPECT_EQ(post(at + "/edits", move)->status, 200);
  EXPECT_EQ((*thing(state(at, "found"), "medlar"))["corners"], json({{4, 4}}));
  json late = move;
  late["command"] = "late";
  const auto refused = post(at + "/edits", late);
  EXPECT_EQ(refused->status, 409);
  EXPECT_EQ(json::parse(refused->body)["error"]["code"], "stale");
}

TEST_F(Editing, TellsWhereAGardenLiesAndBeginsIt) {
  const json named = json::parse(get("/api/towns?typed=brest")->body);
  ASSERT_FALSE(named["towns"].empty());
  EXPECT_TRUE(named["place"].is_null());
  EXPECT_EQ(named["towns"][0]["name"].get<std::string>().substr(0, 5), "Brest");
  const json near = json::parse(get("/api/towns?typed=48.41,%20-4.36")->body);
  EXPECT_EQ(near["place"]["latitude_deg"], 48.41);
  ASSERT_FALSE(near["towns"].empty());
  EXPECT_LT(near["towns"][0]["far_km"], near["towns"].back()["far_km"]);
  for (const char* nothing : {"", "?typed=", "?typed=b", "?typed=zzzzzz", "?typed=91,0"})
    EXPECT_TRUE(json::parse(get(std::string("/api/towns") + nothing)->body)["towns"].empty())
        << nothing;

  json place = {{"title", "Plot"},
                {"latitude_deg", 48.41},
                {"longitude_deg", -4.36},
                {"time_zone", "Europe/Paris"}};
  const auto begun = post("/api/gardens", {{"begin", place}});
  ASSERT_EQ(begun->status, 201) << begun->body;
  const std::string at = "/api/gardens/" + json::parse(begun->body)["id"].get<std::string>();
  EXPECT_TRUE(state(at)["boundary"].empty());
  EXPECT_TRUE(state(at)["things"].empty());
  EXPECT_EQ(get(at + "/field")->status, 200);
  EXPECT_EQ(get(at + "/places")->status, 200);
  const json wrongs = {
      {"latitude_deg", 91}, {"time_zone", "Europe/Lundun"}, {"longitude_deg", "west"}};
  for (const auto& [key, value] : wrongs.items()) {
    json wrong = place;
    wrong[key] = value;
    EXPECT_GE(post("/api/gardens", {{"begin", wrong}})->status, 400) << key;
  }
}

TEST_F(Editing, AddsThingsAndSeveralChangesInOneStep) {
  const std::string at = garden();
  const auto one = edit(
      at,
      {{"scheme", "found"},
       {"add", "tree"},
       {"called", "Plum tree"},
       {"set", {{"kind", "plum"}, {"at", {6, 6}}, {"height_m", "13 ft"}, {"crown_width_m", 3}}}});
  ASSERT_EQ(one->status, 200) << one->body;
  EXPECT_EQ(json::parse(one->body)["made"], json({"plum-tree"}));
  EXPECT_EQ(state(at)["head"]["undo"], "plum-tree added");
  const std::string before = get(at + "/document")->body;
  const json parts = {{{"add", "bed"}, {"set", {{"at", {5, 5}}, {"size", {"1.2 m", 2}}}}},
                      {{"thing", "bed"}, {"move_m", {0.5, 0}}},
                      {{"add", "bed"}, {"set", {{"at", {5, 2}}, {"size", {1.2, 2}}}}},
                      {{"thing", "plum-tree"}, {"take_away", true}}};
  const auto all = edit(at, {{"scheme", "proposed"}, {"all", parts}});
  ASSERT_EQ(all->status, 200) << all->body;
  EXPECT_EQ(json::parse(all->body)["made"], json({"bed", "bed-2"}));
  const json now = state(at);
  EXPECT_EQ(now["head"]["undo"], "2 things added");
  const auto of = [](const json& garden, const std::string& id) {
    for (const json& thing : garden["things"])
      if (thing["id"] == id) return thing;
    return json();
  };
  EXPECT_EQ(of(now, "bed")["mark"], "proposed");
  EXPECT_EQ(of(now, "bed")["fields"]["at"]["value"], json({5.5, 5}));
  EXPECT_EQ(of(now, "plum-tree")["mark"], "removed");
  EXPECT_TRUE(of(state(at, "found"), "bed").is_null());
  EXPECT_EQ(
      post(at + "/steps", {{"command", "u1"}, {"change", now["head"]["change"]}, {"step", "undo"}})
          ->status,
      200);
  EXPECT_EQ(get(at + "/document")->body, before);
}

TEST_F(Editing, DoesNothingOfSeveralChangesWhenOneCannotBe) {
  const std::string at = garden();
  const std::string before = get(at + "/document")->body;
  const json bed = {{"add", "bed"}, {"set", {{"at", {5, 5}}, {"size", {1.2, 2}}}}};
  const json wrongs = {{{"thing", "nobody"}, {"move_m", {1, 0}}},
                       {{"add", "climate"}},
                       {{"add", "bed"}, {"set", {{"colour", "red"}}}},
                       {{"add", "bed"}, {"set", {{"size", {-1, 2}}, {"at", {0, 0}}}}},
                       {{"merge_scheme", "nowhere"}},
                       "words",
                       7};
  for (const json& wrong : wrongs) {
    const auto refused = edit(at, {{"scheme", "proposed"}, {"all", {bed, wrong}}});
    EXPECT_GE(refused->status, 400) << wrong;
    EXPECT_LT(refused->status, 500) << wrong;
  }
  EXPECT_GE(edit(at, {{"scheme", "proposed"}, {"all", json::array()}})->status, 400);
  EXPECT_GE(edit(at, {{"scheme", "proposed"}, {"all", 3}})->status, 400);
  EXPECT_EQ(get(at + "/document")->body, before);
}

TEST_F(Editing, TakesFractionsInTheUnitOfTheGarden) {
  const std::string at = garden();
  const auto set = [&](const std::string& text) {
    const auto done =
        edit(at, {{"scheme", "found"}, {"thing", "medlar"}, {"set", {{"height_m", text}}}});
    EXPECT_EQ(done->status, 200) << text << done->body;
    return (*thing(state(at, "found"), "medlar"))["fields"]["height_m"];
  };
  EXPECT_EQ(set("4 1/2")["value"], 4.5);
  EXPECT_EQ(set("4½")["value"], 4.5);
  EXPECT_EQ(set("+3/4")["value"], 0.75);
  EXPECT_EQ(set("2 M")["typed"], "2 m");
  ASSERT_EQ(edit(at, {{"scheme", "found"}, {"table", "garden"}, {"set", {{"units", "imperial"}}}})
                ->status,
            200);
  EXPECT_EQ(set("43 1/2")["typed"], "43 1/2 ft");
  EXPECT_NEAR(set("43 1/2")["value"].get<double>(), 43.5 * 0.3048, 1e-9);
  EXPECT_NEAR(set("12½")["value"].get<double>(), 12.5 * 0.3048, 1e-9);
  EXPECT_NEAR(set("9 1/4")["value"].get<double>(), 9.25 * 0.3048, 1e-9);
  EXPECT_NEAR(set("9 1/4 in")["value"].get<double>(), 9.25 * 0.0254, 1e-9);
  // The document that came of it reads.
  EXPECT_TRUE(
      document::read_document(get(at + "/document")->body, "kept.toml", {}).problems.empty());
  for (const char* no : {"1/0", "4 1", "4 1/2 1/2", "1/", "--4", "."})
    EXPECT_EQ(
        edit(at, {{"scheme", "found"}, {"thing", "medlar"}, {"set", {{"height_m", no}}}})->status,
        422)
        << no;
}

TEST_F(Editing, NamesAThingAnewWhereverItIsNamed) {
  const std::string at = garden();
  ASSERT_EQ(edit(at, {{"scheme", "proposed"}, {"thing", "medlar"}, {"move_m", {1, 0}}})->status,
            200);
  const json head = state(at)["head"];
  const json named = {{"scheme", "proposed"},
                      {"thing", "medlar"},
                      {"rename", "Old Medlar"},
                      {"command", "n"},
                      {"change", head["change"]}};
  for (int sent = 0; sent < 2; ++sent) {  // again, when the first answer was lost
    const auto done = post(at + "/edits", named);
    ASSERT_EQ(done->status, 200) << done->body;
    EXPECT_EQ(json::parse(done->body)["made"], json({"old-medlar"}));
  }
  const json now = state(at);
  EXPECT_EQ(now["head"]["undo"], "medlar: now old-medlar");
  EXPECT_EQ((*thing(now, "old-medlar"))["mark"], "changed");
  for (const json& one : now["things"]) EXPECT_NE(one["id"], "medlar");
  const auto taken =
      edit(at, {{"scheme", "proposed"}, {"thing", "old-medlar"}, {"rename", "found"}});
  EXPECT_GE(taken->status, 400);
  EXPECT_EQ(json::parse(taken->body)["error"]["where"], "/rename");
  const json parts = {{{"thing", "old-medlar"}, {"rename", "medlar"}},
                      {{"thing", "medlar"}, {"move_m", {-1, 0}}}};
  ASSERT_EQ(edit(at, {{"scheme", "proposed"}, {"all", parts}})->status, 200);
  EXPECT_EQ(get(at + "/document")->body, kGarden);
}

TEST_F(Editing, NamesASchemeAnewAndUndoesIt) {
  const std::string at = garden();
  ASSERT_EQ(edit(at, {{"scheme", "proposed"}, {"make_scheme", "hedge low"}})->status, 200);
  ASSERT_EQ(edit(at, {{"scheme", "hedge-low"}, {"thing", "medlar"}, {"move_m", {1, 0}}})->status,
            200);
  const std::string before = get(at + "/document")->body;
  const json named = {{"scheme", "proposed"},
                      {"rename_scheme", "hedge-low"},
                      {"called", "West hedge"},
                      {"command", "n"},
                      {"change", state(at)["head"]["change"]}};
  for (int sent = 0; sent < 2; ++sent) {  // again, when the first answer was lost
    const auto done = post(at + "/edits", named);
    ASSERT_EQ(done->status, 200) << done->body;
    EXPECT_EQ(json::parse(done->body)["made"], json({"west-hedge"}));
  }
  const json now = state(at, "west-hedge");
  EXPECT_EQ(now["head"]["undo"], "hedge-low: now west-hedge");
  EXPECT_EQ(now["schemes"].back(), "west-hedge");
  EXPECT_EQ((*thing(now, "medlar"))["mark"], "changed");
  const auto taken =
      edit(at, {{"scheme", "proposed"}, {"rename_scheme", "west-hedge"}, {"called", "Medlar"}});
  EXPECT_GE(taken->status, 400);
  EXPECT_EQ(json::parse(taken->body)["error"]["where"], "/called");
  ASSERT_EQ(post(at + "/steps",
                 {{"command", "u"}, {"change", state(at)["head"]["change"]}, {"step", "undo"}})
                ->status,
            200);
  EXPECT_EQ(get(at + "/document")->body, before);
}

TEST_F(Editing, ALockedThingStaysUntilItIsLetGo) {
  const std::string at = garden();
  const auto on = [&](json what) {
    what["scheme"] = "found";
    what["thing"] = "low-bed";
    return edit(at, what);
  };
  ASSERT_EQ(on({{"set", {{"locked", true}}}})->status, 200);
  const std::string before = get(at + "/document")->body;
  const json kept = {{{"move_m", {1, 0}}},
                     {{"take_away", true}},
                     {{"set", {{"size", {2, 2}}}}},
                     {{"set", {{"turn_deg", 10}}}}};
  for (const json& one : kept) {
    const auto refused = on(one);
    EXPECT_GE(refused->status, 400) << one;
    EXPECT_NE(refused->body.find("locked"), std::string::npos) << refused->body;
  }
  EXPECT_EQ(get(at + "/document")->body, before);
  EXPECT_EQ(on({{"set", {{"note", "by the gate"}}}})->status, 200);
  EXPECT_EQ(on({{"set", {{"locked", nullptr}}}})->status, 200);
  EXPECT_EQ(on({{"move_m", {1, 0}}})->status, 200);
}

TEST_F(Editing, MakesMergesAndDropsSchemes) {
  const std::string at = garden();
  const auto made = edit(at, {{"scheme", "proposed"}, {"make_scheme", "Wall low"}});
  ASSERT_EQ(made->status, 200) << made->body;
  EXPECT_EQ(json::parse(made->body)["made"], json({"wall-low"}));
  EXPECT_EQ(edit(at, {{"scheme", "wall-low"}, {"thing", "lane-wall"}, {"set", {{"height_m", 1}}}})
                ->status,
            200);
  const auto height = [&](const std::string& scheme) {
    const json now = state(at, scheme);
    for (const json& thing : now["things"])
      if (thing["id"] == "lane-wall") return thing["fields"]["height_m"]["value"].get<double>();
    return 0.0;
  };
  EXPECT_EQ(height("wall-low"), 1);
  EXPECT_EQ(height("proposed"), 1.6);
  EXPECT_EQ(edit(at, {{"scheme", "wall-low"}, {"merge_scheme", "wall-low"}})->status, 200);
  EXPECT_EQ(height("proposed"), 1);
  EXPECT_EQ(height("found"), 1.6);
  EXPECT_EQ(state(at)["schemes"], json({"found", "proposed"}));
  EXPECT_EQ(edit(at, {{"scheme", "proposed"}, {"make_scheme", "other"}})->status, 200);
  EXPECT_EQ(edit(at, {{"scheme", "proposed"}, {"drop_scheme", "other"}})->status, 200);
  EXPECT_EQ(state(at)["head"]["undo"], "other dropped");
  EXPECT_EQ(state(at)["schemes"], json({"found", "proposed"}));
}

}  // namespace
}  // namespace spadework::server
