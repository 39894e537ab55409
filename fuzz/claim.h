// What a fuzz target holds to be true of every input.
#pragma once

#include <cstdio>
#include <cstdlib>
#include <string>

namespace spadework {

/// Unlike assert, also in a release build.
inline void claim(bool holds, const char* what, const std::string& shown = {}) {
  if (holds) return;
  std::fprintf(stderr, "broken: %s\n%s\n", what, shown.c_str());
  std::abort();
}

}  // namespace spadework
