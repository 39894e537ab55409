// Strong quantities: a number with its dimension in the type, so that metres and degrees do not
// mix. Convert once, at the edge; inside hot loops use plain doubles with the unit in the name.
#pragma once

#include <compare>
#include <numbers>

namespace spadework {

template <class Dimension>
class Quantity {
 public:
  constexpr Quantity() = default;
  constexpr explicit Quantity(double si) : si_(si) {}
  [[nodiscard]] constexpr double si() const { return si_; }

  friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity(a.si_ + b.si_); }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity(a.si_ - b.si_); }
  friend constexpr Quantity operator-(Quantity a) { return Quantity(-a.si_); }
  friend constexpr Quantity operator*(Quantity a, double k) { return Quantity(a.si_ * k); }
  friend constexpr Quantity operator*(double k, Quantity a) { return Quantity(a.si_ * k); }
  friend constexpr Quantity operator/(Quantity a, double k) { return Quantity(a.si_ / k); }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.si_ / b.si_; }
  friend constexpr auto operator<=>(Quantity a, Quantity b) = default;

 private:
  double si_ = 0;
};

using Length = Quantity<struct LengthDimension>;                      // metres
using Area = Quantity<struct AreaDimension>;                          // square metres
using Volume = Quantity<struct VolumeDimension>;                      // cubic metres
using Mass = Quantity<struct MassDimension>;                          // kilograms
using Angle = Quantity<struct AngleDimension>;                        // radians
using Irradiance = Quantity<struct IrradianceDimension>;              // watts per square metre
using Pressure = Quantity<struct PressureDimension>;                  // pascals
using TemperatureDelta = Quantity<struct TemperatureDeltaDimension>;  // kelvins

constexpr Length metres(double v) { return Length(v); }
constexpr Length millimetres(double v) { return Length(v / 1000); }
constexpr double in_metres(Length v) { return v.si(); }
constexpr double in_millimetres(Length v) { return v.si() * 1000; }

constexpr Area square_metres(double v) { return Area(v); }
constexpr double in_square_metres(Area v) { return v.si(); }
constexpr Area operator*(Length a, Length b) { return Area(a.si() * b.si()); }

constexpr Volume cubic_metres(double v) { return Volume(v); }
constexpr Volume litres(double v) { return Volume(v / 1000); }
constexpr double in_cubic_metres(Volume v) { return v.si(); }
constexpr double in_litres(Volume v) { return v.si() * 1000; }

constexpr Mass kilograms(double v) { return Mass(v); }
constexpr double in_kilograms(Mass v) { return v.si(); }

constexpr Angle radians(double v) { return Angle(v); }
constexpr Angle degrees(double v) { return Angle(v * std::numbers::pi / 180); }
constexpr double in_radians(Angle v) { return v.si(); }
constexpr double in_degrees(Angle v) { return v.si() * 180 / std::numbers::pi; }

constexpr Irradiance watts_per_m2(double v) { return Irradiance(v); }
constexpr double in_watts_per_m2(Irradiance v) { return v.si(); }

constexpr Pressure pascals(double v) { return Pressure(v); }
constexpr double in_pascals(Pressure v) { return v.si(); }

constexpr TemperatureDelta kelvins(double v) { return TemperatureDelta(v); }
constexpr double in_kelvins(TemperatureDelta v) { return v.si(); }

/// A point on the Celsius scale: two of them differ by a TemperatureDelta and do not add.
class Temperature {
 public:
  constexpr Temperature() = default;
  [[nodiscard]] constexpr double celsius() const { return celsius_; }
  friend constexpr Temperature celsius(double v);
  friend constexpr TemperatureDelta operator-(Temperature a, Temperature b) {
    return TemperatureDelta(a.celsius_ - b.celsius_);
  }
  friend constexpr Temperature operator+(Temperature a, TemperatureDelta d);
  friend constexpr auto operator<=>(Temperature a, Temperature b) = default;

 private:
  double celsius_ = 0;
};
constexpr Temperature celsius(double v) {
  Temperature t;
  t.celsius_ = v;
  return t;
}
constexpr Temperature operator+(Temperature a, TemperatureDelta d) {
  return celsius(a.celsius_ + d.si());
}
constexpr double in_celsius(Temperature t) { return t.celsius(); }

}  // namespace spadework
