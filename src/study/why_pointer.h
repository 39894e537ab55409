// What a pointer to a figure names. For the study room alone.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/base.h"
#include "geometry/vec.h"

namespace spadework::study {

struct Pointer {
  enum class About { kLight, kClimate };
  About about = About::kLight;
  std::string text;
  std::optional<LocalDate> day;  // `/light/day/2026-06-21/…`: figures of that day, not of months
  std::string place;             // `…/places/ID`: an id or a number from 0
  struct Spot {
    geometry::Vec2 at;
    Length above;
  };
  std::optional<Spot> spot;       // `…/at/X,Y` or `…/at/X,Y,Z`
  std::vector<std::string> rest;  // the steps after that; of the climate, after `/climate`
};

/// A JSON pointer in its steps. Errors: kWrongUse for one that cannot name a figure.
[[nodiscard]] Result<Pointer> read_pointer(const std::string& text);

/// The number that a step is, or nothing.
[[nodiscard]] std::optional<std::size_t> index_of(const std::string& text);
/// A month by its number from 0 or its name.
[[nodiscard]] std::optional<std::size_t> month_of(const std::string& text);

[[nodiscard]] tl::unexpected<Error> bad_pointer(const std::string& pointer, std::string hint);

}  // namespace spadework::study
