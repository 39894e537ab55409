// What would make a measured figure surer, in a grower's words. For the server room alone.
#pragma once

#include <string>

#include "base/base.h"
#include "ground/ground.h"
#include "server/answers.h"

namespace spadework::server {

/// "Set the clock by a time signal": what is to be done, without the gain.
[[nodiscard]] std::string better_says(ground::Better better, const std::string& at);
/// "21.2 m ± 4 cm" is told by its parts: the second one.
[[nodiscard]] std::string sigma_says(Length sigma, Units units);

/// Of each guessed figure, by "id.key", or "table.key" where there is one of a kind: what measuring
/// it would narrow it to, with how sure it then is where that can be told.
[[nodiscard]] Json narrows_json(const garden::Garden& garden);

}  // namespace spadework::server
