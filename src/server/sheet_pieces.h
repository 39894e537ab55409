// The sheet's drawing in pieces, so that of a drawing that is known only what is other need be
// drawn, written and sent. For the server room alone.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/result.h"
#include "garden/plan_symbols.h"
#include "server/answers.h"
#include "server/workshop.h"
#include "study/study.h"

namespace spadework::server {

/// One group of a layer, written. It is drawn from the symbol, or the word, and nothing else.
struct ThingPiece {
  garden::PlanSymbol symbol;
  std::string id;  // in the drawing, where it is there once
  std::shared_ptr<const std::string> svg;
};
struct NamePiece {
  geometry::Text word;
  std::string id;
  std::shared_ptr<const std::string> svg;
};

struct SheetPieces {
  geometry::Box2 frame_m;
  std::string head;  // what stands before the layers
  /// Layers of few lines, by name, below the things and above them.
  std::vector<std::pair<std::string, std::string>> below, above;
  std::vector<ThingPiece> things;
  std::vector<NamePiece> names;

  /// The drawing as one SVG document.
  [[nodiscard]] std::string whole() const;
};

/// What the plan is drawn for.
struct SheetAsked {
  double mm_per_m = 20;
  int day_of_year = 172;
  /// What the paper shows; nothing: as far as the garden reaches. One that was asked for before
  /// stays, so that a garden that grows need not be drawn anew.
  std::optional<geometry::Box2> frame_m;
};

/// The plan in layers, as paper of that scale: the frame's upper left corner is its origin.
/// `found`: to show what goes and what moves. `known`: a drawing whose pieces are taken where they
/// would be the same; the result does not depend on it.
[[nodiscard]] Result<SheetPieces> sheet_pieces(const study::Stand& stand,
                                               const garden::Garden* found, const SheetAsked& asked,
                                               const Workshop& workshop, const SheetPieces* known);

/// What makes one drawing the other, as the contract's SheetChanges without its `change`; `whole`
/// where it would have to be drawn from the beginning.
[[nodiscard]] Json changes_between(const SheetPieces& before, const SheetPieces& now);

}  // namespace spadework::server
