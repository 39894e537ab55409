// Edits of two thousand made-up documents, each written in forms drawn by chance: the patched text
// means what was asked for and nothing else, and it differs in no line but those of the edit. What
// is asked for is told by a model that knows nothing of texts.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <string>
#include <vector>

#include "base/random.h"
#include "document/meaning.h"
#include "document/patch.h"
#include "document/toml_tree.h"

namespace spadework::document {
namespace {

using garden::TextPlace;
using Keys = std::map<std::string, std::string>;  // values as TOML; "boards.height" lies within

struct ModelEntry {
  std::string table, name;
  Keys keys;
};
using Model = std::vector<ModelEntry>;

const std::vector<std::string> kMany = {"wall", "bed"};
const std::vector<std::string> kOnce = {"garden", "ground"};
const std::vector<std::string> kPlain = {"note", "phase", "height_m", "line", "kind", "guessed"};
const std::vector<std::string> kWithin = {"boards.height", "boards.courses", "boards.thickness"};
const std::vector<std::string> kValues = {"1.50",
                                          "+2e1",
                                          "\"7 ft\"",
                                          "'a # \"b\" ]'",
                                          "\"a\\\"b\\\\ [x] = 1 # no\"",
                                          "[[0, 0], [11, 0]]",
                                          "[\"a\", \"b # c\"]",
                                          "true",
                                          "2026-03-01",
                                          "{ a = 1, b = [2, 3] }",
                                          "[]",
                                          "\"Zoë 🌱\""};

class Draw {
 public:
  explicit Draw(std::uint64_t seed) : random_(seed) {}
  bool one_in(int n) { return random_.below(n) == 0; }
  int below(int n) { return random_.below(n); }
  const std::string& of(const std::vector<std::string>& all) {
    return all[static_cast<std::size_t>(random_.below(static_cast<int>(all.size())))];
  }
  Model model() {
    Model out;
    for (const std::string& table : kOnce) {
      if (table == "garden" || one_in(2)) out.push_back({table, "", keys()});
    }
    for (const std::string& table : kMany) {
      for (int i = below(4); i > 0; --i) {
        const std::string id = table + "-" + std::to_string(i);
        out.push_back({table, id, keys()});
        out.back().keys["id"] = "\"" + id + "\"";
      }
    }
    for (const char* crop : {"pea", "broad bean"}) {
      if (one_in(2)) out.push_back({"crop", crop, keys()});
    }
    return out;
  }

 private:
  Keys keys() {
    Keys out = {{"mine", "true"}};
    for (const std::string& key : kPlain) {
      if (one_in(2)) out[key] = of(kValues);
    }
    if (!one_in(3)) return out;
    for (const std::string& key : kWithin) {
      if (one_in(2)) out[key] = of(kValues);
    }
    return out;
  }
  Random random_;
};

bool is_within(const std::string& key) { return key.rfind("boards.", 0) == 0; }
std::string inner_name(const std::string& key) { return key.substr(key.find('.') + 1); }

std::string inline_boards(const Keys& keys) {
  std::string out;
  for (const auto& [key, value] : keys) {
    if (is_within(key)) out += (out.empty() ? "" : ", ") + inner_name(key) + " = " + value;
  }
  return out.empty() ? "" : "boards = { " + out + " }";
}

std::vector<std::string> inline_pairs(const Keys& keys) {
  std::vector<std::string> out;
  for (const auto& [key, value] : keys) {
    if (!is_within(key)) out.push_back(key + " = " + value);
  }
  if (const std::string boards = inline_boards(keys); !boards.empty()) out.push_back(boards);
  return out;
}

std::string inline_table(const Keys& keys) {
  std::string out;
  for (const std::string& pair : inline_pairs(keys)) out += (out.empty() ? "" : ", ") + pair;
  return "{ " + out + " }";
}

/// The model in the plainest form, as the oracle reads it.
std::string plainly(const Model& model) {
  std::string out;
  std::map<std::string, std::string> lists, named;
  for (const ModelEntry& entry : model) {
    if (entry.table == "crop") {
      named[entry.table] += "\"" + entry.name + "\" = " + inline_table(entry.keys) + ", ";
    } else if (entry.name.empty()) {
      out += entry.table + " = " + inline_table(entry.keys) + "\n";
    } else {
      lists[entry.table] += inline_table(entry.keys) + ", ";
    }
  }
  for (const auto& [table, items] : lists) out += table + " = [" + items + "]\n";
  for (auto& [table, items] : named) {
    out += table + " = { " + items.substr(0, items.size() - 2) + " }\n";
  }
  return "format = 1\n" + out;
}

/// The model in forms drawn by chance, with remarks, empty lines and odd spaces.
class Writer {
 public:
  explicit Writer(Draw& draw) : draw_(draw) {}

