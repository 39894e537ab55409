#include "document/patch_meaning.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "base/text.h"
#include "document/entries.h"
#include "document/problems.h"
#include "document/toml_text.h"
#include "garden/schema.h"

namespace spadework::document {
namespace {

using garden::TableForm;

std::size_t number_of(const std::string& name) {
  std::size_t index = 0;
  const auto [end, error] = std::from_chars(name.data(), name.data() + name.size(), index);
  return error == std::errc() && end == name.data() + name.size() && !name.empty()
             ? index
             : static_cast<std::size_t>(-1);
}

TomlNode* step(TomlNode& node, const std::string& name) {
  if (auto* list = std::get_if<TomlList>(&node.is)) {
    const std::size_t index = number_of(name);
    return index < list->size() ? &(*list)[index] : nullptr;
  }
  if (auto* table = std::get_if<TomlTable>(&node.is)) {
    for (TomlField& field : *table) {
      if (field.key == name) return &field.value;
    }
  }
  return nullptr;
}

TomlNode* walk(TomlNode& root, const KeyPath& path, std::size_t steps) {
  TomlNode* node = &root;
  for (std::size_t i = 0; node != nullptr && i < steps; ++i) node = step(*node, path[i]);
  return node;
}

std::string id_in(const TomlNode& node) {
  const TomlTable* table = node.table();
  const TomlField* id = table == nullptr ? nullptr : find_field(*table, "id");
  return id == nullptr || id->value.text() == nullptr ? std::string() : *id->value.text();
}

/// Ids of the tables of that name (of all, if empty), for the hint.
std::vector<std::string> ids_in(const TomlNode& root, std::string_view table) {
  std::vector<std::string> out;
  for (const garden::TableSchema& schema : garden::schema()) {
    if (schema.form != TableForm::kMany || (!table.empty() && schema.name != table)) continue;
    const TomlNode* list = node_at(root, table_path(schema.name));
    if (list == nullptr || list->list() == nullptr) continue;
    for (const TomlNode& item : *list->list()) {
      if (const std::string id = id_in(item); !id.empty()) out.push_back(id);
    }
  }
  return out;
}

Result<KeyPath> with_id(const TomlNode& root, const EntryRef& entry) {
  for (const garden::TableSchema& schema : garden::schema()) {
    if (schema.form != TableForm::kMany || schema.name == "change") continue;
    if (!entry.table.empty() && schema.name != entry.table) continue;
    KeyPath path = table_path(schema.name);
    const TomlNode* list = node_at(root, path);
    if (list == nullptr || list->list() == nullptr) continue;
    for (std::size_t i = 0; i < list->list()->size(); ++i) {
      if (id_in((*list->list())[i]) != entry.id) continue;
      path.push_back(std::to_string(i));
      return path;
    }
  }
  const std::string near = nearest_word(entry.id, ids_in(root, entry.table));
  return fail(
      ErrorCode::kUnknownId, "",
      fmt::format("no {} is called {}", entry.table.empty() ? "entry" : entry.table,
                  quoted(entry.id)),
      near.empty() ? "look at the ids of the document" : fmt::format("did you mean {}?", near));
}

}  // namespace

KeyPath table_path(std::string_view table) {
  KeyPath out;
  for (;;) {
    const std::size_t dot = table.find('.');
    out.emplace_back(table.substr(0, dot));
    if (dot == std::string_view::npos) return out;
    table.remove_prefix(dot + 1);
  }
}

const TomlNode* node_at(const TomlNode& root, const KeyPath& path) {
  return walk(const_cast<TomlNode&>(root), path, path.size());
}

Result<KeyPath> path_of(const TomlNode& root, const EntryRef& entry) {
  if (entry.table.empty() && !entry.id.empty()) return with_id(root, entry);
  const garden::TableSchema* schema = garden::find_table(entry.table);
  if (schema == nullptr) {
    std::vector<std::string> names;
    for (const garden::TableSchema& each : garden::schema()) names.push_back(each.name);
    const std::string near = nearest_word(entry.table, names);
    return fail(ErrorCode::kUnknownKey, "",
                fmt::format("there is no table {} in a garden document", quoted(entry.table)),
                near.empty() ? "its tables are " + some_words(names, 50)
                             : fmt::format("did you mean {}?", near));
  }
  if (schema->form == TableForm::kValue) return KeyPath{};
  KeyPath path = table_path(schema->name);
  if (schema->form == TableForm::kSingle) return path;
  if (schema->form == TableForm::kNamed) {
    path.push_back(entry.id);
    return path;
  }
  if (!entry.id.empty()) return with_id(root, entry);
  const TomlNode* list = node_at(root, path);
  const std::size_t count = list == nullptr || list->list() == nullptr ? 0 : list->list()->size();
  if (entry.nth >= count) {
    return fail(ErrorCode::kUnknownId, "",
                fmt::format("there is no [[{}]] number {}; the document has {}", entry.table,
                            entry.nth + 1, count),
                "count from the first in the document");
  }
  path.push_back(std::to_string(entry.nth));
  return path;
}

Result<TomlNode> read_value_text(const std::string& value) {
  const auto refuse = [&](std::string hint) {
    return fail(ErrorCode::kSyntax, "", fmt::format("{} is no value", quoted(value)),
                std::move(hint));
  };
  if (value.find_first_of("\r\n") != std::string::npos) return refuse("write it on one line");
  if (!cut_value(value)) return refuse("text stands in quotes, lists in square brackets");
  auto root = read_toml("value = " + value);
  if (!root) return refuse(root.error().hint);
  return std::move(std::get<TomlTable>(root->is).front().value);
}

bool set_meaning(TomlNode& root, const KeyPath& path, TomlNode value) {
  TomlNode* node = &root;
  for (std::size_t i = 0; i + 1 < path.size(); ++i) {
    TomlNode* next = step(*node, path[i]);
    if (next == nullptr) {
      auto* table = std::get_if<TomlTable>(&node->is);
      if (table == nullptr) return false;
      table->push_back({path[i], {}, TomlNode{TomlTable{}, {}, {}}});
      next = &table->back().value;
    }
    node = next;
  }
  if (TomlNode* old = step(*node, path.back())) {
    *old = std::move(value);
    return true;
  }
  auto* table = std::get_if<TomlTable>(&node->is);
  if (table == nullptr) return false;
  table->push_back({path.back(), {}, std::move(value)});
  return true;
}

bool remove_meaning(TomlNode& root, const KeyPath& path) {
  TomlNode* parent = walk(root, path, path.size() - 1);
  if (parent == nullptr || step(*parent, path.back()) == nullptr) return false;
  if (auto* list = std::get_if<TomlList>(&parent->is)) {
    list->erase(list->begin() + static_cast<std::ptrdiff_t>(number_of(path.back())));
    return true;
  }
  auto& table = std::get<TomlTable>(parent->is);
  std::erase_if(table, [&](const TomlField& field) { return field.key == path.back(); });
  return true;
}

bool append_meaning(TomlNode& root, const KeyPath& list_path, TomlNode item) {
  TomlNode* list = walk(root, list_path, list_path.size());
  if (list == nullptr) {
    return set_meaning(root, list_path, TomlNode{TomlList{std::move(item)}, {}, {}});
  }
  if (auto* items = std::get_if<TomlList>(&list->is)) {
    items->push_back(std::move(item));
    return true;
  }
  return false;
}

void prune_meaning(TomlNode& root, KeyPath path) {
  for (path.pop_back(); !path.empty(); path.pop_back()) {
    TomlNode* node = walk(root, path, path.size());
    if (node == nullptr) continue;
    const auto* table = std::get_if<TomlTable>(&node->is);
    const auto* list = std::get_if<TomlList>(&node->is);
    const bool empty = (table != nullptr && table->empty()) || (list != nullptr && list->empty());
    if (!empty) return;
    remove_meaning(root, path);
  }
}

}  // namespace spadework::document
