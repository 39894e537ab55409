// The type of the sheets: the bundled faces, used without touching the user's fonts, and how wide
// words are in them.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "geometry/drawing.h"

namespace spadework::sheets {

/// The bytes of one face: WOFF2 for SVG, TrueType for PNG; `ext` holds the letters beyond Latin-1.
struct FaceBytes {
  std::string_view woff2, ttf, ext_woff2, ext_ttf;
};
struct FontBytes {
  FaceBytes serif, serif_semi_bold, serif_italic, sans, sans_semi_bold;
};
/// Fills the struct from a store that gives a file of data/fonts by its name, such as
/// "vollkorn-latin-400-normal.ttf".
[[nodiscard]] FontBytes font_bytes(const std::function<std::string_view(std::string_view)>& file);

struct TextLayout;

/// The faces, ready for use. One thread at a time. The bytes given must live as long as this does.
class Fonts {
 public:
  /// Errors: kCannotRead when a face's bytes are missing or are no font.
  static Result<Fonts> open(const FontBytes& bytes);
  Fonts(Fonts&&) noexcept;
  Fonts& operator=(Fonts&&) noexcept;
  ~Fonts();

  /// How wide the longest line of the text is, millimetres; neither chip nor turn counts.
  [[nodiscard]] double text_width_mm(const geometry::Text& text) const;
  /// The text's lines as they will be printed, broken at line feeds and at `wrap_mm`.
  [[nodiscard]] std::vector<std::string> text_lines(const geometry::Text& text) const;

  struct Inside;  // for the back ends
  [[nodiscard]] const Inside& inside() const { return *inside_; }

 private:
  Fonts();
  std::unique_ptr<Inside> inside_;
};

}  // namespace spadework::sheets
