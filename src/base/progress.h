// Long work reports how far it is and can be cancelled.
#pragma once

#include <atomic>

namespace spadework {

class Progress {
 public:
  void start(long steps) { total_ = steps, done_ = 0; }
  void step(long n = 1) { done_ += n; }
  void cancel() { cancelled_ = true; }
  [[nodiscard]] bool cancelled() const { return cancelled_; }
  /// From 0 to 1.
  [[nodiscard]] double share() const {
    const long total = total_;
    return total == 0 ? 0.0 : static_cast<double>(done_) / static_cast<double>(total);
  }

 private:
  std::atomic<long> total_{0};
  std::atomic<long> done_{0};
  std::atomic<bool> cancelled_{false};
};

}  // namespace spadework
