#include "base/aside.h"

#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <exception>
#include <future>
#include <thread>

namespace spadework {

void run_aside(const std::function<void()>& work, const std::function<void()>& meanwhile) {
  constexpr auto kMeanwhile = std::chrono::milliseconds(50);
  std::exception_ptr thrown;
  std::promise<void> ended;
  std::thread aside([&] {
  // On Linux a thread has a niceness of its own and hands it down; elsewhere it would be the whole
  // program's.
#ifdef __linux__
    constexpr int kGivesWay = 5, kLowest = 19;
    const int usual = ::getpriority(PRIO_PROCESS, 0);
    (void)::setpriority(PRIO_PROCESS, 0, std::min(usual + kGivesWay, kLowest));
#endif
    try {
      work();
    } catch (...) {
      thrown = std::current_exception();
    }
    ended.set_value();
  });
  if (meanwhile) {
    const std::future<void> end = ended.get_future();
    while (end.wait_for(kMeanwhile) != std::future_status::ready) meanwhile();
  }
  aside.join();
  if (thrown) std::rethrow_exception(thrown);
}

}  // namespace spadework
