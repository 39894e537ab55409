#include "base/check.h"

#include <cstdio>
#include <cstdlib>

namespace spadework {

void stop_on_broken_invariant(const char* file, int line, const std::string& claim,
                              const std::string& values) {
  std::fprintf(stderr, "spadework: this should never be: %s (%s:%d)%s%s\n", claim.c_str(), file,
               line, values.empty() ? "" : ": ", values.c_str());
  std::abort();
}

}  // namespace spadework
