#include "document/toml_tree.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "base/toml_parser.h"
#include "document/limits.h"
#include "document/toml_text.h"

namespace spadework::document {
namespace {

using garden::TextPlace;

constexpr std::size_t kLongestTyped = 60;

TextPlace place(const toml::source_position& position) {
  return {static_cast<int>(position.line), static_cast<int>(position.column)};
}

bool before(TextPlace a, TextPlace b) {
  return a.line != b.line ? a.line < b.line : a.column < b.column;
}

/// Turns the parser's tree into ours.
class Converter {
 public:
  explicit Converter(std::string_view text) : text_(text), places_(text) {}

  TomlNode node(const toml::node& from) {
    TomlNode out;
    out.where = place(from.source().begin);
    if (const auto* table = from.as_table()) {
      out.is = fields(*table);
    } else if (const auto* list = from.as_array()) {
      TomlList items;
      items.reserve(list->size());
      for (const toml::node& item : *list) items.push_back(node(item));
      out.is = std::move(items);
    } else {
      single(from, out);
    }
    return out;
  }

 private:
  TomlTable fields(const toml::table& from) {
    TomlTable out;
    out.reserve(from.size());
    for (auto&& [key, value] : from) {
      out.push_back({std::string(key.str()), place(key.source().begin), node(value)});
    }
    std::stable_sort(out.begin(), out.end(), [](const TomlField& a, const TomlField& b) {
      return before(a.where, b.where);
    });
    return out;
  }
  void single(const toml::node& from, TomlNode& out) {
    if (const auto* text = from.as_string()) {
      out.is = text->get();
      if (text->get().size() <= kLongestTyped) out.typed = typed(from);
      return;
    }
    out.typed = typed(from);
    if (const auto* whole = from.as_integer()) {
      out.is = whole->get();
    } else if (const auto* number = from.as_floating_point()) {
      out.is = number->get();
    } else if (const auto* yes_no = from.as_boolean()) {
      out.is = yes_no->get();
    } else if (const auto* date = from.as_date()) {
      out.is = make_date(date->get().year, date->get().month, date->get().day);
    } else {
      out.is = TomlTime{out.typed};
    }
  }
  /// The value as it stands in the text, without spaces at its end.
  std::string typed(const toml::node& from) {
    const std::size_t begin = places_.byte_of(place(from.source().begin));
    const std::size_t end = places_.byte_of(place(from.source().end));
    if (begin >= end || end > text_.size()) return {};
    std::string out(text_.substr(begin, std::min(end - begin, 2 * kLongestTyped)));
    out.erase(out.find_last_not_of(" \t\r\n") + 1);
    return out;
  }

  std::string_view text_;
  TextPlaces places_;
};

std::vector<const TomlField*> by_key(const TomlTable& table) {
  std::vector<const TomlField*> out;
  for (const TomlField& field : table) out.push_back(&field);
  std::sort(out.begin(), out.end(),
            [](const TomlField* a, const TomlField* b) { return a->key < b->key; });
  return out;
}

std::optional<SyntaxError> beyond_limits(std::string_view text, const TomlText& cut) {
  const auto refuse = [&](TextPlace where, std::string message, std::string hint) {
    return SyntaxError{where, ErrorCode::kTooLarge, std::move(message), std::move(hint)};
  };
  if (cut.too_deep_at) {
    return refuse(
        TextPlaces(text).place_of(*cut.too_deep_at),
        fmt::format("tables and lists stand more than {} deep in each other here; nothing "
                    "after this is read",
                    kDeepest),
        "a garden document is at most four or five deep");
  }
  if (cut.too_many_headers_at) {
    return refuse(TextPlaces(text).place_of(*cut.too_many_headers_at),
                  fmt::format("the document has more than {} tables; nothing after this is read",
                              kMostEntries),
                  "split it into several gardens");
  }
  if (cut.too_many_values_at) {
    return refuse(TextPlaces(text).place_of(*cut.too_many_values_at),
                  fmt::format("the document has more than {} figures and words; nothing after this "
                              "is read",
                              kMostValues),
                  "split it into several gardens");
  }
  return std::nullopt;
}

std::optional<double> figure_of(const TomlNode& node) {
  if (const auto* whole = std::get_if<std::int64_t>(&node.is)) return static_cast<double>(*whole);
  if (const auto* figure = std::get_if<double>(&node.is)) return *figure;
  return std::nullopt;
}

}  // namespace

const TomlField* find_field(const TomlTable& table, std::string_view key) {
  for (const TomlField& field : table) {
    if (field.key == key) return &field;
  }
  return nullptr;
}

bool same_meaning(const TomlNode& a, const TomlNode& b) {
  if (a.is.index() != b.is.index()) {
    const auto x = figure_of(a), y = figure_of(b);
    return x && y && *x == *y;
  }
  if (const TomlList* list = a.list()) {
    return std::equal(list->begin(), list->end(), b.list()->begin(), b.list()->end(), same_meaning);
  }
  if (const TomlTable* table = a.table()) {
    if (table->size() != b.table()->size()) return false;
    const auto mine = by_key(*table), others = by_key(*b.table());
    return std::equal(mine.begin(), mine.end(), others.begin(),
                      [](const TomlField* x, const TomlField* y) {
                        return x->key == y->key && same_meaning(x->value, y->value);
                      });
  }
  if (const double* x = std::get_if<double>(&a.is)) {
    const double y = std::get<double>(b.is);
    return *x == y || (*x != *x && y != y);
  }
  return std::visit(
      [&](const auto& x) {
        using T = std::decay_t<decltype(x)>;
        if constexpr (std::is_same_v<T, TomlList> || std::is_same_v<T, TomlTable>) {
          return false;
        } else {
          return x == std::get<T>(b.is);
        }
      },
      a.is);
}

tl::expected<TomlNode, SyntaxError> read_toml(std::string_view text) {
  const auto refused = [](SyntaxError error) { return tl::unexpected(std::move(error)); };
  if (text.size() > kMostBytes) {
    return refused(
        {{1, 1},
         ErrorCode::kTooLarge,
         fmt::format("the document is {:.1f} MB long; at most {:.0f} MB are read",
                     static_cast<double>(text.size()) / 1e6, static_cast<double>(kMostBytes) / 1e6),
         "a garden is a page or a few; keep pictures and weather in files of their own"});
  }
  const TomlText cut = check_toml(text);
  if (auto error = beyond_limits(text, cut)) return refused(std::move(*error));
  // What the cutter could not follow is not put before the parser either, so that nothing deep or
  // large passes unseen: no more than the rest of that line.
  std::string_view parsed = text;
  if (cut.lost_at) {
    const std::size_t line_end = std::min(text.find('\n', *cut.lost_at), text.size());
    parsed = text.substr(0, std::min(line_end + 1, *cut.lost_at + 100));
  }
  const toml::parse_result result = toml::parse(parsed);
  if (!result) {
    return refused(plain_syntax_error(text, place(result.error().source().begin),
                                      result.error().description()));
  }
  if (cut.lost_at) {
    return refused(plain_syntax_error(text, TextPlaces(text).place_of(*cut.lost_at), ""));
  }
  return Converter(text).node(result.table());
}

}  // namespace spadework::document
