#include "document/text_edit.h"

#include <algorithm>

namespace spadework::document {

TextEdit::TextEdit(std::string_view text, const TomlText& cut) : text_(text), cut_(cut) {
  const std::size_t first_end = text.find('\n');
  const bool crlf =
      first_end != std::string_view::npos && first_end > 0 && text[first_end - 1] == '\r';
  newline_ = crlf ? "\r\n" : "\n";
  top_ = text.substr(0, 3) == "\xEF\xBB\xBF" ? 3 : 0;
}

std::string TextEdit::done() const {
  std::vector<const TextChange*> order;
  for (const TextChange& change : changes_) order.push_back(&change);
  std::stable_sort(order.begin(), order.end(), [](const TextChange* a, const TextChange* b) {
    return a->span.begin < b->span.begin;
  });
  std::string out;
  std::size_t at = 0;
  for (const TextChange* change : order) {
    out += text_.substr(at, std::max(change->span.begin, at) - at);
    out += change->text;
    at = std::max(at, change->span.end);
  }
  out += text_.substr(at);
  return out;
}

// Lines.

std::size_t TextEdit::line_begin(std::size_t byte) const {
  if (byte <= top_) return top_;
  const std::size_t end = text_.rfind('\n', byte - 1);
  return end == std::string_view::npos ? top_ : std::max(end + 1, top_);
}
std::size_t TextEdit::line_end(std::size_t byte) const {
  const std::size_t end = std::min(text_.find('\n', byte), text_.size());
  return end > byte && text_[end - 1] == '\r' ? end - 1 : end;
}
std::size_t TextEdit::next_line(std::size_t byte) const {
  const std::size_t end = text_.find('\n', byte);
  return end == std::string_view::npos ? text_.size() : end + 1;
}
std::size_t TextEdit::skip_spaces(std::size_t byte) const {
  while (byte < text_.size() && (text_[byte] == ' ' || text_[byte] == '\t')) ++byte;
  return byte;
}
bool TextEdit::is_blank_line(std::size_t begin) const {
  return begin < text_.size() && skip_spaces(begin) >= line_end(begin);
}
bool TextEdit::is_remark_line(std::size_t begin) const {
  const std::size_t at = skip_spaces(begin);
  return at < text_.size() && text_[at] == '#';
}

std::size_t TextEdit::remarks_begin(std::size_t statement) const {
  const std::size_t after_last = statement == 0 ? top_ : cut_.statements[statement - 1].lines.end;
  const std::size_t own = cut_.statements[statement].lines.begin;
  std::size_t begin = own;
  while (begin > after_last) {
    const std::size_t above = line_begin(begin - 1);
    if (above < after_last || !is_remark_line(above)) break;
    begin = above;
  }
  return begin == top_ ? own : begin;  // a remark that opens the document is the document's
}

std::size_t TextEdit::remarks_end(std::size_t statement) const {
  const std::size_t own = cut_.statements[statement].lines.end;
  std::size_t end = own;
  while (end < text_.size() && is_remark_line(end)) end = next_line(end);
  return end >= text_.size() || is_blank_line(end) ? end : own;
}

std::string TextEdit::joined(const std::vector<std::string>& lines) const {
  std::string out;
  for (const std::string& line : lines) out += line + newline_;
  return out;
}

void TextEdit::add_line_after(std::size_t statement, const std::string& line) {
  const Span lines = cut_.statements[statement].lines;
  const std::size_t indent_end = skip_spaces(lines.begin);
  std::string text(text_.substr(lines.begin, indent_end - lines.begin));
  text += line;
  const bool ended = lines.end > lines.begin && text_[lines.end - 1] == '\n';
  replace({lines.end, lines.end}, ended ? text + newline_ : newline_ + text);
}

void TextEdit::add_first_line(const std::string& line) {
  replace({top_, top_}, line + newline_ + (top_ < text_.size() ? newline_ : ""));
}

void TextEdit::add_section_after(std::size_t statement, const std::vector<std::string>& lines) {
  const std::size_t at = remarks_end(statement);
  const bool ended = at > 0 && text_[at - 1] == '\n';
  const bool more = at < text_.size() && !is_blank_line(at);
  replace({at, at}, (ended ? "" : newline_) + newline_ + joined(lines) + (more ? newline_ : ""));
}

void TextEdit::add_section_before(std::size_t header, const std::vector<std::string>& lines) {
  const std::size_t at = remarks_begin(header);
  replace({at, at}, joined(lines) + newline_);
}

void TextEdit::add_section_at_end(const std::vector<std::string>& lines) {
  const std::size_t at = text_.size();
  std::string before;
  if (at > top_) {
    if (text_[at - 1] != '\n') before = newline_;
    const std::size_t last = line_begin(at - (text_[at - 1] == '\n' ? 1 : 0));
    if (!is_blank_line(last)) before += newline_;
  }
  replace({at, at}, before + joined(lines));
}

void TextEdit::remove_line(std::size_t statement) { replace(cut_.statements[statement].lines, ""); }

void TextEdit::remove_statements(std::size_t first, std::size_t last) {
  std::size_t begin = remarks_begin(first);
  std::size_t end = remarks_end(last);
  const bool gap_before = begin <= top_ || is_blank_line(line_begin(begin - 1));
  if (gap_before) {
    while (end < text_.size() && is_blank_line(end)) end = next_line(end);
  }
  if (end == text_.size()) {  // the document does not end in empty lines
    while (begin > top_ && is_blank_line(line_begin(begin - 1))) begin = line_begin(begin - 1);
  }
  replace({begin, end}, "");
}

// Inline tables and lists.

void TextEdit::add_pair(const ValueSyntax& table, const std::string& pair) {
  if (table.pairs.empty()) {
    replace(table.span, "{ " + pair + " }");
  } else {
    add_pair_after(table, table.pairs.size() - 1, pair);
  }
}

void TextEdit::add_pair_after(const ValueSyntax& table, std::size_t pair, const std::string& text) {
  const std::size_t at = table.pairs[pair].value.span.end;
  replace({at, at}, ", " + text);
}

void TextEdit::remove_pairs(const ValueSyntax& table, const std::vector<std::size_t>& pairs) {
  std::vector<bool> goes(table.pairs.size(), false);
  for (const std::size_t pair : pairs) goes[pair] = true;
  const auto first_kept = std::find(goes.begin(), goes.end(), false);
  if (first_kept == goes.end()) {
    replace(table.span, "{}");
    return;
  }
  const auto kept = static_cast<std::size_t>(first_kept - goes.begin());
  if (kept > 0) {
    replace({table.pairs[0].span().begin, table.pairs[kept].span().begin}, "");
  }
  for (std::size_t i = kept + 1; i < goes.size(); ++i) {
    if (goes[i]) replace({table.pairs[i - 1].span().end, table.pairs[i].span().end}, "");
  }
}

std::size_t TextEdit::skip_to_sign(std::size_t byte) const {
  for (;;) {
    while (byte < text_.size() &&
           std::string_view(" \t\r\n").find(text_[byte]) != std::string_view::npos) {
      ++byte;
    }
    if (byte >= text_.size() || text_[byte] != '#') return byte;
    byte = next_line(byte);
  }
}

bool TextEdit::alone_on_line(Span item, std::size_t comma_end) const {
  if (skip_spaces(line_begin(item.begin)) != item.begin) return false;
  const std::size_t after = skip_spaces(comma_end);
  return after >= line_end(comma_end) || text_[after] == '#';
}

void TextEdit::add_item(const ValueSyntax& list, const std::string& item) {
  if (list.items.empty()) {
    replace({list.span.begin + 1, list.span.begin + 1}, item);
    return;
  }
  add_items(list, list.items.size(), {item});
}

void TextEdit::add_items(const ValueSyntax& list, std::size_t before,
                         const std::vector<std::string>& items) {
  const Span next_to = list.items[before == 0 ? 0 : before - 1].span;
  const std::size_t sign = skip_to_sign(next_to.end);
  const bool comma = sign < text_.size() && text_[sign] == ',';
  const std::size_t after = comma ? sign + 1 : next_to.end;
  const bool on_lines = alone_on_line(next_to, after);
  const std::size_t begin = line_begin(next_to.begin);
  const std::string apart =
      on_lines ? newline_ + std::string(text_.substr(begin, next_to.begin - begin)) : " ";
  std::string text;
  if (before == 0) {
    for (const std::string& item : items) text += item + "," + apart;
    replace({next_to.begin, next_to.begin}, text);
    return;
  }
  for (std::size_t i = 0; i < items.size(); ++i) {
    text += (i > 0 || (!comma && !on_lines) ? "," : "") + apart + items[i];
  }
  if (comma && (on_lines || before < list.items.size())) text += ",";
  if (on_lines && !comma) replace({next_to.end, next_to.end}, ",");
  const std::size_t at = on_lines ? line_end(after) : after;
  replace({at, at}, text);
}

void TextEdit::remove_item(const ValueSyntax& list, std::size_t item) {
  const Span span = list.items[item].span;
  const std::size_t sign = skip_to_sign(span.end);
  const bool comma_after = sign < text_.size() && text_[sign] == ',';
  const bool comma_on_line = comma_after && sign <= line_end(span.end);
  if (alone_on_line(span, comma_on_line ? sign + 1 : span.end) &&
      (comma_on_line || (!comma_after && item > 0))) {
    replace({line_begin(span.begin), next_line(span.end)}, "");
    return;
  }
  if (comma_after) {
    const bool touching = sign == skip_spaces(span.end);
    const std::size_t rest = skip_spaces(sign + 1);
    if (touching) {
      replace({span.begin, rest}, "");
    } else {
      replace(span, "");
      replace({sign, sign + 1}, "");
    }
    return;
  }
  replace(span, "");
  if (item == 0) return;
  const std::size_t comma = skip_to_sign(list.items[item - 1].span.end);
  const bool touching = skip_spaces(comma + 1) == span.begin;
  replace({comma, touching ? span.begin : comma + 1}, "");
}

}  // namespace spadework::document
