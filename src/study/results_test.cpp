// Who computes, who waits, and what is kept.
#include "study/results.h"

#include <gtest/gtest.h>

#include <chrono>
#include <future>
#include <thread>
#include <vector>

namespace spadework::study {
namespace {

Result<Shared<int>> ask(Results& results, const std::string& key, int value) {
  return results.once<int>(key, [value]() -> Result<int> { return value; });
}

TEST(Results, AreComputedOnceForManyWhoAskTogether) {
  Results results;
  std::vector<std::future<Shared<int>>> askers;
  for (int i = 0; i < 8; ++i) {
    askers.push_back(std::async(std::launch::async, [&] {
      const auto answer = results.once<int>("sum a", []() -> Result<int> {
        std::this_thread::sleep_for(std::chrono::milliseconds(20));
        return 7;
      });
      return answer ? *answer : nullptr;
    }));
  }
  const Shared<int> first = askers[0].get();
  ASSERT_NE(first, nullptr);
  EXPECT_EQ(*first, 7);
  for (std::size_t i = 1; i < askers.size(); ++i) EXPECT_EQ(askers[i].get(), first);
  EXPECT_EQ(results.computed(), 1);
}

TEST(Results, OfOtherKeysAreNotWaitedFor) {
  Results results;
  std::promise<void> begun, go_on;
  auto slow = std::async(std::launch::async, [&] {
    return results
        .once<int>("sum slow",
                   [&]() -> Result<int> {
                     begun.set_value();
                     go_on.get_future().wait();
                     return 1;
                   })
        .has_value();
  });
  begun.get_future().wait();
  EXPECT_EQ(**ask(results, "sum quick", 2), 2);
  go_on.set_value();
  EXPECT_TRUE(slow.get());
}

TEST(Results, AreNotKeptWhereComputingFails) {
  Results results;
  const auto failed = results.once<int>(
      "sum a", []() -> Result<int> { return fail(ErrorCode::kNoAnswer, "", "stopped", ""); });
  EXPECT_FALSE(failed.has_value());
  EXPECT_EQ(**ask(results, "sum a", 3), 3);
  EXPECT_EQ(results.computed(), 1);
}

TEST(Results, AreForgottenWhenManyOfTheirKindAreNewer) {
  Results results;
  ASSERT_TRUE(ask(results, "other a", 1));
  for (int i = 0; i < 24; ++i) ASSERT_TRUE(ask(results, "sum " + std::to_string(i), i));
  ASSERT_TRUE(ask(results, "sum 0", -1));  // asked again: 1 is the oldest now
  ASSERT_TRUE(ask(results, "sum new", 1));
  EXPECT_EQ(**ask(results, "sum 0", -1), 0);
  EXPECT_EQ(**ask(results, "sum 1", -1), -1);
  EXPECT_EQ(**ask(results, "other a", -1), 1);
}

}  // namespace
}  // namespace spadework::study
