#include <fmt/format.h>

#include <algorithm>

#include "document/rename.h"
#include "document/scheme_edits.h"
#include "garden/schema.h"
#include "server/entry_request.h"
#include "server/routes.h"
#include "server/toml_of.h"

namespace spadework::server {
namespace {

using garden::ValueType;

bool is_text(const Json& json, const char* key) {
  return json.contains(key) && json[key].is_string();
}

tl::unexpected<Error> wrong(const std::string& where, const std::string& message) {
  return fail(ErrorCode::kWrongUse, where, message,
              "This page and the program do not fit: load "
              "the page again.");
}

/// A key of a thing as the document has it for a scheme: by its change, else by itself.
const garden::Value* value_in(const document::ThingIn& in, const garden::Entry* entry,
                              const std::string& key) {
  const std::string scheme = in.scheme == "proposed" ? "" : in.scheme;
  for (const garden::Entry& change : in.draft.entries) {
    if (change.table != "change" || change.text("thing") != in.thing ||
        change.text("scheme") != scheme || in.scheme == "found")
      continue;
    if (const garden::Value* value = change.find(key)) return value;
  }
  return entry == nullptr ? nullptr : entry->find(key);
}

Result<std::vector<document::KeyChange>> changes_of(const document::ThingIn& in, const Json& set) {
  const garden::Draft& draft = in.draft;
  const garden::Entry* entry = draft.with_id(in.thing);
  const garden::TableSchema* table = entry == nullptr ? nullptr : garden::find_table(entry->table);
  const TomlOf toml_of(draft);
  std::vector<document::KeyChange> changes;
  for (const auto& [key, value] : set.items()) {
    const garden::KeySchema* known = table == nullptr ? nullptr : garden::find_key(*table, key);
    if (table != nullptr && known == nullptr)
      return wrong("/set/" + key, fmt::format("A {} has no “{}”.", entry->table, key));
    if (value.is_null()) {
      changes.emplace_back(key, std::nullopt);
      continue;
    }
    const auto toml = toml_of.key(key, value, known, value_in(in, entry, key));
    if (!toml) return tl::unexpected<Error>(toml.error());
    changes.emplace_back(key, *toml);
  }
  return changes;
}

/// A thing that comes: of the scheme that is shown.
Result<EditPart> added(const garden::Draft& draft, const Json& request) {
  const std::string name = request["add"];
  const garden::TableSchema* table = garden::find_table(name);
  if (table == nullptr || !table->thing) return wrong("/add", "There are no such things.");
  document::NewThing thing{name, request.value("called", std::string()), {}};
  const TomlOf toml_of(draft);
  const Json set = request.value("set", Json::object());
  if (!set.is_object()) return wrong("/set", "Which figures has it?");
  for (const auto& [key, value] : set.items()) {
    const garden::KeySchema* known = garden::find_key(*table, key);
    if (known == nullptr) return wrong("/set/" + key, fmt::format("A {} has no “{}”.", name, key));
    if (value.is_null()) continue;
    const auto toml = toml_of.key(key, value, known);
    if (!toml) return tl::unexpected<Error>(toml.error());
    thing.keys.push_back({key, *toml});
  }
  auto made = document::add_thing(draft, request["scheme"], std::move(thing));
  if (!made) return tl::unexpected<Error>(made.error());
  return EditPart{{std::move(made->edit)}, made->id};
}

std::string called_in(const Json& request) {
  return is_text(request, "called") ? request["called"].get<std::string>() : std::string();
}

/// A scheme made, named anew, merged into the proposal, or dropped.
Result<EditPart> scheme_part(const garden::Draft& draft, const Json& request) {
  if (is_text(request, "make_scheme")) {
    auto made = document::make_scheme(draft, request["make_scheme"]);
    if (!made) return tl::unexpected<Error>(made.error());
    return EditPart{{std::move(made->edit)}, made->id};
  }
  if (is_text(request, "rename_scheme")) {
    auto named = document::rename_scheme(draft, request["rename_scheme"], called_in(request));
    if (!named) return tl::unexpected<Error>(named.error());
    return EditPart{std::move(named->edits), named->id};
  }
  auto edits = is_text(request, "merge_scheme")
                   ? document::merge_scheme(draft, request["merge_scheme"])
                   : document::drop_scheme(draft, request["drop_scheme"]);
  if (!edits) return tl::unexpected<Error>(edits.error());
  return EditPart{std::move(*edits), ""};
}

/// What walks through a value calls itself once a level, and its stack has an end.
bool nests_deeply(std::string_view json) {
  constexpr int kMost = 64;
  int depth = 0;
  bool in_text = false;
  for (std::size_t i = 0; i < json.size(); ++i) {
    const char c = json[i];
    if (in_text && c == '\\') {
      ++i;
    } else if (c == '"') {
      in_text = !in_text;
    } else if (!in_text && (c == '[' || c == '{')) {
      if (++depth > kMost) return true;
    } else if (!in_text && (c == ']' || c == '}')) {
      --depth;
    }
  }
  return false;
}

std::optional<geometry::Vec2> move_in(const Json& request) {
  const Json by = request.value("move_m", Json());
  if (!by.is_array() || by.size() != 2 || !by[0].is_number() || !by[1].is_number())
    return std::nullopt;
  return geometry::Vec2{by[0].get<double>(), by[1].get<double>()};
}

}  // namespace

Result<Json> json_body(const Request& request) {
  if (nests_deeply(request.body)) return wrong("", "This is nested too deeply.");
  Json json = Json::parse(request.body, nullptr, false);
  if (json.is_discarded() || !json.is_object()) return wrong("", "This is no JSON object.");
  return json;
}

std::string word_of(const Request& request, const std::string& key, const std::string& usual) {
  const auto found = request.query.find(key);
  return found == request.query.end() || found->second.empty() ? usual : found->second;
}

namespace {

/// Its places, its sides, its turn: what a lock keeps as it is.
bool is_place_key(const garden::Draft& draft, const std::string& thing, const std::string& key) {
  const garden::Entry* entry = draft.with_id(thing);
  const garden::TableSchema* table = entry == nullptr ? nullptr : garden::find_table(entry->table);
  const garden::KeySchema* known = table == nullptr ? nullptr : garden::find_key(*table, key);
  if (known == nullptr) return false;
  const ValueType type = known->type.type;
  return type == ValueType::kPlace || type == ValueType::kLine || type == ValueType::kOutline ||
         type == ValueType::kSize || key == "turn_deg";
}

/// Whether a thing is locked, and the request would move, reshape or take it away.
bool is_kept_by_lock(const garden::Draft& draft, const Json& request) {
  const std::string thing = request["thing"];
  const garden::Entry* entry = draft.with_id(thing);
  const garden::Value* locked = entry == nullptr ? nullptr : entry->find("locked");
  if (entry == nullptr || entry->table == "task" || locked == nullptr ||
      locked->yes_no() == nullptr || !*locked->yes_no())
    return false;
  if (request.contains("move_m") || request.value("take_away", false)) return true;
  const Json set = request.value("set", Json::object());
  if (!set.is_object()) return false;
  for (const auto& [key, value] : set.items())
    if (is_place_key(draft, thing, key)) return true;
  return false;
}

/// What is done to a thing, or to a table that there is one of.
Result<std::vector<document::Edit>> edits_of(const garden::Draft& draft, const Json& request) {
  if (is_text(request, "table")) return entry_edits(draft, request);
  if (!is_text(request, "scheme") || !is_text(request, "thing"))
    return wrong("", "Which thing, in which scheme?");
  const document::ThingIn in{draft, request["scheme"], request["thing"]};
  if (is_kept_by_lock(draft, request))
    return fail(ErrorCode::kWrongUse, "", fmt::format("“{}” is locked.", in.thing),
                "Let it go first, in its notes.");
  if (request.contains("set") && request["set"].is_object()) {
    const auto changes = changes_of(in, request["set"]);
    if (!changes) return tl::unexpected<Error>(changes.error());
    return document::set_keys(in, *changes);
  }
  if (request.contains("move_m")) {
    const auto by = move_in(request);
    if (!by) return wrong("/move_m", "A move is [x, y] in metres.");
    return document::move_by(in, *by);
  }
  if (request.value("put_back", false)) return document::put_back(in);
  if (request.value("take_away", false)) return document::take_away(in);
  return wrong("", "What is to be done?");
}

Result<EditPart> part_of(const garden::Draft& draft, const Json& request) {
  if (!request.is_object()) return wrong("", "What is to be done?");
  for (const char* key : {"make_scheme", "rename_scheme", "merge_scheme", "drop_scheme"})
    if (is_text(request, key)) return scheme_part(draft, request);
  if (is_text(request, "add") && is_added_as_entry(request.value("add", "")))
    return entry_added(draft, request);
  if (is_text(request, "add") && is_text(request, "scheme")) return added(draft, request);
  if (is_text(request, "rename") && is_text(request, "thing")) {
    auto named = document::rename(draft, request["thing"], request.value("rename", ""));
    if (!named) return tl::unexpected<Error>(named.error());
    return EditPart{std::move(named->edits), named->id};
  }
  auto edits = edits_of(draft, request);
  if (!edits) return tl::unexpected<Error>(edits.error());
  return EditPart{std::move(*edits), ""};
}

}  // namespace

Result<EditsDone> edits_done(const OpenGarden::Held& garden, const Json& request) {
  constexpr std::size_t kMostParts = 400;
  const Json parts = request.value("all", Json::array({request}));
  if (!parts.is_array() || parts.empty() || parts.size() > kMostParts)
    return wrong("/all", "That is nothing, or too much at once.");
  EditsDone done{{garden.source(), garden.draft(), {}}, {}};
  for (Json part : parts) {
    if (part.is_object() && !part.contains("scheme") && request.contains("scheme"))
      part["scheme"] = request["scheme"];
    const auto one = part_of(done.document.draft, part);
    if (!one) return tl::unexpected<Error>(one.error());
    auto next = garden.edited(done.document.source, one->edits);
    if (!next) return tl::unexpected<Error>(next.error());
    done.document = std::move(*next);
    if (!one->made.empty()) done.made.push_back(one->made);
    if (!done.document.problems.empty()) break;
  }
  return done;
}

Result<garden::Draft> draft_with(const OpenGarden::Held& garden, const Json& request) {
  const auto by = move_in(request);
  if (by && is_text(request, "scheme") && is_text(request, "thing"))
    return document::moved_by({garden.draft(), request["scheme"], request["thing"]}, *by);
  auto done = edits_done(garden, request);
  if (!done) return tl::unexpected<Error>(done.error());
  if (!done->document.problems.empty())
    return tl::unexpected<Error>(done->document.problems.front());
  return std::move(done->document.draft);
}

namespace {

/// An entry without a place: by its name, or by its table's.
std::string named_entry(const Json& part) {
  const std::string table = part.value("table", ""), name = part.value("name", "");
  return name.empty() ? table : name;
}

std::string part_says(const Json& part) {
  if (!part.is_object()) return "";
  if (is_text(part, "make_scheme")) return part.value("make_scheme", "") + " begun";
  if (is_text(part, "rename_scheme"))
    return fmt::format("{}: now {}", part.value("rename_scheme", ""),
                       document::id_of_name(called_in(part)));
  if (is_text(part, "merge_scheme")) return part.value("merge_scheme", "") + " made the proposal";
  if (is_text(part, "drop_scheme")) return part.value("drop_scheme", "") + " dropped";
  const std::string thing = part.value("thing", named_entry(part));
  if (is_text(part, "rename"))
    return fmt::format("{}: now {}", thing, document::id_of_name(part.value("rename", "")));
  if (part.contains("move_m")) return thing + " moved";
  if (part.contains("put_back")) return thing + " put back";
  if (part.contains("take_away")) return thing + " taken away";
  const Json set = part.value("set", Json::object());
  std::string keys;
  for (const auto& [key, value] : set.items())
    keys += (keys.empty() ? "" : ", ") + garden::key_says(key);
  return fmt::format("{}: {}", thing, keys);
}

/// "want" of "want~2", which is no name; "pea" of "crop:pea".
std::string name_of_made(const std::string& made) {
  const std::size_t mark = made.find_first_of("~:");
  if (mark == std::string::npos) return made;
  return made[mark] == ':' && mark + 1 < made.size() ? made.substr(mark + 1) : made.substr(0, mark);
}

/// Whether each id that comes by it is that of something new.
bool has_new_things(const Json& request) {
  if (!request.contains("all")) return is_text(request, "add");
  return std::none_of(request["all"].begin(), request["all"].end(),
                      [](const Json& part) { return part.is_object() && is_text(part, "rename"); });
}

}  // namespace

std::vector<std::string> made_again(const Json& request) {
  if (is_text(request, "rename_scheme")) return {document::id_of_name(called_in(request))};
  if (!is_text(request, "rename")) return {};
  return {document::id_of_name(request.value("rename", ""))};
}

std::string edit_says(const Json& request, const std::vector<std::string>& made) {
  if (is_text(request, "says")) return request["says"];
  const bool adds = has_new_things(request);
  if (adds && made.size() == 1) return name_of_made(made.front()) + " added";
  if (adds && made.size() > 1) return fmt::format("{} things added", made.size());
  if (!request.contains("all")) return part_says(request);
  const Json& all = request["all"];
  return all.size() == 1 ? part_says(all[0]) : fmt::format("{} changes", all.size());
}

}  // namespace spadework::server
