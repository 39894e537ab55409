// The parts of the sun print's sheet. For the print's drawing alone.
#pragma once

#include <string>
#include <vector>

#include "light/print_drawing.h"
#include "light/print_regions.h"
#include "light/taker_inks.h"

namespace spadework::light {

/// What every part is told.
struct PrintParts {
  const PrintSheet& sheet;
  const SunPrint& print;
  TakerInks inks;
  PrintRegions regions;
  std::vector<Taker> in_key{};    // the takers that the key lists, in its order
  std::size_t others_in_key = 0;  // how many more it only counts
  double others_h = 0;            // and what those take

  /// The id of a taker of the print; the skyline's for kSkylineTaker.
  [[nodiscard]] std::string id_of(int taker) const;
  /// As it is written: its id, or what the place's own parts are called.
  [[nodiscard]] std::string name_of(const std::string& id) const;
  [[nodiscard]] bool is_in_key(const std::string& id) const;
};

/// Everything but the drawing: inks, regions, and who is in the key: those that show most or take
/// most, by the hours that they take alone.
[[nodiscard]] PrintParts parts_of(const PrintSheet& sheet);

/// A rectangle of paper, millimetres.
struct PaperBox {
  double left = 0, top = 0, right = 0, bottom = 0;
};

/// The picture itself with its months, hours and totals.
void draw_print_plot(const PrintParts& parts, const PaperBox& box, geometry::Group& into);
/// The key of colours, then what takes the sun and how many hours a year. Out: where it ends.
double draw_print_key(const PrintParts& parts, const PaperBox& box, geometry::Group& into);
/// Where the place lies, in yellow, with the discs of the takers in the key.
void draw_print_map(const PrintParts& parts, const PaperBox& box, geometry::Group& into);

/// Stripes of two takers within a path, as wide as in the picture.
void add_stripes(geometry::Group& into, const geometry::Path& path, int ink, int other_ink);
/// A taker's ink over its tint within a path.
void add_ink(geometry::Group& into, const geometry::Path& path, int ink);

[[nodiscard]] geometry::Text print_words(geometry::Vec2 at, std::string text, geometry::Face face,
                                         double size_mm,
                                         geometry::Anchor anchor = geometry::Anchor::kStart);
[[nodiscard]] geometry::Stroke fine_line(geometry::Role role, double opacity = 1);

}  // namespace spadework::light