  std::string write(const Model& model) {
    top_ = "format = 1" + remark() + "\n";
    std::map<std::string, std::vector<const ModelEntry*>> tables;
    for (const ModelEntry& entry : model) tables[entry.table].push_back(&entry);
    for (const auto& [table, entries] : tables) {
      if (entries.front()->table == "crop") {
        for (const ModelEntry* entry : entries) section("[crop.\"" + entry->name + "\"]", *entry);
      } else if (entries.front()->name.empty()) {
        once(*entries.front());
      } else {
        many(table, entries);
      }
    }
    return top_ + sections_;
  }

 private:
  std::string remark() {
    return draw_.one_in(3) ? "  # remark " + std::to_string(++remarks_) + " = [\"" : "";
  }
  std::string above() {
    std::string out;
    if (draw_.one_in(4)) out += "\n";
    if (draw_.one_in(4)) out += "# above " + std::to_string(++remarks_) + "\n";
    return out;
  }
  void once(const ModelEntry& entry) {
    const int form = draw_.below(3);
    if (form == 0) return section("[" + entry.table + "]", entry);
    if (form == 1) {
      top_ += above() + entry.table + " = " + inline_table(entry.keys) + remark() + "\n";
      return;
    }
    for (const auto& [key, value] : entry.keys) {
      top_ += above() + entry.table + "." + key + " = " + value + remark() + "\n";
    }
  }
  void many(const std::string& table, const std::vector<const ModelEntry*>& entries) {
    if (!draw_.one_in(3)) {
      for (const ModelEntry* entry : entries) section("[[" + table + "]]", *entry);
      return;
    }
    const bool lines = draw_.one_in(2);
    top_ += above() + table + " = [" + (lines ? "\n" : "");
    for (std::size_t i = 0; i < entries.size(); ++i) {
      const bool comma = i + 1 < entries.size() || draw_.one_in(2);
      top_ += (lines ? "  " : "") + inline_table(entries[i]->keys) + (comma ? "," : "") +
              (lines ? remark() + "\n" : " ");
    }
    top_ += "]" + remark() + "\n";
  }
  void section(const std::string& header, const ModelEntry& entry) {
    const std::string indent = draw_.one_in(4) ? "\t" : "";
    const int form = draw_.below(3);  // of what lies within
    sections_ += above() + indent + header + remark() + "\n";
    for (const auto& [key, value] : entry.keys) {
      if (!is_within(key) || form == 0) {
        sections_ +=
            above() + indent + key + (draw_.one_in(4) ? "=" : " = ") + value + remark() + "\n";
      }
    }
    const std::string boards = inline_boards(entry.keys);
    if (boards.empty() || form == 0) return;
    if (form == 1) {
      sections_ += indent + boards + remark() + "\n";
      return;
    }
    const std::string name = header.substr(0, header.find(']'));
    sections_ += "[" + name.substr(name.find_first_not_of('[')) + ".boards]" + remark() + "\n";
    for (const auto& [key, value] : entry.keys) {
      if (is_within(key)) sections_ += inner_name(key) + " = " + value + remark() + "\n";
    }
  }

