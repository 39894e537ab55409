#include "base/digest.h"

#include <fmt/format.h>

#include <bit>

namespace spadework {

void Digest::byte(unsigned char c) {
  constexpr std::uint64_t kPrime = 0x100000001b3ULL;
  one_ = (one_ ^ c) * kPrime;
  two_ = (two_ ^ c ^ (one_ >> 32 & 0xff)) * kPrime;
}

Digest& Digest::add(std::string_view text) {
  for (const char c : text) byte(static_cast<unsigned char>(c));
  byte(0xff);  // no UTF-8 text holds it: keeps neighbours apart
  return *this;
}

Digest& Digest::add(double number) {
  const auto bits = std::bit_cast<std::uint64_t>(number);
  for (int shift = 0; shift < 64; shift += 8) byte(static_cast<unsigned char>(bits >> shift));
  return *this;
}

std::string Digest::hex() const { return fmt::format("{:016x}{:016x}", one_, two_); }

}  // namespace spadework
