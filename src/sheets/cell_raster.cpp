#include "sheets/cell_raster.h"

#include <algorithm>
#include <cmath>

namespace spadework::sheets {

using geometry::CellImage;
using geometry::Colour;
using geometry::Oklab;

namespace {

std::uint32_t opaque(Colour c) {
  return 0xff000000U | (static_cast<std::uint32_t>(c.r) << 16) |
         (static_cast<std::uint32_t>(c.g) << 8) | c.b;
}

// Absent cells take the colour of a neighbour, ring by ring, until none are left.
std::vector<Colour> filled_in(const CellImage& image) {
  std::vector<Colour> cells = image.cells;
  if (image.present.empty()) return cells;
  std::vector<std::uint8_t> known = image.present;
  std::vector<std::size_t> edge;
  for (std::size_t i = 0; i < known.size(); ++i)
    if (known[i] != 0) edge.push_back(i);
  const auto columns = static_cast<std::size_t>(image.columns);
  for (std::vector<std::size_t> next; !edge.empty(); edge.swap(next), next.clear()) {
    const auto pass_on = [&](std::size_t from, std::size_t to) {
      if (known[to] != 0) return;
      known[to] = 1;
      cells[to] = cells[from];
      next.push_back(to);
    };
    for (const std::size_t i : edge) {
      if (i % columns > 0) pass_on(i, i - 1);
      if (i % columns + 1 < columns) pass_on(i, i + 1);
      if (i >= columns) pass_on(i, i - columns);
      if (i + columns < cells.size()) pass_on(i, i + columns);
    }
  }
  return cells;
}

// Pixels to a cell's side.
int fineness(const CellImage& image) {
  const double cell_mm = std::max(length(image.placement.along), length(image.placement.down));
  const double cells = std::max(1.0, static_cast<double>(image.columns) * image.rows);
  const double most = std::clamp(std::sqrt(6e6 / cells), 1.0, 16.0);
  return static_cast<int>(std::clamp(std::ceil(cell_mm * 3), 1.0, std::floor(most)));
}

// Where a pixel's middle lies among the cells' middles, held to the first and last.
struct Between {
  int low = 0;
  double share = 0;
};
Between between(int pixel, int per_cell, int cells) {
  const double at = std::clamp((pixel + 0.5) / per_cell - 0.5, 0.0, static_cast<double>(cells - 1));
  const int low = std::min(static_cast<int>(at), std::max(cells - 2, 0));
  return {low, at - low};
}

Oklab part_way(const Oklab& from, const Oklab& to, double share) {
  return {from.l + (to.l - from.l) * share, from.a + (to.a - from.a) * share,
          from.b + (to.b - from.b) * share};
}

Raster smooth(const CellImage& image) {
  const std::vector<Colour> cells = filled_in(image);
  const int k = fineness(image);
  Raster raster{image.columns * k, image.rows * k, {}};
  raster.argb.reserve(static_cast<std::size_t>(raster.width) *
                      static_cast<std::size_t>(raster.height));
  std::vector<Oklab> labs;
  labs.reserve(cells.size());
  for (const Colour colour : cells) labs.push_back(to_oklab(colour));
  const auto columns = static_cast<std::size_t>(image.columns);
  std::vector<Oklab> line(columns);
  for (int y = 0; y < raster.height; ++y) {
    const Between row = between(y, k, image.rows);
    const auto low = static_cast<std::size_t>(row.low) * columns;
    const auto high = static_cast<std::size_t>(std::min(row.low + 1, image.rows - 1)) * columns;
    for (std::size_t c = 0; c < columns; ++c)
      line[c] = part_way(labs[low + c], labs[high + c], row.share);
    for (int x = 0; x < raster.width; ++x) {
      const Between at = between(x, k, image.columns);
      const auto a = static_cast<std::size_t>(at.low);
      const std::size_t b = std::min(a + 1, columns - 1);
      raster.argb.push_back(opaque(from_oklab(part_way(line[a], line[b], at.share))));
    }
  }
  return raster;
}

}  // namespace

Raster raster_of(const CellImage& image) {
  if (image.columns <= 0 || image.rows <= 0) return {};
  if (image.look == CellImage::Look::kSmooth) return smooth(image);
  Raster raster{image.columns, image.rows, {}};
  raster.argb.reserve(image.cells.size());
  for (std::size_t i = 0; i < image.cells.size(); ++i) {
    const bool there = image.present.empty() || image.present[i] != 0;
    raster.argb.push_back(there ? opaque(image.cells[i]) : 0);
  }
  return raster;
}

}  // namespace spadework::sheets
