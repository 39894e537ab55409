// `docs/document.md`, made from the schema.
#include <fmt/format.h>

#include <cmath>
#include <set>

#include "base/text.h"
#include "garden/schema_parts.h"

namespace spadework::garden {
namespace {

std::string figure(double value) {
  const bool whole = value == std::floor(value);
  return whole ? fmt::format("{:.0f}", value) : fmt::format("{:.6g}", value);
}

/// What a word of a catalogue is.
std::string_view known(std::string_view catalogue) {
  struct Row {
    std::string_view catalogue, says;
  };
  constexpr Row kRows[] = {
      {"barrier", "known kind of wall, fence or hedge"},
      {"support", "known kind of support"},
      {"cover", "known kind of cover"},
      {"texture", "known soil"},
      {"treatment", "known use of ground"},
      {"patch", "known trouble"},
      {"roof", "known roof covering"},
      {"service", "known kind of service"},
      {"family", "known plant family"},
      {"station", "known station"},
      {"currency", "known currency"},
      {"tree", "known tree"},
      {"crop", "known crop"},
      {"surface", "known surface"},
      {"material", "known material"},
      {"form", "known form"},
  };
  for (const Row& row : kRows) {
    if (row.catalogue == catalogue) return row.says;
  }
  return "known word";
}

std::string range(const TypeSchema& type, std::string_view unit) {
  if (std::isinf(type.low) || std::isinf(type.high)) return "";
  return fmt::format(", {} to {}{}", figure(type.low), figure(type.high), unit);
}

std::string quoted_words(const std::vector<std::string>& words) {
  std::vector<std::string> out;
  for (const std::string& word : words) out.push_back("`\"" + word + "\"`");
  return list_words(out);
}

std::string with_words(const std::string& says, const TypeSchema& type) {
  return type.words.empty() ? says : says + ", or " + quoted_words(type.words);
}

std::string id_of(const TypeSchema& type) {
  if (type.tables.empty()) return "the id of a thing";
  const bool vowel = std::string_view("aeiou").find(type.tables[0][0]) != std::string_view::npos;
  return (vowel ? "the id of an " : "the id of a ") + list_words(type.tables);
}

std::string fields_says(const std::vector<KeySchema>& fields);

std::string list_says(const TypeSchema& type);

std::string takes(const TypeSchema& type) {
  switch (type.type) {
    case ValueType::kNumber:
      return "figure" + range(type, "");
    case ValueType::kWhole:
      return "whole number" + range(type, "");
    case ValueType::kShare:
      return "share, 0 to 1";
    case ValueType::kLength:
      return with_words("length" + range(type, " m"), type);
    case ValueType::kStem:
      return "width, or `\"girth …\"`";
    case ValueType::kAngle:
      return type.words.empty()
                 ? "degrees" + range(type, "")
                 : "bearing, or `\"" + type.words[0] + "\"`, `\"" + type.words[1] + "\"`, …";
    case ValueType::kTemperature:
      return "°C" + range(type, "");
    case ValueType::kText:
      return "text";
    case ValueType::kYesNo:
      return "`true` or `false`";
    case ValueType::kDate:
      return "date";
    case ValueType::kDay:
      return "day of the year";
    case ValueType::kId:
      return "id";
    case ValueType::kReference:
      return with_words(id_of(type), type);
    case ValueType::kChoice:
      return quoted_words(type.words);
    case ValueType::kWord:
      return with_words(std::string(known(type.catalogue)), type);
    case ValueType::kFreeWord:
      return std::string(known(type.catalogue)) + ", or your own";
    case ValueType::kPlace:
      return "place";
    case ValueType::kLine:
      return "line";
    case ValueType::kOutline:
      return "outline";
    case ValueType::kSpot:
      return "`[x, y, level]`";
    case ValueType::kSize:
      return "two lengths";
    case ValueType::kHorizonPoint:
      return "`[bearing, height]`";
    case ValueType::kAmount:
      return "amount: " + list_words(type.words);
    case ValueType::kTimeZone:
      return "time zone";
    case ValueType::kTie:
      return "`[point, from, length]`";
    case ValueType::kRecord:
    case ValueType::kReading:
      return with_words(fields_says(type.fields), type);
    case ValueType::kMap:
      return (type.low > 0 ? "by years: " : "by names: ") + takes(type.item.front());
    case ValueType::kList:
    case ValueType::kOneOrMany:
      return list_says(type);
  }
  return "";
}

std::string list_says(const TypeSchema& type) {
  const std::string item = takes(type.item.front());
  if (type.type == ValueType::kOneOrMany) return "one or a list: " + item;
  if (type.low == type.high) return fmt::format("list of {}: {}", figure(type.low), item);
  return "list: " + item;
}

std::string fields_says(const std::vector<KeySchema>& fields) {
  std::string out = "{ ";
  for (const KeySchema& field : fields) {
    if (out.size() > 2) out += "; ";
    out += fmt::format("{}`{}` {}", field.needed ? "★" : "", field.name, takes(field.type));
    if (!field.default_says.empty()) out += fmt::format(" ({})", field.default_says);
  }
  return out + " }";
}

std::string cell(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '|') out += '\\';
    out += c;
  }
  return out;
}

std::string key_row(const KeySchema& key) {
  const std::string name = key.name == "*" ? "*any name*" : "`" + key.name + "`";
  const std::string otherwise = key.default_says.empty() ? "" : "`" + key.default_says + "`";
  return fmt::format("| {}{} | {} | {} | {} |\n", key.needed ? "★ " : "", name,
                     cell(takes(key.type)), cell(otherwise), cell(key.says));
}

