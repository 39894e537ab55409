// Tables of the place itself: where it is, its weather, its boundary, its ground, its survey.
#include "garden/schema_parts.h"

namespace spadework::garden::parts {
namespace {

TableSchema format_table() {
  return TableSchema{"format",
                     TableForm::kValue,
                     false,
                     {needed("format", whole(1, 1e6), "The version of this format: 1.")},
                     "The first line of the document."};
}

TableSchema garden_table() {
  return single(
      "garden", "Which garden this is and where it lies.",
      {needed("title", text(), "What you call the garden."),
       needed("latitude_deg", angle(-90, 90), "Degrees north of the equator; south is negative."),
       needed("longitude_deg", angle(-180, 180), "Degrees east of Greenwich; west is negative."),
       key("elevation_m", length(-450, 6000),
           "Height above the sea; if it is not given, that of the weather stations around is "
           "taken."),
       needed("time_zone", time_zone(), "Whose clocks you live by: \"Europe/Paris\"."),
       key("plan_north_deg", bearing(), "0",
           "The true bearing of the page's up, clockwise from true north."),
       key("units", choice({"metric", "imperial"}), "\"metric\"",
           "What answers are shown in. Plain numbers in this document are metric all the same."),
       key("household", whole(1, 1000), "How many people eat from the garden."),
       key("exposure", choice({"sheltered", "open", "windy", "coastal"}),
           "How much wind comes over it."),
       key("frost_pocket", yes_no(), "false", "Whether cold air gathers here."),
       key("currency", word("currency"),
           "The money of your prices, by its three letters: \"EUR\".")});
}

std::vector<TableSchema> climate_tables() {
  TableSchema month{"climate.month", TableForm::kMany, false, {}, ""};
  month.says = "One month's weather here, where you know it better than the station does.";
  month.keys = {
      needed("month", whole(1, 12), "1 for January … 12 for December; each at most once."),
      key("tmax_c", temperature(), "Mean of the days' highest temperatures."),
      key("tmin_c", temperature(), "Mean of the nights' lowest temperatures."),
      key("rain_mm", number(0, 3000), "Rain in the month."),
      key("rain_days", number(0, 31), "Days with rain in the month."),
      key("sunshine_h_per_day", number(0, 24), "Hours of real sunshine in a day."),
      key("radiation_mj_m2_per_day", number(0, 50), "Sun's energy on the level, in a day."),
      key("wind_m_s", number(0, 60), "Mean wind, two metres above the ground."),
      key("humidity_share", share(), "Mean relative humidity."),
      key("note", text(), "Anything you want to keep with it."),
  };
  return {single("climate", "Whose weather to take. Without it, that of the nearest stations.",
                 {key("station", or_words(word("station"), {"auto"}), "\"auto\"",
                      "A weather station's id, or `\"auto\"` for the nearest."),
                  key("weather_file", text(),
                      "Your own weather (EPW or daily CSV): the name of a file beside the "
                      "document, or kept in the garden file.")}),
          month};
}

TableSchema boundary_table() {
  return single(
      "boundary", "The edge of the plot: an outline, or four sides and a diagonal by tape.",
      {key("outline", outline(), "Its corners."),
       key("sides_m", list(length(0.1, kFarthest_m), 4, 4),
           "Four sides in order, from the first corner at [0, 0] along x, then anticlockwise."),
       key("diagonal_m", length(0.1, kFarthest_m), "From the first corner to the third.")});
}

TableSchema ground_table() {
  return single(
      "ground", "What you dig in, how it lies and how far the skyline hides the sun.",
      {key("texture", word("texture"), "The soil: \"sandy loam\", \"clay\", …"),
       key("ph", number(3, 10), "Its acidity, by a test."),
       key("topsoil_m", length(0, 3), "How deep the dark topsoil goes."),
       key("percolation_mm_h", number(0, 20000), "How fast water sinks in a timed hole."),
       key("stones", choice({"few", "many"}), "How stony it is."),
       key("spots", list(spot(), 1, 10000), "Measured levels: `[[x, y, level], …]`."),
       key("falls_m", length(0, 200),
           "Instead of spots: how far the ground falls; `toward_deg` and `over` go with it."),
       key("toward_deg", bearing(), "The true bearing toward which it falls."),
       key("over", length(0.1, kFarthest_m),
           "Over how many metres it falls so far; level 0 is at [0, 0]."),
       key("horizon", list(horizon_point(), 1, 360),
           "The far skyline: `[[true bearing, degrees above level], …]`, joined all around.")});
}

TypeSchema level_book_line() {
  return reading({needed("point", text(), "What the staff stands on: a point's name, or \"turn\"."),
                  key("back_m", length(-10, 10), "The first reading after setting up."),
                  key("between_m", length(-10, 10), "A reading in between."),
                  key("fore_m", length(-10, 10), "The last reading before moving on."),
                  key("note", text(), "Anything you want to keep with it.")});
}

TableSchema survey_table() {
  TypeSchema offset = record(
      {needed("point", text(), "The point."), needed("from", text(), "Where the base line begins."),
       needed("to", text(), "A point that the base line passes."),
       needed("along_m", length(-kFarthest_m, kFarthest_m), "How far along the base line."),
       needed("off_m", length(-kFarthest_m, kFarthest_m),
              "How far off it, positive to the left.")});
  return single(
      "survey",
      "Points by tape and by level. Each gets a name; a fixed one can stand wherever a place is "
      "wanted.",
      {key("fixed", map(place()), "Points to begin with: `{ nail = [0, 0], post = [12.4, 0] }`."),
       key("ties", list(tie(), 1, 10000), "Tape lengths: `[[point, from, length], …]`."),
       key("offsets", list(offset, 1, 10000),
           "Points squared off a base line: `[{ point, from, to, along_m, off_m }, …]`."),
       key("diagonals", list(tie(), 1, 10000),
           "Check lengths between points: `[[point, point, length], …]`."),
       key("levels", list(level_book_line(), 1, 10000),
           "The level book, line by line: `[{ point, back_m, between_m, fore_m }, …]`."),
       key("benchmark",
           record({needed("point", text(), "The point whose level is known."),
                   key("level_m", length(-1000, 6000), "0", "Its level.")}),
           "The level that all others hang on: `{ point, level_m }`.")});
}

TableSchema patch_table() {
  return thing("patch", "A part of the ground that is not like the rest.",
               {key("id", own_id(), "Its name."), needed("outline", outline(), "Where it is."),
                needed("what", word("patch"),
                       "What is the matter: bindweed, couch, ground elder, horsetail, clubroot, "
                       "white rot, rubble, wet, shallow, …"),
                key("depth_m", length(0, 5),
                    "How deep it goes; for shallow soil, how deep the "
                    "soil is.")});
}

TableSchema picture_table() {
  return thing("picture",
               "A photograph or map picture that lies under the sheet while one draws over it.",
               {key("id", own_id(), "Its name."),
                needed("file", text(),
                       "A PNG or JPEG file beside the document, or kept in the garden file."),
                needed("at", place(), "Where its lower left corner lies."),
                needed("width_m", length(0.1, kFarthest_m), "How wide it is in the plan."),
                key("turn_deg", angle(-360, 360), "0", "How far it is turned, anticlockwise."),
                key("shown", share(), "0.4", "How strongly it shows: 0 not at all, 1 fully.")});
}

}  // namespace

std::vector<TableSchema> site_tables() {
  std::vector<TableSchema> out = {format_table(), garden_table()};
  for (TableSchema& table : climate_tables()) out.push_back(std::move(table));
  out.push_back(boundary_table());
  out.push_back(ground_table());
  out.push_back(survey_table());
  out.push_back(patch_table());
  out.push_back(picture_table());
  return out;
}

}  // namespace spadework::garden::parts
