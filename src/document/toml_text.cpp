#include "document/toml_text.h"

#include <algorithm>

#include "document/limits.h"

namespace spadework::document {
namespace {

bool is_bare(char c) {
  const auto u = static_cast<unsigned char>(c);
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
         c == '-' || u >= 0x80;
}
bool is_digit(char c) { return c >= '0' && c <= '9'; }

void append_utf8(std::string& out, unsigned long code) {
  const auto byte = [&](unsigned long b) { out += static_cast<char>(b); };
  if (code < 0x80) {
    byte(code);
  } else if (code < 0x800) {
    byte(0xC0 | code >> 6), byte(0x80 | (code & 63));
  } else if (code < 0x10000) {
    byte(0xE0 | code >> 12), byte(0x80 | (code >> 6 & 63)), byte(0x80 | (code & 63));
  } else {
    byte(0xF0 | (code >> 18 & 7)), byte(0x80 | (code >> 12 & 63));
    byte(0x80 | (code >> 6 & 63)), byte(0x80 | (code & 63));
  }
}

/// The text of a one-line basic string without its quotes.
std::string unescaped(std::string_view inner) {
  std::string out;
  for (std::size_t i = 0; i < inner.size(); ++i) {
    if (inner[i] != '\\' || i + 1 >= inner.size()) {
      out += inner[i];
      continue;
    }
    const char c = inner[++i];
    const std::size_t digits = c == 'u' ? 4 : c == 'U' ? 8 : 0;
    if (digits > 0) {
      unsigned long code = 0;
      for (std::size_t k = 0; k < digits && i + 1 < inner.size(); ++k) {
        const char h = inner[++i];
        code =
            code * 16 + static_cast<unsigned long>(is_digit(h) ? h - '0' : ((h | 32) - 'a' + 10));
      }
      append_utf8(out, code & 0x1FFFFF);
    } else {
      constexpr std::string_view kFrom = "btnfre", kTo = "\b\t\n\f\r\x1b";
      const std::size_t known = kFrom.find(c);
      out += known == std::string_view::npos ? c : kTo[known];
    }
  }
  return out;
}

class Cutter {
 public:
  Cutter(std::string_view text, bool keep) : text_(text), keep_(keep) {}

  TomlText all() {
    if (text_.substr(0, 3) == "\xEF\xBB\xBF") at_ = 3;
    while (skip_to_statement()) {
      if (!statement()) break;
    }
    if (lost_) out_.lost_at = std::min(at_, text_.size());
    return std::move(out_);
  }
  std::optional<ValueSyntax> one_value() {
    ValueSyntax value;
    if (!read_value(value, 0) || at_ != text_.size()) return std::nullopt;
    return value;
  }

 private:
  [[nodiscard]] char here(std::size_t ahead = 0) const {
    return at_ + ahead < text_.size() ? text_[at_ + ahead] : '\0';
  }
  [[nodiscard]] bool done() const { return at_ >= text_.size(); }
  bool lost() {
    lost_ = !stopped_;
    return false;
  }
  bool beyond(std::optional<std::size_t>& limit) {
    if (!stopped_) limit = at_;
    stopped_ = true;
    return false;
  }
  bool take(char c) {
    if (done() || text_[at_] != c) return false;
    ++at_;
    return true;
  }
  void skip_space() {
    while (here() == ' ' || here() == '\t') ++at_;
  }
  void skip_comment() {
    if (here() != '#') return;
    at_ = std::min(text_.find('\n', at_), text_.size());
  }
  /// Past the line's end, if it is here; true also at the end of the text.
  bool take_line_end() {
    if (here() == '\r' && here(1) == '\n') ++at_;
    return done() || take('\n');
  }
  void skip_lines() {
    while (!done()) {
      skip_space();
      skip_comment();
      if (done() || !take_line_end()) return;
    }
  }
  /// False at the end of the text.
  bool skip_to_statement() {
    while (!done()) {
      line_begin_ = at_;
      skip_space();
      skip_comment();
      if (done()) return false;
      if (here() != '\n' && !(here() == '\r' && here(1) == '\n')) return true;
      take_line_end();
    }
    return false;
  }

