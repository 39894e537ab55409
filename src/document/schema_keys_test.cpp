// Every key of the schema can be written: a document with a valid value for it is read without
// problems and the value is in the draft.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <map>

#include "document/test_support.h"
#include "garden/schema.h"

namespace spadework::document {
namespace {

using garden::KeySchema;
using garden::TableForm;
using garden::TableSchema;
using garden::TypeSchema;
using garden::ValueType;

/// What keys may refer to, and a bed of 12 slices.
constexpr std::string_view kThings = R"(
[[scheme]]
id = "a-scheme"
[[point]]
id = "a-point"
at = [1, 2]
[[building]]
id = "a-building"
outline = [[20, 0], [24, 0], [24, 4], [20, 4]]
eaves_m = 2.4
[[bed]]
id = "a-bed"
at = [40, 0]
size = [1.2, 3.6]
[[tank]]
id = "a-tank"
at = [50, 0]
litres = 200
)";

/// A figure within the range: of the middle, so that keys that go together fit each other.
std::string middle(const TypeSchema& type, bool whole) {
  const double low = std::max(type.low, -1000.0), high = std::min(type.high, 1000.0);
  const double value = std::clamp(1.5, low, high);
  if (!whole) return fmt::format("{}", value);
  return fmt::format("{}", static_cast<int>(std::clamp(2.0, low, high)));
}

std::string reference_to(const TypeSchema& type) {
  for (const char* table : {"scheme", "point", "building", "bed", "tank"}) {
    const bool fits = type.tables.empty() ||
                      std::find(type.tables.begin(), type.tables.end(), table) != type.tables.end();
    if (fits && (!type.tables.empty() || std::string(table) == "bed")) {
      return fmt::format("\"a-{}\"", table);
    }
  }
  return "\"nobody\"";
}

std::string word_of(const KnownWords& known, const TypeSchema& type) {
  const auto words = known.words_of(type.catalogue);
  if (!words.empty()) return "\"" + words.front() + "\"";
  return type.catalogue == "currency" ? "\"EUR\"" : "\"auto\"";
}

std::string record_of(const KnownWords& known, const std::vector<KeySchema>& fields);

/// A valid value, as TOML.
std::string example(const KnownWords& known, const TypeSchema& type) {
  switch (type.type) {
    case ValueType::kNumber:
    case ValueType::kLength:
    case ValueType::kStem:
    case ValueType::kAngle:
    case ValueType::kTemperature:
      return middle(type, false);
    case ValueType::kWhole:
      return middle(type, true);
    case ValueType::kShare:
      return "1";
    case ValueType::kText:
      return "\"words\"";
    case ValueType::kYesNo:
      return "true";
    case ValueType::kDate:
      return "2026-03-01";
    case ValueType::kDay:
      return "\"03-01\"";
    case ValueType::kId:
      return "\"it\"";
    case ValueType::kReference:
      return reference_to(type);
    case ValueType::kChoice:
      return "\"" + type.words.front() + "\"";
    case ValueType::kWord:
    case ValueType::kFreeWord:
      return word_of(known, type);
    case ValueType::kPlace:
      return "[2, 3]";
    case ValueType::kLine:
      return "[[0, 0], [4, 0]]";
    case ValueType::kOutline:
      return "[[0, 0], [4, 0], [4, 3]]";
    case ValueType::kSpot:
      return "[0, 0, 1.5]";
    case ValueType::kSize:
      return "[1.2, 3]";
    case ValueType::kHorizonPoint:
      return "[180, 11]";
    case ValueType::kAmount:
      return "\"6 " + type.words.front() + "\"";
    case ValueType::kTimeZone:
      return "\"Europe/Paris\"";
    case ValueType::kList: {
      std::string out;
      for (int i = 0; i < std::max(1, static_cast<int>(type.low)); ++i) {
        out += (i > 0 ? ", " : "") + example(known, type.item.front());
      }
      return "[" + out + "]";
    }
    case ValueType::kOneOrMany:
      return example(known, type.item.front());
    case ValueType::kRecord:
    case ValueType::kReading:
      return record_of(known, type.fields);
    case ValueType::kMap:
      return (type.low > 0 ? "{ 2025 = " : "{ somewhere = ") + example(known, type.item.front()) +
             " }";
    case ValueType::kTie:
      return "[\"a-new-peg\", \"a-point\", 3]";
  }
  return "";
}

std::string record_of(const KnownWords& known, const std::vector<KeySchema>& fields) {
  std::string out;
  for (const KeySchema& field : fields) {
    if (field.name == "m3") continue;  // or else tonnes
    const bool point = field.name == "from" || field.name == "to" || field.name == "point";
    out += (out.empty() ? "" : ", ") + field.name + " = " +
           (point ? std::string("\"a-point\"") : example(known, field.type));
  }
  return "{ " + out + " }";
}

/// What a key needs beside it, or has to have for a value; by "table.key" or "*.key".
const std::map<std::string, std::map<std::string, std::string>>& companions() {
  static const std::map<std::string, std::map<std::string, std::string>> all = {
      {"boundary.sides_m", {{"sides_m", "[10, 20, 10, 20]"}, {"diagonal_m", "22"}}},
      {"boundary.diagonal_m", {{"sides_m", "[10, 20, 10, 20]"}, {"diagonal_m", "22"}}},
      {"boundary", {{"outline", "[[0, 0], [4, 0], [4, 3]]"}}},
      {"ground.falls_m", {{"toward_deg", "180"}, {"over", "20"}}},
      {"ground.toward_deg", {{"falls_m", "1"}, {"over", "20"}}},
      {"ground.over", {{"falls_m", "1"}, {"toward_deg", "180"}}},
      {"survey.diagonals", {{"diagonals", "[[\"a-point\", \"a-point\", 3]]"}}},
      {"building.roof", {{"roof", "\"hip\""}, {"ridge_m", "3"}}},
      {"building.high_side", {{"roof", "\"mono\""}, {"ridge_m", "3"}}},
      {"building.ridge_m", {{"ridge_m", "3"}}},
      {"tree", {{"height_m", "9"}}},
      {"bed", {{"at", "[60, 0]"}, {"size", "[1.2, 3.6]"}}},
      {"bed.outline", {}},
      {"support", {{"at", "[1, 1]"}}},
      {"support.line", {}},
      {"seat", {{"facing", "[5, 9]"}}},
      {"point.facing", {{"facing", "[5, 9]"}}},
      {"plant", {{"at", "[1, 1]"}}},
      {"plant.row", {{"count", "3"}}},
      {"plant.count", {{"row", "[[0, 0], [4, 0]]"}}},
      {"plant.outline", {}},
      {"cover", {{"over", "\"a-bed\""}}},
      {"cover.outline", {}},
      {"view", {{"to", "[9, 9]"}}},
      {"view.thing", {}},
      {"hide", {{"to", "[9, 9]"}}},
      {"hide.thing", {}},
      {"watch", {{"to", "[9, 9]"}}},
      {"watch.thing", {}},
      {"stand", {{"from", "0"}}},
      {"stand.from", {{"from", "1"}}},
      {"prices.*", {}},
  };
  return all;
}

std::map<std::string, std::string> beside(const TableSchema& table, const std::string& key) {
  const auto of_key = companions().find(table.name + "." + key);
  if (of_key != companions().end()) {
    auto out = of_key->second;
    const auto of_table = companions().find(table.name);
    // An outline or a line instead of `at` leaves that out.
    if (of_table != companions().end() && (table.name == "tree" || table.name == "stand")) {
      out.insert(of_table->second.begin(), of_table->second.end());
    }
    return out;
  }
  const auto of_table = companions().find(table.name);
  return of_table == companions().end() ? std::map<std::string, std::string>{} : of_table->second;
}

/// The smallest document with that key.
std::string document_with(const KnownWords& known, const TableSchema& table, const KeySchema& key) {
  std::map<std::string, std::string> pairs;
  for (const KeySchema& other : table.keys) {
    if (other.needed) pairs[other.name] = example(known, other.type);
  }
  if (key.name == "*") {
    pairs["boards"] = example(known, key.type);
  } else if (key.name == "guessed") {
    pairs[key.name] = "[\"" + table.keys.front().name + "\"]";
  } else {
    pairs[key.name] = example(known, key.type);
  }
  for (const auto& [name, value] : beside(table, key.name)) pairs[name] = value;
  std::string out;
  for (const auto& [name, value] : pairs) out += name + " = " + value + "\n";
  if (table.name == "format") return std::string(kHead) + std::string(kThings);
  if (table.name == "garden") {
    return "format = 1\n[garden]\n" + out + std::string(kThings);
  }
  const std::string header = table.form == TableForm::kMany    ? "[[" + table.name + "]]\n"
                             : table.form == TableForm::kNamed ? "[" + table.name + ".pea]\n"
                                                               : "[" + table.name + "]\n";
  return std::string(kHead) + std::string(kThings) + header + out;
}

TEST(EveryKeyOfTheSchema, CanBeWritten) {
  const KnownWords known = shipped_words();
  std::size_t keys = 0;
  for (const TableSchema& table : garden::schema()) {
    for (const KeySchema& key : table.keys) {
      const std::string text = document_with(known, table, key);
      const ReadDocument read = read_document(text, "garden.toml", known);
      EXPECT_TRUE(read.problems.empty()) << table.name << "." << key.name << "\n"
                                         << problems_text(read) << text;
      const std::string name = key.name == "*" ? "boards" : key.name;
      bool found = false;
      for (const garden::Entry& entry : read.draft.entries) {
        found = found || (entry.table == table.name && entry.find(name) != nullptr);
      }
      EXPECT_TRUE(found) << table.name << "." << key.name;
      ++keys;
    }
  }
  EXPECT_GT(keys, 250u);
}

TEST(EveryKeyOfTheSchema, RefusesAValueOfAnotherType) {
  const KnownWords known = shipped_words();
  for (const TableSchema& table : garden::schema()) {
    if (table.name == "format") continue;
    for (const KeySchema& key : table.keys) {
      const std::string name = key.name == "*" ? "boards" : key.name;
      std::string text = document_with(known, table, key);
      const std::size_t table_at = table.name == "garden" ? 0 : text.rfind("\n[");
      const std::size_t begin = text.find("\n" + name + " = ", table_at) + 1;
      ASSERT_NE(begin, 0u) << table.name << "." << key.name;
      const bool yes_no = key.type.type == ValueType::kYesNo;
      text.replace(begin, text.find('\n', begin) - begin, name + (yes_no ? " = 3" : " = false"));
      const ReadDocument read = read_document(text, "garden.toml", known);
      ASSERT_FALSE(read.problems.empty()) << table.name << "." << key.name;
      bool told = false;
      for (const Error& error : read.problems) {
        told = told || (error.code == ErrorCode::kWrongType &&
                        error.message.find(name) != std::string::npos);
      }
      EXPECT_TRUE(told) << table.name << "." << key.name << "\n" << problems_text(read);
    }
  }
}

}  // namespace
}  // namespace spadework::document
