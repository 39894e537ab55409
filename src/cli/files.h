// Files whole or not at all.
#pragma once

#include <string>
#include <string_view>

#include "base/result.h"

namespace spadework::cli {

/// The bytes of a file. Errors: kCannotRead, with the reason; kTooLarge beyond `most` bytes, before
/// any of it is read.
[[nodiscard]] Result<std::string> read_file(const std::string& path, std::size_t most);

/// Whether a file is there and begins so. Of what can be read but once, such as a pipe, nothing is
/// read: false.
[[nodiscard]] bool begins_with(const std::string& path, std::string_view bytes);
/// The path's last part.
[[nodiscard]] std::string name_of(const std::string& path);

/// Writes beside the file, syncs, and moves it into place: what was there stays until the new one
/// is whole. Errors: kCannotWrite, with the reason.
[[nodiscard]] Result<bool> write_file(const std::string& path, std::string_view bytes);

}  // namespace spadework::cli
