// The sun print: when in the year and the day the sun reaches a place, and what takes it.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "light/places.h"
#include "light/scene.h"
#include "sky/sky.h"

namespace spadework::light {

/// The taker of a stretch without sun: the far skyline.
inline constexpr int kSkylineTaker = -2;

struct PrintCell {
  float lit = 0;        // share of the place in the sun
  bool day = false;     // the sun is above a level horizon
  bool strong = false;  // and its clear beam over the sunshine threshold
  int taker = -1;       // what takes the light of most of the rest: place in `takers`, −1 nothing
};

/// Days across, clock hours up.
struct SunPrint {
  std::string place;
  std::vector<geometry::Vec2> marks;  // of a face or a support: where it lies in the plan
  bool is_face = false;               // the sun can stand behind it
  int first_day = 1;                  // 1 January, or 1 July south of the equator
  int day_step = 1, columns = 0;  // column c is day first_day + c × day_step, going round the year
  double step_h = 0;
  int rows = 0;                          // row r is the middle of step r from clock midnight
  std::vector<PrintCell> cells;          // columns × rows, column by column
  std::vector<std::string> takers;       // ids
  std::vector<double> rise_h, set_h;     // by column, by the clock; NaN where it does neither
  std::array<double, 12> month_sun_h{};  // mean hours a day, from the print's own cells

  [[nodiscard]] const PrintCell& at(int column, int row) const {
    return cells[static_cast<std::size_t>(column * rows + row)];
  }
  [[nodiscard]] int day_of(int column) const {
    return (first_day - 1 + column * day_step) % 365 + 1;
  }
};

/// In: the place with the scene of what can shade it; points of the place are taken evenly over its
///     counted cells, at most `points`.
/// Out: the first thing along the ray at which half of the beam is taken inks the hour.
[[nodiscard]] SunPrint sun_print(const garden::Garden& garden, const Place& place,
                                 const Scene& scene, int day_step = 2, double step_h = 1.0 / 12,
                                 int points = 12);

}  // namespace spadework::light
