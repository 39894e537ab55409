// Bodies as Embree sees them: by triangles only, round ones by many. For the oracle tests.
#pragma once

#include <embree3/rtcore.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

#include "garden/body.h"

namespace spadework::oracle {

using geometry::RoundShape;
using geometry::RoundSolid;
using geometry::Solid;
using geometry::Vec2;
using geometry::Vec3;

/// Three corners for each triangle, anticlockwise seen from outside.
using Triangles = std::vector<Vec3>;

/// The corners of a solid that lie on a face, each once, in order around it.
inline std::vector<Vec3> corners_on(const Solid& solid, const geometry::HalfSpace& face) {
  std::vector<Vec3> ring;
  const double size = length(face.normal);
  for (const Vec3& p : solid.corners) {
    if (std::abs(dot(face.normal, p) - face.offset) > 1e-9 * size) continue;
    const auto same = [&](Vec3 q) { return length(p - q) < 1e-9; };
    if (std::none_of(ring.begin(), ring.end(), same)) ring.push_back(p);
  }
  if (ring.size() < 3) return {};
  Vec3 middle;
  for (const Vec3& p : ring) middle = middle + p * (1.0 / static_cast<double>(ring.size()));
  const Vec3 one = ring[0] - middle, other = cross(face.normal * (1 / size), one);
  std::sort(ring.begin(), ring.end(), [&](Vec3 a, Vec3 b) {
    return std::atan2(dot(other, a - middle), dot(one, a - middle)) <
           std::atan2(dot(other, b - middle), dot(one, b - middle));
  });
  return ring;
}

inline Triangles triangles_of(const Solid& solid) {
  Triangles out;
  for (const geometry::HalfSpace& face : solid.faces) {
    const std::vector<Vec3> ring = corners_on(solid, face);
    for (std::size_t i = 2; i < ring.size(); ++i)
      out.insert(out.end(), {ring[0], ring[i - 1], ring[i]});
  }
  return out;
}

/// Half of a round solid's outline from the axis below to the axis above: distance from the axis
/// and height. A polygon in the stead of a curve has its area.
inline std::vector<Vec2> profile_of(const RoundSolid& round, int steps) {
  const double r = round.radius, low = round.bottom_z, high = round.top_z;
  if (round.shape == RoundShape::kColumn) return {{0, low}, {r, low}, {r, high}, {0, high}};
  if (round.shape == RoundShape::kCone) return {{0, low}, {r, low}, {0, high}};
  const bool dome = round.shape == RoundShape::kDome;
  const double half = dome ? high - low : (high - low) / 2;
  const double middle = dome ? low : (low + high) / 2;
  const double each = (dome ? 0.5 : 1) * std::numbers::pi / steps;
  const double wider = std::sqrt(each / std::sin(each));
  std::vector<Vec2> profile;
  if (dome) profile.push_back({0, low});
  for (int i = 0; i <= steps; ++i) {
    const double up = each * i - (dome ? 0 : std::numbers::pi / 2);
    profile.push_back({wider * r * std::cos(up), middle + wider * half * std::sin(up)});
  }
  if (!dome) profile.front().x = 0;
  profile.back().x = 0;
  return profile;
}

/// Turned about the axis, in `sides` flat strips.
inline Triangles triangles_of(const RoundSolid& round, int sides = 80) {
  const double each = 2 * std::numbers::pi / sides;
  const double wider = std::sqrt(each / std::sin(each));
  const auto at = [&](Vec2 p, int side) {
    const double turn = each * (side % sides);
    return Vec3{round.axis.x + wider * p.x * std::cos(turn),
                round.axis.y + wider * p.x * std::sin(turn), p.y};
  };
  const std::vector<Vec2> profile = profile_of(round, sides / 2);
  Triangles out;
  for (std::size_t i = 1; i < profile.size(); ++i) {
    const Vec2 low = profile[i - 1], high = profile[i];
    for (int side = 0; side < sides; ++side) {
      if (low.x > 0) out.insert(out.end(), {at(low, side), at(low, side + 1), at(high, side)});
      if (high.x > 0)
        out.insert(out.end(), {at(low, side + 1), at(high, side + 1), at(high, side)});
    }
  }
  return out;
}

inline Triangles triangles_of(const garden::Body& body) {
  return std::visit([](const auto& shape) { return triangles_of(shape); }, body.shape);
}

/// A scene of triangles in robust mode; a geometry's number is the order of its adding.
class EmbreeScene {
 public:
  EmbreeScene() : device_(rtcNewDevice(nullptr)), scene_(rtcNewScene(device_)) {
    rtcSetSceneFlags(scene_, RTC_SCENE_FLAG_ROBUST);
  }
  EmbreeScene(const EmbreeScene&) = delete;
  EmbreeScene& operator=(const EmbreeScene&) = delete;
  ~EmbreeScene() {
    rtcReleaseScene(scene_);
    rtcReleaseDevice(device_);
  }

