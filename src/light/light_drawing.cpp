#include "light/light_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "base/text.h"
#include "garden/plan_drawing.h"
#include "geometry/symbols.h"

namespace spadework::light {
namespace {

using geometry::Box2;
using geometry::Drawing;
using geometry::Group;
using geometry::Path;
using geometry::Text;
using geometry::Vec2;

constexpr double kShort = 210, kLong = 297;  // A4, millimetres
constexpr double kMargin = 14, kHeader = 25, kFooter = 31;
constexpr double kAround_m = 0.6;  // of the plan shown beyond what is drawn

Text words(Vec2 at, std::string text, geometry::Face face, double size_mm) {
  Text out;
  out.at = at;
  out.words = std::move(text);
  out.face = face;
  out.size_mm = size_mm;
  return out;
}

/// What is said and drawn of a share in the sun at a moment; over `from`.
struct MomentStep {
  double from;
  geometry::Colour colour;
  const char* says;
};
constexpr std::array<MomentStep, 3> kMomentSteps{
    {{0.75, geometry::colour_from_hex(0xfff6ae), "sun"},
     {0.25, geometry::colour_from_hex(0xd3caaa), "in part"},
     {0, geometry::colour_from_hex(0xa79da7), "shade"}}};

/// Hours won and lost, over `from`: losses in the shade's ink, gains in the sun's, between them the
/// paper.
struct GainStep {
  double from;
  std::optional<geometry::Colour> colour;
  const char* says;  // at its lower edge
};
constexpr std::array<GainStep, 7> kGainSteps{{{-99, geometry::colour_from_hex(0x63698f), ""},
                                              {-2, geometry::colour_from_hex(0x8f92b4), "−2"},
                                              {-1, geometry::colour_from_hex(0xc3c3d2), "−1"},
                                              {-0.25, std::nullopt, "−¼"},
                                              {0.25, geometry::colour_from_hex(0xfff1a1), "+¼"},
                                              {1, geometry::colour_from_hex(0xf2d256), "+1"},
                                              {2, geometry::colour_from_hex(0xd9a521), "+2"}}};

const GainStep& gain_step(double hours) {
  const auto over = std::find_if(kGainSteps.rbegin(), kGainSteps.rend(),
                                 [&](const GainStep& step) { return hours >= step.from; });
  return over == kGainSteps.rend() ? kGainSteps.front() : *over;
}

/// The steps side by side, each with its lower edge's figure.
void append_gain_key(Group& into, Vec2 corner, double width_mm) {
  Group& group = into.add_group("", "Key: hours of sun a day won and lost");
  const double step_mm = width_mm / kGainSteps.size(), high_mm = 3.6;
  Vec2 at = corner;
  for (const GainStep& step : kGainSteps) {
    geometry::Shape box{Path::box(at, step_mm, high_mm),
                        {},
                        geometry::Stroke{geometry::kFineMm, geometry::Role::kInk}};
    if (step.colour) box.fills = {{geometry::Paint(*step.colour)}};
    group.add({std::move(box)});
    Text edge = words({at.x, at.y + high_mm + 3.3}, step.says, geometry::Face::kSans, 2.3);
    edge.anchor = geometry::Anchor::kMiddle;
    group.add({std::move(edge)});
    at.x += step_mm;
  }
  group.add({words({corner.x, corner.y - 1.6}, "hours of sun a day won and lost, clear sky",
                   geometry::Face::kSerifItalic, 2.9)});
}

const MomentStep& moment_step(double share) {
  for (const MomentStep& step : kMomentSteps)
    if (share >= step.from) return step;
  return kMomentSteps.back();
}

/// The three steps side by side, each with its word beneath.
void append_moment_key(Group& into, Vec2 corner, double width_mm) {
  Group& group = into.add_group("", "Key of light: sun, in part, shade");
  const double step_mm = width_mm / kMomentSteps.size(), high_mm = 3.6;
  Vec2 at = corner;
  for (const MomentStep& step : kMomentSteps) {
    group.add({geometry::Shape{Path::box(at, step_mm, high_mm),
                               {{geometry::Paint(step.colour)}},
                               geometry::Stroke{geometry::kFineMm, geometry::Role::kInk}}});
    Text word = words({at.x + step_mm / 2, at.y + high_mm + 3.3}, step.says, geometry::Face::kSans,
                      geometry::kLabelTypeMm);
    word.anchor = geometry::Anchor::kMiddle;
    group.add({std::move(word)});
    at.x += step_mm;
  }
  group.add({words({corner.x, corner.y - 1.6}, "sun and shade, clear sky",
                   geometry::Face::kSerifItalic, 2.9)});
}

class Sheet {
 public:
  explicit Sheet(const LightSheet& sheet) : sheet_(sheet), frame_(sheet_frame(sheet.garden)) {}

