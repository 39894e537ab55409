#include "sheets/text_layout.h"

#include <algorithm>

namespace spadework::sheets {

using geometry::Anchor;
using geometry::Rise;
using geometry::Text;

namespace {

const char* after(const char* letter) { return g_utf8_next_char(letter); }

// Well-formed UTF-8 in composed letters, without control characters but line feeds.
std::string tidy(const std::string& words) {
  char* valid = g_utf8_make_valid(words.data(), static_cast<gssize>(words.size()));
  char* composed = g_utf8_normalize(valid, -1, G_NORMALIZE_NFC);
  std::string out;
  for (const char* at = composed; *at != 0; at = after(at)) {
    const gunichar letter = g_utf8_get_char(at);
    if (letter == '\t') {
      out += ' ';
    } else if ((letter >= 0x20 && letter != 0x7f && (letter & 0xfffe) != 0xfffe) ||
               letter == '\n') {
      out.append(at, after(at));
    }
  }
  g_free(composed);
  g_free(valid);
  return out;
}

struct Setter {
  const Fonts::Inside& fonts;
  const Text& text;
  int cut;

  [[nodiscard]] double width_mm(const std::string& words) const {
    if (words.empty()) return 0;
    PangoLayout* layout = set_words(fonts, words, cut, text.size_mm, text.tabular);
    PangoRectangle logical;
    pango_layout_line_get_extents(pango_layout_get_line_readonly(layout, 0), nullptr, &logical);
    g_object_unref(layout);
    return logical.width / (PANGO_SCALE * kPangoPerMm);
  }

  [[nodiscard]] bool has_ext(gunichar letter) const {
    const auto at = static_cast<std::size_t>(cut);
    return FcCharSetHasChar(fonts.letters[at], letter) == FcFalse &&
           FcCharSetHasChar(fonts.ext_letters[at], letter) == FcTrue;
  }

  [[nodiscard]] bool has(gunichar letter) const {
    const auto at = static_cast<std::size_t>(cut);
    return FcCharSetHasChar(fonts.letters[at], letter) == FcTrue ||
           FcCharSetHasChar(fonts.ext_letters[at], letter) == FcTrue;
  }

  [[nodiscard]] TextLine set_line(const std::string& words) const {
    TextLine line;
    line.words = words;
    std::string run;
    const auto put = [&](TextPiece piece) {
      piece.x_mm = line.width_mm;
      line.width_mm += piece.width_mm;
      line.pieces.push_back(std::move(piece));
    };
    const auto end_run = [&] {
      if (!run.empty()) put({run, 0, width_mm(run), std::nullopt, false});
      run.clear();
    };
    for (const char* at = words.c_str(); *at != 0; at = after(at)) {
      const std::string letter(at, after(at));
      const gunichar code = g_utf8_get_char(at);
      if (has(code)) {
        run += letter;
      } else if (g_unichar_iszerowidth(code) != FALSE) {
        // A mark upon a letter that has no such mark here: left out.
      } else {
        end_run();
        const std::optional<Sign> sign = drawn_sign(code, text.face, text.weight);
        const Sign drawn = sign.value_or(foreign_letter(text.face, text.weight));
        put({letter, 0, drawn.advance_em * text.size_mm, drawn, !sign});
      }
    }
    end_run();
    return line;
  }

  // Greedy: as many words as fit.
  void wrap(const std::string& paragraph, std::vector<TextLine>& out) const {
    TextLine line = set_line(paragraph);
    if (text.wrap_mm <= 0 || line.width_mm <= text.wrap_mm) {
      out.push_back(std::move(line));
      return;
    }
    std::string kept;
    for (std::size_t start = 0; start <= paragraph.size();) {
      const std::size_t end = std::min(paragraph.find(' ', start), paragraph.size());
      const std::string word = paragraph.substr(start, end - start);
      const std::string longer = kept.empty() ? word : kept + ' ' + word;
      if (!kept.empty() && set_line(longer).width_mm > text.wrap_mm) {
        out.push_back(set_line(kept));
        kept = word;
      } else {
        kept = longer;
      }
      start = end + 1;
    }
    out.push_back(set_line(kept));
  }
};

// Letters that reach below the line; the serif's figures are old-style.
bool descends(const std::string& words, bool old_style_figures) {
  return words.find_first_of(old_style_figures ? "gjpqyQ,;()/34579" : "gjpqyQ,;()/") !=
         std::string::npos;
}

}  // namespace

PangoLayout* set_words(const Fonts::Inside& fonts, const std::string& words, int cut_index,
                       double size_mm, bool tabular) {
  const Cut& face = cut(cut_index);
  PangoFontDescription* wanted = pango_font_description_new();
  pango_font_description_set_family_static(wanted, face.family);
  pango_font_description_set_weight(wanted, static_cast<PangoWeight>(face.weight));
  pango_font_description_set_style(wanted, face.italic ? PANGO_STYLE_ITALIC : PANGO_STYLE_NORMAL);
  pango_font_description_set_absolute_size(wanted, size_mm * kPangoPerMm * PANGO_SCALE);
  PangoLayout* layout = pango_layout_new(fonts.context);
  pango_layout_set_font_description(layout, wanted);
  pango_font_description_free(wanted);
  pango_layout_set_single_paragraph_mode(layout, TRUE);
  pango_layout_set_auto_dir(layout, FALSE);
  PangoAttrList* attributes = pango_attr_list_new();
  if (tabular) pango_attr_list_insert(attributes, pango_attr_font_features_new("tnum=1"));
  pango_layout_set_attributes(layout, attributes);
  pango_attr_list_unref(attributes);
  pango_layout_set_text(layout, words.data(), static_cast<int>(words.size()));
  return layout;
}

TextLayout lay_out(const Fonts::Inside& fonts, const Text& text) {
  TextLayout layout;
  layout.cut = cut_index(text.face, text.weight);
  const Setter setter{fonts, text, layout.cut};
  const std::string words = tidy(text.words);
  for (std::size_t start = 0; start <= words.size();) {
    const std::size_t end = std::min(words.find('\n', start), words.size());
    setter.wrap(words.substr(start, end - start), layout.lines);
    start = end + 1;
  }
  const double cap = geometry::cap_height(text.face) * text.size_mm;
  double baseline = text.rise == Rise::kTop ? cap : text.rise == Rise::kMiddle ? cap / 2 : 0;
  layout.top_mm = baseline - cap;
  for (TextLine& line : layout.lines) {
    line.baseline_mm = baseline;
    line.x_mm = text.anchor == Anchor::kStart    ? 0
                : text.anchor == Anchor::kMiddle ? -line.width_mm / 2
                                                 : -line.width_mm;
    for (TextPiece& piece : line.pieces) piece.x_mm += line.x_mm;
    layout.left_mm = std::min(layout.left_mm, line.x_mm);
    layout.width_mm = std::max(layout.width_mm, line.width_mm);
    baseline += text.size_mm * text.leading;
  }
  const TextLine& last = layout.lines.back();
  const bool tail = descends(last.words, text.face != geometry::Face::kSans);
  layout.height_mm = last.baseline_mm - layout.top_mm + (tail ? 0.2 * text.size_mm : 0);
  for (const char* at = words.c_str(); *at != 0; at = after(at))
    layout.uses_ext = layout.uses_ext || setter.has_ext(g_utf8_get_char(at));
  return layout;
}

}  // namespace spadework::sheets
