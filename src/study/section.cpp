#include "study/section.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "garden/bodies.h"
#include "study/answers.h"
#include "study/section_parts.h"

namespace spadework::study {
namespace {

using geometry::Vec2;

constexpr double kShortest_m = 0.1, kLongest_m = 500;
constexpr double kBeside_m = 1;

Error wrong_line(const char* where, std::string message, std::string hint) {
  return {ErrorCode::kWrongUse, where, std::move(message), std::move(hint)};
}

bool within(const geometry::Box2& box, Vec2 p) {
  return p.x >= box.low.x && p.x <= box.high.x && p.y >= box.low.y && p.y <= box.high.y;
}

Result<SectionPlane> plane_of(const Stand& stand, const SectionLine& line) {
  for (const double x : {line.from.x, line.from.y, line.to.x, line.to.y}) {
    if (!std::isfinite(x))
      return tl::unexpected(wrong_line("line", "The line of the section has no place.",
                                       "Two numbers for each end, metres on the plan."));
  }
  const double length_m = geometry::length(line.to - line.from);
  if (length_m < kShortest_m)
    return tl::unexpected(wrong_line("to", "The line of the section begins and ends at one place.",
                                     "Let it end at least 0.1 m from where it begins."));
  if (length_m > kLongest_m)
    return tl::unexpected(wrong_line(
        "to", fmt::format("A section {:.0f} m long is more than a sheet shows.", length_m),
        "At most 500 m."));
  const SectionPlane plane{line.from, geometry::unit(line.to - line.from), length_m};
  geometry::Box2 all = garden::extent(stand.garden);
  constexpr double kNear_m = 1;  // a line along the garden's edge still shows it
  all.low = all.low - Vec2{kNear_m, kNear_m}, all.high = all.high + Vec2{kNear_m, kNear_m};
  const geometry::Polygon around{
      all.low, {all.high.x, all.low.y}, all.high, {all.low.x, all.high.y}};
  if (stretches_within(around, plane).empty())
    return tl::unexpected(wrong_line("from", "The line of the section passes the garden by.",
                                     "Draw it through what it is to show."));
  for (const auto& [end, where] : {std::pair{line.from, "from"}, {line.to, "to"}}) {
    if (!within(stand.surface.domain(), end))
      return tl::unexpected(wrong_line(
          where, "The line of the section goes far out of the garden, where no ground is known.",
          "Let it end within 10 m of what is drawn."));
  }
  return plane;
}

std::vector<Vec2> ground_along(const geometry::Surface& surface, const SectionPlane& plane) {
  std::vector<Vec2> line;
  for (const double share : surface.breaks_along(plane.from, plane.at(plane.length_m))) {
    const Vec2 next{share * plane.length_m, surface.at(plane.at(share * plane.length_m))};
    if (line.size() >= 2) {  // no break where facets lie on one plane
      const Vec2 a = line[line.size() - 2], b = line.back();
      const double straight = a.y + (next.y - a.y) * (b.x - a.x) / (next.x - a.x);
      if (std::abs(straight - b.y) < 1e-9) line.pop_back();
    }
    if (line.empty() || next.x - line.back().x > 1e-9) line.push_back(next);
  }
  return line;
}

/// What of some stretches is not in others.
std::vector<SectionStretch> without(const SectionStretch& outer,
                                    const std::vector<SectionStretch>& inner) {
  std::vector<SectionStretch> out;
  double at = outer.from_m;
  for (const SectionStretch& gap : inner) {
    if (gap.to_m <= outer.from_m || gap.from_m >= outer.to_m) continue;
    if (gap.from_m - at > 1e-6) out.push_back({at, gap.from_m});
    at = gap.to_m;
  }
  if (outer.to_m - at > 1e-6) out.push_back({at, outer.to_m});
  return out;
}

std::vector<SectionBed> beds_along(const Stand& stand, const SectionPlane& plane) {
  std::vector<SectionBed> beds;
  for (std::size_t i = 0; i < stand.garden.beds.size(); ++i) {
    const garden::Bed& bed = stand.garden.beds[i];
    const double level_m = stand.bed_levels_m[i];
    for (const SectionStretch& cut : stretches_within(bed.outline, plane)) {
      SectionBed one{bed.id,
                     bed.mark,
                     !bed.guessed.empty(),
                     cut.from_m,
                     cut.to_m,
                     level_m,
                     stand.surface.at(plane.at(cut.from_m)),
                     stand.surface.at(plane.at(cut.to_m)),
                     {}};
      if (bed.boards) {
        const double top_m = level_m + in_metres(bed.freeboard);
        const auto inner = geometry::inset(bed.outline, in_metres(bed.boards->thickness));
        one.boards =
            SectionBed::Boards{top_m, top_m - in_metres(bed.boards->height) * bed.boards->courses,
                               without(cut, inner.empty() ? std::vector<SectionStretch>{}
                                                          : stretches_within(inner, plane))};
      }
      beds.push_back(std::move(one));
    }
  }
  std::sort(beds.begin(), beds.end(), [](const SectionBed& a, const SectionBed& b) {
    return a.from_m < b.from_m || (a.from_m == b.from_m && a.id < b.id);
  });
  return beds;
}

/// What is known of a thing beside its shape.
std::map<std::string, SectionThing> named_things(const garden::Garden& garden) {
  std::map<std::string, SectionThing> out;
  const auto add = [&](const auto& things, const char* table) {
    for (const garden::Thing& thing : things) {
      SectionThing& one = out[thing.id];
      one.id = thing.id, one.table = table;
      one.mark = thing.mark, one.guessed = !thing.guessed.empty();
    }
  };
  add(garden.walls, "wall");
  add(garden.buildings, "building");
  add(garden.trees, "tree");
  add(garden.supports, "support");
  add(garden.seats, "seat");
  add(garden.plants, "plant");
  add(garden.containers, "container");
  add(garden.covers, "cover");
  add(garden.tanks, "tank");
  add(garden.objects, "object");
  return out;
}

bool stands_on(const garden::Body& body, const std::optional<SectionMoment>& moment) {
  if (moment) return body.depth_on(day_of_year(moment->date)) > 0;
  return std::any_of(body.depth.begin(), body.depth.end(), [](float depth) { return depth > 0; });
}

/// Walls, buildings and plants come in pieces that are one.
void join_outlines(SectionThing& thing) {
  if (thing.table != "wall" && thing.table != "building" && thing.table != "plant") return;
  std::vector<Ring> rings;
  for (const SectionThing::Outline& outline : thing.outlines) rings.push_back(outline.ring);
  const garden::Through through = thing.outlines.front().through;
  thing.outlines.clear();
  for (Ring& ring : joined(rings)) thing.outlines.push_back({std::move(ring), through});
}

void measure(SectionThing& thing) {
  thing.from_m = 1e300, thing.to_m = -1e300, thing.top_m = -1e300;
  for (const SectionThing::Outline& outline : thing.outlines) {
    const geometry::Box2 box = geometry::bounds(outline.ring);
    thing.from_m = std::min(thing.from_m, box.low.x);
    thing.to_m = std::max(thing.to_m, box.high.x);
    thing.top_m = std::max(thing.top_m, box.high.y);
  }
}

/// The things of `shape_of`'s outlines, by where they begin; those in `but` are left out.
template <class ShapeOf>
std::vector<SectionThing> things_of(const Stand& stand, const std::optional<SectionMoment>& moment,
                                    const std::vector<SectionThing>& but, ShapeOf&& shape_of) {
  std::map<std::string, SectionThing> things = named_things(stand.garden);
  for (const SectionThing& thing : but) things.erase(thing.id);
  for (const garden::Body& body : stand.bodies) {
    const auto thing = things.find(body.thing);
    if (thing == things.end() || !stands_on(body, moment)) continue;
    Ring ring = shape_of(body);
    if (!ring.empty()) thing->second.outlines.push_back({std::move(ring), body.through});
  }
  std::vector<SectionThing> out;
  for (auto& [id, thing] : things) {
    if (thing.outlines.empty()) continue;
    join_outlines(thing);
    if (thing.outlines.empty()) continue;
    measure(thing);
    out.push_back(std::move(thing));
  }
  std::stable_sort(out.begin(), out.end(), [](const SectionThing& a, const SectionThing& b) {
    return a.from_m < b.from_m;
  });
  return out;
}

/// The lowest level that a body stands on: bodies go on into the ground, so that none hangs over a
/// slope.
double foot_of(const Stand& stand, const garden::Body& body) {
  const auto level = [&](Vec2 p) {
    return garden::standing_level(stand.garden, stand.surface, stand.bed_levels_m, p);
  };
  if (const auto* round = std::get_if<geometry::RoundSolid>(&body.shape)) return level(round->axis);
  double lowest = std::numeric_limits<double>::infinity();
  for (const geometry::Vec3& corner : std::get<geometry::Solid>(body.shape).corners)
    lowest = std::min(lowest, level(corner.plan()));
  return lowest;
}

std::optional<Error> wrong_scale(const SectionLine& line, double mm_per_m) {
  constexpr double kWidest_mm = 3000;
  if (mm_per_m == 0) return std::nullopt;
  if (!(mm_per_m >= kLeastSectionScale && mm_per_m <= kMostSectionScale))
    return wrong_line("mm_per_m", "That is no scale for a section.",
                      fmt::format("From {:g} to {:g} mm on paper for a metre; 20 is 1 : 50.",
                                  kLeastSectionScale, kMostSectionScale));
  if (geometry::length(line.to - line.from) * mm_per_m > kWidest_mm)
    return wrong_line("mm_per_m", "At that scale the section is wider than 3 m of paper.",
                      "Take fewer millimetres for a metre, or a shorter line.");
  return std::nullopt;
}

std::string moment_says(const SectionMoment& moment) {
  return fmt::format("{} {}, {}", static_cast<unsigned>(moment.date.day()),
                     month_name(static_cast<unsigned>(moment.date.month())),
                     clock_text(moment.clock_h, false));
}

}  // namespace

double level_on(const std::vector<Vec2>& line, double along_m) {
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const Vec2 a = line[i], b = line[i + 1];
    if (along_m <= b.x && b.x - a.x > 1e-12)
      return a.y + (b.y - a.y) * std::clamp((along_m - a.x) / (b.x - a.x), 0.0, 1.0);
  }
  return line.back().y;
}

