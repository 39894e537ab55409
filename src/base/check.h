// A broken invariant is a mistake in the program: say which, print both values, stop.
#pragma once

#include <sstream>
#include <string>

namespace spadework {

[[noreturn]] void stop_on_broken_invariant(const char* file, int line, const std::string& claim,
                                           const std::string& values);

template <class A, class B>
std::string both_values(const A& a, const B& b) {
  std::ostringstream out;
  out << a << " and " << b;
  return out.str();
}

}  // namespace spadework

#define SW_CHECK(claim)                                                                  \
  do {                                                                                   \
    if (!(claim)) ::spadework::stop_on_broken_invariant(__FILE__, __LINE__, #claim, ""); \
  } while (false)

#define SW_CHECK_OP(a, op, b)                                                      \
  do {                                                                             \
    const auto& sw_a = (a);                                                        \
    const auto& sw_b = (b);                                                        \
    if (!(sw_a op sw_b))                                                           \
      ::spadework::stop_on_broken_invariant(__FILE__, __LINE__, #a " " #op " " #b, \
                                            ::spadework::both_values(sw_a, sw_b)); \
  } while (false)

#define SW_CHECK_EQ(a, b) SW_CHECK_OP(a, ==, b)
#define SW_CHECK_LT(a, b) SW_CHECK_OP(a, <, b)
#define SW_CHECK_LE(a, b) SW_CHECK_OP(a, <=, b)
