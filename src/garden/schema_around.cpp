// Tables of what has a body or marks a place: walls, buildings, trees, seats, points.
#include "garden/schema_parts.h"

namespace spadework::garden::parts {
namespace {

KeySchema name_key() { return needed("id", own_id(), "Its name: short, lower case, a-z 0-9 -."); }
/// In the order of the compass: the reader makes 0, 45, … of them.
std::vector<std::string> compass_words() {
  return {"north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"};
}
KeySchema mine_key() {
  return key("mine", yes_no(), "true", "Whether it is yours, so that it may be changed.");
}

TableSchema wall_table() {
  return thing(
      "wall", "A wall, fence, hurdle, screen or hedge along a line.",
      {name_key(), needed("line", line(), "Its centre line."),
       needed("height_m", length(0.05, 30), "Height above the ground along it."),
       key("thickness_m", length(0.002, 5), "How thick it is; without it, as its kind usually is."),
       needed("kind", word("barrier"), "Brick, stone, close board, hurdle, a kind of hedge, …"),
       key("top", choice({"ground", "level"}), "\"ground\"",
           "Whether its top follows the ground or is level, its height measured at the highest "
           "ground."),
       key("light_through", share(), "The share of the sun's beam that comes through its holes."),
       mine_key()});
}

TableSchema building_table() {
  return thing(
      "building", "A house, shed or other building with a roof.",
      {name_key(), needed("outline", outline(), "Its walls, seen from above."),
       needed("eaves_m", length(0.2, 60), "Height of the eaves above the highest ground under it."),
       key("ridge_m", length(0.2, 80), "Height of the ridge, or of the high side."),
       key("roof", choice({"flat", "mono", "gable", "hip"}),
           "Its roof; without it, gable if there is a `ridge_m` and flat if not."),
       key("ridge_deg", bearing(),
           "The true bearing along which the ridge runs; without it, the "
           "longer way."),
       key("high_side", or_words(bearing(), compass_words()),
           "The side toward which a mono roof rises: a true bearing, or `\"north\"`, "
           "`\"south-west\"`, …"),
       key("roof_material", word("roof"), "What the roof is covered with."),
       key("gutter", reference({"tank"}), "The tank into which its gutter drains.")});
}

TableSchema tree_table() {
  return thing(
      "tree", "A tree, or a tall shrub with a crown.",
      {name_key(), needed("kind", word("tree"), "What tree it is."),
       needed("at", place(), "Where its stem stands."),
       needed("height_m", length(0.1, 120), "Height of its top."),
       key("crown_base_m", length(0, 100),
           "Height of the crown's foot; without it, as is usual "
           "for its kind."),
       needed("crown_width_m", length(0.05, 80), "The crown's width."),
       key("shape", choice({"round", "column", "cone", "spreading"}),
           "The crown's shape; without it, as is usual for its kind."),
       key("stem_m", stem(), "The stem's width, or `\"girth 0.9 m\"`."),
       key("condition", choice({"sound", "dead"}), "\"sound\"", "Whether it lives."), mine_key()});
}

TableSchema support_table() {
  return thing(
      "support", "What a climber grows on.",
      {name_key(),
       needed("kind", word("support"), "Arch, obelisk, trellis, wires, wigwam or cage."),
       key("at", place(), "Its middle; or else `line`."),
       key("line", line(), "The line along which it stands; or else `at`."),
       needed("height_m", length(0.1, 15), "Its height."),
       key("width_m", length(0.01, 50), "Its width along its front."),
       key("depth_m", length(0.005, 50), "Its depth from front to back."),
       key("turn_deg", angle(-360, 360), "0", "How far it is turned, anticlockwise; with `at`."),
       key("crop", or_words(word("crop"), {"undecided"}), "\"undecided\"", "What climbs on it.")});
}

TableSchema seat_table() {
  return thing(
      "seat", "A place to sit, perhaps under a roof.",
      {name_key(), needed("at", place(), "Its middle."),
       needed("facing", place(), "A place toward which it looks."),
       key("eye_m", length(0.3, 3), "1.2", "Height of the eyes of who sits there."),
       key("size", size(50), "[1.2, 0.5]", "`[width, depth]`."),
       key("height_m", length(0.1, 6), "Height of its back."),
       key("roof",
           record({needed("height_m", length(0.5, 8), "Height of the roof."),
                   key("overhang_m", length(0, 5), "0.2", "How far it reaches past the seat.")}),
           "`{ height_m, overhang_m }`."),
       key("sides", choice({"open", "trellis", "solid"}), "\"open\"",
           "What stands at its back and ends.")});
}

TableSchema point_table() {
  return thing("point", "A named place: a door, a window, a peg, where a photograph is taken.",
               {name_key(), needed("at", place(), "Where it is."),
                key("kind", choice({"door", "window", "standing", "peg", "photo", "tap"}),
                    "\"peg\"", "What it is."),
                key("eye_m", length(0, 30), "1.6", "Height of the eyes of who looks from there."),
                key("facing", place(), "A place toward which one looks from there.")});
}

TableSchema gate_table() {
  return thing("gate", "A way in.",
               {name_key(), needed("at", place(), "Its middle."),
                needed("width_m", length(0.2, 20), "Its clear width."),
                key("lane", yes_no(), "false", "Whether deliveries come here.")});
}

TableSchema tank_table() {
  return thing("tank", "A tank or butt for rain.",
               {name_key(), needed("at", place(), "Its middle."),
                needed("litres", number(1, 1e6), "What it holds."),
                key("fed_by", one_or_many(reference({"building"})),
                    "The building, or buildings, whose roof fills it.")});
}

TableSchema service_table() {
  return thing("service", "A cable, pipe or drain in the ground: look before you dig.",
               {name_key(), needed("line", line(), "Where it runs."),
                key("kind", word("service"), "\"unknown\"",
                    "Electric, gas, water, drain, cable or unknown."),
                key("depth_m", length(0, 10), "How deep it lies.")});
}

TableSchema object_table() {
  return thing(
      "object", "Anything else that stands there: an oil tank, a bin, a swing.",
      {name_key(), needed("outline", outline(), "Its outline, seen from above."),
       needed("height_m", length(0.01, 60), "Its height."), key("what", text(), "What it is.")});
}

}  // namespace

std::vector<TableSchema> around_tables() { return {wall_table(), building_table(), tree_table()}; }

std::vector<TableSchema> place_tables() {
  return {support_table(), seat_table(), point_table(), gate_table()};
}

std::vector<TableSchema> utility_tables() {
  return {tank_table(), service_table(), object_table()};
}

}  // namespace spadework::garden::parts
