// Ids for what is new in a document. For the document room alone.
#pragma once

#include <string>
#include <string_view>

#include "garden/entry.h"

namespace spadework::document {

/// Whether an entry, a scheme or a point of the survey has that id.
[[nodiscard]] bool is_taken(const garden::Draft& draft, std::string_view id);
/// "Close board" as "close-board", "Süd’s Beet" as "suds-beet", or with the first number with which
/// it is not taken. Out: empty for what has no letter and no figure.
[[nodiscard]] std::string fresh_id(const garden::Draft& draft, std::string_view called);

}  // namespace spadework::document
