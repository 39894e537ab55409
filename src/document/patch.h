// Edits of a garden document's text: what an edit does not name stays as it is, byte for byte.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/result.h"

namespace spadework::document {

/// Which entry: by its id; the only one of a single table; or the nth of a table without ids.
struct EntryRef {
  std::string table;    // "wall", "climate.month", "crop"; with an id it may be empty
  std::string id = {};  // also the name of `[crop."name"]`
  std::size_t nth = 0;  // from 0, when there is no id
};

/// Names of a key and of keys within it; a place in a list is its number from 0: {"mix", "0",
/// "share"}.
using KeyPath = std::vector<std::string>;

/// Sets a key to a value written as TOML (`1.4`, `"7 ft"`, `[[0, 0], [11, 0]]`) on one line. A key
/// that is not there yet is added after the entry's last key; a single table that is not there yet
/// is added too.
struct SetKey {
  EntryRef entry;
  KeyPath key;
  std::string value;
};
/// Removes a key with its line, the remark at the line's end included; remarks above it stay.
struct RemoveKey {
  EntryRef entry;
  KeyPath key;
};
struct KeyValue {
  std::string key, value;  // the value as TOML
};
/// Adds an entry after the last of its kind, or at the document's end.
struct AddEntry {
  std::string table;
  std::vector<KeyValue> keys;
  std::string name = {};  // of `[crop."name"]`
};
/// Removes an entry with its own remarks: those within it, and those directly above its header or
/// below its last key with no empty line between. A remark that opens the document stays.
struct RemoveEntry {
  EntryRef entry;
};
using Edit = std::variant<SetKey, RemoveKey, AddEntry, RemoveEntry>;

/// In:     a document's text and edits, carried out one after the other.
/// Out:    the text with them. Remarks, order, figures as typed and line ends stay. Tables in
///         brackets, keys with dots, tables in curly brackets and lists of them are edited in their
///         own form. Before it is given back, the text is read again and compared: it means what
///         was asked for and nothing else has changed.
/// Errors: kSyntax, kTooLarge (the text, or a value); kUnknownKey (a table or key that is not
/// there);
///         kUnknownId; kConflict (an entry that there can be only one of); kWrongUse (an edit that
///         this text's form does not allow).
[[nodiscard]] Result<std::string> patch(std::string_view text, const std::vector<Edit>& edits);

/// Text as TOML: in straight quotes, with what must be escaped escaped.
[[nodiscard]] std::string toml_text(std::string_view text);
/// The shortest figure that is read as the same number: `1.4`, `5`.
[[nodiscard]] std::string toml_number(double value);
/// A key as TOML: bare if it can be, else in quotes.
[[nodiscard]] std::string toml_key(std::string_view name);

}  // namespace spadework::document
