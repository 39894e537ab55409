#include "sheets/svg.h"

#include <array>
#include <numbers>
#include <set>
#include <string_view>

#include "sheets/canvas.h"
#include "sheets/xml.h"

namespace spadework::sheets {

using namespace geometry;  // NOLINT: the display list, all of it

namespace {

// The letters of the two files of a face, as their makers divide them.
constexpr std::string_view kLatinRange =
    "U+0000-00FF,U+0131,U+0152-0153,U+02BB-02BC,U+02C6,U+02DA,U+02DC,U+2000-206F,U+20AC,U+2122,"
    "U+2191,U+2193,U+2212,U+2215,U+FEFF,U+FFFD";
constexpr std::string_view kExtRange =
    "U+0100-02BA,U+02BD-02C5,U+02C7-02CC,U+02CE-02D7,U+02DD-02FF,U+0300-0329,U+1D00-1DBF,"
    "U+1E00-1E9F,U+1EF2-1EFF,U+2020,U+20A0-20AB,U+20AD-20C0,U+2113,U+2C60-2C7F,U+A720-A7FF";

std::string hex(Colour c) {
  constexpr std::string_view kDigits = "0123456789abcdef";
  std::string out = "#";
  for (const std::uint8_t v : {c.r, c.g, c.b}) {
    out += kDigits[v >> 4];
    out += kDigits[v & 15U];
  }
  return out;
}

std::string attribute(std::string_view name, std::string_view value) {
  return ' ' + std::string(name) + "=\"" + std::string(value) + '"';
}

// ` fill="#221e19" fill-opacity="0.5"`
std::string inked(std::string_view what, const Paint& paint) {
  std::string out = attribute(what, hex(colour_of(paint)));
  if (paint.opacity < 1) out += attribute(std::string(what) + "-opacity", decimal(paint.opacity));
  return out;
}

std::string point(Vec2 p) { return decimal(p.x) + ' ' + decimal(p.y); }

std::string path_data(const Path& path) {
  std::string d;
  for (const PathStep& s : path.steps()) {
    switch (s.kind) {
      case PathStep::Kind::kMove:
        d += 'M' + point(s.to);
        break;
      case PathStep::Kind::kLine:
        d += 'L' + point(s.to);
        break;
      case PathStep::Kind::kCurve:
        d += 'C' + point(s.handle_from) + ' ' + point(s.handle_to) + ' ' + point(s.to);
        break;
      case PathStep::Kind::kClose:
        d += 'Z';
        break;
    }
  }
  return d;
}

std::string pen(const Stroke& stroke) {
  std::string out =
      inked("stroke", stroke.ink) + attribute("stroke-width", decimal(stroke.weight_mm));
  if (stroke.end == LineEnd::kRound || has_round_dots(stroke.dash))
    out += attribute("stroke-linecap", "round");
  else if (stroke.end == LineEnd::kSquare)
    out += attribute("stroke-linecap", "square");
  if (stroke.corner == LineCorner::kRound) out += attribute("stroke-linejoin", "round");
  std::string dashes;
  for (const double mm : dash_pattern_mm(stroke.dash))
    dashes += (dashes.empty() ? "" : " ") + decimal(mm);
  return dashes.empty() ? out : out + attribute("stroke-dasharray", dashes);
}

class Writer {
 public:
  Writer(const Fonts::Inside& fonts, const SvgOptions& options)
      : fonts_(fonts), options_(options) {}

  void write(const Group& group) {
    std::string attributes;
    if (!group.id.empty()) attributes += attribute("id", unique_id(group.id));
    if (group.clip) {
      const std::string id = unique_id("clip");
      out_ += "<clipPath" + attribute("id", id) + "><path" +
              attribute("d", path_data(*group.clip)) + " clip-rule=\"evenodd\"/></clipPath>\n";
      attributes += attribute("clip-path", "url(#" + id + ")");
    }
    if (group.opacity < 1) attributes += attribute("opacity", decimal(group.opacity));
    if (!group.title.empty()) attributes += " role=\"graphics-object\"";
    const bool bare = attributes.empty();
    if (!bare) out_ += "<g" + attributes + ">\n";
    if (!group.title.empty()) out_ += "<title>" + escaped(group.title) + "</title>\n";
    for (const Element& element : group.elements)
      std::visit([this](const auto& what) { write(what); }, element.what);
    if (!bare) out_ += "</g>\n";
  }

