// Trees: a crown that lets some of the beam through, on an opaque stem.
#include <algorithm>

#include "garden/body_makers.h"

namespace spadework::garden {
namespace {

CrownForm form_of(facts::CrownShape shape) {
  switch (shape) {
    case facts::CrownShape::kRound:
      return CrownForm::kRound;
    case facts::CrownShape::kColumn:
      return CrownForm::kColumn;
    case facts::CrownShape::kCone:
      return CrownForm::kCone;
    case facts::CrownShape::kSpreading:
      return CrownForm::kSpreading;
  }
  return CrownForm::kRound;
}

geometry::RoundShape shape_of(CrownForm form) {
  switch (form) {
    case CrownForm::kRound:
      return geometry::RoundShape::kEllipsoid;
    case CrownForm::kColumn:
      return geometry::RoundShape::kColumn;
    case CrownForm::kCone:
      return geometry::RoundShape::kCone;
    case CrownForm::kSpreading:
      return geometry::RoundShape::kDome;
  }
  return geometry::RoundShape::kEllipsoid;
}

/// A crown that is lifted or topped keeps its shape and loses what is cut off: cutting never lets a
/// tree take more. One that is to reach further up or down has grown.
geometry::RoundSolid crown_of(const Tree& tree, const facts::TreeKind& kind, double foot_z) {
  const TreeFigures figures = tree_figures(tree, kind);
  double base = in_metres(figures.crown_base), top = in_metres(tree.height);
  geometry::RoundSolid crown{shape_of(figures.form), tree.at, foot_z + base, foot_z + top,
                             in_metres(tree.crown_width) / 2};
  if (!tree.before) return crown;
  Tree was = tree;
  was.height = tree.before->height;
  was.crown_base = tree.before->crown_base;
  const double old_base = in_metres(tree_figures(was, kind).crown_base);
  const double old_top = in_metres(was.height);
  if (!tree.crown_base) base = old_base;  // topping alone leaves the crown's foot where it is
  if (base >= old_top || top <= old_base) return crown;  // nothing of the old crown is left
  crown.bottom_z = foot_z + std::min(base, old_base);
  crown.top_z = foot_z + std::max(top, old_top);
  if (base > old_base) crown.cut_below_z = foot_z + base;
  if (top < old_top) crown.cut_above_z = foot_z + top;
  return crown;
}

}  // namespace

TreeFigures tree_figures(const Tree& tree, const facts::TreeKind& kind) {
  constexpr double kStemOverHeight = 0.035;  // common practice of the trade, no source
  TreeFigures figures;
  figures.crown_base = tree.crown_base.value_or(tree.height * kind.crown_base_share.value);
  figures.stem = tree.stem.value_or(tree.height * kStemOverHeight);
  figures.form = tree.form.value_or(form_of(kind.shape.value));
  return figures;
}

void BodyMaker::tree(const Tree& tree) const {
  const facts::TreeKind* kind = catalogue.trees.find(tree.kind);
  SW_CHECK(kind != nullptr);
  const TreeFigures figures = tree_figures(tree, *kind);
  const double foot_z = standing(tree.at);
  const geometry::RoundSolid crown = crown_of(tree, *kind, foot_z);
  const auto& beam = kind->beam_through;
  const double full = crown_depth_per_m(beam.leaf_on.value, beam.of_crown.value);
  const double bare = crown_depth_per_m(beam.leaf_off.value, beam.of_crown.value);
  out.push_back(
      {tree.id, crown, Through::kPerMetre,
       tree.dead ? std::vector<float>{static_cast<float>(bare)}
                 : leafy_depth(full, bare, leaf_dates_at(kind->leaves, leaf_place()), southern())});
  // The stem goes on into the lower half of the crown before it branches.
  const double middle = (crown.bottom_z + crown.top_z) / 2;
  const double stem_top = std::min(middle, crown.high_z());
  const auto ring = geometry::round_polygon(tree.at, in_metres(figures.stem) / 2, 8);
  out.push_back(
      {tree.id,
       geometry::prism(ring, geometry::Incline{foot_z - 0.3, {}}, geometry::Incline{stem_top, {}}),
       Through::kOpaque,
       {1.0F}});
}

}  // namespace spadework::garden
