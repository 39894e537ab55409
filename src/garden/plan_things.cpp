// What stands in the garden, as symbols.
#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <numbers>
#include <set>

#include "garden/bodies.h"
#include "garden/plan_drawing.h"
#include "geometry/symbols.h"

namespace spadework::garden {
namespace {

using geometry::Group;
using geometry::Status;
using Symbol = geometry::Mark;

/// Draws the things of one garden that `shown` picks, all with one status or each with its own.
class Drawer {
 public:
  Drawer(const PlanView& view, const Garden& garden, Group& into,
         std::function<bool(const Thing&)> shown, bool removed)
      : view_(view), garden_(garden), into_(into), shown_(std::move(shown)), removed_(removed) {}

  void all() {
    beds();
    lines();
    buildings();
    small();
    seats();
    supports();
    plants();
    trees();
  }

 private:
  Symbol symbol(const Thing& thing, const std::string& what) const {
    Symbol mark;
    mark.id = (removed_ ? "found-" : "") + thing.id;
    mark.title = thing.id + ", " + what;
    mark.status = removed_                        ? Status::kRemoved
                  : thing.mark == Mark::kExisting ? Status::kFound
                                                  : Status::kProposed;
    mark.guessed = !thing.guessed.empty();
    const bool southern = garden_.site.latitude < degrees(0);
    mark.to_sun =
        geometry::paper_direction(north_on_paper(garden_) + (southern ? 0 : std::numbers::pi));
    return mark;
  }
  geometry::Vec2 paper(Vec2 p) const { return view_.map.paper(p); }
  double paper(Length l) const { return view_.map.paper(in_metres(l)); }
  std::vector<Vec2> paper_line(const std::vector<Vec2>& line) const {
    std::vector<Vec2> out;
    for (const Vec2 p : line) out.push_back(paper(p));
    return out;
  }
  Vec2 paper_vector(Vec2 v) const { return {v.x, -v.y}; }

  void beds() {
    for (const Bed& bed : garden_.beds) {
      if (!shown_(bed)) continue;
      geometry::BedShape shape;
      shape.outline = view_.map.paper(bed.outline);
      shape.board_mm = bed.boards ? paper(bed.boards->thickness) : 0;
      const Vec2 slope =
          view_.ground.facet_at(geometry::centroid(bed.outline)).incline.slope * -1.0;
      if (geometry::length(slope) > 0.01) shape.downhill = geometry::unit(paper_vector(slope));
      append_bed(into_, symbol(bed, "bed"), shape);
    }
  }

  void lines() {
    for (const Wall& wall : garden_.walls) {
      if (!shown_(wall)) continue;
      const facts::BarrierKind* kind = view_.catalogue.barriers.find(wall.kind);
      const auto line = paper_line(wall.line);
      const double thick =
          paper(wall.thickness.value_or(kind ? kind->thickness.value : metres(0.1)));
      if (kind && kind->of == facts::BarrierClass::kHedge)
        append_hedge(into_, symbol(wall, kind->says), line, thick);
      else if (kind && kind->of == facts::BarrierClass::kFence)
        append_fence(into_, symbol(wall, kind->says), line, std::max(6.0, view_.map.paper(1.8)));
      else
        append_wall(into_, symbol(wall, kind ? kind->says : wall.kind), line, thick);
    }
  }

  void buildings() {
    for (const Building& building : garden_.buildings) {
      if (!shown_(building)) continue;
      geometry::BuildingShape shape;
      shape.outline = view_.map.paper(building.outline);
      add_roof(building, shape);
      append_building(into_, symbol(building, "building"), shape);
    }
  }

  /// Where two slopes meet: a ridge when it is level, a hip or valley otherwise.
  void add_roof(const Building& building, geometry::BuildingShape& shape) const {
    const auto pieces = roof_pieces(building, 0, garden_.site.plan_north);
    if (pieces.size() > 12) return;  // lines upon lines: the outline says more
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      const Vec2 slope = pieces[i].top.slope;
      if (geometry::length(slope) > 1e-6)
        shape.slopes.push_back(
            {view_.map.paper(pieces[i].footprint), geometry::unit(paper_vector(slope * -1.0))});
      for (std::size_t j = i + 1; j < pieces.size(); ++j) add_seams(pieces[i], pieces[j], shape);
    }
  }

