#include "base/aside.h"

#include <gtest/gtest.h>
#include <sys/resource.h>

#include <atomic>
#include <stdexcept>
#include <thread>

#include "base/parallel.h"

namespace spadework {
namespace {

TEST(RunAside, IsDoneWhenItComesBack) {
  int done = 0;
  run_aside([&] { done = 1; });
  EXPECT_EQ(done, 1);
  EXPECT_THROW(run_aside([] { throw std::runtime_error("no"); }), std::runtime_error);
}

TEST(RunAside, TheOneWhoWaitsDoesSomethingMeanwhile) {
  std::atomic<int> calls{0};
  run_aside(
      [&] {
        while (calls < 2) std::this_thread::yield();
      },
      [&] { ++calls; });
  EXPECT_GE(calls, 2);
}

#ifdef __linux__
TEST(RunAside, GivesWayWithAllItsThreadsAndNobodyElseDoes) {
  const auto nice = [] { return ::getpriority(PRIO_PROCESS, 0); };
  const int usual = nice();
  int of_helpers[2] = {usual, usual};
  run_aside([&] { parallel_for(2, 2, [&](int i) { of_helpers[i] = nice(); }); });
  EXPECT_GT(of_helpers[0], usual);
  EXPECT_GT(of_helpers[1], usual);
  EXPECT_EQ(nice(), usual);
}
#endif

}  // namespace
}  // namespace spadework
