#include "document/scheme_edits.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "document/fresh_id.h"
#include "document/thing_edits.h"
#include "garden/garden.h"
#include "garden/schema.h"

namespace spadework::document {
namespace {

using garden::Draft;
using garden::Entry;
using garden::Field;

Result<bool> is_named(const Draft& draft, const std::string& scheme) {
  const bool named = std::any_of(
      draft.entries.begin(), draft.entries.end(),
      [&](const Entry& entry) { return entry.table == "scheme" && entry.id == scheme; });
  if (named) return true;
  return fail(ErrorCode::kUnknownId, "",
              fmt::format("There is no scheme called “{}” to be altered.", scheme),
              "It may have been dropped in another window.");
}

/// A change and its number among the changes.
struct Change {
  const Entry* entry;
  std::size_t nth;
};

std::vector<Change> changes_of(const Draft& draft, const std::string& scheme) {
  std::vector<Change> changes;
  std::size_t nth = 0;
  for (const Entry& entry : draft.entries) {
    if (entry.table != "change") continue;
    if (entry.text("scheme") == scheme) changes.push_back({&entry, nth});
    ++nth;
  }
  return changes;
}

/// From the last to the first, so that the numbers of the others stay.
void remove_all(std::vector<Change> changes, std::vector<Edit>& edits) {
  std::sort(changes.begin(), changes.end(),
            [](const Change& a, const Change& b) { return a.nth > b.nth; });
  for (const Change& change : changes) edits.emplace_back(RemoveEntry{{"change", "", change.nth}});
}

/// What one change says, told by another that is for every scheme.
void tell_in(const Change& general, const Entry& change, std::vector<Edit>& edits) {
  const EntryRef to{"change", "", general.nth};
  for (const Field& field : change.fields) {
    if (field.key == "thing" || field.key == "scheme") continue;
    for (const std::string& rival : garden::rivals_of(field.key)) {
      if (rival != "thing" && general.entry->find(rival) != nullptr)
        edits.emplace_back(RemoveKey{to, {rival}});
    }
    edits.emplace_back(SetKey{to, {field.key}, toml_value(field.value)});
  }
}

}  // namespace

Result<AddedScheme> make_scheme(const Draft& draft, const std::string& called) {
  const std::string id = fresh_id(draft, called);
  if (id.empty())
    return fail(ErrorCode::kWrongUse, "/called", "A scheme wants a name.",
                "Such as “hedge low”: letters and figures.");
  AddEntry entry{"scheme", {{"id", toml_text(id)}}};
  if (id != called) entry.keys.push_back({"title", toml_text(called)});
  return AddedScheme{id, std::move(entry)};
}

Result<std::vector<Edit>> merge_scheme(const Draft& draft, const std::string& scheme) {
  if (const auto named = is_named(draft, scheme); !named)
    return tl::unexpected<Error>(named.error());
  std::vector<Edit> edits;
  for (const Entry& entry : draft.entries) {
    if (entry.table != "change" && !entry.id.empty() && entry.text("scheme") == scheme)
      edits.emplace_back(RemoveKey{{entry.table, entry.id}, {"scheme"}});
  }
  const std::vector<Change> general = changes_of(draft, "");
  std::vector<Change> told;
  for (const Change& change : changes_of(draft, scheme)) {
    const auto same = std::find_if(general.rbegin(), general.rend(), [&](const Change& other) {
      return other.entry->text("thing") == change.entry->text("thing");
    });
    if (same == general.rend()) {
      edits.emplace_back(RemoveKey{{"change", "", change.nth}, {"scheme"}});
    } else {
      tell_in(*same, *change.entry, edits);
      told.push_back(change);
    }
  }
  remove_all(std::move(told), edits);
  edits.emplace_back(RemoveEntry{{"scheme", scheme}});
  return edits;
}

Result<std::vector<Edit>> drop_scheme(const Draft& draft, const std::string& scheme) {
  if (const auto named = is_named(draft, scheme); !named)
    return tl::unexpected<Error>(named.error());
  std::vector<Edit> edits;
  for (const Entry& entry : draft.entries) {
    if (entry.table != "change" && !entry.id.empty() && entry.text("scheme") == scheme)
      edits.emplace_back(RemoveEntry{{entry.table, entry.id}});
  }
  remove_all(changes_of(draft, scheme), edits);
  edits.emplace_back(RemoveEntry{{"scheme", scheme}});
  return edits;
}

}  // namespace spadework::document
