// Ids for what is new in a document. For the document room alone.
#pragma once

#include <string>
#include <string_view>

#include "garden/entry.h"

namespace spadework::document {

/// "Close board" as "close-board", or with the first number with which no entry and no scheme has
/// it. Out: empty for what has no letter and no figure.
[[nodiscard]] std::string fresh_id(const garden::Draft& draft, std::string_view called);

}  // namespace spadework::document
