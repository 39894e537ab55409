// For the tests of this room: the catalogue as it is shipped, and every fact in it.
#pragma once

#include <string>

#include "facts/facts.h"

namespace spadework::facts {

/// A file of the repository, by its path in it.
std::string file_text(const std::string& path);

/// The seven files, to be read as they are or with something changed.
struct CatalogueTexts {
  std::string sources = file_text("data/sources.toml");
  std::string trees = file_text("data/trees.toml");
  std::string barriers = file_text("data/barriers.toml");
  std::string supports = file_text("data/supports.toml");
  std::string covers = file_text("data/covers.toml");
  std::string crops = file_text("data/crops.toml");
  std::string vocabulary = file_text("data/vocabulary.toml");
  [[nodiscard]] Result<Catalogue> read() const {
    return read_catalogue({sources, trees, barriers, supports, covers, crops, vocabulary});
  }
};

/// Read once; a mistake in the data fails the test that asks first.
const Catalogue& shipped();

/// Calls `use(what, sources, standing)` for every fact of the catalogue.
template <class Use>
void each_fact(const Catalogue& catalogue, Use use) {
  const auto tell = [&](const std::string& what, const auto& fact) {
    use(what, fact.sources, fact.standing);
  };
  const auto tell_leaves = [&](const std::string& id, const LeafDates& leaves) {
    if (leaves.habit == LeafHabit::kEvergreen) return;
    tell(id + " out_start", leaves.out_start);
    tell(id + " full", leaves.full);
    tell(id + " fall_start", leaves.fall_start);
    tell(id + " bare", leaves.bare);
    tell(id + " reference_latitude", leaves.reference_latitude);
  };
  for (const TreeKind& tree : catalogue.trees.all()) {
    tell(tree.id + " shape", tree.shape);
    tell(tree.id + " crown_base_share", tree.crown_base_share);
    tell_leaves(tree.id, tree.leaves);
    tell(tree.id + " beam leaf_on", tree.beam_through.leaf_on);
    tell(tree.id + " beam leaf_off", tree.beam_through.leaf_off);
    tell(tree.id + " beam of_crown", tree.beam_through.of_crown);
    if (tree.total_through.leaf_on) tell(tree.id + " total leaf_on", *tree.total_through.leaf_on);
    if (tree.total_through.leaf_off) {
      tell(tree.id + " total leaf_off", *tree.total_through.leaf_off);
    }
  }
  for (const BarrierKind& barrier : catalogue.barriers.all()) {
    tell(barrier.id + " thickness", barrier.thickness);
    tell(barrier.id + " leaf_on", barrier.light_through.leaf_on);
    tell(barrier.id + " leaf_off", barrier.light_through.leaf_off);
    tell_leaves(barrier.id, barrier.leaves);
  }
  for (const SupportKind& support : catalogue.supports.all()) {
    tell(support.id + " width", support.width);
    tell(support.id + " depth", support.depth);
    tell(support.id + " light_through", support.light_through);
  }
  for (const SideKind& side : catalogue.sides.all()) {
    tell(side.id + " light_through", side.light_through);
  }
  for (const CoverKind& cover : catalogue.covers.all()) {
    tell(cover.id + " light_through", cover.light_through);
    tell(cover.id + " height", cover.height);
  }
  for (const Crop& crop : catalogue.crops.all()) {
    tell(crop.id + " height", crop.height);
    tell(crop.id + " spread", crop.spread);
    const Growth& growth = crop.growth;
    tell(crop.id + " leaf_area", growth.leaf_area);
    tell(crop.id + " extinction", growth.extinction);
    tell(crop.id + " foot_share", growth.foot_share);
    if (growth.way == GrowthWay::kWoody) tell(crop.id + " bare_share", growth.bare_share);
    tell_leaves(crop.id, growth.leaves);
    if (growth.way != GrowthWay::kSown) continue;
    tell(crop.id + " planted", growth.planted);
    tell(crop.id + " stages", growth.stages);
    if (growth.until) tell(crop.id + " until", *growth.until);
  }
}

}  // namespace spadework::facts
