#include "server/server.h"

#include <fmt/format.h>
#include <httplib.h>
#include <sys/socket.h>

#include <algorithm>
#include <chrono>
#include <mutex>
#include <thread>

#include "server/guard.h"
#include "server/routes.h"
#include "server/wire.h"
#include "store/store.h"

namespace spadework::server {
namespace {

constexpr const char* kAddress = "127.0.0.1";
constexpr std::size_t kMostBody = 8 << 20;  // a document is at most 4 MB
constexpr const char* kFiles = R"(/api/gardens/[^/]+/files)";
constexpr std::chrono::seconds kForOthers(5);  // who send a file too

Asker asker_of(const httplib::Request& request) {
  return {request.method,
          request.get_header_value("Host"),
          request.get_header_value("Origin"),
          request.get_header_value("Sec-Fetch-Site"),
          request.get_header_value("Content-Type"),
          request.get_header_value("X-Spadework")};
}

void say(httplib::Response& response, const Answer& answer) {
  response.status = answer.status;
  response.set_content(answer.body, answer.type);
  if (!answer.file_name.empty()) {
    std::string plain;  // in a header: no quotes, no line ends, no other letters
    for (const char c : answer.file_name)
      plain += (c >= ' ' && c <= '~' && c != '"' && c != '\\') ? c : '_';
    response.set_header("Content-Disposition", fmt::format("attachment; filename=\"{}\"", plain));
  }
}

void harden(httplib::Response& response, bool api) {
  response.set_header("Content-Security-Policy",
                      "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; "
                      "img-src 'self' data: blob:; connect-src 'self'; base-uri 'none'; "
                      "form-action 'none'; frame-ancestors 'none'");
  response.set_header("X-Content-Type-Options", "nosniff");
  response.set_header("Referrer-Policy", "no-referrer");
  response.set_header("Cross-Origin-Opener-Policy", "same-origin");
  response.set_header("Cross-Origin-Resource-Policy", "same-origin");
  response.set_header("Cache-Control", api ? "no-store" : "no-cache");
}

std::string type_of(const std::string& path) {
  constexpr std::pair<std::string_view, const char*> kTypes[] = {
      {".html", "text/html; charset=utf-8"},
      {".js", "text/javascript; charset=utf-8"},
      {".css", "text/css; charset=utf-8"},
      {".woff2", "font/woff2"},
      {".svg", "image/svg+xml"},
      {".png", "image/png"},
      {".json", "application/json"}};
  for (const auto& [ending, type] : kTypes)
    if (path.ends_with(ending)) return type;
  return "application/octet-stream";
}

Request request_of(const httplib::Request& from) {
  Request request{
      from.method == "HEAD" ? "GET" : from.method, from.path, {}, from.body, asker_has_left};
  for (const auto& [key, value] : from.params) request.query.emplace(key, value);
  return request;
}

Answer too_large() {
  return error_answer({ErrorCode::kTooLarge, "", "That is more than a garden document may have.",
                       "A garden document is a page or two of text."});
}

Answer file_too_large() {
  return error_answer(
      {ErrorCode::kTooLarge, "",
       fmt::format("The file is longer than {} MB.", store::kMostAttached_bytes / 1'000'000),
       "Is it the right file? A weather file has a few MB."});
}

/// As `kFiles` says; a pattern would walk a long path letter by letter.
bool brings_file(const httplib::Request& request) {
  constexpr std::string_view kBefore = "/api/gardens/", kAfter = "/files";
  std::string_view path = request.path;
  if (request.method != "POST" || !path.starts_with(kBefore) || !path.ends_with(kAfter))
    return false;
  if (path.size() <= kBefore.size() + kAfter.size()) return false;
  path = path.substr(kBefore.size(), path.size() - kBefore.size() - kAfter.size());
  return path.find('/') == std::string_view::npos;
}

Answer not_so(int status, const std::string& message) {
  return error_answer(status, {ErrorCode::kWrongUse, "", message,
                               "This page and the program do not fit: load the page again."});
}

/// What no page of ours sends, and what costs more to answer than to ask: bodies without a length,
/// packed bodies, forms, parts of an answer.
std::optional<Answer> out_of_shape(const httplib::Request& request) {
  if (request.method != "GET" && request.method != "HEAD" && request.method != "POST")
    return not_so(405, "Here one can only ask and send.");
  const std::size_t lengths = request.get_header_value_count("Content-Length");
  const std::string length = request.get_header_value("Content-Length");
  if (request.has_header("Transfer-Encoding") || lengths > 1 ||
      (request.method == "POST" && lengths == 0))
    return not_so(411, "What is sent has to say how long it is.");
  if (!std::all_of(length.begin(), length.end(), [](char c) { return c >= '0' && c <= '9'; }))
    return not_so(400, "What is sent has to say how long it is.");
  const bool file = brings_file(request);
  const std::size_t most = file ? store::kMostAttached_bytes : kMostBody;
  if (length.size() > 18 || std::atoll(length.c_str()) > static_cast<long long>(most))
    return file ? file_too_large() : too_large();
  if (request.has_header("Content-Encoding")) return not_so(415, "What is sent may not be packed.");
  if (request.method == "POST" &&
      !request.get_header_value("Content-Type")
           .starts_with(file ? "application/octet-stream" : "application/json"))
    return not_so(415, file ? "A file is sent as bytes." : "What is sent has to be JSON.");
  if (request.has_header("Range")) return not_so(400, "Answers are given whole.");
  return std::nullopt;
}

/// Whether a Spadework answers on a port.
bool is_spadework_at(int port) {
  httplib::Client client(kAddress, port);
  client.set_connection_timeout(1);
  client.set_read_timeout(1);
  const auto about = client.Get("/api/about");
  return about && about->status == 200 && about->body.find("\"Spadework ") != std::string::npos;
}

}  // namespace

struct Server::Running {
  Running(const ServerOptions& options, const Workshop& shared)
      : shelf(options.data_folder, shared),
        workshop(shared),
        page(options.page),
        http(options.patience_ms) {}

