// What a garden document says, read but not yet resolved: entries of checked values, each with the
// place in the text where it stands. `document/` makes a Draft from TOML; `garden/` makes gardens
// of it, one for each scheme.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "base/base.h"

namespace spadework::garden {

/// A place in the document's text; lines and columns count from 1, line 0 is nowhere.
struct TextPlace {
  int line = 0;
  int column = 0;
};

struct Value;
struct Field;
using List = std::vector<Value>;
using Record = std::vector<Field>;

/// One value, already converted by the schema: lengths in metres, areas in square metres, angles in
/// degrees, temperatures in °C, shares from 0 to 1. A place is a List of two numbers or the Text of
/// a point's id.
struct Value {
  std::variant<double, std::string, bool, LocalDate, List, Record> is;
  TextPlace where;
  std::string typed;  // a number or unit as the user typed it: `"7 ft"`, `0.28`

  [[nodiscard]] const double* number() const { return std::get_if<double>(&is); }
  [[nodiscard]] const std::string* text() const { return std::get_if<std::string>(&is); }
  [[nodiscard]] const bool* yes_no() const { return std::get_if<bool>(&is); }
  [[nodiscard]] const LocalDate* date() const { return std::get_if<LocalDate>(&is); }
  [[nodiscard]] const List* list() const { return std::get_if<List>(&is); }
  [[nodiscard]] const Record* record() const { return std::get_if<Record>(&is); }
};

struct Field {
  std::string key;
  TextPlace where;  // of the key
  Value value;
};

/// The field of that key, or nothing.
[[nodiscard]] const Field* find_field(const Record& record, std::string_view key);

/// One table of the document: `[garden]`, one `[[wall]]`, one `[crop."pea"]` (its name in `id`).
struct Entry {
  std::string table;  // schema name: "garden", "wall", "climate.month", "crop", "change"
  std::string id;     // empty where the table has none or none was given
  TextPlace where;    // of the header, or of the first key
  Record fields;      // in the document's order, `id` among them

  [[nodiscard]] const Value* find(std::string_view key) const;
  /// A key's text; empty where it has none.
  [[nodiscard]] std::string text(std::string_view key) const;
  /// The keys whose figures were not measured, as `guessed` names them.
  [[nodiscard]] std::vector<std::string> guessed() const;
};

struct Draft {
  std::string file;            // as messages name it: "ker-avel.toml"
  std::vector<Entry> entries;  // in the document's order
  TimeZone time_zone;

  /// `ker-avel.toml:41:7`.
  [[nodiscard]] std::string at(TextPlace place) const;
  /// The only entry of a single table such as "garden", or nothing.
  [[nodiscard]] const Entry* single(std::string_view table) const;
  /// The entry with that id, or nothing.
  [[nodiscard]] const Entry* with_id(std::string_view id) const;
};

}  // namespace spadework::garden
