// Words: text, choices, names of the catalogue, ids, dates, amounts.
#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "document/limits.h"
#include "document/reading.h"
#include "document/units.h"

namespace spadework::document {
namespace {

std::vector<std::string> words_of(const KnownWords& known, const std::string& catalogue) {
  std::vector<std::string> words;
  if (known.words_of) words = known.words_of(catalogue);
  if (words.empty() && catalogue == "currency") words = currency_codes();
  return words;
}

bool knows(const KnownWords& known, const std::string& catalogue, const std::string& word) {
  if (known.knows && known.knows(catalogue, word)) return true;
  const std::vector<std::string> words = words_of(known, catalogue);
  return words.empty() || std::find(words.begin(), words.end(), word) != words.end();
}

/// "no tree that is known", …
std::string_view known_as(std::string_view catalogue) {
  struct Row {
    std::string_view catalogue, says;
  };
  constexpr Row kRows[] = {
      {"tree", "no tree"},       {"barrier", "no kind of wall, fence or hedge"},
      {"support", "no support"}, {"cover", "no cover"},
      {"crop", "no crop"},       {"texture", "no soil texture"},
      {"surface", "no surface"}, {"treatment", "no treatment of ground"},
      {"patch", "no trouble"},   {"roof", "no roof covering"},
      {"service", "no service"}, {"family", "no plant family"},
      {"station", "no station"}, {"currency", "no currency"},
  };
  for (const Row& row : kRows) {
    if (row.catalogue == catalogue) return row.says;
  }
  return "no word";
}

std::optional<Value> read_choice(Reading& reading, const Asked& asked, const std::string& word,
                                 Value value) {
  const auto& words = asked.type.words;
  if (std::find(words.begin(), words.end(), word) != words.end()) {
    value.is = word;
    return value;
  }
  reading.problems.tell(
      asked.at, ErrorCode::kUnknownKind,
      fmt::format("{} cannot be {}; it is {}", asked.name, quoted(word), list_words(words)),
      reading.problems.hint_for(word, words, "write " + list_words(words)));
  return std::nullopt;
}

std::optional<Value> read_known_word(Reading& reading, const Asked& asked, const std::string& word,
                                     Value value) {
  const auto& extra = asked.type.words;
  const std::string& catalogue = asked.type.catalogue;
  value.is = word;
  if (std::find(extra.begin(), extra.end(), word) != extra.end()) return value;
  if (!word.empty() && word.size() <= 100 && knows(reading.known, catalogue, word)) return value;
  std::vector<std::string> words = words_of(reading.known, catalogue);
  words.insert(words.end(), extra.begin(), extra.end());
  reading.problems.tell(
      asked.at, ErrorCode::kUnknownKind,
      fmt::format("{}: {} is {} that is known", asked.name, quoted(word), known_as(catalogue)),
      reading.problems.hint_for(word, words, "known are " + some_words(words)));
  return std::nullopt;
}

std::optional<Value> read_id(Reading& reading, const Asked& asked, const std::string& id,
                             Value value) {
  value.is = id;
  if (is_id(id)) return value;
  const std::string better = as_id(id);
  reading.problems.tell(
      asked.at, ErrorCode::kBadId, fmt::format("{} cannot be an id", quoted(id)),
      fmt::format("ids are at most {} letters a-z, 0-9 and -{}", kLongestId,
                  better.empty() ? std::string() : fmt::format(": write \"{}\"", better)));
  return std::nullopt;
}

std::optional<Value> read_reference(Reading& reading, const Asked& asked, const std::string& id,
                                    Value value) {
  value.is = id;
  const auto& words = asked.type.words;
  if (std::find(words.begin(), words.end(), id) == words.end()) {
    reading.references.push_back(
        {id, asked.at, asked.name, false, asked.type.tables, reading.problems.part()});
  }
  return value;
}

std::optional<Value> read_amount(Reading& reading, const Asked& asked, const std::string& text,
                                 Value value) {
  const auto amount = parse_amount(text.substr(0, 80), asked.type.words);
  if (amount) {
    value.is = text;
    return value;
  }
  reading.problems.tell(asked.at, amount.error().code,
                        fmt::format("{}: {}", asked.name, amount.error().message),
                        amount.error().hint);
  return std::nullopt;
}

std::optional<Value> read_date(Reading& reading, const Asked& asked, const TomlNode& node,
                               Value value) {
  const auto* date = std::get_if<LocalDate>(&node.is);
  const bool day = asked.type.type == ValueType::kDay;
  if (day && node.text() != nullptr) {
    if (parse_month_day(*node.text())) {
      value.is = *node.text();
      return value;
    }
    reading.problems.tell(
        asked.at, ErrorCode::kImpossibleValue,
        fmt::format("{}: {} is no day of the year", asked.name, quoted(*node.text())),
        "write month and day, \"03-01\" for 1 March, or a date: 2026-03-01");
    return std::nullopt;
  }
  if (date == nullptr) return wrong_type(reading, asked, node);
  const int year = static_cast<int>(date->year());
  if (year < 1800 || year > 2200) {
    reading.problems.tell(asked.at, ErrorCode::kImpossibleValue,
                          fmt::format("{} lies in the year {}", asked.name, year),
                          "write a year from 1800 to 2200");
    return std::nullopt;
  }
  value.is = *date;
  return value;
}

}  // namespace

std::optional<Value> read_word(Reading& reading, const Asked& asked, const TomlNode& node) {
  Value value;
  value.where = node.where;
  const ValueType type = asked.type.type;
  if (type == ValueType::kDate || type == ValueType::kDay) {
    value.typed = node.typed;
    return read_date(reading, asked, node, std::move(value));
  }
  if (type == ValueType::kYesNo) {
    const bool* yes_no = std::get_if<bool>(&node.is);
    if (yes_no == nullptr) return wrong_type(reading, asked, node);
    value.is = *yes_no;
    return value;
  }
  const std::string* text = node.text();
  if (text == nullptr) return wrong_type(reading, asked, node);
  switch (type) {
    case ValueType::kChoice:
      return read_choice(reading, asked, *text, std::move(value));
    case ValueType::kWord:
      return read_known_word(reading, asked, *text, std::move(value));
    case ValueType::kId:
      return read_id(reading, asked, *text, std::move(value));
    case ValueType::kReference:
      return read_reference(reading, asked, *text, std::move(value));
    case ValueType::kAmount:
      value.typed = node.typed;
      return read_amount(reading, asked, *text, std::move(value));
    default:
      value.is = *text;
      return value;  // kText, kFreeWord, kTimeZone
  }
}

}  // namespace spadework::document
