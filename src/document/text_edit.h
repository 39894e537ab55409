// How a text is changed: pieces put in and taken out, with lines, commas and remarks kept tidy. For
// the patcher alone.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "document/syntax_tree.h"

namespace spadework::document {

struct TextChange {
  Span span;         // what goes
  std::string text;  // what comes instead
};

class TextEdit {
 public:
  TextEdit(std::string_view text, const TomlText& cut);

  /// The text with all changes.
  [[nodiscard]] std::string done() const;

  void replace(Span span, std::string text) { changes_.push_back({span, std::move(text)}); }
  /// `key = value` on a line of its own after a statement, indented as it is.
  void add_line_after(std::size_t statement, const std::string& line);
  /// The first line of a document without keys outside of tables.
  void add_first_line(const std::string& line);
  /// Lines with an empty line before and after: after a statement and its remarks, …
  void add_section_after(std::size_t statement, const std::vector<std::string>& lines);
  /// … before a header and its remarks, …
  void add_section_before(std::size_t header, const std::vector<std::string>& lines);
  /// … or at the document's end.
  void add_section_at_end(const std::vector<std::string>& lines);
  /// One key's line.
  void remove_line(std::size_t statement);
  /// Statements that follow each other, with their remarks.
  void remove_statements(std::size_t first, std::size_t last);

  /// `key = value` at the end of an inline table, or after one of its pairs.
  void add_pair(const ValueSyntax& table, const std::string& pair);
  void add_pair_after(const ValueSyntax& table, std::size_t pair, const std::string& text);
  /// Pairs by their numbers, in order.
  void remove_pairs(const ValueSyntax& table, const std::vector<std::size_t>& pairs);
  void add_item(const ValueSyntax& list, const std::string& item);
  /// Items before the one of that number; that of none is the end.
  void add_items(const ValueSyntax& list, std::size_t before,
                 const std::vector<std::string>& items);
  void remove_item(const ValueSyntax& list, std::size_t item);

 private:
  [[nodiscard]] std::size_t line_begin(std::size_t byte) const;
  [[nodiscard]] std::size_t line_end(std::size_t byte) const;   // before the line's end
  [[nodiscard]] std::size_t next_line(std::size_t byte) const;  // after it
  [[nodiscard]] bool is_blank_line(std::size_t begin) const;
  [[nodiscard]] bool is_remark_line(std::size_t begin) const;
  /// Where a header's own remarks begin.
  [[nodiscard]] std::size_t remarks_begin(std::size_t statement) const;
  /// Where a statement's own remarks below it end.
  [[nodiscard]] std::size_t remarks_end(std::size_t statement) const;
  [[nodiscard]] std::string joined(const std::vector<std::string>& lines) const;
  /// Past spaces, line ends and remarks in a list.
  [[nodiscard]] std::size_t skip_to_sign(std::size_t byte) const;
  [[nodiscard]] std::size_t skip_spaces(std::size_t byte) const;
  [[nodiscard]] bool alone_on_line(Span item, std::size_t comma_end) const;

  std::string_view text_;
  const TomlText& cut_;
  std::string newline_;
  std::size_t top_;  // after a byte order mark
  std::vector<TextChange> changes_;
};

}  // namespace spadework::document
