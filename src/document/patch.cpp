#include "document/patch.h"

#include <fmt/format.h>

#include <algorithm>

#include "document/meaning.h"
#include "document/patch_meaning.h"
#include "document/problems.h"
#include "document/syntax_tree.h"
#include "document/text_edit.h"
#include "document/toml_tree.h"
#include "document/value_edit.h"
#include "garden/schema.h"

namespace spadework::document {
namespace {

using garden::TableForm;

tl::unexpected<Error> not_here(std::string message) {
  return fail(ErrorCode::kWrongUse, "", std::move(message),
              "make this edit in the text itself; check tells if it is right");
}

/// `key = value`, or `key = { within = value }` for the names from `from` on.
std::string pair_text(const KeyPath& path, std::size_t from, const std::string& value) {
  const std::string inner =
      from + 1 < path.size() ? "{ " + pair_text(path, from + 1, value) + " }" : value;
  return toml_key(path[from]) + " = " + inner;
}

std::string dotted(const KeyPath& names) {
  std::string out;
  for (const std::string& name : names) out += (out.empty() ? "" : ".") + toml_key(name);
  return out;
}

/// How far a path leads into the text.
struct Found {
  SyntaxNode* node = nullptr;
  std::size_t steps = 0;  // of the path
  KeyPath names;          // without numbers of items
};

/// One edit of one text.
class Patcher {
 public:
  Patcher(std::string_view text, TomlNode meaning)
      : text_(text),
        cut_(cut_toml(text)),
        tree_(cut_),
        edit_(text, cut_),
        meaning_(std::move(meaning)) {}

  Result<Source> apply(const Edit& edit) {
    const Result<void> made = std::visit([this](const auto& each) { return make(each); }, edit);
    if (!made) return tl::unexpected(made.error());
    std::string out = edit_.done();
    auto read = read_toml(out);
    if (!read) {
      const bool large = read.error().code == ErrorCode::kTooLarge;
      return fail(large ? ErrorCode::kTooLarge : ErrorCode::kWrongUse, "",
                  "with this edit the document could not be read any more", read.error().message);
    }
    bool same = same_meaning(*read, meaning_);
    if (!same && !removed_.empty()) {
      prune_meaning(meaning_, removed_);
      same = same_meaning(*read, meaning_);
    }
    if (same) return Patched::source(std::move(out), std::move(*read));
    return not_here("this edit cannot be made without touching something else");
  }

  /// Whether a key to be set is there, but as a table of its own or with dots: then it is removed
  /// first and written in one piece.
  [[nodiscard]] bool in_pieces(const SetKey& set) {
    auto path = path_of(meaning_, set.entry);
    if (!path || set.key.empty()) return false;
    path->insert(path->end(), set.key.begin(), set.key.end());
    const Found found = find(*path);
    return found.steps == path->size() && found.node->value == nullptr;
  }

 private:
  Result<void> make(const SetKey& set) {
    if (set.key.empty()) return not_here("no key is named");
    auto value = read_value_text(set.value);
    if (!value) return tl::unexpected(value.error());
    auto path = path_of(meaning_, set.entry);
    if (!path) return tl::unexpected(path.error());
    const std::size_t entry_steps = path->size();
    path->insert(path->end(), set.key.begin(), set.key.end());
    const TomlNode* there = node_at(meaning_, *path);
    const TomlNode was = there == nullptr ? TomlNode{} : *there;
    if (!set_meaning(meaning_, *path, std::move(*value))) {
      return not_here(fmt::format("{} has nothing that could have this key",
                                  quoted(set.entry.table + " " + set.entry.id)));
    }
    const Found found = find(*path);
    if (found.steps == path->size()) {
      replace_value(*found.node->value, was, set.value, *node_at(meaning_, *path));
      return {};
    }
    return found.steps < entry_steps ? add_table(found, *path, entry_steps, set.value)
                                     : add_key(found, *path, set.value);
  }
  /// A value over several lines keeps those that say the same.
  void replace_value(const ValueSyntax& there, const TomlNode& was, const std::string& value,
                     const TomlNode& now) {
    const std::string_view old = text_.substr(there.span.begin, there.span.end - there.span.begin);
    const auto fresh = cut_value(value);
    if (fresh && there.form != ValueSyntax::Form::kSingle &&
        old.find('\n') != std::string_view::npos) {
      change_value(edit_, {text_, &there, &was}, {value, &*fresh, &now});
    } else {
      edit_.replace(there.span, value);
    }
  }
  Result<void> make(const RemoveKey& remove) {
    auto path = path_of(meaning_, remove.entry);
    if (!path) return tl::unexpected(path.error());
    if (remove.key.empty()) return not_here("no key is named");
    path->insert(path->end(), remove.key.begin(), remove.key.end());
    return take_away(*path, remove.key.back());
  }
  Result<void> make(const RemoveEntry& remove) {
    auto path = path_of(meaning_, remove.entry);
    if (!path) return tl::unexpected(path.error());
    if (path->empty()) path->push_back(remove.entry.table);
    return take_away(*path, remove.entry.table);
  }
  Result<void> make(const AddEntry& add) {
    const garden::TableSchema* schema = garden::find_table(add.table);
    if (schema == nullptr) return tl::unexpected(path_of(meaning_, {add.table, "", 0}).error());
    if (schema->form == TableForm::kValue) return not_here("format is there once, by itself");
    TomlTable item;
    std::vector<std::string> lines;
    for (const KeyValue& key : add.keys) {
      auto value = read_value_text(key.value);
      if (!value) return tl::unexpected(value.error());
      if (find_field(item, key.key) != nullptr) {
        return fail(ErrorCode::kConflict, "", fmt::format("{} is given twice", quoted(key.key)),
                    "leave one of the two out");
      }
      item.push_back({key.key, {}, std::move(*value)});
      lines.push_back(toml_key(key.key) + " = " + key.value);
    }
    KeyPath path = table_path(add.table);
    if (schema->form == TableForm::kNamed) path.push_back(add.name);
    TomlNode node{std::move(item), {}, {}};
    return schema->form == TableForm::kMany ? add_item(path, std::move(node), lines)
                                            : add_single(path, std::move(node), lines);
  }

