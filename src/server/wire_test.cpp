// Over bare connections: what no browser sends.
#include "server/wire.h"

#include <gtest/gtest.h>
#include <ifaddrs.h>
#include <zlib.h>

#include <atomic>
#include <chrono>
#include <fstream>
#include <thread>

#include "server/server_testing.h"

namespace spadework::server {
namespace {

using Clock = std::chrono::steady_clock;
using std::chrono::milliseconds;
using std::chrono::seconds;

class Wire : public Serving {
 protected:
  void SetUp() override {
    patience_ms = 1500;
    Serving::SetUp();
  }
  [[nodiscard]] std::string own() const {
    return "Host: 127.0.0.1:" + std::to_string(server->port()) + "\r\n";
  }
  [[nodiscard]] std::string head(const std::string& line, const std::string& more = "") const {
    return line + " HTTP/1.1\r\n" + own() + more + "\r\n";
  }
  /// A change as our own page sends it, but for its body's length.
  [[nodiscard]] std::string post(const std::string& more) const {
    return head("POST /api/gardens", "X-Spadework: 1\r\nContent-Type: application/json\r\n" + more);
  }
  /// The status of what comes back, 0: nothing.
  [[nodiscard]] int status(const std::string& bytes) const {
    const std::string back = raw(bytes);
    return back.starts_with("HTTP/1.1 ") ? std::atoi(back.c_str() + 9) : 0;
  }
  void expect_alive() {
    const auto begun = Clock::now();
    const auto about = get("/api/about");
    ASSERT_TRUE(about);
    EXPECT_EQ(about->status, 200);
    EXPECT_LT(Clock::now() - begun, seconds(2));
  }
  [[nodiscard]] std::size_t gardens() {
    return json::parse(get("/api/gardens")->body)["gardens"].size();
  }
};

/// The most memory that this program ever had, in megabytes.
long most_memory_mb() {
  std::ifstream in("/proc/self/status");
  for (std::string word; in >> word;) {
    long kb = 0;
    if (word == "VmHWM:" && in >> kb) return kb / 1024;
  }
  return 0;
}

std::string gzipped(const std::string& bytes) {
  std::string out(compressBound(bytes.size()) + 32, '\0');
  z_stream stream{};
  EXPECT_EQ(deflateInit2(&stream, 9, Z_DEFLATED, 15 + 16, 9, Z_DEFAULT_STRATEGY), Z_OK);
  stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(bytes.data()));
  stream.avail_in = static_cast<uInt>(bytes.size());
  stream.next_out = reinterpret_cast<Bytef*>(out.data());
  stream.avail_out = static_cast<uInt>(out.size());
  EXPECT_EQ(deflate(&stream, Z_FINISH), Z_STREAM_END);
  out.resize(stream.total_out);
  deflateEnd(&stream);
  return out;
}

TEST_F(Wire, AnswersWithinTwoSecondsBesideThreeHundredConnectionsThatSayNothing) {
  std::vector<int> idle;
  for (int i = 0; i < 300; ++i) idle.push_back(connected());
  std::this_thread::sleep_for(milliseconds(100));
  expect_alive();
  for (std::size_t i = 0; i < idle.size(); i += 2) (void)::send(idle[i], "GET /", 5, MSG_NOSIGNAL);
  expect_alive();
  for (const int socket : idle) ::close(socket);
}

TEST_F(Wire, HangsUpOnAHeadWithoutEnd) {
  const auto begun = Clock::now();
  EXPECT_NE(status("GET /api/about HTTP/1.1\r\n" + own() + "X-More: "), 200);
  EXPECT_LT(Clock::now() - begun, milliseconds(2800));
}

// Each byte in time, the whole never: the patience is with the whole.
TEST_F(Wire, HangsUpOnWhoSendsAByteNowAndThen) {
  const int socket = connected();
  const std::string bytes = head("GET /api/about");
  const auto begun = Clock::now();
  bool open = true;
  for (std::size_t i = 0; open && i < bytes.size(); ++i) {
    (void)::send(socket, &bytes[i], 1, MSG_NOSIGNAL);
    std::this_thread::sleep_for(milliseconds(200));
    char c = 0;
    const ssize_t n = ::recv(socket, &c, 1, MSG_DONTWAIT);
    open = n < 0 && (errno == EAGAIN || errno == EWOULDBLOCK);
  }
  EXPECT_FALSE(open);
  EXPECT_LT(Clock::now() - begun, milliseconds(4000));
  ::close(socket);
}

TEST_F(Wire, ReadsNoHugeHead) {
  const long before = most_memory_mb();
  const std::string long_line = "X-Long: " + std::string(24 << 20, 'a') + "\r\n";
  EXPECT_NE(status(head("GET /api/about", long_line)), 200);
  std::string many;
  for (int i = 0; i < 100'000; ++i) many += "X-" + std::to_string(i) + ": a\r\n";
  EXPECT_NE(status(head("GET /api/about", many)), 200);
  EXPECT_NE(status("GET /api/" + std::string(100'000, 'a') + " HTTP/1.1\r\n" + own() + "\r\n"),
            200);
  EXPECT_EQ(status(head("GET /api/" + std::string(8000, 'a'))), 404);
  EXPECT_LT(most_memory_mb() - before, 120);  // of which the test's own strings are most
  expect_alive();
}

TEST_F(Wire, TakesNoBodyThatDoesNotSayHowLongItIs) {
  const std::string chunked = post("Transfer-Encoding: chunked\r\n");
  std::string chunks;
  for (int i = 0; i < 200; ++i) chunks += "10000\r\n" + std::string(0x10000, 'y') + "\r\n";
  EXPECT_EQ(status(chunked + chunks), 411);  // never ends
  EXPECT_EQ(status(chunked + "2\r\n{}\r\n0\r\n\r\n"), 411);
  EXPECT_EQ(status(post("Transfer-Encoding: chunked\r\nContent-Length: 2\r\n") + "{}"), 411);
  EXPECT_EQ(status(post("") + "{}"), 411);
  EXPECT_EQ(status(post("Content-Length: 2\r\nContent-Length: 20\r\n") + "{}"), 411);
  EXPECT_EQ(status(post("Content-Length: -1\r\n") + "{}"), 400);
  EXPECT_EQ(status(post("Content-Length: 2x\r\n") + "{}"), 400);
  EXPECT_EQ(status(post("Content-Length: 18446744073709551618\r\n") + "{}"), 413);
  EXPECT_EQ(gardens(), 0u);
}

TEST_F(Wire, DoesNothingWithABodyThatStaysShort) {
  const std::string body = json{{"example", "small"}}.dump();
  const auto begun = Clock::now();
  EXPECT_NE(status(post("Content-Length: " + std::to_string(body.size() + 1) + "\r\n") + body),
            201);
  EXPECT_LT(Clock::now() - begun, milliseconds(2800));
  EXPECT_EQ(gardens(), 0u);
  EXPECT_EQ(status(post("Content-Length: " + std::to_string(body.size()) + "\r\n") + body), 201);
  EXPECT_EQ(gardens(), 1u);
}

TEST_F(Wire, UnpacksNoBody) {
  const std::string packed = gzipped(std::string(200 << 20, ' '));
  const long before = most_memory_mb();
  EXPECT_EQ(status(post("Content-Encoding: gzip\r\nContent-Length: " +
                        std::to_string(packed.size()) + "\r\n") +
                   packed),
            415);
  EXPECT_LT(most_memory_mb() - before, 50);
}

TEST_F(Wire, TakesNoFormsOrOtherKindsOfBody) {
  for (const char* type :
       {"text/plain", "multipart/form-data; boundary=x", "application/x-www-form-urlencoded", ""}) {
    const std::string body = json{{"example", "small"}}.dump();
    EXPECT_EQ(status(head("POST /api/gardens",
                          "X-Spadework: 1\r\nContent-Type: " + std::string(type) +
                              "\r\nContent-Length: " + std::to_string(body.size()) + "\r\n") +
                     body),
              415)
        << type;
  }
  EXPECT_EQ(gardens(), 0u);
}

// Thousands of parts of one answer made hundreds of megabytes of it.
TEST_F(Wire, GivesNoPartsOfAnAnswer) {
  std::string parts = "Range: bytes=0-";
  for (int i = 0; i < 2600; ++i) parts += ",0-";
  const std::string back = raw(head("GET /api/schema", parts + "\r\n"));
  EXPECT_TRUE(back.starts_with("HTTP/1.1 400 ")) << back.substr(0, 20);
  EXPECT_LT(back.size(), 2u << 20);
  for (const char* range : {"bytes=5-1", "bytes=-99999999", "bytes=99999999999999999999-", "x=1-2"})
    EXPECT_GE(status(head("GET /api/about", "Range: " + std::string(range) + "\r\n")), 400);
  expect_alive();
}

TEST_F(Wire, TakesOneRequestOfAConnection) {
  const std::string body = json{{"example", "small"}}.dump();
  const std::string second = post("Content-Length: " + std::to_string(body.size()) + "\r\n") + body;
  const std::string back = raw(head("GET /api/about") + second);
  EXPECT_TRUE(back.starts_with("HTTP/1.1 200 ")) << back;
  EXPECT_EQ(back.find("HTTP/1.1", 8), std::string::npos) << back;
  // Nor is one taken out of a body that was refused, or that a question has.
  (void)raw(head("POST /api/gardens", "Content-Length: " + std::to_string(second.size()) + "\r\n") +
            second);
  (void)raw(head("GET /api/about", "Content-Length: " + std::to_string(second.size()) + "\r\n") +
            second);
  EXPECT_EQ(gardens(), 0u);
}

TEST_F(Wire, IsNoWayToOtherServers) {
  for (const char* target : {"http://evil.example/api/about", "http://evil.example/",
                             "//evil.example/api/about", "evil.example:443", "*"}) {
    const std::string back = raw(head("GET " + std::string(target)));
    EXPECT_FALSE(back.starts_with("HTTP/1.1 2")) << target;
    EXPECT_FALSE(back.starts_with("HTTP/1.1 3")) << target;
  }
  EXPECT_EQ(status(head("CONNECT evil.example:443")), 403);
  EXPECT_EQ(status("GET /api/about HTTP/1.1\r\nHost: evil.example\r\n" + own() + "\r\n"), 403);
  EXPECT_EQ(status("GET /api/about HTTP/1.1\r\n" + own() + "Host: evil.example\r\n\r\n"), 403);
}

TEST_F(Wire, ListensOnTheLoopbackAddressAlone) {
  ifaddrs* all = nullptr;
  ASSERT_EQ(::getifaddrs(&all), 0);
  std::vector<sockaddr_in> others(1);
  others[0].sin_family = AF_INET;
  others[0].sin_addr.s_addr = htonl(INADDR_LOOPBACK + 1);  // 127.0.0.2: this machine, too
  for (const ifaddrs* one = all; one != nullptr; one = one->ifa_next) {
    if (one->ifa_addr == nullptr || one->ifa_addr->sa_family != AF_INET) continue;
    others.push_back(*reinterpret_cast<const sockaddr_in*>(one->ifa_addr));
    if (others.back().sin_addr.s_addr == htonl(INADDR_LOOPBACK)) others.pop_back();
  }
  ::freeifaddrs(all);
  for (sockaddr_in& other : others) {
    other.sin_port = htons(static_cast<std::uint16_t>(server->port()));
    const int socket = ::socket(AF_INET, SOCK_STREAM, 0);
    EXPECT_NE(::connect(socket, reinterpret_cast<const sockaddr*>(&other), sizeof other), 0);
    ::close(socket);
  }
  expect_alive();
}

// A document may come from anybody: what it says stays text.
TEST_F(Wire, MakesNoMarkupOfWhatADocumentSays) {
  std::string document = kGarden;
  document.replace(document.find("\"Test\""), 6, "\"<script>alert(1)</script><img src=x>\"");
  const auto made = Serving::post("/api/gardens", {{"document", document}});
  ASSERT_EQ(made->status, 201) << made->body;
  const std::string at = "/api/gardens/" + json::parse(made->body)["id"].get<std::string>();
  for (const char* what : {"/sheet", "/picture?format=svg"}) {
    const auto picture = get(at + what);
    ASSERT_EQ(picture->status, 200);
    EXPECT_EQ(picture->body.find("<script"), std::string::npos) << what;
    EXPECT_EQ(picture->body.find("<img"), std::string::npos) << what;
    EXPECT_NE(picture->body.find("&lt;script"), std::string::npos) << what;
    EXPECT_EQ(picture->get_header_value("X-Content-Type-Options"), "nosniff");
    EXPECT_NE(picture->get_header_value("Content-Security-Policy").find("script-src 'self'"),
              std::string::npos);
  }
}

TEST_F(Wire, IsNoWebSocket) {
  const std::string upgrade =
      "Upgrade: websocket\r\nConnection: Upgrade\r\nSec-WebSocket-Version: 13\r\n"
      "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\n";
  const std::string back = raw(head("GET /api/gardens", upgrade));
  EXPECT_TRUE(back.starts_with("HTTP/1.1 200 ")) << back;
  EXPECT_NE(back.find("Connection: close"), std::string::npos);
  EXPECT_EQ(status(head("GET /api/gardens", upgrade + "Origin: http://evil.example\r\n")), 403);
}

TEST_F(Wire, AnswersOtherMethodsWithARefusal) {
  EXPECT_EQ(status(head("HEAD /api/gardens")), 200);
  for (const char* method : {"PUT", "PATCH", "DELETE", "OPTIONS", "TRACE", "CONNECT"}) {
    EXPECT_EQ(status(head(std::string(method) + " /api/gardens")), 403) << method;
    EXPECT_EQ(status(head(std::string(method) + " /api/gardens", "X-Spadework: 1\r\n")), 405)
        << method;
  }
  EXPECT_EQ(status(head("NONE /api/gardens")), 400);
  EXPECT_EQ(status("nothing of the kind\r\n\r\n"), 400);
  EXPECT_EQ(status(std::string(300, '\0') + "\r\n\r\n"), 400);
}

// No leave is ever given to another page, whatever it asks for.
TEST_F(Wire, GivesNoLeaveToOtherPages) {
  const std::string back =
      raw(head("OPTIONS /api/gardens",
               "Origin: http://evil.example\r\nAccess-Control-Request-Method: POST\r\n"
               "Access-Control-Request-Headers: x-spadework\r\n"));
  EXPECT_TRUE(back.starts_with("HTTP/1.1 403 ")) << back;
  EXPECT_EQ(back.find("Access-Control-Allow"), std::string::npos) << back;
}

TEST_F(Wire, GoesHomeAtOnceThoughConnectionsAreOpen) {
  std::vector<int> idle;
  for (int i = 0; i < 40; ++i) idle.push_back(connected());
  std::this_thread::sleep_for(milliseconds(50));
  const auto begun = Clock::now();
  server.reset();
  EXPECT_LT(Clock::now() - begun, milliseconds(1000));
  for (const int socket : idle) ::close(socket);
}

TEST_F(Wire, StandsNonsenseInJson) {
  const std::string at = garden();
  const auto send = [&](const std::string& path, const std::string& body) {
    return client().Post(path.c_str(), {{"X-Spadework", "1"}}, body, "application/json")->status;
  };
  const std::string deep =
      "{\"command\": \"a\", \"change\": 1, \"scheme\": \"found\", \"thing\": \"medlar\", "
      "\"set\": {\"at\": " +
      std::string(1'000'000, '[') + std::string(1'000'000, ']') + "}}";
  EXPECT_EQ(send(at + "/edits", deep), 400);
  EXPECT_EQ(send(at + "/try", deep), 400);
  EXPECT_EQ(send("/api/gardens", std::string(4 << 20, '[')), 400);
  EXPECT_EQ(send(at + "/edits", "{\"command\": \"\xff\xfe\", \"change\": 1}"), 400);
  EXPECT_EQ(state(at)["head"]["change"], 1);
}

}  // namespace
}  // namespace spadework::server