  std::string unique_id(const std::string& wanted) {
    std::string id = options_.id_prefix;
    for (const char c : wanted) id += g_ascii_isalnum(c) || c == '-' || c == '_' ? c : '-';
    std::string name = id;
    for (int n = 2; !ids_.insert(name).second; ++n) name = id + '-' + std::to_string(n);
    return name;
  }

  [[nodiscard]] std::string style() const {
    std::string css;
    for (int i = 0; i < kCuts; ++i) {
      const FaceBytes& face = face_bytes(fonts_.bytes, i);
      if (used_[static_cast<std::size_t>(i)]) css += font_face(i, face.woff2, kLatinRange);
      if (used_ext_[static_cast<std::size_t>(i)]) css += font_face(i, face.ext_woff2, kExtRange);
    }
    return css.empty() ? css : "<style>\n" + css + "</style>\n";
  }

  [[nodiscard]] const std::string& text() const { return out_; }

 private:
  static std::string font_face(int index, std::string_view woff2, std::string_view range) {
    const Cut& face = cut(index);
    return "@font-face{font-family:\"" + std::string(face.family) +
           "\";font-weight:" + std::to_string(face.weight) +
           ";font-style:" + (face.italic ? "italic" : "normal") +
           ";src:url(data:font/woff2;base64," + base64(woff2) +
           ") format(\"woff2\");unicode-range:" + std::string(range) + "}\n";
  }

  void write_path(const std::string& d, const std::string& attributes) {
    if (!d.empty()) out_ += "<path" + attribute("d", d) + attributes + "/>\n";
  }

  void write(const Shape& shape) {
    const std::string d = path_data(shape.path);
    const bool cased = shape.stroke && shape.stroke->casing_mm > 0;
    std::string waiting;  // a flat fill that can share its path with the stroke
    for (const Fill& fill : shape.fills) {
      if (!waiting.empty()) write_path(d, waiting);
      waiting.clear();
      if (const Paint* flat = std::get_if<Paint>(&fill))
        waiting = inked("fill", *flat) + attribute("fill-rule", "evenodd");
      else
        write_marks(fill_marks(shape.path, fill));
    }
    if (shape.stroke && !cased) {
      write_path(d, (waiting.empty() ? " fill=\"none\"" : waiting) + pen(*shape.stroke));
      return;
    }
    if (!waiting.empty()) write_path(d, waiting);
    if (!cased) return;
    Stroke casing = *shape.stroke;
    casing.weight_mm += 2 * casing.casing_mm;
    casing.ink = Role::kPaper;
    casing.dash = Dash::kSolid;
    write_path(d, " fill=\"none\"" + pen(casing));
    write_path(d, " fill=\"none\"" + pen(*shape.stroke));
  }

  void write_marks(const FillMarks& marks) {
    std::string d;
    for (const auto& [a, b] : marks.lines) d += 'M' + point(a) + 'L' + point(b);
    write_path(d, " fill=\"none\"" + inked("stroke", marks.ink) +
                      attribute("stroke-width", decimal(marks.size_mm)));
    write(Dots{marks.dots, marks.size_mm, marks.ink});
  }

  // A line of no length with round ends is a dot.
  void write(const Dots& dots) {
    std::string d;
    for (const Vec2 p : dots.at) d += 'M' + decimal(p.x, 2) + ' ' + decimal(p.y, 2) + "h0";
    write_path(d, " fill=\"none\" stroke-linecap=\"round\"" + inked("stroke", dots.ink) +
                      attribute("stroke-width", decimal(dots.dot_mm)));
  }

