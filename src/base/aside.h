// Work that gives way.
#pragma once

#include <functional>

namespace spadework {

/// Does the work on a thread of its own that gives way to all that somebody waits for, and so do
/// the threads that it starts; comes back when it is done, with what it throws. Where a system has
/// no such threads it is done all the same. `meanwhile` is called many times a second by the thread
/// that waits.
void run_aside(const std::function<void()>& work, const std::function<void()>& meanwhile = {});

}  // namespace spadework