std::string heading(const TableSchema& table) {
  switch (table.form) {
    case TableForm::kValue:
      return "`" + table.name + " = 1`";
    case TableForm::kSingle:
      return "`[" + table.name + "]`";
    case TableForm::kMany:
      return "`[[" + table.name + "]]`";
    case TableForm::kNamed:
      return "`[" + table.name + ".\"name\"]`";
  }
  return table.name;
}

constexpr std::string_view kTableHead =
    "| key | takes | without it | what it says |\n| --- | --- | --- | --- |\n";

std::string table_says(const TableSchema& table) {
  std::set<std::string> common;
  if (table.thing) {
    for (const KeySchema& key : parts::common_keys()) common.insert(key.name + key.says);
  }
  std::string out = fmt::format("### {}\n\n{}", heading(table), table.says);
  if (table.thing) out += " Takes the [common keys](#common-keys) too.";
  if (table.form == TableForm::kValue) return out + " " + table.keys.front().says + "\n\n";
  out += "\n\n" + std::string(kTableHead);
  for (const KeySchema& key : table.keys) {
    if (common.count(key.name + key.says) == 0) out += key_row(key);
  }
  return out + "\n";
}

/// As a heading is linked to: lower case, without marks.
std::string contents() {
  std::string out;
  for (const TableSchema& table : schema()) {
    const std::string name = heading(table);
    std::string anchor;
    for (const char c : name) {
      if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9')) anchor += c;
      if (c == ' ') anchor += '-';
    }
    out += fmt::format("{}[{}](#{})", out.empty() ? "" : " · ", name, anchor);
  }
  return out + "\n\n";
}

constexpr std::string_view kRules = R"(# The garden document

A garden is one page of [TOML](https://toml.io/en/v1.0.0), made to be read aloud. This page names every
table and key that it can have. It is made from the program's own list of them; so are the reader and
its hints. `spadework new` writes a first document, `spadework check` tells everything that is wrong
with one, with line, column and what would be right.

```toml
format = 1

[garden]
title = "Ker Avel"
latitude_deg = 48.41
longitude_deg = -4.36
time_zone = "Europe/Paris"

[[wall]]
id = "lane-wall"
line = [[0, 0], [11, 0]]
height_m = 1.4
kind = "stone"
```

## Rules

- **Places** are `[x, y]` in metres, x to the right of the page, y up it; or the id of a point, one of
  `[[point]]` or a fixed one of the survey. They lie within 2 km of `[0, 0]`. `plan_north_deg` is the
  true bearing of the page's up. Turns are anticlockwise; bearings are true and clockwise from north.
- **Lengths** and other figures with a unit take a plain number in metres, degrees or °C, or text with
  a unit: `"7 ft"`, `"6 ft 6 in"`, `"5 1/2 in"`, `"195 mm"`, `"2 yd"`, `"28 F"`, `"12 deg"`. They are
  kept and written back as you typed them. Decimals have a point, not a comma. A place's coordinates
  and the sides of a size may have units too.
- **Ids** are short and lower case, `a-z 0-9 -`, at most 40 letters. All share one namespace, the
  survey's points included.
- **Lines** have at least two places, **outlines** at least three. An outline closes itself, and must
  not cross or touch itself. Both have at most 500 places.
- **Dates** are written `2026-03-01`; a day of any year `"03-01"`.
- **Known words** (a known tree, crop, soil, kind of wall, …) are those of the catalogue, in quotes;
  capitals, spaces and hyphens do not matter. An unknown one is told with the nearest.
- **Heights.** Levels are above the garden's datum; without `[ground]` the ground is level 0
  everywhere. Heights of things, eyes and spots are above the ground where they stand; eaves above the
  highest ground under the outline. Wall lines are centre lines. Bed sizes and outlines are outside the
  boards.
- **Schemes.** `found` is every existing entry, without changes. `proposed` is existing less removed,
  plus proposed, with changes. `[[scheme]]` names another; an entry or change with `scheme = "x"`
  belongs to that scheme only, without it to every scheme but `found`.
- **Changes.** `[[change]] thing = "medlar"` with any keys of that thing alters an existing thing in
  the proposal. A key that says the same in another way (an outline for `at` and `size`) takes the
  other's place.
- **Errors** are told all at once, each at its key (a conflict at the later one; a missing key at its
  table), with the nearest known word: syntax, unknown key, wrong type or unit, missing or repeated id,
  unknown id or kind, impossible value, an outline that crosses itself. After a syntax error nothing
  further is read. What is merely unwise is a finding and no error.
- **Edits** by the program change only what they name: remarks, order and figures as typed stay. A key
  that is removed takes the remark on its line with it. An entry that is removed takes the remarks
  directly above its header and below its last key with it, up to the next empty line.
- **Limits.** At most 4 MB of text, 20,000 tables, 500,000 figures and words, 16 tables and lists
  within each other, 50 schemes; the first 2,000 problems are told.

★ marks keys that are needed.

)";

}  // namespace

std::string schema_document() {
  std::string out(kRules);
  out += "## Tables\n\n" + contents();
  for (const TableSchema& table : schema()) out += table_says(table);
  out +=
      "## Common keys\n\nEvery entry in double brackets takes these too, but for months, schemes "
      "and changes.\n\n" +
      std::string(kTableHead);
  for (const KeySchema& key : parts::common_keys()) out += key_row(key);
  return out;
}

}  // namespace spadework::garden
