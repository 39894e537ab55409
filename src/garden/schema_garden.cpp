// Tables of what is gardened: beds, paths, areas, plants, containers and covers.
#include "garden/schema_parts.h"

namespace spadework::garden::parts {
namespace {

KeySchema name_key() { return needed("id", own_id(), "Its name: short, lower case, a-z 0-9 -."); }

TypeSchema boards() {
  return or_words(
      record({needed("height", length(0.02, 1.5), "Height of one board."),
              key("courses", whole(1, 20), "1", "How many boards stand one above the other."),
              key("thickness", length(0.005, 0.5), "0.038", "How thick a board is.")}),
      {"none"});
}

TypeSchema mix() {
  return list(record({needed("material", free_word("material"), "What it is."),
                      needed("share", share(), "Its share; all together make 1.")}),
              1, 20);
}

TableSchema bed_table() {
  return thing(
      "bed", "A bed: level where it has boards or a level, else as the ground lies.",
      {name_key(),
       key("at", place(), "Its corner, with `size`: the lower left one before it is turned."),
       key("size", size(200), "`[along x, along y]` before it is turned, outside the boards."),
       key("turn_deg", angle(-360, 360), "0", "How far it is turned about `at`, anticlockwise."),
       key("outline", outline(), "Its outline instead of `at` and `size`, outside the boards."),
       key("boards", boards(), "`{ height, courses, thickness }`, or `\"none\"`."),
       key("level", choice({"auto"}), "`\"auto\"`: the level that moves the least soil."),
       key("level_m", length(-1000, 6000), "The level of its finished soil."),
       key("level_with", reference({"bed"}), "A bed whose level it shares."),
       key("freeboard_m", length(0, 1), "0.03", "How far a level bed's soil stands below its rim."),
       key("set_in", choice({"flat", "trenches"}), "\"flat\"",
           "How it is let into a slope: the whole footprint dug flat to the boards' foot, or "
           "trenches for the boards only."),
       key("mix", mix(), "What fills it: `[{ material, share }, …]`."),
       key("cap",
           record({needed("material", free_word("material"), "What it is."),
                   needed("depth_m", length(0.001, 1), "How thick it lies.")}),
           "What lies on top: `{ material, depth_m }`."),
       key("slice_m", length(0.05, 5), "0.3",
           "The length of a slice, the unit of the cropping plan."),
       key("history", map_by_year(one_or_many(word("family"))),
           "Which plant families stood there: `{ 2025 = [\"brassica\"] }`."),
       key("sowing", choice({"plants", "seed", "both"}), "\"both\"",
           "Whether it takes young plants, seed or both.")});
}

TableSchema path_table() {
  return thing("path", "A path along a line.",
               {name_key(), needed("line", line(), "Its middle line."),
                needed("width_m", length(0.1, 20), "Its width."),
                key("surface", word("surface"), "What one walks on."),
                key("depth_m", length(0, 2), "How deep it is built."),
                key("edging", free_word("material"), "What holds its edges."),
                key("steps", whole(0, 500), "0", "How many steps it takes.")});
}

TableSchema area_table() {
  return thing(
      "area", "A piece of ground that is kept in one way.",
      {name_key(), needed("outline", outline(), "Its outline."),
       needed("treatment", word("treatment"), "Lawn, sheet mulch, meadow, play, paving, …"),
       key("sheet",
           record({needed("size", size(20), "One sheet, `[length, width]`."),
                   key("overlap_m", length(0, 2), "0.15", "How far one lies over the next.")}),
           "The sheets of a sheet mulch: `{ size, overlap_m }`."),
       key("depth_m", length(0, 2), "How thick the material lies."),
       key("material", free_word("material"), "What lies there.")});
}

TableSchema plant_table() {
  return thing("plant", "A plant, a row of them or a patch of them that stays for years.",
               {name_key(), needed("crop", word("crop"), "What it is."),
                key("at", place(), "Where it stands; or else `row` or `outline`."),
                key("row", line(), "The line along which they stand; `count` goes with it."),
                key("count", whole(1, 100000), "How many there are."),
                key("outline", outline(), "The ground that they cover."),
                key("planted", date(), "When it was planted."),
                key("stock", choice({"bare root", "pot", "plug"}), "How it comes."),
                key("rootstock", text(), "What it is grafted on."),
                key("partner", text(), "What pollinates it, if that is not in this document.")});
}

TableSchema container_table() {
  return thing("container", "A pot or tub.",
               {name_key(), needed("at", place(), "Its middle."),
                needed("volume_l", number(0.1, 20000), "The litres of soil that it holds."),
                key("height_m", length(0.02, 3), "Its height."),
                key("crop", word("crop"), "What grows in it.")});
}

TableSchema cover_table() {
  return thing(
      "cover", "A cover over plants: for warmth, or against pests.",
      {name_key(), needed("kind", word("cover"), "Frame, cloche, fleece, mesh, net or glasshouse."),
       key("over", one_or_many(reference({"bed", "plant", "area", "container"})),
           "What it covers; or else `outline`."),
       key("outline", outline(), "The ground that it covers; or else `over`."),
       key("height_m", length(0.02, 10), "Its height above the soil."),
       key("from", day(), "From which day of the year it stands: `\"03-01\"`, or a date."),
       key("until", day(), "Until which day; before `from`, it stands over the new year.")});
}

}  // namespace

std::vector<TableSchema> bed_tables() { return {bed_table(), path_table(), area_table()}; }

std::vector<TableSchema> plant_tables() {
  return {plant_table(), container_table(), cover_table()};
}

}  // namespace spadework::garden::parts
