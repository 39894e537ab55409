#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "base/measures.h"
#include "base/text.h"
#include "garden/plan_drawing.h"
#include "geometry/symbols.h"
#include "light/light_drawing.h"
#include "study/section_parts.h"

namespace spadework::study {
namespace {

using geometry::Drawing;
using geometry::Fill;
using geometry::Group;
using geometry::Paint;
using geometry::Path;
using geometry::Role;
using geometry::Shape;
using geometry::Stroke;
using geometry::Text;
using geometry::Vec2;

constexpr double kMargin = 14, kSide = 31, kHeader = 30, kNamesAbove = 15;
// As on the sheet of the app, where a drawing is read at its own size: 13 and 12 px.
constexpr double kName_mm = 3.44, kLabel_mm = 3.2;
constexpr double kEarth_mm = 4.5;  // of ground hatched under its line
constexpr double kBand_mm = 1.0;   // of sun or shade on it
constexpr double kLeastWidth = 150, kLeastInRoom = 96;
const geometry::Colour kLit = geometry::colour_from_hex(0xfff6ae);
const geometry::Colour kShade = geometry::colour_from_hex(0xa79da7);

Vec2 name_size(const std::string& text) {
  return garden::name_size(text) * (kName_mm / garden::kNameMm);
}

Text words(Vec2 at, std::string text, geometry::Face face, double size_mm,
           geometry::Anchor anchor = geometry::Anchor::kStart) {
  Text out;
  out.at = at;
  out.words = std::move(text);
  out.face = face;
  out.size_mm = size_mm;
  out.anchor = anchor;
  return out;
}

template <class Drawn>
geometry::Mark mark_of(const Drawn& thing, const std::string& what) {
  geometry::Mark mark;
  mark.id = thing.id;
  mark.title = thing.id + ", " + what;
  mark.status = thing.mark == garden::Mark::kExisting ? geometry::Status::kFound
                                                      : geometry::Status::kProposed;
  mark.guessed = thing.guessed;
  return mark;
}

/// How a cut is filled and outlined.
struct Look {
  std::vector<Fill> fills;
  double weight_mm = geometry::kMediumMm;
};

Look look_of(const SectionThing& thing, const SectionThing::Outline& outline,
             const geometry::Mark& mark, double wide_mm) {
  const Paint ink = ink_of(mark);
  if (outline.through == garden::Through::kPerCrossing)
    return {{Paint(Role::kPaper, 0.4)}, geometry::kFineMm};
  if (outline.through == garden::Through::kPerMetre) {
    geometry::Stipple leaves{thing.table == "plant" ? 0.5 : 0.3, 0.26, ink};
    leaves.seed = geometry::seed_of(thing.id);
    return {{Paint(Role::kPaper, 0.6), leaves},
            thing.table == "plant" ? geometry::kFineMm : geometry::kMediumMm};
  }
  if (wide_mm < 0.8) return {{ink}, geometry::kFineMm};
  if (thing.table == "building") return {{Paint(Role::kPaper), seen(ink, 0.1)}, geometry::kHeavyMm};
  return {{Paint(Role::kPaper), geometry::diagonal_hatch(ink)}, geometry::kHeavyMm};
}

class Sheet {
 public:
  explicit Sheet(const SectionSheet& sheet)
      : sheet_(sheet), section_(sheet.section), top_(top_line(sheet.section)) {}

  Drawing draw() {
    lay_out();
    Group& root = drawing_.root;
    header(root);
    Group& cut = root.add_group("section", "the section");
    beside(cut.add_group("beside", "what stands close beside the line"));
    earth(cut.add_group("ground", "the ground"));
    sun_on_ground(cut.add_group("light", "where the sun reaches"));
    for (const SectionBed& bed : section_.beds) bed_soil(cut, bed);
    things(cut.add_group("things", "what the line cuts"));
    rays(cut.add_group("rays", "rays of the sun"));
    for (const SectionBed& bed : section_.beds) boards(cut, bed);
    sun_disc(root);
    names(root.add_group("names", "names and levels"));
    footer(root);
    return std::move(drawing_);
  }

