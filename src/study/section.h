// A section: the garden cut upright along a line from A to B of its plan, seen with A to the left.
// Lengths lie along the line from A, levels above the garden's datum.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "geometry/drawing.h"
#include "study/study.h"

namespace spadework::study {

struct SectionLine {
  geometry::Vec2 from, to;
};

/// A date and a time by the clock.
struct SectionMoment {
  LocalDate date;
  double clock_h = 0;
};

/// A stretch of the line.
struct SectionStretch {
  double from_m = 0, to_m = 0;
};

/// A bed where the line goes through it: more than once through a bed with a bend.
struct SectionBed {
  std::string id;
  garden::Mark mark = garden::Mark::kExisting;
  bool guessed = false;
  double from_m = 0, to_m = 0;                // outside of the boards
  double level_m = 0;                         // of the finished soil
  double ground_from_m = 0, ground_to_m = 0;  // the ground's level at both
  struct Boards {
    double top_m = 0, foot_m = 0;  // levels
    std::vector<SectionStretch> cut;
  };
  std::optional<Boards> boards;
};

/// A thing in (along, level): closed outlines, each anticlockwise.
struct SectionThing {
  std::string id, table;
  garden::Mark mark = garden::Mark::kExisting;
  bool guessed = false;
  double from_m = 0, to_m = 0, top_m = 0;
  struct Outline {
    std::vector<geometry::Vec2> ring;
    garden::Through through = garden::Through::kOpaque;
  };
  std::vector<Outline> outlines;
};

struct SectionSun {
  double up_deg = 0;          // apparent height
  double in_section_deg = 0;  // as it seems in the section, 0 to 90: the slope of its rays there
  bool from_b = false;        // it shines from the side of B
};

/// From the edge of a shadow towards the sun, up to what cuts the light there and a little beyond.
struct SectionRay {
  geometry::Vec2 foot, over;  // (along, level)
  std::string taker;          // the thing that cuts it; it may stand beside the line
};

struct Section {
  double length_m = 0;
  std::vector<geometry::Vec2> ground;  // (along, level): straight between, exact at each break
  std::vector<SectionBed> beds;        // along the line
  std::vector<SectionThing> cuts;      // by where they begin; beds are not among them
  std::vector<SectionThing>
      beside;                       // not cut, within a metre of the line; stems of crowns that are
  std::vector<SectionStretch> lit;  // of the ground and of the beds' soil
  std::optional<SectionSun> sun;    // nothing: no moment asked, or the sun is down
  std::vector<SectionRay> rays;
  bool has_moment = false;
  /// "sun 42° up, 47° in this section, from A", "the sun is down"; empty without a moment.
  std::string sun_says;
};

/// The section along a line, at a moment where one is given.
/// In:     a line of the plan; all that stands on that day is cut, without one all of the year.
/// Out:    the ground exact at the breaks of its surface; lit as light::spot_day has each point
///         of it, edges to a millimetre where a shadow or a gap is 4 cm wide or wider.
/// Errors: kWrongUse for a line under 0.1 m or over 500 m, one that is not finite, or one that
///         passes the garden by.
/// Source: [closed-form] planes cut solids in polygons, ellipsoids in ellipses; the rays are
///         light/ray.h's.
[[nodiscard]] Result<Section> section_of(const Stand& stand, const facts::Catalogue& catalogue,
                                         const SectionLine& line,
                                         const std::optional<SectionMoment>& moment = {});

/// The lowest and the highest level that is drawn.
struct SectionLevels {
  double low_m = 0, high_m = 0;
};
[[nodiscard]] SectionLevels levels_of(const Section& section);

struct SectionSheet {
  const Section& section;
  const garden::Garden& garden;
  std::string says;     // "as proposed, 21 June 09:30"
  double mm_per_m = 0;  // on paper, up as along; 0: the largest usual scale that fits a sheet
};
/// The largest and the smallest mm_per_m.
inline constexpr double kMostSectionScale = 100, kLeastSectionScale = 1;

/// The section drawn, as wide and high as it needs at its scale, up the same as along: ground and
/// soil hatched, beds with their boards, cut and fill, what is cut with its name, what stands close
/// beside faintly, level figures, scale bar; where the sun reaches, and rays over what cuts it.
[[nodiscard]] geometry::Drawing section_drawing(const SectionSheet& sheet);

/// The same of a scheme. Errors: those of the study and of section_of().
struct SectionPicture {
  Section section;
  geometry::Drawing drawing;
};
[[nodiscard]] Result<SectionPicture> section_picture(Study& study, const std::string& scheme,
                                                     const SectionLine& line,
                                                     const std::optional<SectionMoment>& moment,
                                                     double mm_per_m = 0);

}  // namespace spadework::study
