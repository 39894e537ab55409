// What is wanting, far or assumed, in plain sentences.
#include <fmt/format.h>

#include <cmath>

#include "climate/confidence.h"
#include "climate/month_maker.h"

namespace spadework::climate {
namespace {

constexpr double kFar_km = 100;          // farther than that the figures widen
constexpr double kFarSunshine_km = 200;  // sunshine changes slower from place to place
constexpr double kBeside_km = 25;
constexpr double kHigh_m = 100;

std::string away(Length distance, Length height_above) {
  const double height_m = in_metres(height_above);
  std::string out = fmt::format("{:.0f} km away", in_metres(distance) / 1000);
  if (std::abs(height_m) >= kHigh_m)
    out += fmt::format(" and {:.0f} m {}", std::abs(height_m), height_m > 0 ? "higher" : "lower");
  return out;
}

std::string nearest_says(const Blend& blend) {
  const StationUse& use = blend.stations.front();
  return fmt::format("{} ({}), {}", use.name, use.country, away(use.distance, use.height_above));
}

void note_elevation(PlaceClimate& out) {
  if (out.elevation_given) return;
  out.notes.push_back(fmt::format(
      "The garden's height above the sea is not given: {:.0f} m is taken, as of the stations "
      "around. Give garden.elevation_m for surer temperatures.",
      in_metres(out.place.elevation)));
}

void note_far_temperature(PlaceClimate& out) {
  const Blend* blend = out.blend_of(Element::kTmax);
  if (blend == nullptr || blend->far_km <= kFar_km) return;
  const auto error = [](double far_km, double height_m) {
    return error_at(temperature_errors(), far_km, height_m);
  };
  out.notes.push_back(fmt::format(
      "The nearest weather station that counts is {}: temperatures here are sure to ±{:.1f} K, "
      "beside a station they would be to ±{:.1f} K.",
      nearest_says(*blend), error(blend->far_km, blend->height_m), error(kBeside_km, 0)));
}

void note_far_sunshine(PlaceClimate& out) {
  const Blend* blend = out.blend_of(Element::kSunshine);
  bool wanted = false;
  for (const Month& month : out.months) {
    const Origin origin = month.origin_of(Quantity::kSunshine);
    wanted = wanted || origin == Origin::kStations || origin == Origin::kSwing;
  }
  if (!wanted) return;
  if (blend == nullptr) {
    out.notes.push_back(
        "No station reports sunshine: sunshine and radiation come from the swing of temperature "
        "between night and day.");
    return;
  }
  if (blend->far_km <= kFarSunshine_km) return;
  const double near = error_at(sunshine_errors(), kBeside_km, 0);
  const double here =
      sunshine_error(out.swing_share, error_at(sunshine_errors(), blend->far_km, blend->height_m));
  std::string says =
      fmt::format("The nearest station that reports sunshine is {}. ", nearest_says(*blend));
  if (out.swing_share > 0)
    says += fmt::format(
        "So the swing of temperature between night and day has a say of {:.0f} % in sunshine and "
        "radiation. ",
        100 * out.swing_share);
  says += fmt::format(
      "Sunshine here is sure to ±{:.1f} h of a day of 12 hours, beside a station it would be to "
      "±{:.1f} h.",
      12 * here, 12 * near);
  out.notes.push_back(std::move(says));
}

void note_named(PlaceClimate& out) {
  if (!out.named_id) return;
  std::vector<std::string> wanting;
  for (const Blend& blend : out.blends) {
    if (blend.stations.size() != 1 || blend.stations.front().id != *out.named_id)
      wanting.emplace_back(element_says(blend.element));
  }
  if (wanting.empty()) return;
  out.notes.push_back(
      fmt::format("Station {} does not report {} in every month: the stations around stand in.",
                  *out.named_id, list_words(wanting)));
}

void note_no_file(PlaceClimate& out) {
  if (out.file || out.own.weather_file.empty()) return;
  out.notes.push_back(
      fmt::format("{} was not read: the stations around stand in for it.", out.own.weather_file));
}

/// Figures of two origins need not fit.
void note_crossed(PlaceClimate& out) {
  for (unsigned m = 1; m <= 12; ++m) {
    const Month& month = out.months[m - 1];
    if (!month.tmax || !month.tmin || *month.tmin <= *month.tmax) continue;
    out.notes.push_back(
        fmt::format("In {} the nights' lowest ({:.1f} °C) is above the days' highest ({:.1f} °C): "
                    "give both tmax_c and tmin_c.",
                    month_name(m), in_celsius(*month.tmin), in_celsius(*month.tmax)));
  }
}

void note_file(PlaceClimate& out, const std::vector<std::string>& wanting) {
  const FileUse& file = *out.file;
  if (!wanting.empty())
    out.notes.push_back(
        fmt::format("{} has no whole month of {}: that comes from the stations around where the "
                    "document does not give it.",
                    file.name, list_words(wanting)));
  const double height_m = in_metres(file.height_above.value_or(Length()));
  if (file.distance && (in_metres(*file.distance) / 1000 > kBeside_km ||
                        (out.elevation_given && std::abs(height_m) >= kHigh_m)))
    out.notes.push_back(
        fmt::format("{} was measured {}. Its figures are taken as they are.", file.name,
                    away(*file.distance, out.elevation_given ? *file.height_above : Length())));
}

std::vector<std::string> wanting_in(const FileUse& file) {
  const auto never = [&](DayFigure figure) {
    for (const FileMonth& month : file.months) {
      if (month.of(figure)) return false;
    }
    return true;
  };
  std::vector<std::string> out;
  if (never(DayFigure::kTmax) || never(DayFigure::kTmin)) out.emplace_back("temperature");
  if (never(DayFigure::kRain)) out.emplace_back("rain");
  if (never(DayFigure::kSunshine) && never(DayFigure::kGlobal))
    out.emplace_back("sunshine or radiation");
  return out;
}

}  // namespace

void add_notes(PlaceClimate& out) {
  note_elevation(out);
  note_named(out);
  note_no_file(out);
  note_crossed(out);
  if (out.file) note_file(out, wanting_in(*out.file));
  note_far_temperature(out);
  note_far_sunshine(out);
}

}  // namespace spadework::climate
