// What the margin, the band and the print are told, against the study that they come from.
#include <map>

#include "server/server_testing.h"
#include "study/answers.h"

namespace spadework::server {
namespace {

TEST_F(Serving, TellsThePlacesAsTheStudyHasThem) {
  const std::string at = garden();
  const json told = json::parse(get(at + "/places?scheme=found&months=5")->body);
  study::Study study = testing::study_of(kGarden);
  const auto year = study.places_year("found");
  ASSERT_EQ(told["places"].size(), (*year)->places.size());
  for (std::size_t i = 0; i < told["places"].size(); ++i) {
    const json& place = told["places"][i];
    const light::PlaceSun& sun = (*year)->places[i];
    EXPECT_EQ(place["id"], sun.place.id);
    EXPECT_EQ(place["sun_h_per_day"], sun.months[5].sun_h_per_day);
    EXPECT_EQ(place["months"][5]["sun_h_per_day"], sun.months[5].sun_h_per_day);
    EXPECT_EQ(place["dli_mol_m2_d"], sun.months[5].dli_mol_m2_d);
    EXPECT_FALSE(place["answer"].get<std::string>().empty());
  }
  EXPECT_EQ(told["months"], json({5}));
  EXPECT_FALSE(told["answer"].get<std::string>().empty());
  EXPECT_FALSE(told["next_step"].get<std::string>().empty());
  for (const char* wrong : {"months=13", "scheme=none", "against=none"})
    EXPECT_EQ(get(at + "/places?" + wrong)->status, 400) << wrong;
}

TEST_F(Serving, TellsWhatTwoSchemesHaveMoreOfEachOther) {
  const std::string at = garden();
  EXPECT_EQ(edit(at, {{"scheme", "proposed"}, {"thing", "medlar"}, {"move_m", {0, 3}}})->status,
            200);
  const json now = json::parse(get(at + "/places?scheme=proposed&against=found")->body);
  const json then = json::parse(get(at + "/places?scheme=found")->body);
  EXPECT_EQ(now["places"][0]["against_shown_h"], then["places"][0]["sun_h_per_day"]);
  EXPECT_NE(now["places"][0]["sun_h_per_day"], then["places"][0]["sun_h_per_day"]);
  const Unpacked a = unpacked(get(at + "/field?scheme=proposed")->body);
  const Unpacked b = unpacked(get(at + "/field?scheme=found")->body);
  const Unpacked more = unpacked(get(at + "/field?scheme=proposed&against=found")->body);
  EXPECT_EQ(more.head["signed"], true);
  ASSERT_EQ(a.head["corner_m"], b.head["corner_m"]);
  int differ = 0;
  for (std::size_t i = 0; i < a.cells.size(); ++i) {
    const int signed_cell = more.cells[i] >= 32768 ? more.cells[i] - 65536 : more.cells[i];
    if (a.cells[i] == 65535 || b.cells[i] == 65535) {
      EXPECT_EQ(signed_cell, -32768);
      continue;
    }
    EXPECT_NEAR(signed_cell, a.cells[i] - b.cells[i], 1);  // each is rounded on its own
    if (signed_cell != 0) ++differ;
  }
  EXPECT_GT(differ, 100);
}

TEST_F(Serving, TellsTheTakersWithTheirInksAndLetters) {
  const std::string at = garden();
  const json told = json::parse(get(at + "/takers?place=low-bed")->body);
  const json inks = json::parse(get(at + "/inks")->body);
  study::Study study = testing::study_of(kGarden);
  const auto year = study.takers("proposed", {"low-bed"});
  const light::Takers& takers = *(*year)->find("low-bed");
  EXPECT_EQ(told["lost_h"], takers.lost_h);
  EXPECT_EQ(told["taken_twice_h"], takers.taken_twice_h);
  ASSERT_EQ(told["takers"].size(), takers.takers.size());
  for (std::size_t i = 1; i < told["takers"].size(); ++i)
    EXPECT_GE(told["takers"][i - 1]["sun_h_per_year"], told["takers"][i]["sun_h_per_year"]);
  for (const json& taker : told["takers"]) {
    for (const json& ink : inks["takers"]) {
      if (ink["id"] != taker["id"]) continue;
      EXPECT_EQ(ink["letter"], taker["letter"]);
      EXPECT_EQ(ink["ink"], taker["ink"]);
    }
  }
  EXPECT_EQ(inks["takers"][0]["letter"], "A");
  EXPECT_EQ(inks["takers"][0]["ink"], 0);
  EXPECT_EQ(get(at + "/takers?place=nobody")->status, 400);
}

TEST_F(Serving, SendsTheSunPrintCellByCell) {
  const std::string at = garden();
  const auto got = get(at + "/print?place=low-bed");
  ASSERT_EQ(got->status, 200) << got->body;
  const std::string& bytes = got->body;
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(bytes.at(i)); };
  const std::size_t n = byte(0) | byte(1) << 8 | byte(2) << 16;
  const json head = json::parse(bytes.substr(4, n));
  study::Study study = testing::study_of(kGarden);
  const auto print = study.print("proposed", "low-bed");
  ASSERT_EQ(bytes.size() - 4 - n, (*print)->cells.size() * 4);
  EXPECT_EQ(head["lit_h"], (*print)->lit_h);
  for (std::size_t i = 0; i < (*print)->cells.size(); ++i) {
    const light::PrintCell& cell = (*print)->cells[i];
    const std::size_t at_byte = 4 + n + 4 * i;
    ASSERT_EQ(byte(at_byte), std::lround(cell.lit_of_facing() * 255)) << i;
    ASSERT_EQ(byte(at_byte + 1), (cell.day ? 1 : 0) + (cell.strong ? 2 : 0)) << i;
    if (cell.taker >= 0) {
      ASSERT_EQ(byte(at_byte + 2), cell.taker);
      ASSERT_EQ(head["takers"][static_cast<std::size_t>(cell.taker)]["id"],
                (*print)->takers[static_cast<std::size_t>(cell.taker)].id);
    } else {
      ASSERT_EQ(byte(at_byte + 2), cell.taker == light::kSkylineTaker ? 254 : 255);
    }
  }
  EXPECT_EQ(get(at + "/print?place=nobody")->status, 400);
}

// Brest: sunrise and sunset by an almanac's golden tables are tested in sky; here, that they come
// through, and that the clocks go forward on the last Sunday of March.
TEST_F(Serving, TellsTheDaysOfTheBand) {
  const json band = json::parse(get(garden() + "/band")->body);
  ASSERT_EQ(band["days"].size(), 365u);
  EXPECT_EQ(band["first_day"], 1);
  EXPECT_EQ(band["days"][0]["date"], "01-01");
  EXPECT_EQ(band["days"][0]["light"], "both");
  int forward = 0;
  for (std::size_t d = 1; d < 365; ++d) {
    const double step =
        band["days"][d]["set_h"].get<double>() - band["days"][d - 1]["set_h"].get<double>();
    if (step > 0.5) ++forward;
  }
  EXPECT_EQ(forward, 1);
}

// Reykjavik, on Greenwich's clocks: about midsummer the sun sets after midnight, so a calendar day
// is lit in two pieces, and as sunset passes midnight for the first time in three.
TEST_F(Serving, TellsEveryPieceOfADayOnWhichTheSunSetsAfterMidnight) {
  std::string north = kGarden;
  const auto put = [&](const std::string& was, const std::string& is) {
    ASSERT_NE(north.find(was), std::string::npos) << was;
    north.replace(north.find(was), was.size(), is);
  };
  put("48.41", "64.1");
  put("-4.36", "-21.9");
  put("Europe/Paris", "Atlantic/Reykjavik");
  const json made = json::parse(post("/api/gardens", {{"document", north}})->body);
  const json band =
      json::parse(get("/api/gardens/" + made["id"].get<std::string>() + "/band")->body);
  std::map<std::string, json> lit;
  double last_set = 0;
  for (const json& day : band["days"]) {
    const json& pieces = day["lit"];
    lit[day["date"]] = pieces;
    ASSERT_GE(pieces.size(), 1u) << day;
    for (const json& piece : pieces)
      EXPECT_LT(piece[0].get<double>(), piece[1].get<double>()) << day;
    // Each sunset is within a quarter of an hour of the day before's: no piece is left out.
    const double to = pieces.back()[1].get<double>();
    const double set = to < 24 ? to : 24;
    if (last_set > 0) {
      EXPECT_LT(std::abs(set - last_set), 0.25) << day;
    }
    last_set = set;
  }
  // The sun is up from about 2:54 on midsummer day to about 0:03 of the next.
  ASSERT_EQ(lit["06-21"].size(), 2u);
  EXPECT_EQ(lit["06-21"][0][0], 0);
  EXPECT_NEAR(lit["06-21"][0][1].get<double>(), 0.05, 0.05);
  EXPECT_NEAR(lit["06-21"][1][0].get<double>(), 2.9, 0.1);
  EXPECT_EQ(lit["06-21"][1][1], 24);
  ASSERT_EQ(lit["05-17"].size(), 1u);
  EXPECT_LT(lit["05-17"][0][1].get<double>(), 23.2);
}

TEST_F(Serving, TellsWhyToTheSource) {
  const std::string at = garden();
  const json why =
      json::parse(get(at + "/why?pointer=/light/places/low-bed/months/5/sun_h_per_day")->body);
  EXPECT_NE(why["value"].get<std::string>().find("h"), std::string::npos);
  EXPECT_FALSE(why["inputs"].empty());
  bool cited = false;
  const std::function<void(const json&)> walk = [&](const json& trace) {
    for (const json& source : trace["sources"])
      cited |=
          source["citation"].get<std::string>().size() > source["key"].get<std::string>().size();
    for (const json& input : trace["inputs"]) walk(input);
  };
  walk(why);
  EXPECT_TRUE(cited);
  EXPECT_EQ(get(at + "/why?pointer=/nothing")->status, 400);
}

TEST_F(Serving, GivesPicturesAndTablesToKeep) {
  const std::string at = garden();
  for (const char* which : {"", "&print=low-bed", "&months=5", "&day=06-21"}) {
    const auto svg = get(at + "/picture?format=svg" + which);
    EXPECT_EQ(svg->status, 200) << svg->body;
    EXPECT_NE(svg->body.find("<svg"), std::string::npos);
    EXPECT_NE(svg->get_header_value("Content-Disposition").find(".svg"), std::string::npos);
  }
  const std::string moment = get(at + "/picture?format=svg&day=06-15&clock=16.3333")->body;
  for (const char* says : {"sun and shade", "15 June", "16:20", "in part"})
    EXPECT_NE(moment.find(says), std::string::npos) << says;
  EXPECT_EQ(moment.find("hours of sun"), std::string::npos);
  EXPECT_EQ(get(at + "/picture?format=svg&day=06-15&clock=soon")->status, 400);
  EXPECT_EQ(get(at + "/picture?format=png")->body.substr(1, 3), "PNG");
  EXPECT_EQ(get(at + "/picture?format=gif")->status, 400);
  const std::string table = get(at + "/table")->body;
  EXPECT_EQ(std::count(table.begin(), table.end(), '\n'), 1 + 12 + 1);
  EXPECT_NE(table.find(",4 to 9,"), std::string::npos);
  EXPECT_NE(get(at + "/table?of=field")->body.find("sun_h_per_day_06"), std::string::npos);
  EXPECT_EQ(get(at + "/table?of=nothing")->status, 400);
}

/// The lines of a table, each cut at its commas.
std::vector<std::vector<std::string>> rows_of(const std::string& table) {
  std::vector<std::vector<std::string>> rows;
  for (std::size_t at = 0; at < table.size();) {
    const std::size_t end = table.find('\n', at);
    std::vector<std::string> row(1);
    for (const char c : table.substr(at, end - at)) {
      if (c == ',')
        row.emplace_back();
      else
        row.back() += c;
    }
    rows.push_back(row);
    at = end + 1;
  }
  return rows;
}

TEST_F(Serving, GivesTheTableOfWhatIsShown) {
  const std::string at = garden();
  EXPECT_EQ(edit(at, {{"scheme", "proposed"}, {"thing", "medlar"}, {"move_m", {0, 3}}})->status,
            200);
  study::Study study = testing::study_of(kGarden);
  const LocalDate date = make_date(kReferenceYear, 6, 21);
  const auto day = rows_of(get(at + "/table?scheme=proposed&against=found&day=06-21")->body);
  ASSERT_EQ(day.size(), 3U);
  EXPECT_EQ(day[1][0] + day[1][1] + day[1][3], "proposedlow-bed06-21");
  EXPECT_EQ(day[2][0] + day[2][1], "foundlow-bed");
  EXPECT_NEAR(std::stod(day[2][4]),
              (*study.places_day("found", date))->find("low-bed")->months[5].sun_h_per_day, 5e-4);
  EXPECT_NE(day[1][4], day[2][4]);
  const auto moment = rows_of(get(at + "/table?scheme=found&day=06-21&clock=14.5")->body);
  ASSERT_EQ(moment.size(), 2U);
  EXPECT_EQ(moment[1][3], "14:30");
  const Unpacked field = unpacked(get(at + "/field?scheme=found&day=06-21&clock=14.5")->body);
  EXPECT_NEAR(std::stod(moment[1][4]), field.head["beds"]["low-bed"].get<double>(), 5e-4);
  EXPECT_EQ(rows_of(get(at + "/table?scheme=proposed&against=found")->body).size(), 1U + 2 * 13);
  EXPECT_EQ(get(at + "/table?of=field&day=06-21")->body.find("sun_h_per_day"), std::string::npos);
  const std::string won = get(at + "/picture?scheme=proposed&against=found")->body;
  EXPECT_NE(won.find("won and lost"), std::string::npos);
  EXPECT_EQ(get(at + "/picture?scheme=proposed&against=none")->status, 400);
  EXPECT_EQ(get(at + "/table?against=none")->status, 400);
  EXPECT_EQ(get(at + "/table?day=06-31")->status, 400);
}

TEST_F(Serving, TellsWhatRestsOnGuesses) {
  const std::string at = garden();
  const auto guessed = [&] {
    return json::parse(get(at + "/places?scheme=found")->body)["places"][0]["on_guesses"];
  };
  EXPECT_EQ(guessed(), false);
  EXPECT_NE(get(at + "/picture?format=svg&scheme=found")->body.find("low-bed"), std::string::npos);
  EXPECT_EQ(get(at + "/picture?format=svg&scheme=found")->body.find("≈"), std::string::npos);
  EXPECT_EQ(
      edit(at, {{"scheme", "found"}, {"thing", "medlar"}, {"set", {{"guessed", {"height_m"}}}}})
          ->status,
      200);
  EXPECT_EQ(guessed(), true);
  EXPECT_EQ(rows_of(get(at + "/table?scheme=found")->body)[6].back(), "yes");
}

TEST_F(Serving, TellsThePlacesSunOnADayAsTheStudyHasIt) {
  const std::string at = garden();
  const json told = json::parse(get(at + "/places?day=06-21&against=found")->body);
  EXPECT_EQ(told["day"], "06-21");
  study::Study study = testing::study_of(kGarden);
  const LocalDate date = make_date(kReferenceYear, 6, 21);
  const auto day = study.places_day("proposed", date), found = study.places_day("found", date);
  const auto year = study.places_year("proposed");
  ASSERT_FALSE(told["places"].empty());
  for (const json& place : told["places"]) {
    const std::string id = place["id"];
    EXPECT_EQ(place["shown_h"], (*day)->find(id)->months[5].sun_h_per_day);
    EXPECT_EQ(place["months"][5]["sun_h_per_day"], (*year)->find(id)->months[5].sun_h_per_day);
    const light::PlaceSun* then = (*found)->find(id);
    EXPECT_EQ(place["against_shown_h"],
              then == nullptr ? json() : json(then->months[5].sun_h_per_day));
  }
  EXPECT_EQ(get(at + "/places?day=06-31")->status, 400);
}

TEST_F(Serving, TriesWithoutAThing) {
  const std::string at = garden();
  const auto tried =
      post(at + "/try", {{"scheme", "proposed"}, {"thing", "medlar"}, {"without", true}});
  ASSERT_EQ(tried->status, 200) << tried->body;
  std::string without = kGarden;
  const std::size_t begin = without.find("[[tree]]"), end = without.find("[[bed]]");
  without.erase(begin, end - begin);
  study::Study study = testing::study_of(without);
  const auto field = study.field("proposed", 0.1);
  const auto sun = study.open_sun("proposed");
  const auto mean = light::field_mean(**field, *sun, {3, 4, 5, 6, 7, 8});
  const Unpacked got = unpacked(tried->body);
  ASSERT_EQ(got.cells.size(), mean.size());
  for (std::size_t i = 0; i < mean.size(); ++i)
    EXPECT_EQ(got.cells[i],
              std::isnan(mean[i]) ? 65535 : std::lround(static_cast<double>(mean[i]) * 100));
  EXPECT_EQ(post(at + "/try", {{"scheme", "proposed"}, {"thing", "no"}, {"without", true}})->status,
            404);
}

TEST_F(Serving, TriesWithoutABedAndNamesTheOthersRight) {
  const std::string bed = "[[bed]]\nid = \"high-bed\"\nat = [2, 6]\nsize = [3, 1.2]\n";
  const auto brought = post("/api/gardens", {{"document", kGarden + bed}});
  ASSERT_EQ(brought->status, 201) << brought->body;
  const std::string at = "/api/gardens/" + json::parse(brought->body)["id"].get<std::string>();
  const Unpacked before = unpacked(get(at + "/field")->body);
  const Unpacked without = unpacked(
      post(at + "/try", {{"scheme", "proposed"}, {"thing", "low-bed"}, {"without", true}})->body);
  EXPECT_TRUE(before.head["beds"].contains("low-bed"));
  EXPECT_EQ(without.head["beds"].size(), 1U);
  // It lies 4 m off, on level ground: a low frame takes nothing from it.
  EXPECT_NEAR(without.head["beds"]["high-bed"].get<double>(),
              before.head["beds"]["high-bed"].get<double>(), 0.02);
}

TEST_F(Serving, StopsWorkThatIsCancelled) {
  EXPECT_EQ(json::parse(get("/api/jobs/none")->body)["running"], false);
  const std::string large = testing::head(48.41, -4.36, "Europe/Paris", 340) + [] {
    std::string beds;
    for (int i = 0; i < 200; ++i)
      beds += "[[bed]]\nid = \"bed-" + std::to_string(i) + "\"\nat = [" +
              std::to_string(i % 10 * 3) + ", " + std::to_string(i / 10 * 5) +
              "]\nsize = [1.2, 4]\n[[tree]]\nid = \"tree-" + std::to_string(i) +
              "\"\nkind = \"medlar\"\nat = [" + std::to_string(i % 10 * 3 + 2) + ", " +
              std::to_string(i / 10 * 5) + "]\nheight_m = 4\ncrown_width_m = 3\n";
    return beds;
  }();
  const std::string at =
      "/api/gardens/" +
      json::parse(post("/api/gardens", {{"document", large}})->body)["id"].get<std::string>();
  int status = 0;
  std::thread asking([&] { status = get(at + "/inks?job=one")->status; });
  for (int i = 0; i < 2000; ++i) {
    if (json::parse(get("/api/jobs/one")->body)["running"] == true) break;
    std::this_thread::sleep_for(std::chrono::milliseconds(1));
  }
  EXPECT_EQ(json::parse(post("/api/jobs/one", {{"cancel", true}})->body)["running"], true);
  asking.join();
  EXPECT_EQ(status, 422);
  EXPECT_EQ(json::parse(get("/api/jobs/one")->body)["running"], false);

  // Work for one who hangs up is left.
  {
    httplib::Client hasty = client();
    hasty.set_read_timeout(0, 200'000);
    EXPECT_FALSE(hasty.Get(at + "/inks?job=left"));
  }
  const auto hung_up = std::chrono::steady_clock::now();
  while (json::parse(get("/api/jobs/left")->body)["running"] == true)
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  EXPECT_LT(std::chrono::steady_clock::now() - hung_up, std::chrono::seconds(2));

  // What is tried is stopped by an edit: it was of a garden that is no more.
  std::string told;
  std::thread trying([&] {
    const auto got =
        post(at + "/try?job=two",
             {{"scheme", "found"}, {"thing", "tree-3"}, {"move_m", {0.5, 0}}, {"months", "5"}});
    status = got->status, told = got->body;
  });
  for (int i = 0; i < 2000; ++i) {
    if (json::parse(get("/api/jobs/two")->body)["running"] == true) break;
    std::this_thread::sleep_for(std::chrono::milliseconds(1));
  }
  std::this_thread::sleep_for(std::chrono::milliseconds(100));
  EXPECT_EQ(edit(at, {{"scheme", "found"}, {"thing", "tree-3"}, {"move_m", {0.5, 0}}})->status,
            200);
  trying.join();
  EXPECT_EQ(status, 422) << told;
  EXPECT_EQ(json::parse(told)["error"]["code"], "no_answer");
}

}  // namespace
}  // namespace spadework::server
