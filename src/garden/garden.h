// Front door of the garden room.
//
// A document is read into a Draft (entry.h) whose tables and keys the schema (schema.h) describes.
// `resolve` makes of it the garden of one scheme: as found, as proposed or a named alternative,
// with changes applied and places found. `bodies` (bodies.h) stands its things on the ground as
// shapes that take light; `face_pieces` (faces.h) tells the planes on which plants are trained.
// `findings` (findings.h) tells what does not fit together.
//
// Plan coordinates are metres, x to the right of the page and y up it; heights are metres above the
// ground where a thing stands, levels metres above the garden's datum.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "garden/entry.h"
#include "geometry/polygon.h"

namespace spadework::garden {

using geometry::Polygon;
using geometry::Vec2;
using geometry::Vec3;

/// How an entry stands in the scheme that is looked at.
enum class Mark { kExisting, kChanged, kProposed };

/// What every thing has.
struct Thing {
  std::string id;
  Mark mark = Mark::kExisting;
  int phase = 0;                     // 0: none given
  std::vector<std::string> guessed;  // keys whose figures were not measured
  std::size_t entry = 0;             // its resolved entry in Garden::entries
};

struct Site {
  std::string title;
  Angle latitude, longitude;
  Length elevation;
  TimeZone time_zone;
  Angle plan_north;  // the true bearing of the page's up
  bool imperial = false;
};

struct Ground {
  std::vector<Vec3> spots;
  std::optional<Vec2> fall;  // downhill rise over run in the plan, when given by a fall
  bool guessed = false;      // its levels were not measured
  struct HorizonPoint {
    Angle bearing, altitude;
  };
  std::vector<HorizonPoint> horizon;  // by bearing
};

struct Wall : Thing {
  std::vector<Vec2> line;  // the centre line
  Length height;
  std::optional<Length> thickness;
  std::string kind;
  bool level_top = false;
  std::optional<double> light_through;
};

enum class RoofForm { kFlat, kMono, kGable, kHip };
struct Building : Thing {
  Polygon outline;
  Length eaves, ridge;  // ridge = eaves for a flat roof
  RoofForm roof = RoofForm::kFlat;
  std::optional<Angle> ridge_along;  // true bearing along which the ridge runs
  std::optional<Angle> high_side;    // true bearing towards which a mono roof rises
};

enum class CrownForm { kRound, kColumn, kCone, kSpreading };
struct Tree : Thing {
  std::string kind;
  Vec2 at;
  Length height, crown_width;
  std::optional<Length> crown_base;
  std::optional<Length> stem;  // width
  std::optional<CrownForm> form;
  bool dead = false;
  /// A tree that a change lifted or topped: as it stood before. Its crown is cut, not grown anew.
  struct Before {
    Length height;
    std::optional<Length> crown_base;
  };
  std::optional<Before> before;
};

struct Boards {
  Length height{0.15};
  int courses = 1;
  Length thickness{0.038};
};
struct Bed : Thing {
  Polygon outline;  // outside the boards, anticlockwise
  std::optional<Boards> boards;
  std::optional<Length> level;  // finished soil, when fixed
  std::string level_with;       // id of the bed that it is level with, or empty
  Length freeboard;
  /// Where a rectangular bed starts and how it lies: its `at`, the unit along its longer side.
  Vec2 at, along;
};

struct Support : Thing {
  std::string kind;
  std::vector<Vec2> line;  // one place, or the line along which it stands
  Vec2 along{1, 0};        // unit: its front, along the line or as it is turned
  Length height;
  std::optional<Length> width, depth;
  std::string crop;
};

enum class Sides { kOpen, kTrellis, kSolid };
struct Seat : Thing {
  Vec2 at, facing;  // facing: unit vector
  Length eye;
  Vec2 size;  // along the back, front to back
  struct Roof {
    Length height, overhang;
  };
  std::optional<Roof> roof;
  Sides sides = Sides::kOpen;
};

struct Plant : Thing {
  std::string crop;
  std::vector<Vec2> stems;  // one for each plant; of a planted outline its middle
  Polygon outline;          // when the ground is planted all over
};

struct Container : Thing {
  Vec2 at;
  Volume volume;
  Length height;
  std::string crop;
};

struct Cover : Thing {
  std::string kind;
  std::vector<Polygon> outlines;
  std::optional<Length> height;
  std::optional<std::pair<int, int>> days;  // from, until as days of the year; may wrap
};

struct Tank : Thing {
  Vec2 at;
  Volume holds;
};

struct Object : Thing {
  Polygon outline;
  Length height;
  std::string what;
};

/// Things that lie in the plan without a body, for the drawing and for findings.
struct Flat : Thing {
  std::string table, kind;  // "path" gravel, "area" lawn, "patch" bindweed, "service" gas
  std::vector<Vec2> line;   // paths, services
  Polygon outline;          // areas, patches
  Length width;             // paths
};
struct Spot : Thing {
  std::string table, kind;  // "point" door, "gate"
  Vec2 at;
  Length width;  // gates
  std::optional<Vec2> facing;
  Length eye;
};

/// A line of sight.
struct Sight : Thing {
  std::string table;       // "view", "hide" or "watch"
  std::vector<Vec2> from;  // those who look
  Vec2 to;                 // the place looked at, or the middle of the thing
  Length corridor;         // how wide it is
};

/// One scheme's garden.
struct Garden {
  std::string scheme;  // "found", "proposed" or a scheme's id
  std::string file;
  Site site;
  Ground ground;
  Polygon boundary;  // empty if not given
  std::vector<Wall> walls;
  std::vector<Building> buildings;
  std::vector<Tree> trees;
  std::vector<Bed> beds;
  std::vector<Support> supports;
  std::vector<Seat> seats;
  std::vector<Plant> plants;
  std::vector<Container> containers;
  std::vector<Cover> covers;
  std::vector<Tank> tanks;
  std::vector<Object> objects;
  std::vector<Flat> flats;
  std::vector<Spot> marks;
  std::vector<Sight> sights;   // whose ends are all there
  std::vector<Entry> entries;  // all of the scheme's entries, changes applied

  [[nodiscard]] const Entry& entry_of(const Thing& thing) const { return entries[thing.entry]; }
};

/// The unit vector in the plan towards a true bearing.
[[nodiscard]] Vec2 toward_bearing(Angle bearing, Angle plan_north);

/// The names that `--scheme` takes: found, proposed, then the document's own.
[[nodiscard]] std::vector<std::string> scheme_names(const Draft& draft);

/// The garden of one scheme. The draft must have been read without problems.
/// Errors: kWrongUse if there is no such scheme, with the nearest name; kNoAnswer if something
///         stands at a point that has no place, such as one of which only tape lengths are known.
[[nodiscard]] Result<Garden> resolve(const Draft& draft, const std::string& scheme);

/// A figure of the document as the start of a trace: its value as typed and where, and whether it
/// was given, guessed or assumed by default.
[[nodiscard]] Trace figure_trace(const Garden& garden, const Entry& entry, const std::string& key);

/// A value as it was typed, or as one would write it; of a long list the beginning.
[[nodiscard]] std::string value_says(const Value& value);

/// A key as one would say it: "crown width" for `crown_width_m`.
[[nodiscard]] std::string key_says(std::string_view key);

/// Where each thing that has a place stands: its middle, of a row the first stem.
[[nodiscard]] std::map<std::string, Vec2, std::less<>> middles_of(const Garden& garden);

/// The smallest box around everything drawn, the boundary included.
[[nodiscard]] geometry::Box2 extent(const Garden& garden);

}  // namespace spadework::garden