 private:
  void lay_out() {
    const auto [low, high] = levels_of(section_);
    const double scale = light::scale_to_fit({section_.length_m, high - low}, {240, 140});
    mm_per_m_ = sheet_.mm_per_m > 0 ? sheet_.mm_per_m : 1000 / std::max(20.0, scale);
    // One that is drawn for a page's room has no wider paper than that.
    drawing_.width_mm = std::max(sheet_.mm_per_m > 0 ? kLeastInRoom : kLeastWidth,
                                 2 * kSide + section_.length_m * mm_per_m_);
    left_ = (drawing_.width_mm - section_.length_m * mm_per_m_) / 2;
    zero_ = kHeader + kNamesAbove + high * mm_per_m_;
    bottom_ = zero_ - low * mm_per_m_ + kEarth_mm;
    drawing_.title = sheet_.garden.site.title;
    drawing_.description = sheet_.says;
    if (!section_.sun_says.empty()) drawing_.description += "; " + section_.sun_says;
  }

  [[nodiscard]] Vec2 paper(Vec2 p) const {
    return {left_ + p.x * mm_per_m_, zero_ - p.y * mm_per_m_};
  }
  [[nodiscard]] std::vector<Vec2> paper(const std::vector<Vec2>& line) const {
    std::vector<Vec2> out;
    out.reserve(line.size());
    for (const Vec2 p : line) out.push_back(paper(p));
    return out;
  }
  [[nodiscard]] std::string level_says(double level_m) const {
    const Units units = sheet_.garden.site.imperial ? Units::kImperial : Units::kMetric;
    return (level_m < -0.004 ? "−" : "") + length_says(metres(std::abs(level_m)), units, 2);
  }

  /// Between a line of (along, level) and the same line shifted on paper.
  [[nodiscard]] Path strip(const std::vector<Vec2>& line, double down_mm) const {
    std::vector<Vec2> ring = paper(line);
    for (std::size_t i = ring.size(); i-- > 0;) ring.push_back(ring[i] + Vec2{0, down_mm});
    return Path::polygon(ring);
  }

  void header(Group& root) const {
    root.add({words({kMargin, 15.5}, sheet_.garden.site.title, geometry::Face::kSerif,
                    geometry::kTitleTypeMm * 1.25)});
    root.add({words({kMargin, 21}, sheet_.says, geometry::Face::kSerif, geometry::kTextTypeMm)});
    if (section_.sun_says.empty()) return;
    std::string says = section_.sun_says;
    says[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(says[0])));
    root.add({words({kMargin, 26.2}, says, geometry::Face::kSerif, geometry::kTextTypeMm)});
  }

  void beside(Group& into) const {
    into.clip = above_ground();
    for (const SectionThing& thing : section_.beside) {
      Group& group = into.add_group("beside-" + thing.id, thing.id + ", beside");
      for (const SectionThing::Outline& outline : thing.outlines) {
        Stroke pen{geometry::kFineMm, Paint(Role::kGraphite, 0.45)};
        if (thing.guessed) pen.dash = geometry::Dash::kDotted;
        group.add({Shape{Path::polygon(paper(outline.ring)), {}, pen}});
      }
    }
  }

