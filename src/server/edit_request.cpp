#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "document/scheme_edits.h"
#include "garden/schema.h"
#include "server/routes.h"
#include "server/typed_figure.h"

namespace spadework::server {
namespace {

using garden::ValueType;

/// One part of what is done, and the id of what comes by it.
struct EditPart {
  std::vector<document::Edit> edits;
  std::string made;
};

bool is_text(const Json& json, const char* key) {
  return json.contains(key) && json[key].is_string();
}

tl::unexpected<Error> wrong(const std::string& where, const std::string& message) {
  return fail(ErrorCode::kWrongUse, where, message,
              "This page and the program do not fit: load "
              "the page again.");
}

const garden::TypeSchema* field_type(const garden::TypeSchema* type, const std::string& key) {
  if (type == nullptr) return nullptr;
  for (const garden::KeySchema& field : type->fields)
    if (field.name == key) return &field.type;
  return nullptr;
}

/// JSON values as TOML. A number is in the document's own units, a figure typed as text in those of
/// the garden.
class TomlOf {
 public:
  explicit TomlOf(const garden::Draft& draft) {
    const garden::Entry* site = draft.single("garden");
    const garden::Value* units = site == nullptr ? nullptr : site->find("units");
    imperial_ = units != nullptr && units->text() != nullptr && *units->text() == "imperial";
  }

  /// `type` tells what a word is to be.
  [[nodiscard]] Result<std::string> operator()(const Json& json,
                                               const garden::TypeSchema* type) const {
    if (json.is_string()) return text(json.get_ref<const std::string&>(), type);
    if (json.is_boolean()) return std::string(json.get<bool>() ? "true" : "false");
    if (json.is_number()) return document::toml_number(json.get<double>());
    return json.is_array() ? list(json, type) : record(json, type);
  }

 private:
  [[nodiscard]] Result<std::string> text(const std::string& text,
                                         const garden::TypeSchema* type) const {
    if (type == nullptr) return document::toml_text(text);
    const auto& words = type->words;
    if (is_figure(type->type) && std::find(words.begin(), words.end(), text) == words.end())
      return figure_toml(text, type->type, imperial_);
    if ((type->type == ValueType::kDate || type->type == ValueType::kDay) && parse_date(text))
      return text;
    return document::toml_text(text);
  }
  [[nodiscard]] Result<std::string> list(const Json& json, const garden::TypeSchema* type) const {
    garden::TypeSchema length;
    length.type = ValueType::kLength;
    const garden::TypeSchema* item =
        type == nullptr ? nullptr : (type->type == ValueType::kSize ? &length : nullptr);
    if (type != nullptr && !type->item.empty()) item = &type->item[0];
    std::string out;
    for (const Json& one : json) {
      const auto toml = (*this)(one, item);
      if (!toml) return toml;
      out += (out.empty() ? "" : ", ") + *toml;
    }
    return "[" + out + "]";
  }
  [[nodiscard]] Result<std::string> record(const Json& json, const garden::TypeSchema* type) const {
    std::string out;
    for (const auto& [key, value] : json.items()) {
      if (value.is_null()) continue;
      const auto toml = (*this)(value, field_type(type, key));
      if (!toml) return toml;
      out += (out.empty() ? "" : ", ") + document::toml_key(key) + " = " + *toml;
    }
    return out.empty() ? "{}" : "{ " + out + " }";
  }

