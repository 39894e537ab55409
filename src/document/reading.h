// What is shared while one document is read. For the document room alone.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "document/known_words.h"
#include "document/problems.h"
#include "document/toml_tree.h"
#include "garden/entry.h"
#include "garden/schema.h"

namespace spadework::document {

using garden::Entry;
using garden::Field;
using garden::KeySchema;
using garden::List;
using garden::Record;
using garden::TableSchema;
using garden::TextPlace;
using garden::TypeSchema;
using garden::Value;
using garden::ValueType;

/// An id that stands somewhere in the document and must be that of an entry.
struct Reference {
  std::string id;
  TextPlace at;                     // of the key
  std::string name;                 // of the key
  bool point = false;               // a point is wanted, by itself or by a survey
  std::vector<std::string> tables;  // else one of these; empty: any thing
  std::string part;                 // of its entry, as a JSON pointer
};

struct Reading {
  explicit Reading(const KnownWords& words) : known(words) {}
  const KnownWords& known;
  Problems problems;
  std::vector<Reference> references;
  std::vector<std::string> faulty;  // keys of the entry being read whose values are wrong
};

/// One value that is asked for: its type, and the key in whose name problems are told.
struct Asked {
  const TypeSchema& type;
  std::string name;  // as messages name it: "height_m", "boards.height"
  TextPlace at;      // of the key in the document
};

/// A table or record whose fields are read.
struct Owner {
  std::string label;  // `[[wall]] lane-wall`, `boards`
  std::string path;   // before the names of its keys: "", "boards."
  TextPlace where;    // where a missing key is told
};

/// The value by its type, or nothing after telling what is wrong with it.
[[nodiscard]] std::optional<Value> read_value(Reading& reading, const Asked& asked,
                                              const TomlNode& node);
/// The fields that are fine; unknown and missing keys are told.
[[nodiscard]] Record read_fields(Reading& reading, const std::vector<KeySchema>& keys,
                                 const TomlTable& table, const Owner& owner);
/// One field, after telling if there is no such key.
void read_field(Reading& reading, const std::vector<KeySchema>& keys, const TomlField& field,
                const Owner& owner, Record& out);

// By kinds of types (read_figures.cpp, read_words.cpp, read_shapes.cpp).
[[nodiscard]] std::optional<Value> read_figure(Reading& reading, const Asked& asked,
                                               const TomlNode& node);
[[nodiscard]] std::optional<Value> read_word(Reading& reading, const Asked& asked,
                                             const TomlNode& node);
[[nodiscard]] std::optional<Value> read_shape(Reading& reading, const Asked& asked,
                                              const TomlNode& node);

/// Tells that another sort of value belongs here; always nothing.
std::optional<Value> wrong_type(Reading& reading, const Asked& asked, const TomlNode& node);
/// Lower case with `-`, if anything of the text can stay; else empty.
[[nodiscard]] std::string as_id(std::string_view text);
[[nodiscard]] bool is_id(std::string_view text);
/// A figure in few digits: `0.05`, `30`.
[[nodiscard]] std::string short_number(double value);

}  // namespace spadework::document