  /// The ground as it is once the beds are made: cut where they lie lower than it did.
  void earth(Group& into) const {
    std::vector<Vec2> under;
    for (const Vec2 p : top_) under.push_back({p.x, std::min(p.y, level_on(section_.ground, p.x))});
    std::vector<Vec2> whole;  // the ground's own breaks under a bed's level soil
    for (std::size_t i = 0; i + 1 < under.size(); ++i) {
      whole.push_back(under[i]);
      for (const Vec2 g : section_.ground) {
        if (g.x <= under[i].x + 1e-9 || g.x >= under[i + 1].x - 1e-9) continue;
        whole.push_back({g.x, std::min(g.y, level_on(top_, g.x))});
      }
      add_meeting(under[i], under[i + 1], whole);
    }
    whole.push_back(under.back());
    into.add({Shape{strip(whole, kEarth_mm),
                    {seen(Role::kInk, 0.07), geometry::diagonal_hatch(Role::kGraphite, 1.5)}}});
    Stroke line{geometry::kHeavyMm, Role::kInk};
    double at = 0;
    const auto draw_to = [&](double end) {
      if (end - at > 1e-6)
        into.add({Shape{Path::polyline(paper(part_of(section_.ground, at, end))), {}, line}});
    };
    for (const SectionBed& bed : section_.beds) draw_to(bed.from_m), at = std::max(at, bed.to_m);
    draw_to(section_.length_m);
  }

  /// Where the soil of a bed and the ground cross between two places.
  void add_meeting(Vec2 a, Vec2 b, std::vector<Vec2>& line) const {
    const double e = 1e-7;
    if (b.x - a.x < 4 * e) return;
    const double d0 = level_on(section_.ground, a.x + e) - level_on(top_, a.x + e);
    const double d1 = level_on(section_.ground, b.x - e) - level_on(top_, b.x - e);
    if (!((d0 < -1e-6 && d1 > 1e-6) || (d0 > 1e-6 && d1 < -1e-6))) return;
    double low = a.x + e, high = b.x - e;
    for (int i = 0; i < 40; ++i) {
      const double m = (low + high) / 2;
      ((level_on(section_.ground, m) - level_on(top_, m) < 0) == (d0 < 0) ? low : high) = m;
    }
    line.push_back({low, level_on(section_.ground, low)});
    std::sort(line.begin(), line.end(), [](Vec2 p, Vec2 q) { return p.x < q.x; });
  }

  void sun_on_ground(Group& into) const {
    if (!section_.sun) return;
    double at = 0;
    const auto draw_to = [&](double end, geometry::Colour colour) {
      if (end - at > 1e-4)
        into.add({Shape{strip(part_of(top_, at, end), -kBand_mm),
                        {Paint(colour)},
                        Stroke{geometry::kFineMm * 0.7, Role::kInk}}});
      at = end;
    };
    for (const SectionStretch& lit : section_.lit) {
      draw_to(lit.from_m, kShade);
      draw_to(lit.to_m, kLit);
    }
    draw_to(section_.length_m, kShade);
  }

  void bed_soil(Group& into, const SectionBed& bed) const {
    const geometry::Mark mark = mark_of(bed, "bed");
    Group& group = into.add_group(bed.id, mark.title);
    const std::vector<Vec2> was = part_of(section_.ground, bed.from_m, bed.to_m);
    std::vector<Vec2> ring{{bed.from_m, bed.level_m}};
    for (const Vec2 p : was) ring.push_back({p.x, std::min(p.y, bed.level_m)});
    ring.push_back({bed.to_m, bed.level_m});
    geometry::Stipple soil{0.9, 0.3, ink_of(mark)};
    soil.seed = geometry::seed_of(bed.id);
    group.add({Shape{Path::polygon(paper(ring)), {soil}}});
    Stroke ground{geometry::kFineMm, Role::kGraphite, geometry::Dash::kSight};
    group.add({Shape{Path::polyline(paper(was)), {}, ground}});
    group.add(
        {Shape{Path::segment(paper({bed.from_m, bed.level_m}), paper({bed.to_m, bed.level_m})),
               {},
               pen_of(mark, geometry::kMediumMm)}});
  }

