#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <unordered_set>

#include "base/text.h"
#include "document/checks.h"
#include "document/limits.h"

namespace spadework::document {
namespace {

using NameSet = std::unordered_set<std::string>;

/// Names of points that a survey makes: fixed ones, and those tied or offset from others.
class Survey {
 public:
  Survey(Reading& reading, const garden::Draft& draft, const Names& names)
      : reading_(reading), names_(names) {
    if (const Entry* survey = draft.single("survey")) read(*survey);
  }
  [[nodiscard]] const NameSet& points() const { return points_; }

 private:
  void read(const Entry& survey) {
    survey_ = &survey;
    read_fixed();
    make("ties", [](const Value& tie) { return *(*tie.list())[0].text(); });
    make("offsets", [](const Value& offset) { return text_in(*offset.record(), "point"); });
    each("ties",
         [&](const Value& tie, TextPlace at) { check((*tie.list())[1].text(), at, "ties"); });
    each("diagonals", [&](const Value& diagonal, TextPlace at) {
      check((*diagonal.list())[0].text(), at, "diagonals");
      check((*diagonal.list())[1].text(), at, "diagonals");
    });
    each("offsets", [&](const Value& offset, TextPlace at) {
      const std::string from = text_in(*offset.record(), "from"),
                        to = text_in(*offset.record(), "to");
      if (!from.empty()) check(&from, at, "offsets");
      if (!to.empty()) check(&to, at, "offsets");
    });
    each("levels", [&](const Value& line, TextPlace at) {
      const Record& record = *line.record();
      if (garden::find_field(record, "back_m") || garden::find_field(record, "between_m") ||
          garden::find_field(record, "fore_m")) {
        return;
      }
      reading_.problems.tell(at, ErrorCode::kMissingKey, "a line of levels has no reading",
                             "add back_m, between_m or fore_m");
    });
  }
  static std::string text_in(const Record& record, std::string_view key) {
    const Field* field = garden::find_field(record, key);
    return field == nullptr || field->value.text() == nullptr ? std::string()
                                                              : *field->value.text();
  }
  template <class Each>
  void each(std::string_view key, const Each& act) {
    const Field* field = garden::find_field(survey_->fields, key);
    if (field == nullptr || field->value.list() == nullptr) return;
    for (const Value& item : *field->value.list()) act(item, field->where);
  }
  void read_fixed() {
    const Field* fixed = garden::find_field(survey_->fields, "fixed");
    if (fixed == nullptr || fixed->value.record() == nullptr) return;
    for (const Field& point : *fixed->value.record()) {
      name(point.key, point.where);
      const auto named = names_.find(point.key);
      if (named == names_.end()) continue;
      const bool earlier = is_before(point.where, named->second.where);
      reading_.problems.tell(earlier ? named->second.where : point.where, ErrorCode::kRepeatedId,
                             fmt::format("{} is the id of {} and of a fixed point of the survey",
                                         quoted(point.key), noun_of(named->second.table)),
                             "give one of the two another id");
    }
  }
  template <class NameOf>
  void make(std::string_view key, const NameOf& name_of) {
    each(key, [&](const Value& item, TextPlace at) {
      const std::string made = name_of(item);
      if (!made.empty() && points_.count(made) == 0) name(made, at);
    });
  }
  void name(const std::string& id, TextPlace at) {
    points_.insert(id);
    if (is_id(id)) return;
    const std::string better = as_id(id);
    reading_.problems.tell(
        at, ErrorCode::kBadId, fmt::format("{} cannot be an id", quoted(id)),
        fmt::format("ids are at most {} letters a-z, 0-9 and -{}", kLongestId,
                    better.empty() ? std::string() : fmt::format(": write \"{}\"", better)));
  }
  void check(const std::string* id, TextPlace at, std::string_view key) {
    if (points_.count(*id) > 0) return;
    const auto named = names_.find(*id);
    if (named != names_.end() && named->second.table == "point") return;
    std::vector<std::string> all(points_.begin(), points_.end());
    std::sort(all.begin(), all.end());
    reading_.problems.tell(
        at, ErrorCode::kUnknownId, fmt::format("{}: no point is called {}", key, quoted(*id)),
        reading_.problems.hint_for(*id, all, "fix it, tie it to others or add it as a [[point]]"));
  }

