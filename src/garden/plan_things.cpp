// What stands in the garden, as symbols.
#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <numbers>
#include <set>

#include "garden/bodies.h"
#include "garden/plan_symbols.h"

namespace spadework::garden {
namespace {

using geometry::Status;
using Symbol = geometry::Mark;

/// Tells the things of one garden that `shown` picks, all with one status or each with its own.
class Drawer {
 public:
  Drawer(const PlanView& view, const Garden& garden, std::vector<PlanSymbol>& into,
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
  template <class Shape>
  void put(Symbol mark, Shape shape) {
    into_.push_back({std::move(mark), std::move(shape)});
  }
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
      BedSymbol shape;
      shape.outline = view_.map.paper(bed.outline);
      shape.board_mm = bed.boards ? paper(bed.boards->thickness) : 0;
      const Vec2 slope =
          view_.ground.facet_at(geometry::centroid(bed.outline)).incline.slope * -1.0;
      if (geometry::length(slope) > 0.01) shape.downhill = geometry::unit(paper_vector(slope));
      put(symbol(bed, "bed"), std::move(shape));
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
        put(symbol(wall, kind->says), LineSymbol{LineSymbol::Look::kHedge, line, thick});
      else if (kind && kind->of == facts::BarrierClass::kFence)
        put(symbol(wall, kind->says),
            LineSymbol{LineSymbol::Look::kFence, line, std::max(6.0, view_.map.paper(1.8))});
      else
        put(symbol(wall, kind ? kind->says : wall.kind),
            LineSymbol{LineSymbol::Look::kWall, line, thick});
    }
  }

  void buildings() {
    for (const Building& building : garden_.buildings) {
      if (!shown_(building)) continue;
      geometry::BuildingShape shape;
      shape.outline = view_.map.paper(building.outline);
      add_roof(building, shape);
      put(symbol(building, "building"), std::move(shape));
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
        put(symbol(object, object.what), ObjectSymbol{view_.map.paper(object.outline)});
    }
    for (const Tank& tank : garden_.tanks) {
      if (shown_(tank))
        put(symbol(tank, "tank"),
            RoundSymbol{RoundSymbol::Look::kTank, paper(tank.at),
                        paper(round_width(tank.holds, tank_height(tank.holds)))});
    }
    for (const Container& container : garden_.containers) {
      if (shown_(container))
        put(symbol(container, "container"),
            RoundSymbol{RoundSymbol::Look::kContainer, paper(container.at),
                        std::max(2.0, paper(round_width(container.volume, container.height)))});
    }
    for (const Cover& cover : garden_.covers) {
      if (!shown_(cover)) continue;
      const auto look = cover.kind == "glasshouse" || cover.kind == "frame"
                            ? geometry::CoverLook::kGlass
                        : cover.kind == "cloche" ? geometry::CoverLook::kHoops
                                                 : geometry::CoverLook::kNet;
      for (const Polygon& outline : cover.outlines)
        put(symbol(cover, cover.kind), CoverSymbol{view_.map.paper(outline), look});
    }
    for (const Spot& spot : garden_.marks) {
      if (shown_(spot)) spot_mark(spot);
    }
  }

  void spot_mark(const Spot& spot) {
    const Symbol mark = symbol(spot, spot.table);
    if (spot.table == "gate") {
      const Vec2 along = gate_direction(spot.at) * (in_metres(spot.width) / 2);
      put(mark, GateSymbol{paper(spot.at - along), paper(spot.at + along)});
    } else if (spot.kind == "tap") {
      put(mark, SpotSymbol{SpotSymbol::Look::kTap, paper(spot.at)});
    } else if (spot.facing && geometry::length(*spot.facing - spot.at) > 1e-6) {
      put(mark,
          ViewpointSymbol{paper(spot.at), paper_vector(geometry::unit(*spot.facing - spot.at))});
    } else {
      put(mark, SpotSymbol{SpotSymbol::Look::kPeg, paper(spot.at)});
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
      put(symbol(seat, "seat"), std::move(shape));
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
      put(symbol(support, support.kind), std::move(shape));
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
        put(std::move(mark), RoundSymbol{RoundSymbol::Look::kPlant, paper(stem),
                                         std::clamp(view_.map.paper(spread), 1.6, 12.0)});
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
      put(symbol(tree, kind ? kind->says : tree.kind), std::move(shape));
    }
  }

