#include "garden/build.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace spadework::garden {
namespace {

using geometry::anticlockwise;
using geometry::length;
using geometry::rectangle;
using geometry::unit;

template <class T>
T begin_thing(const Garden& garden, std::size_t i, Mark mark) {
  T thing;
  const Entry& entry = garden.entries[i];
  thing.id = entry.id;
  thing.mark = mark;
  thing.entry = i;
  if (const Value* phase = entry.find("phase"); phase && phase->number())
    thing.phase = static_cast<int>(*phase->number());
  thing.guessed = entry.guessed();
  return thing;
}

Wall make_wall(Wall wall, const Keys& keys) {
  wall.line = keys.places("line");
  wall.height = keys.needed_length("height_m");
  wall.thickness = keys.length("thickness_m");
  wall.kind = keys.text("kind");
  wall.level_top = keys.text("top") == "level";
  wall.light_through = keys.number("light_through");
  return wall;
}

/// "north", "north-east", … as a bearing.
Angle compass_bearing(const std::string& word) {
  static constexpr std::array<std::string_view, 8> kWords = {
      "north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"};
  const auto* found = std::find(kWords.begin(), kWords.end(), word);
  return degrees(45.0 * static_cast<double>(found - kWords.begin()));
}

Building make_building(Building building, const Keys& keys) {
  building.outline = anticlockwise(keys.places("outline"));
  building.eaves = keys.needed_length("eaves_m");
  building.ridge = keys.length("ridge_m").value_or(building.eaves);
  const bool pitched = building.ridge > building.eaves;
  const std::string roof = keys.text("roof", pitched ? "gable" : "flat");
  if (roof == "mono") building.roof = RoofForm::kMono;
  if (roof == "gable") building.roof = RoofForm::kGable;
  if (roof == "hip") building.roof = RoofForm::kHip;
  if (!pitched) building.roof = RoofForm::kFlat;
  if (const auto along = keys.number("ridge_deg")) building.ridge_along = degrees(*along);
  if (const auto side = keys.number("high_side"))
    building.high_side = degrees(*side);
  else if (keys.has("high_side"))
    building.high_side = compass_bearing(keys.text("high_side"));
  return building;
}

Tree make_tree(Tree tree, const Keys& keys) {
  tree.kind = keys.text("kind");
  tree.at = keys.place("at");
  tree.height = keys.needed_length("height_m");
  tree.crown_width = keys.needed_length("crown_width_m");
  tree.crown_base = keys.length("crown_base_m");
  tree.stem = keys.length("stem_m");
  tree.dead = keys.text("condition") == "dead";
  const std::string shape = keys.text("shape");
  if (shape == "round") tree.form = CrownForm::kRound;
  if (shape == "column") tree.form = CrownForm::kColumn;
  if (shape == "cone") tree.form = CrownForm::kCone;
  if (shape == "spreading") tree.form = CrownForm::kSpreading;
  return tree;
}

std::optional<Boards> make_boards(const Keys& keys, const PointMap& points) {
  const Record* record = keys.record("boards");
  if (record == nullptr) return std::nullopt;
  const Keys own("bed", *record, points);
  Boards boards;
  if (const auto height = own.length("height")) boards.height = *height;
  if (const auto courses = own.number("courses")) boards.courses = static_cast<int>(*courses);
  if (const auto thickness = own.length("thickness")) boards.thickness = *thickness;
  return boards;
}

void lay_out_bed(Bed& bed, const Keys& keys) {
  if (keys.has("outline")) {
    bed.outline = anticlockwise(keys.places("outline"));
    bed.along = geometry::long_direction(bed.outline);
    // Slices start at the corner that lies farthest back along the bed.
    bed.at = *std::min_element(bed.outline.begin(), bed.outline.end(), [&](Vec2 a, Vec2 b) {
      return dot(a, bed.along) < dot(b, bed.along);
    });
    return;
  }
  const Vec2 size = keys.size("size");
  const double turn = keys.number_or_default("turn_deg") * std::numbers::pi / 180;
  bed.at = keys.place("at");
  bed.outline = rectangle(bed.at, size, turn);
  bed.along = geometry::turned(size.x >= size.y ? Vec2{1, 0} : Vec2{0, 1}, turn);
}

Bed make_bed(Bed bed, const Keys& keys, const PointMap& points) {
  lay_out_bed(bed, keys);
  bed.boards = make_boards(keys, points);
  bed.level = keys.length("level_m");
  bed.level_with = keys.text("level_with");
  bed.freeboard = keys.needed_length("freeboard_m");
  return bed;
}

Support make_support(Support support, const Keys& keys) {
  support.kind = keys.text("kind");
  support.line = keys.has("line") ? keys.places("line") : std::vector<Vec2>{keys.place("at")};
  const Vec2 span = support.line.back() - support.line.front();
  support.along =
      length(span) > 1e-9
          ? unit(span)
          : geometry::turned({1, 0}, keys.number("turn_deg").value_or(0) * std::numbers::pi / 180);
  support.height = keys.needed_length("height_m");
  support.width = keys.length("width_m");
  support.depth = keys.length("depth_m");
  support.crop = keys.text("crop");
  return support;
}

Seat make_seat(Seat seat, const Keys& keys, const PointMap& points) {
  seat.at = keys.place("at");
  const Vec2 towards = keys.place("facing") - seat.at;
  seat.facing = length(towards) > 1e-9 ? unit(towards) : Vec2{0, 1};
  seat.eye = keys.needed_length("eye_m");
  seat.size = keys.has("size") ? keys.size("size") : Vec2{1.2, 0.5};
  if (const Record* roof = keys.record("roof")) {
    const Keys own("seat", *roof, points);
    seat.roof = Seat::Roof{own.length("height_m").value_or(metres(2.1)),
                           own.length("overhang_m").value_or(metres(0.2))};
  }
  const std::string sides = keys.text("sides", "open");
  seat.sides = sides == "solid"     ? Sides::kSolid
               : sides == "trellis" ? Sides::kTrellis
                                    : Sides::kOpen;
  return seat;
}

/// Evenly from end to end along a line of places.
std::vector<Vec2> spaced(const std::vector<Vec2>& line, int count) {
  if (count <= 1 || line.size() < 2) return {(line.front() + line.back()) * 0.5};
  double whole = 0;
  for (std::size_t i = 1; i < line.size(); ++i) whole += length(line[i] - line[i - 1]);
  std::vector<Vec2> out;
  std::size_t leg = 1;
  double walked = 0;
  for (int k = 0; k < count; ++k) {
    const double target = whole * k / (count - 1);
    while (leg + 1 < line.size() && walked + length(line[leg] - line[leg - 1]) < target)
      walked += length(line[leg] - line[leg - 1]), ++leg;
    const Vec2 step = line[leg] - line[leg - 1];
    out.push_back(line[leg - 1] + step * std::min(1.0, (target - walked) / length(step)));
  }
  return out;
}

Plant make_plant(Plant plant, const Keys& keys) {
  plant.crop = keys.text("crop");
  const int count = static_cast<int>(keys.number("count").value_or(1));
  if (keys.has("row"))
    plant.stems = spaced(keys.places("row"), count);
  else if (keys.has("outline")) {
    plant.outline = anticlockwise(keys.places("outline"));
    plant.stems = {geometry::centroid(plant.outline)};
  } else
    plant.stems = {keys.place("at")};
  return plant;
}

Container make_container(Container container, const Keys& keys) {
  container.at = keys.place("at");
  container.volume = litres(*keys.number("volume_l"));
  container.height = keys.length("height_m").value_or(metres(0));
  if (container.height <= metres(0)) {  // as tall as it is wide
    const double width = std::cbrt(4 * in_cubic_metres(container.volume) / std::numbers::pi);
    container.height = metres(width);
  }
  container.crop = keys.text("crop");
  return container;
}

std::optional<int> day_of(const Entry& entry, std::string_view key) {
  const Value* value = entry.find(key);
  if (value == nullptr) return std::nullopt;
  if (value->date()) return day_of_year(*value->date());
  if (!value->text()) return std::nullopt;
  const auto day = parse_month_day(*value->text());
  if (!day) return std::nullopt;
  return day_of_year(LocalDate(std::chrono::year(kReferenceYear), day->month(), day->day()));
}

Cover make_cover(Cover cover, const Keys& keys, const Entry& entry) {
  cover.kind = keys.text("kind");
  if (keys.has("outline")) cover.outlines = {anticlockwise(keys.places("outline"))};
  cover.height = keys.length("height_m");
  const auto from = day_of(entry, "from"), until = day_of(entry, "until");
  if (from || until) cover.days = {from.value_or(1), until.value_or(366)};
  return cover;
}

Flat make_flat(Flat flat, const Keys& keys, const std::string& table) {
  flat.table = table;
  if (table == "path")
    flat.kind = keys.text("surface");
  else if (table == "area")
    flat.kind = keys.text("treatment");
  else if (table == "patch")
    flat.kind = keys.text("what");
  else
    flat.kind = keys.text("kind");
  if (keys.has("line")) flat.line = keys.places("line");
  if (keys.has("outline")) flat.outline = anticlockwise(keys.places("outline"));
  flat.width = keys.length("width_m").value_or(metres(0));
  return flat;
}

Spot make_spot(Spot spot, const Keys& keys, const std::string& table) {
  spot.table = table;
  spot.kind = keys.text("kind");
  spot.at = keys.place("at");
  spot.width = keys.length("width_m").value_or(metres(0));
  if (keys.has("facing")) spot.facing = keys.place("facing");
  spot.eye = keys.length("eye_m").value_or(metres(1.6));
  return spot;
}

void read_site(Garden& garden, const Keys& keys) {
  garden.site.title = keys.text("title");
  garden.site.latitude = degrees(*keys.number("latitude_deg"));
  garden.site.longitude = degrees(*keys.number("longitude_deg"));
  garden.site.elevation = metres(keys.number("elevation_m").value_or(0));
  garden.site.plan_north = degrees(keys.number_or_default("plan_north_deg"));
  garden.site.imperial = keys.text("units") == "imperial";
}

void read_ground(Garden& garden, const Keys& keys) {
  if (const List* spots = keys.list("spots")) {
    for (const Value& spot : *spots) {
      const List& p = *spot.list();
      garden.ground.spots.push_back({*p[0].number(), *p[1].number(), *p[2].number()});
    }
  }
  if (const auto falls = keys.length("falls_m")) {
    const double steep = *falls / metres(keys.number("over").value_or(1));
    garden.ground.fall =
        toward_bearing(degrees(keys.number("toward_deg").value_or(0)), garden.site.plan_north) *
        steep;
  }
  const std::vector<std::string> guessed = keys.texts("guessed");
  garden.ground.guessed = std::any_of(guessed.begin(), guessed.end(), [](const std::string& key) {
    return key == "spots" || key == "falls_m" || key == "toward_deg" || key == "over";
  });
  if (const List* horizon = keys.list("horizon")) {
    for (const Value& point : *horizon) {
      const List& p = *point.list();
      garden.ground.horizon.push_back({degrees(*p[0].number()), degrees(*p[1].number())});
    }
    std::sort(garden.ground.horizon.begin(), garden.ground.horizon.end(),
              [](const auto& a, const auto& b) { return a.bearing < b.bearing; });
  }
}

void read_boundary(Garden& garden, const Keys& keys) {
  if (keys.has("outline")) {
    garden.boundary = anticlockwise(keys.places("outline"));
  } else if (const List* sides = keys.list("sides_m"); sides && keys.number("diagonal_m")) {
    garden.boundary = geometry::quadrilateral({*(*sides)[0].number(), *(*sides)[1].number(),
                                               *(*sides)[2].number(), *(*sides)[3].number()},
                                              *keys.number("diagonal_m"));
  }
}

void build_one(Garden& garden, std::size_t i, Mark mark, const PointMap& points) {
  const Entry& entry = garden.entries[i];
  const std::string& table = entry.table;
  const Keys keys(entry, points);
  if (table == "wall")
    garden.walls.push_back(make_wall(begin_thing<Wall>(garden, i, mark), keys));
  else if (table == "building")
    garden.buildings.push_back(make_building(begin_thing<Building>(garden, i, mark), keys));
  else if (table == "tree")
    garden.trees.push_back(make_tree(begin_thing<Tree>(garden, i, mark), keys));
  else if (table == "bed")
    garden.beds.push_back(make_bed(begin_thing<Bed>(garden, i, mark), keys, points));
  else if (table == "support")
    garden.supports.push_back(make_support(begin_thing<Support>(garden, i, mark), keys));
  else if (table == "seat")
    garden.seats.push_back(make_seat(begin_thing<Seat>(garden, i, mark), keys, points));
  else if (table == "plant")
    garden.plants.push_back(make_plant(begin_thing<Plant>(garden, i, mark), keys));
  else if (table == "container")
    garden.containers.push_back(make_container(begin_thing<Container>(garden, i, mark), keys));
  else if (table == "cover")
    garden.covers.push_back(make_cover(begin_thing<Cover>(garden, i, mark), keys, entry));
  else if (table == "path" || table == "area" || table == "patch" || table == "service")
    garden.flats.push_back(make_flat(begin_thing<Flat>(garden, i, mark), keys, table));
  else if (table == "point" || table == "gate")
    garden.marks.push_back(make_spot(begin_thing<Spot>(garden, i, mark), keys, table));
  else if (table == "view" || table == "hide" || table == "watch") {
    garden.sights.push_back(begin_thing<Sight>(garden, i, mark));
    garden.sights.back().table = table;
  } else if (table == "tank") {
    Tank tank = begin_thing<Tank>(garden, i, mark);
    tank.at = keys.place("at");
    tank.holds = litres(*keys.number("litres"));
    garden.tanks.push_back(tank);
  } else if (table == "object") {
    Object object = begin_thing<Object>(garden, i, mark);
    object.outline = anticlockwise(keys.places("outline"));
    object.height = keys.needed_length("height_m");
    object.what = keys.text("what");
    garden.objects.push_back(object);
  }
}

/// Covers that lie over things take those things' outlines.
void lay_covers_over(Garden& garden, const PointMap& points) {
  for (Cover& cover : garden.covers) {
    const Keys keys(garden.entry_of(cover), points);
    for (const std::string& id : keys.texts("over")) {
      for (const Bed& bed : garden.beds) {
        if (bed.id == id) cover.outlines.push_back(bed.outline);
      }
      for (const Plant& plant : garden.plants) {
        if (plant.id != id) continue;
        if (!plant.outline.empty()) {
          cover.outlines.push_back(plant.outline);
          continue;
        }
        for (const Vec2 stem : plant.stems)
          cover.outlines.push_back(geometry::rectangle_about(stem, {0.6, 0.6}, 0));
      }
      for (const Flat& flat : garden.flats) {
        if (flat.id == id && !flat.outline.empty()) cover.outlines.push_back(flat.outline);
      }
      for (const Container& container : garden.containers) {
        if (container.id == id)
          cover.outlines.push_back(geometry::rectangle_about(container.at, {0.6, 0.6}, 0));
      }
    }
  }
}

/// Lines of sight end at things, wherever those stand in this scheme.
void lay_sights(Garden& garden, const PointMap& points) {
  const auto middles = middles_of(garden);
  for (std::size_t i = 0; i < garden.sights.size(); ++i) {
    Sight& sight = garden.sights[i];
    const Keys keys(garden.entry_of(sight), points);
    for (const std::string& id : keys.texts("from"))
      if (const auto at = middles.find(id); at != middles.end()) sight.from.push_back(at->second);
    const std::string point = keys.text("to");
    const auto seen = middles.find(keys.has("to") ? point : keys.text("thing"));
    if (keys.has("to") && (point.empty() || points.count(point) > 0))
      sight.to = keys.place("to");
    else if (seen != middles.end())
      sight.to = seen->second;
    else
      sight.from.clear();  // what was looked at is gone, or has no place yet
    sight.corridor =
        keys.length("corridor_m").value_or(metres(default_number(sight.table, "corridor_m")));
  }
  std::erase_if(garden.sights, [](const Sight& sight) { return sight.from.empty(); });
}

}  // namespace

