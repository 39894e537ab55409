#include "document/scheme_edits.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "base/text.h"
#include "document/reading.h"
#include "document/thing_edits.h"
#include "garden/garden.h"

namespace spadework::document {
namespace {

using garden::Draft;

std::string text_of(const Entry& entry, std::string_view key) {
  const Value* value = entry.find(key);
  return value == nullptr || value->text() == nullptr ? std::string() : *value->text();
}

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
    if (text_of(entry, "scheme") == scheme) changes.push_back({&entry, nth});
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
  constexpr std::size_t kLongest = 36;  // room for a number
  const std::string word = as_id(std::string_view(called).substr(0, kLongest));
  if (word.empty())
    return fail(ErrorCode::kWrongUse, "/called", "A scheme wants a name.",
                "Such as “hedge low”: letters and figures.");
  const std::vector<std::string> names = garden::scheme_names(draft);
  const auto is_taken = [&](const std::string& id) {
    return draft.with_id(id) != nullptr || std::find(names.begin(), names.end(), id) != names.end();
  };
  std::string id = word;
  for (int nth = 2; is_taken(id); ++nth) id = fmt::format("{}-{}", word, nth);
  AddEntry entry{"scheme", {{"id", toml_text(id)}}};
  if (id != called) entry.keys.push_back({"title", toml_text(called)});
  return AddedScheme{id, std::move(entry)};
}

Result<std::vector<Edit>> merge_scheme(const Draft& draft, const std::string& scheme) {
  if (const auto named = is_named(draft, scheme); !named)
    return tl::unexpected<Error>(named.error());
  std::vector<Edit> edits;
  for (const Entry& entry : draft.entries) {
    if (entry.table != "change" && !entry.id.empty() && text_of(entry, "scheme") == scheme)
      edits.emplace_back(RemoveKey{{entry.table, entry.id}, {"scheme"}});
  }
  const std::vector<Change> general = changes_of(draft, "");
  std::vector<Change> told;
  for (const Change& change : changes_of(draft, scheme)) {
    const auto same = std::find_if(general.rbegin(), general.rend(), [&](const Change& other) {
      return text_of(*other.entry, "thing") == text_of(*change.entry, "thing");
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
    if (entry.table != "change" && !entry.id.empty() && text_of(entry, "scheme") == scheme)
      edits.emplace_back(RemoveEntry{{entry.table, entry.id}});
  }
  remove_all(changes_of(draft, scheme), edits);
  edits.emplace_back(RemoveEntry{{"scheme", scheme}});
  return edits;
}

}  // namespace spadework::document
