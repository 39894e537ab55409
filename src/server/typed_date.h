// A date as a person types it in the app, and as the document writes it. For the server room alone.
#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "garden/schema.h"

namespace spadework::server {

/// TOML of what was typed into a field of a date (`kDate`) or of a day of any year (`kDay`):
/// "2026-1-17", "17 Jan 2026", "January 17, 2026"; of days "03-01" and "1 March" too. "1/2/2026"
/// and "17.1.2026" are refused: some put the day first and some the month. Errors: kWrongType for
/// what is no date; kImpossibleValue for a day that its month has not.
[[nodiscard]] Result<std::string> date_toml(std::string_view text, garden::ValueType type);

}  // namespace spadework::server
