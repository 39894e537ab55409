#include <array>
#include <bit>
#include <cmath>

#include "light/caster_kernels.h"

#define SW_INLINE inline
#define SW_KERNEL
#define SW_INLINE_LAMBDA

namespace spadework::light {
namespace {

template <class T>
T greater(T a, T b) {
  return a > b ? a : b;
}
template <class T>
T lesser(T a, T b) {
  return a < b ? a : b;
}

struct I4 {
  std::array<std::int32_t, 4> v;
  void store(std::int32_t* to) const {
    for (std::size_t i = 0; i < 4; ++i) to[i] = v[i];
  }
};

/// N lanes of T; `act` on each.
template <class T, std::size_t N>
struct Lanes {
  std::array<T, N> v;
  static Lanes all(T a) {
    Lanes out;
    out.v.fill(a);
    return out;
  }
  static Lanes load(const T* from) {
    return each([&](std::size_t i) { return from[i]; });
  }
  template <class First>
  static Lanes count_from(First first) {
    return each([&](std::size_t i) { return static_cast<T>(first) + static_cast<T>(i); });
  }
  void store(T* to) const {
    for (std::size_t i = 0; i < N; ++i) to[i] = v[i];
  }
  void store_as_floats(float* to) const {
    for (std::size_t i = 0; i < N; ++i) to[i] = static_cast<float>(v[i]);
  }
  void add_as_counts(std::uint32_t* to) const {
    for (std::size_t i = 0; i < N; ++i) to[i] += static_cast<std::uint32_t>(v[i]);
  }
  [[nodiscard]] T least() const { return lesser(lesser(v[0], v[2]), lesser(v[1], v[3])); }
  [[nodiscard]] T most() const { return greater(greater(v[0], v[2]), greater(v[1], v[3])); }
  /// 0 in the lanes whose bit is not set.
  [[nodiscard]] Lanes only(unsigned lanes) const {
    return each([&](std::size_t i) { return (lanes >> i & 1) != 0 ? v[i] : T{0}; });
  }
  template <class Act>
  static Lanes each(Act act) {
    Lanes out;
    for (std::size_t i = 0; i < N; ++i) out.v[i] = act(i);
    return out;
  }
  friend Lanes operator+(const Lanes& a, const Lanes& b) {
    return each([&](std::size_t i) { return a.v[i] + b.v[i]; });
  }
  friend Lanes operator-(const Lanes& a, const Lanes& b) {
    return each([&](std::size_t i) { return a.v[i] - b.v[i]; });
  }
  friend Lanes operator*(const Lanes& a, const Lanes& b) {
    return each([&](std::size_t i) { return a.v[i] * b.v[i]; });
  }
  friend Lanes greater(const Lanes& a, const Lanes& b) {  // b where a is NaN
    return each([&](std::size_t i) { return a.v[i] > b.v[i] ? a.v[i] : b.v[i]; });
  }
  friend Lanes lesser(const Lanes& a, const Lanes& b) {
    return each([&](std::size_t i) { return a.v[i] < b.v[i] ? a.v[i] : b.v[i]; });
  }
  friend Lanes root(const Lanes& a) {
    return each([&](std::size_t i) { return std::sqrt(a.v[i]); });
  }
  friend Lanes size_of(const Lanes& a) {
    return each([&](std::size_t i) { return std::abs(a.v[i]); });
  }
  friend unsigned not_over(const Lanes& a, const Lanes& b) {
    unsigned bits = 0;
    for (std::size_t i = 0; i < N; ++i) bits |= static_cast<unsigned>(a.v[i] <= b.v[i]) << i;
    return bits;
  }
  friend unsigned over(const Lanes& a, const Lanes& b) {
    unsigned bits = 0;
    for (std::size_t i = 0; i < N; ++i) bits |= static_cast<unsigned>(a.v[i] > b.v[i]) << i;
    return bits;
  }
};
using D4 = Lanes<double, 4>;
using F8 = Lanes<float, 8>;

/// The least whole number that is not under v, kept within [low, high]; 0 <= low. NaN gives low.
int whole_from(double v, int low, int high) {
  const double within = v > low ? v : low;
  if (within >= high) return high;
  const int whole = static_cast<int>(within);
  return whole + static_cast<int>(whole < within);
}
I4 whole_from(const D4& v, const D4& low, const D4& high) {
  I4 out;
  for (std::size_t i = 0; i < 4; ++i)
    out.v[i] = whole_from(v.v[i], static_cast<int>(low.v[i]), static_cast<int>(high.v[i]));
  return out;
}
F8 to_nearest(const F8& a) {
  return F8::each([&](std::size_t i) { return std::nearbyint(a.v[i]); });
}
F8 times_power_of_two(const F8& a, const F8& whole) {
  return F8::each([&](std::size_t i) {
    const auto power = static_cast<std::uint32_t>(static_cast<std::int32_t>(whole.v[i])) << 23;
    return std::bit_cast<float>(std::bit_cast<std::uint32_t>(a.v[i]) + power);
  });
}

struct B256 {
  std::array<std::uint64_t, kRowWords> v;
  template <class Act>
  static B256 each(Act act) {
    B256 out;
    for (std::size_t i = 0; i < kRowWords; ++i) out.v[i] = act(i);
    return out;
  }
  static B256 load(const std::uint64_t* from) {
    return each([&](std::size_t i) { return from[i]; });
  }
  [[nodiscard]] bool is_zero() const { return (v[0] | v[1] | v[2] | v[3]) == 0; }
  static B256 without(const B256& a, const B256& b) {
    return each([&](std::size_t i) { return a.v[i] & ~b.v[i]; });
  }
  void store(std::uint64_t* to) const {
    for (std::size_t i = 0; i < kRowWords; ++i) to[i] = v[i];
  }
};
B256 operator&(const B256& a, const B256& b) {
  return B256::each([&](std::size_t i) { return a.v[i] & b.v[i]; });
}
B256 operator|(const B256& a, const B256& b) {
  return B256::each([&](std::size_t i) { return a.v[i] | b.v[i]; });
}
B256 operator^(const B256& a, const B256& b) {
  return B256::each([&](std::size_t i) { return a.v[i] ^ b.v[i]; });
}

#include "light/caster_kernels_impl.h"

}  // namespace

const Kernels& scalar_kernels() { return kKernels; }

}  // namespace spadework::light
