// What lies on the ground, and the ground's own lines.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "garden/plan_drawing.h"
#include "geometry/symbols.h"

namespace spadework::garden {
namespace {

using geometry::Group;
using geometry::Status;
using Segments = std::vector<std::pair<Vec2, Vec2>>;

geometry::Mark mark_of(const Thing& thing) {
  geometry::Mark mark;
  mark.id = thing.id;
  mark.status = thing.mark == Mark::kExisting ? Status::kFound : Status::kProposed;
  mark.guessed = !thing.guessed.empty();
  return mark;
}

geometry::Mark mark_of(const Flat& flat) {
  geometry::Mark mark = mark_of(static_cast<const Thing&>(flat));
  mark.title = flat.id + ", " + (flat.kind.empty() ? flat.table : flat.kind);
  return mark;
}

std::vector<Vec2> paper_line(const PlanView& view, const std::vector<Vec2>& line) {
  std::vector<Vec2> out;
  for (const Vec2 p : line) out.push_back(view.map.paper(p));
  return out;
}

void draw_flat(const PlanView& view, const Flat& flat, bool removed, Group& into) {
  geometry::Mark mark = mark_of(flat);
  if (removed) mark.id = "found-" + mark.id, mark.status = Status::kRemoved;
  if (flat.table == "area")
    append_area(into, mark, view.map.paper(flat.outline), geometry::AreaLook::kPlain);
  if (flat.table == "path")
    append_path(into, mark, paper_line(view, flat.line), view.map.paper(in_metres(flat.width)));
}

/// Paths and areas as found that are not there any more, or lie elsewhere.
std::vector<const Flat*> gone(const PlanView& view) {
  std::vector<const Flat*> out;
  if (view.found == nullptr) return out;
  for (const Flat& was : view.found->flats) {
    const auto is_kept = [&](const Flat& now) {
      return now.id == was.id && now.line == was.line && now.outline == was.outline;
    };
    if (std::none_of(view.garden.flats.begin(), view.garden.flats.end(), is_kept))
      out.push_back(&was);
  }
  return out;
}

/// The parts of a segment inside a convex ring.
bool clip_to(const Polygon& convex, Vec2& a, Vec2& b) {
  double low = 0, high = 1;
  const Vec2 along = b - a;
  for (std::size_t i = 0; i < convex.size(); ++i) {
    const Vec2 p = convex[i], edge = convex[(i + 1) % convex.size()] - p;
    const double at = cross(edge, a - p), step = cross(edge, along);
    if (std::abs(step) < 1e-12) {
      if (at < 0) return false;
      continue;
    }
    const double t = -at / step;
    if (step > 0)
      low = std::max(low, t);
    else
      high = std::min(high, t);
  }
  if (high - low < 1e-9) return false;
  b = a + along * high;
  a = a + along * low;
  return true;
}

Segments contour_segments(const geometry::Surface& ground, double level,
                          const std::vector<Polygon>& within) {
  Segments out;
  for (const geometry::Facet& facet : ground.facets()) {
    std::vector<Vec2> cuts;
    for (std::size_t k = 0; k < 3; ++k) {
      const Vec2 a = facet.corners[k], b = facet.corners[(k + 1) % 3];
      const double za = facet.incline.at(a) - level, zb = facet.incline.at(b) - level;
      if ((za < 0) != (zb < 0)) cuts.push_back(a + (b - a) * (za / (za - zb)));
    }
    if (cuts.size() != 2) continue;
    for (const Polygon& part : within) {
      Vec2 a = cuts[0], b = cuts[1];
      if (clip_to(part, a, b) && geometry::length(b - a) > 1e-6) out.push_back({a, b});
    }
  }
  return out;
}

/// Segments joined end to end.
std::vector<std::vector<Vec2>> chains_of(Segments segments) {
  const auto near = [](Vec2 a, Vec2 b) { return geometry::length(a - b) < 1e-4; };
  std::vector<std::vector<Vec2>> chains;
  while (!segments.empty()) {
    std::vector<Vec2> chain{segments.back().first, segments.back().second};
    segments.pop_back();
    for (std::size_t i = 0; i < segments.size();) {
      const auto [a, b] = segments[i];
      if (near(chain.back(), a))
        chain.push_back(b);
      else if (near(chain.back(), b))
        chain.push_back(a);
      else if (near(chain.front(), a))
        chain.insert(chain.begin(), b);
      else if (near(chain.front(), b))
        chain.insert(chain.begin(), a);
      else {
        ++i;
        continue;
      }
      segments.erase(segments.begin() + static_cast<std::ptrdiff_t>(i));
      i = 0;
    }
    chains.push_back(std::move(chain));
  }
  return chains;
}

Polygon limits_of(const Garden& garden) {
  if (garden.boundary.size() >= 3) return garden.boundary;
  const geometry::Box2 box = extent(garden);
  return geometry::rectangle(box.low, box.high - box.low, 0);
}

}  // namespace

double north_on_paper(const Garden& garden) {
  return in_radians(degrees(90) + garden.site.plan_north);
}

std::vector<double> contour_levels(double low, double high) {
  constexpr double kMost = 9;
  std::vector<double> levels;
  for (const double step : {0.05, 0.1, 0.25, 0.5, 1.0, 2.5, 5.0, 10.0, 25.0, 50.0}) {
    const double first = std::ceil(low / step + 1e-9), last = std::floor(high / step - 1e-9);
    if (last - first + 1 > kMost) continue;
    for (double k = first; k <= last; ++k) levels.push_back(k * step);
    break;
  }
  return levels;
}

geometry::Mark boundary_mark(const Garden& garden) {
  geometry::Mark mark;
  mark.id = "boundary";
  mark.title = "boundary";
  mark.guessed = std::any_of(garden.entries.begin(), garden.entries.end(), [](const Entry& entry) {
    return entry.table == "boundary" && !entry.guessed().empty();
  });
  return mark;
}

void draw_ground_cover(const PlanView& view, Group& into) {
  for (const Flat* flat : gone(view)) draw_flat(view, *flat, true, into);
  for (const char* table : {"area", "path"})
    for (const Flat& flat : view.garden.flats)
      if (flat.table == table) draw_flat(view, flat, false, into);
}

void draw_in_ground(const PlanView& view, Group& into) {
  static const std::map<std::string, std::string, std::less<>> letters = {
      {"electric", "E"}, {"gas", "G"}, {"water", "W"}, {"drain", "D"}, {"cable", "C"}};
  for (const Flat& flat : view.garden.flats) {
    if (flat.table == "patch") append_patch(into, mark_of(flat), view.map.paper(flat.outline));
    if (flat.table != "service") continue;
    const auto letter = letters.find(flat.kind);
    append_service(into, mark_of(flat), paper_line(view, flat.line),
                   letter == letters.end() ? "?" : letter->second);
  }
}

void draw_sights(const PlanView& view, Group& into) {
  for (const Sight& sight : view.garden.sights) {
    geometry::Mark mark = mark_of(sight);
    mark.title = sight.id + ", " + sight.table;
    const auto look = sight.table == "hide"    ? geometry::SightLook::kShut
                      : sight.table == "watch" ? geometry::SightLook::kWatched
                                               : geometry::SightLook::kOpen;
    for (const Vec2 from : sight.from)
      append_sight(into, mark, view.map.paper(from), view.map.paper(sight.to),
                   view.map.paper(in_metres(sight.corridor)), look);
  }
}

void draw_levels(const PlanView& view, Group& into) {
  const Polygon limits = limits_of(view.garden);
  const auto within = geometry::convex_parts(limits);
  const auto range = view.ground.range_under(limits);
  // Levels are told in the unit in which the garden is measured.
  const double unit_m = view.garden.site.imperial ? 0.3048 : 1;
  for (const double told : contour_levels(range.low / unit_m, range.high / unit_m)) {
    const double level = told * unit_m;
    for (const auto& chain : chains_of(contour_segments(view.ground, level, within))) {
      std::vector<Vec2> line;
      double whole = 0;
      for (const Vec2 p : chain) {
        if (!line.empty()) whole += geometry::length(view.map.paper(p) - line.back());
        line.push_back(view.map.paper(p));
      }
      if (whole < 8) continue;  // scraps at the edge
      geometry::Mark mark;
      const std::string figure = fmt::format("{:.2f}", std::abs(told) < 1e-9 ? 0.0 : told);
      mark.id = "contour-" + figure;
      mark.guessed = view.garden.ground.guessed;
      mark.title = "contour at " + figure + (view.garden.site.imperial ? " ft" : " m");
      append_contour(into, mark, line, figure);
    }
  }
}

}  // namespace spadework::garden
