#include "document/fresh_id.h"

#include <fmt/format.h>

#include <algorithm>

#include "document/reading.h"
#include "garden/garden.h"

namespace spadework::document {
namespace {

/// Fixed points, and those tied or offset from others.
bool is_survey_point(const Entry& survey, std::string_view id) {
  if (const Value* fixed = survey.find("fixed");
      fixed != nullptr && fixed->record() != nullptr && garden::find_field(*fixed->record(), id))
    return true;
  const auto any_of = [&](const char* key, const auto& name_of) {
    const Value* value = survey.find(key);
    const List* list = value == nullptr ? nullptr : value->list();
    return list != nullptr && std::any_of(list->begin(), list->end(), [&](const Value& item) {
             const std::string* name = name_of(item);
             return name != nullptr && *name == id;
           });
  };
  return any_of("ties", [](const Value& tie) { return (*tie.list())[0].text(); }) ||
         any_of("offsets", [](const Value& offset) {
           const Field* point = garden::find_field(*offset.record(), "point");
           return point == nullptr ? nullptr : point->value.text();
         });
}

}  // namespace

bool is_taken(const garden::Draft& draft, std::string_view id) {
  if (draft.with_id(id) != nullptr) return true;
  const std::vector<std::string> schemes = garden::scheme_names(draft);
  if (std::find(schemes.begin(), schemes.end(), id) != schemes.end()) return true;
  const Entry* survey = draft.single("survey");
  return survey != nullptr && is_survey_point(*survey, id);
}

std::string fresh_id(const garden::Draft& draft, std::string_view called) {
  constexpr std::size_t kLongest = 36;  // room for a number
  std::string word = as_id(called);
  word.resize(std::min(word.size(), kLongest));
  while (!word.empty() && word.back() == '-') word.pop_back();
  if (word.empty()) return word;
  std::string id = word;
  for (int nth = 2; is_taken(draft, id); ++nth) id = fmt::format("{}-{}", word, nth);
  return id;
}

}  // namespace spadework::document