std::vector<Vec2> part_of(const std::vector<Vec2>& line, double from_m, double to_m) {
  std::vector<Vec2> out;
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const Vec2 a = line[i], b = line[i + 1];
    if (b.x < from_m || a.x > to_m) continue;
    const auto at = [&](double s) {
      return b.x - a.x < 1e-12 ? a.y : a.y + (b.y - a.y) * (s - a.x) / (b.x - a.x);
    };
    const double s0 = std::max(a.x, from_m), s1 = std::min(b.x, to_m);
    const Vec2 p{s0, at(s0)}, q = b.x - a.x < 1e-12 ? b : Vec2{s1, at(s1)};
    if (q.x - p.x < 1e-9 && (s0 <= from_m + 1e-9 || s0 >= to_m - 1e-9)) continue;
    if (out.empty() || geometry::length(out.back() - p) > 1e-9) out.push_back(p);
    out.push_back(q);
  }
  return out;
}

std::vector<Vec2> top_line(const Section& section) {
  std::vector<Vec2> out;
  const auto add = [&](const std::vector<Vec2>& part) {
    out.insert(out.end(), part.begin(), part.end());
  };
  double at = 0;
  for (const SectionBed& bed : section.beds) {
    if (bed.to_m <= at + 1e-9) continue;  // of beds that overlap the first
    const double from_m = std::max(at, bed.from_m);
    if (from_m - at > 1e-9) add(part_of(section.ground, at, from_m));
    add({{from_m, bed.level_m}, {bed.to_m, bed.level_m}});
    at = bed.to_m;
  }
  if (section.length_m - at > 1e-9) add(part_of(section.ground, at, section.length_m));
  return out;
}

