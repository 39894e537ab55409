// Places, lines, outlines, lists and records.
#include <fmt/format.h>

#include <set>

#include "document/limits.h"
#include "document/reading.h"

namespace spadework::document {
namespace {

TypeSchema length_within(double low, double high) {
  TypeSchema out;
  out.type = ValueType::kLength;
  out.low = low;
  out.high = high;
  return out;
}

/// A list of exactly `n` figures, each of its type; `types` has one for each.
std::optional<Value> read_figures(Reading& reading, const Asked& asked, const TomlNode& node,
                                  const std::vector<TypeSchema>& types,
                                  const std::vector<std::string>& names = {}) {
  const TomlList* list = node.list();
  if (list == nullptr || list->size() != types.size()) return wrong_type(reading, asked, node);
  List figures;
  for (std::size_t i = 0; i < types.size(); ++i) {
    const Within within(reading.problems, i);
    auto figure = read_figure(
        reading,
        Asked{types[i], names.empty() ? asked.name : names[i] + " of " + asked.name, asked.at},
        (*list)[i]);
    if (!figure) return std::nullopt;
    figures.push_back(std::move(*figure));
  }
  Value out;
  out.where = node.where;
  out.is = std::move(figures);
  return out;
}

std::optional<Value> read_place(Reading& reading, const Asked& asked, const TomlNode& node) {
  if (const std::string* id = node.text()) {
    reading.references.push_back({*id, asked.at, asked.name, true, {}, reading.problems.part()});
    Value out;
    out.where = node.where;
    out.is = *id;
    return out;
  }
  const TypeSchema coordinate = length_within(asked.type.low, asked.type.high);
  return read_figures(reading, asked, node, {coordinate, coordinate});
}

std::optional<Value> read_places(Reading& reading, const Asked& asked, const TomlNode& node) {
  const TomlList* list = node.list();
  if (list == nullptr) return wrong_type(reading, asked, node);
  const bool outline = asked.type.type == ValueType::kOutline;
  const std::size_t fewest = outline ? 3 : 2;
  if (list->size() < fewest) {
    reading.problems.tell(
        asked.at, ErrorCode::kWrongType,
        fmt::format("{} has {} of at least {} places", asked.name, list->size(), fewest),
        outline ? "write its corners: [[0, 0], [4, 0], [4, 3]]"
                : "write where it begins and ends: [[0, 0], [4, 0]]");
    return std::nullopt;
  }
  if (list->size() > kMostCorners) {
    reading.problems.tell(asked.at, ErrorCode::kTooLarge,
                          fmt::format("{} has {} places; at most {} are read", asked.name,
                                      list->size(), kMostCorners),
                          "leave out corners that lie nearly on a straight line");
    return std::nullopt;
  }
  TypeSchema place = asked.type;
  place.type = ValueType::kPlace;
  List places;
  for (const TomlNode& item : *list) {
    const Within within(reading.problems, places.size());
    if (item.text() != nullptr) {
      reading.references.push_back(
          {*item.text(), asked.at, asked.name, true, {}, reading.problems.part()});
      Value id;
      id.where = item.where;
      id.is = *item.text();
      places.push_back(std::move(id));
      continue;
    }
    auto value = read_place(reading, Asked{place, asked.name, asked.at}, item);
    if (!value) return std::nullopt;
    places.push_back(std::move(*value));
  }
  Value out;
  out.where = node.where;
  out.is = std::move(places);
  return out;
}

std::optional<Value> read_tie(Reading& reading, const Asked& asked, const TomlNode& node) {
  const TomlList* list = node.list();
  if (list == nullptr || list->size() != 3 || (*list)[0].text() == nullptr ||
      (*list)[1].text() == nullptr) {
    return wrong_type(reading, asked, node);
  }
  const TypeSchema tape = length_within(asked.type.low, asked.type.high);
  const Within within(reading.problems, 2);
  auto length = read_figure(reading, Asked{tape, asked.name, asked.at}, (*list)[2]);
  if (!length) return std::nullopt;
  List parts;
  for (int i = 0; i < 2; ++i) {
    Value name;
    name.where = (*list)[static_cast<std::size_t>(i)].where;
    name.is = *(*list)[static_cast<std::size_t>(i)].text();
    parts.push_back(std::move(name));
  }
  parts.push_back(std::move(*length));
  Value out;
  out.where = node.where;
  out.is = std::move(parts);
  return out;
}

bool check_count(Reading& reading, const Asked& asked, std::size_t count) {
  const auto n = static_cast<double>(count);
  if (n >= asked.type.low && n <= asked.type.high) return true;
  const bool exact = asked.type.low == asked.type.high;
  reading.problems.tell(
      asked.at, n > asked.type.high && n > 1000 ? ErrorCode::kTooLarge : ErrorCode::kWrongType,
      fmt::format("{} has {} items; it takes {}", asked.name, count,
                  exact ? short_number(asked.type.low)
                        : fmt::format("{} to {}", short_number(asked.type.low),
                                      short_number(asked.type.high))),
      "add or leave out what is missing or too many");
  return false;
}

/// kList, and kOneOrMany, whose value is a list all the same.
std::optional<Value> read_list(Reading& reading, const Asked& asked, const TomlNode& node) {
  const Asked item{asked.type.item.front(), asked.name, asked.at};
  List items;
  if (const TomlList* list = node.list()) {
    if (!check_count(reading, asked, list->size())) return std::nullopt;
    bool fine = true;
    std::size_t i = 0;
    for (const TomlNode& each : *list) {
      const Within within(reading.problems, i++);
      auto value = read_value(reading, item, each);
      if (value) items.push_back(std::move(*value));
      fine = fine && value.has_value();
    }
    if (!fine) return std::nullopt;
  } else if (asked.type.type == ValueType::kOneOrMany) {
    auto value = read_value(reading, item, node);
    if (!value) return std::nullopt;
    items.push_back(std::move(*value));
  } else {
    return wrong_type(reading, asked, node);
  }
  Value out;
  out.where = node.where;
  out.is = std::move(items);
  return out;
}

std::optional<Value> read_record(Reading& reading, const Asked& asked, const TomlNode& node) {
  Value out;
  out.where = node.where;
  if (node.text() != nullptr && !asked.type.words.empty()) {
    TypeSchema choice;
    choice.type = ValueType::kChoice;
    choice.words = asked.type.words;
    return read_word(reading, Asked{choice, asked.name, asked.at}, node);
  }
  const TomlTable* table = node.table();
  if (table == nullptr) return wrong_type(reading, asked, node);
  out.is = read_fields(reading, asked.type.fields, *table,
                       Owner{asked.name, asked.name + ".", asked.at});
  return out;
}

bool is_year(const std::string& name, const TypeSchema& type) {
  if (name.size() != 4 || name.find_first_not_of("0123456789") != std::string::npos) return false;
  const double year = std::stod(name);
  return year >= type.low && year <= type.high;
}

std::optional<Value> read_map(Reading& reading, const Asked& asked, const TomlNode& node) {
  const TomlTable* table = node.table();
  if (table == nullptr) return wrong_type(reading, asked, node);
  const bool by_year = asked.type.low > 0;
  Record fields;
  for (const TomlField& field : *table) {
    const Within within(reading.problems, field.key);
    if (by_year && !is_year(field.key, asked.type)) {
      reading.problems.tell(
          field.where, ErrorCode::kUnknownKey,
          fmt::format("{} goes by years; {} is none", asked.name, quoted(field.key)),
          fmt::format("write a year from {} to {}: {} = {{ 2025 = … }}", asked.type.low,
                      asked.type.high, asked.name));
      continue;
    }
    auto value = read_value(
        reading, Asked{asked.type.item.front(), asked.name + "." + field.key, field.where},
        field.value);
    if (value) fields.push_back({field.key, field.where, std::move(*value)});
  }
  Value out;
  out.where = node.where;
  out.is = std::move(fields);
  return out;
}

}  // namespace

std::optional<Value> read_shape(Reading& reading, const Asked& asked, const TomlNode& node) {
  TypeSchema bearing, altitude;
  switch (asked.type.type) {
    case ValueType::kPlace:
      return read_place(reading, asked, node);
    case ValueType::kLine:
    case ValueType::kOutline:
      return read_places(reading, asked, node);
    case ValueType::kSpot: {
      const TypeSchema coordinate = length_within(asked.type.low, asked.type.high);
      return read_figures(reading, asked, node, {coordinate, coordinate, coordinate});
    }
    case ValueType::kSize: {
      const TypeSchema side = length_within(asked.type.low, asked.type.high);
      return read_figures(reading, asked, node, {side, side});
    }
    case ValueType::kHorizonPoint:
      bearing.type = altitude.type = ValueType::kAngle;
      bearing.low = -360, bearing.high = 360;
      altitude.low = 0, altitude.high = 89;
      return read_figures(reading, asked, node, {bearing, altitude}, {"a bearing", "an altitude"});
    case ValueType::kTie:
      return read_tie(reading, asked, node);
    case ValueType::kList:
    case ValueType::kOneOrMany:
      return read_list(reading, asked, node);
    case ValueType::kMap:
      return read_map(reading, asked, node);
    default:
      return read_record(reading, asked, node);  // kRecord, kReading
  }
}

}  // namespace spadework::document
