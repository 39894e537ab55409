#include "sheets/canvas.h"

#include <algorithm>
#include <cmath>

namespace spadework::sheets {

using namespace geometry;  // NOLINT: the display list, all of it

namespace {

class Painter {
 public:
  Painter(cairo_t* canvas, const Fonts::Inside& fonts) : canvas_(canvas), fonts_(fonts) {}

  void paint(const Group& group) {
    cairo_save(canvas_);
    if (group.clip) {
      cairo_new_path(canvas_);
      trace(*group.clip);
      cairo_set_fill_rule(canvas_, CAIRO_FILL_RULE_EVEN_ODD);
      cairo_clip(canvas_);
    }
    if (group.opacity < 1) cairo_push_group(canvas_);
    for (const Element& element : group.elements)
      std::visit([this](const auto& what) { paint(what); }, element.what);
    if (group.opacity < 1) {
      cairo_pop_group_to_source(canvas_);
      cairo_paint_with_alpha(canvas_, std::max(group.opacity, 0.0));
    }
    cairo_restore(canvas_);
  }

 private:
  void dip(const Paint& paint) {
    const Colour c = colour_of(paint);
    cairo_set_source_rgba(canvas_, c.r / 255.0, c.g / 255.0, c.b / 255.0, paint.opacity);
  }

  void trace(const Path& path) {
    for (const PathStep& s : path.steps()) {
      switch (s.kind) {
        case PathStep::Kind::kMove:
          cairo_move_to(canvas_, s.to.x, s.to.y);
          break;
        case PathStep::Kind::kLine:
          cairo_line_to(canvas_, s.to.x, s.to.y);
          break;
        case PathStep::Kind::kCurve:
          cairo_curve_to(canvas_, s.handle_from.x, s.handle_from.y, s.handle_to.x, s.handle_to.y,
                         s.to.x, s.to.y);
          break;
        case PathStep::Kind::kClose:
          cairo_close_path(canvas_);
          break;
      }
    }
  }

  void paint(const Shape& shape) {
    for (const Fill& fill : shape.fills) {
      if (const Paint* flat = std::get_if<Paint>(&fill)) {
        cairo_new_path(canvas_);
        trace(shape.path);
        dip(*flat);
        cairo_set_fill_rule(canvas_, CAIRO_FILL_RULE_EVEN_ODD);
        cairo_fill(canvas_);
      } else {
        paint_marks(fill_marks(shape.path, fill));
      }
    }
    if (shape.stroke) draw(shape.path, *shape.stroke);
  }

  void paint_marks(const FillMarks& marks) {
    cairo_new_path(canvas_);
    for (const auto& [a, b] : marks.lines) {
      cairo_move_to(canvas_, a.x, a.y);
      cairo_line_to(canvas_, b.x, b.y);
    }
    dip(marks.ink);
    plain_pen(marks.size_mm, CAIRO_LINE_CAP_BUTT);
    cairo_stroke(canvas_);
    paint(Dots{marks.dots, marks.size_mm, marks.ink});
  }

  void plain_pen(double weight_mm, cairo_line_cap_t cap) {
    cairo_set_line_width(canvas_, weight_mm);
    cairo_set_line_cap(canvas_, cap);
    cairo_set_line_join(canvas_, CAIRO_LINE_JOIN_MITER);
    cairo_set_dash(canvas_, nullptr, 0, 0);
  }

  void draw(const Path& path, const Stroke& stroke) {
    cairo_new_path(canvas_);
    trace(path);
    const bool round = stroke.end == LineEnd::kRound || has_round_dots(stroke.dash);
    plain_pen(stroke.weight_mm, round                            ? CAIRO_LINE_CAP_ROUND
                                : stroke.end == LineEnd::kSquare ? CAIRO_LINE_CAP_SQUARE
                                                                 : CAIRO_LINE_CAP_BUTT);
    if (stroke.corner == LineCorner::kRound) cairo_set_line_join(canvas_, CAIRO_LINE_JOIN_ROUND);
    cairo_set_miter_limit(canvas_, 4);
    if (stroke.casing_mm > 0) {
      dip(Role::kPaper);
      cairo_set_line_width(canvas_, stroke.weight_mm + 2 * stroke.casing_mm);
      cairo_stroke_preserve(canvas_);
      cairo_set_line_width(canvas_, stroke.weight_mm);
    }
    const std::vector<double> dashes = dash_pattern_mm(stroke.dash);
    cairo_set_dash(canvas_, dashes.data(), static_cast<int>(dashes.size()), 0);
    dip(stroke.ink);
    cairo_stroke(canvas_);
  }

