#include "light/print_drawing.h"

#include <fmt/format.h>

#include "ground/ground.h"
#include "light/print_parts.h"

namespace spadework::light {
namespace {

using geometry::Drawing;
using geometry::Face;
using geometry::Paint;
using geometry::Role;
using geometry::Text;
using geometry::Vec2;

constexpr double kWidth = 297, kHeight = 210, kMargin = 14;
constexpr PaperBox kPlot{26, 34, 216, 176};
constexpr double kPanelLeft = 227, kPanelRight = kWidth - kMargin;

class Sheet {
 public:
  explicit Sheet(const PrintSheet& sheet) : sheet_(sheet), parts_(parts_of(sheet)) {}

  Drawing draw() {
    drawing_.width_mm = kWidth;
    drawing_.height_mm = kHeight;
    drawing_.title = fmt::format("Sun print of {}", sheet_.print.place);
    drawing_.description = fmt::format("{}, {}: when in the year and the day the sun reaches it.",
                                       sheet_.garden.site.title, sheet_.says);
    header();
    draw_print_plot(parts_, kPlot, drawing_.root);
    PaperBox panel{kPanelLeft, kPlot.top, kPanelRight, kHeight - 10};
    panel.top = draw_print_key(parts_, panel, drawing_.root.add_group("key", "key"));
    draw_print_map(parts_, panel, drawing_.root);
    caption();
    return std::move(drawing_);
  }

 private:
  void header() {
    drawing_.root.add({print_words({kMargin, 16}, fmt::format("The sun on {}", sheet_.print.place),
                                   Face::kSerif, geometry::kTitleTypeMm * 1.25)});
    drawing_.root.add(
        {print_words({kMargin, 22},
                     fmt::format("{}, {}. Days across, hours by the clock up, on clear days.",
                                 sheet_.garden.site.title, sheet_.says),
                     Face::kSerif, geometry::kTextTypeMm)});
  }

  void caption() {
    Text text = print_words(
        {kMargin, kHeight - 17},
        "Yellow: the sun is on it, clear of every thing and strong enough to cast a sharp shadow "
        "(over 120 W/m²). Ink: what takes it, the first thing on the way to the sun; beside its "
        "name the hours that it would give back if it alone were gone. Stripes: two take it at "
        "once, so that neither alone would give it back. A clear sky all year; beneath, hours of a "
        "mean day of the month.",
        Face::kSerif, geometry::kLabelTypeMm);
    text.ink = Paint(Role::kGraphite);
    text.wrap_mm = kPlot.right - kMargin;
    drawing_.root.add({text});
  }

  const PrintSheet& sheet_;
  PrintParts parts_;
  Drawing drawing_;
};

}  // namespace

std::string PrintParts::id_of(int taker) const {
  return taker == kSkylineTaker ? kSkylineId : print.takers[static_cast<std::size_t>(taker)].id;
}

std::string PrintParts::name_of(const std::string& id) const {
  if (id == kSkylineId) return "the skyline";
  if (id == ground::kGroundId) return "the ground";
  if (id != print.place) return id;
  for (const auto& seat : sheet.garden.seats) {
    if (seat.id == id) return "its own roof and sides";
  }
  return "its own boards";
}

Text print_words(Vec2 at, std::string text, Face face, double size_mm, geometry::Anchor anchor) {
  Text out;
  out.at = at;
  out.words = std::move(text);
  out.face = face;
  out.size_mm = size_mm;
  out.anchor = anchor;
  return out;
}

geometry::Stroke fine_line(Role role, double opacity) {
  geometry::Stroke stroke;
  stroke.weight_mm = geometry::kFineMm;
  stroke.ink = Paint(role, opacity);
  return stroke;
}

Drawing print_drawing(const PrintSheet& sheet) { return Sheet(sheet).draw(); }

}  // namespace spadework::light
