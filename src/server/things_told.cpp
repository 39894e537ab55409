#include "server/things_told.h"

#include <algorithm>
#include <map>
#include <set>

#include "garden/schema.h"
#include "server/piece_changes.h"

namespace spadework::server {
namespace {

using garden::Entry;
using garden::Garden;
using garden::Value;
using geometry::Vec2;

Json json_of(const Value& value) {
  if (const double* number = value.number()) return *number;
  if (const std::string* text = value.text()) return *text;
  if (const bool* yes = value.yes_no()) return *yes;
  if (const LocalDate* date = value.date()) return iso_date(*date);
  if (const garden::List* list = value.list()) {
    Json out = Json::array();
    for (const Value& item : *list) out.push_back(json_of(item));
    return out;
  }
  Json out = Json::object();
  for (const garden::Field& field : *value.record()) out[field.key] = json_of(field.value);
  return out;
}

Json point(Vec2 p) { return {p.x, p.y}; }
Json points(const std::vector<Vec2>& line) {
  Json out = Json::array();
  for (const Vec2 p : line) out.push_back(point(p));
  return out;
}

/// Where a thing lies: what its corners are, for choosing and for its grip.
struct Lie {
  std::vector<Vec2> corners;
  bool closed = false;
  double reach_m = 0;  // around each of the corners
};
using Lies = std::map<std::string, Lie, std::less<>>;

Lies lies_of(const Garden& garden) {
  Lies lies;
  for (const auto& t : garden.walls)
    lies[t.id] = {t.line, false, in_metres(t.thickness.value_or(metres(0.1))) / 2};
  for (const auto& t : garden.buildings) lies[t.id] = {t.outline, true, 0};
  for (const auto& t : garden.trees) lies[t.id] = {{t.at}, false, in_metres(t.crown_width) / 2};
  for (const auto& t : garden.beds) lies[t.id] = {t.outline, true, 0};
  for (const auto& t : garden.supports)
    lies[t.id] = {t.line, false, in_metres(t.width.value_or(metres(0.6))) / 2};
  for (const auto& t : garden.seats) lies[t.id] = {{t.at}, false, t.size.x / 2};
  for (const auto& t : garden.plants)
    lies[t.id] = {t.outline.empty() ? t.stems : t.outline, !t.outline.empty(), 0.3};
  for (const auto& t : garden.containers) lies[t.id] = {{t.at}, false, 0.25};
  for (const auto& t : garden.tanks) lies[t.id] = {{t.at}, false, 0.4};
  for (const auto& t : garden.objects) lies[t.id] = {t.outline, true, 0};
  for (const auto& t : garden.flats) {
    const bool area = !t.outline.empty();
    lies[t.id] = {area ? t.outline : t.line, area, in_metres(t.width) / 2};
  }
  for (const auto& t : garden.marks) lies[t.id] = {{t.at}, false, 0.3};
  for (const auto& t : garden.sights) {
    Lie& lie = lies[t.id] = {{}, false, in_metres(t.corridor) / 2};
    for (const Vec2 from : t.from) lie.corners.insert(lie.corners.end(), {from, t.to});
  }
  for (const auto& t : garden.covers)
    if (!t.outlines.empty()) lies[t.id] = {t.outlines[0], true, 0};
  return lies;
}

std::map<std::string, garden::Mark> marks_of(const Garden& garden) {
  std::map<std::string, garden::Mark> marks;
  const auto note = [&](const auto& things) {
    for (const auto& thing : things) marks[thing.id] = thing.mark;
  };
  note(garden.walls), note(garden.buildings), note(garden.trees), note(garden.beds);
  note(garden.supports), note(garden.seats), note(garden.plants), note(garden.containers);
  note(garden.covers), note(garden.tanks), note(garden.objects), note(garden.flats);
  note(garden.marks), note(garden.sights);
  return marks;
}

/// As it was typed, without the quotes of the document.
std::string typed(const Value& value) {
  if (const std::string* text = value.text()) return *text;
  const std::string says = garden::value_says(value);
  const bool is_quoted = says.size() >= 2 && says.front() == says.back() &&
                         (says.front() == '"' || says.front() == '\'');
  if (!is_quoted) return says;
  std::string out;
  for (std::size_t i = 1; i + 1 < says.size(); ++i) {
    if (says.front() == '"' && says[i] == '\\' && i + 2 < says.size()) ++i;
    out += says[i];
  }
  return out;
}

/// A value with its parts: figures that were typed with a unit as they were typed.
Json parts_json(const Value& value) {
  if (const garden::List* list = value.list()) {
    Json out = Json::array();
    for (const Value& item : *list) out.push_back(parts_json(item));
    return out;
  }
  if (const garden::Record* record = value.record()) {
    Json out = Json::object();
    for (const garden::Field& field : *record) out[field.key] = parts_json(field.value);
    return out;
  }
  const bool has_unit = value.number() != nullptr && !value.typed.empty() &&
                        (value.typed.front() == '"' || value.typed.front() == '\'');
  return has_unit ? Json(typed(value)) : json_of(value);
}

Json field_json(const Value& value) {
  Json field = {{"typed", typed(value)}, {"value", json_of(value)}};
  if (value.list() != nullptr || value.record() != nullptr) field["parts"] = parts_json(value);
  return field;
}

}  // namespace

Json fields_json(const Entry& entry) {
  Json fields = Json::object();
  for (const garden::Field& field : entry.fields)
    if (field.key != "id") fields[field.key] = field_json(field.value);
  return fields;
}

namespace {

/// What an altered thing was as found: the keys that differ, null where it had none.
Json was_json(const Entry& entry, const Garden& found) {
  const auto as_found = std::find_if(found.entries.begin(), found.entries.end(),
                                     [&](const Entry& other) { return other.id == entry.id; });
  Json was = Json::object();
  if (as_found == found.entries.end()) return was;
  const auto differ = [](const Value* a, const Value* b) {
    return (a == nullptr) != (b == nullptr) || (a != nullptr && json_of(*a) != json_of(*b));
  };
  for (const Entry* one : {&*as_found, &entry}) {
    for (const garden::Field& field : one->fields) {
      const Value* before = as_found->find(field.key);
      if (differ(before, entry.find(field.key)))
        was[field.key] = before == nullptr ? Json() : Json(typed(*before));
    }
  }
  return was;
}

Json thing_json(const Entry& entry, const Lies& lies, const std::string& mark) {
  Json thing = {{"id", entry.id},
                {"table", entry.table},
                {"mark", mark},
                {"fields", fields_json(entry)},
                {"corners", Json::array()},
                {"closed", false},
                {"reach_m", 0}};
  if (const auto lie = lies.find(entry.id); lie != lies.end()) {
    thing["corners"] = points(lie->second.corners);
    thing["closed"] = lie->second.closed;
    thing["reach_m"] = lie->second.reach_m;
  }
  return thing;
}

const char* mark_name(garden::Mark mark) {
  switch (mark) {
    case garden::Mark::kExisting:
      return "existing";
    case garden::Mark::kChanged:
      return "changed";
    case garden::Mark::kProposed:
      return "proposed";
  }
  return "existing";
}

bool is_thing(const Entry& entry) {
  const garden::TableSchema* table = garden::find_table(entry.table);
  return table != nullptr && garden::is_on_sheet(*table) && !entry.id.empty();
}

std::string joined(const std::vector<std::string>& items) {
  std::string out;
  for (const std::string& item : items) out += (out.empty() ? "" : ",") + item;
  return '[' + out + ']';
}

}  // namespace

ThingsTold things_told(const Garden& garden, const Garden& found) {
  const Lies lies = lies_of(garden), found_lies = lies_of(found);
  const auto marks = marks_of(garden);
  ThingsTold things;
  std::set<std::string> there;
  for (const Entry& entry : garden.entries) {
    there.insert(entry.id);
    if (!is_thing(entry)) continue;
    const auto mark = marks.find(entry.id);
    const garden::Mark is = mark == marks.end() ? garden::Mark::kExisting : mark->second;
    Json thing = thing_json(entry, lies, mark_name(is));
    if (is == garden::Mark::kChanged) thing["was"] = was_json(entry, found);
    things.push_back({entry.id, thing.dump()});
  }
  if (garden.scheme == "found") return things;
  for (const Entry& entry : found.entries) {
    if (is_thing(entry) && there.count(entry.id) == 0)
      things.push_back({entry.id, thing_json(entry, found_lies, "removed").dump()});
  }
  return things;
}

std::string all_things(const ThingsTold& things) {
  std::vector<std::string> all;
  for (const ThingTold& thing : things) all.push_back(thing.json);
  return "\"things\":" + joined(all);
}

std::optional<std::string> changed_things(const ThingsTold& before, const ThingsTold& now) {
  const auto changes = piece_changes(
      before, now, [](const ThingTold& a, const ThingTold& b) { return a.json == b.json; });
  if (!changes) return std::nullopt;
  std::vector<std::string> put, next;
  for (const std::size_t i : changes->put) {
    put.push_back(now[i].json);
    next.push_back(Json(id_after(now, i)).dump());
  }
  return "\"things\":" + joined(put) + ",\"before\":" + joined(next) +
         ",\"gone\":" + Json(changes->gone).dump();
}

}  // namespace spadework::server
