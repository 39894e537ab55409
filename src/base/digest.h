// Content keys: results are kept by what they were made from.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace spadework {

/// 128 bits of FNV-1a, in two lanes with different offsets. Source: [fnv]
class Digest {
 public:
  Digest& add(std::string_view text);
  Digest& add(double number);
  [[nodiscard]] std::string hex() const;

 private:
  void byte(unsigned char c);
  std::uint64_t one_ = 0xcbf29ce484222325ULL;
  std::uint64_t two_ = 0x6c62272e07bb0142ULL;
};

}  // namespace spadework