  void paint(const Dots& dots) {
    if (dots.at.empty()) return;
    cairo_new_path(canvas_);
    for (const Vec2 p : dots.at) {
      cairo_move_to(canvas_, p.x, p.y);
      cairo_line_to(canvas_, p.x, p.y);
    }
    dip(dots.ink);
    plain_pen(dots.dot_mm, CAIRO_LINE_CAP_ROUND);
    cairo_stroke(canvas_);
  }

  void paint(const CellImage& image) {
    const Raster raster = raster_of(image);
    if (raster.argb.empty()) return;
    const Affine& a = image.placement;
    const Vec2 along = a.along * (static_cast<double>(image.columns) / raster.width);
    const Vec2 down = a.down * (static_cast<double>(image.rows) / raster.height);
    cairo_surface_t* surface = surface_of(raster);
    cairo_save(canvas_);
    const cairo_matrix_t placed{along.x, along.y, down.x, down.y, a.origin.x, a.origin.y};
    cairo_transform(canvas_, &placed);
    cairo_set_source_surface(canvas_, surface, 0, 0);
    cairo_pattern_set_filter(cairo_get_source(canvas_), image.look == CellImage::Look::kCrisp
                                                            ? CAIRO_FILTER_NEAREST
                                                            : CAIRO_FILTER_BILINEAR);
    cairo_pattern_set_extend(cairo_get_source(canvas_), CAIRO_EXTEND_PAD);
    cairo_rectangle(canvas_, 0, 0, raster.width, raster.height);
    cairo_fill(canvas_);
    cairo_restore(canvas_);
    cairo_surface_destroy(surface);
  }

  void paint(const Text& text) {
    const TextLayout layout = lay_out(fonts_, text);
    cairo_save(canvas_);
    cairo_translate(canvas_, text.at.x, text.at.y);
    cairo_rotate(canvas_, -text.turn_rad);
    if (text.chip) paint_chip(*text.chip, layout);
    for (const TextLine& line : layout.lines)
      for (const TextPiece& piece : line.pieces) paint_piece(text, layout, line, piece);
    if (text.dotted_underline)
      for (const TextLine& line : layout.lines) {
        const double y = line.baseline_mm + 0.24 * text.size_mm;
        draw(Path::segment({line.x_mm, y}, {line.x_mm + line.width_mm, y}),
             Stroke{kFineMm * 1.2, text.ink, Dash::kDotted});
      }
    cairo_restore(canvas_);
  }

  void paint_chip(const Chip& chip, const TextLayout& layout) {
    const Path box = Path::box({layout.left_mm - chip.pad_x_mm, layout.top_mm - chip.pad_y_mm},
                               layout.width_mm + 2 * chip.pad_x_mm,
                               layout.height_mm + 2 * chip.pad_y_mm, chip.round_mm);
    paint(Shape{box, {chip.paper}, std::nullopt});
  }

  void paint_piece(const Text& text, const TextLayout& layout, const TextLine& line,
                   const TextPiece& piece) {
    cairo_save(canvas_);
    cairo_translate(canvas_, piece.x_mm, line.baseline_mm);
    cairo_new_path(canvas_);
    if (piece.sign) {
      cairo_scale(canvas_, text.size_mm, text.size_mm);
      trace(piece.sign->strokes);
      plain_pen(piece.sign->weight_em, CAIRO_LINE_CAP_BUTT);
      if (text.halo_mm > 0) {
        dip(Role::kPaper);
        cairo_set_line_width(canvas_, piece.sign->weight_em + 2 * text.halo_mm / text.size_mm);
        cairo_stroke_preserve(canvas_);
        cairo_set_line_width(canvas_, piece.sign->weight_em);
      }
      dip(text.ink);
      cairo_stroke(canvas_);
    } else {
      paint_words(text, layout.cut, piece.words);
    }
    cairo_restore(canvas_);
  }

