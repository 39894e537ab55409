#include "document/entries.h"

#include <fmt/format.h>

#include <algorithm>

#include "document/limits.h"

namespace spadework::document {
namespace {

using garden::TableForm;

std::vector<std::string> table_names() {
  std::vector<std::string> out;
  for (const TableSchema& table : garden::schema()) out.push_back(table.name);
  return out;
}

std::string brackets(const TableSchema& schema) {
  switch (schema.form) {
    case TableForm::kMany:
      return fmt::format("[[{}]]", schema.name);
    case TableForm::kNamed:
      return fmt::format("[{}.\"name\"]", schema.name);
    case TableForm::kSingle:
      return fmt::format("[{}]", schema.name);
    case TableForm::kValue:
      return schema.name + " = 1";
  }
  return schema.name;
}

/// Keys that stand before the first table though they belong into one: `title = …`.
std::string table_with_key(const std::string& key) {
  for (const TableSchema& table : garden::schema()) {
    if (table.form != TableForm::kSingle || table.name == "prices") continue;
    if (find_key(table, key) != nullptr) return table.name;
  }
  return {};
}

class Finder {
 public:
  explicit Finder(Reading& reading) : reading_(reading) {}

  std::vector<EntrySource> all(const TomlTable& root) {
    for (const TomlField& field : root) {
      const TableSchema* schema = garden::find_table(field.key);
      if (schema == nullptr || schema->name.find('.') != std::string::npos) {
        unknown(field);
      } else {
        one(*schema, field);
      }
    }
    std::stable_sort(out_.begin(), out_.end(), [](const EntrySource& a, const EntrySource& b) {
      return is_before(a.where, b.where);
    });
    return std::move(out_);
  }

 private:
  void one(const TableSchema& schema, const TomlField& field) {
    switch (schema.form) {
      case TableForm::kValue:
        return;  // read beforehand
      case TableForm::kSingle:
        return single(schema, field);
      case TableForm::kMany:
        return many(schema, field);
      case TableForm::kNamed:
        return named(schema, field);
    }
  }
  void single(const TableSchema& schema, const TomlField& field) {
    const TomlTable* table = field.value.table();
    if (table == nullptr) return wrong_brackets(schema, field);
    std::size_t own = 0;
    for (const TomlField& inner : *table) {
      const TableSchema* within = garden::find_table(schema.name + "." + inner.key);
      if (within != nullptr) {
        many(*within, inner);
      } else {
        ++own;
      }
    }
    if (own > 0 || table->empty()) add(schema, field.value, field.value.where, "");
  }
  void many(const TableSchema& schema, const TomlField& field) {
    const TomlList* list = field.value.list();
    if (list == nullptr) return wrong_brackets(schema, field);
    for (const TomlNode& node : *list) {
      const TomlTable* table = node.table();
      if (table == nullptr) return wrong_brackets(schema, field);
      const TomlField* id = find_field(*table, "id");
      const std::string* text = id == nullptr ? nullptr : id->value.text();
      add(schema, node, node.where, text == nullptr ? std::string() : *text);
    }
  }
  void named(const TableSchema& schema, const TomlField& field) {
    const TomlTable* table = field.value.table();
    if (table == nullptr) return wrong_brackets(schema, field);
    for (const TomlField& inner : *table) {
      if (inner.value.table() == nullptr) {
        wrong_brackets(schema, inner);
      } else {
        check_crop(schema, inner);
        add(schema, inner.value, inner.value.where, inner.key);
      }
    }
  }
  /// [crop."name"] gives figures over the catalogue's: the crop must be in it.
  void check_crop(const TableSchema& schema, const TomlField& field) {
    const KnownWords& known = reading_.known;
    if (schema.name != "crop" || !known.knows || known.knows("crop", field.key)) return;
    const auto words = known.words_of ? known.words_of("crop") : std::vector<std::string>();
    if (words.empty()) return;
    reading_.problems.tell(field.where, ErrorCode::kUnknownKind,
                           fmt::format("{} is no crop that is known", quoted(field.key)),
                           reading_.problems.hint_for(field.key, words, "is it spelt as usual?"));
  }
  void add(const TableSchema& schema, const TomlNode& node, TextPlace where, std::string id) {
    if (out_.size() > kMostEntries) return;
    if (out_.size() == kMostEntries) {
      reading_.problems.tell(where, ErrorCode::kTooLarge,
                             fmt::format("the document has more than {} tables; the rest is not "
                                         "read",
                                         kMostEntries),
                             "split it into several gardens");
    }
    out_.push_back({&schema, &node, where, std::move(id)});
  }
  void wrong_brackets(const TableSchema& schema, const TomlField& field) {
    const bool many = schema.form == TableForm::kMany;
    reading_.problems.tell(
        field.where, ErrorCode::kWrongType,
        many ? fmt::format("there are many of {}, so that it stands in double brackets", field.key)
             : fmt::format("{} is not written like this", field.key),
        fmt::format("write {}", brackets(schema)));
  }
  void unknown(const TomlField& field) {
    const bool table = field.value.table() != nullptr || field.value.list() != nullptr;
    const std::string belongs = table ? std::string() : table_with_key(field.key);
    if (!belongs.empty()) {
      reading_.problems.tell(field.where, ErrorCode::kUnknownKey,
                             fmt::format("{} stands outside of any table", field.key),
                             fmt::format("put it under [{}]", belongs));
      return;
    }
    reading_.problems.tell(
        field.where, ErrorCode::kUnknownKey,
        fmt::format("there is no {} {} in a garden document", table ? "table" : "key",
                    quoted(field.key)),
        reading_.problems.hint_for(field.key, table_names(),
                                   "its tables are " + some_words(table_names(), 50)));
  }

  Reading& reading_;
  std::vector<EntrySource> out_;
};

}  // namespace

std::vector<EntrySource> find_entries(Reading& reading, const TomlNode& root) {
  return Finder(reading).all(*root.table());
}

std::string label_of(const TableSchema& schema, const std::string& id) {
  if (schema.form == TableForm::kNamed) return fmt::format("[{}.{}]", schema.name, quoted(id));
  const std::string name = brackets(schema);
  return id.empty() || !is_id(id) ? name : name + " " + id;
}

std::string noun_of(const std::string& table) {
  const bool vowel = std::string_view("aeiou").find(table.front()) != std::string_view::npos;
  return (vowel ? "an " : "a ") + table;
}

Names find_names(Reading& reading, const std::vector<EntrySource>& sources) {
  Names names;
  for (std::size_t i = 0; i < sources.size(); ++i) {
    const EntrySource& source = sources[i];
    if (source.id.empty() || source.schema->form != TableForm::kMany) continue;
    if (find_key(*source.schema, "id") == nullptr) continue;
    const TextPlace where = find_field(*source.node->table(), "id")->where;
    const auto [it, fresh] = names.emplace(source.id, Named{source.schema->name, where, i});
    if (fresh) continue;
    reading.problems.tell(
        where, ErrorCode::kRepeatedId,
        fmt::format("{} is already the id of {} in line {}", quoted(source.id),
                    noun_of(it->second.table), it->second.where.line),
        fmt::format("give one of the two another id, such as \"{}-2\"", as_id(source.id)));
  }
  return names;
}

}  // namespace spadework::document
