// The schema descriptor: every table and key of the garden document, once. The reader, its hints,
// `docs/document.md` and later the API types and the app's forms are all made from it.
#pragma once

#include <limits>
#include <string>
#include <string_view>
#include <vector>

namespace spadework::garden {

enum class ValueType {
  kNumber,       // a plain number within [low, high]
  kWhole,        // a whole number within [low, high]
  kShare,        // a number from 0 to 1
  kLength,       // metres, or text with a unit: "7 ft", "6 ft 6 in", "195 mm"
  kStem,         // a length: the stem's width, or text "girth 0.9 m"
  kAngle,        // degrees
  kTemperature,  // °C, or text with a unit: "28 F"
  kText,         // free text
  kYesNo,        // true or false
  kDate,         // a TOML date: 2026-01-17
  kDay,          // a day of any year "MM-DD", or a date
  kId,           // the entry's own id
  kReference,    // the id of an entry of one of `tables` (empty: of any)
  kChoice,       // one of `words`
  kWord,      // a word of the catalogue named in `catalogue`; unknown ones are errors with a hint
  kFreeWord,  // a word of that catalogue, or any other of the user's own
  kPlace,     // [x, y] in metres or lengths with units, or the id of a point
  kLine,      // a list of at least two places
  kOutline,   // a list of at least three places that does not cross itself
  kSpot,      // [x, y, z]
  kSize,      // [length, length], both above 0
  kHorizonPoint,  // [bearing_deg, altitude_deg]
  kAmount,        // "6 kg", "30 heads", "2 meals a week", "some"
  kTimeZone,      // an IANA name
  kList,          // a list of `item`
  kOneOrMany,     // one `item` or a list of them
  kRecord,        // an inline table with `fields`
  kMap,           // any names, each with an `item`
  kTie,           // [point, from, length]
  kReading,       // one line of a level book: a record with `fields`
};

struct KeySchema;

struct TypeSchema {
  ValueType type = ValueType::kText;
  double low = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();
  std::vector<std::string> words;   // kChoice; or words that a key also takes: "auto"
  std::vector<std::string> tables;  // kReference
  std::string catalogue;            // kWord, kFreeWord: "tree", "barrier", "crop", …
  std::vector<KeySchema> fields;    // kRecord
  std::vector<TypeSchema> item;     // kList, kMap, kOneOrMany: exactly one
};

struct KeySchema {
  std::string name;
  TypeSchema type;
  bool needed = false;
  std::string default_says;  // the default as TOML: `0.03`, `"auto"`; empty: none
  std::string says;          // one plain sentence
};

enum class TableForm {
  kValue,   // `format = 1`
  kSingle,  // [garden]
  kMany,    // [[wall]]
  kNamed,   // [crop."name"]
};

struct TableSchema {
  std::string name;  // "garden", "wall", "climate.month"
  TableForm form = TableForm::kMany;
  bool thing = false;  // takes status, removed, phase, note, guessed, scheme; can be changed
  std::vector<KeySchema> keys;
  std::string says;
};

/// All tables, in the order of the documentation.
[[nodiscard]] const std::vector<TableSchema>& schema();
/// The table of that name, or nothing.
[[nodiscard]] const TableSchema* find_table(std::string_view name);
/// A key of a table, or nothing; the common keys of things are among them.
[[nodiscard]] const KeySchema* find_key(const TableSchema& table, std::string_view key);
/// Whether its entries are things of the sheet: what stands or lies somewhere, and what is to be
/// seen from somewhere. All others, such as what is wanted, are the same in every scheme.
[[nodiscard]] bool is_on_sheet(const TableSchema& table);
/// Keys of a thing that say the same as this key in another way (`outline`: `at`, `size`, …): a
/// change that gives this one takes them away.
[[nodiscard]] const std::vector<std::string>& rivals_of(std::string_view key);
/// The default of a key as a number in its unit; stops the program if the key has no such default.
[[nodiscard]] double default_number(std::string_view table, std::string_view key);
/// The default of a key as text, without quotes; stops the program if the key has none.
[[nodiscard]] std::string default_text(std::string_view table, std::string_view key);
/// `docs/document.md`, made from the schema.
[[nodiscard]] std::string schema_document();

}  // namespace spadework::garden
