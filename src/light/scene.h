// The bodies of a garden made ready for light: what the shadow caster and the rays share.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "garden/body.h"
#include "light/hull.h"

namespace spadework::light {

/// A body ready for light.
struct SceneBody {
  garden::Body body;
  int thing = 0;  // which of Scene::things() it belongs to
  /// The solid itself; for a round column or cone, a many-sided solid close around it; nothing for
  /// the other round shapes.
  std::optional<Hull> hull;
  /// A ball around the body.
  geometry::Vec3 middle;
  double reach_m = 0;

  [[nodiscard]] const geometry::RoundSolid* round() const {
    return std::get_if<geometry::RoundSolid>(&body.shape);
  }
  /// Optical depth on a day (1 to 366); for an opaque body 0 means that it is not there.
  [[nodiscard]] float depth_on(int day_of_year) const;
  /// What it is, in figures: bodies stand in a scene by it, then by the thing's name.
  [[nodiscard]] std::vector<double> content() const;
};

/// Compiled once, then only read: any number of threads may use it.
class Scene {
 public:
  Scene() = default;
  /// In:     bodies as they stand; coordinates must be finite. Bodies without volume, and those
  ///         whose optical depth is 0 all year, are left out.
  /// Out:    bodies in an order of their own, which does not depend on the order given: results do
  ///         not either, to the last bit.
  explicit Scene(std::vector<garden::Body> bodies);

  /// Ids of the things, each once, in the order in which they were first given.
  [[nodiscard]] const std::vector<std::string>& things() const { return things_; }
  /// The place of a thing in things(), or −1.
  [[nodiscard]] int thing_index(std::string_view id) const;
  [[nodiscard]] const std::vector<SceneBody>& bodies() const { return bodies_; }

 private:
  std::vector<std::string> things_;
  std::vector<SceneBody> bodies_;
};

/// For each thing 1 where it is to be left out of a cast or a ray; empty leaves out none.
using LeftOut = std::vector<char>;
/// In: places in Scene::things(); others are passed over.
[[nodiscard]] LeftOut leave_out(const Scene& scene, const std::vector<int>& things);
[[nodiscard]] inline bool is_left_out(const LeftOut& left_out, int thing) {
  return !left_out.empty() && left_out[static_cast<std::size_t>(thing)] != 0;
}

/// The optical depth up to which a beam counts as sun: transmissions that multiply to at least a
/// half, with room for rounding.
inline constexpr float kMostDepth = 0.693148F;  // ln 2 = 0.693147…

}  // namespace spadework::light
