#include "facts/data_file.h"

#include <fmt/format.h>

#include <utility>

#include "base/toml_parser.h"

namespace spadework::facts {
namespace {

DataValue plain(std::string key, const toml::node& node) {
  DataValue out;
  out.key = std::move(key);
  out.line = static_cast<int>(node.source().begin.line);
  out.column = static_cast<int>(node.source().begin.column);
  out.form = DataValue::Form::kOther;
  if (const auto* table = node.as_table()) {
    out.form = DataValue::Form::kTable;
    out.items.reserve(table->size());
    for (const auto& [name, item] : *table)
      out.items.push_back(plain(std::string(name.str()), item));
  } else if (const auto* list = node.as_array()) {
    out.form = DataValue::Form::kList;
    out.items.reserve(list->size());
    for (const auto& item : *list) out.items.push_back(plain({}, item));
  } else if (const auto* text = node.as_string()) {
    out.form = DataValue::Form::kText;
    out.text = text->get();
  } else if (const auto number = node.value<double>()) {
    out.form = DataValue::Form::kNumber;
    out.number = *number;
  } else if (const auto flag = node.as_boolean()) {
    out.form = DataValue::Form::kFlag;
    out.flag = flag->get();
  }
  return out;
}

}  // namespace

const DataValue* DataValue::find(std::string_view name) const {
  if (form != Form::kTable) return nullptr;
  for (const DataValue& item : items) {
    if (item.key == name) return &item;
  }
  return nullptr;
}

Result<DataValue> read_data_file(const std::string& file, std::string_view bytes) {
  const toml::parse_result parsed = toml::parse(bytes);
  if (!parsed) {
    const auto& at = parsed.error().source().begin;
    return fail(ErrorCode::kSyntax, fmt::format("{}:{}:{}", file, at.line, at.column),
                std::string(parsed.error().description()));
  }
  return plain({}, parsed.table());
}

}  // namespace spadework::facts
