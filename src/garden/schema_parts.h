// How the tables of the schema are put together; only the schema's own files include this.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "garden/schema.h"

namespace spadework::garden::parts {

// How far from its datum a plan may reach, in metres.
inline constexpr double kFarthest_m = 2000;

inline TypeSchema of(ValueType type) {
  TypeSchema out;
  out.type = type;
  return out;
}
inline TypeSchema within(ValueType type, double low, double high) {
  TypeSchema out = of(type);
  out.low = low;
  out.high = high;
  return out;
}
inline TypeSchema number(double low, double high) { return within(ValueType::kNumber, low, high); }
inline TypeSchema whole(double low, double high) { return within(ValueType::kWhole, low, high); }
inline TypeSchema share() { return within(ValueType::kShare, 0, 1); }
inline TypeSchema length(double low, double high) { return within(ValueType::kLength, low, high); }
inline TypeSchema stem() { return within(ValueType::kStem, 0.005, 6); }
inline TypeSchema angle(double low, double high) { return within(ValueType::kAngle, low, high); }
inline TypeSchema bearing() { return angle(-360, 360); }
inline TypeSchema temperature() { return within(ValueType::kTemperature, -90, 60); }
inline TypeSchema text() { return of(ValueType::kText); }
inline TypeSchema yes_no() { return of(ValueType::kYesNo); }
inline TypeSchema date() { return of(ValueType::kDate); }
inline TypeSchema day() { return of(ValueType::kDay); }
inline TypeSchema own_id() { return of(ValueType::kId); }
inline TypeSchema place() { return within(ValueType::kPlace, -kFarthest_m, kFarthest_m); }
inline TypeSchema line() { return within(ValueType::kLine, -kFarthest_m, kFarthest_m); }
inline TypeSchema outline() { return within(ValueType::kOutline, -kFarthest_m, kFarthest_m); }
inline TypeSchema spot() { return within(ValueType::kSpot, -kFarthest_m, kFarthest_m); }
inline TypeSchema size(double high = kFarthest_m) { return within(ValueType::kSize, 0.01, high); }
inline TypeSchema horizon_point() { return of(ValueType::kHorizonPoint); }
inline TypeSchema tie() { return within(ValueType::kTie, 0.01, kFarthest_m); }
inline TypeSchema time_zone() { return of(ValueType::kTimeZone); }

inline TypeSchema reference(std::vector<std::string> tables) {
  TypeSchema out = of(ValueType::kReference);
  out.tables = std::move(tables);
  return out;
}
/// Free text that is often the id of an entry of one of the tables.
inline TypeSchema text_or_id(std::vector<std::string> tables) {
  TypeSchema out = of(ValueType::kText);
  out.tables = std::move(tables);
  return out;
}
inline TypeSchema choice(std::vector<std::string> words) {
  TypeSchema out = of(ValueType::kChoice);
  out.words = std::move(words);
  return out;
}
inline TypeSchema word(std::string catalogue) {
  TypeSchema out = of(ValueType::kWord);
  out.catalogue = std::move(catalogue);
  return out;
}
inline TypeSchema free_word(std::string catalogue) {
  TypeSchema out = of(ValueType::kFreeWord);
  out.catalogue = std::move(catalogue);
  return out;
}
/// `low` and `high` are how many items the list may have.
inline TypeSchema list(TypeSchema item, double low, double high) {
  TypeSchema out = within(ValueType::kList, low, high);
  out.item.push_back(std::move(item));
  return out;
}
inline TypeSchema one_or_many(TypeSchema item) {
  TypeSchema out = of(ValueType::kOneOrMany);
  out.item.push_back(std::move(item));
  return out;
}
inline TypeSchema record(std::vector<KeySchema> fields) {
  TypeSchema out = of(ValueType::kRecord);
  out.fields = std::move(fields);
  return out;
}
inline TypeSchema reading(std::vector<KeySchema> fields) {
  TypeSchema out = record(std::move(fields));
  out.type = ValueType::kReading;
  return out;
}
inline TypeSchema map(TypeSchema item) {
  TypeSchema out = of(ValueType::kMap);
  out.item.push_back(std::move(item));
  return out;
}
/// Names are years.
inline TypeSchema map_by_year(TypeSchema item) {
  TypeSchema out = map(std::move(item));
  out.low = 1900;
  out.high = 2100;
  return out;
}
/// A figure with one of the units in `units`.
inline TypeSchema amount(std::vector<std::string> units) {
  TypeSchema out = of(ValueType::kAmount);
  out.words = std::move(units);
  return out;
}
/// The same type, which also takes the words.
inline TypeSchema or_words(TypeSchema type, std::vector<std::string> words) {
  type.words = std::move(words);
  return type;
}

inline KeySchema needed(std::string name, TypeSchema type, std::string says) {
  return KeySchema{std::move(name), std::move(type), true, "", std::move(says)};
}
inline KeySchema key(std::string name, TypeSchema type, std::string says) {
  return KeySchema{std::move(name), std::move(type), false, "", std::move(says)};
}
inline KeySchema key(std::string name, TypeSchema type, std::string default_says,
                     std::string says) {
  return KeySchema{std::move(name), std::move(type), false, std::move(default_says),
                   std::move(says)};
}

/// A table that can be changed and that takes the common keys of things.
inline TableSchema thing(std::string name, std::string says, std::vector<KeySchema> keys) {
  return TableSchema{std::move(name), TableForm::kMany, true, std::move(keys), std::move(says)};
}
/// A table that comes once; it takes `note` and `guessed`.
TableSchema single(std::string name, std::string says, std::vector<KeySchema> keys);

/// What every table of things takes besides its own keys.
[[nodiscard]] const std::vector<KeySchema>& common_keys();

// The tables, in the order of the documentation.
std::vector<TableSchema> site_tables();     // the place, its ground and its survey
std::vector<TableSchema> around_tables();   // walls, buildings, trees
std::vector<TableSchema> bed_tables();      // beds, paths, areas
std::vector<TableSchema> place_tables();    // supports, seats, points, gates
std::vector<TableSchema> plant_tables();    // plants, containers, covers
std::vector<TableSchema> utility_tables();  // tanks, services, objects
std::vector<TableSchema> purpose_tables();  // what is wanted, in sight and on the plate
std::vector<TableSchema> works_tables();    // labour, prices, schemes and changes

}  // namespace spadework::garden::parts
