// Crops and how they grow.
#include "facts/read_kinds.h"

namespace spadework::facts {
namespace {

constexpr double kWidest_m = 20, kTallest_m = 30;

void read_sown(FactReader& reader, const Inherited& keys, Growth& growth) {
  growth.planted = reader.day(keys.needed("planted"));
  growth.stages = reader.stages(keys.needed("stages_d"));
  if (const DataValue* fades = keys.find("fades")) growth.fades = reader.flag(*fades);
  if (const DataValue* until = keys.find("until")) growth.until = reader.day(*until);
}

Growth read_growth(FactReader& reader, const Inherited& keys, const DataValue& latitude) {
  Growth growth;
  growth.way = static_cast<GrowthWay>(
      reader.choice(keys.needed("grows"), {"sown", "dies down", "woody", "evergreen"}));
  growth.leaf_area = reader.number(keys.needed("leaf_area"), 0.1, 15);
  growth.extinction = reader.number(keys.needed("extinction"), 0.1, 2);
  growth.foot_share = reader.number(keys.needed("foot_share"), 0, 0.9);
  growth.reference_latitude = reader.angle(latitude, 0, 90);
  if (growth.way == GrowthWay::kSown) read_sown(reader, keys, growth);
  if (growth.way == GrowthWay::kWoody)
    growth.bare_share = reader.number(keys.needed("bare_share"), 0, 1);
  if (growth.way == GrowthWay::kWoody || growth.way == GrowthWay::kDiesDown) {
    growth.leaves.habit = LeafHabit::kDeciduous;
    reader.leaf_days(keys.needed("leaves"), growth.leaves);
    growth.leaves.reference_latitude = growth.reference_latitude;
  }
  return growth;
}

Crop read_crop(FactReader& reader, const DataValue& kind, const std::string& family,
               const DataValue* groups, const DataValue& latitude) {
  reader.only(kind, {"says", "also", "latin", "life_form", "climber", "height_m", "spread_m",
                     "flat", "like", "grows", "leaf_area", "extinction", "bare_share", "foot_share",
                     "planted", "stages_d", "fades", "until", "leaves"});
  Crop crop = named<Crop>(reader, kind);
  crop.latin = reader.text(reader.needed(kind, "latin"));
  crop.family = family;
  crop.life_form = static_cast<LifeForm>(reader.choice(
      reader.needed(kind, "life_form"),
      {"annual", "biennial", "perennial", "sub-shrub", "shrub", "cane", "vine", "tree"}));
  crop.climber = reader.flag_or(kind, "climber", false);
  crop.flat = reader.flag_or(kind, "flat", false);
  crop.height = reader.range(reader.needed(kind, "height_m"), 0.01, kTallest_m);
  crop.spread = reader.range(reader.needed(kind, "spread_m"), 0.01, kWidest_m);
  // One that does not say what it is like is like others of its life form.
  const DataValue* group = group_like(reader, kind, groups, life_form_name(crop.life_form));
  if (!reader.failed()) crop.growth = read_growth(reader, {reader, kind, group}, latitude);
  return crop;
}

}  // namespace

Result<Kinds<Crop>> read_crops(FactReader& reader, const DataValue& root) {
  reader.only(root, {"unless_said", "reference_latitude_deg", "group", "family"});
  const DataValue* groups = root.find("group");
  if (groups != nullptr) {
    for (const DataValue& group : groups->items) {
      reader.only(group, {"grows", "leaf_area", "extinction", "bare_share", "foot_share", "planted",
                          "stages_d", "fades", "until", "leaves"});
    }
  }
  const DataValue& latitude = reader.needed(root, "reference_latitude_deg");
  std::vector<Crop> crops;
  for (const DataValue& family : reader.needed(root, "family").items) {
    for (const DataValue& kind : family.items)
      crops.push_back(read_crop(reader, kind, family.key, groups, latitude));
  }
  return finish(reader, std::move(crops));
}

}  // namespace spadework::facts
