#include "geometry/drawing.h"

#include <cmath>
#include <utility>

namespace spadework::geometry {

namespace {

template <class... Ts>
struct Overloaded : Ts... {
  using Ts::operator()...;
};
template <class... Ts>
Overloaded(Ts...) -> Overloaded<Ts...>;

bool finite(double v) { return std::isfinite(v); }
bool finite(Vec2 p) { return std::isfinite(p.x) && std::isfinite(p.y); }
bool finite(const Paint& paint) { return std::isfinite(paint.opacity); }
bool finite(const Affine& a) { return finite(a.origin) && finite(a.along) && finite(a.down); }

bool finite(const Path& path) {
  for (const PathStep& step : path.steps())
    if (!finite(step.to) || !finite(step.handle_from) || !finite(step.handle_to)) return false;
  return true;
}

bool finite(const Fill& fill) {
  return std::visit(Overloaded{[](const Paint& paint) { return finite(paint); },
                               [](const LineHatch& h) {
                                 return finite(h.angle_rad) && finite(h.spacing_mm) &&
                                        finite(h.weight_mm) && finite(h.anchor) && finite(h.ink);
                               },
                               [](const Stipple& s) {
                                 return finite(s.per_mm2) && finite(s.dot_mm) && finite(s.anchor) &&
                                        finite(s.keep_off_mm) && finite(s.toward) && finite(s.ink);
                               }},
                    fill);
}

bool sound(const Shape& shape) {
  for (const Fill& fill : shape.fills)
    if (!finite(fill)) return false;
  if (shape.stroke && !(finite(shape.stroke->weight_mm) && finite(shape.stroke->casing_mm) &&
                        finite(shape.stroke->ink)))
    return false;
  return finite(shape.path);
}

bool sound(const Dots& dots) {
  for (const Vec2 p : dots.at)
    if (!finite(p)) return false;
  return finite(dots.dot_mm) && finite(dots.ink);
}

bool sound(const CellImage& image) {
  if (image.columns < 0 || image.rows < 0) return false;
  const std::size_t n =
      static_cast<std::size_t>(image.columns) * static_cast<std::size_t>(image.rows);
  return image.cells.size() == n && (image.present.empty() || image.present.size() == n) &&
         finite(image.placement);
}

bool sound(const Text& text) {
  if (text.chip && !(finite(text.chip->pad_x_mm) && finite(text.chip->pad_y_mm) &&
                     finite(text.chip->round_mm) && finite(text.chip->paper)))
    return false;
  return finite(text.at) && finite(text.size_mm) && finite(text.turn_rad) && finite(text.halo_mm) &&
         finite(text.wrap_mm) && finite(text.leading) && finite(text.ink);
}

bool sound(const Group& group) {
  if (!finite(group.opacity) || (group.clip && !finite(*group.clip))) return false;
  for (const Element& element : group.elements)
    if (!std::visit([](const auto& what) { return sound(what); }, element.what)) return false;
  return true;
}

void count(const Group& group, ElementCount& total) {
  for (const Element& element : group.elements)
    std::visit(
        Overloaded{[&](const Shape&) { ++total.shapes; }, [&](const Dots&) { ++total.dots; },
                   [&](const CellImage&) { ++total.images; }, [&](const Text&) { ++total.texts; },
                   [&](const Group& inner) {
                     ++total.groups;
                     count(inner, total);
                   }},
        element.what);
}

}  // namespace

void Group::add(Element element) { elements.push_back(std::move(element)); }

Group& Group::add_group(std::string group_id, std::string group_title) {
  Group group;
  group.id = std::move(group_id);
  group.title = std::move(group_title);
  elements.push_back(Element{std::move(group)});
  return std::get<Group>(elements.back().what);
}

ElementCount count_elements(const Group& group) {
  ElementCount total;
  count(group, total);
  return total;
}

bool is_sound(const Drawing& drawing) {
  return finite(drawing.width_mm) && finite(drawing.height_mm) && sound(drawing.root);
}

double cap_height(Face face) { return face == Face::kSans ? 0.668 : 0.676; }

}  // namespace spadework::geometry
