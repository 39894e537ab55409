#include "climate/month_maker.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "climate/confidence.h"

namespace spadework::climate {
namespace {

constexpr double kOverClear = 1.1;  // clear months of high and dry places are over FAO's clear sky
constexpr double kOverDay_h = 0.5;
constexpr double kMisfit = 2;
constexpr double kNear_km = 25;  // a file measured nearer is surer in proportion

std::optional<double> value(const std::optional<Given>& given) {
  return given ? std::optional<double>(given->value) : std::nullopt;
}

/// The first of the document, the file and the stations that knows the figure.
struct Pick {
  std::optional<double> value;
  Origin origin = Origin::kUnknown;
};

class Maker {
 public:
  Maker(PlaceClimate& out, unsigned month)
      : out_(out), m_(month - 1), own_(out.own.months[m_]), month_(out.months[m_]) {
    month_.sky = sky_of_month(out.place.latitude, month);
  }

  void make() {
    temperatures();
    rain();
    sun();
    humidity();
  }

 private:
  [[nodiscard]] std::optional<double> in_file(DayFigure figure) const {
    return out_.file ? out_.file->months[m_].of(figure) : std::nullopt;
  }
  [[nodiscard]] std::optional<double> around(Element element) const {
    const Blend* blend = out_.blend_of(element);
    return blend == nullptr ? std::nullopt : std::optional<double>(blend->value[m_]);
  }
  static Pick first(std::optional<double> own, std::optional<double> file,
                    std::optional<double> stations) {
    if (own) return {own, Origin::kOwnMonth};
    if (file) return {file, Origin::kWeatherFile};
    if (stations) return {stations, Origin::kStations};
    return {};
  }
  void came_by(Quantity quantity, Origin origin) {
    month_.origin[static_cast<std::size_t>(quantity)] = origin;
  }
  /// The error of a table at the stations of a blend; nothing where they are too far to say.
  [[nodiscard]] std::optional<double> error_around(const ErrorTable& table, Element element) const {
    const Blend* blend = out_.blend_of(element);
    return blend == nullptr ? 0 : tried_error_at(table, blend->far_km, blend->height_m);
  }
  /// The same for the weather file: none if it was measured in the garden.
  [[nodiscard]] std::optional<double> error_of_file(const ErrorTable& table) const {
    const double height_m = in_metres(out_.file->height_above.value_or(Length()));
    const auto error = tried_error_at(table, out_.file->far_km, height_m);
    if (!error) return error;
    return *error * std::min(1.0, out_.file->far_km / kNear_km);
  }

  void temperatures() {
    const Pick high = first(value(own_.tmax_c), in_file(DayFigure::kTmax), around(Element::kTmax));
    const Pick low = first(value(own_.tmin_c), in_file(DayFigure::kTmin), around(Element::kTmin));
    if (high.value) month_.tmax = celsius(*high.value);
    if (low.value) month_.tmin = celsius(*low.value);
    came_by(Quantity::kTmax, high.origin);
    came_by(Quantity::kTmin, low.origin);
    for (const auto& [origin, element] :
         {std::pair(high.origin, Element::kTmax), std::pair(low.origin, Element::kTmin)}) {
      std::optional<double> error = 0;
      if (origin == Origin::kStations) error = error_around(temperature_errors(), element);
      if (origin == Origin::kWeatherFile) error = error_of_file(temperature_errors());
      auto& worst = month_.plus_minus.temperature_k;
      worst = worst && error ? std::optional(std::max(*worst, *error)) : std::nullopt;
    }
  }

  void rain() {
    const Pick rain = first(value(own_.rain_mm), in_file(DayFigure::kRain), around(Element::kRain));
    const auto wet_in_file = out_.file ? out_.file->months[m_].wet_days : std::nullopt;
    const Pick wet = first(value(own_.rain_days), wet_in_file, around(Element::kWetDays));
    month_.rain_mm = rain.value;
    month_.wet_days = wet.value;
    came_by(Quantity::kRain, rain.origin);
    came_by(Quantity::kWetDays, wet.origin);
  }