  void boards(Group& into, const SectionBed& bed) const {
    if (!bed.boards) return;
    const geometry::Mark mark = mark_of(bed, "boards");
    Group& group = into.add_group(bed.id + "-boards", mark.title);
    for (const SectionStretch& cut : bed.boards->cut) {
      const Vec2 corner = paper({cut.from_m, bed.boards->top_m});
      const double wide = std::max(0.6, (cut.to_m - cut.from_m) * mm_per_m_);
      const double high = (bed.boards->top_m - bed.boards->foot_m) * mm_per_m_;
      Shape board{Path::box(corner, wide, high), {Paint(ink_of(mark))}};
      if (wide > 2) board.fills = {Paint(Role::kPaper), geometry::diagonal_hatch(ink_of(mark))};
      Stroke pen{geometry::kFineMm, ink_of(mark)};
      if (bed.guessed) pen.dash = geometry::Dash::kDotted;
      board.stroke = pen;
      group.add({std::move(board)});
    }
  }

  /// What lies over the ground and the soil, to cut off the feet of things.
  [[nodiscard]] Path above_ground() const {
    std::vector<Vec2> ring = paper(top_);
    ring.push_back({ring.back().x, 0});
    ring.push_back({ring.front().x, 0});
    return Path::polygon(ring);
  }

  void things(Group& into) const {
    into.clip = above_ground();
    std::vector<const SectionThing*> order;  // what one sees through last
    for (const SectionThing& thing : section_.cuts) order.push_back(&thing);
    std::stable_partition(order.begin(), order.end(),
                          [](const SectionThing* thing) { return thing->table != "tree"; });
    for (const SectionThing* thing : order) {
      const geometry::Mark mark = mark_of(*thing, thing->table);
      Group& group = into.add_group(mark.id, mark.title);
      for (const SectionThing::Outline& outline : thing->outlines) {
        const double wide = geometry::bounds(outline.ring).width() * mm_per_m_;
        Look look = look_of(*thing, outline, mark, wide);
        group.add({Shape{Path::polygon(paper(outline.ring)), std::move(look.fills),
                         pen_of(mark, look.weight_mm)}});
      }
    }
  }

  void rays(Group& into) const {
    into.clip = Path::box({left_, kHeader}, section_.length_m * mm_per_m_, bottom_ - kHeader);
    const Stroke pen{geometry::kFineMm, Role::kGraphite};
    for (const SectionRay& ray : section_.rays)
      into.add({Shape{Path::segment(paper(ray.foot), paper(ray.over)), {}, pen}});
  }

  /// At the side that it shines from, with the slope of its rays.
  void sun_disc(Group& root) const {
    if (!section_.sun) return;
    const Stroke pen{geometry::kFineMm, Role::kGraphite};
    Group& group = root.add_group("sun", section_.sun_says);
    const double side = section_.sun->from_b ? 1 : -1, radius = 2.4;
    const Vec2 at{side > 0 ? drawing_.width_mm - kMargin - 4 : kMargin + 4, kHeader + 6};
    const double angle = section_.sun->in_section_deg * std::numbers::pi / 180;
    const Vec2 down{-side * std::cos(angle), std::sin(angle)};
    group.add(
        {Shape{Path::segment(at + down * (radius + 0.8), at + down * (radius + 9)), {}, pen}});
    group.add(
        {Shape{Path::circle(at, radius), {Paint(kLit)}, Stroke{geometry::kMediumMm, Role::kInk}}});
    group.add(
        {words({at.x, at.y - radius - 1.2}, fmt::format("{:.0f}°", section_.sun->in_section_deg),
               geometry::Face::kSans, kLabel_mm, geometry::Anchor::kMiddle)});
  }

  /// Words at the first free of the places, with a line to what they name where they are not by it.
  void name(Group& into, const std::vector<Vec2>& middles, const std::string& text, Vec2 of,
            const Paint& ink, bool must) {
    Vec2 at;
    if (!room_.place(middles, name_size(text), must, at)) return;
    if (std::abs(at.y - of.y) > 5) {
      const double near = at.y < of.y ? 1.9 : -1.9;
      into.add({Shape{Path::segment({of.x, at.y + near}, of),
                      {},
                      Stroke{geometry::kFineMm * 0.7, Role::kGraphite}}});
    }
    Text out = words(at, text, geometry::Face::kSerifItalic, kName_mm, geometry::Anchor::kMiddle);
    out.rise = geometry::Rise::kMiddle;
    out.ink = ink;
    out.halo_mm = 0.5;
    into.add({std::move(out)});
  }

