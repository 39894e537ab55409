// Tables of what is wanted of the garden: what is to be in sight, and what is to be on the plate.
#include "garden/schema_parts.h"

namespace spadework::garden::parts {
namespace {

TableSchema sight_table(std::string name, std::string says) {
  return thing(std::move(name), std::move(says),
               {key("id", own_id(), "Its name."),
                needed("from", one_or_many(reference({"seat", "point", "gate"})),
                       "Who looks: a seat, a point, a gate, or several."),
                key("to", place(), "The place looked at; or else `thing`."),
                key("thing", reference({}), "The thing looked at; or else `to`."),
                key("corridor_m", length(0.02, 50), "0.5", "How wide the line of sight is.")});
}

TableSchema want_table() {
  return thing(
      "want", "A crop that the household wants.",
      {needed("crop", word("crop"), "What it is."),
       needed("amount",
              amount({"kg",       "g",     "lb",      "oz",     "litres", "pints",   "heads",
                      "bunches",  "roots", "bulbs",   "cobs",   "ears",   "fruits",  "stems",
                      "handfuls", "jars",  "punnets", "plants", "meals",  "portions"}),
              "How much in a year, `\"6 kg\"`, `\"30 heads\"`; or `\"2 meals a week\"`; or "
              "`\"some\"`."),
       key("form", free_word("form"), "In what form it is weighed: podded, shelled, dry, …"),
       key("sown", choice({"indoors", "outdoors", "either"}), "\"either\"", "Where it is begun."),
       key("priority", whole(1, 5), "3", "1 comes first.")});
}

TableSchema stand_table() {
  return thing(
      "stand", "A locked place in the cropping plan: one crop in some slices of a bed.",
      {key("id", own_id(), "Its name."), needed("bed", reference({"bed"}), "The bed."),
       needed(
           "from", whole(0, 10000),
           "Where it begins, in slices from the bed's `at` along its longer side: 0 is the end."),
       needed("to", whole(1, 10000), "Where it ends, in slices: from 0 to 4 are four slices."),
       key("row", yes_no(), "false", "Whether it is a single row along one long edge."),
       needed("crop", word("crop"), "What stands there."),
       needed("start", date(), "The first day."), needed("end", date(), "The last day.")});
}

}  // namespace

std::vector<TableSchema> purpose_tables() {
  return {sight_table("view", "Something to be kept in view, such as the hills from the seat."),
          sight_table("hide", "Something to be kept out of view, such as the bins."),
          sight_table("watch", "Something to be kept in sight, such as where the children play."),
          want_table(), stand_table()};
}

}  // namespace spadework::garden::parts
