// The sun print: when in the year and the day the sun reaches a place, and what takes it.
#pragma once

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "light/places.h"
#include "light/scene.h"
#include "sky/sky.h"

namespace spadework::light {

/// Takers of a cell that are not in SunPrint::takers: nothing, and the far skyline.
inline constexpr int kNoTaker = -1, kSkylineTaker = -2;

/// One hour of the print: a few minutes of one day. Shares are of the place's points; what is
/// neither lit nor taken faces away from the sun.
struct PrintCell {
  float lit = 0;          // in the sun
  float once = 0;         // taken, and some one thing gone would give it back
  float twice = 0;        // taken by two or more at once: no one thing gone gives it back
  bool day = false;       // the sun is above a level horizon
  bool strong = false;    // and its clear beam over the sunshine threshold
  int taker = kNoTaker;   // whose ink it has: the first thing on the way to the sun
  int second = kNoTaker;  // whose ink the stripes alternate with: of an hour taken twice, the next

  [[nodiscard]] bool striped() const { return second != kNoTaker; }
  [[nodiscard]] float taken() const { return once + twice; }
  /// Of the points that face the sun, the share that it reaches.
  [[nodiscard]] double lit_of_facing() const {
    const float facing = lit + taken();
    return facing > 0 ? static_cast<double>(lit / facing) : 0;
  }
};

struct PrintTaker {
  std::string id;
  double first_h = 0;  // hours a year in which it is the first on the way, mean over the place
};

/// Days across, clock hours up.
struct SunPrint {
  std::string place;
  std::vector<geometry::Vec2> marks;  // of a face or a support: where it lies in the plan
  bool is_face = false;               // the sun can stand behind it
  int first_day = 1;                  // 1 January, or 1 July south of the equator
  int day_step = 1, columns = 0;  // column c is day first_day + c × day_step, going round the year
  double step_h = 0;
  int rows = 0;                       // row r is the middle of step r from clock midnight
  std::vector<PrintCell> cells;       // columns × rows, column by column
  std::vector<PrintTaker> takers;     // those that take most first; the skyline is not among them
  std::vector<double> rise_h, set_h;  // by column, by the clock; NaN where it does neither
  std::array<double, 12> month_sun_h{};  // mean hours a day, from the print's own cells
  /// Clear-sky hours a year, means over the place; lost_h is what the takers are first at in all.
  double lit_h = 0, lost_h = 0, skyline_first_h = 0, taken_twice_h = 0;

  [[nodiscard]] const PrintCell& at(int column, int row) const {
    return cells[static_cast<std::size_t>(column * rows + row)];
  }
  [[nodiscard]] int day_of(int column) const {
    return (first_day - 1 + column * day_step) % 365 + 1;
  }
  /// The days that a column stands for: the last ones may be fewer.
  [[nodiscard]] int days_of(int column) const {
    return std::min(day_step, 365 - column * day_step);
  }
};

struct PrintGrid {
  int day_step = 1;
  double step_h = 1.0 / 12;
  int points = 48;  // of the place, at most: hours a year then keep within 1 % of the table's
};

/// In:     the place with the scene of what can shade it; points of the place are taken evenly over
///         its counted cells.
/// Out:    the print's rule for a point and an instant is that of `takers_of`: what would no one
///         thing, nor the skyline, gone by itself give back is taken twice. Summed over points and
///         cells that is `taken_twice_h`, and it nears Takers::taken_twice_h as both grow finer
///         (the print: few points, every day, every five minutes; takers: every cell of the place,
///         4,100 suns). A cell is striped when at least half of what is taken from it is taken
///         twice, and inked by the first things on the way of the points so taken, the most
///         frequent of them.
/// Errors: none. Results do not depend on the number of threads.
/// Tested: print_test.cpp, cell by cell against rays with each thing left out.
/// Source: the definition; ray.h for the way to the sun. [closed-form]
[[nodiscard]] SunPrint sun_print(const garden::Garden& garden, const Place& place,
                                 const Scene& scene, const PrintGrid& grid = {}, int threads = 1);

}  // namespace spadework::light
