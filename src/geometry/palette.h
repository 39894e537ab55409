// The colours, line weights, dashes and type sizes of every drawing, once. A drawing names what a
// line means; what that looks like is decided here.
#pragma once

#include <array>
#include <cstdint>
#include <string_view>
#include <variant>
#include <vector>

namespace spadework::geometry {

struct Colour {
  std::uint8_t r = 0, g = 0, b = 0;
  friend constexpr bool operator==(Colour, Colour) = default;
};
/// 0xrrggbb.
constexpr Colour colour_from_hex(std::uint32_t hex) {
  return {static_cast<std::uint8_t>(hex >> 16), static_cast<std::uint8_t>(hex >> 8),
          static_cast<std::uint8_t>(hex)};
}

/// What a colour says. Red chalk says "proposed" and nothing else; focus says "selected".
enum class Role { kPaper, kInk, kGraphite, kRedChalk, kFocus, kNight, kSunlit, kSkyline };
[[nodiscard]] Colour colour_of(Role role);

/// A colour by its role, or one of the ramps below, more or less see-through (opacity 0 to 1).
struct Paint {
  std::variant<Role, Colour> what = Role::kInk;
  double opacity = 1;
  Paint() = default;
  Paint(Role role, double seen = 1) : what(role), opacity(seen) {}  // NOLINT: a role is a paint
  Paint(Colour colour, double seen = 1) : what(colour), opacity(seen) {}  // NOLINT
};
[[nodiscard]] Colour colour_of(const Paint& paint);
/// The same paint, more or less see-through.
[[nodiscard]] inline Paint seen(Paint paint, double opacity) {
  paint.opacity *= opacity;
  return paint;
}

/// A colour in Oklab: lightness, green to red, blue to yellow. Source: [oklab]
struct Oklab {
  double l = 0, a = 0, b = 0;
};
[[nodiscard]] Oklab to_oklab(Colour colour);
[[nodiscard]] Colour from_oklab(const Oklab& lab);
/// Part way from one colour to another (share 0 to 1, clamped), straight through Oklab, in which
/// equal steps look equal. Source: [oklab]
[[nodiscard]] Colour mixed(Colour from, Colour to, double share);

/// Light: hours of sun a day. The ramp is absolute and never stretched to the data: a colour means
/// the same hours on every drawing. Between the knots straight through Oklab; below 0 and above 10
/// the end colours; what is no number is shown as 0.
inline constexpr std::array<double, 6> kLightKnots_h{0, 2, 4, 6, 8, 10};
inline constexpr std::array<Colour, 6> kLightRamp{
    colour_from_hex(0x63698f), colour_from_hex(0x85839c), colour_from_hex(0xa79da7),
    colour_from_hex(0xbeb0a4), colour_from_hex(0xdccca3), colour_from_hex(0xfff6ae)};
[[nodiscard]] Colour light_colour(double hours);

/// Water in the soil, parched to waterlogged: share 0 to 1 along the ramp, through Oklab.
inline constexpr std::array<Colour, 5> kWaterRamp{
    colour_from_hex(0xfed6ad), colour_from_hex(0xcad2bd), colour_from_hex(0x93bfc0),
    colour_from_hex(0x6197b2), colour_from_hex(0x3b6c9d)};
[[nodiscard]] Colour water_colour(double share);

/// Takers: an ink belongs to a thing everywhere. The first five have one; further ones are drawn in
/// dotted graphite and the skyline in its grey.
inline constexpr std::array<Colour, 5> kTakerInks{
    colour_from_hex(0x8e894e), colour_from_hex(0x68154d), colour_from_hex(0x6769bf),
    colour_from_hex(0x3c8f8c), colour_from_hex(0x835d63)};

/// Line weights on paper, millimetres.
inline constexpr double kFineMm = 0.18, kMediumMm = 0.35, kHeavyMm = 0.5;

/// How a line is broken; in print dashes say what colour says on the screen. Contours are dashed
/// 6-3 and 1-3 in half millimetres.
enum class Dash {
  kSolid,
  kDotted,    // guessed: round dots
  kRemoved,   // to be taken away: short dashes
  kProposed,  // to be made: long dashes
  kContour,
  kContourGuessed,
  kChain,  // long, dot: centre lines, the line of a support
  kSight,  // what is seen from a place: open dashes
};
/// Alternating drawn lengths and gaps, millimetres; empty when solid. A drawn length of 0 is a dot.
[[nodiscard]] std::vector<double> dash_pattern_mm(Dash dash);
/// True for patterns of dots, which are drawn with round ends.
[[nodiscard]] bool has_round_dots(Dash dash);

/// Type sizes on paper, millimetres to the em: on the screen 13, 15, 17, 21, 24 and 28 px.
inline constexpr double kLabelTypeMm = 2.5, kTableTypeMm = 2.9, kTextTypeMm = 3.3,
                        kHeadingTypeMm = 4.1, kFigureTypeMm = 4.7, kTitleTypeMm = 5.5;
/// From one line of type to the next, over its size.
inline constexpr double kLeading = 1.4;

}  // namespace spadework::geometry
