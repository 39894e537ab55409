#include "document/problems.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "base/text.h"
#include "document/limits.h"

namespace spadework::document {
namespace {

constexpr std::size_t kMostCompared = 400'000;  // words, over all hints of a document

}  // namespace

bool is_before(garden::TextPlace a, garden::TextPlace b) {
  return a.line != b.line ? a.line < b.line : a.column < b.column;
}

std::string quoted(std::string_view text) {
  constexpr std::size_t kLongest = 60;
  std::string out = "\"";
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool character_begins = (static_cast<unsigned char>(text[i]) & 0xC0) != 0x80;
    if (i >= kLongest && character_begins) return out + "…\"";
    out += static_cast<unsigned char>(text[i]) < 0x20 || text[i] == 0x7F ? ' ' : text[i];
  }
  return out + "\"";
}

void Problems::tell(garden::TextPlace at, ErrorCode code, std::string message, std::string hint) {
  tell_of(part_, at, code, std::move(message), std::move(hint));
}

void Problems::tell_of(std::string part, garden::TextPlace at, ErrorCode code, std::string message,
                       std::string hint) {
  if (all_.size() >= kMostProblems) {
    ++more_;
    return;
  }
  all_.push_back({at, code, std::move(message), std::move(hint), std::move(part)});
}

std::string Problems::hint_for(std::string_view typed, const std::vector<std::string>& known,
                               std::string otherwise) {
  compared_ += known.size();
  if (compared_ > kMostCompared || all_.size() >= kMostProblems) return otherwise;
  const std::string near = nearest_word(typed, known);
  return near.empty() ? otherwise : fmt::format("did you mean {}?", near);
}

std::vector<Error> Problems::sorted(const std::string& file) const {
  std::vector<const Problem*> order;
  for (const Problem& problem : all_) order.push_back(&problem);
  std::stable_sort(order.begin(), order.end(),
                   [](const Problem* a, const Problem* b) { return is_before(a->at, b->at); });
  std::vector<Error> out;
  for (const Problem* problem : order) {
    out.push_back({problem->code,
                   fmt::format("{}:{}:{}", file, problem->at.line, problem->at.column),
                   problem->message, problem->hint, problem->part});
  }
  if (more_ > 0) {
    out.push_back(
        {ErrorCode::kTooLarge, fmt::format("{}:1:1", file),
         fmt::format("there are {} more problems than the {} told here", more_, kMostProblems),
         "mend these first"});
  }
  return out;
}

std::string some_words(const std::vector<std::string>& words, std::size_t most) {
  if (words.size() <= most) return list_words(words);
  std::string out;
  for (std::size_t i = 0; i < most; ++i) out += words[i] + ", ";
  return out + "…";
}

}  // namespace spadework::document
