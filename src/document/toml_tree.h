// TOML as a tree in the document's order, each key and value with the place where it stands.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/date.h"
#include "base/result.h"
#include "garden/entry.h"

namespace spadework::document {

struct TomlField;
struct TomlNode;
using TomlList = std::vector<TomlNode>;
using TomlTable = std::vector<TomlField>;

/// A time of day, or a date with one: nothing in a garden document takes it.
struct TomlTime {
  std::string typed;
  friend bool operator==(const TomlTime&, const TomlTime&) = default;
};

struct TomlNode {
  std::variant<std::string, std::int64_t, double, bool, LocalDate, TomlTime, TomlList, TomlTable>
      is;
  garden::TextPlace where;  // of the value; of the header for `[table]` and `[[table]]`
  std::string typed;        // figures and short texts as they stand in the document

  [[nodiscard]] const std::string* text() const { return std::get_if<std::string>(&is); }
  [[nodiscard]] const TomlList* list() const { return std::get_if<TomlList>(&is); }
  [[nodiscard]] const TomlTable* table() const { return std::get_if<TomlTable>(&is); }
};

struct TomlField {
  std::string key;
  garden::TextPlace where;  // of the key
  TomlNode value;
};

[[nodiscard]] const TomlField* find_field(const TomlTable& table, std::string_view key);
/// Same keys with the same meaning, whatever their order and where they stand; 3 is 3.0.
[[nodiscard]] bool same_meaning(const TomlNode& a, const TomlNode& b);

/// A syntax error: where, and what in plain words.
struct SyntaxError {
  garden::TextPlace where;
  ErrorCode code = ErrorCode::kSyntax;
  std::string message, hint;
};

/// The tree of a whole text.
/// Errors: kSyntax for the first place where it is no TOML; kTooLarge beyond the limits of
/// limits.h.
[[nodiscard]] tl::expected<TomlNode, SyntaxError> read_toml(std::string_view text);

/// What a syntax error is in plain words, by what stands there. `about` is the parser's own word.
[[nodiscard]] SyntaxError plain_syntax_error(std::string_view text, garden::TextPlace where,
                                             std::string_view about);

}  // namespace spadework::document
