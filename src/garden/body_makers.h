// Bodies by kind of thing. For the garden room alone.
#pragma once

#include <vector>

#include "garden/bodies.h"

namespace spadework::garden {

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
  void seat(const Seat& seat) const;
  void cover(const Cover& cover) const;
  void bed_frame(const Bed& bed, double soil_z) const;
  void upright(const std::string& thing, const Polygon& footprint, Length height) const;

  [[nodiscard]] double foot_of(Vec2 p, const std::vector<Vec2>& line) const;
  [[nodiscard]] double standing(Vec2 p) const {
    return standing_level(garden, ground, bed_levels_m, p);
  }
  [[nodiscard]] bool southern() const { return garden.site.latitude < degrees(0); }
};

/// Optical depth of a share of light that passes; opaque bodies are told apart by `opaque`.
[[nodiscard]] float depth_of(double through);

/// Optical depth for each day of the year between bare and full leaf.
[[nodiscard]] std::vector<float> leafy_depth(double full, double bare,
                                             const facts::LeafDates& leaves, bool southern);

/// An upright sheet of `thickness` about the line from a to b, between two levels.
[[nodiscard]] geometry::Solid panel(Vec2 a, Vec2 b, double thickness, double low_z, double high_z);

}  // namespace spadework::garden
