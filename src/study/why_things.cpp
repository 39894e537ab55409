#include "study/why_things.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "garden/bodies.h"
#include "light/light_drawing.h"

namespace spadework::study {
namespace {

using garden::figure_trace;

Trace bed_level_trace(const Stand& stand, std::size_t i) {
  const garden::Bed& bed = stand.garden.beds[i];
  const ground::BedLevel& level = stand.levels[i];
  Trace trace;
  trace.name = bed.id + ": level of the soil";
  trace.number = level.level_m;
  trace.has_number = true;
  trace.unit = "m";
  trace.value = level_says(level.level_m);
  switch (level.by) {
    case ground::LevelBy::kGiven:
      trace.inputs = {figure_trace(stand.garden, stand.garden.entry_of(bed), "level_m")};
      trace.method = "As given.";
      break;
    case ground::LevelBy::kLevelWith:
      trace.inputs = {figure_trace(stand.garden, stand.garden.entry_of(bed), "level_with")};
      trace.method = "Level with another bed.";
      break;
    case ground::LevelBy::kMeanGround:
      trace.method = "The mean level of the ground under the bed: as much is dug as is filled.";
      trace.inputs = {spots_trace(stand)};
      break;
  }
  return trace;
}

void add_given(const Stand& stand, const garden::Entry& entry, const std::vector<std::string>& keys,
               std::vector<Trace>& out) {
  for (const std::string& key : keys) {
    if (entry.find(key) != nullptr) out.push_back(figure_trace(stand.garden, entry, key));
  }
}

const garden::Entry* entry_with_id(const Stand& stand, const std::string& id) {
  for (const garden::Entry& entry : stand.garden.entries) {
    if (entry.id == id && entry.table != "crop") return &entry;
  }
  return nullptr;
}

/// A date of the northern year as it falls at the garden.
Trace date_trace(const Stand& stand, facts::Fact<facts::YearDay> day, std::string name) {
  constexpr int kYear = 365;
  if (stand.garden.site.latitude < degrees(0))
    day.value.number = (day.value.number - 1 + kYear / 2) % kYear + 1;
  return trace_of(day, std::move(name));
}

facts::LeafPlace leaf_place(const Stand& stand) {
  return {stand.garden.site.latitude, stand.garden.site.elevation};
}

void add_leaf_dates(const Stand& stand, const facts::LeafDates& leaves, const std::string& says,
                    const char* bare, std::vector<Trace>& out) {
  if (leaves.habit == facts::LeafHabit::kEvergreen) return;
  out.push_back(date_trace(stand, leaves.full, says + " in full leaf"));
  out.push_back(date_trace(stand, leaves.bare, says + bare));
}

/// The user's own sizes of a crop stand before the catalogue's.
void add_size(const Stand& stand, const facts::Crop& crop, std::vector<Trace>& out) {
  const garden::Entry* own = nullptr;
  for (const garden::Entry& entry : stand.garden.entries) {
    if (entry.table == "crop" && entry.id == crop.id) own = &entry;
  }
  const auto add = [&](const char* key, const facts::Fact<facts::Range>& fact, const char* says) {
    if (own != nullptr && own->find(key) != nullptr)
      out.push_back(figure_trace(stand.garden, *own, key));
    else
      out.push_back(trace_of(fact, crop.says + ": " + says));
  };
  add("height_m", crop.height, "height in full growth");
  add("spread_m", crop.spread, "spread");
}

/// What grows there, as far as its leaves take light.
void add_crop(const Stand& stand, const garden::Entry& entry, const facts::Catalogue& catalogue,
              std::vector<Trace>& out) {
  const garden::Value* name = entry.find("crop");
  const facts::Crop* crop =
      name != nullptr && name->text() != nullptr ? catalogue.crops.find(*name->text()) : nullptr;
  if (crop == nullptr) return;
  const facts::Growth growth = growth_at(crop->growth, leaf_place(stand));
  if (entry.table != "support") add_size(stand, *crop, out);
  out.push_back(trace_of(growth.leaf_area, crop->says + ": leaves over what it covers", "m²/m²"));
  out.push_back(
      trace_of(growth.extinction, crop->says + ": depth of a m² of leaf in a m³", "per m"));
  if (growth.way == facts::GrowthWay::kSown)
    out.push_back(date_trace(stand, growth.planted, crop->says + ": planted, unless you say"));
  add_leaf_dates(stand, growth.leaves, crop->says, " bare or gone", out);
}

void add_tree(const Stand& stand, const garden::Entry& entry, const facts::TreeKind& tree,
              std::vector<Trace>& out) {
  const auto& beam = tree.beam_through;
  out.push_back(
      trace_of(beam.leaf_on, tree.says + " in leaf: share of the beam that comes through", ""));
  if (tree.leaves.habit != facts::LeafHabit::kEvergreen)
    out.push_back(
        trace_of(beam.leaf_off, tree.says + " bare: share of the beam that comes through", ""));
  out.push_back(trace_of(beam.of_crown, tree.says + ": crown that this is of"));
  add_leaf_dates(stand, leaf_dates_at(tree.leaves, leaf_place(stand)), tree.says, " bare", out);
  if (entry.find("crown_base_m") == nullptr)
    out.push_back(trace_of(tree.crown_base_share, tree.says + ": foot of the crown", ""));
}

void add_barrier(const Stand& stand, const garden::Entry& entry, const facts::BarrierKind& wall,
                 std::vector<Trace>& out) {
  if (entry.find("thickness_m") == nullptr)
    out.push_back(trace_of(wall.thickness, wall.says + ": thickness"));
  if (entry.find("light_through") != nullptr) return;
  const auto& through = wall.light_through;
  const std::string says = wall.says + ": share of the beam that comes through";
  out.push_back(trace_of(through.leaf_on, says, ""));
  if (wall.leaves.habit == facts::LeafHabit::kEvergreen) return;
  out.push_back(trace_of(through.leaf_off, says + " without leaves", ""));
  add_leaf_dates(stand, leaf_dates_at(wall.leaves, leaf_place(stand)), wall.says, " bare", out);
}

/// What the catalogue says of its kind.
void add_kind(const Stand& stand, const garden::Entry& entry, const facts::Catalogue& catalogue,
              std::vector<Trace>& out) {
  const garden::Value* value = entry.find("kind");
  if (value == nullptr || value->text() == nullptr) return;
  const std::string& kind = *value->text();
  if (entry.table == "tree") {
    if (const auto* tree = catalogue.trees.find(kind)) add_tree(stand, entry, *tree, out);
  } else if (entry.table == "wall") {
    if (const auto* wall = catalogue.barriers.find(kind)) add_barrier(stand, entry, *wall, out);
  } else if (entry.table == "support") {
    if (const auto* support = catalogue.supports.find(kind))
      out.push_back(trace_of(support->light_through,
                             support->says + ": share of the beam through one side", ""));
  } else if (entry.table == "cover") {
    if (const auto* cover = catalogue.covers.find(kind))
      out.push_back(
          trace_of(cover->light_through, cover->says + ": share of the beam through it", ""));
  }
}

/// Keys that say nothing of how a thing takes light.
bool beside_the_light(const std::string& key) {
  static const std::vector<std::string> keys = {
      "id",     "title",  "note",    "phase",    "status", "guessed", "mine",          "removed",
      "facing", "gutter", "history", "slice_m",  "sowing", "set_in",  "roof_material", "mix",
      "cap",    "stock",  "partner", "rootstock"};
  return std::find(keys.begin(), keys.end(), key) != keys.end();
}

/// A face, or a support that is grown over all around.
void add_face(const Stand& stand, const light::Place& place, std::vector<Trace>& out) {
  const garden::Entry* entry = entry_with_id(stand, place.thing);
  if (entry == nullptr) return;
  add_given(stand, *entry,
            {"kind", "at", "line", "outline", "height_m", "eaves_m", "width_m", "depth_m",
             "thickness_m", "turn_deg", "top"},
            out);
  if (out.empty()) return;
  out.back().method =
      place.bearing ? fmt::format(
                          "The light of a face is measured upright, just before it, as it looks "
                          "towards {:.0f}° (clockwise from north), without what grows on it. What "
                          "the ground and walls throw back is not counted.",
                          in_degrees(*place.bearing))
                    : "The light of a support that is grown over all around is measured level, "
                      "over its whole height, without its own leaves.";
}

}  // namespace

Trace number_trace(std::string name, double number, std::string unit, std::string value) {
  Trace trace;
  trace.name = std::move(name);
  trace.number = number;
  trace.has_number = true;
  trace.unit = std::move(unit);
  trace.value = std::move(value);
  return trace;
}

Trace without_inputs(Trace trace) {
  trace.inputs.clear();
  return trace;
}

bool rests_on_guess(const Trace& trace) {
  return trace.standing == Standing::kGuessed ||
         std::any_of(trace.inputs.begin(), trace.inputs.end(), rests_on_guess);
}

void tell_guess(Trace& trace) {
  const std::size_t end = trace.value.find_first_not_of("0123456789.");
  if (!trace.has_number || end == 0 || trace.value.starts_with("≈")) return;
  const std::string rest = end == std::string::npos ? "" : trace.value.substr(end);
  double shown = 0;  // as it is written, not as it is known
  std::from_chars(trace.value.data(), trace.value.data() + trace.value.size(), shown);
  constexpr double kMostOfADay = 24;
  if (trace.unit == "h" && shown <= kMostOfADay) {
    trace.value = light::hours_figure(shown, true) + rest;
    return;
  }
  const double digit = shown < 10 ? 1 : std::pow(10, std::floor(std::log10(shown)) - 1);
  trace.value = fmt::format("≈ {:.0f}{}", std::round(shown / digit) * digit, rest);
}

void add_site(const Stand& stand, std::vector<Trace>& out) {
  for (const garden::Entry& entry : stand.garden.entries) {
    if (entry.table != "garden") continue;
    for (const char* key : {"latitude_deg", "longitude_deg", "elevation_m", "plan_north_deg"}) {
      const bool from_stations =
          std::string_view(key) == "elevation_m" && entry.find(key) == nullptr;
      out.push_back(from_stations
                        ? climate::elevation_trace(std::nullopt, stand.garden.site.elevation)
                        : figure_trace(stand.garden, entry, key));
    }
  }
}

void add_skyline(const Stand& stand, std::vector<Trace>& out) {
  if (stand.garden.ground.horizon.empty()) return;
  for (const garden::Entry& entry : stand.garden.entries) {
    if (entry.table != "ground") continue;
    Trace skyline = figure_trace(stand.garden, entry, "horizon");
    skyline.value = fmt::format("skyline of {} points", stand.garden.ground.horizon.size());
    out.push_back(std::move(skyline));
  }
}

Trace spots_trace(const Stand& stand) {
  Trace trace;
  trace.name = "the ground’s spot levels";
  const garden::Entry* ground = nullptr;
  for (const garden::Entry& entry : stand.garden.entries) {
    if (entry.table == "ground") ground = &entry;
  }
  if (ground == nullptr) {
    trace.value = "level everywhere";
    trace.standing = Standing::kAssumed;
    return trace;
  }
  if (stand.garden.ground.spots.empty()) {
    trace = figure_trace(stand.garden, *ground, "falls_m");
    if (!stand.garden.ground.fall) trace.value = "level everywhere";
    return trace;
  }
  trace = figure_trace(stand.garden, *ground, "spots");
  trace.value = fmt::format("{} spot levels", stand.garden.ground.spots.size());
  trace.method = "Triangles between the spots; the ground is straight between them.";
  trace.sources = {"bowyer1981"};
  return trace;
}

void add_place(const Stand& stand, const light::Place& place, const facts::Catalogue& catalogue,
               std::vector<Trace>& out) {
  for (std::size_t i = 0; i < stand.garden.beds.size(); ++i) {
    if (stand.garden.beds[i].id != place.id) continue;
    add_given(stand, stand.garden.entry_of(stand.garden.beds[i]),
              {"at", "size", "turn_deg", "outline", "boards"}, out);
    out.push_back(bed_level_trace(stand, i));
  }
  for (const garden::Seat& seat : stand.garden.seats) {
    if (seat.id != place.id) continue;
    out.push_back(figure_trace(stand.garden, stand.garden.entry_of(seat), "at"));
    out.push_back(figure_trace(stand.garden, stand.garden.entry_of(seat), "eye_m"));
    out.back().method = "The light of a seat is measured at the sitter’s eyes.";
  }
  for (const garden::Plant& plant : stand.garden.plants) {
    if (plant.id != place.id) continue;
    add_given(stand, stand.garden.entry_of(plant), {"at", "row", "count", "outline"}, out);
    if (const facts::Crop* crop = catalogue.crops.find(plant.crop)) {
      out.push_back(trace_of(crop->height, crop->says + ": height in full growth"));
      out.back().method = "The light of a plant is measured half way up.";
      out.push_back(trace_of(crop->spread, crop->says + ": spread"));
    }
  }
  for (const garden::Container& container : stand.garden.containers) {
    if (container.id == place.id)
      add_given(stand, stand.garden.entry_of(container), {"at", "volume_l", "height_m"}, out);
  }
  if (!place.thing.empty()) add_face(stand, place, out);
}

void add_thing(const Stand& stand, const std::string& id, const facts::Catalogue& catalogue,
               std::vector<Trace>& out) {
  if (id == ground::kGroundId) out.push_back(spots_trace(stand));
  const garden::Entry* entry = entry_with_id(stand, id);
  if (entry == nullptr) return;
  for (const garden::Field& field : entry->fields) {
    if (!beside_the_light(field.key)) out.push_back(figure_trace(stand.garden, *entry, field.key));
  }
  for (std::size_t i = 0; i < stand.garden.beds.size(); ++i) {
    if (stand.garden.beds[i].id == id) out.push_back(bed_level_trace(stand, i));
  }
  add_kind(stand, *entry, catalogue, out);
  add_crop(stand, *entry, catalogue, out);
}

std::string level_says(double level_m) {
  const bool below = level_m < -0.005;
  return fmt::format("{:.2f} m {} the datum", below ? -level_m : std::max(level_m, 0.0),
                     below ? "below" : "above");
}

}  // namespace spadework::study
