#include "server/toml_of.h"

#include <algorithm>
#include <vector>

#include "document/patch.h"
#include "document/units.h"
#include "server/typed_date.h"
#include "server/typed_figure.h"

namespace spadework::server {
namespace {

using garden::TypeSchema;
using garden::Value;
using garden::ValueType;

TypeSchema of(ValueType type) {
  TypeSchema out;
  out.type = type;
  return out;
}

/// The type of the ith value of a list.
const TypeSchema* item_type(const TypeSchema* type, std::size_t i) {
  static const TypeSchema length = of(ValueType::kLength), angle = of(ValueType::kAngle),
                          text = of(ValueType::kText), place = of(ValueType::kPlace);
  if (type == nullptr) return nullptr;
  switch (type->type) {
    case ValueType::kPlace:
    case ValueType::kSize:
    case ValueType::kSpot:
      return &length;
    case ValueType::kLine:
    case ValueType::kOutline:
      return &place;
    case ValueType::kHorizonPoint:
      return &angle;
    case ValueType::kTie:
      return i < 2 ? &text : &length;
    default:
      return type->item.empty() ? nullptr : &type->item[0];
  }
}

const TypeSchema* field_type(const TypeSchema* type, const std::string& key) {
  if (type == nullptr) return nullptr;
  for (const garden::KeySchema& field : type->fields)
    if (field.name == key) return &field.type;
  return type->type == ValueType::kMap && !type->item.empty() ? &type->item[0] : nullptr;
}

/// Whether the document has just this value.
bool is_same(const Value& was, const Json& json) {
  if (json.is_number()) return was.number() != nullptr && *was.number() == json.get<double>();
  if (json.is_boolean()) return was.yes_no() != nullptr && *was.yes_no() == json.get<bool>();
  if (json.is_string()) {
    const auto& text = json.get_ref<const std::string&>();
    if (was.text() != nullptr) return *was.text() == text;
    return was.typed == document::toml_text(text) ||
           (was.date() != nullptr && iso_date(*was.date()) == text);
  }
  if (json.is_array()) {
    const garden::List* list = was.list();
    if (list == nullptr || list->size() != json.size()) return false;
    for (std::size_t i = 0; i < json.size(); ++i)
      if (!is_same((*list)[i], json[i])) return false;
    return true;
  }
  const garden::Record* record = was.record();
  return json.is_object() && record != nullptr && record->size() == json.size() &&
         std::all_of(record->begin(), record->end(), [&](const garden::Field& field) {
           return json.contains(field.key) && is_same(field.value, json[field.key]);
         });
}

/// What stood there before: at the same place of a list as long, else where it is the same.
const Value* item_was(const garden::List& was, const Json& items, std::size_t i) {
  if (was.size() == items.size()) return &was[i];
  for (const Value& one : was)
    if (is_same(one, items[i])) return &one;
  return nullptr;
}

/// Names of a record: those there before, those of the schema, the rest.
std::vector<std::string> names_in_order(const Json& json, const TypeSchema* type,
                                        const Value* was) {
  std::vector<std::string> names;
  const auto take = [&](const std::string& name) {
    const bool fits = json.contains(name) && !json[name].is_null();
    if (fits && std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  };
  if (was != nullptr && was->record() != nullptr)
    for (const garden::Field& field : *was->record()) take(field.key);
  if (type != nullptr)
    for (const garden::KeySchema& field : type->fields) take(field.name);
  for (const auto& [name, value] : json.items()) take(name);
  return names;
}

template <class Name>
tl::unexpected<Error> within(const Name& name, Error error) {
  error.part = "/" + std::string(name) + error.part;
  return tl::unexpected<Error>(std::move(error));
}

/// What is no figure at all is told here, in words for a field; a unit that does not fit is told by
/// the document.
Result<std::string> figure(const std::string& text, ValueType type, bool imperial) {
  auto toml = figure_toml(text, type, imperial);
  if (!toml || !toml->starts_with('"')) return toml;
  const auto refused = [](const char* says, const char* hint) {
    return fail(ErrorCode::kWrongType, "", says, hint);
  };
  if (type == ValueType::kNumber) return refused("That is no figure.", "Such as 4.5.");
  if (type == ValueType::kWhole) return refused("That is no whole number.", "Such as 4.");
  if (type == ValueType::kShare) return refused("That is no share.", "Such as 0.6: from 0 to 1.");
  return toml;
}

}  // namespace

TomlOf::TomlOf(const garden::Draft& draft) {
  const garden::Entry* site = draft.single("garden");
  imperial_ = site != nullptr && site->text("units") == "imperial";
}

Result<std::string> TomlOf::key(const std::string& name, const Json& json,
                                const garden::KeySchema* known, const garden::Value* was) const {
  auto toml = value(json, known == nullptr ? nullptr : &known->type, was);
  if (!toml) return within(name, std::move(toml.error()));
  return toml;
}

Result<std::string> TomlOf::value(const Json& json, const Type* type, const Value* was,
                                  bool is_lain) const {
  const bool is_list = json.is_array();
  if (!is_list && type != nullptr && type->type == ValueType::kOneOrMany && !type->item.empty())
    type = &type->item[0];
  if (json.is_string()) return text(json.get_ref<const std::string&>(), type);
  if (json.is_boolean()) return std::string(json.get<bool>() ? "true" : "false");
  if (json.is_number()) {
    const bool stays = was != nullptr && !was->typed.empty() && is_same(*was, json);
    if (stays) return was->typed;
    const double number = json.get<double>();
    return is_lain && imperial_ && document::is_taped_in_feet(number)
               ? document::toml_text(document::feet_says(number))
               : document::toml_number(number);
  }
  return is_list ? list(json, type, was) : record(json, type, was);
}

Result<std::string> TomlOf::text(const std::string& text, const Type* type) const {
  if (type == nullptr) return document::toml_text(text);
  const auto& words = type->words;
  const bool is_word = std::find(words.begin(), words.end(), text) != words.end();
  if (is_word) return document::toml_text(text);
  if (is_figure(type->type)) return figure(text, type->type, imperial_);
  if (type->type == ValueType::kAmount) return amount_toml(text);
  if (type->type == ValueType::kDate || type->type == ValueType::kDay)
    return date_toml(text, type->type);
  return document::toml_text(text);
}

Result<std::string> TomlOf::list(const Json& json, const Type* type, const Value* was) const {
  std::string out;
  for (std::size_t i = 0; i < json.size(); ++i) {
    const bool knows = was != nullptr && was->list() != nullptr;
    const Value* before = knows ? item_was(*was->list(), json, i) : nullptr;
    const bool is_lain = type != nullptr && type->type == ValueType::kPlace;
    auto toml = value(json[i], item_type(type, i), before, is_lain);
    if (!toml) return within(std::to_string(i), std::move(toml.error()));
    out += (i == 0 ? "" : ", ") + *toml;
  }
  return "[" + out + "]";
}

Result<std::string> TomlOf::record(const Json& json, const Type* type, const Value* was) const {
  std::string out;
  for (const std::string& name : names_in_order(json, type, was)) {
    const garden::Field* before = was == nullptr || was->record() == nullptr
                                      ? nullptr
                                      : garden::find_field(*was->record(), name);
    auto toml =
        value(json[name], field_type(type, name), before == nullptr ? nullptr : &before->value);
    if (!toml) return within(name, std::move(toml.error()));
    out += (out.empty() ? "" : ", ") + document::toml_key(name) + " = " + *toml;
  }
  return out.empty() ? "{}" : "{ " + out + " }";
}

}  // namespace spadework::server