  Reading& reading_;
  const Names& names_;
  const Entry* survey_ = nullptr;
  NameSet points_;
};

/// Ids of some tables, for hints; made once for each set of tables.
class IdLists {
 public:
  IdLists(const Names& names, const NameSet& survey) : names_(names), survey_(survey) {}
  const std::vector<std::string>& of(const std::vector<std::string>& tables, bool points) {
    std::string key = points ? "*" : "";
    for (const std::string& table : tables) key += table + ",";
    const auto [it, fresh] = lists_.emplace(key, std::vector<std::string>{});
    if (!fresh) return it->second;
    for (const auto& [id, named] : names_) {
      if (points ? named.table == "point" : fits(named.table, tables)) it->second.push_back(id);
    }
    if (points) it->second.insert(it->second.end(), survey_.begin(), survey_.end());
    std::sort(it->second.begin(), it->second.end());
    return it->second;
  }
  static bool fits(const std::string& table, const std::vector<std::string>& tables) {
    if (!tables.empty()) return std::find(tables.begin(), tables.end(), table) != tables.end();
    const TableSchema* schema = garden::find_table(table);
    return schema != nullptr && schema->thing;
  }

 private:
  const Names& names_;
  const NameSet& survey_;
  std::map<std::string, std::vector<std::string>> lists_;
};

std::string wanted_noun(const std::vector<std::string>& tables) {
  return tables.empty() ? std::string("thing") : list_words(tables);
}

void check_reference(Reading& reading, const Reference& reference, const Names& names,
                     const NameSet& survey, IdLists& lists) {
  const bool place = reference.point;
  const std::vector<std::string>& tables = reference.tables;
  const auto named = names.find(reference.id);
  if (place && survey.count(reference.id) > 0) return;
  if (named != names.end()) {
    const std::string& table = named->second.table;
    if (place ? table == "point" : IdLists::fits(table, tables)) return;
    reading.problems.tell_of(
        reference.part, reference.at, ErrorCode::kUnknownId,
        fmt::format("{}: {} is {}; {} is wanted here", reference.name, quoted(reference.id),
                    noun_of(table), place ? "a point" : "the id of a " + wanted_noun(tables)),
        place ? "write [x, y], or the id of a [[point]]"
              : "those there are: " + some_words(lists.of(tables, false)));
    return;
  }
  const std::vector<std::string>& ids = lists.of(tables, place);
  const std::string noun = place ? "point" : wanted_noun(tables);
  std::string otherwise = ids.empty() ? fmt::format("there is no {} in this document yet", noun)
                                      : "those there are: " + some_words(ids);
  reading.problems.tell_of(
      reference.part, reference.at, ErrorCode::kUnknownId,
      fmt::format("{}: no {} is called {}", reference.name, noun, quoted(reference.id)),
      reading.problems.hint_for(reference.id, ids, std::move(otherwise)));
}

void check_months(Reading& reading, const garden::Draft& draft) {
  std::map<int, int> lines;
  for (const Entry& entry : draft.entries) {
    if (entry.table != "climate.month") continue;
    const Field* month = garden::find_field(entry.fields, "month");
    if (month == nullptr) continue;
    const int number = static_cast<int>(*month->value.number());
    const auto [it, fresh] = lines.emplace(number, month->where.line);
    if (fresh) continue;
    reading.problems.tell(month->where, ErrorCode::kConflict,
                          fmt::format("{} is there already in line {}",
                                      month_name(static_cast<unsigned>(number)), it->second),
                          "keep one of the two");
  }
}

void check_schemes(Reading& reading, const garden::Draft& draft) {
  std::size_t schemes = 0;
  for (const Entry& entry : draft.entries) {
    if (entry.table != "scheme" || ++schemes != kMostSchemes + 1) continue;
    reading.problems.tell(entry.where, ErrorCode::kTooLarge,
                          fmt::format("there are more than {} schemes", kMostSchemes),
                          "leave those out that you no longer weigh");
  }
}

}  // namespace

void check_names(Reading& reading, const garden::Draft& draft, const Names& names) {
  const Survey survey(reading, draft, names);
  IdLists lists(names, survey.points());
  for (const Reference& reference : reading.references) {
    check_reference(reading, reference, names, survey.points(), lists);
  }
  check_months(reading, draft);
  check_schemes(reading, draft);
}

}  // namespace spadework::document