  bool statement() {
    Statement s;
    if (here() == '[') {
      ++at_;
      s.form = take('[') ? Statement::Form::kTableList : Statement::Form::kTable;
      skip_space();
      if (!read_key(s.key, 0)) return false;
      if (!take(']') || (s.form == Statement::Form::kTableList && !take(']'))) return lost();
      header_depth_ = static_cast<int>(s.key.size());
      if (++headers_ > kMostEntries) {
        at_ = line_begin_;
        return beyond(out_.too_many_headers_at);
      }
    } else if (!read_pair(s.pair, header_depth_)) {
      return false;
    }
    skip_space();
    skip_comment();
    if (!take_line_end()) return lost();
    s.lines = {line_begin_, at_};
    if (keep_) out_.statements.push_back(std::move(s));
    return true;
  }

  bool read_pair(PairSyntax& pair, int depth) {
    if (!read_key(pair.key, depth)) return false;
    if (!take('=')) return lost();
    skip_space();
    return read_value(pair.value, depth + static_cast<int>(pair.key.size()));
  }

  /// Dotted; spaces after it are taken too.
  bool read_key(std::vector<KeyPart>& key, int depth) {
    do {
      skip_space();
      KeyPart part;
      if (!read_key_part(part)) return lost();
      if (depth + static_cast<int>(key.size()) >= kDeepest) {
        at_ = part.span.begin;
        return beyond(out_.too_deep_at);
      }
      key.push_back(std::move(part));
      skip_space();
    } while (take('.'));
    return true;
  }
  bool read_key_part(KeyPart& part) {
    part.span.begin = at_;
    if (here() == '"' || here() == '\'') {
      const bool basic = here() == '"';
      if (!skip_short_string()) return false;
      const std::string_view inner = text_.substr(part.span.begin + 1, at_ - part.span.begin - 2);
      part.name = basic ? unescaped(inner) : std::string(inner);
    } else {
      while (!done() && is_bare(here())) ++at_;
      part.name = std::string(text_.substr(part.span.begin, at_ - part.span.begin));
      if (part.name.empty()) return false;
    }
    part.span.end = at_;
    return true;
  }

  bool read_value(ValueSyntax& value, int depth) {
    value.span.begin = at_;
    bool fine = false;
    if (here() == '[' || here() == '{') {
      if (depth + 1 > kDeepest) return beyond(out_.too_deep_at);
      fine = here() == '[' ? read_list(value, depth + 1) : read_inline_table(value, depth + 1);
    } else {
      if (++values_ > kMostValues) return beyond(out_.too_many_values_at);
      fine = here() == '"' || here() == '\'' ? skip_string() : skip_bare_value();
    }
    value.span.end = at_;
    return fine || lost();
  }
  bool read_list(ValueSyntax& value, int depth) {
    value.form = ValueSyntax::Form::kList;
    ++at_;
    for (;;) {
      skip_lines();
      if (take(']')) return true;
      ValueSyntax item;
      if (done() || !read_value(item, depth)) return false;
      if (keep_) value.items.push_back(std::move(item));
      skip_lines();
      if (take(']')) return true;
      if (!take(',')) return false;
    }
  }
  bool read_inline_table(ValueSyntax& value, int depth) {
    value.form = ValueSyntax::Form::kInlineTable;
    ++at_;
    for (;;) {
      skip_lines();
      if (take('}')) return true;
      PairSyntax pair;
      if (done() || !read_pair(pair, depth)) return false;
      if (keep_) value.pairs.push_back(std::move(pair));
      skip_lines();
      if (take('}')) return true;
      if (!take(',')) return false;
    }
  }

