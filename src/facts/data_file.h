// Inside the room: one data file as plain values, each with its place in the text, and a reader
// that turns them into facts and remembers the first mistake.
#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "facts/facts.h"

namespace spadework::facts {

struct DataValue {
  enum class Form { kText, kNumber, kFlag, kList, kTable, kOther };
  Form form = Form::kTable;
  std::string key;  // its name in the table around it; empty in a list
  std::string text;
  double number = 0;
  bool flag = false;
  std::vector<DataValue> items;  // of a list or a table; a table's stand in the order of their keys
  int line = 0, column = 0;

  /// The item of a table with that key, or nothing.
  [[nodiscard]] const DataValue* find(std::string_view name) const;
};

/// Errors: kSyntax, at "trees.toml:41:7".
[[nodiscard]] Result<DataValue> read_data_file(const std::string& file, std::string_view bytes);

/// Reads values with a sticky first error: after a mistake every further call returns something
/// harmless, and `done` tells it.
class FactReader {
 public:
  /// `sources` may be nothing while the sources themselves are read.
  FactReader(std::string file, const DataValue& root, const Kinds<Source>* sources);

  [[nodiscard]] bool failed() const { return error_.has_value(); }
  [[nodiscard]] const std::optional<Error>& error() const { return error_; }
  void mistake(ErrorCode code, const DataValue& at, std::string message, std::string hint = {});
  [[nodiscard]] const std::string& file() const { return file_; }

  /// A mistake if the table has any other key.
  void only(const DataValue& table, std::initializer_list<std::string_view> keys);
  /// The item of that key, or an empty one after a mistake.
  const DataValue& needed(const DataValue& table, std::string_view key);
  std::string text(const DataValue& value);
  std::string text_or(const DataValue& table, std::string_view key, std::string other);
  std::vector<std::string> texts(const DataValue& table, std::string_view key);  // none if left out
  bool flag(const DataValue& value);
  bool flag_or(const DataValue& table, std::string_view key, bool other);
  /// Which of the words the text is; a mistake if none.
  int choice(const DataValue& value, std::initializer_list<std::string_view> words);

  /// A fact is a bare value, which stands as the file's `unless_said` says, or
  /// { value = …, source = "key" or ["key", …], standing = "published" }.
  Fact<double> number(const DataValue& value, double low, double high);
  Fact<Length> length(const DataValue& value, double low_m, double high_m);
  Fact<Angle> angle(const DataValue& value, double low_deg, double high_deg);
  Fact<YearDay> day(const DataValue& value);
  /// Four numbers of days as [initial, development, mid, late], each over 0.
  Fact<Stages> stages(const DataValue& value);
  Fact<Range> range(const DataValue& value, double low_m, double high_m);
  Fact<int> choice_fact(const DataValue& value, std::initializer_list<std::string_view> words);
  /// Four days as [out_start, full, fall_start, bare], each "MM-DD" or a fact of its own.
  void leaf_days(const DataValue& value, LeafDates& dates);

 private:
  /// The bare value, and into `sources` and `standing` whose it is.
  const DataValue& unwrap(const DataValue& value, std::vector<std::string>& sources,
                          Standing& standing);
  void read_sources(const DataValue& value, std::vector<std::string>& sources);
  Standing read_standing(const DataValue& value);
  double plain_number(const DataValue& value, double low, double high);
  YearDay plain_day(const DataValue& value);

  std::string file_;
  const Kinds<Source>* sources_;
  std::vector<std::string> default_sources_;
  Standing default_standing_ = Standing::kFromMemory;
  std::optional<Error> error_;
};

/// A key of a kind, or else of the group that it is like; a mistake if neither has it.
class Inherited {
 public:
  Inherited(FactReader& reader, const DataValue& kind, const DataValue* group)
      : reader_(reader), kind_(kind), group_(group) {}
  [[nodiscard]] const DataValue* find(std::string_view key) const {
    if (const DataValue* own = kind_.find(key)) return own;
    return group_ == nullptr ? nullptr : group_->find(key);
  }
  [[nodiscard]] const DataValue& needed(std::string_view key) const {
    const DataValue* found = find(key);
    return found != nullptr ? *found : reader_.needed(kind_, key);
  }

 private:
  FactReader& reader_;
  const DataValue& kind_;
  const DataValue* group_;
};

/// The group that a kind says it is `like`, or else `other`; nothing if neither is said. A mistake
/// if there is no such group.
[[nodiscard]] const DataValue* group_like(FactReader& reader, const DataValue& kind,
                                          const DataValue* groups, std::string_view other);

}  // namespace spadework::facts
