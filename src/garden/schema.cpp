#include "garden/schema.h"

#include <algorithm>
#include <charconv>
#include <functional>
#include <map>

#include "base/check.h"
#include "garden/schema_parts.h"

namespace spadework::garden {
namespace parts {
namespace {

KeySchema note_key() { return key("note", text(), "Anything you want to keep with it."); }
KeySchema guessed_key() {
  return key("guessed", list(text(), 0, 100),
             "Keys whose figures were not measured: `[\"height_m\"]`. Results show it.");
}

std::vector<KeySchema> make_common_keys() {
  return {
      key("status", choice({"existing", "proposed"}), "\"existing\"",
          "Whether it is there or only proposed."),
      key("removed", yes_no(), "false", "Whether an existing thing goes in the proposal."),
      key("phase", whole(1, 99), "In which stage of the works it comes."),
      key("locked", yes_no(), "false",
          "Whether it stays where it is: not moved, reshaped or taken away until it is let go."),
      note_key(),
      guessed_key(),
      key("scheme", or_words(reference({"scheme"}), {"proposed"}),
          "The only scheme that it belongs to; without it, every one but `found`."),
  };
}

}  // namespace

TableSchema single(std::string name, std::string says, std::vector<KeySchema> keys) {
  keys.push_back(note_key());
  keys.push_back(guessed_key());
  return TableSchema{std::move(name), TableForm::kSingle, false, std::move(keys), std::move(says)};
}

const std::vector<KeySchema>& common_keys() {
  static const std::vector<KeySchema> keys = make_common_keys();
  return keys;
}

}  // namespace parts

namespace {

std::vector<TableSchema> make_schema() {
  std::vector<TableSchema> all;
  for (const auto& group : {parts::site_tables(), parts::around_tables(), parts::bed_tables(),
                            parts::place_tables(), parts::plant_tables(), parts::utility_tables(),
                            parts::purpose_tables(), parts::works_tables()}) {
    all.insert(all.end(), group.begin(), group.end());
  }
  for (TableSchema& table : all) {
    if (!table.thing) continue;
    for (const KeySchema& key : parts::common_keys()) {  // a task has a lock of its own
      if (find_key(table, key.name) == nullptr) table.keys.push_back(key);
    }
  }
  return all;
}

const KeySchema& key_that_must_be(std::string_view table, std::string_view key) {
  const TableSchema* found = find_table(table);
  SW_CHECK(found != nullptr);
  const KeySchema* schema_key = find_key(*found, key);
  SW_CHECK(schema_key != nullptr);
  return *schema_key;
}

}  // namespace

const std::vector<TableSchema>& schema() {
  static const std::vector<TableSchema> tables = make_schema();
  return tables;
}

const TableSchema* find_table(std::string_view name) {
  for (const TableSchema& table : schema()) {
    if (table.name == name) return &table;
  }
  return nullptr;
}

const KeySchema* find_key(const TableSchema& table, std::string_view key) {
  for (const KeySchema& candidate : table.keys) {
    if (candidate.name == key) return &candidate;
  }
  const bool any_name = !table.keys.empty() && table.keys.front().name == "*";
  return any_name ? &table.keys.front() : nullptr;
}

bool is_on_sheet(const TableSchema& table) {
  return table.thing && std::any_of(table.keys.begin(), table.keys.end(), [](const KeySchema& key) {
           const ValueType type = key.type.type;
           return type == ValueType::kPlace || type == ValueType::kLine ||
                  type == ValueType::kOutline;
         });
}

const std::vector<std::string>& rivals_of(std::string_view key) {
  static const std::map<std::string, std::vector<std::string>, std::less<>> rivals = {
      {"level_m", {"level", "level_with"}},
      {"level", {"level_m", "level_with"}},
      {"level_with", {"level_m", "level"}},
      {"outline", {"at", "size", "turn_deg", "row", "over"}},
      {"row", {"at", "outline"}},
      {"at", {"row", "line", "outline"}},
      {"size", {"outline"}},
      {"line", {"at", "turn_deg"}},
      {"ridge_deg", {"high_side"}},
      {"high_side", {"ridge_deg"}},
      {"to", {"thing"}},
      {"over", {"outline"}},
  };
  static const std::vector<std::string> none;
  const auto found = rivals.find(key);
  return found == rivals.end() ? none : found->second;
}

double default_number(std::string_view table, std::string_view key) {
  const std::string& says = key_that_must_be(table, key).default_says;
  double value = 0;
  const auto [end, error] = std::from_chars(says.data(), says.data() + says.size(), value);
  SW_CHECK(error == std::errc() && end == says.data() + says.size());
  return value;
}

std::string default_text(std::string_view table, std::string_view key) {
  const std::string& says = key_that_must_be(table, key).default_says;
  SW_CHECK(says.size() >= 2 && says.front() == '"' && says.back() == '"');
  return says.substr(1, says.size() - 2);
}

}  // namespace spadework::garden
