// The things of a scheme as pages are told them. For the server room alone.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "garden/garden.h"
#include "server/answers.h"

namespace spadework::server {

/// Each by its id, written as JSON, in the order in which they are told.
struct ThingTold {
  std::string id, json;
};
using ThingsTold = std::vector<ThingTold>;

[[nodiscard]] ThingsTold things_told(const garden::Garden& garden, const garden::Garden& found);

/// What an entry says, key by key, as typed and as a value.
[[nodiscard]] Json fields_json(const garden::Entry& entry);

/// The things as parts of a State of the contract: `"things":[…]`, all of them, …
[[nodiscard]] std::string all_things(const ThingsTold& things);
/// … or what makes those before these: `things`, `before` and `gone`. Nothing if it has to be all.
[[nodiscard]] std::optional<std::string> changed_things(const ThingsTold& before,
                                                        const ThingsTold& now);

}  // namespace spadework::server
