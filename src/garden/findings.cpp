#include "garden/findings.h"

#include <fmt/format.h>

#include <algorithm>

#include "garden/garden.h"

namespace spadework::garden {
namespace {

using geometry::area;
using geometry::convex_parts;
using geometry::shared_part;

constexpr double kTouching_m2 = 0.02;  // less than this is a line drawn a little over another

double shared_area(const Polygon& a, const Polygon& b) {
  double sum = 0;
  const auto other = convex_parts(b);
  for (const Polygon& part : convex_parts(a)) {
    for (const Polygon& piece : other) {
      const Polygon shared = shared_part(part, piece);
      if (!shared.empty()) sum += area(shared);
    }
  }
  return sum;
}

struct Outlined {
  std::string id;
  Polygon outline;
  geometry::Box2 box;
};

Outlined outlined(const std::string& id, const Polygon& outline) {
  return {id, outline, geometry::bounds(outline)};
}

bool boxes_meet(const geometry::Box2& a, const geometry::Box2& b) {
  return a.low.x < b.high.x && b.low.x < a.high.x && a.low.y < b.high.y && b.low.y < a.high.y;
}

Trace square_metres_trace(std::string name, double m2) {
  Trace trace;
  trace.name = std::move(name);
  trace.number = m2;
  trace.has_number = true;
  trace.unit = "m²";
  trace.value = fmt::format("{:.2f} m²", m2);
  trace.method = "The area that both outlines cover.";
  return trace;
}

std::vector<Outlined> solids_of(const Garden& garden) {
  std::vector<Outlined> out;
  for (const Building& b : garden.buildings) out.push_back(outlined(b.id, b.outline));
  for (const Object& o : garden.objects) out.push_back(outlined(o.id, o.outline));
  return out;
}

std::vector<Outlined> beds_of(const Garden& garden) {
  std::vector<Outlined> out;
  for (const Bed& b : garden.beds) out.push_back(outlined(b.id, b.outline));
  return out;
}

void tell_overlap(const Outlined& a, const Outlined& b, Grade grade, const char* mend, Units units,
                  std::vector<Finding>& out) {
  if (!boxes_meet(a.box, b.box)) return;
  const double m2 = shared_area(a.outline, b.outline);
  if (m2 < kTouching_m2) return;
  Finding finding;
  finding.grade = grade;
  finding.about = {a.id, b.id};
  finding.says =
      fmt::format("{} and {} overlap by {}.", a.id, b.id, area_says(square_metres(m2), units));
  finding.numbers = {square_metres_trace(fmt::format("overlap of {} and {}", a.id, b.id), m2)};
  finding.mend = {mend};
  out.push_back(std::move(finding));
}

void find_overlaps(const Garden& garden, Units units, std::vector<Finding>& out) {
  const auto solids = solids_of(garden), beds = beds_of(garden);
  for (std::size_t i = 0; i < solids.size(); ++i) {
    for (std::size_t j = i + 1; j < solids.size(); ++j)
      tell_overlap(solids[i], solids[j], Grade::kShould,
                   "If they join, leave it; otherwise measure both again.", units, out);
  }
  for (std::size_t i = 0; i < beds.size(); ++i) {
    for (const Outlined& solid : solids)
      tell_overlap(beds[i], solid, Grade::kMust, "Move the bed, or mark the other as removed.",
                   units, out);
    for (std::size_t j = i + 1; j < beds.size(); ++j)
      tell_overlap(beds[i], beds[j], Grade::kMust, "Move or shorten one of the beds.", units, out);
  }
}

void find_in_buildings(const Garden& garden, std::vector<Finding>& out) {
  const auto tell = [&](const std::string& id, const std::string& in, const char* mend) {
    out.push_back(
        {Grade::kMust, {id, in}, fmt::format("{} stands inside {}.", id, in), {}, {}, {mend}});
  };
  for (const Building& building : garden.buildings) {
    for (const Tree& tree : garden.trees) {
      if (geometry::contains(building.outline, tree.at))
        tell(tree.id, building.id, "Measure where the stem stands once more.");
    }
    for (const Seat& seat : garden.seats) {
      if (geometry::contains(building.outline, seat.at))
        tell(seat.id, building.id,
             "Move the seat out, or draw the building as a seat with a roof.");
    }
    for (const Plant& plant : garden.plants) {
      for (const Vec2 stem : plant.stems) {
        if (!geometry::contains(building.outline, stem)) continue;
        tell(plant.id, building.id, "Move the row.");
        break;
      }
    }
  }
}

void find_outside(const Garden& garden, Units units, std::vector<Finding>& out) {
  if (garden.boundary.size() < 3) return;
  for (const Bed& bed : garden.beds) {
    const double outside = area(bed.outline) - shared_area(bed.outline, garden.boundary);
    if (outside < kTouching_m2) continue;
    Finding finding;
    finding.grade = Grade::kShould;
    finding.about = {bed.id};
    finding.says = fmt::format("{} of {} lie outside the boundary.",
                               area_says(square_metres(outside), units), bed.id);
    finding.numbers = {square_metres_trace(bed.id + " outside the boundary", outside)};
    finding.mend = {"Move the bed, or measure the boundary there again."};
    out.push_back(std::move(finding));
  }
}

}  // namespace

std::string_view grade_name(Grade grade) {
  switch (grade) {
    case Grade::kMust:
      return "must";
    case Grade::kShould:
      return "should";
    case Grade::kNote:
      return "note";
  }
  return "note";
}

void sort_findings(std::vector<Finding>& findings) {
  std::stable_sort(findings.begin(), findings.end(), [](const Finding& a, const Finding& b) {
    return a.grade != b.grade ? a.grade < b.grade : a.about < b.about;
  });
}

std::vector<Finding> layout_findings(const Garden& garden, Units units) {
  std::vector<Finding> out;
  find_overlaps(garden, units, out);
  find_in_buildings(garden, out);
  find_outside(garden, units, out);
  sort_findings(out);
  return out;
}

}  // namespace spadework::garden
