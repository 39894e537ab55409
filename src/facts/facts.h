// Front door of the facts room: the catalogue of kinds, with every figure's source and standing.
// It is made from the bytes of `data/*.toml`, which the caller brings; it reads no files itself.
//
//   auto catalogue = read_catalogue(bytes);
//   const TreeKind* medlar = catalogue->trees.find("Medlar");
//   medlar->beam_through.leaf_on.value;              // 0.26
//   leaf_share(medlar->leaves, day, southern);       // 0 bare … 1 in full leaf (leaves.h)
//   trace_of(medlar->beam_through.leaf_on, "…", ""); // the first link of a reason (fact.h)
//   leaf_dates_at(medlar->leaves, place);            // at another latitude and height (leaves.h)
//   grown(pea->growth, day, southern);               // a crop's height and depth by day (growth.h)
//   catalogue->names_of("tree");                     // for hints
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/quantity.h"
#include "base/result.h"
#include "facts/fact.h"
#include "facts/growth.h"
#include "facts/kinds.h"
#include "facts/leaves.h"

namespace spadework::facts {

/// Where figures come from: one entry of data/sources.toml.
struct Source {
  std::string id;                 // its key: "fao56"
  std::vector<std::string> also;  // always empty
  std::string citation;
  std::string kind;     // "paper", "book", "report", "extension", "trade", "memory", …
  std::string seen;     // "read", "excerpt", "reproduction" or "memory"
  std::string licence;  // the licence or attribution line; empty: facts only, nothing copied
  std::string note;
};

/// Shares of light, 0 to 1, in full leaf and bare (or with dead leaves, or alike for evergreens).
struct ThroughLeaves {
  Fact<double> leaf_on, leaf_off;
};

/// Direct beam: the mean over the shadow of a round crown as wide as `of_crown`. A wider crown of
/// the same kind lets less through.
struct BeamThroughCrown {
  Fact<double> leaf_on, leaf_off;
  Fact<Length> of_crown;
};

/// Total solar radiation in the shade, beam and sky together, as published. Never a substitute for
/// the beam: it holds the light that comes past the crown from the sky.
struct TotalThroughCrown {
  std::optional<Fact<double>> leaf_on, leaf_off;
};

/// Two figures that look alike and are not: what comes through of the sun's own beam, and what
/// arrives in the shade from sun and sky together. Shadows are cast with the beam; so are all
/// figures of barriers, supports, sides and covers, and the leaves of crops.
enum class LightQuantity { kBeam, kTotalSolar };

enum class CrownShape { kRound, kColumn, kCone, kSpreading };
[[nodiscard]] std::string_view crown_shape_name(CrownShape shape);  // "round", …

struct TreeKind {
  std::string id;  // "horse-chestnut"
  std::string says, latin;
  std::vector<std::string> also;
  Fact<CrownShape> shape;
  Fact<double> crown_base_share;  // height of the crown's foot over the tree's height
  LeafDates leaves;
  BeamThroughCrown beam_through;
  TotalThroughCrown total_through;
};

enum class BarrierClass { kWall, kFence, kHedge };
[[nodiscard]] std::string_view barrier_class_name(BarrierClass of);  // "wall", …

/// Share of that quantity through a crown, in leaf or bare; nothing where it was not measured.
[[nodiscard]] const Fact<double>* light_through(const TreeKind& tree, LightQuantity quantity,
                                                bool in_leaf);

/// Walls, fences, hurdles, screens and hedges.
struct BarrierKind {
  std::string id, says;
  std::vector<std::string> also;
  BarrierClass of = BarrierClass::kWall;
  Fact<Length> thickness;
  /// Share of the direct beam that goes straight through, square to the line, at `thickness`.
  ThroughLeaves light_through;
  LeafDates leaves;
};

/// What a climber grows on, before it does.
struct SupportKind {
  std::string id, says;
  std::vector<std::string> also;
  Fact<Length> width, depth;   // along its front, and from front to back
  Fact<double> light_through;  // direct beam through one side of the bare frame
};

/// The sides of a seat.
struct SideKind {
  std::string id, says;
  std::vector<std::string> also;
  Fact<double> light_through;
};

struct CoverKind {
  std::string id, says;
  std::vector<std::string> also;
  Fact<double> light_through;  // direct beam through one skin, clean
  Fact<Length> height;         // above the soil
};

enum class LifeForm { kAnnual, kBiennial, kPerennial, kSubShrub, kShrub, kCane, kVine, kTree };
[[nodiscard]] std::string_view life_form_name(LifeForm form);  // "annual", "sub-shrub", …

struct Crop {
  std::string id, says, latin, family;
  std::vector<std::string> also;
  LifeForm life_form = LifeForm::kAnnual;  // as gardens grow it: a carrot is an annual
  bool climber = false;                    // wants something to climb or to be tied to
  Fact<Range> height;                      // in full growth; a climber's as far as it is let
  Fact<Range> spread;                      // across one plant
  bool flat = false;                       // trained flat against a wall
  Growth growth;
};

/// A word that a document may use, with its meaning.
struct Word {
  std::string id;  // the word, with its spaces
  std::vector<std::string> also;
  std::string says;
};

struct WordList {
  std::string id;  // "surface", "treatment", "material", "patch", "texture", "service", "roof",
                   // "family", "form"
  std::vector<std::string> also;  // always empty
  Kinds<Word> words;
};

struct Catalogue {
  Kinds<Source> sources;
  Kinds<TreeKind> trees;
  Kinds<BarrierKind> barriers;
  Kinds<SupportKind> supports;
  Kinds<SideKind> sides;
  Kinds<CoverKind> covers;
  Kinds<Crop> crops;
  Kinds<WordList> vocabulary;

  /// The source of exactly that key, or nothing.
  [[nodiscard]] const Source* source(std::string_view key) const;
  /// The word of a vocabulary list ("surface", …), or nothing.
  [[nodiscard]] const Word* word(std::string_view list, std::string_view word) const;
  /// Whether `name` is known in the list "tree", "barrier", "support", "side", "cover", "crop" or
  /// one of the vocabulary. False for a list that does not exist.
  [[nodiscard]] bool knows(std::string_view list, std::string_view name) const;
  /// All names of such a list, ids first; empty for a list that does not exist.
  [[nodiscard]] std::vector<std::string> names_of(std::string_view list) const;
};

/// The contents of the files of that name in data/.
struct CatalogueBytes {
  std::string_view sources, trees, barriers, supports, covers, crops, vocabulary;
};

/// Out:    the whole catalogue; every fact has a source that resolves.
/// Errors: the first mistake in the data, with `where` as "trees.toml:41:7": kSyntax, kUnknownKey,
///         kMissingKey, kWrongType, kUnknownId (a source), kUnknownKind, kRepeatedId,
///         kImpossibleValue.
[[nodiscard]] Result<Catalogue> read_catalogue(const CatalogueBytes& bytes);

}  // namespace spadework::facts
