#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <httplib.h>
#include <sys/socket.h>
#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <thread>

#include "server/guard.h"
#include "server/server_testing.h"

namespace spadework::server {
namespace {

TEST_F(Serving, ShowsThePageAndAnswersWithItsName) {
  const auto page = get("/");
  EXPECT_EQ(page->status, 200);
  EXPECT_NE(page->body.find("Spadework"), std::string::npos);
  EXPECT_NE(page->get_header_value("Content-Security-Policy").find("default-src 'none'"),
            std::string::npos);
  EXPECT_EQ(json::parse(get("/api/about")->body)["program"], "Spadework 0.1.0");
  EXPECT_EQ(get("/nowhere")->status, 404);
}

TEST_F(Serving, RefusesAForeignHostAndOrigin) {
  const std::string port = std::to_string(server->port());
  const auto with = [&](const httplib::Headers& headers) {
    return client().Get("/api/about", headers)->status;
  };
  EXPECT_EQ(with({{"Host", "localhost:" + port}}), 200);
  EXPECT_EQ(with({{"Host", "evil.example"}}), 403);
  EXPECT_EQ(with({{"Host", "127.0.0.1"}}), 403);
  EXPECT_EQ(with({{"Host", "127.0.0.1.evil.example:" + port}}), 403);
  EXPECT_EQ(with({{"Host", "127.0.0.1:" + port}, {"Origin", "http://evil.example"}}), 403);
  EXPECT_EQ(with({{"Host", "127.0.0.1:" + port}, {"Origin", "null"}}), 403);
  EXPECT_EQ(with({{"Host", "127.0.0.1:" + port}, {"Sec-Fetch-Site", "cross-site"}}), 403);
  EXPECT_EQ(with({{"Host", "127.0.0.1:" + port}, {"Origin", "http://127.0.0.1:" + port}}), 200);
  EXPECT_NE(raw("GET /api/about HTTP/1.1\r\n\r\n").find(" 403 "), std::string::npos);
}

TEST_F(Serving, TakesNoChangeWithoutItsOwnHeader) {
  const auto without =
      client().Post("/api/gardens", json{{"example", "small"}}.dump(), "application/json");
  EXPECT_EQ(without->status, 403);
  EXPECT_TRUE(json::parse(get("/api/gardens")->body)["gardens"].empty());
  EXPECT_EQ(client().Options("/api/gardens")->status, 403);
}

TEST_F(Serving, FindsNoWayOutOfItsFolder) {
  for (const char* path :
       {"/api/gardens/..", "/api/gardens/%2e%2e%2fetc%2fpasswd",
        "/api/gardens/..%2f..%2fx/document", "/../../etc/passwd", "/%2e%2e/%2e%2e/etc/passwd",
        "/api/gardens/.hidden", "/api/gardens/a%00b", "/api/gardens/a/b/c/d"}) {
    const auto got = get(path);
    ASSERT_TRUE(got) << path;
    EXPECT_EQ(got->status, 404) << path << got->body;
    EXPECT_EQ(got->body.find("root:"), std::string::npos);
  }
  EXPECT_EQ(post("/api/gardens", {{"take_off", "../x"}})->status, 404);
}

TEST_F(Serving, RefusesBodiesThatAreTooLargeOrNoJson) {
  const std::string at = garden();
  const auto post_text = [&](const std::string& path, const std::string& body) {
    return client().Post(path.c_str(), {{"X-Spadework", "1"}}, body, "application/json");
  };
  EXPECT_EQ(post_text("/api/gardens", std::string(9 << 20, 'x'))->status, 413);
  for (const char* body :
       {"", "{", "[]", "null", "\"x\"", "{\"example\": 3}", "{\"document\": []}"})
    EXPECT_EQ(post_text("/api/gardens", body)->status, 400) << body;
  for (const char* body :
       {"{}", "{\"command\": 1, \"change\": 1}", "{\"command\": \"a\", \"change\": \"1\"}",
        "{\"command\": \"a\", \"change\": 1}",
        "{\"command\": \"a\", \"change\": 1, \"scheme\": 1, \"thing\": []}",
        "{\"command\": \"a\", \"change\": 1, \"scheme\": \"found\", \"thing\": \"medlar\", "
        "\"move_m\": [1]}"})
    EXPECT_EQ(post_text(at + "/edits", body)->status, 400) << body;
  EXPECT_EQ(post_text(at + "/steps", "{\"command\": \"a\", \"change\": 1, \"step\": 7}")->status,
            400);
  EXPECT_NE(raw("POST /api/gardens HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(server->port()) +
                "\r\nX-Spadework: 1\r\nContent-Length: 99999999999999\r\n\r\n")
                .find(" 413 "),
            std::string::npos);
  EXPECT_EQ(get("/api/about")->status, 200);
}

TEST_F(Serving, GoesOnWhileOthersSendSlowly) {
  std::vector<int> slow;
  for (int i = 0; i < 20; ++i) {
    const int socket = ::socket(AF_INET, SOCK_STREAM, 0);
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(static_cast<std::uint16_t>(server->port()));
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    ASSERT_EQ(::connect(socket, reinterpret_cast<sockaddr*>(&address), sizeof address), 0);
    (void)::send(socket, "GET /api/ab", 11, MSG_NOSIGNAL);
    slow.push_back(socket);
  }
  const auto begun = std::chrono::steady_clock::now();
  EXPECT_EQ(get("/api/about")->status, 200);
  EXPECT_LT(std::chrono::steady_clock::now() - begun, std::chrono::seconds(2));
  for (const int socket : slow) ::close(socket);
}

TEST_F(Serving, NoticesThatAPortIsTaken) {
  ServerOptions options;
  options.data_folder = folder;
  options.port = server->port();
  const auto second = Server::start(options, workshop());
  ASSERT_FALSE(second.has_value());
  EXPECT_NE(second.error().message.find("Spadework runs already"), std::string::npos);
  const int other = ::socket(AF_INET, SOCK_STREAM, 0);
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  ASSERT_EQ(::bind(other, reinterpret_cast<sockaddr*>(&address), sizeof address), 0);
  ASSERT_EQ(::listen(other, 1), 0);
  socklen_t size = sizeof address;
  ::getsockname(other, reinterpret_cast<sockaddr*>(&address), &size);
  options.port = ntohs(address.sin_port);
  const auto third = Server::start(options, workshop());
  ASSERT_FALSE(third.has_value());
  EXPECT_NE(third.error().message.find("taken by another program"), std::string::npos);
  ::close(other);
}

TEST_F(Serving, PutsAGardenOnTheShelfAndTakesItOff) {
  const auto bad = post("/api/gardens", {{"document", "format = 1\n[garden]\ntitle = 3\n"}});
  EXPECT_EQ(bad->status, 422);
  EXPECT_GT(json::parse(bad->body)["problems"].size(), 1u);
  EXPECT_NE(json::parse(bad->body)["problems"][0]["where"].get<std::string>().find(":"),
            std::string::npos);
  const auto made = post("/api/gardens", {{"document", kGarden}});
  ASSERT_EQ(made->status, 201) << made->body;
  const std::string id = json::parse(made->body)["id"];
  EXPECT_EQ(get("/api/gardens/" + id + "/document")->body, kGarden);
  auto list = json::parse(get("/api/gardens")->body);
  EXPECT_EQ(list["gardens"][0]["title"], "Test");
  EXPECT_EQ(list["examples"][0]["title"], "Test");
  const auto off = post("/api/gardens", {{"take_off", id}});
  const std::string taken = json::parse(off->body)["id"];
  EXPECT_EQ(get("/api/gardens/" + id)->status, 404);
  EXPECT_EQ(post("/api/gardens", {{"put_back", taken}})->status, 200);
  EXPECT_EQ(get("/api/gardens/" + id + "/document")->body, kGarden);
}

TEST_F(Serving, TellsTheGardenAsTheSheetWantsIt) {
  const std::string at = garden();
  const json now = state(at, "found");
  EXPECT_EQ(now["title"], "Test");
  EXPECT_EQ(now["schemes"], json({"found", "proposed"}));
  ASSERT_NE(thing(now, "medlar"), nullptr);
  EXPECT_EQ((*thing(now, "medlar"))["fields"]["height_m"]["value"], 5);
  EXPECT_EQ((*thing(now, "medlar"))["corners"], json({{3, 4}}));
  const auto sheet = get(at + "/sheet?scheme=found&mm_per_m=30");
  EXPECT_EQ(sheet->get_header_value("Content-Type"), "image/svg+xml");
  EXPECT_NE(sheet->body.find("id=\"medlar\""), std::string::npos);
  EXPECT_EQ(sheet->body.find("<style"), std::string::npos);
  EXPECT_EQ(sheet->body.find(" style="), std::string::npos);
  EXPECT_EQ(get(at + "?scheme=none")->status, 400);
}

TEST_F(Serving, WakesTheOtherWindowAtOnce) {
  const std::string at = garden();
  const json change = state(at)["head"]["change"];
  json seen;
  std::thread other(
      [&] { seen = json::parse(get(at + "/changes?change=" + change.dump())->body); });
  std::this_thread::sleep_for(std::chrono::milliseconds(50));
  const auto begun = std::chrono::steady_clock::now();
  EXPECT_EQ(edit(at, {{"scheme", "found"}, {"thing", "medlar"}, {"move_m", {1, 0}}})->status, 200);
  other.join();
  EXPECT_LT(std::chrono::steady_clock::now() - begun, std::chrono::seconds(2));
  EXPECT_GT(seen["change"], change);
  EXPECT_EQ(seen["head"], state(at)["head"]);
}

TEST_F(Serving, SendsTheFieldThatTheStudyComputes) {
  const std::string at = garden();
  study::Study study = testing::study_of(kGarden);
  const auto field = study.field("proposed", 0.1);
  const auto sun = study.open_sun("proposed");
  for (const std::string& asked : {std::string("5"), std::string("3,4,5,6,7,8")}) {
    const auto got = get(at + "/field?months=" + asked);
    ASSERT_EQ(got->status, 200) << got->body;
    const Unpacked packed = unpacked(got->body);
    EXPECT_EQ(packed.head["columns"], (*field)->columns);
    EXPECT_EQ(packed.head["exact"], true);
    const auto months = asked == "5" ? std::vector<int>{5} : std::vector<int>{3, 4, 5, 6, 7, 8};
    const auto mean = light::field_mean(**field, *sun, months);
    ASSERT_EQ(packed.cells.size(), mean.size());
    for (std::size_t i = 0; i < mean.size(); ++i)
      EXPECT_EQ(packed.cells[i],
                std::isnan(mean[i]) ? 65535 : std::lround(static_cast<double>(mean[i]) * 100));
  }
  EXPECT_EQ(get(at + "/field?day=06-21")->status, 200);
  EXPECT_EQ(get(at + "/field?day=06-21&clock=12.5")->status, 200);
  for (const char* wrong :
       {"months=12", "months=a", "months=1,", "day=06-31", "day=06-21&clock=25"})
    EXPECT_EQ(get(at + "/field?" + wrong)->status, 400) << wrong;
}

TEST_F(Serving, TriesAMoveWithoutKeepingIt) {
  const std::string at = garden();
  const json move = {{"scheme", "proposed"}, {"thing", "medlar"}, {"move_m", {2, 1}}};
  const std::map<std::string, json> times = {
      {"months=5", {{"months", "5"}}},
      {"day=06-21", {{"day", "06-21"}}},
      {"day=06-21&clock=9.5", {{"day", "06-21"}, {"clock", 9.5}}}};
  std::map<std::string, Unpacked> tried;
  for (const auto& [query, time] : times) {
    json asked = move;
    asked.update(time);
    const auto got = post(at + "/try", asked);
    ASSERT_EQ(got->status, 200) << got->body;
    tried[query] = unpacked(got->body);
    EXPECT_NE(tried[query].cells, unpacked(get(at + "/field?" + query)->body).cells) << query;
  }
  EXPECT_EQ(get(at + "/document")->body, kGarden);
  EXPECT_EQ(edit(at, move)->status, 200);
  for (const auto& [query, was] : tried) {
    const Unpacked after = unpacked(get(at + "/field?" + query)->body);
    EXPECT_EQ(was.cells, after.cells) << query;
    EXPECT_EQ(was.head, after.head) << query;
  }
  json wrong = move;
  wrong.update({{"day", "06-21"}, {"clock", "noon"}});
  EXPECT_EQ(post(at + "/try", wrong)->status, 400);
}

// The error that is stated beside every_when_quick().
TEST_F(Serving, TriesQuicklyAndNearlyAsWell) {
  const std::string at = garden();
  for (const char* months : {"5", "3,4,5,6,7,8", "0,1,2,3,4,5,6,7,8,9,10,11"}) {
    json move = {{"scheme", "proposed"}, {"thing", "medlar"}, {"move_m", {2, 1}}};
    move["months"] = months;
    const Unpacked exact = unpacked(post(at + "/try", move)->body);
    const Unpacked before = unpacked(get(at + "/field?months=" + std::string(months))->body);
    move["quick"] = true;
    const Unpacked quick = unpacked(post(at + "/try", move)->body);
    EXPECT_EQ(exact.head["exact"], true);
    EXPECT_EQ(quick.head["exact"], false);
    double off = 0, cells = 0;
    for (std::size_t i = 0; i < exact.cells.size(); ++i) {
      if (exact.cells[i] == before.cells[i]) continue;
      off += std::abs(exact.cells[i] - quick.cells[i]) / 100.0, cells += 1;
    }
    EXPECT_GT(cells, 100) << months;
    EXPECT_LT(off / cells, 0.15) << months;
  }
}

TEST_F(Serving, AnswersManyWindowsAtOnce) {
  const std::string at = garden();
  std::vector<std::thread> windows;
  std::atomic<int> fine{0};
  for (int w = 0; w < 8; ++w) {
    windows.emplace_back([&] {
      for (int i = 0; i < 10; ++i)
        if (get(at + (i % 2 == 0 ? "/field?months=5" : "?scheme=found"))->status == 200) ++fine;
    });
  }
  for (std::thread& window : windows) window.join();
  EXPECT_EQ(fine, 80);
}

// The first takers of so many beds take some tenths of a second.
TEST_F(Serving, TakesAnEditWhileLongWorkOnTheSameGardenGoesOn) {
  std::string text = kGarden;
  for (int i = 0; i < 12; ++i)
    text += "[[tree]]\nid = \"tree-" + std::to_string(i) + "\"\nkind = \"plum\"\nat = [" +
            std::to_string(2 * i) + ", 7]\nheight_m = 4\ncrown_width_m = 3\n";
  for (int i = 0; i < 60; ++i)
    text += "[[bed]]\nid = \"bed-" + std::to_string(i) + "\"\nat = [" + std::to_string(i % 30) +
            ", " + (i < 30 ? "9" : "4") + "]\nsize = [0.8, 2]\n";
  const auto made = post("/api/gardens", {{"document", text}});
  ASSERT_EQ(made->status, 201) << made->body;
  const std::string at = "/api/gardens/" + json::parse(made->body)["id"].get<std::string>();
  std::thread asker([&] { EXPECT_EQ(get(at + "/inks?job=long-work")->status, 200); });
  const auto is_under_way = [&] {
    const json job = json::parse(get("/api/jobs/long-work")->body);
    return job["running"] == true && job["share"] < 1;
  };
  for (int i = 0; i < 1000 && !is_under_way(); ++i)
    std::this_thread::sleep_for(std::chrono::milliseconds(1));
  EXPECT_EQ(edit(at, {{"scheme", "proposed"}, {"thing", "medlar"}, {"move_m", {0.1, 0}}})->status,
            200);
  EXPECT_TRUE(is_under_way());
  asker.join();
}

TEST(Guard, LetsOnlyItsOwnPageWrite) {
  Asker asker{"POST", "127.0.0.1:7420", "http://127.0.0.1:7420", "same-origin", "", "1"};
  EXPECT_FALSE(refusal(asker, 7420));
  asker.own_header = "";
  EXPECT_TRUE(refusal(asker, 7420));
  asker.own_header = "1", asker.origin = "http://127.0.0.1:9";
  EXPECT_TRUE(refusal(asker, 7420));
  asker.origin = "", asker.fetch_site = "same-site";
  EXPECT_TRUE(refusal(asker, 7420));
  asker.fetch_site = "none", asker.host = "[::1]:7420";
  EXPECT_FALSE(refusal(asker, 7420));
}

TEST_F(Serving, DrawsTheEdgeOfThePlotAsAGuessWhereItIsOne) {
  const std::string at = garden();
  const auto edge = [&](const json& guessed) {
    const json set = {{"outline", {{0, 0}, {9, 0}, {9, 9}, {0, 9}}}, {"guessed", guessed}};
    const auto done = edit(at, {{"scheme", "found"}, {"table", "boundary"}, {"set", set}});
    EXPECT_EQ(done->status, 200) << done->body;
    const std::string svg = get(at + "/sheet?scheme=found&mm_per_m=20")->body;
    const std::size_t from = svg.find("<g id=\"boundary\"");
    EXPECT_NE(from, std::string::npos);
    return svg.substr(from, svg.find("</g>", from) - from);
  };
  const std::string measured = edge(nullptr), guessed = edge({"outline"});
  const auto dashes = [](const std::string& svg) {
    const std::size_t from = svg.find("stroke-dasharray");
    return svg.substr(from, svg.find('"', from + 18) - from);
  };
  EXPECT_NE(dashes(measured), dashes(guessed));
}

}  // namespace
}  // namespace spadework::server
