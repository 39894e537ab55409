// How the rays of a grid pass through see-through bodies: everything linear or quadratic in the
// cell, worked out once for a direction. For the caster alone.
#pragma once

#include <array>
#include <vector>

#include "light/caster_grid.h"

namespace spadework::light {

/// The shadow of an ellipsoid. In row j its centre lies at x = centre.at(0, j); with
/// m = 1 − side.at(0, j)² its half width is √(m / curve), and a ray at x is inside the ellipsoid
/// for `longest_m` √max(0, m − curve (x − centre)²) metres, the part below the plane included.
struct EllipseShadow {
  Linear centre, side;
  double curve = 1, longest_m = 0;
};
[[nodiscard]] EllipseShadow ellipse_shadow(const Grid& grid, const Ellipsoid& ellipsoid,
                                           geometry::Vec3 toward);

/// The stretch of each cell's ray inside a body, from the cell towards the sun.
class Passage {
 public:
  /// Starts anew, keeping its memory. The normals are those of the body's whole hull.
  void through_faces(const Grid& grid, const std::vector<geometry::HalfSpace>& faces,
                     geometry::Vec3 toward);
  void through_round(const Grid& grid, const geometry::RoundSolid& round, geometry::Vec3 toward);

  /// Of a body of plane faces: the lines that bound where the stretch is over `least_m`, each over
  /// 0 on their side. The result holds until the next call.
  [[nodiscard]] const std::vector<Linear>& where_over(double least_m);

  /// The bounds along a row from a column on. The result points into this object and holds until
  /// the next call.
  [[nodiscard]] ChordRow row(int first_column, int row);

 private:
  struct Square {
    double weight = 0;
    Linear line;
  };
  void clear();
  void between_heights(const Grid& grid, double low, double high, double rise);
  void through_ellipsoid(const Grid& grid, const Ellipsoid& ellipsoid, bool endless,
                         geometry::Vec3 toward);
  void through_cone(const Grid& grid, const geometry::RoundSolid& cone, geometry::Vec3 toward);

  std::vector<Linear> near_, far_, over_;
  Bulge bulge_ = Bulge::kNone;
  Linear mid_;
  double half0_ = 0;
  std::array<Square, 4> squares_{};
  std::vector<double> at0_, step_;  // of the row asked for: near, then far
};

}  // namespace spadework::light
