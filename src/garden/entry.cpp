#include "garden/entry.h"

#include <fmt/format.h>

namespace spadework::garden {

const Field* find_field(const Record& record, std::string_view key) {
  for (const Field& field : record) {
    if (field.key == key) return &field;
  }
  return nullptr;
}

const Value* Entry::find(std::string_view key) const {
  const Field* field = find_field(fields, key);
  return field == nullptr ? nullptr : &field->value;
}

std::string Entry::text(std::string_view key) const {
  const Value* value = find(key);
  return value == nullptr || value->text() == nullptr ? std::string() : *value->text();
}

std::vector<std::string> Entry::guessed() const {
  std::vector<std::string> keys;
  const Value* named = find("guessed");
  if (named == nullptr || named->list() == nullptr) return keys;
  for (const Value& key : *named->list()) {
    if (key.text() != nullptr) keys.push_back(*key.text());
  }
  return keys;
}

std::string Draft::at(TextPlace place) const {
  return place.line == 0 ? file : fmt::format("{}:{}:{}", file, place.line, place.column);
}

const Entry* Draft::single(std::string_view table) const {
  for (const Entry& entry : entries) {
    if (entry.table == table) return &entry;
  }
  return nullptr;
}

const Entry* Draft::with_id(std::string_view id) const {
  if (id.empty()) return nullptr;
  for (const Entry& entry : entries) {
    if (entry.id == id && entry.table != "change" && entry.table != "crop") return &entry;
  }
  return nullptr;
}

}  // namespace spadework::garden
