// What the catalogue knows, as far as reading a document needs it. The caller fills it from the
// facts.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace spadework::document {

/// Catalogues that the schema names: "tree", "barrier", "support", "cover", "crop", "texture",
/// "surface", "treatment", "material", "patch", "roof", "service", "family"; and "station", "form"
/// and "currency". A catalogue for which `words_of` is not set or gives nothing is not checked
/// against; for "currency" the codes of ISO 4217 are then taken.
struct KnownWords {
  /// Whether the catalogue has the word, by any of its names.
  std::function<bool(std::string_view catalogue, std::string_view word)> knows;
  /// All its words, for hints.
  std::function<std::vector<std::string>(std::string_view catalogue)> words_of;
};

/// From plain lists; capitals, spaces, `-` and `_` do not matter.
[[nodiscard]] KnownWords known_words(std::map<std::string, std::vector<std::string>> lists);

/// The currency codes of ISO 4217. Source: [iso4217]
[[nodiscard]] const std::vector<std::string>& currency_codes();

}  // namespace spadework::document
