#include "base/parallel.h"

#include <algorithm>
#include <atomic>
#include <thread>
#include <vector>

namespace spadework {

void parallel_for(int n, int threads, const std::function<void(int)>& work) {
  threads = std::clamp(threads, 1, std::max(1, n));
  std::atomic<int> next{0};
  const auto run = [&] {
    for (int i = next++; i < n; i = next++) work(i);
  };
  std::vector<std::thread> helpers;
  for (int t = 1; t < threads; ++t) helpers.emplace_back(run);
  run();
  for (std::thread& helper : helpers) helper.join();
}

int hardware_threads() {
  return static_cast<int>(std::max(1u, std::thread::hardware_concurrency()));
}

}  // namespace spadework