  Drawing draw() {
    lay_out();
    header();
    const garden::PlanView view{sheet_.garden,    sheet_.found, sheet_.surface,
                                sheet_.catalogue, map_,         sheet_.day_of_year};
    Group& plan = drawing_.root.add_group("plan", "the plan");
    plan.clip = Path::box({kMargin, kHeader}, space_.x, space_.y);
    field(plan);
    garden::draw_ground_cover(view, plan.add_group("ground", "paths and areas"));
    garden::draw_levels(view, plan.add_group("levels", "contours"));
    if (sheet_.garden.boundary.size() >= 3)
      append_boundary(plan, garden::boundary_mark(sheet_.garden),
                      map_.paper(sheet_.garden.boundary));
    garden::draw_things(view, plan.add_group("things", "what stands in the garden"));
    garden::LabelRoom room;
    figures(plan.add_group("hours", sheet_.one_moment ? "sun and shade" : "hours of sun"), room);
    garden::draw_names(view, room, plan.add_group("names", "names"));
    footer();
    return std::move(drawing_);
  }

 private:
  void lay_out() {
    const bool lying = frame_.width() > frame_.height();
    drawing_.width_mm = lying ? kLong : kShort;
    drawing_.height_mm = lying ? kShort : kLong;
    drawing_.title = sheet_.garden.site.title;
    drawing_.description = sheet_.says;
    space_ = {drawing_.width_mm - 2 * kMargin, drawing_.height_mm - kHeader - kFooter};
    scale_ = scale_to_fit({frame_.width(), frame_.height()}, space_);
    map_.mm_per_m = 1000 / scale_;
    const Vec2 size{map_.paper(frame_.width()), map_.paper(frame_.height())};
    const Vec2 corner{kMargin + (space_.x - size.x) / 2, kHeader + (space_.y - size.y) / 2};
    map_.origin = {corner.x - map_.paper(frame_.low.x),
                   corner.y + size.y + map_.paper(frame_.low.y)};
  }

  void header() {
    drawing_.root.add({words({kMargin, 15.5}, sheet_.garden.site.title, geometry::Face::kSerif,
                             geometry::kTitleTypeMm * 1.25)});
    drawing_.root.add(
        {words({kMargin, 21}, sheet_.says, geometry::Face::kSerif, geometry::kTextTypeMm)});
  }

  void field(Group& plan) {
    const Field& f = sheet_.field;
    Group& under = plan.add_group("light", "the light field");
    if (sheet_.garden.boundary.size() >= 3)
      under.clip = Path::polygon(map_.paper(sheet_.garden.boundary));
    geometry::CellImage image;
    image.columns = f.columns;
    image.rows = f.rows;
    for (const float h : sheet_.hours) {
      const std::optional<geometry::Colour> colour = colour_of(static_cast<double>(h));
      image.present.push_back(!std::isnan(h) && colour.has_value());
      image.cells.push_back(colour.value_or(geometry::Colour{}));
    }
    const double step = map_.paper(f.cell_m);
    image.placement = {map_.paper(f.corner), {step, 0}, {0, -step}};
    under.add({std::move(image)});
  }

  /// Nothing: the paper shows.
  [[nodiscard]] std::optional<geometry::Colour> colour_of(double hours) const {
    if (sheet_.one_moment) return moment_step(hours).colour;
    return sheet_.difference ? gain_step(hours).colour : geometry::light_colour(hours);
  }

