// The time that a question is about. For the server room alone.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "server/routes.h"
#include "study/shown.h"

namespace spadework::server {

using study::When;

/// In: `months`, `day`, `clock`, `quick`, as words of the query or values of the body; left out:
/// the growing months, exactly. Errors: kWrongUse.
[[nodiscard]] Result<When> when_of(const Request& request, const study::Stand& stand);
[[nodiscard]] Result<When> when_of(const Json& body, const study::Stand& stand);

/// `3,4,5`: months from 0; empty: the growing ones. Errors: kWrongUse.
[[nodiscard]] Result<std::vector<int>> months_of(const std::string& text,
                                                 const study::Stand& stand);
/// Empty: no day. Errors: kWrongUse.
[[nodiscard]] Result<std::optional<LocalDate>> day_of(const std::string& text);

}  // namespace spadework::server
