// Names on the plan, each beside what it names and clear of the others.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/text.h"
#include "garden/bodies.h"
#include "garden/plan_drawing.h"
#include "geometry/symbols.h"

namespace spadework::garden {
namespace {

using geometry::Group;

void name(const std::string& words, const std::vector<Vec2>& middles, bool must, LabelRoom& room,
          Group& into) {
  Vec2 at;
  if (room.place(middles, name_size(words), must, at)) append_name(into, at, words, kNameMm);
}

/// Below, above, to the right and the left of something `reach` from its middle.
std::vector<Vec2> around(Vec2 middle, double reach, const std::string& words) {
  const Vec2 size = name_size(words);
  const double down = reach + size.y * 0.75, side = reach + size.x / 2 + 0.8;
  return {middle + Vec2{0, down},           middle - Vec2{0, down},
          middle + Vec2{side, 0},           middle - Vec2{side, 0},
          middle + Vec2{side * 0.8, down},  middle + Vec2{-side * 0.8, down},
          middle + Vec2{side * 0.8, -down}, middle + Vec2{-side * 0.8, -down}};
}

void name_wall(const PlanView& view, const Wall& wall, LabelRoom& room, Group& into) {
  std::size_t longest = 0;
  for (std::size_t i = 0; i + 1 < wall.line.size(); ++i) {
    if (geometry::length(wall.line[i + 1] - wall.line[i]) >
        geometry::length(wall.line[longest + 1] - wall.line[longest]))
      longest = i;
  }
  const Vec2 a = view.map.paper(wall.line[longest]), b = view.map.paper(wall.line[longest + 1]);
  const Vec2 size = name_size(wall.id);
  if (geometry::length(b - a) < size.x + 2) return;
  Vec2 along = geometry::unit(b - a);
  if (along.x < -1e-9 || (std::abs(along.x) < 1e-9 && along.y > 0)) along = along * -1.0;
  const double off = view.map.paper(in_metres(wall.thickness.value_or(metres(0.1)))) / 2 + 1.9;
  const Vec2 across = geometry::left_of(along);
  const Vec2 box{std::abs(along.x) * size.x + std::abs(along.y) * size.y,
                 std::abs(along.y) * size.x + std::abs(along.x) * size.y};
  std::vector<Vec2> middles;
  for (const double share : {0.5, 0.3, 0.7, 0.2, 0.8}) {
    for (const double side : {1.0, -1.0})
      middles.push_back(a + (b - a) * share + across * (off * side));
  }
  Vec2 at;
  if (!room.place(middles, box, false, at)) return;
  geometry::Text text;
  text.at = at;
  text.words = wall.id;
  text.face = geometry::Face::kSerifItalic;
  text.size_mm = kNameMm;
  text.anchor = geometry::Anchor::kMiddle;
  text.rise = geometry::Rise::kMiddle;
  text.turn_rad = geometry::paper_angle(along);
  text.halo_mm = 0.5;
  into.add({text});
}

}  // namespace

Vec2 name_size(const std::string& words) {
  // The italic's letters are 0.47 of the size wide in the mean.
  return {shown_width(words) * kNameMm * 0.47 + 0.8, kNameMm * 1.05};
}

bool LabelRoom::place(const std::vector<Vec2>& middles, Vec2 size, bool must, Vec2& taken) {
  const auto box_at = [&](Vec2 middle) {
    return geometry::Box2{middle - size * 0.5, middle + size * 0.5};
  };
  const auto is_free = [&](const geometry::Box2& box) {
    return std::none_of(boxes_.begin(), boxes_.end(), [&](const geometry::Box2& other) {
      return box.low.x < other.high.x && other.low.x < box.high.x && box.low.y < other.high.y &&
             other.low.y < box.high.y;
    });
  };
  for (const Vec2 middle : middles) {
    if (!is_free(box_at(middle))) continue;
    boxes_.push_back(box_at(middle));
    taken = middle;
    return true;
  }
  if (!must) return false;
  boxes_.push_back(box_at(middles.front()));
  taken = middles.front();
  return true;
}

void draw_names(const PlanView& view, LabelRoom& room, Group& into) {
  const auto paper = [&](Vec2 p) { return view.map.paper(p); };
  for (const Bed& bed : view.garden.beds) {
    if (room.is_named(bed.id)) continue;
    const Vec2 middle = paper(geometry::centroid(bed.outline));
    auto middles = around(middle, 1.6, bed.id);
    const auto outside = around(middle, view.map.paper(0.7), bed.id);
    middles.insert(middles.end(), outside.begin(), outside.end());
    name(bed.id, middles, true, room, into);
  }
  for (const Building& building : view.garden.buildings) {
    const Vec2 middle = paper(geometry::centroid(building.outline));
    auto middles = around(middle, 1.2, building.id);
    middles.insert(middles.begin(), middle);
    name(building.id, middles, false, room, into);
  }
  for (const Tree& tree : view.garden.trees)
    name(tree.id, around(paper(tree.at), 1.2, tree.id), false, room, into);
  for (const Seat& seat : view.garden.seats) {
    const double reach = view.map.paper(std::max(seat.size.x, seat.size.y) / 2);
    name(seat.id, around(paper(seat.at), reach, seat.id), false, room, into);
  }
  for (const Object& object : view.garden.objects) {
    const Vec2 middle = paper(geometry::centroid(object.outline));
    auto middles = around(middle, view.map.paper(0.6), object.id);
    middles.insert(middles.begin(), middle);
    name(object.id, middles, false, room, into);
  }
  for (const Wall& wall : view.garden.walls) name_wall(view, wall, room, into);
  for (const Container& container : view.garden.containers)
    name(container.id, around(paper(container.at), 1.6, container.id), false, room, into);
  for (const Plant& plant : view.garden.plants) {
    const Vec2 middle = paper((plant.stems.front() + plant.stems.back()) * 0.5);
    name(plant.id, around(middle, 2.0, plant.id), false, room, into);
  }
  for (const Support& support : view.garden.supports) {
    const Vec2 middle = paper((support.line.front() + support.line.back()) * 0.5);
    name(support.id, around(middle, 2.0, support.id), false, room, into);
  }
}

}  // namespace spadework::garden
