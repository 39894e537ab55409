#include "server/wire.h"

#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <cerrno>
#include <chrono>
#include <system_error>

namespace spadework::server {
namespace {

using Clock = std::chrono::steady_clock;

constexpr std::size_t kMostHead = 64 << 10;  // bytes of request line and headers
constexpr std::size_t kMostThreads = 500;
constexpr std::size_t kMostLeft = 64 << 20;  // bytes read over after a refusal
constexpr auto kSlice = std::chrono::milliseconds(100);
constexpr auto kToTake = std::chrono::seconds(60);  // an answer
constexpr auto kToLeave = std::chrono::seconds(1);

/// Waits until the socket is ready; in slices, so that the server's end is noticed.
bool wait_for(socket_t socket, short what, Clock::time_point until,
              const std::atomic<socket_t>& server) {
  for (;;) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(until - Clock::now());
    if (left.count() <= 0 || server == INVALID_SOCKET) return false;
    pollfd one{socket, what, 0};
    const int ready = ::poll(&one, 1, static_cast<int>(std::min(left, kSlice).count()));
    if (ready > 0) return true;
    if (ready < 0 && errno != EINTR) return false;
  }
}

thread_local socket_t answered = INVALID_SOCKET;  // by this thread

class PatientStream : public httplib::Stream {
 public:
  PatientStream(socket_t socket, int patience_ms, const std::atomic<socket_t>& server)
      : socket_(socket),
        server_(server),
        read_until_(Clock::now() + std::chrono::milliseconds(patience_ms)) {}

  bool is_readable() const override {
    return at_ < filled_ || wait_for(socket_, POLLIN, read_until_, server_);
  }
  bool is_writable() const override {
    if (write_until_ == Clock::time_point()) write_until_ = Clock::now() + kToTake;
    return wait_for(socket_, POLLOUT, write_until_, server_);
  }
  ssize_t read(char* to, size_t size) override {
    if (at_ == filled_ && !fill()) return -1;
    size = std::min(size, filled_ - at_);
    if (!head_over_) size = std::min<size_t>(size, 1);
    std::copy_n(&buffer_[at_], size, to);
    at_ += size;
    if (!head_over_ && !take_head(*to)) return -1;
    return static_cast<ssize_t>(size);
  }
  ssize_t write(const char* from, size_t size) override {
    return is_writable() ? ::send(socket_, from, size, MSG_NOSIGNAL | MSG_DONTWAIT) : -1;
  }
  void get_remote_ip_and_port(std::string& ip, int& port) const override { ip = "", port = 0; }
  void get_local_ip_and_port(std::string& ip, int& port) const override { ip = "", port = 0; }
  socket_t socket() const override { return socket_; }

 private:
  bool fill() {
    if (!is_readable()) return false;
    const ssize_t n = ::recv(socket_, buffer_.data(), buffer_.size(), MSG_DONTWAIT);
    at_ = 0, filled_ = n > 0 ? static_cast<std::size_t>(n) : 0;
    return n > 0;
  }
  /// False when the head has grown too long.
  bool take_head(char c) {
    if (c == '\n') head_over_ = line_is_empty_ && head_ > 2;
    line_is_empty_ = c == '\n' || (c == '\r' && line_is_empty_);
    return ++head_ <= kMostHead;
  }

  socket_t socket_;
  const std::atomic<socket_t>& server_;
  Clock::time_point read_until_;
  mutable Clock::time_point write_until_;
  std::array<char, 16384> buffer_ = {};
  std::size_t at_ = 0, filled_ = 0, head_ = 0;
  bool line_is_empty_ = true, head_over_ = false;
};

/// Closing with bytes unread would take the answer away from who still sends.
void read_over(socket_t socket, const std::atomic<socket_t>& server) {
  ::shutdown(socket, SHUT_WR);
  const auto until = Clock::now() + kToLeave;
  std::array<char, 16384> away;
  for (std::size_t total = 0; total < kMostLeft && wait_for(socket, POLLIN, until, server);) {
    const ssize_t n = ::recv(socket, away.data(), away.size(), MSG_DONTWAIT);
    if (n <= 0) return;
    total += static_cast<std::size_t>(n);
  }
}

}  // namespace

bool asker_has_left() {
  char next = 0;
  return answered != INVALID_SOCKET && ::recv(answered, &next, 1, MSG_PEEK | MSG_DONTWAIT) == 0;
}

void WireServer::let_many_wait() {
  constexpr int kMany = 512;
  (void)::listen(svr_sock_, kMany);
}

bool WireServer::process_and_close_socket(socket_t socket) {
  bool closed = false;
  PatientStream stream(socket, patience_ms_, svr_sock_);
  answered = socket;
  // Packing an answer takes longer than all the rest, and on one machine the way is short.
  const bool done = process_request(stream, true, closed, [](httplib::Request& request) {
    request.headers.erase("Accept-Encoding");
  });
  answered = INVALID_SOCKET;
  read_over(socket, svr_sock_);
  ::close(socket);
  return done;
}

void Crew::enqueue(std::function<void()> job) {
  const std::scoped_lock lock(mutex_);
  jobs_.push_back(std::move(job));
  if (jobs_.size() > idle_ && threads_.size() < kMostThreads) {
    try {
      threads_.emplace_back([this] { work(); });
    } catch (const std::system_error&) {  // no more to be had: those that are there do it
    }
  }
  wanted_.notify_one();
}

void Crew::work() {
  std::unique_lock lock(mutex_);
  for (;;) {
    ++idle_;
    wanted_.wait(lock, [this] { return !jobs_.empty() || over_; });
    --idle_;
    if (jobs_.empty()) return;
    const auto job = std::move(jobs_.front());
    jobs_.pop_front();
    lock.unlock();
    job();
    lock.lock();
  }
}

void Crew::shutdown() {
  {
    const std::scoped_lock lock(mutex_);
    over_ = true;
  }
  wanted_.notify_all();
  for (std::thread& thread : threads_) thread.join();
}

}  // namespace spadework::server