  [[nodiscard]] Found find(const KeyPath& path) {
    Found found{&tree_.root(), 0, {}};
    while (found.steps < path.size()) {
      SyntaxNode* next = tree_.child(*found.node, path[found.steps]);
      if (next == nullptr) break;
      if (!found.node->list) found.names.push_back(path[found.steps]);
      found.node = next;
      ++found.steps;
    }
    return found;
  }
  /// The last statement of the section in which a statement stands.
  [[nodiscard]] std::size_t section_end(std::size_t statement) const {
    while (statement + 1 < cut_.statements.size() &&
           cut_.statements[statement + 1].form == Statement::Form::kPair) {
      ++statement;
    }
    return statement;
  }
  void add_section(const SyntaxNode& after, const std::vector<std::string>& lines) {
    if (after.statements.empty() || after.parent == nullptr) {
      edit_.add_section_at_end(lines);
    } else {
      edit_.add_section_after(section_end(after.statements.back()), lines);
    }
  }

  /// A table that is not there yet, with its first key.
  Result<void> add_table(const Found& found, const KeyPath& path, std::size_t entry_steps,
                         const std::string& value) {
    if (found.node->value != nullptr) return add_key(found, path, value);
    const KeyPath header(path.begin(), path.begin() + static_cast<std::ptrdiff_t>(entry_steps));
    add_section(*found.node, {"[" + dotted(header) + "]", pair_text(path, entry_steps, value)});
    return {};
  }

  /// A key of a table that is there in some form.
  Result<void> add_key(const Found& found, const KeyPath& path, const std::string& value) {
    const SyntaxNode& table = *found.node;
    const std::string pair = pair_text(path, found.steps, value);
    if (table.value != nullptr) {
      if (table.value->form != ValueSyntax::Form::kInlineTable) return not_here("it has no keys");
      edit_.add_pair(*table.value, pair);
    } else if (!table.through.empty()) {
      add_dotted(table.through.back(), pair);
    } else if (table.header != kNoStatement) {
      edit_.add_line_after(section_end(table.header), pair);
    } else if (table.parent == nullptr) {
      const bool keys_first =
          !cut_.statements.empty() && cut_.statements[0].form == Statement::Form::kPair;
      if (keys_first) {
        edit_.add_line_after(section_end(0), pair);
      } else {
        edit_.add_first_line(pair);
      }
    } else {  // there only because of tables within it
      edit_.add_section_before(table.statements.front(), {"[" + dotted(found.names) + "]", pair});
    }
    return {};
  }
  void add_dotted(const Through& through, const std::string& pair) {
    const PairSyntax& last = through.table != nullptr ? through.table->pairs[through.pair]
                                                      : cut_.statements[through.statement].pair;
    const std::size_t begin = last.key.front().span.begin;
    const std::size_t end = last.key[through.parts - 1].span.end;
    const std::string text = std::string(text_.substr(begin, end - begin)) + "." + pair;
    if (through.table != nullptr) {
      edit_.add_pair_after(*through.table, through.pair, text);
    } else {
      edit_.add_line_after(through.statement, text);
    }
  }

