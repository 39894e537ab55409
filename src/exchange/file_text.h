// What the readers of weather files share: places in a file, figures, words fit for a message.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/base.h"

namespace spadework::exchange {

inline constexpr std::size_t kMostBytes = 64u << 20;
inline constexpr std::size_t kMostNotes = 8;

/// Text of the file's, fit to stand in a message: one line of clean UTF-8, not too long.
[[nodiscard]] std::string shown(std::string_view text);
/// Without blanks at either end.
[[nodiscard]] std::string_view trimmed(std::string_view text);
/// Lower case, ASCII only.
[[nodiscard]] std::string lower(std::string_view text);

/// One line of a file; its fields are views into `text`.
struct FileLine {
  std::string_view file, text;
  int number = 1;

  /// "dublin.csv:41:7" of a field of this line.
  [[nodiscard]] std::string where(std::string_view field) const;
  /// Of the line's end.
  [[nodiscard]] std::string where_end() const;
};

inline constexpr std::size_t kMostColumns = 500;
/// The fields of a row without blanks around them; at most one more than kMostColumns.
[[nodiscard]] std::vector<std::string_view> fields_of(std::string_view row);

/// A finite number, the whole text of it, with a point; nothing otherwise.
[[nodiscard]] std::optional<double> plain_number(std::string_view text);

/// A number of a field between two bounds.
/// Errors: kWrongType, kImpossibleValue; `what` names the figure: "lowest temperature".
[[nodiscard]] Result<double> bounded_number(const FileLine& line, std::string_view field,
                                            std::string_view what, double low, double high);

/// "12 days have no rain."; nothing for none.
void note_missing(std::vector<std::string>& notes, std::size_t missing, std::size_t of,
                  std::string_view what);

/// Whether the bytes can be a text at all. Errors: kSyntax, kTooLarge.
[[nodiscard]] std::optional<Error> not_a_text(std::string_view bytes, std::string_view name);

}  // namespace spadework::exchange
