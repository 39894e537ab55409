#include "embree_side.h"

#include <embree3/rtcore.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>

#include "tests/oracle/embree_bodies.h"

namespace spadework::bench {

namespace {

using geometry::Vec3;
using light::Receiver;

constexpr int kMostRays = 256;  // of a stream
constexpr float kFar = 1e30F;

struct Crown {
  float x, y, z;       // its middle
  float radius, flat;  // flat: radius over half the height
  float depth_per_m;
};

/// What the rays of one query have passed.
struct Passed {
  RTCIntersectContext context;  // first: Embree hands back a pointer to it
  float most;                   // a ray behind more than this is done
  alignas(64) float depth[kMostRays];
};

struct RaysOf {
  float *ox, *oy, *oz, *dx, *dy, *dz, *far;
  unsigned* id;
};
RaysOf rays_of(RTCRayN* rays, unsigned n) {
  return {&RTCRayN_org_x(rays, n, 0), &RTCRayN_org_y(rays, n, 0), &RTCRayN_org_z(rays, n, 0),
          &RTCRayN_dir_x(rays, n, 0), &RTCRayN_dir_y(rays, n, 0), &RTCRayN_dir_z(rays, n, 0),
          &RTCRayN_tfar(rays, n, 0),  &RTCRayN_id(rays, n, 0)};
}

/// Adds the chords of `kRays` rays in one crown.
template <unsigned kRays>
void pass_crown(const Crown& crown, const int* valid, const RaysOf& rays, Passed& passed) {
  alignas(64) float depth[kRays];
  for (unsigned i = 0; i < kRays; ++i) {
    const float ox = rays.ox[i] - crown.x, oy = rays.oy[i] - crown.y;
    const float oz = (rays.oz[i] - crown.z) * crown.flat;
    const float dx = rays.dx[i], dy = rays.dy[i], dz = rays.dz[i] * crown.flat;
    const float a = dx * dx + dy * dy + dz * dz, b = ox * dx + oy * dy + oz * dz;
    const float c = ox * ox + oy * oy + oz * oz - crown.radius * crown.radius;
    depth[i] = crown.depth_per_m * 2 * std::sqrt(std::max(0.0F, b * b - a * c)) / a;
  }
  for (unsigned i = 0; i < kRays; ++i) {
    if (valid[i] != -1) continue;
    float& sum = passed.depth[rays.id[i]];
    sum += depth[i];
    if (sum > passed.most) rays.far[i] = -std::numeric_limits<float>::infinity();
  }
}

void occluded_by_crown(const RTCOccludedFunctionNArguments* asked) {
  const Crown& crown = static_cast<const Crown*>(asked->geometryUserPtr)[asked->primID];
  auto& passed = *reinterpret_cast<Passed*>(asked->context);
  const RaysOf rays = rays_of(asked->ray, asked->N);
  switch (asked->N) {
    case 4:
      return pass_crown<4>(crown, asked->valid, rays, passed);
    case 8:
      return pass_crown<8>(crown, asked->valid, rays, passed);
    case 16:
      return pass_crown<16>(crown, asked->valid, rays, passed);
    default:
      for (unsigned i = 0; i < asked->N; ++i) {
        const RaysOf one{rays.ox + i, rays.oy + i, rays.oz + i,  rays.dx + i,
                         rays.dy + i, rays.dz + i, rays.far + i, rays.id + i};
        pass_crown<1>(crown, asked->valid + i, one, passed);
      }
  }
}

void bounds_of_crown(const RTCBoundsFunctionArguments* asked) {
  const Crown& crown = static_cast<const Crown*>(asked->geometryUserPtr)[asked->primID];
  const float half = crown.radius / crown.flat;
  *asked->bounds_o = {crown.x - crown.radius, crown.y - crown.radius, crown.z - half, 0,
                      crown.x + crown.radius, crown.y + crown.radius, crown.z + half, 0};
}

Crown crown_of(const garden::Body& body) {
  const auto& round = std::get<geometry::RoundSolid>(body.shape);
  const double half = (round.top_z - round.bottom_z) / 2;
  return {static_cast<float>(round.axis.x),
          static_cast<float>(round.axis.y),
          static_cast<float>((round.top_z + round.bottom_z) / 2),
          static_cast<float>(round.radius),
          static_cast<float>(round.radius / half),
          body.depth.front()};
}

/// Sends a row of rays in packets of one kind; `done(column, met, depth)` takes each.
template <class Rays, unsigned kRays, class Send, class Done>
void in_packets(int columns, const std::vector<float>& xs, Vec3 at, Vec3 toward, Passed& passed,
                Send send, Done done) {
  alignas(64) Rays rays;
  alignas(64) int valid[kRays];
  for (int first = 0; first < columns; first += static_cast<int>(kRays)) {
    for (unsigned i = 0; i < kRays; ++i) {
      const int column = first + static_cast<int>(i);
      valid[i] = column < columns ? -1 : 0;
      rays.org_x[i] = xs[static_cast<std::size_t>(std::min(column, columns - 1))];
      rays.org_y[i] = static_cast<float>(at.y), rays.org_z[i] = static_cast<float>(at.z);
      rays.dir_x[i] = static_cast<float>(toward.x), rays.dir_y[i] = static_cast<float>(toward.y);
      rays.dir_z[i] = static_cast<float>(toward.z);
      rays.tnear[i] = 0, rays.time[i] = 0, rays.flags[i] = 0;
      rays.tfar[i] = kFar, rays.mask[i] = ~0U, rays.id[i] = i;
      passed.depth[i] = 0;
    }
    send(valid, rays);
    const int last = std::min(columns, first + static_cast<int>(kRays));
    for (int column = first; column < last; ++column)
      done(column, rays.tfar[column - first] < 0, passed.depth[column - first]);
  }
}

}  // namespace

std::string query_name(Query query) {
  constexpr const char* kNames[] = {"single rays", "packets of 4", "packets of 8", "packets of 16",
                                    "streams of 256"};
  return kNames[static_cast<std::size_t>(query)];
}

struct EmbreeSide::Traced {
  RTCDevice device = rtcNewDevice("threads=1");
  RTCScene scene = rtcNewScene(device);
  std::vector<Crown> crowns;

