#include "server/entry_request.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "document/fresh_id.h"
#include "server/things_told.h"
#include "server/toml_of.h"

namespace spadework::server {
namespace {

using document::Edit;
using document::EntryRef;
using garden::Draft;
using garden::Entry;
using garden::TableForm;
using garden::TableSchema;

tl::unexpected<Error> wrong(const std::string& where, const std::string& message) {
  return fail(ErrorCode::kWrongUse, where, message,
              "This page and the program do not fit: load the page again.");
}

bool has_key(const TableSchema& table, const char* name) {
  return std::any_of(table.keys.begin(), table.keys.end(),
                     [&](const garden::KeySchema& key) { return key.name == name; });
}

/// An entry and which of its table it is.
struct Found {
  const Entry* entry = nullptr;
  EntryRef ref;
};

/// Whether a thing of the sheet: that is altered in a scheme.
bool is_of_sheet(const Entry& entry) {
  const TableSchema* table = garden::find_table(entry.table);
  return table != nullptr && garden::is_on_sheet(*table) && !entry.id.empty();
}

bool is_as_it_was(const Entry& entry, const Json& was) {
  const Json fields = fields_json(entry);
  return std::all_of(was.items().begin(), was.items().end(), [&](const auto& key) {
    const Json is = fields.contains(key.key()) ? fields[key.key()]["typed"] : Json();
    return is == key.value();
  });
}

/// The nth of its table; where that is another one now, the only one that is what the asker saw.
Result<Found> nth_entry(const Draft& draft, const std::string& table, const Json& request) {
  const Json nth = request["nth"], was = request.value("was", Json::object());
  if (!nth.is_number_unsigned() || !was.is_object()) return wrong("/nth", "Which of them?");
  Found there, alike;
  std::size_t count = 0, n = 0;
  for (const Entry& entry : draft.entries) {
    if (entry.table != table) continue;
    const Found one{&entry, {table, "", n}};
    if (n++ == nth.get<std::size_t>()) there = one;
    if (!is_as_it_was(entry, was)) continue;
    alike = one;
    ++count;
  }
  if (there.entry != nullptr && is_as_it_was(*there.entry, was)) return there;
  if (count == 1 && !was.empty()) return alike;
  return fail(ErrorCode::kUnknownId, "/was",
              "This was altered, or taken away, in another window meanwhile.",
              "Look at how it is now, and do yours again if you would rather have it.");
}

Result<Found> entry_of(const Draft& draft, const TableSchema& table, const Json& request) {
  if (table.form == TableForm::kSingle) return Found{draft.single(table.name), {table.name}};
  if (table.form == TableForm::kMany && request.contains("nth"))
    return nth_entry(draft, table.name, request);
  const Json name = request.value("name", Json());
  if (table.form == TableForm::kValue || !name.is_string())
    return wrong("/table", "Which of them?");
  for (const Entry& entry : draft.entries)
    if (entry.table == table.name && entry.id == name.get<std::string>() && !entry.id.empty())
      return Found{&entry, {table.name, entry.id}};
  return fail(ErrorCode::kUnknownId, "/name",
              fmt::format("“{}” is not here any more.", name.get<std::string>()),
              "It may have been taken away, or renamed, in another window.");
}

/// A key that can be set of an entry without a place.
Result<const garden::KeySchema*> key_to_set(const TableSchema& table, const std::string& key) {
  const garden::KeySchema* known = garden::find_key(table, key);
  if (known == nullptr || known->type.type == garden::ValueType::kId)
    return wrong("/set/" + key, fmt::format("{} has no “{}” to be set.", table.name, key));
  return known;
}

Result<std::vector<Edit>> set_of(const TableSchema& table, const Found& found, const Json& set,
                                 const TomlOf& toml_of) {
  std::vector<Edit> edits;
  for (const auto& [key, value] : set.items()) {
    const auto known = key_to_set(table, key);
    if (!known) return tl::unexpected<Error>(known.error());
    const garden::Value* was = found.entry == nullptr ? nullptr : found.entry->find(key);
    if (value.is_null()) {
      if (was != nullptr) edits.emplace_back(document::RemoveKey{found.ref, {key}});
      continue;
    }
    auto text = toml_of.key(key, value, *known, was);
    if (!text) return tl::unexpected<Error>(text.error());
    edits.emplace_back(document::SetKey{found.ref, {key}, *text});
  }
  return edits;
}

Result<std::vector<Edit>> taken_away(const TableSchema& table, const Found& found) {
  if (table.name == "scheme") return wrong("/table", "A scheme is dropped.");
  if (table.name == "garden" || found.entry == nullptr) return wrong("/table", "This stays.");
  if (table.name != "climate") return std::vector<Edit>{document::RemoveEntry{found.ref}};
  std::vector<Edit> edits;  // its months stay
  for (const garden::Field& field : found.entry->fields)
    edits.emplace_back(document::RemoveKey{found.ref, {field.key}});
  return edits;
}

const char* mark_of(const Entry& entry) {
  if (entry.text("status") == "proposed") return "proposed";
  const garden::Value* removed = entry.find("removed");
  return removed != nullptr && removed->yes_no() != nullptr && *removed->yes_no() ? "removed"
                                                                                  : "existing";
}

/// What tells an entry from the others of its table.
Json entry_json(const Entry& entry, std::size_t nth) {
  Json json = {{"table", entry.table}, {"mark", mark_of(entry)}, {"fields", fields_json(entry)}};
  if (entry.id.empty())
    json["nth"] = nth;
  else
    json["name"] = entry.id;
  return json;
}

}  // namespace

Result<std::vector<Edit>> entry_edits(const Draft& draft, const Json& request) {
  const std::string name = request.value("table", "");
  const TableSchema* table = garden::find_table(name);
  if (table == nullptr) return wrong("/table", "This cannot be set.");
  const auto found = entry_of(draft, *table, request);
  if (!found) return tl::unexpected<Error>(found.error());
  if (found->entry != nullptr && is_of_sheet(*found->entry))
    return wrong("/table", "This is a thing of the sheet.");
  if (request.value("take_away", false)) return taken_away(*table, *found);
  const Json set = request.value("set", Json());
  if (!set.is_object()) return wrong("/set", "Which figures has it?");
  return set_of(*table, *found, set, TomlOf(draft));
}

bool is_added_as_entry(const std::string& name) {
  const TableSchema* table = garden::find_table(name);
  if (table == nullptr || table->form == TableForm::kValue) return false;
  return !garden::is_on_sheet(*table) && name != "scheme" && name != "change";
}

Result<EditPart> entry_added(const Draft& draft, const Json& request) {
  const std::string name = request.value("add", ""), called = request.value("called", "");
  const Json set = request.value("set", Json::object());
  const TableSchema* table = garden::find_table(name);
  if (table == nullptr || !set.is_object()) return wrong("/set", "Which figures has it?");
  if (table->form == TableForm::kSingle && set.empty())
    return wrong("/set", "Which figures has it?");
  if (table->form == TableForm::kSingle && draft.single(name) != nullptr) {
    auto edits = set_of(*table, {draft.single(name), {name}}, set, TomlOf(draft));
    if (!edits) return tl::unexpected<Error>(edits.error());
    return EditPart{std::move(*edits), name + ":"};
  }
  if (table->form == TableForm::kNamed && called.empty())
    return fail(ErrorCode::kMissingKey, "/called", "It has no name yet.", "Say what it is of.");
  document::AddEntry entry{name, {}, table->form == TableForm::kNamed ? called : std::string()};
  std::string made = name + ":" + entry.name;
  if (table->form == TableForm::kMany && has_key(*table, "id")) {
    std::string id = document::fresh_id(draft, called);
    if (id.empty()) id = document::fresh_id(draft, name);
    entry.keys.push_back({"id", document::toml_text(id)});
    made += id;
  } else if (table->form == TableForm::kMany) {
    made = fmt::format("{}~{}", name,
                       std::count_if(draft.entries.begin(), draft.entries.end(),
                                     [&](const Entry& e) { return e.table == name; }));
  }
  const TomlOf toml_of(draft);
  for (const auto& [key, value] : set.items()) {
    const auto known = key_to_set(*table, key);
    if (!known) return tl::unexpected<Error>(known.error());
    if (value.is_null()) continue;
    auto text = toml_of.key(key, value, *known);
    if (!text) return tl::unexpected<Error>(text.error());
    entry.keys.push_back({key, *text});
  }
  return EditPart{{std::move(entry)}, std::move(made)};
}

Json entries_json(const Draft& draft) {
  Json out = Json::array();
  std::map<std::string, std::size_t> counted;
  for (const Entry& entry : draft.entries) {
    const std::size_t nth = counted[entry.table]++;
    const TableSchema* table = garden::find_table(entry.table);
    const bool is_one_of_many =
        table != nullptr && (table->form == TableForm::kMany || table->form == TableForm::kNamed);
    if (is_one_of_many && !is_of_sheet(entry)) out.push_back(entry_json(entry, nth));
  }
  return out;
}

}  // namespace spadework::server
