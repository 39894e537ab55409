// What a person does to a whole scheme, as edits of the document.
#pragma once

#include <string>
#include <vector>

#include "document/patch.h"
#include "garden/entry.h"

namespace spadework::document {

struct AddedScheme {
  std::string id;  // as_id() of what it is called, with a number where another has that
  Edit edit;
};
/// A new scheme: the proposal, until something is altered in it.
/// Errors: kWrongUse for a name without letters or figures.
[[nodiscard]] Result<AddedScheme> make_scheme(const garden::Draft& draft,
                                              const std::string& called);
/// The proposal becomes what the scheme is, and the scheme goes.
/// Errors: kUnknownId for a scheme that is not named in the document.
/// Tested: scheme_edits_test.cpp: the proposal afterwards is the scheme before.
[[nodiscard]] Result<std::vector<Edit>> merge_scheme(const garden::Draft& draft,
                                                     const std::string& scheme);
/// The scheme goes, and all that belongs to it alone. Errors: as above.
[[nodiscard]] Result<std::vector<Edit>> drop_scheme(const garden::Draft& draft,
                                                    const std::string& scheme);

}  // namespace spadework::document
