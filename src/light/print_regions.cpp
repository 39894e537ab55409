#include "light/print_regions.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <tuple>

namespace spadework::light {
namespace {

using geometry::Path;
using geometry::PathStep;
using geometry::Vec2;

/// Pieces of fewer cells are too small to see; of stripes too small to be told as such.
constexpr std::size_t kSpeck = 12, kStripedSpeck = 30;
/// Less of the place than this faces the sun: it is behind it.
constexpr float kLeastFacing = 0.05F;

/// Calls `act` for the cells beside one.
template <class Act>
void each_beside(const SunPrint& print, int cell, Act act) {
  const int row = cell % print.rows;
  if (row > 0) act(cell - 1);
  if (row + 1 < print.rows) act(cell + 1);
  if (cell >= print.rows) act(cell - print.rows);
  if (cell + print.rows < static_cast<int>(print.cells.size())) act(cell + print.rows);
}

std::optional<RegionKind> kind_of_cell(const PrintCell& cell) {
  if (!cell.strong || cell.lit + cell.taken() < kLeastFacing) return {};
  const double lit = cell.lit_of_facing();
  if (lit > 0.75) return RegionKind{};
  const auto what = lit > 0.25 ? RegionKind::What::kHalf : RegionKind::What::kWhole;
  return RegionKind{what, cell.taker, cell.second};
}

/// Gives the specks to the neighbour with the longest common side.
void absorb_specks(const SunPrint& print, const std::vector<RegionKind>& kinds,
                   std::vector<int>& kind_of) {
  for (const Piece& piece : pieces_of(print, kind_of)) {
    const bool striped = kinds[static_cast<std::size_t>(piece.kind)].striped();
    if (piece.cells.size() >= (striped ? kStripedSpeck : kSpeck)) continue;
    std::map<int, int> sides;
    for (const int cell : piece.cells) {
      each_beside(print, cell, [&](int other) {
        const int kind = kind_of[static_cast<std::size_t>(other)];
        if (kind != piece.kind && kind != kNoRegion) ++sides[kind];
      });
    }
    if (sides.empty()) continue;
    const int most = std::max_element(sides.begin(), sides.end(), [](auto& a, auto& b) {
                       return a.second < b.second;
                     })->first;
    for (const int cell : piece.cells) kind_of[static_cast<std::size_t>(cell)] = most;
  }
}

/// Numbers the kinds in the order of painting and leaves out those that are gone.
void order_kinds(PrintRegions& regions) {
  for (RegionKind& kind : regions.kinds) kind.cells = 0;
  for (const int kind : regions.kind_of) {
    if (kind != kNoRegion) ++regions.kinds[static_cast<std::size_t>(kind)].cells;
  }
  std::vector<int> order;
  for (int k = 0; k < static_cast<int>(regions.kinds.size()); ++k) {
    if (regions.kinds[static_cast<std::size_t>(k)].cells > 0) order.push_back(k);
  }
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
    const RegionKind &x = regions.kinds[static_cast<std::size_t>(a)],
                     &y = regions.kinds[static_cast<std::size_t>(b)];
    return std::tuple(x.what, -x.cells) < std::tuple(y.what, -y.cells);
  });
  std::vector<RegionKind> kinds;
  std::vector<int> number(regions.kinds.size(), kNoRegion);
  for (const int k : order) {
    number[static_cast<std::size_t>(k)] = static_cast<int>(kinds.size());
    kinds.push_back(regions.kinds[static_cast<std::size_t>(k)]);
  }
  for (int& kind : regions.kind_of) {
    if (kind != kNoRegion) kind = number[static_cast<std::size_t>(kind)];
  }
  regions.kinds = std::move(kinds);
}

bool turns_left(Vec2 before, Vec2 after) { return geometry::cross(before, after) > 0; }

/// The corners of a ring, of which small steps are cut through their middles.
std::vector<Vec2> smoothed(const std::vector<Vec2>& ring, Vec2 step) {
  const std::size_t n = ring.size();
  const auto side = [&](std::size_t i) { return ring[(i + 1) % n] - ring[i % n]; };
  // A side is a step when it is short and the ring goes on as it came.
  const auto is_step = [&](std::size_t i) {
    const Vec2 s = side(i);
    const bool small = std::abs(s.x) < 1.5 * step.x && std::abs(s.y) < 1.5 * step.y;
    return small && turns_left(side(i + n - 1), s) != turns_left(s, side(i + 1));
  };
  constexpr double kMostCells = 4;
  const auto cut = [&](Vec2 s) {
    const double most = kMostCells * (std::abs(s.x) > std::abs(s.y) ? step.x : step.y);
    const double length = geometry::length(s);
    return s * (std::min(length / 2, most) / length);
  };
  std::vector<Vec2> out;
  for (std::size_t i = 0; i < n; ++i) {
    const std::size_t before = (i + n - 1) % n;
    if (!is_step(before) && !is_step(i)) {
      out.push_back(ring[i]);
      continue;
    }
    out.push_back(ring[i] - cut(side(before)));
    out.push_back(ring[i] + cut(side(i)));
  }
  return out;
}

}  // namespace

