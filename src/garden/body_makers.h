// Bodies by kind of thing. For the garden room alone.
#pragma once

#include <vector>

#include "garden/bodies.h"

namespace spadework::garden {

/// A stretch of one leg of a wall's line over which the ground is straight.
struct WallStretch {
  std::size_t leg = 0;
  Vec2 a, b;                      // on the centre line
  Vec2 a_off, b_off;              // from there to its left edge; the right one lies as far off
  geometry::Incline bottom, top;  // above the datum
};

struct BodyMaker {
  const Garden& garden;
  const geometry::Surface& ground;
  const std::vector<double>& bed_levels_m;
  const facts::Catalogue& catalogue;
  std::vector<Body>& out;

  void wall(const Wall& wall) const;
  void building(const Building& building) const;
  void tree(const Tree& tree) const;
  void support(const Support& support) const;
  void climber(const Support& support) const;
  void plant(const Plant& plant) const;
  void container(const Container& container) const;
  void seat(const Seat& seat) const;
  void cover(const Cover& cover) const;
  void bed_frame(const Bed& bed, double soil_z) const;
  void upright(const std::string& thing, const Polygon& footprint, Length height) const;

  [[nodiscard]] double thickness_of(const Wall& wall) const;
  /// Along the line; nothing for a line of one point.
  [[nodiscard]] std::vector<WallStretch> stretches_of(const Wall& wall) const;
  [[nodiscard]] double foot_of(Vec2 p, const std::vector<Vec2>& line) const;
  [[nodiscard]] double standing(Vec2 p) const {
    return standing_level(garden, ground, bed_levels_m, p);
  }
  [[nodiscard]] facts::LeafPlace leaf_place() const {
    return {garden.site.latitude, garden.site.elevation};
  }
  [[nodiscard]] bool southern() const { return garden.site.latitude < degrees(0); }
};

/// Optical depth of a share of light that passes; opaque bodies are told apart by `opaque`.
[[nodiscard]] float depth_of(double through);

/// Optical depth for each day of the year between bare and full leaf; `leaves` as they are at the
/// place.
[[nodiscard]] std::vector<float> leafy_depth(double full, double bare,
                                             const facts::LeafDates& leaves, bool southern);

/// A support's frame in the plan: its kind's measures where the document gives none.
struct SupportFrame {
  std::vector<Vec2> line;  // along its front; two points or more
  Vec2 middle, along;
  double wide = 0, deep = 0, high = 0;
  Polygon foot;  // anticlockwise, from its front left
};
[[nodiscard]] SupportFrame frame_of(const Support& support, const facts::SupportKind& kind);

/// The corners of a rectangle `along` wide and `deep` deep about its middle, anticlockwise.
[[nodiscard]] Polygon footprint(Vec2 middle, Vec2 along, double wide, double deep);

/// Rising along the line from a_z at a to b_z at b, level across it.
[[nodiscard]] geometry::Incline rising(Vec2 a, double a_z, Vec2 b, double b_z);

/// An upright sheet of `thickness` about the line from a to b, between two levels.
[[nodiscard]] geometry::Solid panel(Vec2 a, Vec2 b, double thickness, double low_z, double high_z);

/// A level slice of a growing plant: it fills as the plant grows past it.
struct LeafLayer {
  double low = 0, high = 1;  // shares of the full height
  /// For each day the share (0 to 1) of full growth's depth; one value for what never changes.
  std::vector<float> share;
};
/// Of a plant that grows `reach` tall (or long), the layers of its first `within`. One for what
/// keeps its height, otherwise one to three by that height.
[[nodiscard]] std::vector<LeafLayer> leaf_layers(const facts::Growth& growth, double reach,
                                                 double within, bool southern);
/// The shares as optical depths.
[[nodiscard]] std::vector<float> times(std::vector<float> share, double depth);

/// How thick a drawn sheet is: a frame, a panel, a skin.
inline constexpr double kSheet_m = 0.03;

/// Common practice of the trade, no source: how deep the leaves of a climber or of a tree trained
/// flat stand, from front to back.
inline constexpr double kLeavesDeep_m = 0.3;

}  // namespace spadework::garden
