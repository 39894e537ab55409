#include "sheets/signs.h"

#include <cmath>
#include <numbers>

namespace spadework::sheets {

using geometry::Face;
using geometry::Path;
using geometry::Vec2;
using geometry::Weight;

namespace {

constexpr double kSideEm = 0.06;  // clear on both sides of a sign

// Height of − over the foot of the letters, and its weight, from the faces.
double axis_em(Face face) { return face == Face::kSans ? 0.248 : 0.262; }
double pen_em(Face face, Weight weight) {
  if (face == Face::kSans) return weight == Weight::kSemiBold ? 0.105 : 0.078;
  return weight == Weight::kSemiBold ? 0.066 : 0.054;
}

// An arrow of 0.72 em about its middle, turned anticlockwise from pointing right.
Sign arrow(double turn_deg, double axis, double pen) {
  const double turn = turn_deg * std::numbers::pi / 180;
  const bool upright = std::abs(std::sin(turn)) > 0.9, level = std::abs(std::cos(turn)) > 0.9;
  const double half = upright || level ? 0.36 : 0.31, barb = 0.24;
  const double width = upright ? 2 * 0.19 : level ? 2 * half : 2 * half * std::numbers::sqrt2 / 2;
  const Vec2 middle{kSideEm + width / 2 + pen / 2, -(upright || !level ? 0.34 : axis)};
  const auto placed = [&](Vec2 p) {
    const Vec2 t = geometry::turned(p, turn);
    return Vec2{middle.x + t.x, middle.y - t.y};
  };
  Sign sign;
  sign.advance_em = 2 * kSideEm + width + pen;
  sign.weight_em = pen;
  sign.strokes.move_to(placed({-half, 0})).line_to(placed({half - pen * 0.6, 0}));
  const double back = barb * std::cos(0.74), out = barb * std::sin(0.74);
  sign.strokes.move_to(placed({half - back, out}))
      .line_to(placed({half, 0}))
      .line_to(placed({half - back, -out}));
  return sign;
}

Sign about_equal(double axis, double pen) {
  Sign sign{0.60, pen, {}};
  for (const double y : {axis + 0.095, axis - 0.095}) {
    const double low = -(y - 0.045), high = -(y + 0.045);
    sign.strokes.move_to({0.07, low})
        .curve_to({0.13, high - 0.05}, {0.21, high - 0.02}, {0.30, -y})
        .curve_to({0.39, low + 0.02}, {0.47, low + 0.05}, {0.53, high});
  }
  return sign;
}

Sign less_or_equal(bool greater, double axis, double pen) {
  Sign sign{0.58, pen, {}};
  const double tip = greater ? 0.50 : 0.08, open = greater ? 0.08 : 0.50;
  sign.strokes.move_to({open, -(axis + 0.29)})
      .line_to({tip, -(axis + 0.08)})
      .line_to({open, -(axis - 0.13)});
  sign.strokes.move_to({0.08, -(axis - 0.25)}).line_to({0.50, -(axis - 0.25)});
  return sign;
}

Sign primes(int count, double pen) {
  Sign sign{0.10 + 0.14 * count, pen, {}};
  for (int i = 0; i < count; ++i)
    sign.strokes.move_to({0.07 + 0.14 * i, -0.45}).line_to({0.14 + 0.14 * i, -0.69});
  return sign;
}

}  // namespace

Sign foreign_letter(Face face, Weight weight) {
  Sign sign{0.62, pen_em(face, weight) * 0.7, {}};
  sign.strokes = Path::box({0.08, -0.62}, 0.46, 0.62);
  return sign;
}

std::optional<Sign> drawn_sign(char32_t letter, Face face, Weight weight) {
  const double axis = axis_em(face), pen = pen_em(face, weight);
  switch (letter) {
    case U'→':
      return arrow(0, axis, pen);
    case U'↗':
      return arrow(45, axis, pen);
    case U'↑':
      return arrow(90, axis, pen);
    case U'↖':
      return arrow(135, axis, pen);
    case U'←':
      return arrow(180, axis, pen);
    case U'↙':
      return arrow(225, axis, pen);
    case U'↓':
      return arrow(270, axis, pen);
    case U'↘':
      return arrow(315, axis, pen);
    case U'≈':
      return about_equal(axis, pen);
    case U'≤':
      return less_or_equal(false, axis, pen);
    case U'≥':
      return less_or_equal(true, axis, pen);
    case U'′':
      return primes(1, pen);
    case U'″':
      return primes(2, pen);
    default:
      return std::nullopt;
  }
}

}  // namespace spadework::sheets
