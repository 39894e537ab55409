// The sheet of a light field: the plan with its light, the hours written in the beds.
#pragma once

#include <string>
#include <vector>

#include "facts/facts.h"
#include "garden/garden.h"
#include "geometry/drawing.h"
#include "geometry/surface.h"
#include "geometry/symbols.h"
#include "light/field.h"

namespace spadework::light {

struct LightSheet {
  const garden::Garden& garden;
  const garden::Garden* found = nullptr;  // to show what goes; nothing: not shown
  const geometry::Surface& surface;
  const facts::Catalogue& catalogue;
  const Field& field;
  std::vector<float> hours;  // of each cell; NaN where there is no cell
  struct Figure {
    std::string id;
    double hours = 0;
    bool on_guesses = false;
  };
  std::vector<Figure> figures;  // of places, written where they lie
  std::string says;             // "as proposed: sun, hours a day, April to September"
  bool one_day = false;         // hours of one day, not hours a day
  int day_of_year = 180;        // which trees are in leaf
  bool one_moment = false;      // hours are shares in the sun at an instant: 1 lit, 0 not
  bool difference = false;      // hours are what is won, or lost where below 0
};

/// What is won or lost: "+0.4", "−1.2", "±0"; on guesses "≈ +0.4", "≈ −1½".
[[nodiscard]] std::string gain_figure(double hours, bool on_guesses);
/// Hours of sun as they are written in a bed: "6.8"; what rests on guesses with fewer digits, "≈
/// 7", "≈ 6½", under an hour "≈ 0.4".
[[nodiscard]] std::string hours_figure(double hours, bool on_guesses);

/// An A4 sheet, upright or lying as the garden asks, at a round scale, with title, key, scale bar
/// (in feet where the garden is measured in them) and north point.
[[nodiscard]] geometry::Drawing light_drawing(const LightSheet& sheet);

/// What a sheet shows: everything drawn, crowns and all, but no farther than 10 m beyond the
/// boundary.
[[nodiscard]] geometry::Box2 sheet_frame(const garden::Garden& garden);

/// The largest usual scale at which a garden of that size fits a space: 100 for 1:100.
[[nodiscard]] double scale_to_fit(geometry::Vec2 garden_m, geometry::Vec2 space_mm);

/// The scale bar for a scale, in metres or in feet, with its left end at `at` and figures of that
/// size. Out: its right end.
double draw_scale_bar(geometry::Group& into, geometry::Vec2 at, double mm_per_m, bool feet,
                      double most_mm, double type_mm = geometry::ScaleBarShape{}.type_mm);

}  // namespace spadework::light