  void humidity() {
    came_by(Quantity::kVapourPressure, Origin::kUnknown);
    if (own_.humidity_share && month_.tmax && month_.tmin) {
      month_.vapour_pressure_hpa = 10 * own_.humidity_share->value *
                                   (saturation_kpa(*month_.tmax) + saturation_kpa(*month_.tmin)) /
                                   2;  // Eq. 19
      came_by(Quantity::kVapourPressure, Origin::kOwnMonth);
    } else if (const auto blended = around(Element::kVapourPressure)) {
      month_.vapour_pressure_hpa = blended;
      came_by(Quantity::kVapourPressure, Origin::kStations);
    }
  }

  void sun() {
    const auto own_global = value(own_.radiation_mj_m2_per_day);
    const auto own_sunshine = value(own_.sunshine_h_per_day);
    if (own_global || own_sunshine) {
      sun_given(own_sunshine, own_global, Origin::kOwnMonth, 0);
    } else if (in_file(DayFigure::kSunshine) || in_file(DayFigure::kGlobal)) {
      sun_given(in_file(DayFigure::kSunshine), in_file(DayFigure::kGlobal), Origin::kWeatherFile,
                error_of_file(sunshine_errors()));
      month_.diffuse_mj_m2_d = in_file(DayFigure::kDiffuse);
      if (month_.diffuse_mj_m2_d) came_by(Quantity::kDiffuse, Origin::kWeatherFile);
    } else {
      sun_estimated();
    }
  }

  /// In: sunshine or radiation or both; their own error as a share of the day's length.
  void sun_given(std::optional<double> sunshine, std::optional<double> global, Origin origin,
                 std::optional<double> error_share) {
    const Sky& sky = month_.sky;
    doubt(sunshine, global, origin);
    month_.sunshine_given = sunshine.has_value();
    month_.global_given = global.has_value();
    month_.sunshine_h_per_day =
        sunshine ? std::min(*sunshine, sky.day_length_h) : sunshine_from_radiation(*global, sky);
    month_.global_mj_m2_d = global ? *global : radiation_from_sunshine(*sunshine, sky);
    if (const double most = kOverClear * clear_sky(); month_.global_mj_m2_d > most)
      month_.global_mj_m2_d = most;
    came_by(Quantity::kSunshine, origin);
    came_by(Quantity::kGlobal, origin);
    set_errors(error_share, !sunshine, !global);
  }

  [[nodiscard]] double clear_sky() const {
    return clear_sky_radiation(out_.place.elevation, month_.sky);
  }

  /// Tells figures that no sky over the garden gives, and what is taken for them.
  void doubt(std::optional<double> sunshine, std::optional<double> global, Origin origin) {
    const Sky& sky = month_.sky;
    const std::string whose = origin == Origin::kOwnMonth ? "Your own months" : out_.file->name;
    const std::string_view month = month_name(static_cast<unsigned>(m_) + 1);
    const bool too_sunny = sunshine && *sunshine > sky.day_length_h + kOverDay_h;
    const bool too_bright = global && *global > kOverClear * clear_sky();
    if (too_sunny)
      tell({origin,
            fmt::format("{}: {:.1f} h of sun a day in {}, where the day is {:.1f} h long. That is "
                        "taken.",
                        whose, *sunshine, month, sky.day_length_h),
            "sun", *sunshine, sky.day_length_h, "h a day"});
    if (too_bright)
      tell({origin,
            fmt::format("{}: {:.1f} MJ/m² a day in {}, where a clear sky gives {:.1f}. {:.1f} is "
                        "taken.",
                        whose, *global, month, clear_sky(), kOverClear * clear_sky()),
            "radiation", *global, kOverClear * clear_sky(), "MJ/m² a day"});
    if (too_sunny || too_bright || !sunshine || !global) return;
    const double expected = radiation_from_sunshine(*sunshine, sky);
    if (expected > 1 && (*global < expected / kMisfit || *global > expected * kMisfit))
      tell({origin,
            fmt::format("{}: {:.1f} h of sun and {:.1f} MJ/m² a day in {} do not fit; with that "
                        "sun about {:.1f} is usual. Both are taken as given.",
                        whose, *sunshine, *global, month, expected),
            "radiation", *global, *global, "MJ/m² a day"});
  }
  void tell(CannotBe figure) {
    const auto same = [&](const CannotBe& told) { return told.origin == Origin::kWeatherFile; };
    if (figure.origin == Origin::kWeatherFile &&
        std::any_of(out_.cannot_be.begin(), out_.cannot_be.end(), same))
      return;
    out_.cannot_be.push_back(std::move(figure));
  }