std::vector<Piece> pieces_of(const SunPrint& print, const std::vector<int>& kind_of) {
  std::vector<Piece> pieces;
  std::vector<char> seen(kind_of.size(), 0);
  for (std::size_t start = 0; start < kind_of.size(); ++start) {
    if (seen[start] || kind_of[start] == kNoRegion) continue;
    Piece piece{kind_of[start], {static_cast<int>(start)}};
    seen[start] = 1;
    for (std::size_t next = 0; next < piece.cells.size(); ++next) {
      each_beside(print, piece.cells[next], [&](int other) {
        const auto i = static_cast<std::size_t>(other);
        if (seen[i] || kind_of[i] != piece.kind) return;
        seen[i] = 1;
        piece.cells.push_back(other);
      });
    }
    pieces.push_back(std::move(piece));
  }
  return pieces;
}

PrintRegions regions_of(const SunPrint& print) {
  PrintRegions regions;
  std::map<std::tuple<RegionKind::What, int, int>, int> known;
  for (const PrintCell& cell : print.cells) {
    const auto kind = kind_of_cell(cell);
    if (!kind) {
      regions.kind_of.push_back(kNoRegion);
      continue;
    }
    const auto [at, fresh] = known.emplace(std::tuple(kind->what, kind->taker, kind->second),
                                           static_cast<int>(regions.kinds.size()));
    if (fresh) regions.kinds.push_back(*kind);
    regions.kind_of.push_back(at->second);
  }
  absorb_specks(print, regions.kinds, regions.kind_of);
  order_kinds(regions);
  return regions;
}

Vec2 heart_of(const SunPrint& print, const Piece& piece) {
  Vec2 mean;
  for (const int cell : piece.cells)
    mean = mean + Vec2{cell / print.rows + 0.5, cell % print.rows + 0.5};
  mean = mean * (1 / static_cast<double>(piece.cells.size()));
  Vec2 best;
  double least = std::numeric_limits<double>::infinity();
  for (const int cell : piece.cells) {
    const Vec2 at{cell / print.rows + 0.5, cell % print.rows + 0.5};
    const double off = geometry::length(at - mean);
    if (off < least) least = off, best = at;
  }
  return best;
}

std::optional<Vec2> room_within(const SunPrint& print, const Piece& piece, int columns, int rows) {
  if (static_cast<int>(piece.cells.size()) < columns * rows) return {};
  // Of each cell, how many of the piece lie in the columns and rows up to it.
  const int wide = print.columns + 1, high = print.rows + 1;
  std::vector<int> sum(static_cast<std::size_t>(wide * high), 0);
  const auto at = [&](int c, int r) -> int& { return sum[static_cast<std::size_t>(c * high + r)]; };
  for (const int cell : piece.cells) at(cell / print.rows + 1, cell % print.rows + 1) = 1;
  for (int c = 1; c < wide; ++c) {
    for (int r = 1; r < high; ++r) at(c, r) += at(c - 1, r) + at(c, r - 1) - at(c - 1, r - 1);
  }
  const Vec2 heart = heart_of(print, piece);
  std::optional<Vec2> best;
  double least = std::numeric_limits<double>::infinity();
  for (int c = 0; c + columns < wide; ++c) {
    for (int r = 0; r + rows < high; ++r) {
      const int within =
          at(c + columns, r + rows) - at(c, r + rows) - at(c + columns, r) + at(c, r);
      if (within < columns * rows) continue;
      const Vec2 middle{c + columns / 2.0, r + rows / 2.0};
      const double off = geometry::length(middle - heart);
      if (off < least) least = off, best = middle;
    }
  }
  return best;
}

Path without_steps(const Path& stairs, Vec2 step) {
  Path out;
  std::vector<Vec2> ring;
  for (const PathStep& s : stairs.steps()) {
    if (s.kind == PathStep::Kind::kClose) {
      out.add(Path::polygon(smoothed(ring, step)));
      ring.clear();
    } else {
      ring.push_back(s.to);
    }
  }
  return out;
}

}  // namespace spadework::light