  const PlanView& view_;
  const Garden& garden_;
  std::vector<PlanSymbol>& into_;
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

/// The symbol's own call.
struct Draws {
  const geometry::Mark& mark;
  geometry::Group& into;

  void operator()(const BedSymbol& bed) const {
    append_bed(into, mark, {bed.outline, bed.board_mm, bed.downhill, std::nullopt});
  }
  void operator()(const LineSymbol& line) const {
    if (line.look == LineSymbol::Look::kHedge) append_hedge(into, mark, line.line, line.figure_mm);
    if (line.look == LineSymbol::Look::kFence) append_fence(into, mark, line.line, line.figure_mm);
    if (line.look == LineSymbol::Look::kWall) append_wall(into, mark, line.line, line.figure_mm);
  }
  void operator()(const RoundSymbol& round) const {
    using Look = RoundSymbol::Look;
    if (round.look == Look::kTank) append_tank(into, mark, round.at, round.across_mm);
    if (round.look == Look::kContainer) append_container(into, mark, round.at, round.across_mm);
    if (round.look == Look::kPlant) append_plant(into, mark, round.at, round.across_mm);
  }
  void operator()(const ObjectSymbol& object) const { append_object(into, mark, object.outline); }
  void operator()(const CoverSymbol& cover) const {
    append_cover(into, mark, cover.outline, cover.look);
  }
  void operator()(const SpotSymbol& spot) const {
    if (spot.look == SpotSymbol::Look::kTap) append_tap(into, mark, spot.at);
    if (spot.look == SpotSymbol::Look::kPeg) append_peg(into, mark, spot.at);
  }
  void operator()(const GateSymbol& gate) const {
    append_gate(into, mark, gate.hinge, gate.latch, true);
  }
  void operator()(const ViewpointSymbol& view) const {
    append_viewpoint(into, mark, view.at, view.facing);
  }
  void operator()(const MoveSymbol& move) const {
    append_move_arrow(into, mark, move.from, move.to);
  }
  void operator()(const geometry::BuildingShape& shape) const {
    append_building(into, mark, shape);
  }
  void operator()(const geometry::SeatShape& shape) const { append_seat(into, mark, shape); }
  void operator()(const geometry::SupportShape& shape) const { append_support(into, mark, shape); }
  void operator()(const geometry::TreeShape& shape) const { append_tree(into, mark, shape); }
};

}  // namespace

void draw(const PlanSymbol& symbol, geometry::Group& into) {
  std::visit(Draws{symbol.mark, into}, symbol.shape);
}

std::vector<PlanSymbol> symbols_of(const PlanView& view) {
  std::vector<PlanSymbol> symbols;
  std::set<std::string> moved;
  if (view.found != nullptr) {
    std::set<std::string> still;
    for (const Entry& entry : view.garden.entries) still.insert(entry.id);
    moved = moved_between(*view.found, view.garden);
    Drawer(
        view, *view.found, symbols,
        [&](const Thing& thing) { return still.count(thing.id) == 0 || moved.count(thing.id) > 0; },
        true)
        .all();
  }
  Drawer(
      view, view.garden, symbols, [](const Thing&) { return true; }, false)
      .all();
  if (moved.empty()) return symbols;
  const auto then = middles_of(*view.found), now = middles_of(view.garden);
  for (const std::string& id : moved) {
    geometry::Mark mark;
    mark.id = id + "-moved";
    mark.title = id + " moved";
    mark.status = Status::kProposed;
    symbols.push_back({mark, MoveSymbol{view.map.paper(then.at(id)), view.map.paper(now.at(id))}});
  }
  return symbols;
}

void draw_things(const PlanView& view, geometry::Group& into) {
  for (const PlanSymbol& symbol : symbols_of(view)) draw(symbol, into);
}

}  // namespace spadework::garden
