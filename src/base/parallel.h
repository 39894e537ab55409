// Work split over threads, with results that do not depend on how many there are.
#pragma once

#include <functional>

namespace spadework {

/// Calls `work(i)` once for each i in [0, n), on up to `threads` threads. The calls must not depend
/// on each other: each writes to its own place, and sums are taken afterwards in order.
void parallel_for(int n, int threads, const std::function<void(int)>& work);

/// What this machine can run at once, at least 1.
[[nodiscard]] int hardware_threads();

}  // namespace spadework
