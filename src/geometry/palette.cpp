#include "geometry/palette.h"

#include <algorithm>
#include <cmath>
#include <span>

namespace spadework::geometry {

namespace {

double linear_from_srgb(std::uint8_t channel) {
  const double c = channel / 255.0;
  return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

std::uint8_t srgb_from_linear(double linear) {
  const double v = std::clamp(linear, 0.0, 1.0);
  const double c = v <= 0.0031308 ? v * 12.92 : 1.055 * std::pow(v, 1 / 2.4) - 0.055;
  return static_cast<std::uint8_t>(std::lround(c * 255));
}

// `place` counts knots from 0.
Colour along_ramp(std::span<const Colour> ramp, double place) {
  const double last = static_cast<double>(ramp.size() - 1);
  const double clamped = std::isnan(place) ? 0 : std::clamp(place, 0.0, last);
  const auto below = std::min(static_cast<std::size_t>(clamped), ramp.size() - 2);
  return mixed(ramp[below], ramp[below + 1], clamped - static_cast<double>(below));
}

double cubed(double v) { return v * v * v; }

}  // namespace

// [oklab] linear sRGB to Oklab, the matrices of 2021-01-25
Oklab to_oklab(Colour colour) {
  const double r = linear_from_srgb(colour.r), g = linear_from_srgb(colour.g),
               b = linear_from_srgb(colour.b);
  const double l = std::cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const double m = std::cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const double s = std::cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return {0.2104542553 * l + 0.7936177850 * m - 0.0040720468 * s,
          1.9779984951 * l - 2.4285922050 * m + 0.4505937099 * s,
          0.0259040371 * l + 0.7827717662 * m - 0.8086757660 * s};
}

Colour from_oklab(const Oklab& lab) {
  const double l = cubed(lab.l + 0.3963377774 * lab.a + 0.2158037573 * lab.b);
  const double m = cubed(lab.l - 0.1055613458 * lab.a - 0.0638541728 * lab.b);
  const double s = cubed(lab.l - 0.0894841775 * lab.a - 1.2914855480 * lab.b);
  return {srgb_from_linear(4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s),
          srgb_from_linear(-1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s),
          srgb_from_linear(-0.0041960863 * l - 0.7034186147 * m + 1.7076147010 * s)};
}

Colour colour_of(Role role) {
  switch (role) {
    case Role::kPaper:
      return colour_from_hex(0xf6f1e6);
    case Role::kInk:
      return colour_from_hex(0x221e19);
    case Role::kGraphite:
      return colour_from_hex(0x5f574c);
    case Role::kRedChalk:
      return colour_from_hex(0xb5371b);
    case Role::kFocus:
      return colour_from_hex(0x1d4f91);
    case Role::kNight:
      return colour_from_hex(0xd9d4cb);
    case Role::kSunlit:
      return colour_from_hex(0xfff6ae);
    case Role::kSkyline:
      return colour_from_hex(0x9a948a);
  }
  return {};
}

Colour colour_of(const Paint& paint) {
  if (const Role* role = std::get_if<Role>(&paint.what)) return colour_of(*role);
  return std::get<Colour>(paint.what);
}

Colour mixed(Colour from, Colour to, double share) {
  if (!(share > 0)) return from;
  if (share >= 1) return to;
  const Oklab a = to_oklab(from), b = to_oklab(to);
  const auto part = [share](double x, double y) { return x + (y - x) * share; };
  return from_oklab({part(a.l, b.l), part(a.a, b.a), part(a.b, b.b)});
}

Colour light_colour(double hours) { return along_ramp(kLightRamp, hours / 2); }

Colour water_colour(double share) { return along_ramp(kWaterRamp, share * 4); }

std::vector<double> dash_pattern_mm(Dash dash) {
  switch (dash) {
    case Dash::kSolid:
      return {};
    case Dash::kDotted:
      return {0, 0.75};
    case Dash::kRemoved:
      return {1.0, 0.7};
    case Dash::kProposed:
      return {4.0, 0.9};
    case Dash::kContour:
      return {3.0, 1.5};
    case Dash::kContourGuessed:
      return {0.5, 1.5};
    case Dash::kChain:
      return {4.0, 0.85, 0.01, 0.85};  // a length of 0 here is not drawn by cairo
    case Dash::kSight:
      return {1.6, 1.2};
  }
  return {};
}

bool has_round_dots(Dash dash) { return dash == Dash::kDotted || dash == Dash::kChain; }

}  // namespace spadework::geometry