  void add_seams(const RoofPiece& a, const RoofPiece& b, geometry::BuildingShape& shape) const {
    const std::size_t n = a.footprint.size(), m = b.footprint.size();
    for (std::size_t i = 0; i < n; ++i) {
      const Vec2 p = a.footprint[i], q = a.footprint[(i + 1) % n];
      for (std::size_t j = 0; j < m; ++j) {
        const Vec2 r = b.footprint[j], s = b.footprint[(j + 1) % m];
        if (geometry::length(p - s) > 1e-6 || geometry::length(q - r) > 1e-6) continue;
        const bool level = std::abs(a.top.at(p) - a.top.at(q)) < 1e-6;
        (level ? shape.ridges : shape.hips).push_back({paper(p), paper(q)});
      }
    }
  }

  void small() {
    for (const Object& object : garden_.objects) {
      if (shown_(object))
        append_object(into_, symbol(object, object.what), view_.map.paper(object.outline));
    }
    for (const Tank& tank : garden_.tanks) {
      if (shown_(tank))
        append_tank(into_, symbol(tank, "tank"), paper(tank.at),
                    paper(round_width(tank.holds, tank_height(tank.holds))));
    }
    for (const Container& container : garden_.containers) {
      if (shown_(container))
        append_container(into_, symbol(container, "container"), paper(container.at),
                         std::max(2.0, paper(round_width(container.volume, container.height))));
    }
    for (const Cover& cover : garden_.covers) {
      if (!shown_(cover)) continue;
      const auto look = cover.kind == "glasshouse" || cover.kind == "frame"
                            ? geometry::CoverLook::kGlass
                        : cover.kind == "cloche" ? geometry::CoverLook::kHoops
                                                 : geometry::CoverLook::kNet;
      for (const Polygon& outline : cover.outlines)
        append_cover(into_, symbol(cover, cover.kind), view_.map.paper(outline), look);
    }
    for (const Spot& spot : garden_.marks) {
      if (shown_(spot)) spot_mark(spot);
    }
  }

  void spot_mark(const Spot& spot) {
    const Symbol mark = symbol(spot, spot.table);
    if (spot.table == "gate") {
      const Vec2 along = gate_direction(spot.at) * (in_metres(spot.width) / 2);
      append_gate(into_, mark, paper(spot.at - along), paper(spot.at + along), true);
    } else if (spot.kind == "tap") {
      append_tap(into_, mark, paper(spot.at));
    } else if (spot.facing && geometry::length(*spot.facing - spot.at) > 1e-6) {
      append_viewpoint(into_, mark, paper(spot.at),
                       paper_vector(geometry::unit(*spot.facing - spot.at)));
    } else {
      append_peg(into_, mark, paper(spot.at));
    }
  }

  /// A gate lies along the nearest side of the boundary.
  Vec2 gate_direction(Vec2 at) const {
    Vec2 best{1, 0};
    double least = 1e9;
    const Polygon& ring = garden_.boundary;
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Vec2 a = ring[i], b = ring[(i + 1) % ring.size()];
      const double away = geometry::distance_to_segment(at, a, b);
      if (away < least && geometry::length(b - a) > 1e-6)
        least = away, best = geometry::unit(b - a);
    }
    return best;
  }

  void seats() {
    for (const Seat& seat : garden_.seats) {
      if (!shown_(seat)) continue;
      geometry::SeatShape shape;
      shape.at = paper(seat.at);
      shape.facing = paper_vector(seat.facing);
      shape.width_mm = view_.map.paper(seat.size.x);
      shape.depth_mm = view_.map.paper(seat.size.y);
      shape.sight_mm = std::min(16.0, view_.map.paper(2.5));
      append_seat(into_, symbol(seat, "seat"), shape);
    }
  }

