#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "document/folded.h"
#include "document/limits.h"
#include "document/reading.h"

namespace spadework::document {
namespace {

struct Wanted {
  std::string_view says;     // "a length"
  std::string_view example;  // as TOML
};

Wanted wanted(const TypeSchema& type) {
  switch (type.type) {
    case ValueType::kNumber:
      return {"a figure", "4.5"};
    case ValueType::kWhole:
      return {"a whole number", "4"};
    case ValueType::kShare:
      return {"a share from 0 to 1", "0.6"};
    case ValueType::kLength:
      if (type.high <= 2) return {"a length", "0.2, or with its unit: \"195 mm\""};
      return {"a length", "1.4, or with its unit: \"4 ft 7 in\""};
    case ValueType::kStem:
      return {"a stem's width", "0.3, or \"girth 0.9 m\""};
    case ValueType::kAngle:
      return {"an angle in degrees", "12"};
    case ValueType::kTemperature:
      return {"a temperature", "-2, or with its unit: \"28 F\""};
    case ValueType::kText:
      return {"text", "\"…\", in quotes"};
    case ValueType::kYesNo:
      return {"true or false", "true"};
    case ValueType::kDate:
      return {"a date", "2026-03-01, without quotes"};
    case ValueType::kDay:
      return {"a day of the year", "\"03-01\", or 2026-03-01"};
    case ValueType::kId:
      return {"an id", "\"upper-bed\""};
    case ValueType::kReference:
      return {"the id of an entry", "\"upper-bed\""};
    case ValueType::kChoice:
    case ValueType::kWord:
    case ValueType::kFreeWord:
      return {"a word in quotes", "\"…\""};
    case ValueType::kPlace:
      return {"a place", "[6.4, 14.0], or the id of a point: \"peg\""};
    case ValueType::kLine:
      return {"a list of places", "[[0, 0], [11, 0]]"};
    case ValueType::kOutline:
      return {"a list of places", "[[0, 0], [4, 0], [4, 3], [0, 3]]"};
    case ValueType::kSpot:
      return {"a spot with its level", "[11, 26, 2.10]"};
    case ValueType::kSize:
      return {"two lengths", "[1.2, 3.6]"};
    case ValueType::kHorizonPoint:
      return {"a bearing and a height in degrees", "[180, 11]"};
    case ValueType::kAmount:
      return {"an amount in quotes", "\"6 kg\""};
    case ValueType::kTimeZone:
      return {"a time zone in quotes", "\"Europe/Paris\""};
    case ValueType::kList:
      return {"a list", "[…, …]"};
    case ValueType::kOneOrMany:
      return {"a word or a list of them", "[\"…\", \"…\"]"};
    case ValueType::kRecord:
    case ValueType::kReading:
      return {"keys in curly brackets", "{ … = …, … = … }"};
    case ValueType::kMap:
      return {"names in curly brackets", "{ name = … }"};
    case ValueType::kTie:
      return {"a tape length", "[\"post\", \"nail\", 12.4]"};
  }
  return {"a value", "…"};
}

std::string_view sort_of(const TomlNode& node) {
  constexpr std::string_view kSorts[] = {"text",   "a whole number", "a figure", "true or false",
                                         "a date", "a clock time",   "a list",   "a table"};
  return kSorts[node.is.index()];
}

std::vector<std::string> names_of(const std::vector<KeySchema>& keys) {
  std::vector<std::string> out;
  for (const KeySchema& key : keys) out.push_back(key.name);
  return out;
}

const KeySchema* key_of(const std::vector<KeySchema>& keys, std::string_view name) {
  for (const KeySchema& key : keys) {
    if (key.name == name || key.name == "*") return &key;
  }
  return nullptr;
}

}  // namespace

std::optional<Value> wrong_type(Reading& reading, const Asked& asked, const TomlNode& node) {
  const Wanted want = wanted(asked.type);
  std::string example(want.example);
  if (!asked.type.words.empty() && asked.type.type == ValueType::kChoice) {
    example = "\"" + asked.type.words.front() + "\"";
  }
  reading.problems.tell(
      asked.at, ErrorCode::kWrongType,
      fmt::format("{} wants {}, not {}", asked.name, want.says, sort_of(node)),
      fmt::format("write {} = {}", asked.name.substr(asked.name.rfind('.') + 1), example));
  return std::nullopt;
}

std::string short_number(double value) {
  constexpr double kMillion = 1e6, kMost = 1e15;
  const bool is_large = std::abs(value) >= kMillion / 2 && std::abs(value) < kMost;
  std::string out = is_large ? fmt::format("{:.0f}", value) : fmt::format("{:.6g}", value);
  return out == "-0" ? "0" : out;
}

bool is_id(std::string_view text) {
  if (text.empty() || text.size() > kLongestId || text.front() == '-' || text.back() == '-') {
    return false;
  }
  return text.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string_view::npos;
}

std::string as_id(std::string_view text) {
  std::string out;
  for (const char c : folded(text)) {
    if (c >= 'A' && c <= 'Z') {
      out += static_cast<char>(c - 'A' + 'a');
    } else if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9')) {
      out += c;
    } else if (!out.empty() && out.back() != '-') {
      out += '-';
    }
  }
  out.resize(std::min(out.size(), kLongestId));
  while (!out.empty() && out.back() == '-') out.pop_back();
  return out;
}

