// The shadow caster beside Embree, an independent ray tracer: Wald I, Woop S, Benthin C, Johnson
// GS, Ernst M (2014) Embree: a kernel framework for efficient CPU ray tracing. ACM Transactions on
// Graphics 33(4):143. Version 3 in robust mode; Apache-2.0. It knows the solids by triangles only.
#include <embree3/rtcore.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <string>
#include <vector>

#include "light/caster.h"
#include "light/light_testing.h"

namespace spadework::light {
namespace {

using namespace testing;  // NOLINT: suns and bodies
using geometry::cross;
using geometry::dot;
using geometry::frustum;
using geometry::HalfSpace;
using geometry::left_of;
using geometry::length;
using geometry::prism;

constexpr int kGardens = 200;
constexpr int kCells = 48;  // along each side of a receiver
constexpr double kCell_m = 0.25;

/// The corners of a solid that lie on a face, each once, in order around it.
std::vector<Vec3> corners_on(const Solid& solid, const HalfSpace& face) {
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

/// The solids as Embree sees them.
class Triangles {
 public:
  explicit Triangles(const std::vector<Body>& bodies)
      : device_(rtcNewDevice(nullptr)), scene_(rtcNewScene(device_)) {
    for (const Body& body : bodies) add(std::get<Solid>(body.shape));
    RTCGeometry geometry = rtcNewGeometry(device_, RTC_GEOMETRY_TYPE_TRIANGLE);
    auto* corner = static_cast<float*>(rtcSetNewGeometryBuffer(geometry, RTC_BUFFER_TYPE_VERTEX, 0,
                                                               RTC_FORMAT_FLOAT3, 3 * sizeof(float),
                                                               corners_.size()));
    for (const Vec3& p : corners_)
      for (const double v : {p.x, p.y, p.z}) *corner++ = static_cast<float>(v);
    auto* index = static_cast<unsigned*>(
        rtcSetNewGeometryBuffer(geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3,
                                3 * sizeof(unsigned), corners_.size() / 3));
    for (unsigned i = 0; i < corners_.size(); ++i) *index++ = i;
    rtcCommitGeometry(geometry);
    rtcAttachGeometry(scene_, geometry);
    rtcReleaseGeometry(geometry);
    rtcSetSceneFlags(scene_, RTC_SCENE_FLAG_ROBUST);
    rtcCommitScene(scene_);
  }
  Triangles(const Triangles&) = delete;
  Triangles& operator=(const Triangles&) = delete;
  ~Triangles() {
    rtcReleaseScene(scene_);
    rtcReleaseDevice(device_);
  }

  /// Whether nothing stands between a point and the sun.
  [[nodiscard]] bool sunlit(Vec3 at, Vec3 toward) const {
    const Vec3 from = at + toward * 1e-4;
    RTCRay ray{};
    ray.org_x = static_cast<float>(from.x);
    ray.org_y = static_cast<float>(from.y);
    ray.org_z = static_cast<float>(from.z);
    ray.dir_x = static_cast<float>(toward.x);
    ray.dir_y = static_cast<float>(toward.y);
    ray.dir_z = static_cast<float>(toward.z);
    ray.tfar = std::numeric_limits<float>::infinity();
    ray.mask = ~0U;
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    rtcOccluded1(scene_, &context, &ray);
    return ray.tfar > 0;
  }

 private:
  void add(const Solid& solid) {
    for (const HalfSpace& face : solid.faces) {
      const std::vector<Vec3> ring = corners_on(solid, face);
      for (std::size_t i = 2; i < ring.size(); ++i)
        corners_.insert(corners_.end(), {ring[0], ring[i - 1], ring[i]});
    }
  }

  RTCDevice device_;
  RTCScene scene_;
  std::vector<Vec3> corners_;  // three for each triangle
};

Incline through(Vec2 middle, double height, Vec2 slope) {
  return {height - dot(slope, middle), slope};
}

/// Something opaque somewhere on the ground: a shed with a slanting top, a slab on high, a box, a
/// tent, a wall.
Solid random_solid(Random& random, Vec2 ground_slope) {
  const Vec2 middle{random.between(-2, 14), random.between(-2, 14)};
  const double ground = dot(ground_slope, middle), high = random.between(1.5, 5);
  const auto footprint =
      random_footprint(random, middle, random.between(0.3, 2), 3 + random.below(6));
  const Vec2 slope{random.between(-0.4, 0.4), random.between(-0.4, 0.4)};
  switch (random.below(5)) {
    case 0:
      return prism(footprint, {ground - 1.5, {}}, through(middle, ground + high, slope));
    case 1:
      return prism(footprint, through(middle, ground + high - random.between(0.02, 1), slope),
                   through(middle, ground + high, slope));
    case 2:
      return frustum(footprint, ground + random.between(-1, 1),
                     {middle.x + random.between(-0.3, 0.3), middle.y + random.between(-0.3, 0.3),
                      ground + high},
                     random.below(2) == 0 ? 1 : random.between(0.2, 0.95));
    case 3:
      return box(middle, random.between(0.2, 3), random.between(0.2, 3), ground - 1, ground + high,
                 random.between(0, 7));
    default:
      return box(middle, random.between(2, 12), random.between(0.05, 0.3), ground - 2,
                 ground + high / 2, random.between(0, 7));
  }
}

std::vector<Receiver> receivers_of(Random& random, Vec2 ground_slope) {
  const double turn = random.between(0, 7);
  // The garden's square turned about its middle.
  const double half = kCells * kCell_m / 2;
  const Vec2 corner = Vec2{6, 6} + geometry::turned({-half, -half}, turn);
  Receiver face = level_receiver({}, 0, 0, kCell_m, kCells, kCells);
  const double bearing = random.between(0, 7);
  face.w_axis = {std::cos(bearing), std::sin(bearing), 0};
  face.u_axis = {-std::sin(bearing), std::cos(bearing), 0};
  face.v_axis = {0, 0, 1};
  face.origin = Vec3{6, 6, -3} - face.u_axis * half;
  return {level_receiver({0.01, 0.02}, 0, 0, kCell_m, kCells, kCells),
          level_receiver(corner, turn, random.between(0.1, 1), kCell_m, kCells, kCells),
          level_receiver(corner, turn, random.between(1, 3.5), kCell_m, kCells, kCells),
          ground_receiver({0.01, 0.02}, 0.003, ground_slope, kCell_m, kCells, kCells), face};
}

/// One sun for each month and part of the day, so that each can be told from the counts.
std::vector<SunSample> random_suns(Random& random) {
  std::vector<SunSample> suns;
  for (int i = 0; i < kMonths * kParts; ++i)
    suns.push_back(
        sample(toward(random.between(1, 88), random.between(0, 360)), 1, i / kParts, i % kParts));
  return suns;
}

struct Tally {
  long long asked = 0, lit = 0, differ = 0, far_from_an_edge = 0;
};

/// Whether Embree itself tells the given answer somewhere on the receiver within one cell of the
/// centre of a cell: on rings from a hundred-thousandth of a cell to one cell.
bool told_within_a_cell(const Triangles& triangles, const Receiver& receiver, int column, int row,
                        Vec3 sun, bool answer) {
  const Vec3 at = cell_centre(receiver, column, row);
  const Vec3 across = cell_centre(receiver, column + 1, row) - at;
  const Vec3 up = cell_centre(receiver, column, row + 1) - at;
  for (double radius = 1e-5; radius <= 1; radius *= std::sqrt(10.0)) {
    for (int k = 0; k < 32; ++k) {
      const double turn = 2 * std::numbers::pi * k / 32;
      const Vec3 off = across * (radius * std::cos(turn)) + up * (radius * std::sin(turn));
      if (triangles.sunlit(at + off, sun) == answer) return true;
    }
  }
  return false;
}

void compare(const Scene& scene, const Triangles& triangles, const Receiver& receiver,
             const std::vector<SunSample>& suns, Tally& tally) {
  const LitCounts counts = cast(scene, receiver, suns);
  for (const SunSample& sun : suns) {
    if (dot(receiver.w_axis, sun.toward_sun) <= 1e-6) {
      ASSERT_TRUE(counts.plane(sun.month, sun.part).empty());
      continue;
    }
    for (int j = 0; j < receiver.rows; ++j) {
      for (int i = 0; i < receiver.columns; ++i) {
        const auto cell = static_cast<std::size_t>(j * receiver.columns + i);
        const bool ours = counts.at(sun.month, sun.part, cell) == 1;
        const bool theirs = triangles.sunlit(cell_centre(receiver, i, j), sun.toward_sun);
        ++tally.asked, tally.lit += theirs ? 1 : 0;
        if (ours == theirs) continue;
        ++tally.differ;
        if (!told_within_a_cell(triangles, receiver, i, j, sun.toward_sun, ours))
          ++tally.far_from_an_edge;
      }
    }
  }
}

// Of cells and directions at most 0.001 % may differ, as single precision and double disagree about
// centres a hundredth of a millimetre from the edge of a shadow; and every one lies at an edge.
TEST(ShadowCaster, SeesWhatEmbreeSeesIn200RandomGardens) {
  std::array<Tally, 5> tallies;
  for (int garden = 0; garden < kGardens; ++garden) {
    Random random(static_cast<std::uint64_t>(7000 + garden));
    const Vec2 slope{random.between(-0.3, 0.3), random.between(-0.3, 0.3)};
    std::vector<Body> bodies;
    for (int i = 4 + random.below(12); i > 0; --i)
      bodies.push_back(opaque("thing" + std::to_string(i), random_solid(random, slope)));
    const Triangles triangles(bodies);
    const Scene scene(bodies);
    ASSERT_EQ(scene.bodies().size(), bodies.size()) << "garden " << garden;
    const std::vector<SunSample> suns = random_suns(random);
    const std::vector<Receiver> receivers = receivers_of(random, slope);
    for (std::size_t r = 0; r < receivers.size(); ++r) {
      const long long far_before = tallies[r].far_from_an_edge;
      compare(scene, triangles, receivers[r], suns, tallies[r]);
      EXPECT_EQ(tallies[r].far_from_an_edge, far_before)
          << "garden " << garden << ", receiver " << r;
    }
  }
  static constexpr const char* kNames[] = {"level", "turned_low", "turned_high", "slope", "face"};
  Tally all;
  for (std::size_t r = 0; r < tallies.size(); ++r) {
    const Tally& tally = tallies[r];
    RecordProperty(std::string(kNames[r]) + "_asked", std::to_string(tally.asked));
    RecordProperty(std::string(kNames[r]) + "_differ", std::to_string(tally.differ));
    EXPECT_LE(tally.differ * 100000, tally.asked) << kNames[r];
    // Light and shade both: a comparison in the dark would prove nothing.
    EXPECT_GT(tally.lit * 10, tally.asked) << kNames[r];
    EXPECT_LT(tally.lit * 10, tally.asked * 9) << kNames[r];
    all.asked += tally.asked, all.differ += tally.differ;
  }
  EXPECT_GE(all.asked, 50'000'000);
  EXPECT_LE(all.differ * 100000, all.asked);
}

}  // namespace
}  // namespace spadework::light
