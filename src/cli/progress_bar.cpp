#include "cli/progress_bar.h"

#include <fmt/format.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>

namespace spadework::cli {

ProgressBar::ProgressBar(Progress& progress, std::string doing, bool wanted) : progress_(progress) {
  if (!wanted || ::isatty(STDERR_FILENO) == 0) return;
  drawer_ = std::thread([this, what = std::move(doing)] { draw_until_done(what); });
}

ProgressBar::~ProgressBar() {
  done_ = true;
  if (drawer_.joinable()) drawer_.join();
}

void ProgressBar::draw_until_done(const std::string& doing) {
  using namespace std::chrono_literals;
  constexpr int kWidth = 30;
  bool drawn = false;
  for (int tick = 0; !done_; ++tick) {
    std::this_thread::sleep_for(50ms);
    if (tick < 10 || tick % 2 != 0 || done_) continue;
    const int full = static_cast<int>(progress_.share() * kWidth);
    std::string bar;
    for (int i = 0; i < kWidth; ++i) bar += i < full ? "█" : "░";
    std::fputs(fmt::format("\r{} {} {:3.0f} %", doing, bar, 100 * progress_.share()).c_str(),
               stderr);
    drawn = true;
  }
  if (drawn) std::fputs("\r\033[K", stderr);
}

}  // namespace spadework::cli
