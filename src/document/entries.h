// Which tables stand in a document, before their keys are read. For the document room alone.
#pragma once

#include <string>
#include <unordered_map>
#include <vector>

#include "document/reading.h"

namespace spadework::document {

/// A table of the document that the schema knows.
struct EntrySource {
  const TableSchema* schema = nullptr;
  const TomlNode* node = nullptr;  // a table
  TextPlace where;
  std::string id;  // as it stands there, or the name of `[crop."name"]`
};

/// The document's tables in its order. Unknown tables and wrong brackets are told.
[[nodiscard]] std::vector<EntrySource> find_entries(Reading& reading, const TomlNode& root);

/// `[[wall]] lane-wall`, `[garden]`.
[[nodiscard]] std::string label_of(const TableSchema& schema, const std::string& id);
/// "a wall", "an area".
[[nodiscard]] std::string noun_of(const std::string& table);

/// What an id of the document names.
struct Named {
  std::string table;
  TextPlace where;  // of the key `id`
  std::size_t entry = 0;
};
using Names = std::unordered_map<std::string, Named>;

/// The ids of entries that have one; an id that is there twice is told at the later one.
[[nodiscard]] Names find_names(Reading& reading, const std::vector<EntrySource>& sources);

}  // namespace spadework::document
