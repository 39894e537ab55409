// Rows of Markdown, and time.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

namespace spadework::bench {

inline void heading(const std::string& what) {
  fmt::print("\n{}:\n\n| what | measured | wanted |\n| --- | --- | --- |\n", what);
}
inline void row(const std::string& what, const std::string& measured,
                const std::string& wanted = "") {
  fmt::print("| {} | {} | {} |\n", what, measured, wanted);
  std::fflush(stdout);
}

/// Ends the run: nothing is timed whose answer is wrong.
inline void must(bool holds, const std::string& what) {
  if (holds) return;
  fmt::print("\nThe answers differ: {}\n", what);
  std::exit(1);
}

template <class Work>
double time_ms(Work work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start)
      .count();
}

inline double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

/// The medians of two works that take turns, so that both see the same machine.
struct Pair {
  double one = 0, other = 0;
  [[nodiscard]] double ratio() const { return other / one; }
};
template <class One, class Other>
Pair in_turn(int runs, One one, Other other) {
  std::vector<double> ones, others;
  for (int i = 0; i < runs; ++i) {
    ones.push_back(time_ms(one));
    others.push_back(time_ms(other));
  }
  return {median(ones), median(others)};
}

void against_embree();
void on_two_threads();
void moves();
void takers();
void larger();
void memory();

}  // namespace spadework::bench