void build_things(Garden& garden, const std::vector<Mark>& marks, const PointMap& points,
                  const std::map<std::string, const Entry*>& before) {
  for (const Entry& entry : garden.entries) {
    if (entry.table == "garden") read_site(garden, Keys(entry, points));
  }
  for (std::size_t i = 0; i < garden.entries.size(); ++i) {
    const Entry& entry = garden.entries[i];
    if (entry.table == "ground")
      read_ground(garden, Keys(entry, points));
    else if (entry.table == "boundary")
      read_boundary(garden, Keys(entry, points));
    else
      build_one(garden, i, marks[i], points);
  }
  lay_covers_over(garden, points);
  lay_sights(garden, points);
  for (Tree& tree : garden.trees) {
    const auto was = before.find(tree.id);
    if (was == before.end()) continue;
    const Keys keys(*was->second, points);
    if (keys.text("kind") == tree.kind &&
        keys.text("shape") == Keys(garden.entry_of(tree), points).text("shape"))
      tree.before = Tree::Before{keys.needed_length("height_m"), keys.length("crown_base_m")};
  }
}

Vec2 toward_bearing(Angle bearing, Angle plan_north) {
  const double page = in_radians(bearing - plan_north);
  return {std::sin(page), std::cos(page)};
}

std::map<std::string, Vec2, std::less<>> middles_of(const Garden& garden) {
  std::map<std::string, Vec2, std::less<>> out;
  for (const Bed& t : garden.beds) out[t.id] = geometry::centroid(t.outline);
  for (const Building& t : garden.buildings) out[t.id] = geometry::centroid(t.outline);
  for (const Object& t : garden.objects) out[t.id] = geometry::centroid(t.outline);
  for (const Wall& t : garden.walls) out[t.id] = (t.line.front() + t.line.back()) * 0.5;
  for (const Tree& t : garden.trees) out[t.id] = t.at;
  for (const Seat& t : garden.seats) out[t.id] = t.at;
  for (const Plant& t : garden.plants) out[t.id] = t.stems.front();
  for (const Container& t : garden.containers) out[t.id] = t.at;
  for (const Tank& t : garden.tanks) out[t.id] = t.at;
  for (const Support& t : garden.supports) out[t.id] = (t.line.front() + t.line.back()) * 0.5;
  for (const Spot& t : garden.marks) out[t.id] = t.at;
  for (const Flat& t : garden.flats)
    out[t.id] =
        t.outline.empty() ? (t.line.front() + t.line.back()) * 0.5 : geometry::centroid(t.outline);
  for (const Cover& t : garden.covers)
    if (!t.outlines.empty()) out[t.id] = geometry::centroid(t.outlines[0]);
  return out;
}

