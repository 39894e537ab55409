// A bar on standard error when work takes over half a second.
#pragma once

#include <atomic>
#include <string>
#include <thread>

#include "base/progress.h"

namespace spadework::cli {

class ProgressBar {
 public:
  /// Draws only on a terminal and when `wanted`.
  ProgressBar(Progress& progress, std::string doing, bool wanted);
  ~ProgressBar();
  ProgressBar(const ProgressBar&) = delete;
  ProgressBar& operator=(const ProgressBar&) = delete;

 private:
  void draw_until_done(const std::string& doing);
  Progress& progress_;
  std::atomic<bool> done_{false};
  std::thread drawer_;
};

}  // namespace spadework::cli
