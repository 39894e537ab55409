// A weather file into a garden, and out again.
#include <filesystem>
#include <fstream>
#include <sstream>

#include "exchange/exchange.h"
#include "server/server_testing.h"

namespace spadework::server {
namespace {

std::string golden(const std::string& file) {
  std::ifstream in(SPADEWORK_SOURCE_DIR "/tests/golden/weather/" + file, std::ios::binary);
  std::stringstream out;
  out << in.rdbuf();
  EXPECT_FALSE(out.str().empty()) << file;
  return out.str();
}

const std::string kDays = "dublin/dublin_1991_2020_jan_feb_jul.csv";

class Files : public Serving {
 protected:
  httplib::Result bring(const std::string& at, const std::string& name, const std::string& bytes) {
    return client().Post((at + "/files?name=" + name).c_str(), {{"X-Spadework", "1"}}, bytes,
                         "application/octet-stream");
  }
  json set_file(const std::string& at, const json& name) {
    const auto done =
        edit(at, {{"scheme", "proposed"}, {"table", "climate"}, {"set", {{"weather_file", name}}}});
    EXPECT_EQ(done->status, 200) << done->body;
    return json::parse(done->body);
  }
  std::string findings(const std::string& at) { return get(at + "/findings")->body; }
  double july_tmax(const std::string& at) {
    const auto why = get(at + "/why?pointer=/climate/months/6/tmax_c");
    EXPECT_EQ(why->status, 200) << why->body;
    return std::stod(json::parse(why->body)["value"].get<std::string>());
  }
};

TEST_F(Files, GiveAGardenItsOwnWeatherAndUndoTakesItBack) {
  const std::string at = garden();
  EXPECT_TRUE(state(at)["weather_file"].is_null());
  const double of_stations = july_tmax(at);
  const auto kept = bring(at, "days.csv", golden(kDays));
  ASSERT_EQ(kept->status, 201) << kept->body;
  EXPECT_EQ(json::parse(kept->body)["name"], "days.csv");
  EXPECT_EQ(state(at)["head"]["undo"], "");  // not yet in the document
  set_file(at, "days.csv");
  const json now = state(at);
  EXPECT_EQ(now["weather_file"]["name"], "days.csv");
  EXPECT_TRUE(now["weather_file"]["problem"].is_null());
  EXPECT_EQ(now["weather_file"]["has_no_month"], false);
  EXPECT_EQ(now["head"]["undo"], "climate: weather file");
  EXPECT_NE(get(at + "/document")->body.find("[climate]\nweather_file = \"days.csv\"\n"),
            std::string::npos);
  const double of_file = july_tmax(at);
  EXPECT_GT(std::abs(of_file - of_stations), 0.1);
  post(at + "/steps", {{"command", "u"}, {"change", now["head"]["change"]}, {"step", "undo"}});
  EXPECT_TRUE(state(at)["weather_file"].is_null());
  EXPECT_EQ(july_tmax(at), of_stations);
  post(at + "/steps",
       {{"command", "r"}, {"change", state(at)["head"]["change"]}, {"step", "redo"}});
  EXPECT_EQ(july_tmax(at), of_file);
  set_file(at, nullptr);
  EXPECT_EQ(july_tmax(at), of_stations);
}

TEST_F(Files, TellThatAFileHasNoWholeMonth) {
  const std::string at = garden();
  const std::string row = "date,tmax_c,tmin_c\n2024-05-01,18,9\n";
  const auto kept = bring(at, "row.csv", row);
  ASSERT_EQ(kept->status, 201) << kept->body;
  set_file(at, "row.csv");
  EXPECT_EQ(state(at)["weather_file"]["has_no_month"], true);
  // The document's keys stand in brackets, which the app leaves out.
  const std::string told = findings(at);
  EXPECT_NE(told.find("leave it out (climate.weather_file)."), std::string::npos) << told;
}

TEST_F(Files, DoubtAFileOfAnotherPlaceAlsoWhenTheGardenIsElsewhere) {
  const std::string at = garden();
  ASSERT_EQ(bring(at, "denver.epw", golden("denver/denver_tmy3_thinned.epw"))->status, 201);
  set_file(at, "denver.epw");
  EXPECT_NE(findings(at).find("km from the garden"), std::string::npos);
  const auto moved = edit(at, {{"scheme", "proposed"},
                               {"table", "garden"},
                               {"set",
                                {{"latitude_deg", 39.83},
                                 {"longitude_deg", -104.65},
                                 {"elevation_m", 1650},
                                 {"time_zone", "America/Denver"}}}});
  ASSERT_EQ(moved->status, 200) << moved->body;
  EXPECT_EQ(findings(at).find("km from the garden"), std::string::npos);
}

TEST_F(Files, ComeOutAsTheyWentIn) {
  const std::string at = garden();
  ASSERT_EQ(bring(at, "my%20days.csv", golden(kDays))->status, 201);
  const auto out = get(at + "/files?name=my%20days.csv");
  ASSERT_EQ(out->status, 200);
  EXPECT_EQ(out->body, golden(kDays));
  EXPECT_EQ(out->get_header_value("Content-Disposition"), "attachment; filename=\"my days.csv\"");
  EXPECT_EQ(get(at + "/files?name=other.csv")->status, 404);
  EXPECT_EQ(get(at + "/files")->status, 404);
}

TEST_F(Files, OfOneNameAreBothKept) {
  const std::string at = garden();
  const std::string other = "date,tmax_c\n2020-01-01,5\n";
  ASSERT_EQ(bring(at, "days.csv", golden(kDays))->status, 201);
  EXPECT_EQ(json::parse(bring(at, "days.csv", other)->body)["name"], "days-2.csv");
  EXPECT_EQ(json::parse(bring(at, "days.csv", golden(kDays))->body)["name"], "days.csv");
  EXPECT_EQ(get(at + "/files?name=days-2.csv")->body, other);
}

TEST_F(Files, ThatAreDamagedAreRefusedWithTheirLines) {
  const std::string at = garden();
  const auto refused = bring(at, "days.csv", "date,tmax_c\n2001-01-01,5\n2001-01-02,hot\n");
  EXPECT_EQ(refused->status, 422);
  const json told = json::parse(refused->body);
  ASSERT_EQ(told["problems"].size(), 1u);
  EXPECT_EQ(told["problems"][0]["where"], "days.csv:3:12");
  EXPECT_EQ(bring(at, "photo.csv", std::string(100'000, '\xff'))->status, 422);
  EXPECT_EQ(bring(at, "empty.csv", "")->status, 422);
  EXPECT_EQ(get(at + "/files?name=days.csv")->status, 404);
}

TEST_F(Files, HavePlainNames) {
  const std::string at = garden();
  const std::string days = "date,tmax_c\n2020-01-01,5\n";
  for (const char* name :
       {"", "..", ".hidden", "a%2Fb.csv", "a%5Cb.csv", "C:days.csv", "a%0Ab", "a%22b"})
    EXPECT_EQ(bring(at, name, days)->status, 422) << name;
  EXPECT_EQ(bring(at, std::string(121, 'a'), days)->status, 422);
  EXPECT_EQ(bring(at, "jours%20d%27%C3%A9t%C3%A9.csv", days)->status, 201);
  EXPECT_EQ(set_file(at, "jours d'été.csv")["head"]["undo"], "climate: weather file");
}

TEST_F(Files, AreTakenFromItsOwnPageAloneAndWithinALimit) {
  const std::string at = garden() + "/files?name=days.csv";
  const std::string days = "date,tmax_c\n2020-01-01,5\n";
  const char* bytes = "application/octet-stream";
  EXPECT_EQ(client().Post(at.c_str(), days, bytes)->status, 403);
  EXPECT_EQ(
      client()
          .Post(at.c_str(), {{"X-Spadework", "1"}, {"Origin", "http://evil.example"}}, days, bytes)
          ->status,
      403);
  EXPECT_EQ(client().Post(at.c_str(), {{"X-Spadework", "1"}}, days, "text/plain")->status, 415);
  const std::string head = "POST " + at +
                           " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(server->port()) +
                           "\r\nX-Spadework: 1\r\nContent-Type: " + bytes + "\r\nContent-Length: ";
  EXPECT_TRUE(raw(head + "67108865\r\n\r\n").starts_with("HTTP/1.1 413 "));
  // Larger than a document may be, and no weather.
  EXPECT_EQ(
      client().Post(at.c_str(), {{"X-Spadework", "1"}}, std::string(9 << 20, 'x'), bytes)->status,
      422);
}

TEST_F(Files, OfManyAtOnceDoNotStopTheOthers) {
  const std::string at = garden();
  const std::string head = "POST " + at + "/files?name=days.csv HTTP/1.1\r\nHost: 127.0.0.1:" +
                           std::to_string(server->port()) +
                           "\r\nX-Spadework: 1\r\nContent-Type: application/octet-stream\r\n"
                           "Content-Length: 60000000\r\n\r\n";
  std::vector<int> slow;
  for (int i = 0; i < 20; ++i) {
    slow.push_back(connected());
    (void)::send(slow.back(), head.data(), head.size(), MSG_NOSIGNAL);
  }
  const auto begun = std::chrono::steady_clock::now();
  EXPECT_EQ(get(at)->status, 200);
  EXPECT_LT(std::chrono::steady_clock::now() - begun, std::chrono::seconds(2));
  for (const int socket : slow) ::close(socket);
  EXPECT_EQ(bring(at, "days.csv", "date,tmax_c\n2020-01-01,5\n")->status, 201);
}

TEST_F(Files, ThatADocumentNamesAndThatAreNotThereAreAskedForAndTheGardenOpens) {
  const std::string text = kGarden + "[climate]\nweather_file = \"own-days.csv\"\n";
  const auto made = post("/api/gardens", {{"document", text}});
  ASSERT_EQ(made->status, 201) << made->body;
  const std::string at = "/api/gardens/" + json::parse(made->body)["id"].get<std::string>();
  EXPECT_EQ(state(at)["weather_file"]["name"], "own-days.csv");
  EXPECT_EQ(state(at)["weather_file"]["is_there"], false);
  EXPECT_NE(findings(at).find("The weather file own-days.csv is not with this garden"),
            std::string::npos);
  const double of_stations = july_tmax(at);
  // All else can be done.
  EXPECT_EQ(edit(at, {{"scheme", "found"}, {"thing", "medlar"}, {"move_m", {1, 0}}})->status, 200);
  ASSERT_EQ(bring(at, "own-days.csv", golden(kDays))->status, 201);
  const auto change = state(at)["head"]["change"].get<int>();
  const json named = set_file(at, "own-days.csv");
  EXPECT_EQ(named["head"]["change"], change + 1);  // other windows hear of it
  EXPECT_EQ(named["head"]["undo"], "medlar moved");
  EXPECT_TRUE(state(at)["weather_file"]["problem"].is_null());
  EXPECT_GT(std::abs(july_tmax(at) - of_stations), 0.1);
  EXPECT_EQ(findings(at).find("is not with this garden"), std::string::npos);
}

TEST_F(Files, TablesAreSetByTheirKeysAlone) {
  const std::string at = garden();
  const json set = {{"title", "Other"}};
  EXPECT_EQ(edit(at, {{"scheme", "found"}, {"table", "garden"}, {"set", set}})->status, 200);
  EXPECT_EQ(state(at)["title"], "Other");
  for (const json& wrong : {json{{"table", "bed"}, {"set", set}}, json{{"table", "nothing"}},
                            json{{"table", "climate"}, {"set", {{"weather", "x"}}}},
                            json{{"table", "climate"}, {"take_away", true}}})
    EXPECT_EQ(edit(at, wrong)->status, 400) << wrong;
  EXPECT_EQ(edit(at, {{"table", "climate"}, {"set", {{"weather_file", "../x"}}}})->status, 422);
}

const std::string kPicture =
    std::string("\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR\0\0\0\x28\0\0\0\x1e\x08\x02\0\0\0crc.", 33);

TEST_F(Files, KeepAPictureThatAThingNames) {
  const std::string at = garden();
  const auto kept = bring(at, "plot.png", kPicture);
  ASSERT_EQ(kept->status, 201) << kept->body;
  const json told = json::parse(kept->body);
  EXPECT_EQ(told["name"], "plot.png");
  EXPECT_EQ(told["width_px"], 40);
  EXPECT_EQ(told["height_px"], 30);
  const auto back = get(at + "/files?name=plot.png");
  EXPECT_EQ(back->body, kPicture);
  EXPECT_EQ(back->get_header_value("Content-Type"), "image/png");
  const json set = {{"file", "plot.png"}, {"at", {0, 0}}, {"width_m", 12}};
  const auto done = edit(at, {{"scheme", "found"}, {"add", "picture"}, {"set", set}});
  ASSERT_EQ(done->status, 200) << done->body;
  EXPECT_NE(get(at + "/document")->body.find("[[picture]]"), std::string::npos);
  EXPECT_EQ(bring(at, "half.png", kPicture.substr(0, 20))->status, 422);
  const json far = {{"file", "../plot.png"}, {"at", {0, 0}}, {"width_m", 12}};
  EXPECT_EQ(edit(at, {{"scheme", "found"}, {"add", "picture"}, {"set", far}})->status, 422);
}

}  // namespace
}  // namespace spadework::server
