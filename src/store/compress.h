// Bytes made small. For the store room alone.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "base/result.h"

namespace spadework::store {

/// zlib's format.
[[nodiscard]] std::string compressed(std::string_view bytes);
/// `size`: of what was compressed. Errors: kCannotRead for bytes that are damaged.
[[nodiscard]] Result<std::string> restored(std::string_view bytes, std::int64_t size);

}  // namespace spadework::store