  void add(const Triangles& triangles, RTCFilterFunctionN filter = nullptr) {
    if (triangles.empty()) return;
    RTCGeometry geometry = rtcNewGeometry(device_, RTC_GEOMETRY_TYPE_TRIANGLE);
    auto* corner = static_cast<float*>(rtcSetNewGeometryBuffer(geometry, RTC_BUFFER_TYPE_VERTEX, 0,
                                                               RTC_FORMAT_FLOAT3, 3 * sizeof(float),
                                                               triangles.size()));
    for (const Vec3& p : triangles)
      for (const double v : {p.x, p.y, p.z}) *corner++ = static_cast<float>(v);
    auto* index = static_cast<unsigned*>(
        rtcSetNewGeometryBuffer(geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3,
                                3 * sizeof(unsigned), triangles.size() / 3));
    for (unsigned i = 0; i < triangles.size(); ++i) *index++ = i;
    if (filter != nullptr) rtcSetGeometryOccludedFilterFunction(geometry, filter);
    rtcCommitGeometry(geometry);
    rtcAttachGeometry(scene_, geometry);
    rtcReleaseGeometry(geometry);
  }
  void commit() { rtcCommitScene(scene_); }

  /// Whether a ray from a point meets anything that no filter lets pass.
  [[nodiscard]] bool meets(Vec3 from, Vec3 toward, RTCIntersectContext* context) const {
    RTCRay ray{};
    ray.org_x = static_cast<float>(from.x);
    ray.org_y = static_cast<float>(from.y);
    ray.org_z = static_cast<float>(from.z);
    ray.dir_x = static_cast<float>(toward.x);
    ray.dir_y = static_cast<float>(toward.y);
    ray.dir_z = static_cast<float>(toward.z);
    ray.tfar = std::numeric_limits<float>::infinity();
    ray.mask = ~0U;
    rtcOccluded1(scene_, context, &ray);
    return ray.tfar < 0;
  }

 private:
  RTCDevice device_;
  RTCScene scene_;
};

/// Opaque bodies alone: whether nothing stands between a point and the sun.
class OpaqueScene {
 public:
  explicit OpaqueScene(const std::vector<garden::Body>& bodies) {
    Triangles all;
    for (const garden::Body& body : bodies) {
      if (body.through != garden::Through::kOpaque) continue;
      const Triangles own = triangles_of(body);
      all.insert(all.end(), own.begin(), own.end());
    }
    scene_.add(all);
    scene_.commit();
  }
  [[nodiscard]] bool sunlit(Vec3 at, Vec3 toward) const {
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    return !scene_.meets(at + toward * 1e-4, toward, &context);
  }

 private:
  EmbreeScene scene_;
};

/// See-through bodies alone: how far a ray goes in each, by where it enters and leaves its
/// triangles. The bodies are convex.
class VeilScene {
 public:
  static constexpr std::size_t kMost = 16;
  using Chords = std::array<float, kMost>;  // metres, by the order of the see-through bodies

  explicit VeilScene(const std::vector<garden::Body>& bodies) {
    for (const garden::Body& body : bodies) {
      if (body.through == garden::Through::kOpaque) continue;
      veils_.push_back(body);
      scene_.add(triangles_of(body), note_hit);
    }
    scene_.commit();
  }

  [[nodiscard]] Chords chords(Vec3 at, Vec3 toward) const {
    Passage passage;
    rtcInitIntersectContext(&passage.context);
    passage.enters.fill(0);  // a ray that starts inside enters nowhere
    passage.leaves.fill(0);
    (void)scene_.meets(at, toward, &passage.context);
    Chords chords{};
    for (std::size_t i = 0; i < veils_.size(); ++i)
      chords[i] = std::max(0.0F, passage.leaves[i] - passage.enters[i]);
    return chords;
  }

  /// Beer and Lambert.
  [[nodiscard]] double depth(const Chords& chords, int day_of_year) const {
    double depth = 0;
    for (std::size_t i = 0; i < veils_.size(); ++i) {
      if (!(chords[i] > 0)) continue;
      const bool per_metre = veils_[i].through == garden::Through::kPerMetre;
      depth += static_cast<double>(veils_[i].depth_on(day_of_year)) *
               (per_metre ? static_cast<double>(chords[i]) : 1);
    }
    return depth;
  }

 private:
  struct Passage {
    RTCIntersectContext context;  // first: Embree hands back a pointer to it
    Chords enters, leaves;
  };

  static void note_hit(const RTCFilterFunctionNArguments* hit) {
    auto* passage = reinterpret_cast<Passage*>(const_cast<RTCIntersectContext*>(hit->context));
    const float off = RTCHitN_Ng_x(hit->hit, 1, 0) * RTCRayN_dir_x(hit->ray, 1, 0) +
                      RTCHitN_Ng_y(hit->hit, 1, 0) * RTCRayN_dir_y(hit->ray, 1, 0) +
                      RTCHitN_Ng_z(hit->hit, 1, 0) * RTCRayN_dir_z(hit->ray, 1, 0);
    (off > 0 ? passage->leaves : passage->enters)[RTCHitN_geomID(hit->hit, 1, 0)] =
        RTCRayN_tfar(hit->ray, 1, 0);
    hit->valid[0] = 0;  // and on
  }

  std::vector<garden::Body> veils_;
  EmbreeScene scene_;
};

}  // namespace spadework::oracle