  void supports() {
    for (const Support& support : garden_.supports) {
      if (!shown_(support)) continue;
      const facts::SupportKind* kind = view_.catalogue.supports.find(support.kind);
      const double wide = in_metres(support.width.value_or(kind ? kind->width.value : metres(0.5)));
      const double deep = in_metres(support.depth.value_or(kind ? kind->depth.value : metres(0.5)));
      geometry::SupportShape shape;
      if (support.line.size() >= 2 && support.kind != "arch") {
        shape.feet = paper_line(support.line);
      } else {
        const Vec2 a = support.line.front(), b = support.line.back();
        const Vec2 along = support.along;
        const double across = a == b ? wide : geometry::length(b - a);
        const Vec2 half = along * (across / 2);
        const Vec2 back = geometry::left_of(along) * (deep / 2), middle = (a + b) * 0.5;
        for (const Vec2 foot : {middle - half - back, middle + half - back, middle + half + back,
                                middle - half + back})
          shape.feet.push_back(paper(foot));
        shape.closed = true;
        shape.crossed = support.kind == "obelisk" || support.kind == "wigwam";
      }
      append_support(into_, symbol(support, support.kind), shape);
    }
  }

  void plants() {
    constexpr int kMostDrawn = 400;  // of one row
    for (const Plant& plant : garden_.plants) {
      if (!shown_(plant)) continue;
      const facts::Crop* crop = view_.catalogue.crops.find(plant.crop);
      const double spread = crop ? in_metres(crop->spread.value.max) : 0.5;
      int number = 0;
      for (const Vec2 stem : plant.stems) {
        if (number == kMostDrawn) break;
        Symbol mark = symbol(plant, plant.crop);
        mark.id += "-" + std::to_string(++number);
        append_plant(into_, mark, paper(stem), std::clamp(view_.map.paper(spread), 1.6, 12.0));
      }
    }
  }

  void trees() {
    const bool southern = garden_.site.latitude < degrees(0);
    const facts::LeafPlace place{garden_.site.latitude, garden_.site.elevation};
    for (const Tree& tree : garden_.trees) {
      if (!shown_(tree)) continue;
      const facts::TreeKind* kind = view_.catalogue.trees.find(tree.kind);
      geometry::TreeShape shape;
      shape.at = paper(tree.at);
      shape.crown_mm = paper(tree.crown_width);
      shape.stem_mm = std::max(0.8, kind ? paper(tree_figures(tree, *kind).stem) : 1.0);
      shape.in_leaf = !tree.dead && (!kind || leaf_share(leaf_dates_at(kind->leaves, place),
                                                         view_.day_of_year, southern) > 0.3);
      append_tree(into_, symbol(tree, kind ? kind->says : tree.kind), shape);
    }
  }

  const PlanView& view_;
  const Garden& garden_;
  Group& into_;
  std::function<bool(const Thing&)> shown_;
  bool removed_;
};

/// Things of both gardens that do not stand where they stood.
std::set<std::string> moved_between(const Garden& found, const Garden& now) {
  const auto then = middles_of(found);
  std::set<std::string> moved;
  for (const auto& [id, at] : middles_of(now)) {
    const auto before = then.find(id);
    if (before != then.end() && geometry::length(before->second - at) > 0.05) moved.insert(id);
  }
  return moved;
}

}  // namespace

void draw_things(const PlanView& view, Group& into) {
  std::set<std::string> moved;
  if (view.found != nullptr) {
    std::set<std::string> still;
    for (const Entry& entry : view.garden.entries) still.insert(entry.id);
    moved = moved_between(*view.found, view.garden);
    Drawer(
        view, *view.found, into,
        [&](const Thing& thing) { return still.count(thing.id) == 0 || moved.count(thing.id) > 0; },
        true)
        .all();
  }
  Drawer(
      view, view.garden, into, [](const Thing&) { return true; }, false)
      .all();
  for (const std::string& id : moved) {
    geometry::Mark mark;
    mark.id = id + "-moved";
    mark.title = id + " moved";
    mark.status = Status::kProposed;
    append_move_arrow(into, mark, view.map.paper(middles_of(*view.found).at(id)),
                      view.map.paper(middles_of(view.garden).at(id)));
  }
}

}  // namespace spadework::garden
