// Latin letters without their marks, for ids. For the document room alone.
#pragma once

#include <string>
#include <string_view>

namespace spadework::document {

/// UTF-8 whose letters of U+00C0 to U+017F are plain ones, in lower case ("Süd" as "Sud", "ß" as
/// "ss", "ø" as "o"), without apostrophes and without marks that stand by themselves. All else
/// stays.
[[nodiscard]] std::string folded(std::string_view text);

}  // namespace spadework::document