  bool skip_string() {
    const char quote = here();
    if (here(1) != quote || here(2) != quote) return skip_short_string();
    at_ += 3;
    for (; !done(); ++at_) {
      if (here() == '\\' && quote == '"') {
        ++at_;
      } else if (here() == quote && here(1) == quote && here(2) == quote) {
        at_ += 3;
        for (int extra = 0; extra < 2 && here() == quote; ++extra) ++at_;
        return true;
      }
    }
    at_ = text_.size();
    return false;
  }
  bool skip_short_string() {
    const char quote = here();
    ++at_;
    for (; !done() && here() != '\n'; ++at_) {
      if (here() == '\\' && quote == '"') {
        ++at_;
      } else if (here() == quote) {
        ++at_;
        return true;
      }
    }
    at_ = std::min(at_, text_.size());
    return false;
  }
  /// Figures, dates, true and false; a date and its time may be parted by one space.
  bool skip_bare_value() {
    const std::size_t begin = at_;
    const auto run = [&] {
      while (!done() &&
             std::string_view(" \t\r\n,]}#=\"'").find(here()) == std::string_view::npos) {
        ++at_;
      }
    };
    run();
    const bool date = at_ - begin == 10 && text_[begin + 4] == '-' && text_[begin + 7] == '-';
    if (date && here() == ' ' && is_digit(here(1)) && is_digit(here(2)) && here(3) == ':') {
      ++at_;
      run();
    }
    return at_ > begin;
  }

  std::string_view text_;
  bool keep_;
  std::size_t at_ = 0, line_begin_ = 0;
  std::size_t headers_ = 0, values_ = 0;
  int header_depth_ = 0;
  bool lost_ = false, stopped_ = false;
  TomlText out_;
};

bool continues_character(char c) { return (static_cast<unsigned char>(c) & 0xC0) == 0x80; }

}  // namespace

TomlText cut_toml(std::string_view text) { return Cutter(text, true).all(); }

TomlText check_toml(std::string_view text) { return Cutter(text, false).all(); }

std::optional<ValueSyntax> cut_value(std::string_view text) {
  return Cutter(text, true).one_value();
}

TextPlaces::TextPlaces(std::string_view text) : text_(text) {
  const std::size_t mark = text.substr(0, 3) == "\xEF\xBB\xBF" ? 3 : 0;
  lines_.push_back({mark, true, {}});
  for (std::size_t i = mark; i < text.size(); ++i) {
    if (static_cast<unsigned char>(text[i]) >= 0x80) lines_.back().ascii = false;
    if (text[i] == '\n') lines_.push_back({i + 1, true, {}});
  }
}

garden::TextPlace TextPlaces::place_of(std::size_t byte) const {
  const auto after = std::upper_bound(lines_.begin(), lines_.end(), byte,
                                      [](std::size_t b, const Line& l) { return b < l.begin; });
  if (after == lines_.begin()) return {1, 1};
  const auto line = std::prev(after);
  int column = 1;
  for (std::size_t i = line->begin; i < byte && i < text_.size(); ++i) {
    if (!continues_character(text_[i])) ++column;
  }
  return {static_cast<int>(line - lines_.begin()) + 1, column};
}

std::size_t TextPlaces::byte_of(garden::TextPlace place) {
  if (place.line < 1 || static_cast<std::size_t>(place.line) > lines_.size()) return text_.size();
  const auto index = static_cast<std::size_t>(place.line - 1);
  Line& line = lines_[index];
  const std::size_t end = index + 1 < lines_.size() ? lines_[index + 1].begin : text_.size();
  const auto column = static_cast<std::size_t>(std::max(place.column, 1) - 1);
  if (line.ascii) return std::min(line.begin + column, end);
  if (line.characters.empty()) {
    for (std::size_t i = line.begin; i < end; ++i) {
      if (!continues_character(text_[i])) line.characters.push_back(i);
    }
  }
  return column < line.characters.size() ? line.characters[column] : end;
}

}  // namespace spadework::document
