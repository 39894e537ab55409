// The symbols of the sheet: given plain geometry in paper millimetres (y DOWN, see drawing.h) each
// appends one named group. What has no extent (a line of one point, a ring of two) appends nothing.
//
// Found is ink; proposed is red chalk, long-dashed and cased in paper; removed is graphite, dashed
// and struck through; what was guessed is dotted.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "geometry/drawing.h"

namespace spadework::geometry {

enum class Status { kFound, kProposed, kRemoved };

/// What every symbol of a thing is told.
struct Mark {
  std::string id, title;  // of the group; the id also seeds its stipple
  Status status = Status::kFound;
  bool guessed = false;
  Vec2 to_sun{0, 1};  // on paper, unit length: at noon down the page where north is up
  friend bool operator==(const Mark&, const Mark&) = default;
};
/// The line and the ink of a thing: its status and whether it is guessed.
[[nodiscard]] Stroke pen_of(const Mark& mark, double weight_mm);
[[nodiscard]] Paint ink_of(const Mark& mark);

// ---- things ----

struct BedShape {
  Polygon outline;      // outside of the boards
  double board_mm = 0;  // thickness of the boards; drawn at least 0.7 mm wide
  Vec2 downhill;        // unit length, or (0, 0) on the level: that side is heavy
  std::optional<Fill> soil;
};
/// Double edge, the downhill side heavy.
void append_bed(Group& into, const Mark& mark, const BedShape& bed);

/// Fine edges and dots. `steps`: places along the line, in order, where there is a step.
void append_path(Group& into, const Mark& mark, const std::vector<Vec2>& line, double width_mm,
                 const std::vector<Vec2>& steps = {});
/// Heavy faces and 45° hatch; under 0.8 mm thick a solid line.
void append_wall(Group& into, const Mark& mark, const std::vector<Vec2>& line, double thick_mm);
/// A line and posts, about `bay_mm` apart.
void append_fence(Group& into, const Mark& mark, const std::vector<Vec2>& line, double bay_mm);
/// A broken pair of lines, stippled away from the sun.
void append_hedge(Group& into, const Mark& mark, const std::vector<Vec2>& line, double thick_mm);

struct TreeShape {
  Vec2 at;
  double crown_mm = 0, stem_mm = 0;  // across
  bool in_leaf = true;
  friend bool operator==(const TreeShape&, const TreeShape&) = default;
};
/// In leaf a broken ring, stippled away from the sun; leafless forked radials.
void append_tree(Group& into, const Mark& mark, const TreeShape& tree);
/// A rosette of leaves, `across_mm` wide.
void append_plant(Group& into, const Mark& mark, Vec2 at, double across_mm);
/// A pot: a double rim and a small rosette.
void append_container(Group& into, const Mark& mark, Vec2 at, double across_mm);

struct SupportShape {
  std::vector<Vec2> feet;
  bool closed = false;   // the last foot joins the first
  bool crossed = false;  // opposite feet lean together: wigwam, obelisk
  friend bool operator==(const SupportShape&, const SupportShape&) = default;
};
/// Solid feet and a chain line from foot to foot.
void append_support(Group& into, const Mark& mark, const SupportShape& support);

struct SeatShape {
  Vec2 at;
  Vec2 facing{0, -1};  // unit length
  double width_mm = 0, depth_mm = 0;
  double sight_mm = 0;  // length of the V of sight, 0 for none
  friend bool operator==(const SeatShape&, const SeatShape&) = default;
};
/// An outline with its back, and the 60° V of sight.
void append_seat(Group& into, const Mark& mark, const SeatShape& seat);

struct RoofSlope {
  Polygon outline;
  Vec2 fall;  // unit length, downhill
  friend bool operator==(const RoofSlope&, const RoofSlope&) = default;
};
struct BuildingShape {
  Polygon outline;
  std::vector<Segment> ridges, hips;  // hips and valleys
  std::vector<RoofSlope> slopes;      // those that face away from the sun are shaded
  friend bool operator==(const BuildingShape&, const BuildingShape&) = default;
};
/// Roof lines on a light tint.
void append_building(Group& into, const Mark& mark, const BuildingShape& building);
void append_tank(Group& into, const Mark& mark, Vec2 at, double across_mm);
/// Any other body: an outline, lightly hatched.
void append_object(Group& into, const Mark& mark, const Polygon& outline);
enum class CoverLook { kHoops, kGlass, kNet };
void append_cover(Group& into, const Mark& mark, const Polygon& outline, CoverLook look);
/// A leaf hung at `hinge`, shut at `latch`, opening to the left of hinge → latch as seen, or to the
/// right.
void append_gate(Group& into, const Mark& mark, Vec2 hinge, Vec2 latch, bool opens_left);
/// Water: a ring with a drop.
void append_tap(Group& into, const Mark& mark, Vec2 at);
enum class AreaLook { kPlain, kLawn, kMeadow, kMulch, kPaving };
void append_area(Group& into, const Mark& mark, const Polygon& outline, AreaLook look);
/// Ground to beware of: a dotted edge and level strokes.
void append_patch(Group& into, const Mark& mark, const Polygon& outline);
/// A buried line, lettered along its way.
void append_service(Group& into, const Mark& mark, const std::vector<Vec2>& line,
                    const std::string& letter);
/// The garden's edge.
void append_boundary(Group& into, const Mark& mark, const Polygon& outline);

// ---- survey ----

/// A cross and its figure.
void append_spot_level(Group& into, const Mark& mark, Vec2 at, const std::string& figure);
/// 6-3 dashes, guessed 1-3, with the level's figure on the line.
void append_contour(Group& into, const Mark& mark, const std::vector<Vec2>& line,
                    const std::string& figure);
/// A peg or survey point: a ring about a dot.
void append_peg(Group& into, const Mark& mark, Vec2 at);
/// Where a view is from: a wedge that opens towards `facing` (unit length).
void append_viewpoint(Group& into, const Mark& mark, Vec2 at, Vec2 facing);

enum class SightLook { kOpen, kWatched, kShut };
/// A line of sight: the two edges of what is to stay open, dashed where it is kept in sight; or
/// one broken line that ends at a double bar, where something is to be hidden.
void append_sight(Group& into, const Mark& mark, Vec2 from, Vec2 to, double wide_mm,
                  SightLook look);

struct DimensionShape {
  Vec2 from, to;         // what is measured
  double offset_mm = 6;  // of the dimension line, to the left of from → to as seen
  std::string figure;    // "3.60"
  bool typed = false;    // the figure can be typed over: a dotted underline
};
/// Oblique ticks.
void append_dimension(Group& into, const Mark& mark, const DimensionShape& dimension);
/// From where a thing stands to where it is to stand.
void append_move_arrow(Group& into, const Mark& mark, Vec2 from, Vec2 to);
/// Graphite strokes through what is to go.
void append_strike(Group& into, const Polygon& around);

// ---- words on the plan ----

/// A thing's name in italics, with a rim of paper.
void append_name(Group& into, Vec2 middle, const std::string& words, double size_mm = kTableTypeMm);
/// A figure on a paper chip, in semi-bold figures of one width.
void append_figure(Group& into, Vec2 middle, const std::string& words,
                   double size_mm = kLabelTypeMm);
/// The lettered disc of a taker: the same on sheet, print and margin. `taker` as in taker_fill; one
/// letter or two.
void append_taker_disc(Group& into, Vec2 middle, const std::string& letter, int taker,
                       double radius_mm = 2.0);

// ---- around the plan ----

/// `north_rad` is the direction of true north on paper, anticlockwise from the right.
void append_north(Group& into, Vec2 middle, double radius_mm, double north_rad);

struct ScaleBarShape {
  Vec2 at;                                         // its left lower end
  double unit_mm = 20;                             // paper length of one unit
  std::string unit = "m";                          // "m", "ft"
  std::vector<double> ticks = {0, 1, 2, 3, 4, 5};  // in units, rising from 0
  double type_mm = 2.3;
};
void append_scale_bar(Group& into, const ScaleBarShape& bar);
/// The ramp of hours with its knots: `caption` such as "hours of sun a day, clear sky".
void append_light_key(Group& into, Vec2 corner, double width_mm, const std::string& caption);

}  // namespace spadework::geometry