  /// From the stations' sunshine, from the swing of temperature, or from both.
  void sun_estimated() {
    const Sky& sky = month_.sky;
    const double swing_h = sunshine_from_radiation(
        radiation_from_swing(*month_.tmax, *month_.tmin, kInlandSwing, out_.place.elevation, sky),
        sky);
    const double share = out_.swing_share;
    month_.sunshine_h_per_day =
        (1 - share) * around(Element::kSunshine).value_or(0) + share * swing_h;
    month_.global_mj_m2_d = radiation_from_sunshine(month_.sunshine_h_per_day, sky);
    const Origin origin = share > 0.5 ? Origin::kSwing : Origin::kStations;
    came_by(Quantity::kSunshine, origin);
    came_by(Quantity::kGlobal, origin);
    set_errors(estimate_error(share), false, true);
  }

  /// Of sunshine from stations and the swing, as a share of the day's length.
  [[nodiscard]] std::optional<double> estimate_error(double swing_share) const {
    const auto stations = error_around(sunshine_errors(), Element::kSunshine);
    // The swing of temperatures that come from too far is no better known than they are.
    const bool swing = swing_share <= 0 || month_.plus_minus.temperature_k.has_value();
    if (!stations || !swing) return std::nullopt;
    return sunshine_error(swing_share, *stations);
  }

  /// In: the error of sunshine as a share of the day's length, and which of the two figures has
  /// that of Ångström's equation besides, being made of the other.
  void set_errors(std::optional<double> error_share, bool sunshine_made, bool global_made) {
    const Sky& sky = month_.sky;
    const double equation = kEquationError / kBeamShare;
    month_.plus_minus.sunshine_h = month_.plus_minus.global_share = std::nullopt;
    if (!error_share) return;
    month_.plus_minus.sunshine_h =
        std::hypot(*error_share, sunshine_made ? equation : 0) * sky.day_length_h;
    month_.plus_minus.global_share = 0;
    if (month_.global_mj_m2_d > 0)
      month_.plus_minus.global_share = kBeamShare *
                                       std::hypot(*error_share, global_made ? equation : 0) *
                                       sky.extraterrestrial_mj_m2_d / month_.global_mj_m2_d;
  }

  PlaceClimate& out_;
  std::size_t m_;
  const OwnMonth& own_;
  Month& month_;
};

}  // namespace

void make_months(PlaceClimate& out) {
  const Blend* sunshine = out.blend_of(Element::kSunshine);
  out.swing_share =
      sunshine == nullptr
          ? 1
          : swing_share(error_at(sunshine_errors(), sunshine->far_km, sunshine->height_m));
  double sum = 0, errors = 0;
  bool known = true;
  for (unsigned month = 1; month <= 12; ++month) {
    Maker(out, month).make();
    const Month& made = out.months[month - 1];
    const double energy = made.global_mj_m2_d * days_in_month(kReferenceYear, month);
    sum += energy;
    known = known && made.plus_minus.global_share;
    errors += energy * made.plus_minus.global_share.value_or(0);
  }
  out.year_global_mj_m2 = sum;
  out.year_global_share.reset();
  if (known) out.year_global_share = sum > 0 ? errors / sum : 0;
}

}  // namespace spadework::climate