geometry::Box2 extent(const Garden& garden) {
  std::vector<Vec2> all = garden.boundary;
  const auto take = [&](const std::vector<Vec2>& points) {
    all.insert(all.end(), points.begin(), points.end());
  };
  for (const Wall& wall : garden.walls) take(wall.line);
  for (const Building& building : garden.buildings) take(building.outline);
  for (const Tree& tree : garden.trees) all.push_back(tree.at);
  for (const Bed& bed : garden.beds) take(bed.outline);
  for (const Support& support : garden.supports) take(support.line);
  for (const Seat& seat : garden.seats) all.push_back(seat.at);
  for (const Plant& plant : garden.plants) take(plant.stems), take(plant.outline);
  for (const Container& container : garden.containers) all.push_back(container.at);
  for (const Object& object : garden.objects) take(object.outline);
  for (const Tank& tank : garden.tanks) all.push_back(tank.at);
  for (const Flat& flat : garden.flats) take(flat.line), take(flat.outline);
  for (const Spot& spot : garden.marks) all.push_back(spot.at);
  for (const Vec3& spot : garden.ground.spots) all.push_back(spot.plan());
  if (all.empty()) all = {{0, 0}, {1, 1}};
  geometry::Box2 box = geometry::bounds(all);
  if (box.width() < 1) box.high.x = box.low.x + 1;
  if (box.height() < 1) box.high.y = box.low.y + 1;
  return box;
}

}  // namespace spadework::garden
