// The tables of a garden file, and how an earlier layout becomes this one. For the store room
// alone.
#pragma once

#include <string_view>

#include "store/database.h"

namespace spadework::store {

/// "SPWK": tells a garden from other SQLite files.
inline constexpr int kApplicationId = 0x5350574b;

/// Makes the tables of the newest layout in an empty database.
[[nodiscard]] Result<bool> make_layout(Database& database, std::string_view program);
/// Brings a file up to the newest layout, all or nothing.
/// Errors: kCannotRead for a file that is no garden; kNewerFile.
[[nodiscard]] Result<bool> bring_up(Database& database, const std::string& path,
                                    std::string_view program, bool read_only);

}  // namespace spadework::store
