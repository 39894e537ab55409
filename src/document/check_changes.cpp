#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "document/checks.h"

namespace spadework::document {
namespace {

bool belongs_to_change(const std::string& key) {
  return key == "thing" || key == "scheme" || key == "note" || key == "phase";
}

void apply(const Record& change, Record& thing) {
  for (const Field& field : change) {
    if (belongs_to_change(field.key)) continue;
    const std::vector<std::string>& rivals = garden::rivals_of(field.key);
    std::erase_if(thing, [&](const Field& old) {
      return old.key == field.key ||
             std::find(rivals.begin(), rivals.end(), old.key) != rivals.end();
    });
    thing.push_back(field);
  }
}

using Key = std::tuple<int, int, ErrorCode>;
Key key_of(const Problem& problem) { return {problem.at.line, problem.at.column, problem.code}; }

/// The changes of one thing that come together in one scheme.
void check_changed(Reading& reading, const Entry& thing, const std::vector<std::string>& faulty,
                   const std::vector<const Entry*>& changes, std::set<Key>& told) {
  Problems before;
  check_rules(before, Keys{thing.table, "", thing.where, thing.fields, faulty});
  for (const Problem& problem : before.all()) told.insert(key_of(problem));

  Record changed = thing.fields;
  std::set<std::pair<int, int>> places;
  for (const Entry* change : changes) {
    apply(change->fields, changed);
    for (const Field& field : change->fields) places.insert({field.where.line, field.where.column});
  }
  Problems after;
  check_rules(after, Keys{thing.table, fmt::format("the changed {}", thing.id), thing.where,
                          changed, faulty});
  for (const Problem& problem : after.all()) {
    if (told.count(key_of(problem)) > 0) continue;
    Problem moved = problem;
    const bool inside = places.count({problem.at.line, problem.at.column}) > 0;
    if (!inside) {  // a change that stands before its thing
      for (const Field& field : changes.back()->fields) {
        if (!belongs_to_change(field.key)) moved.at = field.where;
      }
    }
    if (!told.insert(key_of(moved)).second) continue;
    reading.problems.tell(moved.at, moved.code, moved.message, moved.hint);
  }
}

}  // namespace

void check_changes(Reading& reading, const Checked& document) {
  const garden::Draft& draft = document.draft;
  std::map<std::string, std::vector<const Entry*>> by_thing;
  for (const Entry& entry : draft.entries) {
    if (entry.table == "change") by_thing[entry.text("thing")].push_back(&entry);
  }
  for (const auto& [id, changes] : by_thing) {
    const auto named = document.names.find(id);
    if (named == document.names.end()) continue;
    const std::size_t index = document.first + named->second.entry;
    const Entry& thing = draft.entries[index];
    std::set<std::string> schemes = {""};
    for (const Entry* change : changes) schemes.insert(change->text("scheme"));
    std::set<Key> told;
    for (const std::string& scheme : schemes) {
      std::vector<const Entry*> together;
      for (const Entry* change : changes) {
        const std::string own = change->text("scheme");
        if (own.empty() || own == scheme) together.push_back(change);
      }
      if (!together.empty()) check_changed(reading, thing, document.faulty[index], together, told);
    }
  }
}

}  // namespace spadework::document
