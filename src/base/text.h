// Words: the nearest known one, lists, counts.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace spadework {

/// How many single-letter slips (insert, leave out, replace, swap neighbours) lie between two
/// words. Source: [damerau] optimal string alignment.
[[nodiscard]] int slips_between(std::string_view a, std::string_view b);

/// The known word that the user probably meant, or empty: at most a third of its letters differ, or
/// one begins with the other. Case, `-`, `_` and spaces count as alike.
[[nodiscard]] std::string nearest_word(std::string_view typed,
                                       const std::vector<std::string>& known);

/// "a", "a or b", "a, b or c".
[[nodiscard]] std::string list_words(const std::vector<std::string>& words,
                                     std::string_view joined_by = "or");

/// How many columns a terminal shows for UTF-8 text (wide characters are not used here).
[[nodiscard]] int shown_width(std::string_view utf8);

}  // namespace spadework
