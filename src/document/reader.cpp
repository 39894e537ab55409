#include "document/reader.h"

#include <fmt/format.h>

#include <algorithm>

#include "document/checks.h"
#include "document/entries.h"
#include "document/meaning.h"
#include "document/time_zone.h"
#include "document/toml_tree.h"

namespace spadework::document {
namespace {

/// False if the document is of a format that is not known here, so that nothing else is read.
bool check_format(Reading& reading, const TomlTable& root, Entry& out) {
  const TomlField* format = find_field(root, "format");
  if (format == nullptr) {
    reading.problems.tell({1, 1}, ErrorCode::kMissingKey, "the document does not say its format",
                          "write format = 1 as its first line");
    return true;
  }
  const KeySchema& key = garden::find_table("format")->keys.front();
  auto value = read_value(reading, Asked{key.type, "format", format->where}, format->value);
  if (!value) return true;
  const double number = *value->number();
  if (number > 1) {
    reading.problems.tell(
        format->where, ErrorCode::kImpossibleValue,
        fmt::format("this document is of format {}; format 1 is the newest known here, and nothing "
                    "else of it is read",
                    short_number(number)),
        "open it with a newer Spadework, or write format = 1 if it is a slip");
    return false;
  }
  out = Entry{"format", "", format->where, {{"format", format->where, std::move(*value)}}};
  return true;
}

Record read_change(Reading& reading, const EntrySource& source, const Names& names) {
  const TomlTable& table = *source.node->table();
  std::vector<KeySchema> keys = source.schema->keys;
  const TomlField* thing = find_field(table, "thing");
  const std::string* id = thing == nullptr ? nullptr : thing->value.text();
  const auto named = id == nullptr ? names.end() : names.find(*id);
  const TableSchema* changed =
      named == names.end() ? nullptr : garden::find_table(named->second.table);
  if (changed != nullptr) {
    for (const KeySchema& key : changed->keys) {
      if (key.name == "id" || key.name == "status" || find_key(*source.schema, key.name)) continue;
      keys.push_back(key);
      keys.back().needed = false;
    }
  }
  const Owner owner{changed == nullptr ? "[[change]]" : "[[change]] of " + *id, "", source.where};
  Record out;
  for (const TomlField& field : table) {
    // Without a thing nobody can say which keys it has.
    if (changed == nullptr && find_key(*source.schema, field.key) == nullptr) continue;
    read_field(reading, keys, field, owner, out);
  }
  if (thing == nullptr) {
    reading.problems.tell(source.where, ErrorCode::kMissingKey, "[[change]] has no thing",
                          "add thing = \"…\", the id of what is changed");
  }
  return out;
}

Entry read_entry(Reading& reading, const EntrySource& source, const Names& names) {
  Entry entry;
  entry.table = source.schema->name;
  entry.id = source.id;
  entry.where = source.where;
  if (entry.table == "change") {
    entry.fields = read_change(reading, source, names);
  } else {
    // Tables within the table, such as [[climate.month]], are entries of their own.
    TomlTable own = *source.node->table();
    std::erase_if(own, [&](const TomlField& field) {
      return garden::find_table(entry.table + "." + field.key) != nullptr;
    });
    entry.fields = read_fields(reading, source.schema->keys, own,
                               Owner{label_of(*source.schema, source.id), "", source.where});
  }
  return entry;
}

void read_time_zone(Reading& reading, garden::Draft& draft) {
  const Entry* garden = draft.single("garden");
  const garden::Field* field =
      garden == nullptr ? nullptr : find_field(garden->fields, "time_zone");
  if (field == nullptr) return;
  auto zone = load_time_zone(*field->value.text());
  if (zone) {
    draft.time_zone = std::move(*zone);
  } else {
    reading.problems.tell(field->where, zone.error().code, "time_zone: " + zone.error().message,
                          zone.error().hint);
  }
}

void read_tree(Reading& reading, const TomlNode& root, garden::Draft& draft) {
  Entry format;
  if (!check_format(reading, *root.table(), format)) return;
  if (!format.fields.empty()) draft.entries.push_back(std::move(format));
  const std::vector<EntrySource> sources = find_entries(reading, root);
  const Names names = find_names(reading, sources);
  Checked document{draft, names, draft.entries.size(), {}};
  document.faulty.resize(document.first);
  for (const EntrySource& source : sources) {
    reading.faulty.clear();
    draft.entries.push_back(read_entry(reading, source, names));
    document.faulty.push_back(reading.faulty);
  }
  if (draft.single("garden") == nullptr && find_field(*root.table(), "garden") == nullptr) {
    reading.problems.tell({1, 1}, ErrorCode::kMissingKey, "the document has no [garden]",
                          "add [garden] with title, latitude_deg, longitude_deg and time_zone");
  }
  read_time_zone(reading, draft);
  check_document(reading, document);
}

}  // namespace

ReadDocument read_document(std::string_view text, std::string file, const KnownWords& known) {
  return read_document(Source(std::string(text)), std::move(file), known);
}

ReadDocument read_document(const Source& source, std::string file, const KnownWords& known) {
  ReadDocument out;
  out.draft.file = std::move(file);
  Reading reading(known);
  const auto& root = source.meaning().tree;
  if (root) {
    read_tree(reading, *root, out.draft);
  } else {
    const SyntaxError& error = root.error();
    reading.problems.tell(error.where, error.code, error.message, error.hint);
  }
  out.problems = reading.problems.sorted(out.draft.file);
  return out;
}

}  // namespace spadework::document