Result<Section> section_of(const Stand& stand, const facts::Catalogue& catalogue,
                           const SectionLine& line, const std::optional<SectionMoment>& moment) {
  const auto plane = plane_of(stand, line);
  if (!plane) return tl::unexpected<Error>(plane.error());
  Section section;
  section.length_m = plane->length_m;
  section.ground = ground_along(stand.surface, *plane);
  section.beds = beds_along(stand, *plane);
  section.cuts =
      things_of(stand, moment, {}, [&](const garden::Body& body) { return cut_of(body, *plane); });
  std::vector<SectionThing> whole = section.cuts;  // of a tree the stem may stand beside the cut
  std::erase_if(whole, [](const SectionThing& thing) { return thing.table == "tree"; });
  section.beside = things_of(stand, moment, whole, [&](const garden::Body& body) {
    if (!cut_of(body, *plane).empty()) return Ring{};
    return not_below(seen_beside(body, *plane, kBeside_m), foot_of(stand, body));
  });
  if (moment) add_sun(stand, catalogue, *plane, *moment, section);
  return section;
}

Result<SectionPicture> section_picture(Study& study, const std::string& scheme,
                                       const SectionLine& line,
                                       const std::optional<SectionMoment>& moment,
                                       double mm_per_m) {
  const auto stand = study.stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  if (const auto wrong = wrong_scale(line, mm_per_m)) return tl::unexpected<Error>(*wrong);
  auto section = section_of(**stand, study.catalogue(), line, moment);
  if (!section) return tl::unexpected<Error>(section.error());
  std::string says = scheme_says(scheme);
  says[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(says[0])));
  says += ": section from A to B";
  if (moment)
    says += fmt::format(", {}{}", moment_says(*moment), section->sun ? ", clear sky" : "");
  geometry::Drawing drawing = section_drawing({*section, (*stand)->garden, says, mm_per_m});
  return SectionPicture{std::move(*section), std::move(drawing)};
}

}  // namespace spadework::study
