#include <fmt/format.h>

#include <cmath>
#include <utility>

#include "base/date.h"
#include "base/text.h"
#include "facts/data_file.h"

namespace spadework::facts {
namespace {

const DataValue kNothing;

constexpr std::string_view kMemory = "memory";

}  // namespace

FactReader::FactReader(std::string file, const DataValue& root, const Kinds<Source>* sources)
    : file_(std::move(file)), sources_(sources) {
  const DataValue* said = root.find("unless_said");
  if (said == nullptr) return;
  only(*said, {"source", "standing"});
  read_sources(needed(*said, "source"), default_sources_);
  default_standing_ = read_standing(needed(*said, "standing"));
}

void FactReader::mistake(ErrorCode code, const DataValue& at, std::string message,
                         std::string hint) {
  if (error_) return;
  error_ = Error{code, fmt::format("{}:{}:{}", file_, at.line, at.column), std::move(message),
                 std::move(hint)};
}

void FactReader::only(const DataValue& table, std::initializer_list<std::string_view> keys) {
  if (table.form != DataValue::Form::kTable) {
    return mistake(ErrorCode::kWrongType, table, table.key + " is not a table");
  }
  for (const DataValue& item : table.items) {
    bool known = false;
    for (std::string_view key : keys) known = known || item.key == key;
    if (!known) {
      const std::vector<std::string> words(keys.begin(), keys.end());
      mistake(ErrorCode::kUnknownKey, item, "no such key: " + item.key,
              "known are " + list_words(words, "and"));
    }
  }
}

const DataValue& FactReader::needed(const DataValue& table, std::string_view key) {
  if (const DataValue* item = table.find(key)) return *item;
  mistake(ErrorCode::kMissingKey, table, fmt::format("{} has no {}", table.key, key));
  return kNothing;
}

std::string FactReader::text(const DataValue& value) {
  if (value.form != DataValue::Form::kText || value.text.empty()) {
    mistake(ErrorCode::kWrongType, value, value.key + " is not text");
  }
  return value.text;
}

std::string FactReader::text_or(const DataValue& table, std::string_view key, std::string other) {
  const DataValue* item = table.find(key);
  return item == nullptr ? std::move(other) : text(*item);
}

std::vector<std::string> FactReader::texts(const DataValue& table, std::string_view key) {
  std::vector<std::string> out;
  const DataValue* list = table.find(key);
  if (list == nullptr) return out;
  if (list->form != DataValue::Form::kList) {
    mistake(ErrorCode::kWrongType, *list, list->key + " is not a list");
  }
  for (const DataValue& item : list->items) out.push_back(text(item));
  return out;
}

bool FactReader::flag(const DataValue& value) {
  if (value.form != DataValue::Form::kFlag) {
    mistake(ErrorCode::kWrongType, value, value.key + " is neither true nor false");
  }
  return value.flag;
}

bool FactReader::flag_or(const DataValue& table, std::string_view key, bool other) {
  const DataValue* item = table.find(key);
  return item == nullptr ? other : flag(*item);
}

int FactReader::choice(const DataValue& value, std::initializer_list<std::string_view> words) {
  const std::string typed = text(value);
  int index = 0;
  for (std::string_view word : words) {
    if (word == typed) return index;
    ++index;
  }
  const std::vector<std::string> known(words.begin(), words.end());
  mistake(ErrorCode::kUnknownKind, value, fmt::format("no such {}: {}", value.key, typed),
          "known are " + list_words(known, "and"));
  return 0;
}

void FactReader::read_sources(const DataValue& value, std::vector<std::string>& sources) {
  if (value.form == DataValue::Form::kList) {
    for (const DataValue& item : value.items) read_sources(item, sources);
    if (value.items.empty()) mistake(ErrorCode::kMissingKey, value, "no source is given");
    return;
  }
  const std::string key = text(value);
  const Source* source = sources_ == nullptr ? nullptr : sources_->find(key);
  if (source == nullptr || source->id != key) {
    mistake(ErrorCode::kUnknownId, value, "no such source: " + key, "add it to sources.toml");
  }
  sources.push_back(key);
}

Standing FactReader::read_standing(const DataValue& value) {
  switch (choice(value, {"published", "second_hand", "from_memory", "derived"})) {
    case 0:
      return Standing::kPublished;
    case 1:
      return Standing::kSecondHand;
    case 2:
      return Standing::kFromMemory;
    default:
      return Standing::kDerived;
  }
}

const DataValue& FactReader::unwrap(const DataValue& value, std::vector<std::string>& sources,
                                    Standing& standing) {
  if (value.form != DataValue::Form::kTable || failed()) {
    if (default_sources_.empty()) {
      mistake(ErrorCode::kMissingKey, value, value.key + " has no source, nor has the file");
    }
    sources = default_sources_;
    standing = default_standing_;
    return value;
  }
  only(value, {"value", "source", "standing"});
  read_sources(needed(value, "source"), sources);
  standing = read_standing(needed(value, "standing"));
  const bool only_memory = sources == std::vector<std::string>{std::string(kMemory)};
  if (only_memory != (standing == Standing::kFromMemory)) {
    mistake(ErrorCode::kImpossibleValue, value,
            value.key + " is from memory if and only if memory is its only source");
  }
  return needed(value, "value");
}

double FactReader::plain_number(const DataValue& value, double low, double high) {
  if (value.form != DataValue::Form::kNumber) {
    mistake(ErrorCode::kWrongType, value, value.key + " is not a number");
    return low;
  }
  if (!(value.number >= low && value.number <= high)) {
    mistake(ErrorCode::kImpossibleValue, value,
            fmt::format("{} is outside {} to {}", value.number, low, high));
    return low;
  }
  return value.number;
}

YearDay FactReader::plain_day(const DataValue& value) {
  const auto day = parse_month_day(text(value));
  if (!day) {
    mistake(ErrorCode::kImpossibleValue, value, value.text + " is no day of a year", "write MM-DD");
    return {};
  }
  return {day_of_year(std::chrono::year(kReferenceYear) / *day)};
}

Fact<double> FactReader::number(const DataValue& value, double low, double high) {
  Fact<double> fact;
  fact.value = plain_number(unwrap(value, fact.sources, fact.standing), low, high);
  return fact;
}

Fact<Length> FactReader::length(const DataValue& value, double low_m, double high_m) {
  Fact<Length> fact;
  fact.value = metres(plain_number(unwrap(value, fact.sources, fact.standing), low_m, high_m));
  return fact;
}

Fact<Angle> FactReader::angle(const DataValue& value, double low_deg, double high_deg) {
  Fact<Angle> fact;
  fact.value = degrees(plain_number(unwrap(value, fact.sources, fact.standing), low_deg, high_deg));
  return fact;
}

Fact<YearDay> FactReader::day(const DataValue& value) {
  Fact<YearDay> fact;
  fact.value = plain_day(unwrap(value, fact.sources, fact.standing));
  return fact;
}

Fact<Stages> FactReader::stages(const DataValue& value) {
  Fact<Stages> fact;
  const DataValue& list = unwrap(value, fact.sources, fact.standing);
  if (list.form != DataValue::Form::kList || list.items.size() != 4) {
    mistake(ErrorCode::kWrongType, value, value.key + " is not [initial, development, mid, late]");
    return fact;
  }
  const auto days = [&](std::size_t i) { return plain_number(list.items[i], 1, 365); };
  fact.value = {days(0), days(1), days(2), days(3)};
  if (fact.value.sum_d() > 365)
    mistake(ErrorCode::kImpossibleValue, value, value.key + " are longer than a year");
  return fact;
}

Fact<Range> FactReader::range(const DataValue& value, double low_m, double high_m) {
  Fact<Range> fact;
  const DataValue& pair = unwrap(value, fact.sources, fact.standing);
  if (pair.form != DataValue::Form::kList || pair.items.size() != 2) {
    mistake(ErrorCode::kWrongType, value, value.key + " is not [least, most]");
    return fact;
  }
  const double low = plain_number(pair.items[0], low_m, high_m);
  const double high = plain_number(pair.items[1], low_m, high_m);
  if (low > high) mistake(ErrorCode::kImpossibleValue, value, "the least is above the most");
  fact.value = {metres(low), metres(high)};
  return fact;
}

Fact<int> FactReader::choice_fact(const DataValue& value,
                                  std::initializer_list<std::string_view> words) {
  Fact<int> fact;
  fact.value = choice(unwrap(value, fact.sources, fact.standing), words);
  return fact;
}

void FactReader::leaf_days(const DataValue& value, LeafDates& dates) {
  std::vector<std::string> sources;
  Standing standing = Standing::kFromMemory;
  const DataValue& list = unwrap(value, sources, standing);
  if (list.form != DataValue::Form::kList || list.items.size() != 4) {
    return mistake(ErrorCode::kWrongType, value, value.key + " is not a list of four days");
  }
  Fact<YearDay>* days[] = {&dates.out_start, &dates.full, &dates.fall_start, &dates.bare};
  int before = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    const DataValue& item = list.items[i];
    Fact<YearDay>& day = *days[i];
    if (item.form == DataValue::Form::kTable) {
      day.value = plain_day(unwrap(item, day.sources, day.standing));
    } else {
      day = {plain_day(item), sources, standing};
    }
    if (day.value.number <= before) {
      mistake(ErrorCode::kImpossibleValue, item, "the leaf dates are not in order");
    }
    before = day.value.number;
  }
}

const DataValue* group_like(FactReader& reader, const DataValue& kind, const DataValue* groups,
                            std::string_view other) {
  const DataValue* like = kind.find("like");
  const std::string name = like != nullptr ? reader.text(*like) : std::string(other);
  if (name.empty()) return nullptr;
  const DataValue* group = groups == nullptr ? nullptr : groups->find(name);
  if (group == nullptr)
    reader.mistake(ErrorCode::kUnknownKind, like != nullptr ? *like : kind,
                   "no such group: " + name);
  return group;
}

}  // namespace spadework::facts
