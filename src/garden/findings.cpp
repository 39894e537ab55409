#include "garden/findings.h"

#include <fmt/format.h>

#include <algorithm>

#include "garden/bodies.h"
#include "garden/body_makers.h"
#include "garden/garden.h"
#include "garden/overlaps.h"

namespace spadework::garden {
namespace {

Trace measure_trace(std::string name, double measure, const char* unit, const char* method) {
  Trace trace;
  trace.name = std::move(name);
  trace.number = measure;
  trace.has_number = true;
  trace.unit = unit;
  trace.value = fmt::format("{:.2f} {}", measure, unit);
  trace.method = method;
  return trace;
}

Trace square_metres_trace(std::string name, double m2) {
  return measure_trace(std::move(name), m2, "m²", "The area that both outlines cover.");
}

Trace metres_trace(std::string name, double far) {
  return measure_trace(
      std::move(name), far, "m",
      "How much of the line runs inside the outline, farther than 5 cm from its edge.");
}

/// All that covers ground, by what it is.
struct Footings {
  std::vector<Footing> beds, buildings, objects, tanks, seats, paths;
};

Footings footings_of(const Garden& garden) {
  constexpr int kRound = 24;  // sides of a round tank
  Footings out;
  for (const Bed& bed : garden.beds) out.beds.emplace_back(bed.id, bed.outline);
  for (const Building& one : garden.buildings) out.buildings.emplace_back(one.id, one.outline);
  for (const Object& object : garden.objects) out.objects.emplace_back(object.id, object.outline);
  for (const Tank& tank : garden.tanks) {
    const double radius = in_metres(round_width(tank.holds, tank_height(tank.holds))) / 2;
    out.tanks.emplace_back(tank.id, geometry::round_polygon(tank.at, radius, kRound));
  }
  for (const Seat& seat : garden.seats) {
    const Vec2 along = geometry::left_of(seat.facing) * -1.0;
    out.seats.emplace_back(seat.id, footprint(seat.at, along, seat.size.x, seat.size.y));
  }
  for (const Flat& flat : garden.flats)
    if (flat.table == "path") out.paths.emplace_back(flat.id, flat.line, in_metres(flat.width));
  return out;
}

/// What one sentence says of two that lie over each other: `says` is filled with both ids, and with
/// the area where it asks for it.
struct Judgement {
  Grade grade;
  const char* says;
  const char* mend;
};
constexpr const char* kOverlap = "{0} and {1} overlap by {2}.";
constexpr const char* kStandsIn = "{0} stands in {1}.";
constexpr const char* kStandsPartly = "{0} stands partly in {1}, by {2}.";

void tell(const Footing& a, const Footing& b, double m2, const Judgement& judgement, Units units,
          std::vector<Finding>& out) {
  constexpr double kSmall_m2 = 0.1;
  Finding finding;
  finding.grade = judgement.grade;
  finding.about = {a.id(), b.id()};
  finding.says = fmt::format(fmt::runtime(judgement.says), a.id(), b.id(),
                             area_says(square_metres(m2), units, m2 < kSmall_m2 ? 2 : 1));
  finding.numbers = {square_metres_trace(fmt::format("overlap of {} and {}", a.id(), b.id()), m2)};
  finding.mend = {judgement.mend};
  out.push_back(std::move(finding));
}

/// Each of some against each of others.
void find_over(const std::vector<Footing>& some, const std::vector<Footing>& others,
               const Judgement& judgement, Units units, std::vector<Finding>& out) {
  for (const Footing& a : some) {
    for (const Footing& b : others)
      if (const double m2 = a.overlap(b); m2 > 0) tell(a, b, m2, judgement, units, out);
  }
}

void find_among(const std::vector<Footing>& all, const Judgement& judgement, Units units,
                std::vector<Finding>& out) {
  for (std::size_t i = 0; i < all.size(); ++i) {
    for (std::size_t j = i + 1; j < all.size(); ++j)
      if (const double m2 = all[i].overlap(all[j]); m2 > 0)
        tell(all[i], all[j], m2, judgement, units, out);
  }
}

/// What stands in another, whole or in part.
void find_standing(const std::vector<Footing>& some, const std::vector<Footing>& others,
                   Grade grade, const char* mend, Units units, std::vector<Finding>& out) {
  constexpr double kWhole = 0.9;
  for (const Footing& a : some) {
    for (const Footing& b : others) {
      const double m2 = a.overlap(b);
      if (m2 <= 0) continue;
      const char* says = m2 > kWhole * a.area() ? kStandsIn : kStandsPartly;
      tell(a, b, m2, {grade, says, mend}, units, out);
    }
  }
}

void find_overlaps(const Footings& of, Units units, std::vector<Finding>& out) {
  constexpr const char* kMove = "Move one of them, or measure both again.";
  constexpr const char* kOutOfBed = "Move it out of the bed, or shorten the bed.";
  const Judgement join{Grade::kShould, kOverlap,
                       "If they join, leave it; otherwise measure both again."};
  find_among(of.buildings, join, units, out);
  find_over(of.buildings, of.objects, join, units, out);
  find_among(of.objects, join, units, out);
  find_among(of.beds, {Grade::kMust, kOverlap, "Move or shorten one of the beds."}, units, out);
  find_over(of.beds, of.buildings,
            {Grade::kMust, kOverlap, "Move the bed, or mark the other as removed."}, units, out);
  find_over(of.beds, of.paths,
            {Grade::kShould, "{0} lies over {1}, by {2}.",
             "Move or shorten the bed, or lead the path around it."},
            units, out);
  find_standing(of.objects, of.beds, Grade::kMust, kOutOfBed, units, out);
  find_standing(of.tanks, of.beds, Grade::kMust, kOutOfBed, units, out);
  find_standing(of.seats, of.beds, Grade::kMust, kOutOfBed, units, out);
  const Judgement both{Grade::kShould, kOverlap, kMove};
  find_among(of.tanks, both, units, out);
  find_among(of.seats, both, units, out);
  find_over(of.seats, of.tanks, both, units, out);
  find_standing(of.tanks, of.objects, Grade::kShould,
                "If it stands on it, leave it; otherwise move one of them.", units, out);
  find_standing(of.seats, of.objects, Grade::kShould,
                "If it stands on it, leave it; otherwise move one of them.", units, out);
  find_standing(of.tanks, of.buildings, Grade::kNote,
                "If it is kept inside, leave it; otherwise measure both again.", units, out);
}

void find_seats_in_buildings(const Garden& garden, const Footings& of, Units units,
                             std::vector<Finding>& out) {
  for (std::size_t i = 0; i < of.seats.size(); ++i) {
    for (const Footing& building : of.buildings) {
      const double m2 = of.seats[i].overlap(building);
      if (m2 <= 0) continue;
      if (building.holds(garden.seats[i].at))
        tell(of.seats[i], building, m2,
             {Grade::kMust, "{0} stands inside {1}.",
              "Move the seat out, or draw the building as a seat with a roof."},
             units, out);
      else
        tell(of.seats[i], building, m2,
             {Grade::kShould, kStandsPartly, "Move the seat a little, or measure both again."},
             units, out);
    }
  }
}

/// A hedge may be planted in a bed.
bool is_planted_in(const Wall& wall, const Footing& bed, const facts::Catalogue& catalogue) {
  const facts::BarrierKind* kind = catalogue.barriers.find(wall.kind);
  return kind != nullptr && kind->of == facts::BarrierClass::kHedge &&
         std::all_of(wall.line.begin(), wall.line.end(), [&](Vec2 p) { return bed.holds(p); });
}

/// Walls, fences and hedges, by their middle: what stands against one touches it.
void find_crossed(const Garden& garden, const Footings& of, const facts::Catalogue& catalogue,
                  Units units, std::vector<Finding>& out) {
  constexpr double kCrosses_m = 0.1;
  const auto look = [&](const Wall& wall, const std::vector<Footing>& all, Grade grade,
                        const char* mend) {
    for (const Footing& one : all) {
      const double far = one.held_length(wall.line);
      if (far < kCrosses_m || is_planted_in(wall, one, catalogue)) continue;
      Finding finding;
      finding.grade = grade;
      finding.about = {wall.id, one.id()};
      finding.says = fmt::format("{} runs through {} for {}.", wall.id, one.id(),
                                 length_says(metres(far), units, 1));
      finding.numbers = {metres_trace(fmt::format("{} within {}", wall.id, one.id()), far)};
      finding.mend = {mend};
      out.push_back(std::move(finding));
    }
  };
  for (const Wall& wall : garden.walls) {
    look(wall, of.beds, Grade::kMust, "Move or shorten the bed, or end the line before it.");
    for (const auto* all : {&of.buildings, &of.objects, &of.tanks, &of.seats})
      look(wall, *all, Grade::kShould, "Measure both again: one of them stands elsewhere.");
  }
}

void find_stems(const Garden& garden, const Footings& of, std::vector<Finding>& out) {
  const auto tell = [&](Grade grade, const std::string& id, const char* stands,
                        const std::string& in, const char* mend) {
    out.push_back({grade, {id, in}, fmt::format("{} {} {}.", id, stands, in), {}, {}, {mend}});
  };
  const auto in_any = [&](const std::string& id, const std::vector<Vec2>& stems,
                          const std::vector<Footing>& all, Grade grade, const char* stands,
                          const char* mend) {
    for (const Footing& one : all) {
      if (std::any_of(stems.begin(), stems.end(), [&](Vec2 p) { return one.holds(p); }))
        tell(grade, id, stands, one.id(), mend);
    }
  };
  for (const Tree& tree : garden.trees) {
    constexpr const char* kStem = "Measure where the stem stands once more.";
    in_any(tree.id, {tree.at}, of.buildings, Grade::kMust, "stands inside", kStem);
    in_any(tree.id, {tree.at}, of.tanks, Grade::kMust, "stands inside", kStem);
    for (const auto* all : {&of.objects, &of.seats})
      in_any(tree.id, {tree.at}, *all, Grade::kShould, "stands inside", kStem);
    in_any(tree.id, {tree.at}, of.paths, Grade::kShould, "stands in the way on",
           "Lead the path around it, or measure where the stem stands once more.");
  }
  for (const Plant& plant : garden.plants) {
    for (const auto* all : {&of.buildings, &of.tanks})
      in_any(plant.id, plant.stems, *all, Grade::kMust, "stands inside", "Move the row.");
  }
}

void find_outside(const Garden& garden, const Footings& of, Units units,
                  std::vector<Finding>& out) {
  if (garden.boundary.size() < 3) return;
  const Footing plot("boundary", garden.boundary);
  for (const Footing& bed : of.beds) {
    const double outside = bed.area() - bed.shared(plot);
    if (outside < kTouching_m2) continue;
    Finding finding;
    finding.grade = Grade::kShould;
    finding.about = {bed.id()};
    finding.says = fmt::format("{} of {} lie outside the boundary.",
                               area_says(square_metres(outside), units), bed.id());
    finding.numbers = {square_metres_trace(bed.id() + " outside the boundary", outside)};
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

std::vector<Finding> layout_findings(const Garden& garden, const facts::Catalogue& catalogue,
                                     Units units) {
  const Footings of = footings_of(garden);
  std::vector<Finding> out;
  find_overlaps(of, units, out);
  find_seats_in_buildings(garden, of, units, out);
  find_crossed(garden, of, catalogue, units, out);
  find_stems(garden, of, out);
  find_outside(garden, of, units, out);
  sort_findings(out);
  return out;
}

}  // namespace spadework::garden
