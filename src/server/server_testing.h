// A server over a folder of its own, for tests.
#pragma once

#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <httplib.h>
#include <sys/socket.h>
#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <thread>

#include "embedded/embedded.h"
#include "server/server.h"
#include "sheets/sheets.h"
#include "tests/scenes.h"

namespace spadework::server {

using nlohmann::json;

inline const std::string kGarden = testing::head(48.41, -4.36, "Europe/Paris", 340) + R"(
[boundary]
outline = [[0,0],[9,0],[9,8],[0,8]]
[[wall]]
id = "lane-wall"
line = [[0,0.2],[9,0.2]]
height_m = 1.6
kind = "stone"
[[tree]]
id = "medlar"
kind = "medlar"
at = [3, 4]
height_m = 5
crown_width_m = 4
[[bed]]
id = "low-bed"
at = [2, 2]
size = [3, 1.2]
)";

inline const sheets::Fonts& fonts() {
  static const sheets::Fonts opened = [] {
    auto result = sheets::Fonts::open(
        sheets::font_bytes([](std::string_view name) { return embedded_file(name); }));
    EXPECT_TRUE(result.has_value());
    return std::move(*result);
  }();
  return opened;
}

inline const Workshop& workshop() {
  static const Workshop shop{{testing::catalogue(), testing::stations(), "test"},
                             testing::known_words(),
                             "Spadework 0.1.0",
                             fonts(),
                             {{"small", kGarden}},
                             2};
  return shop;
}

class Serving : public ::testing::Test {
 protected:
  void SetUp() override {
    char name[] = "/tmp/spadework-server-XXXXXX";
    ASSERT_NE(::mkdtemp(name), nullptr);
    folder = name;
    begin();
  }
  void TearDown() override {
    server.reset();
    std::system(("rm -rf " + folder).c_str());
  }
  void begin() {
    ServerOptions options;
    options.data_folder = folder;
    options.patience_ms = patience_ms;
    options.page = [](std::string_view path) -> std::optional<std::string_view> {
      if (path == "/index.html") return "<!doctype html><title>Spadework</title>";
      return std::nullopt;
    };
    auto started = Server::start(options, workshop());
    ASSERT_TRUE(started.has_value()) << started.error().message;
    server = std::move(*started);
  }

  [[nodiscard]] httplib::Client client() const {
    httplib::Client out("127.0.0.1", server->port());
    out.set_read_timeout(30);
    return out;
  }
  httplib::Result get(const std::string& path) { return client().Get(path.c_str()); }
  httplib::Result post(const std::string& path, const json& body) {
    return client().Post(path.c_str(), {{"X-Spadework", "1"}}, body.dump(), "application/json");
  }
  /// A garden on the shelf.
  std::string garden() {
    const auto made = post("/api/gardens", {{"example", "small"}});
    EXPECT_EQ(made->status, 201) << made->body;
    return "/api/gardens/" + json::parse(made->body)["id"].get<std::string>();
  }
  json state(const std::string& at, const std::string& scheme = "proposed") {
    const auto got = get(at + "?scheme=" + scheme);
    EXPECT_EQ(got->status, 200) << got->body;
    return json::parse(got->body);
  }
  httplib::Result edit(const std::string& at, json what) {
    static int n = 0;
    what["command"] = "e" + std::to_string(++n);
    what["change"] = state(at)["head"]["change"];
    return post(at + "/edits", what);
  }
  /// A bare connection.
  [[nodiscard]] int connected() const {
    const int socket = ::socket(AF_INET, SOCK_STREAM, 0);
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(static_cast<std::uint16_t>(server->port()));
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    EXPECT_EQ(::connect(socket, reinterpret_cast<sockaddr*>(&address), sizeof address), 0);
    timeval patience{3, 0};
    ::setsockopt(socket, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
    return socket;
  }
  /// Bytes over a bare connection; what comes back.
  [[nodiscard]] std::string raw(const std::string& bytes) const {
    const int socket = connected();
    (void)::send(socket, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    std::string out;
    char buffer[4096];
    for (ssize_t n = 0; (n = ::recv(socket, buffer, sizeof buffer, 0)) > 0;)
      out.append(buffer, static_cast<std::size_t>(n));
    ::close(socket);
    return out;
  }

  std::string folder;
  int patience_ms = 10'000;
  std::unique_ptr<Server> server;
};

inline const json* thing(const json& state, const std::string& id) {
  for (const json& one : state["things"])
    if (one["id"] == id) return &one;
  return nullptr;
}

/// The head and the cells of a field in bytes.
struct Unpacked {
  json head;
  std::vector<int> cells;
};
inline Unpacked unpacked(const std::string& bytes) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(bytes.at(i)); };
  const std::size_t n = byte(0) | byte(1) << 8 | byte(2) << 16;
  Unpacked out{json::parse(bytes.substr(4, n)), {}};
  for (std::size_t i = 4 + n; i + 1 < bytes.size(); i += 2)
    out.cells.push_back(byte(i) | byte(i + 1) << 8);
  return out;
}

}  // namespace spadework::server
