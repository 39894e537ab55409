// The same garden traced by Embree, for the benchmarks: a ray for each cell and direction, in
// packets, shadows only. Prisms are triangles; crowns are geometry of the user's, whose callback
// adds each ellipsoid's chord to the ray's optical depth.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "light/light.h"

namespace spadework::bench {

enum class Query { kSingle, kPacket4, kPacket8, kPacket16, kStream };
inline constexpr Query kQueries[] = {Query::kSingle, Query::kPacket4, Query::kPacket8,
                                     Query::kPacket16, Query::kStream};
[[nodiscard]] std::string query_name(Query query);

class EmbreeSide {
 public:
  /// In: prisms and ellipsoids alone; crowns with one optical depth all year.
  explicit EmbreeSide(const std::vector<garden::Body>& bodies);
  ~EmbreeSide();
  EmbreeSide(const EmbreeSide&) = delete;
  EmbreeSide& operator=(const EmbreeSide&) = delete;

  /// What light::cast() gives.
  [[nodiscard]] light::LitCounts hours(const light::Receiver& ground,
                                       std::span<const light::SunSample> suns, Query query) const;
  /// What light::cast_light() gives.
  [[nodiscard]] light::BeamLight light(const light::Receiver& ground,
                                       std::span<const light::SunSample> suns, Query query) const;
  /// What light::cast_sky() gives.
  [[nodiscard]] light::SkyLight sky(const light::Receiver& ground,
                                    std::span<const light::SkyDirection> sky, Query query) const;

 private:
  struct Traced;
  Traced* traced_;
};

}  // namespace spadework::bench
