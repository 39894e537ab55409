// What stands in the garden as symbols that are told and not yet drawn. Equal ones are drawn alike:
// whoever keeps a drawing need draw only those that are other than before.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "garden/plan_drawing.h"
#include "geometry/symbols.h"

namespace spadework::garden {

struct BedSymbol {
  Polygon outline;
  double board_mm = 0;
  Vec2 downhill;
  friend bool operator==(const BedSymbol&, const BedSymbol&) = default;
};
struct LineSymbol {
  enum class Look { kHedge, kFence, kWall };
  Look look = Look::kWall;
  std::vector<Vec2> line;
  double figure_mm = 0;  // how thick; of a fence, from post to post
  friend bool operator==(const LineSymbol&, const LineSymbol&) = default;
};
struct RoundSymbol {
  enum class Look { kTank, kContainer, kPlant };
  Look look = Look::kPlant;
  Vec2 at;
  double across_mm = 0;
  friend bool operator==(const RoundSymbol&, const RoundSymbol&) = default;
};
struct ObjectSymbol {
  Polygon outline;
  friend bool operator==(const ObjectSymbol&, const ObjectSymbol&) = default;
};
struct CoverSymbol {
  Polygon outline;
  geometry::CoverLook look = geometry::CoverLook::kNet;
  friend bool operator==(const CoverSymbol&, const CoverSymbol&) = default;
};
struct SpotSymbol {
  enum class Look { kTap, kPeg };
  Look look = Look::kPeg;
  Vec2 at;
  friend bool operator==(const SpotSymbol&, const SpotSymbol&) = default;
};
struct GateSymbol {
  Vec2 hinge, latch;
  friend bool operator==(const GateSymbol&, const GateSymbol&) = default;
};
struct ViewpointSymbol {
  Vec2 at, facing;
  friend bool operator==(const ViewpointSymbol&, const ViewpointSymbol&) = default;
};
struct MoveSymbol {
  Vec2 from, to;
  friend bool operator==(const MoveSymbol&, const MoveSymbol&) = default;
};

struct PlanSymbol {
  geometry::Mark mark;
  std::variant<BedSymbol, LineSymbol, RoundSymbol, ObjectSymbol, CoverSymbol, SpotSymbol,
               GateSymbol, ViewpointSymbol, MoveSymbol, geometry::BuildingShape,
               geometry::SeatShape, geometry::SupportShape, geometry::TreeShape>
      shape;
  friend bool operator==(const PlanSymbol&, const PlanSymbol&) = default;
};

/// What draw_things() draws, in the order in which it is painted.
[[nodiscard]] std::vector<PlanSymbol> symbols_of(const PlanView& view);
void draw(const PlanSymbol& symbol, geometry::Group& into);

}  // namespace spadework::garden
