// A receiver's cells as a grid, and the bodies that stand above its plane. For the caster alone.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "light/caster_kernels.h"
#include "light/receiver.h"
#include "light/samples.h"
#include "light/scene.h"

namespace spadework::light {

/// A quantity that is linear over the grid.
struct Linear {
  double at0 = 0, across = 0, up = 0;  // at cell (0, 0); for one column more; for one row more
  [[nodiscard]] double at(double column, double row) const {
    return at0 + column * across + row * up;
  }
};

/// Grid coordinates: the centre of cell (i, j) lies at x = i, y = j; w is the receiver's own.
struct Grid {
  explicit Grid(const Receiver& receiver);
  [[nodiscard]] geometry::Vec3 of(geometry::Vec3 garden) const;
  /// dot(axis, p − centre) for the point p at the centre of each cell.
  [[nodiscard]] Linear along(geometry::Vec3 axis, geometry::Vec3 centre) const;

  int columns = 0, rows = 0;
  geometry::Vec3 origin, x_axis, y_axis, w_axis;
  geometry::Vec3 first, across, up;  // centre of cell (0, 0); steps to the next column and row
};

/// A sample's beam over a grid.
struct Beam {
  geometry::Vec3 toward;  // unit length
  Shift shift;
  int day_of_year = 1;
};
/// Nothing when the beam does not face the receiver (or grazes it within a milliardth), or is no
/// direction at all.
[[nodiscard]] std::optional<Beam> beam_over(const Grid& grid, const SunSample& sample);

/// A body over a receiver. The ranges are places in the lists of Standing.
struct CastBody {
  const SceneBody* body = nullptr;
  bool whole = true;                          // no part of it lies below the plane
  std::size_t first_corner = 0, corners = 0;  // 0 corners: an ellipsoid or a dome
  std::size_t first_face = 0, faces = 0;      // a multiple of 4; 0: told by its corners alone
  std::size_t first_edge = 0, edges = 0;
};

/// Boxes around the bodies, by middles and half sizes.
struct Boxes {
  std::vector<double> x, y, w, half_x, half_y, half_w;
  void add(geometry::Vec3 low, geometry::Vec3 high);
  void add(const Boxes& other, std::size_t box);
  /// To a multiple of 4, with boxes that fall nowhere.
  void pad();
  [[nodiscard]] BoxRows rows() const {
    return {x.data(), y.data(), w.data(), half_x.data(), half_y.data(), half_w.data(), x.size()};
  }
};

/// The bodies that stand above a receiver's plane, cut off below it, in grid coordinates. Opaque
/// ones come first, large before small.
class Standing {
 public:
  Standing(const Scene& scene, const Receiver& receiver, const LeftOut& left_out, double ignore_m);
  /// In: bodies in the order of a scene that held them all; they must outlive it.
  Standing(std::vector<const SceneBody*> bodies, const Receiver& receiver, double ignore_m);

  /// Both together: each body of the other, over the same receiver, stands before the body of this
  /// one whose number is told; these numbers do not fall.
  [[nodiscard]] Standing with(const Standing& other, const std::vector<std::size_t>& before) const;

  [[nodiscard]] const Grid& grid() const { return grid_; }
  /// Receiver::counted; empty where all are.
  [[nodiscard]] const std::vector<std::uint8_t>& counted() const { return counted_; }
  [[nodiscard]] const std::vector<CastBody>& bodies() const { return bodies_; }
  [[nodiscard]] const Boxes& boxes() const { return boxes_; }
  /// Of a body with corners: these in grid coordinates, its faces' normals in the garden's, and the
  /// edges between two faces.
  [[nodiscard]] std::span<const geometry::Vec3> corners(const CastBody& body) const;
  [[nodiscard]] FaceRows faces(const CastBody& body) const;
  [[nodiscard]] std::span<const HullEdge> edges(const CastBody& body) const;

 private:
  void add(const SceneBody& body, double ignore_m);
  void add_hull(CastBody& cast, const Hull& hull);

  Grid grid_;
  std::vector<std::uint8_t> counted_;
  std::vector<CastBody> bodies_;
  Boxes boxes_;
  std::vector<geometry::Vec3> corners_;
  std::vector<double> normal_x_, normal_y_, normal_z_;
  std::vector<HullEdge> edges_;
};

/// Centre and half axes of the ellipsoid that a crown is, or of which a dome is the upper half.
struct Ellipsoid {
  geometry::Vec3 centre;
  double radius = 0, half_height = 0;
};
[[nodiscard]] Ellipsoid ellipsoid_of(const geometry::RoundSolid& round);

}  // namespace spadework::light
