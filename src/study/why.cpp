#include "study/why.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "garden/bodies.h"
#include "sky/sky.h"

namespace spadework::study {
namespace {

using garden::figure_trace;

const std::vector<std::string>& figure_names() {
  static const std::vector<std::string> names{"sun_h_per_day", "morning_h", "midday_h",
                                              "afternoon_h"};
  return names;
}

double figure_of(const light::MonthSun& month, std::size_t which) {
  switch (which) {
    case 0:
      return month.sun_h_per_day;
    case 1:
      return month.morning_h;
    case 2:
      return month.midday_h;
    default:
      return month.afternoon_h;
  }
}

std::string figure_says(std::size_t which) {
  switch (which) {
    case 0:
      return "sun hours";
    case 1:
      return "morning sun";
    case 2:
      return "midday sun";
    default:
      return "afternoon sun";
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

Trace bed_level_trace(const Stand& stand, std::size_t i) {
  const garden::Bed& bed = stand.garden.beds[i];
  const ground::BedLevel& level = stand.levels[i];
  Trace trace;
  trace.name = bed.id + ": level of the soil";
  trace.number = level.level_m;
  trace.has_number = true;
  trace.unit = "m";
  trace.value = fmt::format("{:.2f} m above the datum", level.level_m);
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
                      "over its whole "
                      "height, without its own leaves.";
}

/// What is measured: where the place lies and how high.
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
  if (!place.thing.empty()) add_face(stand, place, out);
  for (const garden::Container& container : stand.garden.containers) {
    if (container.id == place.id)
      add_given(stand, stand.garden.entry_of(container), {"at", "volume_l", "height_m"}, out);
  }
}

/// What grows there, as far as its leaves take light.
void add_crop(const garden::Entry& entry, const facts::Catalogue& catalogue,
              const facts::LeafPlace& place, std::vector<Trace>& out) {
  const garden::Value* name = entry.find("crop");
  const facts::Crop* crop =
      name != nullptr && name->text() != nullptr ? catalogue.crops.find(*name->text()) : nullptr;
  if (crop == nullptr) return;
  const facts::Growth growth = growth_at(crop->growth, place);
  out.push_back(trace_of(growth.leaf_area, crop->says + ": leaves over what it covers", "m²/m²"));
  out.push_back(
      trace_of(growth.extinction, crop->says + ": depth of a m² of leaf in a m³", "per m"));
  if (growth.way == facts::GrowthWay::kSown)
    out.push_back(trace_of(growth.planted, crop->says + ": planted, unless you say"));
  if (growth.leaves.habit != facts::LeafHabit::kEvergreen) {
    out.push_back(trace_of(growth.leaves.full, crop->says + " in full leaf"));
    out.push_back(trace_of(growth.leaves.bare, crop->says + " bare or gone"));
  }
}

void add_kind(const garden::Entry& entry, const facts::Catalogue& catalogue,
              const facts::LeafPlace& place, std::vector<Trace>& out) {
  add_crop(entry, catalogue, place, out);
  const garden::Value* kind = entry.find("kind");
  if (kind == nullptr || kind->text() == nullptr) return;
  if (entry.table == "tree") {
    if (const facts::TreeKind* tree = catalogue.trees.find(*kind->text())) {
      out.push_back(trace_of(tree->beam_through.leaf_on,
                             tree->says + " in leaf: share of the beam that comes through", ""));
      out.push_back(trace_of(tree->beam_through.leaf_off,
                             tree->says + " bare: share of the beam that comes through", ""));
      out.push_back(trace_of(tree->beam_through.of_crown, tree->says + ": crown that this is of"));
      if (tree->leaves.habit != facts::LeafHabit::kEvergreen) {
        const facts::LeafDates leaves = leaf_dates_at(tree->leaves, place);
        out.push_back(trace_of(leaves.full, tree->says + " in full leaf"));
        out.push_back(trace_of(leaves.bare, tree->says + " bare"));
      }
      if (entry.find("crown_base_m") == nullptr)
        out.push_back(trace_of(tree->crown_base_share, tree->says + ": foot of the crown", ""));
    }
  }
  if (entry.table == "wall" && entry.find("light_through") == nullptr) {
    if (const facts::BarrierKind* wall = catalogue.barriers.find(*kind->text()))
      out.push_back(trace_of(wall->light_through.leaf_on,
                             wall->says + ": share of the beam that comes through", ""));
  }
  if (entry.table == "support") {
    if (const facts::SupportKind* support = catalogue.supports.find(*kind->text()))
      out.push_back(trace_of(support->light_through,
                             support->says + ": share of the beam through one side", ""));
  }
  if (entry.table == "cover") {
    if (const facts::CoverKind* cover = catalogue.covers.find(*kind->text()))
      out.push_back(
          trace_of(cover->light_through, cover->says + ": share of the beam through it", ""));
  }
}

/// Hours of the month in which each thing is the first in the way, over a few points of the place.
std::map<std::string, double> first_in_the_way(const light::Place& place, const Stand& stand,
                                               const light::SunYear& sun, std::size_t month,
                                               std::size_t figure) {
  const light::Scene scene(light::with_own(stand.bodies, place.own, place.replaces));
  struct Point {
    geometry::Vec3 at, facing;
  };
  std::vector<Point> points;
  for (const light::Receiver& r : place.receivers) {
    for (const auto& [u, v] :
         {std::pair{0.25, 0.25}, {0.75, 0.25}, {0.5, 0.5}, {0.25, 0.75}, {0.75, 0.75}}) {
      const int column = static_cast<int>(u * r.columns), row = static_cast<int>(v * r.rows);
      if (r.counted[static_cast<std::size_t>(row * r.columns + column)])
        points.push_back({light::cell_centre(r, column, row), r.w_axis});
    }
  }
  std::map<std::string, double> hours;
  for (const light::SunSample& sample : sun.samples) {
    if (sample.month != month) continue;
    if (figure > 0 && sample.part != figure - 1) continue;
    for (const Point& p : points) {
      if (dot(p.facing, sample.toward_sun) <= 0) continue;  // it stands behind the face
      const light::RayResult ray =
          light::along_ray(scene, p.at, sample.toward_sun, sample.day_of_year);
      if (!ray.sunlit())
        hours[scene.things()[static_cast<std::size_t>(ray.first_blocker)]] +=
            sun.hours_each / static_cast<double>(points.size()) / sun.days_in_month[month];
    }
  }
  return hours;
}

Trace thing_trace(const Stand& stand, const std::string& id, double hours,
                  const facts::Catalogue& catalogue) {
  Trace trace;
  trace.name = id == ground::kGroundId ? "the ground beside it" : id;
  trace.number = hours;
  trace.has_number = true;
  trace.unit = "h";
  trace.value = fmt::format("first in the way for {:.1f} h a day", hours);
  trace.method = "Rays from up to five points of the place towards each of the month’s suns.";
  const garden::Entry* entry = entry_with_id(stand, id);
  if (entry == nullptr) {
    trace.inputs = {spots_trace(stand)};
    return trace;
  }
  add_given(stand, *entry,
            {"kind", "line", "at", "outline", "height_m", "eaves_m", "ridge_m", "crown_base_m",
             "crown_width_m", "thickness_m", "light_through", "boards"},
            trace.inputs);
  add_kind(*entry, catalogue, {stand.garden.site.latitude, stand.garden.site.elevation},
           trace.inputs);
  return trace;
}

void add_takers(const Stand& stand, const light::Place& place, const light::SunYear& sun,
                std::size_t month, std::size_t figure, const facts::Catalogue& catalogue,
                std::vector<Trace>& out) {
  const auto hours = first_in_the_way(place, stand, sun, month, figure);
  std::vector<std::pair<std::string, double>> most(hours.begin(), hours.end());
  std::stable_sort(most.begin(), most.end(),
                   [](const auto& a, const auto& b) { return a.second > b.second; });
  for (const auto& [id, h] : most) {
    if (h < 0.05) break;  // it would be shown as 0.0
    out.push_back(thing_trace(stand, id, h, catalogue));
    if (id == place.id) out.back().name = "its own boards";
  }
}

bool rests_on_guess(const Trace& trace) {
  return trace.standing == Standing::kGuessed ||
         std::any_of(trace.inputs.begin(), trace.inputs.end(), rests_on_guess);
}

Trace sun_trace(const Stand& stand, const PlacesYear& year, const light::PlaceSun& sun,
                std::size_t month, std::size_t figure, const facts::Catalogue& catalogue,
                std::optional<LocalDate> day) {
  Trace trace;
  const auto number = static_cast<unsigned>(month) + 1;
  trace.name =
      day ? fmt::format("{} at {} on {}", figure_says(figure), sun.place.id, iso_date(*day))
          : fmt::format("{} a day at {} in {}", figure_says(figure), sun.place.id,
                        month_name(number));
  trace.number = figure_of(sun.months[month], figure);
  trace.has_number = true;
  trace.unit = "h";
  trace.value = fmt::format("{:.1f} h{}", trace.number,
                            day ? " if the day is clear" : " a day on clear days");
  trace.method = fmt::format(
      "The hours in which the sun stands clear of every thing, faces the place and its clear-sky "
      "beam is over {:.0f} W/m²{}. Beam: Ineichen and Perez, Linke turbidity 3.{}",
      in_watts_per_m2(sky::kSunshineThreshold),
      day ? "; shadows cast every four minutes"
          : ", as a mean over the days; shadows cast for one sun in every hour of every day",
      figure == 2 ? " Midday is the four hours around the sun’s noon." : "");
  trace.sources = {"spa", "ineichen-perez", "wmo8"};
  for (const garden::Entry& entry : stand.garden.entries) {
    if (entry.table != "garden") continue;
    for (const char* key : {"latitude_deg", "longitude_deg", "elevation_m", "plan_north_deg"})
      trace.inputs.push_back(figure_trace(stand.garden, entry, key));
  }
  if (!stand.garden.ground.horizon.empty()) {
    for (const garden::Entry& entry : stand.garden.entries) {
      if (entry.table != "ground") continue;
      Trace skyline = figure_trace(stand.garden, entry, "horizon");
      skyline.value = fmt::format("skyline of {} points", stand.garden.ground.horizon.size());
      trace.inputs.push_back(std::move(skyline));
    }
  }
  add_place(stand, sun.place, catalogue, trace.inputs);
  add_takers(stand, sun.place, year.sun, month, figure, catalogue, trace.inputs);
  trace.standing = Standing::kDerived;
  if (std::any_of(trace.inputs.begin(), trace.inputs.end(), rests_on_guess))
    trace.value = "≈ " + trace.value;
  return trace;
}

/// The keys of a place's own entry, with no figure that only bears on its height.
Trace area_trace(const Stand& stand, const light::PlaceSun& sun,
                 const facts::Catalogue& catalogue) {
  Trace trace;
  trace.name = "area of " + sun.place.id;
  trace.number = in_square_metres(sun.place.area);
  trace.has_number = true;
  trace.unit = "m²";
  trace.value = fmt::format("{:.2f} m²", trace.number);
  trace.method = sun.place.kind == light::PlaceKind::kBed
                     ? "The area within the boards, from the corners."
                     : "From its size in the plan.";
  add_place(stand, sun.place, catalogue, trace.inputs);
  std::erase_if(trace.inputs, [](const Trace& input) {
    return input.name.find("level of the soil") != std::string::npos ||
           input.name.find("height in full growth") != std::string::npos ||
           input.name.ends_with(".eye_m");
  });
  return trace;
}

Trace level_trace(const Stand& stand, const light::PlaceSun& sun,
                  const facts::Catalogue& catalogue) {
  Trace trace;
  trace.name = "level at which the light of " + sun.place.id + " is measured";
  trace.number = sun.place.level_m;
  trace.has_number = true;
  trace.unit = "m";
  trace.value = fmt::format("{:.2f} m above the datum", trace.number);
  trace.method = "The ground or the soil that it stands on, and its own height above that.";
  add_place(stand, sun.place, catalogue, trace.inputs);
  if (sun.place.kind != light::PlaceKind::kBed) trace.inputs.push_back(spots_trace(stand));
  return trace;
}

Result<Trace> why_month(const Stand& stand, const PlacesYear& year, const light::PlaceSun& sun,
                        const facts::Catalogue& catalogue, const Pointer& pointer) {
  const auto& rest = pointer.rest;
  if (rest.size() != 3 || rest[0] != "months")
    return bad_pointer(pointer.text,
                       "Go on with /months/5/sun_h_per_day, or with /level_m or /area_m2.");
  const auto month = month_of(rest[1]);
  if (!month) return bad_pointer(pointer.text, "Months run from 0 (January) to 11, or by name.");
  const auto& names = figure_names();
  const auto figure = std::find(names.begin(), names.end(), rest[2]);
  if (figure == names.end())
    return bad_pointer(pointer.text, "A month has " + list_words(names, "and") + ".");
  return sun_trace(stand, year, sun, *month, static_cast<std::size_t>(figure - names.begin()),
                   catalogue, std::nullopt);
}

Result<Trace> why_day(const Stand& stand, const PlacesYear& day, const light::PlaceSun& sun,
                      const facts::Catalogue& catalogue, const Pointer& pointer) {
  static const std::vector<std::string> names{"sun_h", "morning_h", "midday_h", "afternoon_h"};
  const auto figure = pointer.rest.size() == 1
                          ? std::find(names.begin(), names.end(), pointer.rest[0])
                          : names.end();
  if (figure == names.end())
    return bad_pointer(pointer.text, "A day has " + list_words(names, "and") + ".");
  const auto month = static_cast<unsigned>(pointer.day->month()) - 1;
  return sun_trace(stand, day, sun, month, static_cast<std::size_t>(figure - names.begin()),
                   catalogue, pointer.day);
}

}  // namespace

tl::unexpected<Error> no_such_place(const std::string& id, const std::vector<std::string>& ids,
                                    const std::string& scheme) {
  const std::string near = nearest_word(id, ids);
  std::string hint = near.empty() ? std::string() : fmt::format("Did you mean “{}”?", near);
  // Of the faces of walls one example is enough.
  std::vector<std::string> names, faces;
  for (const std::string& name : ids)
    (name.find('.') == std::string::npos ? names : faces).push_back(name);
  if (!faces.empty()) names.push_back("faces, such as " + faces.front());
  if (hint.empty() && !names.empty()) hint = "There are " + list_words(names, "and") + ".";
  return fail(ErrorCode::kWrongUse, id,
              fmt::format("There is no bed, seat or plant called “{}” in the garden {}.", id,
                          scheme == "found" || scheme == "proposed" ? "as " + scheme
                                                                    : "of scheme " + scheme),
              std::move(hint));
}

Result<Trace> why_light(const Stand& stand, const PlacesYear& year,
                        const facts::Catalogue& catalogue, const Pointer& pointer) {
  const light::PlaceSun* sun = pointer.spot ? &year.places.front() : year.find(pointer.place);
  if (const auto index = index_of(pointer.place);
      sun == nullptr && index && *index < year.places.size())
    sun = &year.places[*index];
  if (sun == nullptr) {
    std::vector<std::string> ids;
    for (const light::PlaceSun& place : year.places) ids.push_back(place.place.id);
    return no_such_place(pointer.place, ids, stand.garden.scheme);
  }
  const auto& rest = pointer.rest;
  if (rest.size() == 1 && rest[0] == "level_m") return level_trace(stand, *sun, catalogue);
  if (rest.size() == 1 && rest[0] == "area_m2" && !pointer.spot)
    return area_trace(stand, *sun, catalogue);
  return pointer.day ? why_day(stand, year, *sun, catalogue, pointer)
                     : why_month(stand, year, *sun, catalogue, pointer);
}

}  // namespace spadework::study