  void add_prisms(const oracle::Triangles& corners) {
    RTCGeometry prisms = rtcNewGeometry(device, RTC_GEOMETRY_TYPE_TRIANGLE);
    auto* xyz = static_cast<float*>(rtcSetNewGeometryBuffer(
        prisms, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3, 3 * sizeof(float), corners.size()));
    for (const Vec3& p : corners)
      for (const double v : {p.x, p.y, p.z}) *xyz++ = static_cast<float>(v);
    auto* index = static_cast<unsigned*>(
        rtcSetNewGeometryBuffer(prisms, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3,
                                3 * sizeof(unsigned), corners.size() / 3));
    for (unsigned i = 0; i < corners.size(); ++i) *index++ = i;
    attach(prisms);
  }
  void add_crowns() {
    RTCGeometry round = rtcNewGeometry(device, RTC_GEOMETRY_TYPE_USER);
    rtcSetGeometryUserPrimitiveCount(round, static_cast<unsigned>(crowns.size()));
    rtcSetGeometryUserData(round, crowns.data());
    rtcSetGeometryBoundsFunction(round, bounds_of_crown, nullptr);
    rtcSetGeometryOccludedFunction(round, occluded_by_crown);
    attach(round);
  }
  void attach(RTCGeometry geometry) {
    rtcSetGeometryBuildQuality(geometry, RTC_BUILD_QUALITY_HIGH);
    rtcCommitGeometry(geometry);
    rtcAttachGeometry(scene, geometry);
    rtcReleaseGeometry(geometry);
  }