  [[nodiscard]] std::string says(const LightSheet::Figure& figure) const {
    if (sheet_.one_moment) return moment_step(figure.hours).says;
    return sheet_.difference ? gain_figure(figure.hours, figure.on_guesses)
                             : hours_figure(figure.hours, figure.on_guesses);
  }

  void figures(Group& into, garden::LabelRoom& room) {
    for (const LightSheet::Figure& figure : sheet_.figures) {
      for (const garden::Bed& bed : sheet_.garden.beds) {
        if (bed.id == figure.id) hours_in(into, room, bed, says(figure));
      }
    }
  }

  /// The hours on their chip in the middle of a bed; where the bed is long enough its name beside
  /// them, so that both lie within the boards.
  void hours_in(Group& into, garden::LabelRoom& room, const garden::Bed& bed,
                const std::string& text) {
    const Vec2 middle = map_.paper(geometry::centroid(bed.outline));
    const Vec2 chip{geometry::kLabelTypeMm * 0.62 * shown_width(text) + 1.4,
                    geometry::kLabelTypeMm + 0.8};
    const Vec2 name = garden::name_size(bed.id);
    const geometry::Box2 box = geometry::bounds(map_.paper(bed.outline));
    constexpr double kGap = 0.8;
    const double both = chip.x + kGap + name.x;
    Vec2 at;
    if (both + 3 > box.width() || box.height() < name.y + 2 || box.height() > box.width()) {
      room.place({middle}, chip, true, at);
      append_figure(into, at, text);
      return;
    }
    const Vec2 left_end = middle - Vec2{both / 2, 0};
    room.place({left_end + Vec2{chip.x / 2, 0}}, chip, true, at);
    append_figure(into, at, text);
    const Vec2 name_at = left_end + Vec2{chip.x + kGap + name.x / 2, 0};
    room.place({name_at}, name, true, at);
    append_name(into, at, bed.id, garden::kNameMm);
    room.named(bed.id);
  }

  void footer() {
    const double top = drawing_.height_mm - kFooter + 7;
    if (sheet_.one_moment)
      append_moment_key(drawing_.root, {kMargin, top}, 74);
    else if (sheet_.difference)
      append_gain_key(drawing_.root, {kMargin, top}, 74);
    else
      append_light_key(
          drawing_.root, {kMargin, top}, 74,
          sheet_.one_day ? "hours of sun, clear sky" : "hours of sun a day, clear sky");
    const double bar_right = draw_scale_bar(drawing_.root, {kMargin + 88, top + 6}, map_.mm_per_m,
                                            sheet_.garden.site.imperial, 70);
    drawing_.root.add({words({bar_right + 9, top + 6}, fmt::format("1 : {:g}", scale_),
                             geometry::Face::kSans, geometry::kLabelTypeMm)});
    append_north(drawing_.root, {drawing_.width_mm - kMargin - 8, top + 6.5}, 7,
                 garden::north_on_paper(sheet_.garden));
    Text note = words(
        {kMargin, drawing_.height_mm - 8},
        sheet_.one_moment
            ? "Sun: the sun stands clear of every thing and its beam is over 120 W/m². The "
              "words in the beds are of most of each: a quarter to three quarters lit is in part."
            : "A sun hour: the sun stands clear of every thing and its beam is over 120 W/m². "
              "Figures in the beds are their means.",
        geometry::Face::kSerif, geometry::kLabelTypeMm);
    note.ink = geometry::Role::kGraphite;
    drawing_.root.add({note});
    if (const Text marks = marks_note(); !marks.words.empty()) drawing_.root.add({marks});
  }

