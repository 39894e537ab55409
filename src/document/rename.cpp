#include "document/rename.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/text.h"
#include "document/fresh_id.h"
#include "document/limits.h"
#include "document/reading.h"

namespace spadework::document {
namespace {

/// Names of points that are plain text in the schema, but for a turning point of the level book.
bool is_point_in_survey(const std::string& key, const std::string& text) {
  return key == "from" || key == "to" || (key == "point" && text != "turn");
}

/// Edits of one entry wherever it has the old id.
class Renaming {
 public:
  Renaming(const Entry& entry, EntryRef ref, const Entry& thing, const std::string& to)
      : entry_(entry), ref_(std::move(ref)), thing_(thing), to_(toml_text(to)) {}

  std::vector<Edit> edits(const TableSchema& table, const TableSchema* changed) {
    for (const Field& field : entry_.fields) {
      const KeySchema* key = garden::find_key(table, field.key);
      if (key == nullptr && changed != nullptr) key = garden::find_key(*changed, field.key);
      if (key != nullptr && key->type.type != ValueType::kId)
        within(field.value, key->type, field.key, {field.key});
    }
    return std::move(edits_);
  }

 private:
  void within(const Value& value, const TypeSchema& type, const std::string& key,
              const KeyPath& path) {
    if (const std::string* text = value.text()) {
      if (*text == thing_.id && names(*text, item_of(type), key))
        edits_.emplace_back(SetKey{ref_, path, to_});
    } else if (const List* list = value.list()) {
      if (is_alone(value)) return within((*list)[0], item_of(type), key, path);
      for (std::size_t i = 0; i < list->size(); ++i)
        within((*list)[i], item_of(type), key, longer(path, std::to_string(i)));
    } else if (const Record* record = value.record()) {
      for (const Field& field : *record)
        within(field.value, field_of(type, field.key), field.key, longer(path, field.key));
    }
  }
  /// Whether a word is the thing's id, and not just the same word.
  [[nodiscard]] bool names(const std::string& text, const TypeSchema& type,
                           const std::string& key) const {
    switch (type.type) {
      case ValueType::kReference:
        return std::find(type.words.begin(), type.words.end(), text) == type.words.end();
      case ValueType::kPlace:
      case ValueType::kLine:
      case ValueType::kOutline:
      case ValueType::kTie:
        return thing_.table == "point";
      default:
        if (entry_.table == "survey")
          return thing_.table == "point" && is_point_in_survey(key, text);
        return thing_.table == "task" && entry_.table == "task" && key == "after";
    }
  }
  /// One that is written without brackets, where there could be several.
  static bool is_alone(const Value& value) {
    const List& list = *value.list();
    return list.size() == 1 && list[0].where.line == value.where.line &&
           list[0].where.column == value.where.column;
  }
  static const TypeSchema& item_of(const TypeSchema& type) {
    return type.item.empty() ? type : type.item[0];
  }
  static const TypeSchema& field_of(const TypeSchema& type, const std::string& key) {
    for (const KeySchema& field : type.fields)
      if (field.name == key) return field.type;
    return item_of(type);
  }
  static KeyPath longer(KeyPath path, std::string name) {
    path.push_back(std::move(name));
    return path;
  }

  const Entry& entry_;
  EntryRef ref_;
  const Entry& thing_;
  std::string to_;
  std::vector<Edit> edits_;
};

Result<std::string> new_id(const garden::Draft& draft, const std::string& id, std::string_view name,
                           const char* where) {
  std::string word = id_of_name(name);
  if (word.empty())
    return fail(ErrorCode::kBadId, where, "A name has a letter a–z or a figure in it.", "");
  if (name.size() > kLongestId)
    return fail(ErrorCode::kBadId, where, fmt::format("A name has at most {} letters.", kLongestId),
                "Make it shorter.");
  if (word == id || !is_taken(draft, word)) return word;
  return fail(ErrorCode::kRepeatedId, where,
              fmt::format("Something here is called “{}” already.", word),
              fmt::format("“{}” is free.", fresh_id(draft, word)));
}

/// The new id in the place of the old one, in whatever refers to it.
std::vector<Edit> edits_of(const garden::Draft& draft, const Entry& own, const std::string& to) {
  std::vector<Edit> all;
  std::map<std::string, std::size_t> counted;
  for (const Entry& entry : draft.entries) {
    const std::size_t nth = counted[entry.table]++;
    const TableSchema* table = garden::find_table(entry.table);
    if (table == nullptr) continue;
    const Entry* thing = entry.table == "change" ? draft.with_id(entry.text("thing")) : nullptr;
    const TableSchema* changed = thing == nullptr ? nullptr : garden::find_table(thing->table);
    Renaming within(entry, EntryRef{entry.table, entry.id, nth}, own, to);
    auto edits = within.edits(*table, changed);
    std::move(edits.begin(), edits.end(), std::back_inserter(all));
  }
  return all;
}

}  // namespace

std::string id_of_name(std::string_view name) { return as_id(name); }

Result<Renamed> rename(const garden::Draft& draft, const std::string& id, std::string_view name) {
  const Entry* own = draft.with_id(id);
  const TableSchema* own_table = own == nullptr ? nullptr : garden::find_table(own->table);
  if (own_table == nullptr || !own_table->thing)
    return fail(ErrorCode::kUnknownId, "", fmt::format("There is no thing called “{}”.", id),
                "It may have been taken away, or renamed, in another window.");
  auto word = new_id(draft, id, name, "/rename");
  if (!word) return tl::unexpected<Error>(word.error());
  Renamed renamed{std::move(*word), {}};
  if (renamed.id == id) return renamed;
  renamed.edits = edits_of(draft, *own, renamed.id);
  // Last, so that all before it find the entry.
  renamed.edits.emplace_back(SetKey{EntryRef{own->table, id}, {"id"}, toml_text(renamed.id)});
  return renamed;
}

Result<Renamed> rename_scheme(const garden::Draft& draft, const std::string& scheme,
                              std::string_view name) {
  const auto own = std::find_if(
      draft.entries.begin(), draft.entries.end(),
      [&](const Entry& entry) { return entry.table == "scheme" && entry.id == scheme; });
  if (own == draft.entries.end())
    return fail(ErrorCode::kUnknownId, "",
                fmt::format("There is no scheme called “{}” to be named.", scheme),
                "It may have been dropped, or renamed, in another window.");
  auto word = new_id(draft, scheme, name, "/called");
  if (!word) return tl::unexpected<Error>(word.error());
  Renamed renamed{std::move(*word), {}};
  const EntryRef ref{"scheme", scheme};
  const bool says_more = renamed.id != name;
  if (says_more && own->text("title") != name)
    renamed.edits.emplace_back(SetKey{ref, {"title"}, toml_text(name)});
  if (!says_more && own->find("title") != nullptr)
    renamed.edits.emplace_back(RemoveKey{ref, {"title"}});
  if (renamed.id == scheme) return renamed;
  auto edits = edits_of(draft, *own, renamed.id);
  std::move(edits.begin(), edits.end(), std::back_inserter(renamed.edits));
  renamed.edits.emplace_back(SetKey{ref, {"id"}, toml_text(renamed.id)});
  return renamed;
}

}  // namespace spadework::document
