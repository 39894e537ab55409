// The display list of a drawing: what is on the sheet, in paper millimetres, x to the right and y
// DOWN from the upper left corner. Pure rooms make it; `sheets` prints it as SVG and PNG, alike.
// Elements are painted in order, later ones on top.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "geometry/hatch.h"
#include "geometry/palette.h"
#include "geometry/path.h"

namespace spadework::geometry {

enum class LineEnd { kFlat, kRound, kSquare };
enum class LineCorner { kSharp, kRound };

struct Stroke {
  double weight_mm = kFineMm;
  Paint ink{};
  Dash dash = Dash::kSolid;
  LineEnd end = LineEnd::kFlat;
  LineCorner corner = LineCorner::kSharp;
  double casing_mm = 0;  // a rim of paper on both sides, so that red lines read on any ground
};

/// A path with fills, in order, and a line on top.
struct Shape {
  Path path;
  std::vector<Fill> fills;
  std::optional<Stroke> stroke{};
};

/// Round dots of one size and ink.
struct Dots {
  std::vector<Vec2> at;
  double dot_mm = 0.25;
  Paint ink{};
};

/// A grid of colours; `placement` takes cell corners (column, row) to paper, row 0 first.
struct CellImage {
  enum class Look {
    kCrisp,   // every cell one flat colour; absent cells are not painted
    kSmooth,  // colours run from cell middle to cell middle (bilinear in Oklab); absent cells take
              // their neighbours' colours: clip the group to the true outline
  };
  int columns = 0, rows = 0;
  std::vector<Colour> cells;          // columns × rows, row by row
  std::vector<std::uint8_t> present;  // the same; empty: all are
  Affine placement;
  Look look = Look::kSmooth;
};

enum class Face {
  kSerif,        // Vollkorn: text, notes, titles; old-style figures
  kSerifItalic,  // names of things
  kSans,         // Atkinson Hyperlegible Next: labels, tables, figures
};
enum class Weight { kRegular, kSemiBold };
enum class Anchor { kStart, kMiddle, kEnd };
/// What of the text stands at its place: the foot of the letters, the middle or the top of
/// capitals.
enum class Rise { kBaseline, kMiddle, kTop };

/// A piece of paper behind the words.
struct Chip {
  Paint paper{Role::kPaper, 0.9};
  double pad_x_mm = 0.7, pad_y_mm = 0.55, round_mm = 0.6;
};

/// Words in one style. Line feeds break lines; `wrap_mm` breaks them between words as well.
struct Text {
  Vec2 at;
  std::string words;  // UTF-8
  Face face = Face::kSans;
  Weight weight = Weight::kRegular;
  double size_mm = kLabelTypeMm;
  Paint ink{};
  Anchor anchor = Anchor::kStart;
  Rise rise = Rise::kBaseline;  // of the first line
  double turn_rad = 0;          // anticlockwise as seen, about `at`
  bool tabular = false;         // figures of one width
  std::optional<Chip> chip{};
  double halo_mm = 0;             // a rim of paper around the letters
  bool dotted_underline = false;  // says: this can be typed
  double wrap_mm = 0;             // 0: not wrapped
  double leading = kLeading;      // from line to line, over the size
};

struct Element;

/// Elements under one name. `id` and `title` are told to screen readers; ids are made unique when
/// printed. `clip` hides what lies outside (even-odd).
struct Group {
  std::string id, title;
  std::optional<Path> clip;
  double opacity = 1;
  std::vector<Element> elements;

  void add(Element element);
  /// A new group, last in this one; valid until the next `add` to this one.
  Group& add_group(std::string group_id = {}, std::string group_title = {});
};

struct Element {
  std::variant<Shape, Dots, CellImage, Text, Group> what;
};

struct Drawing {
  double width_mm = 0, height_mm = 0;
  std::string title, description;  // for those who cannot see it
  Paint paper = Role::kPaper;
  Group root;
};

/// How many of each kind a group holds, through all its groups (itself not counted).
struct ElementCount {
  int shapes = 0, dots = 0, images = 0, texts = 0, groups = 0;
  friend bool operator==(const ElementCount&, const ElementCount&) = default;
};
[[nodiscard]] ElementCount count_elements(const Group& group);
/// False if a figure anywhere is not finite or an image's cells do not match its size.
[[nodiscard]] bool is_sound(const Drawing& drawing);
/// Height of capitals over the type size. Source: the faces' own OS/2 tables.
[[nodiscard]] double cap_height(Face face);

}  // namespace spadework::geometry
