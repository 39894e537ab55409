// How a garden's field falls into receiving planes. For the light room alone.
#pragma once

#include <string>
#include <vector>

#include "light/field.h"

namespace spadework::light {

/// A part of a field on one plane: cast at once.
struct FieldBand {
  Receiver receiver;
  std::vector<garden::Body> own;      // for this plane alone: ground beside it, a bed's boards
  std::vector<std::string> replaces;  // the things whose bodies those stand for
  struct Cell {
    std::uint32_t of_field = 0, of_receiver = 0;
  };
  std::vector<Cell> cells;
};

/// An empty field over the boundary, or over all that is drawn where there is none.
/// Errors: kNoAnswer beyond `kMostFieldCells`.
[[nodiscard]] Result<Field> empty_field(const Scenery& scenery, double cell_m);
/// Says what each cell of the field lies on, and in which bands they are cast: each cell once.
[[nodiscard]] std::vector<FieldBand> bands_of(const Scenery& scenery, Field& field);

}  // namespace spadework::light
