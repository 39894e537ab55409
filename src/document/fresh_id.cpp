#include "document/fresh_id.h"

#include <fmt/format.h>

#include <algorithm>

#include "document/reading.h"
#include "garden/garden.h"

namespace spadework::document {

std::string fresh_id(const garden::Draft& draft, std::string_view called) {
  constexpr std::size_t kLongest = 36;  // room for a number
  const std::string word = as_id(called.substr(0, kLongest));
  if (word.empty()) return word;
  const std::vector<std::string> schemes = garden::scheme_names(draft);
  const auto is_taken = [&](const std::string& id) {
    return draft.with_id(id) != nullptr ||
           std::find(schemes.begin(), schemes.end(), id) != schemes.end();
  };
  std::string id = word;
  for (int nth = 2; is_taken(id); ++nth) id = fmt::format("{}-{}", word, nth);
  return id;
}

}  // namespace spadework::document
