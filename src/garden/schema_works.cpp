// Tables of the works: tasks, what is there already, hands, prices; and schemes and changes.
#include "garden/schema_parts.h"

namespace spadework::garden::parts {
namespace {

TableSchema task_table() {
  return thing(
      "task", "A task that you add, or change, in the programme.",
      {needed("id", own_id(), "Its name; that of a task of the programme changes that."),
       key("what", text(), "What is to be done."),
       key("after", one_or_many(text_or_id({"task"})), "The tasks that must be done before it."),
       key("hours", number(0, 10000), "How many hours it takes."),
       key("start", date(), "The day on which it begins."),
       key("done", yes_no(), "false", "Whether it is done."),
       key("locked", yes_no(), "false", "Whether the programme leaves it where it is.")});
}

TableSchema stock_table() {
  return thing("stock", "Material that is there already: saved boards, spare chips, cardboard.",
               {needed("material", free_word("material"), "What it is."),
                needed("amount", amount({"kg",     "t",        "tonnes", "m3",      "m2",
                                         "m",      "litres",   "lb",     "yd3",     "ft",
                                         "boards", "sheets",   "bags",   "barrows", "sacks",
                                         "bales",  "rolls",    "slabs",  "bricks",  "blocks",
                                         "posts",  "sleepers", "stones", "lengths", "pieces"}),
                       "How much there is: `\"2 m3\"`, `\"40 sheets\"`."),
                key("size", list(length(0.001, 100), 1, 3),
                    "The size of one: `[length, width, thickness]`.")});
}

TableSchema raising_table() {
  return single(
      "raising", "Where seedlings stand.",
      {key("spaces",
           list(record({needed("where", text(), "Where it is: \"kitchen sill\"."),
                        needed("size_m", size(100), "`[length, width]`."),
                        key("warm", yes_no(), "false", "Whether it is heated."),
                        key("until", day(), "Until which day of the year it can be had.")}),
                1, 100),
           "The sills and shelves: `[{ where, size_m, warm, until }, …]`."),
       key("tray_m", size(3), "The size of a tray.")});
}

TableSchema labour_table() {
  TypeSchema person = record(
      {needed("name", text(), "What you call them."),
       key("effort", choice({"light", "moderate", "heavy"}), "\"moderate\"",
           "How hard they can work for hours."),
       key("mass_kg", number(15, 300), "Their weight, for what the work asks of the body.")});
  return single(
      "labour", "Whose hands, and when.",
      {needed("start", date(), "The first day of the works."),
       key("finish_by", date(), "The day by which all should be done."),
       key("days", list(choice({"mon", "tue", "wed", "thu", "fri", "sat", "sun"}), 1, 7),
           "The days of the week that are worked."),
       key("hours_per_day", number(0.25, 16), "Hours of work on such a day."),
       key("people", list(person, 1, 100), "Who works: `[{ name, effort, mass_kg }, …]`."),
       key("weeks_away", list(date(), 1, 500), "Weeks without work: any day of each.")});
}

TableSchema prices_table() {
  return TableSchema{
      "prices",
      TableForm::kSingle,
      false,
      {key("*",
           record({key("pack", text(), "How it is sold: \"bulk bag\", \"4.8 m board\"."),
                   needed("price", number(0, 1e7), "What one pack costs, in your currency."),
                   key("tonnes", number(1e-6, 1000), "What one pack weighs; or else `m3`."),
                   key("m3", number(1e-6, 1000), "The volume of one pack; or else `tonnes`.")}),
           "Under the material's name: `{ pack, price, tonnes or m3 }`.")},
      "What your suppliers ask. No price is ever made up."};
}

TableSchema crop_table() {
  return TableSchema{
      "crop",
      TableForm::kNamed,
      false,
      {key("spacing_m", length(0.005, 20), "Between plants in the row."),
       key("row_m", length(0.005, 20), "Between rows."),
       key("height_m", length(0.01, 30), "Full height."),
       key("spread_m", length(0.01, 30), "Full width of one plant."),
       key("root_depth_m", length(0.02, 5), "How deep it roots."),
       key("light_h_per_day", number(0, 24), "Hours of sun that it wants."),
       key("dli_mol_m2_d", number(0, 80), "Light that it wants in a day."),
       key("days_to_pick", whole(1, 4000), "From sowing, or planting, to the first picking."),
       key("weeks_picked", number(0, 60), "For how many weeks it is picked."),
       key("yield_kg_m2", number(0, 200), "Harvest from a square metre."),
       key("yield_kg_m", number(0, 200), "Harvest from a metre of row."),
       key("yield_kg_plant", number(0, 500), "Harvest from one plant."),
       key("killed_below_c", temperature(), "The frost that kills it."),
       key("grows_above_c", temperature(), "The warmth below which it stands still."),
       key("ph_low", number(3, 10), "The most acid soil that it likes."),
       key("ph_high", number(3, 10), "The least acid soil that it likes."),
       key("note", text(), "Anything you want to keep with it.")},
      "Your own figures for a crop, over the catalogue's: `[crop.\"pea\"]`."};
}

TableSchema scheme_table() {
  return TableSchema{"scheme",
                     TableForm::kMany,
                     false,
                     {needed("id", own_id(), "Its name; `found` and `proposed` are there already."),
                      key("title", text(), "What you call it."),
                      key("note", text(), "Anything you want to keep with it.")},
                     "A named alternative to the proposal. Entries and changes with `scheme = "
                     "\"its name\"` belong "
                     "to it alone."};
}

TableSchema change_table() {
  return TableSchema{
      "change",
      TableForm::kMany,
      false,
      {needed("thing", reference({}), "The thing that is altered."),
       key("scheme", or_words(reference({"scheme"}), {"proposed"}),
           "The only scheme that it belongs to; without it, every one but `found`."),
       key("phase", whole(1, 99), "In which stage of the works it comes."),
       key("note", text(), "Anything you want to keep with it.")},
      "How an existing thing is altered in the proposal. It takes any key of that thing's table, "
      "but for `id` and `status`."};
}

}  // namespace

std::vector<TableSchema> works_tables() {
  return {task_table(),   stock_table(), raising_table(), labour_table(),
          prices_table(), crop_table(),  scheme_table(),  change_table()};
}

}  // namespace spadework::garden::parts
