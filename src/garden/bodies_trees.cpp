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
  const double base = in_metres(figures.crown_base), top = in_metres(tree.height);
  const auto& beam = kind->beam_through;
  const double full = crown_depth_per_m(beam.leaf_on.value, beam.of_crown.value);
  const double bare = crown_depth_per_m(beam.leaf_off.value, beam.of_crown.value);
  const geometry::RoundSolid crown{shape_of(figures.form), tree.at, foot_z + base, foot_z + top,
                                   in_metres(tree.crown_width) / 2};
  out.push_back(
      {tree.id, crown, Through::kPerMetre,
       tree.dead ? std::vector<float>{static_cast<float>(bare)}
                 : leafy_depth(full, bare, leaf_dates_at(kind->leaves, leaf_place()), southern())});
  // The stem goes on into the lower half of the crown before it branches.
  const double stem_top = foot_z + base + 0.5 * (top - base);
  const auto ring = geometry::round_polygon(tree.at, in_metres(figures.stem) / 2, 8);
  out.push_back(
      {tree.id,
       geometry::prism(ring, geometry::Incline{foot_z - 0.3, {}}, geometry::Incline{stem_top, {}}),
       Through::kOpaque,
       {1.0F}});
}

}  // namespace spadework::garden
