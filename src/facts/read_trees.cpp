#include "facts/read_kinds.h"

namespace spadework::facts {
namespace {

constexpr double kWidestCrown_m = 40;

BeamThroughCrown read_beam(FactReader& reader, const DataValue& table) {
  reader.only(table, {"leaf_on", "leaf_off", "of_crown_m"});
  return {reader.number(reader.needed(table, "leaf_on"), 0, 1),
          reader.number(reader.needed(table, "leaf_off"), 0, 1),
          reader.length(reader.needed(table, "of_crown_m"), 0.1, kWidestCrown_m)};
}

TotalThroughCrown read_total(FactReader& reader, const DataValue& table) {
  TotalThroughCrown total;
  reader.only(table, {"leaf_on", "leaf_off"});
  if (const DataValue* on = table.find("leaf_on")) total.leaf_on = reader.number(*on, 0, 1);
  if (const DataValue* off = table.find("leaf_off")) total.leaf_off = reader.number(*off, 0, 1);
  return total;
}

LeafDates read_leaves(FactReader& reader, const Inherited& keys, const DataValue& latitude) {
  LeafDates leaves;
  leaves.habit = static_cast<LeafHabit>(
      reader.choice(keys.needed("habit"), {"deciduous", "marcescent", "evergreen"}));
  if (leaves.habit == LeafHabit::kEvergreen) return leaves;
  reader.leaf_days(keys.needed("leaves"), leaves);
  leaves.reference_latitude = reader.angle(latitude, 0, 90);
  return leaves;
}

TreeKind read_tree(FactReader& reader, const DataValue& kind, const DataValue* group,
                   const DataValue& latitude) {
  const Inherited keys(reader, kind, group);
  reader.only(kind, {"says", "latin", "also", "like", "habit", "shape", "crown_base_share",
                     "leaves", "beam_through", "total_through"});
  TreeKind tree;
  tree.id = kind.key;
  tree.says = reader.text_or(kind, "says", spaced(kind.key));
  tree.latin = reader.text(reader.needed(kind, "latin"));
  tree.also = reader.texts(kind, "also");
  const Fact<int> shape =
      reader.choice_fact(keys.needed("shape"), {"round", "column", "cone", "spreading"});
  tree.shape = {static_cast<CrownShape>(shape.value), shape.sources, shape.standing};
  tree.crown_base_share = reader.number(keys.needed("crown_base_share"), 0, 0.9);
  tree.leaves = read_leaves(reader, keys, latitude);
  tree.beam_through = read_beam(reader, keys.needed("beam_through"));
  if (const DataValue* total = kind.find("total_through")) {
    tree.total_through = read_total(reader, *total);
  }
  return tree;
}

}  // namespace

Result<Kinds<TreeKind>> read_trees(FactReader& reader, const DataValue& root) {
  reader.only(root, {"unless_said", "reference_latitude_deg", "group", "kind"});
  const DataValue* groups = root.find("group");
  if (groups != nullptr) {
    for (const DataValue& group : groups->items) {
      reader.only(group, {"habit", "shape", "crown_base_share", "leaves", "beam_through"});
    }
  }
  const DataValue& latitude = reader.needed(root, "reference_latitude_deg");
  std::vector<TreeKind> trees;
  for (const DataValue& kind : reader.needed(root, "kind").items) {
    trees.push_back(read_tree(reader, kind, group_like(reader, kind, groups, {}), latitude));
  }
  return finish(reader, std::move(trees));
}

}  // namespace spadework::facts