  /// Every cell of the ground in one direction.
  template <class Done>
  void all_cells(const Receiver& ground, Vec3 toward, float most, Query query, Done done) const {
    Passed passed;
    passed.most = most;
    rtcInitIntersectContext(&passed.context);
    passed.context.flags = RTC_INTERSECT_CONTEXT_FLAG_COHERENT;
    std::vector<float> xs;
    for (int c = 0; c < ground.columns; ++c)
      xs.push_back(static_cast<float>(light::cell_centre(ground, c, 0).x));
    for (int r = 0; r < ground.rows; ++r) {
      const Vec3 at = light::cell_centre(ground, 0, r);
      const auto take = [&](int column, bool met, float depth) {
        done(static_cast<std::size_t>(r * ground.columns + column), met, depth);
      };
      RTCIntersectContext* context = &passed.context;
      switch (query) {
        case Query::kSingle:
          in_packets<RTCRayNt<1>, 1>(
              ground.columns, xs, at, toward, passed,
              [&](int*, RTCRayNt<1>& rays) {
                auto* ray = reinterpret_cast<RTCRay*>(&rays);
                rtcOccluded1(scene, context, ray);
              },
              take);
          break;
        case Query::kPacket4:
          in_packets<RTCRay4, 4>(
              ground.columns, xs, at, toward, passed,
              [&](int* valid, RTCRay4& rays) { rtcOccluded4(valid, scene, context, &rays); }, take);
          break;
        case Query::kPacket8:
          in_packets<RTCRay8, 8>(
              ground.columns, xs, at, toward, passed,
              [&](int* valid, RTCRay8& rays) { rtcOccluded8(valid, scene, context, &rays); }, take);
          break;
        case Query::kPacket16:
          in_packets<RTCRay16, 16>(
              ground.columns, xs, at, toward, passed,
              [&](int* valid, RTCRay16& rays) { rtcOccluded16(valid, scene, context, &rays); },
              take);
          break;
        case Query::kStream:
          in_packets<RTCRayNt<kMostRays>, kMostRays>(
              ground.columns, xs, at, toward, passed,
              [&](int* valid, RTCRayNt<kMostRays>& rays) {
                for (int i = 0; i < kMostRays; ++i)
                  if (valid[i] == 0) rays.tfar[i] = -1;  // takes no part
                rtcOccludedNM(scene, context, reinterpret_cast<RTCRayN*>(&rays), kMostRays, 1,
                              sizeof(rays));
              },
              take);
          break;
      }
    }
  }
};

EmbreeSide::EmbreeSide(const std::vector<garden::Body>& bodies) : traced_(new Traced) {
  oracle::Triangles corners;
  for (const garden::Body& body : bodies) {
    if (body.through == garden::Through::kOpaque) {
      const oracle::Triangles own = oracle::triangles_of(body);
      corners.insert(corners.end(), own.begin(), own.end());
    } else {
      traced_->crowns.push_back(crown_of(body));
    }
  }
  traced_->add_prisms(corners);
  traced_->add_crowns();
  rtcSetSceneBuildQuality(traced_->scene, RTC_BUILD_QUALITY_HIGH);
  rtcCommitScene(traced_->scene);
}

EmbreeSide::~EmbreeSide() {
  rtcReleaseScene(traced_->scene);
  rtcReleaseDevice(traced_->device);
  delete traced_;
}

light::LitCounts EmbreeSide::hours(const Receiver& ground, std::span<const light::SunSample> suns,
                                   Query query) const {
  const auto cells = static_cast<std::size_t>(ground.cells());
  light::LitCounts counts(ground.columns, ground.rows);
  for (const light::SunSample& sun : suns) {
    if (!(sun.beam_w_m2 > 120)) continue;
    auto& plane = counts.plane(sun.month, sun.part);
    plane.resize(cells);
    traced_->all_cells(ground, sun.toward_sun, light::kMostDepth, query,
                       [&](std::size_t cell, bool met, float) { plane[cell] += !met; });
  }
  return counts;
}

light::BeamLight EmbreeSide::light(const Receiver& ground, std::span<const light::SunSample> suns,
                                   Query query) const {
  const auto cells = static_cast<std::size_t>(ground.cells());
  light::BeamLight out;
  out.lit = light::LitCounts(ground.columns, ground.rows);
  for (const light::SunSample& sun : suns) {
    auto& beam = out.beam_mol_m2[sun.month];
    beam.resize(cells);
    auto& plane = out.lit.plane(sun.month, sun.part);
    plane.resize(cells);
    const bool counts = sun.beam_w_m2 > 120;
    const float brings = sun.light * static_cast<float>(sun.toward_sun.z);
    traced_->all_cells(ground, sun.toward_sun, kFar, query,
                       [&](std::size_t cell, bool met, float depth) {
                         if (met) return;
                         plane[cell] += counts && depth <= light::kMostDepth;
                         beam[cell] += depth > 0 ? brings * std::exp(-depth) : brings;
                       });
  }
  return out;
}

light::SkyLight EmbreeSide::sky(const Receiver& ground, std::span<const light::SkyDirection> sky,
                                Query query) const {
  const auto cells = static_cast<std::size_t>(ground.cells());
  light::SkyLight out;
  out.uniform.assign(1, std::vector<float>(cells));
  out.overcast.assign(1, std::vector<float>(cells));
  for (const light::SkyDirection& direction : sky) {
    traced_->all_cells(ground, direction.toward, kFar, query,
                       [&](std::size_t cell, bool met, float depth) {
                         if (met) return;
                         const float share = depth > 0 ? std::exp(-depth) : 1;
                         out.uniform[0][cell] += share * direction.uniform;
                         out.overcast[0][cell] += share * direction.overcast;
                       });
  }
  return out;
}

}  // namespace spadework::bench