  void write(const CellImage& image) {
    const Raster raster = raster_of(image);
    if (raster.argb.empty()) return;
    cairo_surface_t* surface = surface_of(raster);
    const Result<std::vector<std::uint8_t>> png = png_bytes(surface);
    cairo_surface_destroy(surface);
    if (!png) return;
    const Affine& a = image.placement;
    const Vec2 along = a.along * image.columns, down = a.down * image.rows;
    const std::string_view bytes(reinterpret_cast<const char*>(png->data()), png->size());
    // One unit square, placed: so three decimals are enough.
    out_ += "<image width=\"1\" height=\"1\"" +
            attribute("transform",
                      "matrix(" + point(along) + ' ' + point(down) + ' ' + point(a.origin) + ')') +
            " preserveAspectRatio=\"none\"" +
            (image.look == CellImage::Look::kCrisp ? " image-rendering=\"pixelated\"" : "") +
            attribute("href", "data:image/png;base64," + base64(bytes)) + "/>\n";
  }

  void write(const Text& text) {
    const TextLayout layout = lay_out(fonts_, text);
    used_[static_cast<std::size_t>(layout.cut)] = true;
    if (layout.uses_ext) used_ext_[static_cast<std::size_t>(layout.cut)] = true;
    const bool turned = text.turn_rad != 0;
    const Vec2 at = turned ? Vec2{} : text.at;
    if (turned)
      out_ += "<g transform=\"translate(" + point(text.at) + ") rotate(" +
              decimal(-text.turn_rad * 180 / std::numbers::pi) + ")\">\n";
    if (text.chip) {
      const Chip& chip = *text.chip;
      const Vec2 corner = at + Vec2{layout.left_mm - chip.pad_x_mm, layout.top_mm - chip.pad_y_mm};
      out_ += "<rect" + attribute("x", decimal(corner.x)) + attribute("y", decimal(corner.y)) +
              attribute("width", decimal(layout.width_mm + 2 * chip.pad_x_mm)) +
              attribute("height", decimal(layout.height_mm + 2 * chip.pad_y_mm)) +
              attribute("rx", decimal(chip.round_mm)) + inked("fill", chip.paper) + "/>\n";
    }
    for (const TextLine& line : layout.lines) write_line(text, layout, line, at);
    if (turned) out_ += "</g>\n";
  }

  void write_line(const Text& text, const TextLayout& layout, const TextLine& line, Vec2 at) {
    if (line.pieces.empty()) return;
    const Cut& face = cut(layout.cut);
    const double y = at.y + line.baseline_mm;
    const bool whole = line.pieces.size() == 1 && !line.pieces[0].sign;
    const double x = whole && text.anchor != Anchor::kStart ? at.x : at.x + line.pieces[0].x_mm;
    std::string open =
        "<text" + attribute("x", decimal(x)) + attribute("y", decimal(y)) +
        attribute("font-family", "'" + std::string(face.family) + "'," +
                                     (text.face == Face::kSans ? "sans-serif" : "serif")) +
        attribute("font-size", decimal(text.size_mm));
    if (face.weight != 400) open += attribute("font-weight", std::to_string(face.weight));
    if (face.italic) open += " font-style=\"italic\"";
    if (whole && text.anchor != Anchor::kStart)
      open += attribute("text-anchor", text.anchor == Anchor::kMiddle ? "middle" : "end");
    if (text.tabular)  // a page that hosts drawings allows no styles within them
      open += options_.embed_fonts ? " style=\"font-feature-settings:'tnum'\"" : " class=\"tnum\"";
    open += inked("fill", text.ink);
    if (text.halo_mm > 0)
      open += inked("stroke", Role::kPaper) + attribute("stroke-width", decimal(2 * text.halo_mm)) +
              " stroke-linejoin=\"round\" paint-order=\"stroke\"";
    out_ += open + " xml:space=\"preserve\">";
    for (const TextPiece& piece : line.pieces) write_piece(piece, whole, at);
    out_ += "</text>\n";
    for (const TextPiece& piece : line.pieces)
      if (piece.sign && !piece.foreign) write_sign(text, piece, {at.x + piece.x_mm, y});
    if (text.dotted_underline) {
      const double under = y + 0.24 * text.size_mm;
      write(
          Shape{Path::segment({at.x + line.x_mm, under}, {at.x + line.x_mm + line.width_mm, under}),
                {},
                Stroke{kFineMm * 1.2, text.ink, Dash::kDotted}});
    }
  }

