// What is done to entries that have no place on the sheet: what is wanted, what is to hand, tasks,
// prices, the garden itself. For the server room alone.
#pragma once

#include <string>
#include <vector>

#include "document/document.h"
#include "garden/schema.h"
#include "server/answers.h"

namespace spadework::server {

/// One part of what is done, and the id of what comes by it.
struct EditPart {
  std::vector<document::Edit> edits;
  std::string made;
};

/// In:     `table`, of which there is one, or with `name` (an id, or that of `[crop."name"]`) or
///         `nth` (its number from 0, with `was`: its keys as typed, null for one that it had not);
///         and `set` (keys with their new values, null: left out) or `take_away`.
/// Errors: kWrongUse; kUnknownId for an entry that is not there, or was altered meanwhile.
[[nodiscard]] Result<std::vector<document::Edit>> entry_edits(const garden::Draft& draft,
                                                              const Json& request);

/// Whether entries of that table have no place on the sheet and can be added all the same.
[[nodiscard]] bool is_added_as_entry(const std::string& table);
/// In:  `add` (such a table), `called` (the name of `[crop."name"]`, or what an id is made of),
///      `set`. Out: `made`: table and name or number: "task:order-boards", "want~2", "labour:".
[[nodiscard]] Result<EditPart> entry_added(const garden::Draft& draft, const Json& request);

/// The entries, as the app's forms want them.
[[nodiscard]] Json entries_json(const garden::Draft& draft);

}  // namespace spadework::server
