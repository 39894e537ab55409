// The small plan on the sun print: where the place lies, and the things that take its light.
#include <algorithm>
#include <map>

#include "garden/plan_drawing.h"
#include "geometry/symbols.h"
#include "light/light_drawing.h"
#include "light/print_parts.h"

namespace spadework::light {
namespace {

using geometry::Group;
using geometry::Paint;
using geometry::Path;
using geometry::Role;
using geometry::Shape;
using geometry::Stroke;
using geometry::Vec2;

constexpr double kDisc_mm = 1.5;  // radius

class Map {
 public:
  Map(const PrintParts& parts, const PaperBox& box)
      : parts_(parts), garden_(parts.sheet.garden), box_(box) {
    constexpr double kFoot_mm = 9;  // for the scale bar and north
    const geometry::Box2 frame = sheet_frame(garden_);
    const Vec2 space{box.right - box.left, std::max(16.0, box.bottom - kFoot_mm - box.top)};
    map_.mm_per_m = 1000 / scale_to_fit({frame.width(), frame.height()}, space);
    const Vec2 size{map_.paper(frame.width()), map_.paper(frame.height())};
    map_.origin = {box.left - map_.paper(frame.low.x),
                   box.top + (space.y - size.y) / 2 + size.y + map_.paper(frame.low.y)};
    low_ = {box.left, box.top + (space.y - size.y) / 2};
    high_ = low_ + size;
    plan_.id = "where";
    plan_.title = "where it lies";
    plan_.clip = Path::box(low_, size.x, size.y);
  }

  void draw(Group& into) {
    if (garden_.boundary.size() >= 3) {
      Stroke edge = fine_line(Role::kInk);
      if (garden::boundary_mark(garden_).guessed) edge.dash = geometry::Dash::kDotted;
      outline(garden_.boundary, {}, edge);
    }
    for (const garden::Building& building : garden_.buildings) {
      outline(building.outline, {Paint(Role::kGraphite, 0.25)}, fine_line(Role::kInk));
      places_[building.id] = {geometry::centroid(building.outline)};
    }
    lines();
    grown();
    beds();
    into.add({plan_});
    small_places(into);
    discs(into);
    append_north(into, {box_.right - 5, box_.bottom - 2.5}, 5, garden::north_on_paper(garden_));
    draw_scale_bar(into, {box_.left, box_.bottom - 1.5}, map_.mm_per_m, garden_.site.imperial,
                   box_.right - box_.left - 18);
  }

 private:
  void outline(const geometry::Polygon& ring, std::vector<geometry::Fill> fills, Stroke stroke) {
    plan_.add({Shape{Path::polygon(map_.paper(ring)), std::move(fills), stroke}});
  }
  void line(const std::vector<Vec2>& points, Stroke stroke) {
    std::vector<Vec2> on_paper;
    for (const Vec2 p : points) on_paper.push_back(map_.paper(p));
    if (on_paper.size() > 1) plan_.add({Shape{Path::polyline(on_paper), {}, stroke}});
  }
  /// Places along a line for a disc: the middle of its longest stretch, then nearer its ends.
  static std::vector<Vec2> along(const std::vector<Vec2>& points) {
    if (points.size() < 2) return points;
    std::size_t longest = 0;
    const auto stretch = [&](std::size_t i) { return geometry::length(points[i + 1] - points[i]); };
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
      if (stretch(i) > stretch(longest)) longest = i;
    }
    std::vector<Vec2> out;
    for (const double share : {0.5, 0.35, 0.65, 0.2, 0.8})
      out.push_back(points[longest] + (points[longest + 1] - points[longest]) * share);
    return out;
  }

  void lines() {
    for (const garden::Wall& wall : garden_.walls) {
      Stroke stroke = fine_line(Role::kInk);
      stroke.weight_mm = geometry::kMediumMm;
      const double thick = map_.paper(in_metres(wall.thickness.value_or(metres(0.1))));
      if (thick > geometry::kHeavyMm) {  // hedges as broad as they are
        stroke.weight_mm = thick;
        stroke.ink = Paint(Role::kGraphite, 0.45);
      }
      line(wall.line, stroke);
      places_[wall.id] = along(wall.line);
    }
    for (const garden::Support& support : garden_.supports) {
      line(support.line, fine_line(Role::kGraphite));
      places_[support.id] = along(support.line);
    }
    for (const garden::Object& object : garden_.objects) {
      outline(object.outline, {}, fine_line(Role::kGraphite));
      places_[object.id] = {geometry::centroid(object.outline)};
    }
  }

