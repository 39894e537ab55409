#include "document/new_document.h"

#include <fmt/format.h>

#include <cmath>

#include "document/patch.h"
#include "document/reader.h"

namespace spadework::document {
namespace {

constexpr std::string_view kTemplate = R"(format = 1

# {0}
#
# Everything about the garden stands on this page. Change it, then ask:
#   spadework check FILE      what is wrong, line by line
#   spadework light FILE      how much sun each place gets
#
# How to read it
#   Places are [x, y] in metres: x to the right of the page, y up it. Choose any corner as [0, 0].
#   Lengths are metres, or text with a unit: "7 ft", "6 ft 6 in", "195 mm".
#   Names (id) are short and lower case. What is only planned has status = "proposed".
#   Figures named under guessed are not measured yet; answers say so.

[garden]
title = {1}
latitude_deg = {2}
longitude_deg = {3}
time_zone = {4}
plan_north_deg = 0        # the page's up is north; a compass or a stick's shadow at noon tells
guessed = ["plan_north_deg"]

# Next: measure the plot. Four sides and a diagonal fix it; or write its corners.
[boundary]
sides_m = [12, 20, 12, 20]
diagonal_m = 23.32
guessed = ["sides_m", "diagonal_m"]

# Next: how does the ground lie? Knee 0.5 m, waist 1 m: guess how far it falls, and which way.
# Level ground needs nothing; for a slope, take the # away and change the figures.
[ground]
# falls_m = 1.0
# toward_deg = 180        # toward the south
# over = 20               # metres from the top to the bottom
texture = "loam"
guessed = ["texture"]

# Next: what stands around and takes light? Walls, buildings, trees, hedges, yours or not.
[[wall]]
id = "fence"
line = [[0, 0], [12, 0]]
height_m = 1.8
kind = "close board"
guessed = ["height_m"]

# Next: the beds. `at` is a corner, `size` runs along x and y.
[[bed]]
id = "first-bed"
status = "proposed"
at = [5.4, 8.0]
size = [1.2, 3.6]
)";

/// Degrees as people copy them: at most six decimals, about a hand's breadth.
std::string degrees_text(Angle angle) {
  return toml_number(std::round(in_degrees(angle) * 1e6) / 1e6);
}

std::string one_line(std::string text) {
  for (char& c : text) {
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) c = ' ';
  }
  return text;
}

}  // namespace

namespace {

/// The text when it reads without problems.
Result<std::string> read_well(std::string text) {
  const ReadDocument read = read_document(text, "", KnownWords{});
  if (read.problems.empty()) return text;
  Error first = read.problems.front();
  first.where.clear();
  return tl::unexpected(first);
}

}  // namespace

Result<std::string> new_document(const FreshGarden& garden) {
  const std::string title = one_line(garden.title);
  return read_well(fmt::format(kTemplate, title, toml_text(title), degrees_text(garden.latitude),
                               degrees_text(garden.longitude), toml_text(garden.time_zone)));
}

Result<std::string> bare_document(const FreshGarden& garden) {
  std::string text =
      fmt::format("format = 1\n\n[garden]\ntitle = {}\nlatitude_deg = {}\nlongitude_deg = {}\n",
                  toml_text(one_line(garden.title)), degrees_text(garden.latitude),
                  degrees_text(garden.longitude));
  if (garden.elevation) {
    text +=
        fmt::format("elevation_m = {}\n", toml_number(std::round(in_metres(*garden.elevation))));
  }
  text += fmt::format("time_zone = {}\nplan_north_deg = 0\nguessed = [\"plan_north_deg\"",
                      toml_text(garden.time_zone));
  for (const std::string& key : garden.guessed) text += ", " + toml_text(key);
  text += "]\n";
  if (garden.imperial) text += "units = \"imperial\"\n";
  return read_well(std::move(text));
}

}  // namespace spadework::document