  // A drawn sign stays in the text, unseen, for those who copy or listen. Letters of other scripts
  // are left to the reader's own fonts, within the room of their boxes.
  void write_piece(const TextPiece& piece, bool whole, Vec2 at) {
    if (whole) {
      out_ += escaped(piece.words);
      return;
    }
    out_ += "<tspan" + attribute("x", decimal(at.x + piece.x_mm));
    if (piece.foreign)
      out_ +=
          attribute("textLength", decimal(piece.width_mm)) + " lengthAdjust=\"spacingAndGlyphs\"";
    else if (piece.sign)
      out_ += " fill=\"none\" stroke=\"none\"";
    out_ += '>' + escaped(piece.words) + "</tspan>";
  }

  void write_sign(const Text& text, const TextPiece& piece, Vec2 foot) {
    Path placed;
    for (const PathStep& s : piece.sign->strokes.steps()) {
      const auto put = [&](Vec2 p) { return foot + p * text.size_mm; };
      if (s.kind == PathStep::Kind::kMove) placed.move_to(put(s.to));
      if (s.kind == PathStep::Kind::kLine) placed.line_to(put(s.to));
      if (s.kind == PathStep::Kind::kCurve)
        placed.curve_to(put(s.handle_from), put(s.handle_to), put(s.to));
      if (s.kind == PathStep::Kind::kClose) placed.close();
    }
    Stroke stroke{piece.sign->weight_em * text.size_mm, text.ink};
    stroke.casing_mm = text.halo_mm;
    write(Shape{placed, {}, stroke});
  }

  const Fonts::Inside& fonts_;
  const SvgOptions& options_;
  std::string out_;
  std::set<std::string> ids_;
  std::array<bool, kCuts> used_{}, used_ext_{};
};

}  // namespace

Result<std::string> to_svg(const Drawing& drawing, const Fonts& fonts, const SvgOptions& options) {
  if (const Result<void> checked = check_drawing(drawing); !checked)
    return tl::unexpected(checked.error());
  Writer writer(fonts.inside(), options);
  const std::string title_id = writer.unique_id("title"), about_id = writer.unique_id("about");
  writer.write(drawing.root);
  const std::string width = decimal(drawing.width_mm), height = decimal(drawing.height_mm);
  std::string out =
      "<svg xmlns=\"http://www.w3.org/2000/svg\"" + attribute("width", width + "mm") +
      attribute("height", height + "mm") + attribute("viewBox", "0 0 " + width + ' ' + height) +
      " role=\"graphics-document document\"" + attribute("aria-labelledby", title_id) +
      (drawing.description.empty() ? "" : attribute("aria-describedby", about_id)) +
      " text-rendering=\"geometricPrecision\" stroke-miterlimit=\"4\">\n";
  out += "<title" + attribute("id", title_id) + '>' + escaped(drawing.title) + "</title>\n";
  if (!drawing.description.empty())
    out += "<desc" + attribute("id", about_id) + '>' + escaped(drawing.description) + "</desc>\n";
  if (options.embed_fonts) out += writer.style();
  out += "<rect" + attribute("width", width) + attribute("height", height) +
         inked("fill", drawing.paper) + "/>\n";
  return out + writer.text() + "</svg>\n";
}

Result<std::string> to_svg(const Group& group, const Fonts& fonts, const SvgOptions& options) {
  Drawing alone{1, 1, {}, {}, Role::kPaper, {}};
  alone.root.elements.push_back({group});
  if (const Result<void> checked = check_drawing(alone); !checked)
    return tl::unexpected(checked.error());
  Writer writer(fonts.inside(), options);
  writer.write(group);
  return writer.text();
}

}  // namespace spadework::sheets
