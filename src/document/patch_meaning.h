// What an edit means, said of the tree that a text is read into. For the patcher alone.
#pragma once

#include "document/patch.h"
#include "document/toml_tree.h"

namespace spadework::document {

/// Where an entry stands in the tree: {"wall", "3"}, {"garden"}, {"crop", "pea"}, {} for `format`.
[[nodiscard]] Result<KeyPath> path_of(const TomlNode& root, const EntryRef& entry);
/// The table's path without its last number: {"climate", "month"}.
[[nodiscard]] KeyPath table_path(std::string_view table);

/// The node at a path, or nothing.
[[nodiscard]] const TomlNode* node_at(const TomlNode& root, const KeyPath& path);

/// What a value written as TOML on one line means.
[[nodiscard]] Result<TomlNode> read_value_text(const std::string& value);

/// The same edits on the tree. False if the path leads through something that is no table or list.
bool set_meaning(TomlNode& root, const KeyPath& path, TomlNode value);
bool remove_meaning(TomlNode& root, const KeyPath& path);
bool append_meaning(TomlNode& root, const KeyPath& list, TomlNode item);
/// Takes away tables on the way of the path that have nothing in them.
void prune_meaning(TomlNode& root, KeyPath path);

}  // namespace spadework::document