  void grown() {
    for (const garden::Tree& tree : garden_.trees) {
      plan_.add(
          {Shape{Path::circle(map_.paper(tree.at), map_.paper(in_metres(tree.crown_width)) / 2),
                 {},
                 fine_line(Role::kGraphite)}});
      places_[tree.id] = {tree.at};
    }
    for (const garden::Plant& plant : garden_.plants) places_[plant.id] = along(plant.stems);
    for (const garden::Seat& seat : garden_.seats) places_[seat.id] = {seat.at};
    for (const garden::Container& pot : garden_.containers) places_[pot.id] = {pot.at};
    for (const garden::Tank& tank : garden_.tanks) places_[tank.id] = {tank.at};
    for (const garden::Cover& cover : garden_.covers) {
      if (!cover.outlines.empty()) places_[cover.id] = {geometry::centroid(cover.outlines.front())};
    }
  }

  void beds() {
    for (const garden::Bed& bed : garden_.beds) {
      const bool here = bed.id == parts_.print.place;
      Stroke stroke = fine_line(Role::kInk);
      if (here) stroke.weight_mm = geometry::kHeavyMm;
      outline(
          bed.outline,
          here ? std::vector<geometry::Fill>{Paint(Role::kSunlit)} : std::vector<geometry::Fill>{},
          stroke);
      places_[bed.id] = {geometry::centroid(bed.outline)};
    }
  }

  /// A place that is no bed, as yellow dots.
  void small_places(Group& into) {
    std::vector<Vec2> at = parts_.print.marks;
    for (const garden::Seat& seat : garden_.seats) {
      if (seat.id == parts_.print.place) at.push_back(seat.at);
    }
    for (const garden::Plant& plant : garden_.plants) {
      if (plant.id == parts_.print.place) at = plant.stems;
    }
    for (const garden::Container& pot : garden_.containers) {
      if (pot.id == parts_.print.place) at.push_back(pot.at);
    }
    Stroke stroke = fine_line(Role::kInk);
    stroke.weight_mm = geometry::kMediumMm;
    for (const Vec2 p : at) {
      into.add({Shape{Path::circle(map_.paper(p), 1.1), {Paint(Role::kSunlit)}, stroke}});
      Vec2 taken;
      room_.place({map_.paper(p)}, {2, 2}, true, taken);
    }
  }

  /// The disc of each taker on it or close by; those of the garden's first five always.
  void discs(Group& into) {
    Group& group = into.add_group("where-takers", "where the takers stand");
    for (const Taker& taker : parts_.in_key) {
      const std::string& id = taker.id;
      const auto found = places_.find(id);
      if (found == places_.end() || id == parts_.print.place) continue;
      std::vector<Vec2> middles;
      for (const Vec2 p : found->second) middles.push_back(kept_on(map_.paper(p)));
      const Vec2 first = middles.front();
      for (const Vec2 aside : {Vec2{0, -3.2}, Vec2{0, 3.2}, Vec2{3.2, 0}, Vec2{-3.2, 0}})
        middles.push_back(kept_on(first + aside));
      Vec2 at;
      if (room_.place(middles, {2 * kDisc_mm, 2 * kDisc_mm}, parts_.inks.has_own_ink(id), at))
        append_taker_disc(group, at, parts_.inks.letter(id), parts_.inks.ink(id), kDisc_mm);
    }
  }
  /// What stands beyond the plan has its disc at the edge nearest to it.
  Vec2 kept_on(Vec2 p) const {
    return {std::clamp(p.x, low_.x + kDisc_mm, high_.x - kDisc_mm),
            std::clamp(p.y, low_.y + kDisc_mm, high_.y - kDisc_mm)};
  }

  const PrintParts& parts_;
  const garden::Garden& garden_;
  PaperBox box_;
  Group plan_;
  geometry::PlanOnPaper map_;
  Vec2 low_, high_;  // of the plan on paper
  std::map<std::string, std::vector<Vec2>> places_;
  garden::LabelRoom room_;
};

}  // namespace

void draw_print_map(const PrintParts& parts, const PaperBox& box, Group& into) {
  Map(parts, box).draw(into.add_group("map", "where it lies"));
}

}  // namespace spadework::light
