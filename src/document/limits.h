// How large a garden document may be. What goes beyond is refused at once, with the limit named.
#pragma once

#include <cstddef>

namespace spadework::document {

inline constexpr std::size_t kMostBytes = 4'000'000;  // of the document's text
inline constexpr int kDeepest = 16;                   // tables and lists within each other
inline constexpr std::size_t kMostEntries = 20'000;   // [tables] and [[tables]] together
inline constexpr std::size_t kMostValues = 500'000;   // single figures and words
inline constexpr std::size_t kMostCorners = 500;      // of one outline or line
inline constexpr std::size_t kMostSchemes = 50;       // [[scheme]] entries
inline constexpr std::size_t kLongestId = 40;         // letters
inline constexpr std::size_t kMostProblems = 2'000;   // told of one document

}  // namespace spadework::document