  Shelf shelf;
  const Workshop& workshop;
  std::function<std::optional<std::string_view>(std::string_view)> page;
  WireServer http;
  int port = 0;
  std::thread thread;
  std::timed_mutex file_comes;

  /// A file is long: one at a time comes in, so that many do not fill the memory.
  void take_file(const httplib::Request& from, httplib::Response& response,
                 const httplib::ContentReader& read) {
    const std::unique_lock one(file_comes, kForOthers);
    if (!one.owns_lock())
      return say(response, error_answer(503, {ErrorCode::kCannotRead, "",
                                              "Another file is coming in just now.",
                                              "Try again in a moment."}));
    Request request = request_of(from);
    const bool whole = read([&](const char* bytes, std::size_t n) {
      request.body.append(bytes, n);
      return true;
    });
    say(response, whole ? answer(shelf, workshop, request) : not_so(400, "The file broke off."));
  }

  void set_up() {
    http.new_task_queue = [] { return new Crew; };
    // SO_REUSEPORT would let a second program share the port unnoticed.
    http.set_socket_options([](socket_t socket) {
      const int yes = 1;
      ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
    });
    http.set_payload_max_length(store::kMostAttached_bytes);
    http.set_tcp_nodelay(true);
    http.set_pre_routing_handler(
        [this](const httplib::Request& request, httplib::Response& response) {
          harden(response, request.path.starts_with("/api/"));
          const bool two_hosts = request.get_header_value_count("Host") > 1;
          const auto foreign = refusal(two_hosts ? Asker() : asker_of(request), port);
          if (foreign)
            say(response, error_answer(403, {ErrorCode::kWrongUse, "", *foreign,
                                             "Open Spadework’s own address in the browser."}));
          const auto unfit = foreign ? std::nullopt : out_of_shape(request);
          if (unfit) say(response, *unfit);
          return foreign || unfit ? httplib::Server::HandlerResponse::Handled
                                  : httplib::Server::HandlerResponse::Unhandled;
        });
    http.set_exception_handler([](const httplib::Request&, httplib::Response& response,
                                  std::exception_ptr) {
      say(response,
          error_answer(500, {ErrorCode::kCannotRead, "", "Something went wrong inside Spadework.",
                             "What was saved is safe. Load the page again."}));
    });
    http.set_error_handler([](const httplib::Request&, httplib::Response& response) {
      if (!response.body.empty()) return;
      if (response.status == 413) return say(response, too_large());
      say(response,
          error_answer(response.status, {ErrorCode::kWrongUse, "", "There is nothing here.",
                                         "Start from the first page."}));
    });
    const auto api = [this](const httplib::Request& request, httplib::Response& response) {
      say(response, answer(shelf, workshop, request_of(request)));
    };
    http.Get(R"(/api/.*)", api);
    http.Post(R"(/api/.*)", api);
    http.Post(kFiles,
              [this](const httplib::Request& request, httplib::Response& response,
                     const httplib::ContentReader& read) { take_file(request, response, read); });
    http.Get(R"(/.*)", [this](const httplib::Request& request, httplib::Response& response) {
      const std::string path = request.path == "/" ? "/index.html" : request.path;
      const auto bytes = page ? page(path) : std::nullopt;
      if (!bytes) {
        response.status = 404;
        return;
      }
      response.set_content(bytes->data(), bytes->size(), type_of(path));
    });
  }
};

Server::Server(std::unique_ptr<Running> running) : running_(std::move(running)) {}

Server::~Server() { stop(); }

Result<std::unique_ptr<Server>> Server::start(const ServerOptions& options,
                                              const Workshop& workshop) {
  if (auto made = store::make_folder(options.data_folder); !made)
    return tl::unexpected<Error>(made.error());
  auto running = std::make_unique<Running>(options, workshop);
  running->set_up();
  WireServer& http = running->http;
  if (options.port == 0) {
    running->port = http.bind_to_any_port(kAddress);
  } else if (http.bind_to_port(kAddress, options.port)) {
    running->port = options.port;
  }
  if (running->port <= 0) {
    const bool own = options.port != 0 && is_spadework_at(options.port);
    return fail(ErrorCode::kCannotWrite, "--port",
                own ? fmt::format("Spadework runs already: http://{}:{}/", kAddress, options.port)
                    : fmt::format("Port {} is taken by another program.", options.port),
                own ? "Open that address in the browser, or take another port: --port N."
                    : "Take another: --port N.");
  }
  http.let_many_wait();
  running->thread = std::thread([http = &http] { http->listen_after_bind(); });
  return std::unique_ptr<Server>(new Server(std::move(running)));
}

int Server::port() const { return running_->port; }
std::string Server::url() const { return fmt::format("http://{}:{}/", kAddress, port()); }

void Server::wait() {
  if (running_->thread.joinable()) running_->thread.join();
}

void Server::stop() {
  running_->shelf.close();  // those who wait for changes go home
  running_->http.stop();
  if (running_->thread.joinable() && running_->thread.get_id() != std::this_thread::get_id())
    running_->thread.join();
}

}  // namespace spadework::server
