// The outline of a set of cells, walked edge by edge with the set to the left (plan sense, the y of
// rows upward; on paper, where rows run down, to the right).
#include <cstdint>

#include "geometry/path.h"

namespace spadework::geometry {

namespace {

// Edges leave a corner to the right, up, to the left or down (in rows): bits 0 to 3.
constexpr int kStepColumn[4] = {1, 0, -1, 0};
constexpr int kStepRow[4] = {0, 1, 0, -1};

class Tracer {
 public:
  Tracer(int columns, int rows, const std::function<bool(int, int)>& in)
      : columns_(columns), rows_(rows), in_(in) {
    leaving_.assign(static_cast<std::size_t>(columns + 1) * static_cast<std::size_t>(rows + 1), 0);
    for (int r = 0; r < rows; ++r)
      for (int c = 0; c < columns; ++c)
        if (in(c, r)) note_edges(c, r);
  }

  Path trace(const Affine& placement) {
    Path path;
    for (int r = 0; r <= rows_; ++r)
      for (int c = 0; c <= columns_; ++c)
        while (at(c, r) != 0) add_ring(path, c, r, placement);
    return path;
  }

 private:
  std::uint8_t& at(int c, int r) {
    return leaving_[static_cast<std::size_t>(r) * static_cast<std::size_t>(columns_ + 1) +
                    static_cast<std::size_t>(c)];
  }
  [[nodiscard]] bool has(int c, int r) const {
    return c >= 0 && r >= 0 && c < columns_ && r < rows_ && in_(c, r);
  }
  void note_edges(int c, int r) {
    if (!has(c, r - 1)) at(c, r) |= 1;
    if (!has(c + 1, r)) at(c + 1, r) |= 2;
    if (!has(c, r + 1)) at(c + 1, r + 1) |= 4;
    if (!has(c - 1, r)) at(c, r + 1) |= 8;
  }

  void add_ring(Path& path, int c, int r, const Affine& placement) {
    std::vector<Vec2> corners;
    int heading = -1;
    while (true) {
      // At a corner that two cells share, turn left: each keeps its own ring.
      int next = -1;
      for (const int turn : {1, 0, 3, 2}) {
        const int way = heading < 0 ? turn : (heading + turn) % 4;
        if ((at(c, r) & (1 << way)) != 0) {
          next = way;
          break;
        }
      }
      if (next < 0) break;
      if (next != heading) corners.push_back(placement.at(c, r));
      at(c, r) = static_cast<std::uint8_t>(at(c, r) & ~(1 << next));
      c += kStepColumn[next];
      r += kStepRow[next];
      heading = next;
    }
    path.add(Path::polygon(corners));
  }

  int columns_, rows_;
  const std::function<bool(int, int)>& in_;
  std::vector<std::uint8_t> leaving_;
};

}  // namespace

Path outline_of_cells(int columns, int rows, const std::function<bool(int, int)>& in,
                      const Affine& placement) {
  if (columns <= 0 || rows <= 0) return {};
  return Tracer(columns, rows, in).trace(placement);
}

}  // namespace spadework::geometry
