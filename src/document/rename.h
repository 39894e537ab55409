// Another name for a thing or a scheme, wherever the document names it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "document/patch.h"
#include "garden/entry.h"

namespace spadework::document {

struct Renamed {
  std::string id;           // what was typed, as an id: "Upper East" is "upper-east"
  std::vector<Edit> edits;  // none for the name that it has
};

/// In:     the id of an entry, and its new name as a person types it.
/// Out:    edits that put the new id in the place of the old one: in the entry itself, in whatever
///         refers to it by the schema, in changes of it, in places given by a point's name, in the
///         survey, and in tasks that come after it.
/// Errors: kUnknownId (no such entry); kBadId (no letter and no figure in it, or too long);
///         kRepeatedId (another entry, a scheme or a point of the survey has it).
/// Source: tested on random renames of the examples: rename_test.cpp.
[[nodiscard]] Result<Renamed> rename(const garden::Draft& draft, const std::string& id,
                                     std::string_view name);

/// Another name for a scheme: its id wherever the document names it, and its title where the id
/// says less than the name; a title that it had goes. Errors: as above.
[[nodiscard]] Result<Renamed> rename_scheme(const garden::Draft& draft, const std::string& scheme,
                                            std::string_view name);

/// The id that is made of a name; empty: none can be.
[[nodiscard]] std::string id_of_name(std::string_view name);

}  // namespace spadework::document
