#include "document/thing_edits.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "garden/garden.h"
#include "garden/schema.h"

namespace spadework::document {
namespace {

using garden::Draft;
using garden::Entry;
using garden::Field;
using garden::Value;

std::string text_of(const Entry& entry, std::string_view key) {
  const Value* value = entry.find(key);
  return value == nullptr || value->text() == nullptr ? std::string() : *value->text();
}

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
  const bool proposed = text_of(*target.entry, "status") == "proposed";
  const std::string own = text_of(*target.entry, "scheme");
  target.by_change = in.scheme != "found" &&
                     !(proposed && (in.scheme == "proposed" || own == in.scheme)) &&
                     !(!own.empty() && own == in.scheme);
  target.scheme = in.scheme == "proposed" ? "" : in.scheme;
  std::size_t n = 0;
  for (const Entry& entry : in.draft.entries) {
    if (entry.table != "change") continue;
    if (text_of(entry, "thing") == in.thing && text_of(entry, "scheme") == target.scheme)
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

Value moved(const Value& number, double by) {
  return {std::round((*number.number() + by) * 100) / 100, number.where, ""};
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
  for (const Field& field : *places) keys.emplace_back(field.key, toml_value(field.value));
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
  if (target->change != nullptr) edits.emplace_back(RemoveEntry{{"change", "", target->nth}});
  if (in.scheme == "proposed" && target->entry->find("removed") != nullptr)
    edits.emplace_back(RemoveKey{ref_of(*target->entry), {"removed"}});
  if (edits.empty()) {
    return fail(ErrorCode::kWrongUse, "",
                fmt::format("“{}” stands here as it was found.", in.thing),
                "There is nothing to put back.");
  }
  return edits;
}

Result<std::vector<Edit>> take_away(const ThingIn& in) {
  const auto target = target_of(in);
  if (!target) return tl::unexpected<Error>(target.error());
  if (target->by_change) {
    if (in.scheme != "proposed" || text_of(*target->entry, "status") == "proposed") {
      return fail(ErrorCode::kWrongUse, "",
                  fmt::format("“{}” stands in other schemes too.", in.thing),
                  "Take it away in the proposal, or in the scheme that it belongs to.");
    }
    return std::vector<Edit>{SetKey{ref_of(*target->entry), {"removed"}, "true"}};
  }
  // The changes last to first: each keeps the numbers of those before it.
  std::vector<Edit> edits{RemoveEntry{ref_of(*target->entry)}};
  std::vector<std::size_t> changes;
  std::size_t n = 0;
  for (const Entry& entry : in.draft.entries) {
    if (entry.table != "change") continue;
    if (text_of(entry, "thing") == in.thing) changes.push_back(n);
    ++n;
  }
  for (auto it = changes.rbegin(); it != changes.rend(); ++it)
    edits.emplace_back(RemoveEntry{{"change", "", *it}});
  return edits;
}

}  // namespace spadework::document
