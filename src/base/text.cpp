#include "base/text.h"

#include <algorithm>
#include <cctype>
#include <cstddef>

namespace spadework {
namespace {

std::string plain(std::string_view word) {
  std::string out;
  for (char c : word) {
    if (c == '-' || c == '_' || c == ' ') continue;
    out += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  return out;
}

}  // namespace

int slips_between(std::string_view a, std::string_view b) {
  const std::size_t columns = b.size() + 1;
  std::vector<int> before(columns), last(columns), row(columns);
  for (std::size_t j = 0; j < columns; ++j) last[j] = static_cast<int>(j);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = static_cast<int>(i);
    for (std::size_t j = 1; j < columns; ++j) {
      const int cost = a[i - 1] == b[j - 1] ? 0 : 1;
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + cost});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        row[j] = std::min(row[j], before[j - 2] + 1);
      }
    }
    before.swap(last);
    last.swap(row);
  }
  return last[columns - 1];
}

std::string nearest_word(std::string_view typed, const std::vector<std::string>& known) {
  if (typed.size() > 64) return {};
  const std::string wanted = plain(typed);
  std::string best;
  int best_slips = 1000;
  for (const std::string& word : known) {
    const std::string candidate = plain(word);
    int slips = slips_between(wanted, candidate);
    const std::size_t shorter = std::min(wanted.size(), candidate.size());
    const bool begins = shorter >= 3 && wanted.compare(0, shorter, candidate, 0, shorter) == 0;
    if (begins) slips = std::min(slips, 2);
    const int allowed =
        begins ? 2 : static_cast<int>(std::max(wanted.size(), candidate.size()) + 2) / 3;
    if (slips <= allowed && slips < best_slips) {
      best_slips = slips;
      best = word;
    }
  }
  return best;
}

std::string list_words(const std::vector<std::string>& words, std::string_view joined_by) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? " " + std::string(joined_by) + " " : ", ";
    out += words[i];
  }
  return out;
}

int shown_width(std::string_view utf8) {
  int width = 0;
  for (char c : utf8) {
    if ((static_cast<unsigned char>(c) & 0xC0) != 0x80) ++width;
  }
  return width;
}

}  // namespace spadework