  static std::string in_brackets(const std::vector<std::string>& lines) {
    std::string out;
    for (const std::string& line : lines) out += (out.empty() ? "" : ", ") + line;
    return out.empty() ? "{}" : "{ " + out + " }";
  }
  Result<void> add_item(const KeyPath& path, TomlNode item, std::vector<std::string> lines) {
    if (!append_meaning(meaning_, path, std::move(item))) {
      return not_here(fmt::format("{} is no list of tables here", dotted(path)));
    }
    const Found found = find(path);
    if (found.node->value != nullptr) {
      if (found.steps == path.size()) {
        edit_.add_item(*found.node->value, in_brackets(lines));
        return {};
      }
      return add_key(found, path, "[" + in_brackets(lines) + "]");
    }
    lines.insert(lines.begin(), "[[" + dotted(path) + "]]");
    add_section(found.steps == path.size() ? *found.node : tree_.root(), lines);
    return {};
  }
  Result<void> add_single(const KeyPath& path, TomlNode table, std::vector<std::string> lines) {
    if (node_at(meaning_, path) != nullptr) {
      return fail(ErrorCode::kConflict, "", fmt::format("there is a [{}] already", dotted(path)),
                  "set its keys instead");
    }
    if (!set_meaning(meaning_, path, std::move(table))) {
      return not_here(fmt::format("{} can have no tables here", dotted(path)));
    }
    const Found found = find(path);
    if (found.node->value != nullptr) return add_key(found, path, in_brackets(lines));
    lines.insert(lines.begin(), "[" + dotted(path) + "]");
    add_section(*found.node, lines);
    return {};
  }

  Result<void> take_away(const KeyPath& path, const std::string& name) {
    const Found found = find(path);
    if (found.steps < path.size() || !remove_meaning(meaning_, path)) {
      return fail(ErrorCode::kUnknownKey, "", fmt::format("there is no {} to remove", quoted(name)),
                  "look at the document; it may be gone already");
    }
    removed_ = path;
    const SyntaxNode& node = *found.node;
    if (node.value != nullptr && node.through.empty()) {
      edit_.remove_item(*node.parent->value, node.place_in_list);
    } else if (!node.through.empty() && node.through.front().table != nullptr) {
      std::vector<std::size_t> pairs;
      for (const Through& through : node.through) pairs.push_back(through.pair);
      edit_.remove_pairs(*node.through.front().table, pairs);
    } else {
      remove_statements(node.statements);
    }
    return {};
  }
  /// Whole sections with their remarks; keys with dots line by line.
  void remove_statements(const std::vector<std::size_t>& statements) {
    for (std::size_t i = 0; i < statements.size(); ++i) {
      if (cut_.statements[statements[i]].form == Statement::Form::kPair) {
        edit_.remove_line(statements[i]);
        continue;
      }
      const std::size_t first = i;
      while (i + 1 < statements.size() && statements[i + 1] == statements[i] + 1) ++i;
      edit_.remove_statements(statements[first], statements[i]);
    }
  }

  std::string_view text_;
  TomlText cut_;
  SyntaxTree tree_;
  TextEdit edit_;
  TomlNode meaning_;  // of the text as it will be
  KeyPath removed_;
};

Result<Source> apply_one(const Source& source, const Edit& edit) {
  const auto& meaning = source.meaning().tree;
  if (!meaning) {
    const SyntaxError& error = meaning.error();
    return fail(error.code, fmt::format("{}:{}", error.where.line, error.where.column),
                error.message, error.hint);
  }
  Patcher patcher(source.text(), *meaning);
  const auto* set = std::get_if<SetKey>(&edit);
  if (set != nullptr && patcher.in_pieces(*set)) {
    auto without = patcher.apply(RemoveKey{set->entry, set->key});
    return without ? apply_one(*without, edit) : without;
  }
  return patcher.apply(edit);
}

}  // namespace

Result<Source> patch(const Source& source, const std::vector<Edit>& edits) {
  Source out = source;
  for (const Edit& edit : edits) {
    auto next = apply_one(out, edit);
    if (!next) return next;
    out = std::move(*next);
  }
  return out;
}

Result<std::string> patch(std::string_view text, const std::vector<Edit>& edits) {
  if (edits.empty()) return std::string(text);
  const auto out = patch(Source(std::string(text)), edits);
  if (!out) return tl::unexpected<Error>(out.error());
  return out->text();
}

}  // namespace spadework::document
