#include "garden/keys.h"

namespace spadework::garden {

const Value* Keys::find(std::string_view key) const {
  const Field* field = find_field(*record_, key);
  return field == nullptr ? nullptr : &field->value;
}

bool Keys::has(std::string_view key) const { return find(key) != nullptr; }

std::optional<double> Keys::number(std::string_view key) const {
  const Value* value = find(key);
  if (value == nullptr || value->number() == nullptr) return std::nullopt;
  return *value->number();
}

double Keys::number_or_default(std::string_view key) const {
  const auto given = number(key);
  return given ? *given : default_number(table_, key);
}

std::optional<Length> Keys::length(std::string_view key) const {
  const auto given = number(key);
  if (!given) return std::nullopt;
  return metres(*given);
}

Length Keys::needed_length(std::string_view key) const { return metres(number_or_default(key)); }

std::string Keys::text(std::string_view key, std::string_view otherwise) const {
  const Value* value = find(key);
  return value == nullptr || value->text() == nullptr ? std::string(otherwise) : *value->text();
}

bool Keys::yes(std::string_view key) const {
  const Value* value = find(key);
  return value != nullptr && value->yes_no() != nullptr && *value->yes_no();
}

Vec2 place_of(const Value& value, const PointMap& points) {
  if (const std::string* id = value.text()) {
    const auto point = points.find(*id);
    SW_CHECK(point != points.end());
    return point->second;
  }
  SW_CHECK(value.list() != nullptr);
  const List& pair = *value.list();
  SW_CHECK_LE(2u, pair.size());
  return {*pair[0].number(), *pair[1].number()};
}

Vec2 Keys::place(std::string_view key) const {
  const Value* value = find(key);
  SW_CHECK(value != nullptr);
  return place_of(*value, *points_);
}

std::vector<Vec2> Keys::places(std::string_view key) const {
  std::vector<Vec2> out;
  if (const List* all = list(key)) {
    for (const Value& value : *all) out.push_back(place_of(value, *points_));
  }
  return out;
}

std::vector<std::string> Keys::texts(std::string_view key) const {
  const Value* value = find(key);
  if (value == nullptr) return {};
  if (value->text() != nullptr) return {*value->text()};
  std::vector<std::string> out;
  if (value->list() != nullptr) {
    for (const Value& item : *value->list()) {
      if (item.text() != nullptr) out.push_back(*item.text());
    }
  }
  return out;
}

Vec2 Keys::size(std::string_view key) const {
  const List* pair = list(key);
  SW_CHECK(pair != nullptr && pair->size() == 2);
  return {*(*pair)[0].number(), *(*pair)[1].number()};
}

const Record* Keys::record(std::string_view key) const {
  const Value* value = find(key);
  return value == nullptr ? nullptr : value->record();
}

const List* Keys::list(std::string_view key) const {
  const Value* value = find(key);
  return value == nullptr ? nullptr : value->list();
}

}  // namespace spadework::garden
