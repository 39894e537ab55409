// Where every piece of a text stands: what both back ends print. Inside the room only.
#pragma once

#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "sheets/fonts.h"
#include "sheets/signs.h"

namespace spadework::sheets {

/// The bundled cuts, in the order of FontBytes.
inline constexpr int kCuts = 5;
struct Cut {
  const char* family;
  int weight;
  bool italic;
};
[[nodiscard]] const Cut& cut(int index);
/// The italic has one weight.
[[nodiscard]] int cut_index(geometry::Face face, geometry::Weight weight);

/// Words that a face has, or signs that are drawn: one that is known, or a box for every letter of
/// a script that the bundled faces do not have.
struct TextPiece {
  std::string words;
  double x_mm = 0, width_mm = 0;  // x from the text's place, unturned
  std::optional<Sign> sign;
  bool foreign = false;
};

struct TextLine {
  std::vector<TextPiece> pieces;
  std::string words;
  double x_mm = 0, baseline_mm = 0, width_mm = 0;
};

struct TextLayout {
  std::vector<TextLine> lines;
  int cut = 0;
  bool uses_ext = false;  // letters beyond Latin-1
  // The box of the words, from the text's place, unturned; y down.
  double left_mm = 0, top_mm = 0, width_mm = 0, height_mm = 0;
};

struct Fonts::Inside {
  FontBytes bytes;
  FcConfig* config = nullptr;
  PangoFontMap* map = nullptr;
  PangoContext* context = nullptr;
  std::array<FcCharSet*, kCuts> letters{}, ext_letters{};  // owned by `config`

  Inside() = default;
  Inside(const Inside&) = delete;
  Inside& operator=(const Inside&) = delete;
  ~Inside();
};

/// Pango works in these units to the millimetre, so that its whole numbers are fine enough.
inline constexpr double kPangoPerMm = 100;

/// The words set in one line by Pango, at `kPangoPerMm`; free it with g_object_unref.
[[nodiscard]] PangoLayout* set_words(const Fonts::Inside& fonts, const std::string& words,
                                     int cut_index, double size_mm, bool tabular);
[[nodiscard]] TextLayout lay_out(const Fonts::Inside& fonts, const geometry::Text& text);
[[nodiscard]] const FaceBytes& face_bytes(const FontBytes& bytes, int cut_index);

}  // namespace spadework::sheets