std::optional<Value> read_value(Reading& reading, const Asked& asked, const TomlNode& node) {
  switch (asked.type.type) {
    case ValueType::kNumber:
    case ValueType::kWhole:
    case ValueType::kShare:
    case ValueType::kLength:
    case ValueType::kStem:
    case ValueType::kAngle:
    case ValueType::kTemperature:
      return read_figure(reading, asked, node);
    case ValueType::kText:
    case ValueType::kYesNo:
    case ValueType::kDate:
    case ValueType::kDay:
    case ValueType::kId:
    case ValueType::kReference:
    case ValueType::kChoice:
    case ValueType::kWord:
    case ValueType::kFreeWord:
    case ValueType::kAmount:
    case ValueType::kTimeZone:
      return read_word(reading, asked, node);
    default:
      return read_shape(reading, asked, node);
  }
}

void read_field(Reading& reading, const std::vector<KeySchema>& keys, const TomlField& field,
                const Owner& owner, Record& out) {
  const KeySchema* key = key_of(keys, field.key);
  if (key == nullptr) {
    const std::vector<std::string> names = names_of(keys);
    reading.problems.tell(
        field.where, ErrorCode::kUnknownKey,
        fmt::format("{} has no key {}", owner.label, quoted(field.key)),
        reading.problems.hint_for(field.key, names, "its keys are " + some_words(names, 40)));
    return;
  }
  const Asked asked{key->type, owner.path + (key->name == "*" ? field.key : key->name),
                    field.where};
  const Within within(reading.problems, field.key);
  auto value = read_value(reading, asked, field.value);
  if (!value) {
    if (owner.path.empty()) reading.faulty.push_back(field.key);
    return;
  }
  if (key->needed && value->text() != nullptr && value->text()->empty()) {
    reading.problems.tell(field.where, ErrorCode::kImpossibleValue,
                          fmt::format("{} is empty", asked.name),
                          fmt::format("write {} = \"…\"", key->name));
    return;
  }
  out.push_back({field.key, field.where, std::move(*value)});
}

Record read_fields(Reading& reading, const std::vector<KeySchema>& keys, const TomlTable& table,
                   const Owner& owner) {
  Record out;
  for (const TomlField& field : table) read_field(reading, keys, field, owner, out);
  for (const KeySchema& key : keys) {
    if (!key.needed || find_field(table, key.name) != nullptr) continue;
    const Within within(reading.problems, key.name);
    reading.problems.tell(
        owner.where, ErrorCode::kMissingKey, fmt::format("{} has no {}", owner.label, key.name),
        fmt::format("add {} = {}", key.name,
                    key.type.type == ValueType::kChoice ? "\"" + key.type.words.front() + "\""
                                                        : std::string(wanted(key.type).example)));
  }
  return out;
}

}  // namespace spadework::document
