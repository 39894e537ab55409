// How requests come over the wire, with an end to everybody's patience. For the server room alone.
//
// cpp-httplib reads heads of any length, gives each byte its own patience, and serves with a fixed
// number of threads, so that a few connections that say nothing keep all others waiting.
#pragma once

#include <httplib.h>

#include <condition_variable>
#include <deque>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace spadework::server {

/// A server with one request a connection. The whole request has to come within the patience, and
/// its head is limited; the answer, too, has to be taken within a time.
class WireServer : public httplib::Server {
 public:
  explicit WireServer(int patience_ms) : patience_ms_(patience_ms) {}
  /// After it is bound: room for many who come at the same moment.
  void let_many_wait();

 private:
  bool process_and_close_socket(socket_t socket) override;
  int patience_ms_;
};

/// Whether the one whose request this thread answers has hung up.
[[nodiscard]] bool asker_has_left();

/// As many threads as there are connections at once, up to a limit; they stay for the next.
class Crew : public httplib::TaskQueue {
 public:
  void enqueue(std::function<void()> job) override;
  void shutdown() override;

 private:
  void work();
  std::mutex mutex_;
  std::condition_variable wanted_;
  std::deque<std::function<void()>> jobs_;
  std::vector<std::thread> threads_;
  std::size_t idle_ = 0;
  bool over_ = false;
};

}  // namespace spadework::server
