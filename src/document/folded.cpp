#include "document/folded.h"

namespace spadework::document {
namespace {

// A letter for each of U+00C0 to U+017F; a capital stands for two letters, a space for none.
constexpr std::string_view kPlain =
    "aaaaaaAceeeeiiiidnooooo ouuuuyTSaaaaaaAceeeeiiiidnooooo ouuuuyTy"
    "aaaaaaccccccccddddeeeeeeeeeegggggggghhhhiiiiiiiiiiIIjjkkkllllllllll"
    "nnnnnnnnnooooooOOrrrrrrsssssssstttttt"
    "uuuuuuuuuuuuwwyyyzzzzzzs";
constexpr char32_t kFirst = 0xC0, kLast = 0x17F;
static_assert(kPlain.size() == kLast - kFirst + 1);

std::string plain(char letter) {
  switch (letter) {
    case 'A':
      return "ae";
    case 'O':
      return "oe";
    case 'T':
      return "th";
    case 'S':
      return "ss";
    case 'I':
      return "ij";
    default:
      return {letter};
  }
}

bool is_apostrophe(std::string_view sign) {
  for (const std::string_view one : {"’", "‘", "ʼ", "′"})
    if (sign == one) return true;
  return false;
}

/// Of two bytes; 0 for what is none of them.
char32_t letter_of(std::string_view two) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(two[i]); };
  if (two.size() < 2 || (byte(0) & 0xE0U) != 0xC0U || (byte(1) & 0xC0U) != 0x80U) return 0;
  return (byte(0) & 0x1FU) << 6U | (byte(1) & 0x3FU);
}

}  // namespace

std::string folded(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const char32_t letter = letter_of(text.substr(0, 2));
    const bool is_mark = letter >= 0x300 && letter < 0x370;  // combining ones
    std::size_t taken = 1;
    if (letter >= kFirst && letter <= kLast) {
      out += plain(kPlain[letter - kFirst]);
      taken = 2;
    } else if (is_mark || is_apostrophe(text.substr(0, 2))) {
      taken = 2;
    } else if (is_apostrophe(text.substr(0, 3))) {
      taken = 3;
    } else if (text[0] != '\'') {
      out += text[0];
    }
    text.remove_prefix(taken);
  }
  return out;
}

}  // namespace spadework::document