  Draw& draw_;
  std::string top_, sections_;
  int remarks_ = 0;
};

/// Without tables and lists that have nothing in them because the last of it was removed.
TomlNode without_empty(TomlNode node) {
  if (auto* list = std::get_if<TomlList>(&node.is)) {
    for (TomlNode& item : *list) item = without_empty(std::move(item));
  }
  auto* table = std::get_if<TomlTable>(&node.is);
  if (table == nullptr) return node;
  TomlTable kept;
  for (TomlField& field : *table) {
    field.value = without_empty(std::move(field.value));
    const bool list_of_tables = field.key == "wall" || field.key == "bed";
    if (list_of_tables && field.value.list() != nullptr && field.value.list()->empty()) continue;
    const bool within = field.key == "boards" || field.key == "crop";
    if (within && field.value.table() != nullptr && field.value.table()->empty()) continue;
    kept.push_back(std::move(field));
  }
  node.is = std::move(kept);
  return node;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> out;
  std::size_t begin = 0;
  while (begin < text.size()) {
    const std::size_t end = std::min(text.find('\n', begin), text.size() - 1) + 1;
    out.push_back(text.substr(begin, end - begin));
    begin = end;
  }
  return out;
}

/// How many lines of each text are left over when as many as possible are matched in order.
std::pair<std::size_t, std::size_t> lines_apart(const std::string& a, const std::string& b) {
  const auto x = lines_of(a), y = lines_of(b);
  std::vector<std::vector<std::size_t>> same(x.size() + 1,
                                             std::vector<std::size_t>(y.size() + 1, 0));
  for (std::size_t i = x.size(); i-- > 0;) {
    for (std::size_t k = y.size(); k-- > 0;) {
      same[i][k] = x[i] == y[k] ? same[i + 1][k + 1] + 1 : std::max(same[i + 1][k], same[i][k + 1]);
    }
  }
  return {x.size() - same[0][0], y.size() - same[0][0]};
}

/// The same in everything, the places in the text among it.
bool all_alike(const TomlNode& a, const TomlNode& b) {
  const auto at = [](TextPlace p) { return std::pair(p.line, p.column); };
  if (at(a.where) != at(b.where) || a.typed != b.typed || a.is.index() != b.is.index())
    return false;
  if (const TomlList* list = a.list()) {
    return std::equal(list->begin(), list->end(), b.list()->begin(), b.list()->end(), all_alike);
  }
  if (const TomlTable* table = a.table()) {
    return std::equal(table->begin(), table->end(), b.table()->begin(), b.table()->end(),
                      [&](const TomlField& x, const TomlField& y) {
                        return x.key == y.key && at(x.where) == at(y.where) &&
                               all_alike(x.value, y.value);
                      });
  }
  return same_meaning(a, b);
}

struct Asked {
  Edit edit;
  Model meaning;               // afterwards
  std::size_t lines_gone = 1;  // of the text before, at most
  bool keeps_remarks = true;
};

EntryRef reference(const ModelEntry& entry) { return {entry.table, entry.name, 0}; }
KeyPath path_of_key(const std::string& key) {
  return is_within(key) ? KeyPath{"boards", inner_name(key)} : KeyPath{key};
}

Asked draw_edit(Draw& draw, const Model& model) {
  Asked asked;
  asked.meaning = model;
  const auto index = static_cast<std::size_t>(draw.below(static_cast<int>(model.size())));
  const ModelEntry& entry = model[index];
  const int what = draw.below(8);
  if (what == 0) {
    ModelEntry fresh{draw.of(kMany), "fresh", {{"id", "\"fresh\""}, {"mine", "true"}}};
    fresh.keys["note"] = draw.of(kValues);
    AddEntry add{fresh.table, {}, {}};
    for (const auto& [key, value] : fresh.keys) add.keys.push_back({key, value});
    asked.edit = add;
    asked.meaning.push_back(fresh);
  } else if (what == 1 && entry.table != "garden") {
    asked.edit = RemoveEntry{reference(entry)};
    asked.meaning.erase(asked.meaning.begin() + static_cast<std::ptrdiff_t>(index));
    asked.lines_gone = 100;
    asked.keeps_remarks = false;
  } else if (what <= 3) {
    auto key = entry.keys.begin();
    std::advance(key, draw.below(static_cast<int>(entry.keys.size())));
    if (key->first == "id" || key->first == "mine") {
      asked.edit = SetKey{reference(entry), path_of_key(key->first), key->second};
      asked.lines_gone = 0;
    } else {
      asked.edit = RemoveKey{reference(entry), path_of_key(key->first)};
      asked.meaning[index].keys.erase(key->first);
      asked.lines_gone = 2;  // the last one within [wall.boards] takes the header with it
      asked.keeps_remarks = false;
    }
  } else {
    const std::string key = draw.of(draw.one_in(3) ? kWithin : kPlain);
    const std::string value = draw.of(kValues);
    asked.edit = SetKey{reference(entry), path_of_key(key), value};
    asked.meaning[index].keys[key] = value;
  }
  return asked;
}

std::string with_crlf(const std::string& text) {
  std::string out;
  for (const char c : text) out += c == '\n' ? std::string("\r\n") : std::string(1, c);
  return out;
}

std::vector<std::string> remarks_of(const std::string& text) {
  std::vector<std::string> out;
  for (std::size_t at = 0; (at = text.find("# ", at)) != std::string::npos; ++at) {
    if (text.compare(at, 8, "# remark") == 0 || text.compare(at, 7, "# above") == 0) {
      out.push_back(text.substr(at, text.find_first_of("\r\n", at) - at));
    }
  }
  return out;
}

TEST(APatchOfAnyDocument, MeansWhatWasAskedAndLeavesTheOtherLinesAlone) {
  int refused = 0;
  for (std::uint64_t round = 0; round < 2'000; ++round) {
    SCOPED_TRACE("round " + std::to_string(round));
    Draw draw(round);
    const Model model = draw.model();
    std::string text = Writer(draw).write(model);
    const bool crlf = draw.one_in(4);
    if (crlf) text = with_crlf(text);
    if (draw.one_in(8)) text.erase(text.find_last_not_of("\r\n") + 1);
    const auto before = read_toml(text);
    ASSERT_TRUE(before.has_value()) << before.error().message << "\n" << text;
    ASSERT_TRUE(same_meaning(*before, *read_toml(plainly(model)))) << text << plainly(model);

    const Asked asked = draw_edit(draw, model);
    const auto patched = patch(text, {asked.edit});
    if (!patched) {
      EXPECT_EQ(patched.error().code, ErrorCode::kWrongUse) << patched.error().message;
      ++refused;
      continue;
    }
    const auto after = read_toml(*patched);
    ASSERT_TRUE(after.has_value()) << *patched;
    const auto source = patch(Source(text), {asked.edit});  // read once: knows what it has come to
    ASSERT_TRUE(source.has_value());
    EXPECT_EQ(source->text(), *patched);
    EXPECT_TRUE(all_alike(*source->meaning().tree, *after)) << *patched;
    const std::string wanted = plainly(asked.meaning);
    EXPECT_TRUE(same_meaning(without_empty(*after), without_empty(*read_toml(wanted))))
        << text << "\n--- patched\n"
        << *patched << "\n--- wanted\n"
        << wanted;
    const bool ended = text.back() == '\n';
    const auto [gone, fresh] = lines_apart(ended ? text : text + (crlf ? "\r\n" : "\n"),
                                           ended ? *patched : *patched + (crlf ? "\r\n" : "\n"));
    EXPECT_LE(gone, asked.lines_gone) << text << "\n--- patched\n" << *patched;
    EXPECT_LE(fresh, 6u) << text << "\n--- patched\n" << *patched;
    if (asked.keeps_remarks) {
      EXPECT_EQ(remarks_of(text), remarks_of(*patched)) << text << "\n--- patched\n" << *patched;
    }
    if (crlf) {
      for (std::size_t at = 0; (at = patched->find('\n', at)) != std::string::npos; ++at) {
        EXPECT_TRUE(at > 0 && (*patched)[at - 1] == '\r') << *patched;
      }
    }
    if (HasFailure()) break;
  }
  EXPECT_LE(refused, 20);
}

}  // namespace
}  // namespace spadework::document