  bool imperial_ = false;
};

Result<std::vector<document::KeyChange>> changes_of(const garden::Draft& draft,
                                                    const std::string& thing, const Json& set) {
  const garden::Entry* entry = draft.with_id(thing);
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
    const auto toml = toml_of(value, known == nullptr ? nullptr : &known->type);
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
    const auto toml = toml_of(value, &known->type);
    if (!toml) return tl::unexpected<Error>(toml.error());
    thing.keys.push_back({key, *toml});
  }
  auto made = document::add_thing(draft, request["scheme"], std::move(thing));
  if (!made) return tl::unexpected<Error>(made.error());
  return EditPart{{std::move(made->edit)}, made->id};
}

/// A scheme made, merged into the proposal, or dropped.
Result<EditPart> scheme_part(const garden::Draft& draft, const Json& request) {
  if (is_text(request, "make_scheme")) {
    auto made = document::make_scheme(draft, request["make_scheme"]);
    if (!made) return tl::unexpected<Error>(made.error());
    return EditPart{{std::move(made->edit)}, made->id};
  }
  auto edits = is_text(request, "merge_scheme")
                   ? document::merge_scheme(draft, request["merge_scheme"])
                   : document::drop_scheme(draft, request["drop_scheme"]);
  if (!edits) return tl::unexpected<Error>(edits.error());
  return EditPart{std::move(*edits), ""};
}

/// Keys of a table that there is one of: of the garden, whatever the scheme.
Result<std::vector<document::Edit>> table_edits(const garden::Draft& draft, const Json& request) {
  const std::string name = request["table"];
  const garden::TableSchema* table = garden::find_table(name);
  if (table == nullptr || table->form != garden::TableForm::kSingle || !request.contains("set") ||
      !request["set"].is_object())
    return wrong("/table", "This cannot be set.");
  const garden::Entry* entry = draft.single(name);
  const TomlOf toml_of(draft);
  std::vector<document::Edit> edits;
  for (const auto& [key, value] : request["set"].items()) {
    const garden::KeySchema* known = garden::find_key(*table, key);
    if (known == nullptr) return wrong("/set/" + key, fmt::format("{} has no “{}”.", name, key));
    if (!value.is_null()) {
      const auto toml = toml_of(value, &known->type);
      if (!toml) return tl::unexpected<Error>(toml.error());
      edits.emplace_back(document::SetKey{{name}, {key}, *toml});
    } else if (entry != nullptr && entry->find(key) != nullptr) {
      edits.emplace_back(document::RemoveKey{{name}, {key}});
    }
  }
  return edits;
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
  if (is_text(request, "table")) return table_edits(draft, request);
  if (!is_text(request, "scheme") || !is_text(request, "thing"))
    return wrong("", "Which thing, in which scheme?");
  const document::ThingIn in{draft, request["scheme"], request["thing"]};
  if (is_kept_by_lock(draft, request))
    return fail(ErrorCode::kWrongUse, "", fmt::format("“{}” is locked.", in.thing),
                "Let it go first, in its notes.");
  if (request.contains("set") && request["set"].is_object()) {
    const auto changes = changes_of(draft, in.thing, request["set"]);
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
  for (const char* key : {"make_scheme", "merge_scheme", "drop_scheme"})
    if (is_text(request, key)) return scheme_part(draft, request);
  if (is_text(request, "add") && is_text(request, "scheme")) return added(draft, request);
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
  EditsDone done{{garden.text(), garden.draft(), {}}, {}};
  for (Json part : parts) {
    if (part.is_object() && !part.contains("scheme") && request.contains("scheme"))
      part["scheme"] = request["scheme"];
    const auto one = part_of(done.document.draft, part);
    if (!one) return tl::unexpected<Error>(one.error());
    auto next = garden.edited(done.document.text, one->edits);
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

std::string part_says(const Json& part) {
  if (!part.is_object()) return "";
  if (is_text(part, "make_scheme")) return part.value("make_scheme", "") + " begun";
  if (is_text(part, "merge_scheme")) return part.value("merge_scheme", "") + " made the proposal";
  if (is_text(part, "drop_scheme")) return part.value("drop_scheme", "") + " dropped";
  const std::string thing = part.value("thing", part.value("table", ""));
  if (part.contains("move_m")) return thing + " moved";
  if (part.contains("put_back")) return thing + " put back";
  if (part.contains("take_away")) return thing + " taken away";
  const Json set = part.value("set", Json::object());
  std::string keys;
  for (const auto& [key, value] : set.items())
    keys += (keys.empty() ? "" : ", ") + garden::key_says(key);
  return fmt::format("{}: {}", thing, keys);
}

}  // namespace

std::string edit_says(const Json& request, const std::vector<std::string>& made) {
  if (is_text(request, "says")) return request["says"];
  const bool adds = is_text(request, "add") || request.contains("all");
  if (adds && made.size() == 1) return made.front() + " added";
  if (adds && made.size() > 1) return fmt::format("{} things added", made.size());
  if (!request.contains("all")) return part_says(request);
  const Json& all = request["all"];
  return all.size() == 1 ? part_says(all[0]) : fmt::format("{} changes", all.size());
}

}  // namespace spadework::server
