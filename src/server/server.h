// Front door of the server room: the app in the browser, on this machine alone.
//
//   auto server = Server::start(options, workshop);
//   server->url();          // http://127.0.0.1:7420/
//   server->wait();         // until stop() or a signal
//
//   guard.h         who may ask
//   wire.h          how long they may take to ask
//   answers.h       what an answer and an error look like
//   shelf.h         the gardens of the folder
//   open_garden.h   one garden: its file, its document, what was computed of it
//   routes.h        what can be asked: web/openapi.json says it in full
//
// It listens on the loopback address only. docs/security.md says what is promised.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "server/workshop.h"

namespace spadework::server {

struct ServerOptions {
  std::string data_folder;
  int port = 0;  // 0: any that is free
  /// The files of the app by their path ("/", "/app.js"): bytes that outlive the server.
  std::function<std::optional<std::string_view>(std::string_view path)> page;
  int patience_ms = 10'000;  // with who sends slowly: for a whole request
};

/// The port that `spadework serve` takes unless told otherwise.
inline constexpr int kUsualPort = 7420;

class Server {
 public:
  /// The workshop must outlive it.
  /// Errors: kCannotWrite when the port is taken (another Spadework there is named), or the folder
  /// cannot be made.
  [[nodiscard]] static Result<std::unique_ptr<Server>> start(const ServerOptions& options,
                                                             const Workshop& workshop);
  ~Server();
  [[nodiscard]] int port() const;
  [[nodiscard]] std::string url() const;
  void wait();
  /// From any thread.
  void stop();

 private:
  struct Running;
  explicit Server(std::unique_ptr<Running> running);
  std::unique_ptr<Running> running_;
};

}  // namespace spadework::server
