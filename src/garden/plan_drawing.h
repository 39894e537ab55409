// The plan of a garden as symbols on paper, in layers, so that a light field or another lens can
// lie between the ground and the things.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "facts/facts.h"
#include "garden/garden.h"
#include "geometry/drawing.h"
#include "geometry/surface.h"
#include "geometry/symbols.h"

namespace spadework::garden {

struct PlanView {
  const Garden& garden;
  const Garden* found = nullptr;  // to show what goes and what moves; nothing: neither is shown
  const geometry::Surface& ground;
  const facts::Catalogue& catalogue;
  geometry::PlanOnPaper map;
  int day_of_year = 180;  // which trees are in leaf
};

/// The edge of the plot as it is drawn: as a guess where it was told roughly.
[[nodiscard]] geometry::Mark boundary_mark(const Garden& garden);
/// Paths and areas, outlines only: they lie under everything. Those that go or move are struck
/// through where they were.
void draw_ground_cover(const PlanView& view, geometry::Group& into);
/// Patches, and cables, pipes and drains with their letters: what the ground hides.
void draw_in_ground(const PlanView& view, geometry::Group& into);
/// Lines of sight.
void draw_sights(const PlanView& view, geometry::Group& into);
/// Contours within the boundary at an even interval, and the spot levels.
void draw_levels(const PlanView& view, geometry::Group& into);
/// Everything that stands, what goes struck through, what is proposed in red; trees last.
void draw_things(const PlanView& view, geometry::Group& into);

/// Words already on the plan, so that later ones keep clear of them.
class LabelRoom {
 public:
  /// Takes the first of the middles at which a box of that size is free, or the first of all when
  /// `must`; nothing is taken and false given otherwise.
  bool place(const std::vector<geometry::Vec2>& middles, geometry::Vec2 size, bool must,
             geometry::Vec2& taken);
  /// Remembers that a thing has its name already.
  void named(const std::string& id) { named_.insert(id); }
  [[nodiscard]] bool is_named(const std::string& id) const { return named_.count(id) > 0; }

 private:
  std::set<std::string> named_;
  std::vector<geometry::Box2> boxes_;
};
/// The type size of names, and about how large a name will be.
inline constexpr double kNameMm = geometry::kLabelTypeMm + 0.2;
[[nodiscard]] geometry::Vec2 name_size(const std::string& words);
/// The names of beds, buildings, trees, seats, objects and plants, beside what they name; those of
/// walls along them. Names that find no room are left out, except of beds.
void draw_names(const PlanView& view, LabelRoom& room, geometry::Group& into);

/// The direction of true north on paper, radians anticlockwise from the right.
[[nodiscard]] double north_on_paper(const Garden& garden);
/// Contour levels: even, at most 9, over the levels within the boundary.
[[nodiscard]] std::vector<double> contour_levels(double low, double high);

}  // namespace spadework::garden