  void name_thing(Group& into, const SectionThing& thing, const Paint& ink, bool must) {
    const Vec2 size = name_size(thing.id);
    const Vec2 top = paper({(thing.from_m + thing.to_m) / 2, thing.top_m});
    std::vector<Vec2> middles;
    for (int row = 0; row < 7; ++row) {
      for (const double beside : {0.0, 0.35, -0.35}) {
        const double x = top.x + beside * size.x, y = top.y - 2.9 - 4.1 * row;
        if (y > kHeader + 1.5)
          middles.push_back(
              {std::clamp(x, kMargin + size.x / 2, drawing_.width_mm - kMargin - size.x / 2), y});
      }
    }
    if (!middles.empty()) name(into, middles, thing.id, top, ink, must);
  }

  void names(Group& into) {
    for (const SectionThing& thing : section_.cuts)
      if (thing.table != "plant") name_thing(into, thing, ink_of(mark_of(thing, "")), true);
    for (const SectionThing& thing : section_.cuts)
      if (thing.table == "plant") name_thing(into, thing, ink_of(mark_of(thing, "")), false);
    for (const SectionThing& thing : section_.beside)
      if (!is_among(section_.cuts, thing.id)) name_thing(into, thing, Role::kGraphite, false);
    for (const SectionRay& ray : section_.rays)
      if (!is_among(section_.cuts, ray.taker) && !is_among(section_.beside, ray.taker))
        name_taker(into, ray);
    end(into, "A", 0, -1);
    end(into, "B", section_.length_m, 1);
    for (const SectionBed& bed : section_.beds) name_bed(into, bed);
  }

  static bool is_among(const std::vector<SectionThing>& things, const std::string& id) {
    return std::any_of(things.begin(), things.end(),
                       [&](const SectionThing& thing) { return thing.id == id; });
  }

  /// What stands beside the line and shades it all the same.
  void name_taker(Group& into, const SectionRay& ray) {
    if (!taken_by_.insert(ray.taker).second) return;
    const Vec2 end = paper(ray.over), size = name_size(ray.taker);
    if (end.y < kHeader + 3 || end.x < left_ || end.x > drawing_.width_mm - left_) return;
    const double side = section_.sun->from_b ? 1 : -1;
    name(into,
         {end + Vec2{0, -2.4}, end + Vec2{side * (size.x / 2 + 0.6), 0},
          end + Vec2{side * size.x / 2, -2.4}},
         ray.taker, end, Role::kGraphite, false);
  }

  void name_bed(Group& into, const SectionBed& bed) {
    const Vec2 of = paper({(bed.from_m + bed.to_m) / 2, bed.level_m});
    const std::string level = level_says(bed.level_m);
    const Vec2 size{std::max(name_size(bed.id).x, name_size(level).x + 1), 8.2};
    std::vector<Vec2> middles;
    for (int row = 0; row < 24; ++row)
      middles.push_back({of.x, lowest_near(bed) + 5.8 + 2.2 * row});
    Vec2 at;
    room_.place(middles, size, true, at);
    const double top = at.y - size.y / 2;
    into.add({Shape{Path::segment({of.x, of.y + 0.6}, {of.x, top}),
                    {},
                    Stroke{geometry::kFineMm * 0.7, Role::kGraphite}}});
    Text called = words({at.x, top + 2.1}, bed.id, geometry::Face::kSerifItalic, kName_mm,
                        geometry::Anchor::kMiddle);
    called.rise = geometry::Rise::kMiddle;
    called.ink = ink_of(mark_of(bed, ""));
    called.halo_mm = 0.5;
    into.add({std::move(called)});
    Text figure = words({at.x, top + 6.1}, level, geometry::Face::kSans, kLabel_mm,
                        geometry::Anchor::kMiddle);
    figure.rise = geometry::Rise::kMiddle;
    figure.tabular = true;
    figure.halo_mm = 0.5;
    into.add({std::move(figure)});
    bottom_ = std::max(bottom_, top + size.y);
  }

