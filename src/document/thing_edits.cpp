#include "document/thing_edits.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "document/fresh_id.h"
#include "document/units.h"
#include "garden/garden.h"
#include "garden/schema.h"

namespace spadework::document {
namespace {

using garden::Draft;
using garden::Entry;
using garden::Field;
using garden::Value;

/// Where an edit of the thing goes.
struct Target {
  const Entry* entry = nullptr;   // the thing's own
  bool by_change = false;         // not into the entry itself
  const Entry* change = nullptr;  // the change that is there already
  std::size_t nth = 0;            // its number among the changes
  std::string scheme;             // that a new change belongs to; empty: to all
};

Result<Target> target_of(const ThingIn& in) {
  Target target;
  target.entry = in.draft.with_id(in.thing);
  const garden::TableSchema* table =
      target.entry == nullptr ? nullptr : garden::find_table(target.entry->table);
  if (table == nullptr || !table->thing) {
    return fail(ErrorCode::kUnknownId, "", fmt::format("There is no thing called “{}”.", in.thing),
                "It may have been taken away in another window.");
  }
  const bool proposed = target.entry->text("status") == "proposed";
  const std::string own = target.entry->text("scheme");
  target.by_change = in.scheme != "found" &&
                     !(proposed && (in.scheme == "proposed" || own == in.scheme)) &&
                     !(!own.empty() && own == in.scheme);
  target.scheme = in.scheme == "proposed" ? "" : in.scheme;
  std::size_t n = 0;
  for (const Entry& entry : in.draft.entries) {
    if (entry.table != "change") continue;
    if (entry.text("thing") == in.thing && entry.text("scheme") == target.scheme)
      target.change = &entry, target.nth = n;
    ++n;
  }
  return target;
}

EntryRef ref_of(const Entry& entry) { return {entry.table, entry.id}; }

/// Whether anything is left of a change without some keys.
bool says_more(const Entry& change, const std::vector<std::string>& gone) {
  return std::any_of(change.fields.begin(), change.fields.end(), [&](const Field& field) {
    return field.key != "thing" && field.key != "scheme" && field.key != "id" &&
           std::find(gone.begin(), gone.end(), field.key) == gone.end();
  });
}

/// To a tenth of a millimetre; one that does not move stays as it was typed, one that was typed in
/// feet or inches stays in feet and inches.
Value moved(const Value& number, double by) {
  constexpr double kPerUnit = 1e4;
  if (by == 0) return number;
  const double moved_m = *number.number() + by;
  if (number.typed.find_first_of("f\\'i") == std::string::npos)
    return {std::round(moved_m * kPerUnit) / kPerUnit, number.where, ""};
  const std::string says = feet_says(moved_m);
  return {in_metres(*parse_length(says)), number.where, toml_text(says)};
}

/// A value with its places moved; nothing when one is the id of a point.
std::optional<Value> moved(const Value& value, geometry::Vec2 by) {
  const garden::List* list = value.list();
  if (list == nullptr) return std::nullopt;
  garden::List out;
  if (list->size() == 2 && (*list)[0].number() != nullptr && (*list)[1].number() != nullptr) {
    out = {moved((*list)[0], by.x), moved((*list)[1], by.y)};
  } else {
    for (const Value& place : *list) {
      auto one = moved(place, by);
      if (!one) return std::nullopt;
      out.push_back(std::move(*one));
    }
  }
  return Value{std::move(out), value.where, ""};
}

/// Figures as they are typed, where they are.
std::string typed_toml(const Value& value) {
  const garden::List* list = value.list();
  if (list == nullptr) return value.typed.empty() ? toml_value(value) : value.typed;
  std::string out;
  for (const Value& item : *list) out += (out.empty() ? "" : ", ") + typed_toml(item);
  return "[" + out + "]";
}

bool is_place(garden::ValueType type) {
  return type == garden::ValueType::kPlace || type == garden::ValueType::kLine ||
         type == garden::ValueType::kOutline;
}

/// Edits of a change that is there, or a new one.
Result<std::vector<Edit>> edit_change(const ThingIn& in, const Target& target,
                                      const std::vector<KeyChange>& keys) {
  std::vector<Edit> edits;
  std::vector<std::string> gone;
  std::vector<KeyValue> fresh{{"thing", toml_text(in.thing)}};
  if (!target.scheme.empty()) fresh.push_back({"scheme", toml_text(target.scheme)});
  const EntryRef change{"change", "", target.nth};
  for (const auto& [key, value] : keys) {
    const Value* base = target.entry->find(key);
    const Value* now = target.change == nullptr ? nullptr : target.change->find(key);
    if (!value && base != nullptr) {
      return fail(
          ErrorCode::kWrongUse, "/" + key,
          fmt::format("In a proposal “{}” can be changed, not left out.", garden::key_says(key)),
          "Leave it out as found.");
    }
    if (!value || (base != nullptr && toml_value(*base) == *value)) {
      gone.push_back(key);
      if (now != nullptr) edits.emplace_back(RemoveKey{change, {key}});
    } else if (target.change != nullptr) {
      for (const std::string& rival : garden::rivals_of(key)) {
        if (rival != "thing" &&
            target.change->find(rival) != nullptr)  // its own says what it changes
          edits.emplace_back(RemoveKey{change, {rival}});
      }
      edits.emplace_back(SetKey{change, {key}, *value});
    } else {
      fresh.push_back({key, *value});
    }
  }
  if (target.change == nullptr) {
    const std::size_t head = target.scheme.empty() ? 1 : 2;
    if (fresh.size() == head) return std::vector<Edit>{};
    return std::vector<Edit>{AddEntry{"change", std::move(fresh)}};
  }
  const bool sets = std::any_of(edits.begin(), edits.end(), [](const Edit& edit) {
    return std::holds_alternative<SetKey>(edit);
  });
  if (!sets && !says_more(*target.change, gone)) return std::vector<Edit>{RemoveEntry{change}};
  return edits;
}

/// Whether a value names the thing by a reference, itself or in its parts.
bool names(const Value& value, const garden::TypeSchema& type, const std::string& thing) {
  if (type.type == garden::ValueType::kReference)
    return value.text() != nullptr && *value.text() == thing;
  if (const garden::Record* record = value.record()) {
    return std::any_of(record->begin(), record->end(), [&](const Field& field) {
      const auto of = std::find_if(type.fields.begin(), type.fields.end(),
                                   [&](const auto& key) { return key.name == field.key; });
      if (of != type.fields.end()) return names(field.value, of->type, thing);
      return !type.item.empty() && names(field.value, type.item[0], thing);
    });
  }
  if (type.item.empty()) return false;
  const garden::List* list = value.list();
  if (list == nullptr) return names(value, type.item[0], thing);
  return std::any_of(list->begin(), list->end(),
                     [&](const Value& item) { return names(item, type.item[0], thing); });
}

std::string called(const Entry& entry) {
  if (!entry.id.empty()) return entry.id;
  return (std::string("aeiou").find(entry.table[0]) == std::string::npos ? "a " : "an ") +
         entry.table;
}

/// Who names a thing, and whether the app has a hand for each of them.
struct Naming {
  std::vector<std::string> within, others;  // what stands in it, what else names it
  bool all_things = true;                   // or some stand in the document alone
};

Naming naming_of(const ThingIn& in) {
  Naming naming;
  const std::string& of = in.draft.with_id(in.thing)->table;
  for (const Entry& entry : in.draft.entries) {
    const garden::TableSchema* table = garden::find_table(entry.table);
    if (table == nullptr || entry.id == in.thing) continue;
    for (const Field& field : entry.fields) {
      const garden::KeySchema* key = garden::find_key(*table, field.key);
      const bool is_own_change = entry.table == "change" && field.key == "thing";
      if (key == nullptr || is_own_change || !names(field.value, key->type, in.thing)) continue;
      const bool stands = field.key == of && (table->thing || entry.table == "stand");
      (stands ? naming.within : naming.others).push_back(called(entry));
      naming.all_things = naming.all_things && table->thing;
      break;
    }
  }
  return naming;
}

std::string some(std::vector<std::string> who) {
  constexpr std::size_t kMost = 6;
  if (who.size() > kMost) {
    const std::size_t more = who.size() - kMost;
    who.resize(kMost);
    who.push_back(fmt::format("{} more", more));
  }
  return list_words(who, "and");
}

/// Refuses while others stand in the thing or name it: without it they could not be read.
std::optional<Error> still_named(const ThingIn& in) {
  const auto [within, others, all_things] = naming_of(in);
  if (within.empty() && others.empty()) return std::nullopt;
  std::string says;
  if (!within.empty())
    says = fmt::format("{} {} in {}.", some(within), within.size() == 1 ? "stands" : "stand",
                       in.thing);
  if (!others.empty())
    says += fmt::format("{}{} {} {}.", says.empty() ? "" : " ", some(others),
                        others.size() == 1 ? "refers to" : "refer to", in.thing);
  const char* them = within.size() + others.size() == 1 ? "it" : "them";
  const char* where = all_things ? "away" : "out of the document";
  std::string hint = others.empty() ? fmt::format("Take {0} {1} first, or move {0}.", them, where)
                                    : fmt::format("Take {0} {1} first, or let {0} do without {2}.",
                                                  them, where, in.thing);
  return Error{ErrorCode::kWrongUse, "", std::move(says), std::move(hint)};
}

/// The places of a thing, moved.
Result<garden::Record> moved_places(const ThingIn& in, geometry::Vec2 by) {
  const auto garden = garden::resolve(in.draft, in.scheme);
  if (!garden) return tl::unexpected<Error>(garden.error());
  const auto entry = std::find_if(garden->entries.begin(), garden->entries.end(),
                                  [&](const Entry& e) { return e.id == in.thing; });
  if (entry == garden->entries.end() || in.thing.empty()) {
    return fail(ErrorCode::kUnknownId, "",
                fmt::format("There is no thing called “{}” here.", in.thing),
                "It may have been taken away in another window.");
  }
  const garden::TableSchema* table = garden::find_table(entry->table);
  garden::Record places;
  for (const Field& field : entry->fields) {
    const garden::KeySchema* key = table == nullptr ? nullptr : garden::find_key(*table, field.key);
    if (key == nullptr || !is_place(key->type.type)) continue;
    auto value = moved(field.value, by);
    if (!value) {
      return fail(ErrorCode::kWrongUse, "/" + field.key,
                  fmt::format("“{}” stands at a point of the survey.", in.thing),
                  "Move the point, or type where the thing is to stand.");
    }
    places.push_back({field.key, field.where, std::move(*value)});
  }
  if (places.empty()) {
    return fail(ErrorCode::kWrongUse, "",
                fmt::format("“{}” has no place of its own to be moved.", in.thing),
                "It goes where what it belongs to goes.");
  }
  return places;
}

}  // namespace

std::string toml_value(const Value& value) {
  if (const double* number = value.number()) return toml_number(*number);
  if (const std::string* text = value.text()) return toml_text(*text);
  if (const bool* yes = value.yes_no()) return *yes ? "true" : "false";
  if (const LocalDate* date = value.date()) return iso_date(*date);
  std::string out;
  if (const garden::List* list = value.list()) {
    for (const Value& item : *list) out += (out.empty() ? "" : ", ") + toml_value(item);
    return "[" + out + "]";
  }
  for (const Field& field : *value.record())
    out += (out.empty() ? "" : ", ") + toml_key(field.key) + " = " + toml_value(field.value);
  return out.empty() ? "{}" : "{ " + out + " }";
}

Result<std::vector<Edit>> set_keys(const ThingIn& in, const std::vector<KeyChange>& keys) {
  const auto target = target_of(in);
  if (!target) return tl::unexpected<Error>(target.error());
  if (target->by_change) return edit_change(in, *target, keys);
  std::vector<Edit> edits;
  const EntryRef entry = ref_of(*target->entry);
  for (const auto& [key, value] : keys) {
    if (!value) {
      if (target->entry->find(key) != nullptr) edits.emplace_back(RemoveKey{entry, {key}});
      continue;
    }
    for (const std::string& rival : garden::rivals_of(key)) {
      if (target->entry->find(rival) != nullptr) edits.emplace_back(RemoveKey{entry, {rival}});
    }
    edits.emplace_back(SetKey{entry, {key}, *value});
  }
  return edits;
}

Result<std::vector<Edit>> move_by(const ThingIn& in, geometry::Vec2 by) {
  const auto places = moved_places(in, by);
  if (!places) return tl::unexpected<Error>(places.error());
  std::vector<KeyChange> keys;
  for (const Field& field : *places) keys.emplace_back(field.key, typed_toml(field.value));
  return set_keys(in, keys);
}

Result<Draft> moved_by(const ThingIn& in, geometry::Vec2 by) {
  const auto places = moved_places(in, by);
  if (!places) return tl::unexpected<Error>(places.error());
  const auto target = target_of(in);
  if (!target) return tl::unexpected<Error>(target.error());
  Draft draft = in.draft;
  const Entry* of = target->by_change ? target->change : target->entry;
  if (of == nullptr) {
    Entry change{"change", "", {}, {{"thing", {}, {in.thing, {}, ""}}}};
    if (!target->scheme.empty()) change.fields.push_back({"scheme", {}, {target->scheme, {}, ""}});
    draft.entries.push_back(std::move(change));
  }
  Entry& entry = of == nullptr
                     ? draft.entries.back()
                     : draft.entries[static_cast<std::size_t>(of - in.draft.entries.data())];
  for (const Field& place : *places) {
    const std::vector<std::string>& rivals = garden::rivals_of(place.key);
    std::erase_if(entry.fields, [&](const Field& old) {
      const bool is_rival = std::find(rivals.begin(), rivals.end(), old.key) != rivals.end();
      return old.key == place.key || (is_rival && old.key != "thing");
    });
    entry.fields.push_back(place);
  }
  return draft;
}

Result<std::vector<Edit>> put_back(const ThingIn& in) {
  const auto target = target_of(in);
  if (!target) return tl::unexpected<Error>(target.error());
  std::vector<Edit> edits;
  // What was taken away comes back as it was in the proposal, what is there goes back to as found.
  if (in.scheme == "proposed" && target->entry->find("removed") != nullptr)
    edits.emplace_back(RemoveKey{ref_of(*target->entry), {"removed"}});
  else if (target->change != nullptr)
    edits.emplace_back(RemoveEntry{{"change", "", target->nth}});
  if (edits.empty()) {
    return fail(ErrorCode::kWrongUse, "",
                fmt::format("“{}” stands here as it was found.", in.thing),
                "There is nothing to put back.");
  }
  return edits;
}

Result<AddedThing> add_thing(const Draft& draft, const std::string& scheme, NewThing thing) {
  const garden::TableSchema* table = garden::find_table(thing.table);
  if (table == nullptr || !table->thing)
    return fail(ErrorCode::kWrongUse, "/table",
                fmt::format("There are no things called “{}”.", thing.table), "");
  AddEntry entry{thing.table, {}};
  const std::string called = fresh_id(draft, thing.called);
  const std::string id = called.empty() ? fresh_id(draft, thing.table) : called;
  entry.keys.push_back({"id", toml_text(id)});
  if (scheme != "found") entry.keys.push_back({"status", toml_text("proposed")});
  if (scheme != "found" && scheme != "proposed")
    entry.keys.push_back({"scheme", toml_text(scheme)});
  for (KeyValue& key : thing.keys) entry.keys.push_back(std::move(key));
  return AddedThing{id, std::move(entry)};
}

Result<std::vector<Edit>> take_away(const ThingIn& in) {
  const auto target = target_of(in);
  if (!target) return tl::unexpected<Error>(target.error());
  if (target->by_change) {
    if (in.scheme != "proposed" || target->entry->text("status") == "proposed") {
      return fail(ErrorCode::kWrongUse, "",
                  fmt::format("“{}” stands in other schemes too.", in.thing),
                  "Take it away in the proposal, or in the scheme that it belongs to.");
    }
    return std::vector<Edit>{SetKey{ref_of(*target->entry), {"removed"}, "true"}};
  }
  if (auto named = still_named(in)) return tl::unexpected<Error>(std::move(*named));
  // The changes last to first: each keeps the numbers of those before it.
  std::vector<Edit> edits{RemoveEntry{ref_of(*target->entry)}};
  std::vector<std::size_t> changes;
  std::size_t n = 0;
  for (const Entry& entry : in.draft.entries) {
    if (entry.table != "change") continue;
    if (entry.text("thing") == in.thing) changes.push_back(n);
    ++n;
  }
  for (auto it = changes.rbegin(); it != changes.rend(); ++it)
    edits.emplace_back(RemoveEntry{{"change", "", *it}});
  return edits;
}

}  // namespace spadework::document
