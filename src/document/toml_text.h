// A TOML text cut into its pieces, each with the bytes where it stands. It says where things are,
// so that edits can touch them and nothing else; what they mean is read by `toml_tree.h`. It takes
// a little more than TOML allows and never less.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "garden/entry.h"

namespace spadework::document {

/// Bytes [begin, end) of the text.
struct Span {
  std::size_t begin = 0, end = 0;
};

struct KeyPart {
  std::string name;  // without quotes, escapes resolved
  Span span;
};

struct PairSyntax;
struct ValueSyntax {
  enum class Form { kSingle, kList, kInlineTable };
  Form form = Form::kSingle;
  Span span;
  std::vector<ValueSyntax> items;  // of a list
  std::vector<PairSyntax> pairs;   // of an inline table
};

struct PairSyntax {
  std::vector<KeyPart> key;  // dotted
  ValueSyntax value;
  [[nodiscard]] Span span() const { return {key.front().span.begin, value.span.end}; }
};

/// `[table]`, `[[table]]` or `key = value`.
struct Statement {
  enum class Form { kTable, kTableList, kPair };
  Form form = Form::kPair;
  Span lines;                // whole lines, with their ends
  std::vector<KeyPart> key;  // of a header
  PairSyntax pair;
};

struct TomlText {
  std::vector<Statement> statements;
  /// Where it could not go on, if it is no TOML.
  std::optional<std::size_t> lost_at;
  /// Where a limit of limits.h is passed; nothing is read after that.
  std::optional<std::size_t> too_deep_at, too_many_headers_at, too_many_values_at;
};

/// The pieces of a text. Takes time in proportion to it.
[[nodiscard]] TomlText cut_toml(std::string_view text);
/// The same without keeping the pieces: only where it is lost or beyond a limit.
[[nodiscard]] TomlText check_toml(std::string_view text);
/// One value and nothing else, without comments or line ends around it; nothing if it is none.
[[nodiscard]] std::optional<ValueSyntax> cut_value(std::string_view text);

/// Turns places in a text (lines and characters, from 1) into bytes and back.
class TextPlaces {
 public:
  explicit TextPlaces(std::string_view text);
  [[nodiscard]] garden::TextPlace place_of(std::size_t byte) const;
  /// The byte of a place; the end of its line if the line has fewer characters.
  [[nodiscard]] std::size_t byte_of(garden::TextPlace place);

 private:
  struct Line {
    std::size_t begin = 0;
    bool ascii = true;
    std::vector<std::size_t> characters;  // where each begins; filled when first asked for
  };
  std::string_view text_;
  std::vector<Line> lines_;
};

}  // namespace spadework::document
