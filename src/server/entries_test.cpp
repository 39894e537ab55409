// Entries without a place on the sheet over the wire: added, set, taken away, guarded.
#include <gtest/gtest.h>

#include "server/server_testing.h"

namespace spadework::server {
namespace {

class Entries : public Serving {
 protected:
  json made(const std::string& at, const json& what) {
    const auto done = edit(at, what);
    EXPECT_EQ(done->status, 200) << done->body;
    return json::parse(done->body)["made"];
  }
  json add(const std::string& at, const std::string& table, const json& set,
           const std::string& called = "") {
    json what = {{"scheme", "proposed"}, {"add", table}, {"set", set}};
    if (!called.empty()) what["called"] = called;
    return made(at, what);
  }
  json entry(const std::string& at, const std::string& table, int nth = 0) {
    const json now = state(at);
    for (const json& one : now["entries"])
      if (one["table"] == table && nth-- == 0) return one;
    return {};
  }
  std::string document(const std::string& at) { return get(at + "/document")->body; }
};

TEST_F(Entries, OfEveryKindAreAddedSetAndTakenAway) {
  const std::string at = garden();
  const std::string before = document(at);
  EXPECT_EQ(add(at, "want", {{"crop", "pea"}, {"amount", "6 kg"}}), json({"want~0"}));
  EXPECT_EQ(state(at)["head"]["undo"], "want added");
  EXPECT_EQ(add(at, "want", {{"crop", "tomato"}, {"amount", "some"}}), json({"want~1"}));
  EXPECT_EQ(add(at, "task", {{"what", "Order boards"}, {"hours", "1.5"}}, "Order boards"),
            json({"task:order-boards"}));
  EXPECT_EQ(add(at, "task", {{"after", "order-boards"}}), json({"task:task"}));
  EXPECT_EQ(
      add(at, "stock", {{"material", "boards"}, {"amount", "6 boards"}, {"size", {"10 ft", 0.2}}}),
      json({"stock~0"}));
  EXPECT_EQ(add(at, "stand",
                {{"bed", "low-bed"},
                 {"from", 0},
                 {"to", 4},
                 {"crop", "pea"},
                 {"start", "2027-03-20"},
                 {"end", "2027-07-01"}}),
            json({"stand:stand"}));
  EXPECT_EQ(add(at, "climate.month", {{"month", 4}, {"tmin_c", "41 F"}}),
            json({"climate.month~0"}));
  EXPECT_EQ(add(at, "crop", {{"days_to_pick", 58}}, "tomato"), json({"crop:tomato"}));
  EXPECT_EQ(state(at)["head"]["undo"], "tomato added");
  EXPECT_EQ(add(at, "labour", {{"start", "2027-04-10"}, {"days", {"sat", "sun"}}}),
            json({"labour:"}));
  EXPECT_EQ(add(at, "prices", {{"boards", {{"price", "24.5"}, {"m3", 0.03}}}}), json({"prices:"}));
  EXPECT_EQ(entry(at, "want", 1)["fields"]["crop"]["typed"], "tomato");
  EXPECT_EQ(entry(at, "want", 1)["nth"], 1);
  EXPECT_EQ(entry(at, "task")["name"], "order-boards");
  EXPECT_EQ(entry(at, "task")["fields"]["hours"]["value"], 1.5);
  EXPECT_EQ(entry(at, "crop")["name"], "tomato");
  EXPECT_EQ(entry(at, "climate.month")["fields"]["tmin_c"]["typed"], "41 F");
  EXPECT_EQ(state(at)["singles"]["labour"]["start"]["typed"], "2027-04-10");
  EXPECT_EQ(state(at)["singles"]["prices"]["boards"]["value"]["price"], 24.5);
  EXPECT_EQ(thing(state(at), "order-boards"), nullptr);  // it is no thing of the sheet
  EXPECT_EQ(document(at).find("status"), std::string::npos) << document(at);

  made(at, {{"scheme", "proposed"}, {"table", "want"}, {"nth", 1}, {"set", {{"priority", 1}}}});
  EXPECT_EQ(entry(at, "want", 1)["fields"]["priority"]["value"], 1);
  made(at, {{"scheme", "found"},
            {"table", "task"},
            {"name", "order-boards"},
            {"set", {{"done", true}, {"what", nullptr}}}});
  EXPECT_EQ(entry(at, "task")["fields"]["done"]["value"], true);
  EXPECT_FALSE(entry(at, "task")["fields"].contains("what"));
  EXPECT_EQ(made(at, {{"scheme", "found"}, {"thing", "order-boards"}, {"rename", "boards"}}),
            json({"boards"}));
  EXPECT_EQ(entry(at, "task", 1)["fields"]["after"]["value"], json({"boards"}));

  for (const json& gone : {json{{"table", "task"}, {"name", "task"}},
                           {{"table", "task"}, {"name", "boards"}},
                           {{"table", "want"}, {"nth", 0}},
                           {{"table", "want"}, {"nth", 0}},
                           {{"table", "stock"}, {"nth", 0}},
                           {{"table", "stand"}, {"name", "stand"}},
                           {{"table", "climate.month"}, {"nth", 0}},
                           {{"table", "crop"}, {"name", "tomato"}},
                           {{"table", "labour"}},
                           {{"table", "prices"}}}) {
    json what = gone;
    what["scheme"] = "proposed";
    what["take_away"] = true;
    made(at, what);
  }
  EXPECT_EQ(state(at)["entries"], json::array());
  EXPECT_EQ(document(at), before);
}

TEST_F(Entries, AreFoundAgainWhereAnotherWindowAlteredTheirList) {
  const std::string at = garden();
  for (const char* crop : {"pea", "potato", "pea"})
    add(at, "want", {{"crop", crop}, {"amount", "some"}});
  const auto set = [&](int nth, const json& was, const json& keys) {
    return edit(
        at, {{"scheme", "found"}, {"table", "want"}, {"nth", nth}, {"was", was}, {"set", keys}});
  };
  const json potato = {{"crop", "potato"}, {"amount", "some"}, {"priority", nullptr}};
  // The first went in another window: the second is the first now.
  made(at, {{"scheme", "found"}, {"table", "want"}, {"nth", 0}, {"take_away", true}});
  ASSERT_EQ(set(1, potato, {{"amount", "9 kg"}})->status, 200);
  EXPECT_EQ(entry(at, "want", 0)["fields"]["amount"]["typed"], "9 kg");
  EXPECT_EQ(entry(at, "want", 1)["fields"]["amount"]["typed"], "some");
  // By now it is not what was seen; nor is any other.
  const std::string before = document(at);
  const auto refused = set(1, potato, {{"amount", "2 kg"}});
  EXPECT_EQ(refused->status, 404) << refused->body;
  EXPECT_EQ(json::parse(refused->body)["error"]["where"], "/was");
  const auto gone = edit(
      at,
      {{"scheme", "found"}, {"table", "want"}, {"nth", 0}, {"was", potato}, {"take_away", true}});
  EXPECT_EQ(gone->status, 404);
  // Two that are alike: the one that stands where it was seen.
  add(at, "want", {{"crop", "pea"}, {"amount", "some"}});
  ASSERT_EQ(set(2, {{"crop", "pea"}, {"amount", "some"}}, {{"priority", 2}})->status, 200);
  EXPECT_TRUE(entry(at, "want", 2)["fields"].contains("priority"));
  EXPECT_NE(document(at), before);
}

TEST_F(Entries, TakeAmountsAndDatesAsTheyAreTyped) {
  const std::string at = garden();
  add(at, "want", {{"crop", "pea"}, {"amount", "6,5 kg"}});
  EXPECT_EQ(entry(at, "want")["fields"]["amount"]["typed"], "6.5 kg");
  const auto start = [&](const std::string& typed) {
    const auto done =
        edit(at, {{"scheme", "found"}, {"table", "labour"}, {"set", {{"start", typed}}}});
    EXPECT_EQ(done->status, 200) << done->body;
    return state(at)["singles"]["labour"]["start"]["typed"];
  };
  for (const char* typed : {"2026-01-17", "2026-1-17", " 17 Jan 2026", "17 January 2026",
                            "17. jan. 2026", "January 17, 2026", "Jan 17 2026"})
    EXPECT_EQ(start(typed), "2026-01-17") << typed;
  EXPECT_EQ(start("1 Sept 2026"), "2026-09-01");
  EXPECT_EQ(start("29 Feb 2028"), "2028-02-29");
  add(at, "raising",
      {{"spaces", {{{"where", "sill"}, {"size_m", {1.6, 0.25}}, {"until", "15 May"}}}}});
  EXPECT_NE(document(at).find("until = \"05-15\""), std::string::npos) << document(at);
}

TEST_F(Entries, SayWhatIsWrongWithAFieldAndNotWithTheDocument) {
  const std::string at = garden();
  const auto says = [&](const char* table, const json& set) {
    const auto refused = edit(at, {{"scheme", "found"}, {"table", table}, {"set", set}});
    EXPECT_EQ(refused->status, 422) << refused->body;
    const json error = json::parse(refused->body)["error"];
    return error["message"].get<std::string>() + " " + error["hint"].get<std::string>();
  };
  EXPECT_EQ(says("labour", {{"start", "tomorrow"}}), "That is no date. Such as 2026-03-01.");
  for (const char* unclear : {"17.1.2026", "1/2/2026", "17 Jan", "2026", "17 Jan 26", "3-1-2026"})
    EXPECT_EQ(says("labour", {{"start", unclear}}), "That is no date. Such as 2026-03-01.")
        << unclear;
  EXPECT_EQ(says("labour", {{"start", "2026-02-30"}}),
            "February has no day 30. It has 28 days in 2026.");
  EXPECT_EQ(says("labour", {{"start", "31 April 2026"}}),
            "April has no day 31. It has 30 days in 2026.");
  EXPECT_EQ(says("prices", {{"boards", {{"price", "dear"}, {"m3", 0.03}}}}),
            "That is no figure. Such as 4.5.");
  EXPECT_EQ(says("prices", {{"boards", {{"price", "1,200"}, {"m3", 0.03}}}}),
            "“1,200” can be read in two ways 1200 or 1.2?");
}

TEST_F(Entries, RefuseWhatCannotBe) {
  const std::string at = garden();
  add(at, "want", {{"crop", "pea"}, {"amount", "some"}});
  add(at, "climate.month", {{"month", 4}, {"rain_mm", 40}});
  edit(at, {{"scheme", "found"}, {"table", "climate"}, {"set", {{"station", "auto"}}}});
  edit(at, {{"scheme", "proposed"}, {"make_scheme", "other"}});
  edit(at, {{"scheme", "proposed"}, {"thing", "medlar"}, {"set", {{"height_m", 4}}}});
  const std::string before = document(at);
  const json wrongs = {{{"add", "want"}, {"set", {{"crop", "pea"}}}},
                       {{"add", "want"}, {"set", {{"crop", "pea"}, {"amount", "many"}}}},
                       {{"add", "want"}, {"set", 3}},
                       {{"add", "task"}, {"set", {{"id", "x"}}}},
                       {{"add", "crop"}},
                       {{"add", "crop"}, {"called", "nonsense"}},
                       {{"add", "change"}, {"set", {{"thing", "medlar"}}}},
                       {{"add", "scheme"}, {"set", {{"id", "x"}}}},
                       {{"add", "format"}},
                       {{"add", "climate.month"}, {"set", {{"month", 4}}}},
                       {{"table", "want"}, {"set", {{"amount", "2 kg"}}}},
                       {{"table", "want"}, {"nth", -1}, {"take_away", true}},
                       {{"table", "want"}, {"nth", 1}, {"take_away", true}},
                       {{"table", "want"}, {"nth", 0}, {"was", "pea"}, {"take_away", true}},
                       {{"table", "want"}, {"nth", 0}},
                       {{"table", "want"}, {"nth", 0}, {"set", {{"crop", nullptr}}}},
                       {{"table", "bed"}, {"name", "low-bed"}, {"set", {{"freeboard_m", 0.1}}}},
                       {{"table", "bed"}, {"nth", 0}, {"take_away", true}},
                       {{"table", "scheme"}, {"name", "other"}, {"take_away", true}},
                       {{"table", "change"}, {"nth", 0}, {"set", {{"height_m", 3}}}},
                       {{"table", "garden"}, {"take_away", true}},
                       {{"table", "survey"}, {"take_away", true}},
                       {{"table", "format"}, {"set", {{"format", 2}}}},
                       {{"table", "nothing"}, {"set", {{"a", 1}}}}};
  for (const json& wrong : wrongs) {
    json what = wrong;
    what["scheme"] = "proposed";
    const auto refused = edit(at, what);
    EXPECT_GE(refused->status, 400) << wrong;
    EXPECT_LT(refused->status, 500) << wrong;
    EXPECT_FALSE(json::parse(refused->body)["error"]["message"].get<std::string>().empty());
  }
  EXPECT_EQ(document(at), before);
  // A change's own stage, a scheme's own title, and a climate whose months stay.
  made(at, {{"scheme", "proposed"}, {"table", "change"}, {"nth", 0}, {"set", {{"phase", 2}}}});
  made(at, {{"scheme", "proposed"},
            {"table", "scheme"},
            {"name", "other"},
            {"set", {{"title", "Another"}}}});
  made(at, {{"scheme", "proposed"}, {"table", "climate"}, {"take_away", true}});
  EXPECT_EQ(entry(at, "change")["fields"]["phase"]["value"], 2);
  EXPECT_EQ(entry(at, "scheme")["fields"]["title"]["typed"], "Another");
  EXPECT_EQ(state(at)["singles"]["climate"], json::object());
  EXPECT_EQ(entry(at, "climate.month")["fields"]["rain_mm"]["value"], 40);
}

}  // namespace
}  // namespace spadework::server