  /// What red and ≈ mean, where they are on the sheet.
  [[nodiscard]] Text marks_note() const {
    std::string says;
    if (sheet_.found != nullptr) says = "Red: new or changed. Struck through: to go.";
    const bool guessed =
        !sheet_.one_moment &&
        std::any_of(sheet_.figures.begin(), sheet_.figures.end(),
                    [](const LightSheet::Figure& figure) { return figure.on_guesses; });
    if (guessed) says += std::string(says.empty() ? "" : " ") + "≈: rests on a guess.";
    Text note = words({kMargin, drawing_.height_mm - 4}, says, geometry::Face::kSerif,
                      geometry::kLabelTypeMm);
    note.ink = geometry::Role::kGraphite;
    return note;
  }

  const LightSheet& sheet_;
  Box2 frame_;
  Drawing drawing_;
  Vec2 space_;
  double scale_ = 100;
  geometry::PlanOnPaper map_;
};

}  // namespace

geometry::Box2 sheet_frame(const garden::Garden& garden) {
  Box2 box = garden::extent(garden);
  for (const garden::Tree& tree : garden.trees) {
    const double r = in_metres(tree.crown_width) / 2;
    box.low = {std::min(box.low.x, tree.at.x - r), std::min(box.low.y, tree.at.y - r)};
    box.high = {std::max(box.high.x, tree.at.x + r), std::max(box.high.y, tree.at.y + r)};
  }
  if (garden.boundary.size() >= 3) {
    constexpr double kBeyond = 10;
    const Box2 own = geometry::bounds(garden.boundary);
    box.low = {std::max(box.low.x, own.low.x - kBeyond), std::max(box.low.y, own.low.y - kBeyond)};
    box.high = {std::min(box.high.x, own.high.x + kBeyond),
                std::min(box.high.y, own.high.y + kBeyond)};
  }
  box.low = box.low - Vec2{kAround_m, kAround_m};
  box.high = box.high + Vec2{kAround_m, kAround_m};
  return box;
}

double scale_to_fit(Vec2 garden_m, Vec2 space_mm) {
  const double least = std::max(garden_m.x * 1000 / space_mm.x, garden_m.y * 1000 / space_mm.y);
  for (double decade = 1; decade < 1e6; decade *= 10) {
    for (const double step : {10.0, 12.5, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 75.0}) {
      if (step * decade >= least - 1e-9) return step * decade;
    }
  }
  return least;
}

double draw_scale_bar(Group& into, Vec2 at, double mm_per_m, bool feet, double most_mm,
                      double type_mm) {
  geometry::ScaleBarShape bar;
  bar.type_mm = type_mm;
  bar.at = at;
  bar.unit = feet ? "ft" : "m";
  bar.unit_mm = feet ? mm_per_m * 0.3048 : mm_per_m;
  // The longest of these that fits, in at most five parts.
  for (const double whole : {100.0, 50.0, 20.0, 10.0, 5.0, 2.0, 1.0}) {
    if (whole * bar.unit_mm > most_mm) continue;
    bar.ticks = {0, whole / 5, whole * 2 / 5, whole * 3 / 5, whole * 4 / 5, whole};
    const double part_mm = whole / 5 * bar.unit_mm;
    if (whole < 5 || part_mm < 6.5) bar.ticks = {0, whole / 2, whole};
    break;
  }
  append_scale_bar(into, bar);
  return at.x + bar.ticks.back() * bar.unit_mm;
}

std::string gain_figure(double hours, bool on_guesses) {
  const double size = std::abs(hours);
  if (size < 0.05) return on_guesses ? "≈ 0" : "±0";
  const char* sign = hours < 0 ? "−" : "+";
  if (!on_guesses) return fmt::format("{}{:.1f}", sign, size);
  return fmt::format("≈ {}{}", sign, hours_figure(size, true).substr(std::string("≈ ").size()));
}

std::string hours_figure(double hours, bool on_guesses) {
  if (!on_guesses) return fmt::format("{:.1f}", hours);
  if (hours < 0.95) return fmt::format("≈ {:.1f}", hours);
  const long halves = std::lround(hours * 2);
  return fmt::format("≈ {}{}", halves / 2, halves % 2 == 0 ? "" : "½");
}

Drawing light_drawing(const LightSheet& sheet) { return Sheet(sheet).draw(); }

}  // namespace spadework::light
