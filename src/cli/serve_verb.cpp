#include <fmt/format.h>
#include <spawn.h>
#include <sys/wait.h>

#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <deque>
#include <mutex>

#include "base/parallel.h"
#include "cli/files.h"
#include "cli/verbs.h"
#include "embedded/embedded.h"
#include "server/server.h"
#include "sheets/sheets.h"
#include "store/store.h"

extern char** environ;

namespace spadework::cli {
namespace {

constexpr std::string_view kExamples = "examples/";
constexpr const char* kDemo = "ker-avel";

std::vector<server::Example> examples() {
  std::vector<server::Example> out;
  for (const std::string_view name : embedded_names(kExamples)) {
    const std::string_view file = name.substr(kExamples.size());
    out.push_back({std::string(file.substr(0, file.rfind('.'))), embedded_file(name)});
  }
  return out;
}

/// The app's files from a folder, read anew each time it is asked for one: while the app is made.
class FolderPages {
 public:
  explicit FolderPages(std::string folder) : folder_(std::move(folder)) {}
  std::optional<std::string_view> operator()(std::string_view path) {
    constexpr std::size_t kMostBytes = 8 << 20;
    constexpr std::size_t kKept = 256;
    if (path.find("..") != std::string_view::npos) return std::nullopt;
    auto bytes = read_file(folder_ + std::string(path), kMostBytes);
    if (!bytes) return std::nullopt;
    const std::scoped_lock lock(*mutex_);
    pages_->push_back(std::move(*bytes));
    if (pages_->size() > kKept) pages_->pop_front();
    return pages_->back();
  }

 private:
  std::string folder_;
  std::shared_ptr<std::mutex> mutex_ = std::make_shared<std::mutex>();
  std::shared_ptr<std::deque<std::string>> pages_ = std::make_shared<std::deque<std::string>>();
};

std::optional<std::string_view> page_inside(std::string_view path) {
  return find_embedded("app" + std::string(path));
}

/// Shows an address in the person's browser, where there is a desktop.
void open_in_browser(const std::string& url) {
  if (std::getenv("DISPLAY") == nullptr && std::getenv("WAYLAND_DISPLAY") == nullptr) return;
  std::string command = "xdg-open", address = url;
  char* arguments[] = {command.data(), address.data(), nullptr};
  pid_t child = 0;
  if (::posix_spawnp(&child, "xdg-open", nullptr, nullptr, arguments, environ) == 0)
    ::waitpid(child, nullptr, 0);
}

/// The address that opens an example; the shelf's where there are gardens and none is asked for.
Result<std::string> first_address(const ServeOptions& options, const std::string& folder,
                                  const std::string& shelf) {
  std::string name = options.example;
  if (name.empty()) {
    const auto gardens = store::gardens_in(folder);
    if (gardens && !gardens->empty()) return shelf;
    name = kDemo;
  }
  std::string names;
  for (const server::Example& example : examples()) {
    if (example.name == name) return shelf + "?example=" + name;
    names += (names.empty() ? "" : ", ") + example.name;
  }
  return fail(ErrorCode::kWrongUse, "--example", fmt::format("There is no example “{}”.", name),
              fmt::format("There are: {}.", names));
}

sigset_t ending_signals() {
  sigset_t signals;
  sigemptyset(&signals);
  sigaddset(&signals, SIGINT);
  sigaddset(&signals, SIGTERM);
  return signals;
}

}  // namespace

int serve_verb(const ServeOptions& options) {
  const auto folder = options.data_folder.empty() ? store::data_folder() : options.data_folder;
  if (!folder) return tell(folder.error());
  const auto fonts = sheets::Fonts::open(
      sheets::font_bytes([](std::string_view name) { return embedded_file(name); }));
  if (!fonts) return tell(fonts.error());
  const server::Workshop workshop{{catalogue(), stations(), facts_version()},
                                  known_words(),
                                  program_name(),
                                  *fonts,
                                  examples(),
                                  hardware_threads()};
  server::ServerOptions serve;
  serve.data_folder = *folder;
  serve.port = options.port;
  serve.page = page_inside;
  if (!options.app_folder.empty()) serve.page = FolderPages(options.app_folder);
  const sigset_t ending = ending_signals();
  ::pthread_sigmask(SIG_BLOCK, &ending, nullptr);  // in every thread to come
  std::signal(SIGXFSZ, SIG_IGN);  // a file at its limit is as good as a full disk: not the end
  const auto running = server::Server::start(serve, workshop);
  if (!running) return tell(running.error());
  const std::string shelf = (*running)->url();
  const auto address = first_address(options, *folder, shelf);
  if (!address) return tell(address.error());
  print_text(fmt::format("Your gardens: {}\n", shelf));
  if (*address != shelf) print_text(fmt::format("A garden to look into: {}\n", *address));
  print_text(fmt::format("Gardens are kept in {}. Ctrl-C ends it.\n", *folder));
  std::fflush(stdout);
  if (options.open) open_in_browser(*address);
  int signal = 0;
  sigwait(&ending, &signal);
  (*running)->stop();
  return 0;
}

}  // namespace spadework::cli
