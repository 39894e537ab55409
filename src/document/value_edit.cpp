#include "document/value_edit.h"

#include <algorithm>

namespace spadework::document {
namespace {

std::string written(const WrittenValue& value) {
  const Span span = value.syntax->span;
  return std::string(value.text.substr(span.begin, span.end - span.begin));
}

WrittenValue item_of(const WrittenValue& list, std::size_t i) {
  return {list.text, &list.syntax->items[i], &(*list.means->list())[i]};
}

bool is_list(const WrittenValue& value) {
  return value.means->list() != nullptr && value.syntax->form == ValueSyntax::Form::kList &&
         value.means->list()->size() == value.syntax->items.size();
}

/// Whose keys are all of one word, so that each pair is one key.
bool is_table(const WrittenValue& value) {
  return value.means->table() != nullptr &&
         value.means->table()->size() == value.syntax->pairs.size() &&
         std::all_of(value.syntax->pairs.begin(), value.syntax->pairs.end(),
                     [](const PairSyntax& pair) { return pair.key.size() == 1; });
}

/// What begins and ends alike in both lists stays; what is between is paired from its beginning.
void change_list(TextEdit& edit, const WrittenValue& was, const WrittenValue& now) {
  const TomlList& old = *was.means->list();
  const TomlList& fresh = *now.means->list();
  const std::size_t most = std::min(old.size(), fresh.size());
  std::size_t first = 0;
  while (first < most && same_meaning(old[first], fresh[first])) ++first;
  std::size_t last = 0;
  while (last < most - first &&
         same_meaning(old[old.size() - 1 - last], fresh[fresh.size() - 1 - last])) {
    ++last;
  }
  const std::size_t paired = most - last;
  for (std::size_t i = first; i < paired; ++i) change_value(edit, item_of(was, i), item_of(now, i));
  for (std::size_t i = paired; i + last < old.size(); ++i) edit.remove_item(*was.syntax, i);
  std::vector<std::string> more;
  for (std::size_t i = paired; i + last < fresh.size(); ++i)
    more.push_back(written(item_of(now, i)));
  if (!more.empty()) edit.add_items(*was.syntax, paired, more);
}

void change_table(TextEdit& edit, const WrittenValue& was, const WrittenValue& now) {
  const auto value_in = [](const WrittenValue& table, const std::string& key) {
    const auto& pairs = table.syntax->pairs;
    const auto pair = std::find_if(pairs.begin(), pairs.end(), [&](const PairSyntax& each) {
      return each.key.front().name == key;
    });
    const TomlField* field = find_field(*table.means->table(), key);
    return pair == pairs.end() || field == nullptr
               ? WrittenValue{}
               : WrittenValue{table.text, &pair->value, &field->value};
  };
  std::vector<std::size_t> gone;
  for (std::size_t i = 0; i < was.syntax->pairs.size(); ++i) {
    const std::string& key = was.syntax->pairs[i].key.front().name;
    const WrittenValue next = value_in(now, key);
    if (next.syntax == nullptr) {
      gone.push_back(i);
    } else {
      change_value(edit, value_in(was, key), next);
    }
  }
  if (gone.size() == was.syntax->pairs.size()) return edit.replace(was.syntax->span, written(now));
  if (!gone.empty()) edit.remove_pairs(*was.syntax, gone);
  for (const PairSyntax& pair : now.syntax->pairs) {
    if (value_in(was, pair.key.front().name).syntax != nullptr) continue;
    const Span span = pair.span();
    edit.add_pair(*was.syntax, std::string(now.text.substr(span.begin, span.end - span.begin)));
  }
}

}  // namespace

void change_value(TextEdit& edit, const WrittenValue& was, const WrittenValue& now) {
  if (same_meaning(*was.means, *now.means)) return;
  if (is_list(was) && is_list(now) && !was.syntax->items.empty() && !now.syntax->items.empty()) {
    change_list(edit, was, now);
  } else if (is_table(was) && is_table(now)) {
    change_table(edit, was, now);
  } else {
    edit.replace(was.syntax->span, written(now));
  }
}

}  // namespace spadework::document