  void paint_words(const Text& text, int cut, const std::string& words) {
    cairo_scale(canvas_, 1 / kPangoPerMm, 1 / kPangoPerMm);
    PangoLayout* layout = set_words(fonts_, words, cut, text.size_mm, text.tabular);
    pango_cairo_update_layout(canvas_, layout);
    PangoLayoutLine* line = pango_layout_get_line_readonly(layout, 0);
    if (text.halo_mm > 0) {
      cairo_move_to(canvas_, 0, 0);
      pango_cairo_layout_line_path(canvas_, line);
      plain_pen(2 * text.halo_mm * kPangoPerMm, CAIRO_LINE_CAP_ROUND);
      cairo_set_line_join(canvas_, CAIRO_LINE_JOIN_ROUND);
      dip(Role::kPaper);
      cairo_stroke(canvas_);
    }
    dip(text.ink);
    cairo_move_to(canvas_, 0, 0);
    pango_cairo_show_layout_line(canvas_, line);
    g_object_unref(layout);
  }

  cairo_t* canvas_;
  const Fonts::Inside& fonts_;
};

cairo_status_t append_bytes(void* to, const unsigned char* data, unsigned int size) {
  auto* out = static_cast<std::vector<std::uint8_t>*>(to);
  out->insert(out->end(), data, data + size);
  return CAIRO_STATUS_SUCCESS;
}

}  // namespace

FillMarks fill_marks(const Path& path, const Fill& fill) {
  if (const LineHatch* hatch = std::get_if<LineHatch>(&fill))
    return {hatch_lines(path, *hatch), {}, hatch->weight_mm, hatch->ink};
  if (const Stipple* stipple = std::get_if<Stipple>(&fill))
    return {{}, stipple_dots(path, *stipple), stipple->dot_mm, stipple->ink};
  return {};
}

void paint_drawing(cairo_t* canvas, const Drawing& drawing, const Fonts::Inside& fonts) {
  const Colour paper = colour_of(drawing.paper);
  cairo_set_source_rgb(canvas, paper.r / 255.0, paper.g / 255.0, paper.b / 255.0);
  cairo_paint(canvas);
  Painter(canvas, fonts).paint(drawing.root);
}

cairo_surface_t* surface_of(const Raster& raster) {
  const bool opaque = std::all_of(raster.argb.begin(), raster.argb.end(),
                                  [](std::uint32_t pixel) { return pixel >> 24 == 0xff; });
  cairo_surface_t* surface = cairo_image_surface_create(
      opaque ? CAIRO_FORMAT_RGB24 : CAIRO_FORMAT_ARGB32, raster.width, raster.height);
  cairo_surface_flush(surface);
  unsigned char* rows = cairo_image_surface_get_data(surface);
  const int stride = cairo_image_surface_get_stride(surface);
  for (int y = 0; rows != nullptr && y < raster.height; ++y)
    std::copy_n(&raster.argb[static_cast<std::size_t>(y) * static_cast<std::size_t>(raster.width)],
                raster.width,
                reinterpret_cast<std::uint32_t*>(rows + static_cast<std::ptrdiff_t>(y) * stride));
  cairo_surface_mark_dirty(surface);
  return surface;
}

Result<std::vector<std::uint8_t>> png_bytes(cairo_surface_t* surface) {
  std::vector<std::uint8_t> bytes;
  const cairo_status_t status = cairo_surface_write_to_png_stream(surface, append_bytes, &bytes);
  if (status != CAIRO_STATUS_SUCCESS)
    return fail(ErrorCode::kNoAnswer, "",
                std::string("the picture could not be made: ") + cairo_status_to_string(status));
  return bytes;
}

Result<void> check_drawing(const Drawing& drawing) {
  const auto usable = [](double mm) { return mm > 0 && mm < 10000; };
  if (!usable(drawing.width_mm) || !usable(drawing.height_mm))
    return fail(ErrorCode::kImpossibleValue, "",
                "a sheet must be wider and higher than 0 and smaller than 10 m");
  if (!is_sound(drawing))
    return fail(ErrorCode::kImpossibleValue, "",
                "the drawing \"" + drawing.title + "\" holds a figure that is not a number");
  return {};
}

}  // namespace spadework::sheets