  /// On paper, the lowest that is drawn under a bed.
  [[nodiscard]] double lowest_near(const SectionBed& bed) const {
    double low = std::min({bed.level_m, bed.ground_from_m, bed.ground_to_m});
    double y = paper({0, low}).y + kEarth_mm;
    if (bed.boards) y = std::max(y, paper({0, bed.boards->foot_m}).y);
    return y;
  }

  void end(Group& into, const std::string& letter, double along_m, double side) {
    const Vec2 at = paper({along_m, level_on(section_.ground, along_m)}) + Vec2{side * 2, 0};
    const auto anchor = side < 0 ? geometry::Anchor::kEnd : geometry::Anchor::kStart;
    Text head =
        words({at.x, at.y - 0.6}, letter, geometry::Face::kSans, geometry::kHeadingTypeMm, anchor);
    head.weight = geometry::Weight::kSemiBold;
    into.add({std::move(head)});
    Text level = words({at.x, at.y + 3.6}, level_says(level_on(section_.ground, along_m)),
                       geometry::Face::kSans, kLabel_mm, anchor);
    level.tabular = true;
    into.add({std::move(level)});
    bottom_ = std::max(bottom_, at.y + 5);
  }

  void footer(Group& root) {
    const double top = bottom_ + 9;
    const double right = light::draw_scale_bar(root, {kMargin, top + 3}, mm_per_m_,
                                               sheet_.garden.site.imperial, 60, kLabel_mm);
    root.add({words({right + 9, top + 3},
                    fmt::format("1 : {:g}, up as along; A to B {}",
                                std::round(10000 / mm_per_m_) / 10, level_says(section_.length_m)),
                    geometry::Face::kSans, kLabel_mm)});
    std::string note = "Figures are levels above the datum.";
    if (!section_.beds.empty())
      note += " Dots are soil filled in over the ground, the broken line is the ground as it was.";
    if (section_.sun)
      note +=
          " On the ground yellow is in the sun, grey in shade; at rays stand the names of "
          "what shades from beside the line.";
    if (!section_.beside.empty()) note += " Faint: not cut, within a metre of the line.";
    Text last = words({kMargin, top + 10.5}, note, geometry::Face::kSerif, kLabel_mm);
    last.ink = Role::kGraphite;
    last.wrap_mm = drawing_.width_mm - 2 * kMargin;
    const double lines = std::ceil(shown_width(note) * kLabel_mm * 0.5 / last.wrap_mm);
    root.add({std::move(last)});
    drawing_.height_mm = top + 10.5 + lines * kLabel_mm * geometry::kLeading + 5;
  }

  const SectionSheet& sheet_;
  const Section& section_;
  std::vector<Vec2> top_;
  Drawing drawing_;
  garden::LabelRoom room_;
  std::set<std::string> taken_by_;
  double mm_per_m_ = 20, left_ = 0, zero_ = 0, bottom_ = 0;
};

}  // namespace

SectionLevels levels_of(const Section& section) {
  double low = 1e300, high = -1e300;
  for (const Vec2 p : top_line(section)) low = std::min(low, p.y), high = std::max(high, p.y);
  for (const Vec2 p : section.ground) low = std::min(low, p.y), high = std::max(high, p.y);
  for (const SectionBed& bed : section.beds) {
    if (!bed.boards) continue;
    low = std::min(low, bed.boards->foot_m), high = std::max(high, bed.boards->top_m);
  }
  for (const auto* all : {&section.cuts, &section.beside})
    for (const SectionThing& thing : *all) high = std::max(high, thing.top_m);
  if (section.sun) high = std::max(high, low + 1.5);
  return {low, high};
}

Drawing section_drawing(const SectionSheet& sheet) { return Sheet(sheet).draw(); }

}  // namespace spadework::study
