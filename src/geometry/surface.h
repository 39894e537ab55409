// Triangulated surfaces: the ground through its spot levels.
#pragma once

#include <array>
#include <vector>

#include "geometry/polygon.h"
#include "geometry/solid.h"

namespace spadework::geometry {

struct Facet {
  std::array<Vec2, 3> corners;  // anticlockwise
  Incline incline;
  int plane = 0;  // facets that lie on one plane share a number
  friend bool operator==(const Facet&, const Facet&) = default;
};

/// A surface of triangles over a rectangle. Between the points it is straight; it passes through
/// each of them.
class Surface {
 public:
  /// Level everywhere.
  Surface();
  /// A plane over a domain.
  Surface(Incline incline, Box2 domain);
  /// Through `points` (at most 4,000; those closer than 1 mm in the plan to an earlier one are left
  /// out), over `domain` grown to hold them; at the domain's corners it lies on the plane that fits
  /// the points best by least squares. Delaunay triangles by Bowyer and Watson with exact integer
  /// tests. Source: [bowyer1981]
  Surface(const std::vector<Vec3>& points, Box2 domain);

  /// Level at a point; outside the domain that of the nearest edge of it.
  [[nodiscard]] double at(Vec2 p) const;
  /// The facet under a point (the nearest one outside the domain).
  [[nodiscard]] const Facet& facet_at(Vec2 p) const;
  [[nodiscard]] const std::vector<Facet>& facets() const { return facets_; }
  /// How many different planes the facets lie on: 1 for a plane.
  [[nodiscard]] int planes() const { return planes_; }
  [[nodiscard]] const Box2& domain() const { return domain_; }
  /// The lowest and the highest level under a polygon, exact.
  struct Range {
    double low, high;
  };
  [[nodiscard]] Range range_under(const Polygon& polygon) const;
  /// The mean level under a polygon, exact over the facets. Source: closed form (linear facets).
  [[nodiscard]] double mean_under(const Polygon& polygon) const;
  /// Where the segment from a to b crosses facet edges, as shares of its length, in order, with 0
  /// and 1 at the ends: between neighbours the ground is straight.
  [[nodiscard]] std::vector<double> breaks_along(Vec2 a, Vec2 b) const;

 private:
  void number_planes();
  Box2 domain_;
  std::vector<Facet> facets_;
  int planes_ = 1;
};

}  // namespace spadework::geometry
