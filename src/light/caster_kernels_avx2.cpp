#include "light/caster_kernels.h"

#if defined(__x86_64__)

#include <immintrin.h>

#if defined(__clang__)
#pragma clang attribute push(__attribute__((target("avx2"))), apply_to = function)
#else
#pragma GCC push_options
#pragma GCC target("avx2")
#endif
#define SW_INLINE [[gnu::always_inline]] inline
#define SW_KERNEL
#define SW_INLINE_LAMBDA __attribute__((always_inline))

namespace spadework::light {
namespace {

struct I4 {
  __m128i v;
  SW_INLINE void store(std::int32_t* to) const {
    _mm_storeu_si128(reinterpret_cast<__m128i*>(to), v);
  }
};

struct D4 {
  __m256d v;
  SW_INLINE static D4 all(double a) { return {_mm256_set1_pd(a)}; }
  SW_INLINE static D4 load(const double* from) { return {_mm256_loadu_pd(from)}; }
  SW_INLINE static D4 count_from(int first) {
    return {_mm256_add_pd(_mm256_set1_pd(first), _mm256_setr_pd(0, 1, 2, 3))};
  }
  SW_INLINE void store(double* to) const { _mm256_storeu_pd(to, v); }
  SW_INLINE void store_as_floats(float* to) const { _mm_storeu_ps(to, _mm256_cvtpd_ps(v)); }
  SW_INLINE double least() const {
    const __m128d two = _mm_min_pd(_mm256_castpd256_pd128(v), _mm256_extractf128_pd(v, 1));
    return _mm_cvtsd_f64(_mm_min_sd(two, _mm_unpackhi_pd(two, two)));
  }
  SW_INLINE double most() const {
    const __m128d two = _mm_max_pd(_mm256_castpd256_pd128(v), _mm256_extractf128_pd(v, 1));
    return _mm_cvtsd_f64(_mm_max_sd(two, _mm_unpackhi_pd(two, two)));
  }
};
SW_INLINE D4 operator+(D4 a, D4 b) { return {_mm256_add_pd(a.v, b.v)}; }
SW_INLINE D4 operator-(D4 a, D4 b) { return {_mm256_sub_pd(a.v, b.v)}; }
SW_INLINE D4 operator*(D4 a, D4 b) { return {_mm256_mul_pd(a.v, b.v)}; }
SW_INLINE D4 greater(D4 a, D4 b) { return {_mm256_max_pd(a.v, b.v)}; }  // b where a is NaN
SW_INLINE D4 lesser(D4 a, D4 b) { return {_mm256_min_pd(a.v, b.v)}; }
SW_INLINE D4 root(D4 a) { return {_mm256_sqrt_pd(a.v)}; }
SW_INLINE D4 size_of(D4 a) { return {_mm256_andnot_pd(_mm256_set1_pd(-0.0), a.v)}; }
SW_INLINE unsigned not_over(D4 a, D4 b) {
  return static_cast<unsigned>(_mm256_movemask_pd(_mm256_cmp_pd(a.v, b.v, _CMP_LE_OQ)));
}
SW_INLINE unsigned over(D4 a, D4 b) {
  return static_cast<unsigned>(_mm256_movemask_pd(_mm256_cmp_pd(a.v, b.v, _CMP_GT_OQ)));
}
/// The least whole number that is not under v, kept within [low, high]; 0 <= low. NaN gives low.
SW_INLINE I4 whole_from(D4 v, D4 low, D4 high) {
  return {_mm256_cvttpd_epi32(_mm256_ceil_pd(lesser(greater(v, low), high).v))};
}
SW_INLINE int whole_from(double v, int low, int high) {
  const double within = v > low ? v : low;
  if (within >= high) return high;
  const int whole = static_cast<int>(within);
  return whole + static_cast<int>(whole < within);
}

struct F8 {
  __m256 v;
  SW_INLINE static F8 all(float a) { return {_mm256_set1_ps(a)}; }
  SW_INLINE static F8 load(const float* from) { return {_mm256_loadu_ps(from)}; }
  SW_INLINE static F8 count_from(float first) {
    return {_mm256_add_ps(_mm256_set1_ps(first), _mm256_setr_ps(0, 1, 2, 3, 4, 5, 6, 7))};
  }
  SW_INLINE void store(float* to) const { _mm256_storeu_ps(to, v); }
  SW_INLINE void add_as_counts(std::uint32_t* to) const {
    auto* counts = reinterpret_cast<__m256i*>(to);
    _mm256_storeu_si256(counts,
                        _mm256_add_epi32(_mm256_loadu_si256(counts), _mm256_cvtps_epi32(v)));
  }
  /// 0 in the lanes whose bit is not set.
  SW_INLINE F8 only(unsigned lanes) const {
    const __m256i bit = _mm256_setr_epi32(1, 2, 4, 8, 16, 32, 64, 128);
    const __m256i mine = _mm256_and_si256(_mm256_set1_epi32(static_cast<int>(lanes)), bit);
    return {_mm256_and_ps(v, _mm256_castsi256_ps(_mm256_cmpeq_epi32(mine, bit)))};
  }
};
SW_INLINE F8 operator+(F8 a, F8 b) { return {_mm256_add_ps(a.v, b.v)}; }
SW_INLINE F8 operator-(F8 a, F8 b) { return {_mm256_sub_ps(a.v, b.v)}; }
SW_INLINE F8 operator*(F8 a, F8 b) { return {_mm256_mul_ps(a.v, b.v)}; }
SW_INLINE F8 greater(F8 a, F8 b) { return {_mm256_max_ps(a.v, b.v)}; }
SW_INLINE F8 lesser(F8 a, F8 b) { return {_mm256_min_ps(a.v, b.v)}; }
SW_INLINE F8 root(F8 a) { return {_mm256_sqrt_ps(a.v)}; }
SW_INLINE F8 to_nearest(F8 a) {
  return {_mm256_round_ps(a.v, _MM_FROUND_TO_NEAREST_INT | _MM_FROUND_NO_EXC)};
}
SW_INLINE F8 times_power_of_two(F8 a, F8 whole) {
  const __m256i power = _mm256_slli_epi32(_mm256_cvtps_epi32(whole.v), 23);
  return {_mm256_castsi256_ps(_mm256_add_epi32(_mm256_castps_si256(a.v), power))};
}
SW_INLINE unsigned over(F8 a, F8 b) {
  return static_cast<unsigned>(_mm256_movemask_ps(_mm256_cmp_ps(a.v, b.v, _CMP_GT_OQ)));
}

struct B256 {
  __m256i v;
  SW_INLINE static B256 load(const std::uint64_t* from) {
    return {_mm256_loadu_si256(reinterpret_cast<const __m256i*>(from))};
  }
  SW_INLINE static B256 without(B256 a, B256 b) { return {_mm256_andnot_si256(b.v, a.v)}; }
  SW_INLINE bool is_zero() const { return _mm256_testz_si256(v, v) != 0; }
  SW_INLINE void store(std::uint64_t* to) const {
    _mm256_storeu_si256(reinterpret_cast<__m256i*>(to), v);
  }
};
SW_INLINE B256 operator&(B256 a, B256 b) { return {_mm256_and_si256(a.v, b.v)}; }
SW_INLINE B256 operator|(B256 a, B256 b) { return {_mm256_or_si256(a.v, b.v)}; }
SW_INLINE B256 operator^(B256 a, B256 b) { return {_mm256_xor_si256(a.v, b.v)}; }

#include "light/caster_kernels_impl.h"

}  // namespace

const Kernels& avx2_kernels() { return kKernels; }

}  // namespace spadework::light

#if defined(__clang__)
#pragma clang attribute pop
#else
#pragma GCC pop_options
#endif

namespace spadework::light {
bool has_avx2() { return __builtin_cpu_supports("avx2") != 0; }
}  // namespace spadework::light

#else

namespace spadework::light {
const Kernels& avx2_kernels() { return scalar_kernels(); }
bool has_avx2() { return false; }
}  // namespace spadework::light

#endif
