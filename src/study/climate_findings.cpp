#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "climate/confidence.h"
#include "study/study.h"

namespace spadework::study {
namespace {

using climate::Element;
using climate::Origin;
using climate::Quantity;
using garden::Finding;
using garden::Grade;

constexpr double kFar_km = 100;          // farther than that temperatures widen
constexpr double kFarSunshine_km = 200;  // sunshine changes slower from place to place
constexpr double kBeside_km = 25;
constexpr double kHigh_m = 100;

Trace number(std::string name, double value, std::string unit, int digits) {
  Trace trace;
  trace.name = std::move(name);
  trace.number = value;
  trace.has_number = true;
  trace.value = fmt::format("{:.{}f} {}", value, digits, unit);
  trace.unit = std::move(unit);
  return trace;
}

Finding finding(Grade grade, std::string says, std::string mend) {
  Finding out;
  out.grade = grade;
  out.about = {"climate"};
  out.says = std::move(says);
  out.mend = {std::move(mend)};
  return out;
}

bool any_month(const climate::PlaceClimate& climate, Quantity quantity, Origin a, Origin b) {
  return std::any_of(climate.months.begin(), climate.months.end(), [&](const auto& month) {
    const Origin origin = month.origin_of(quantity);
    return origin == a || origin == b;
  });
}

std::string away(const climate::StationUse& station) {
  const double height_m = in_metres(station.height_above);
  std::string out = fmt::format("{} ({}), is {:.0f} km away", station.name, station.country,
                                in_metres(station.distance) / 1000);
  if (std::abs(height_m) >= kHigh_m)
    out += fmt::format(" and {:.0f} m {}", std::abs(height_m), height_m > 0 ? "higher" : "lower");
  return out;
}

void add_station(const climate::StationUse& station, Finding& out) {
  out.numbers.push_back(
      number("how far " + station.name + " is", in_metres(station.distance) / 1000, "km", 0));
  out.numbers.push_back(
      number("how much higher " + station.name + " lies", in_metres(station.height_above), "m", 0));
  out.sources = {"stations", station.source};
}

constexpr const char* kNearer =
    "Give the months that you know in [[climate.month]], or the weather file of a place nearer by "
    "as climate.weather_file.";

void find_far_temperature(const climate::PlaceClimate& climate, std::vector<Finding>& out) {
  const climate::Blend* blend = climate.blend_of(Element::kTmax);
  if (blend == nullptr || blend->far_km <= kFar_km ||
      !any_month(climate, Quantity::kTmax, Origin::kStations, Origin::kStations))
    return;
  const auto& errors = climate::temperature_errors();
  const double here = climate::error_at(errors, blend->far_km, blend->height_m);
  const double beside = climate::error_at(errors, kBeside_km, 0);
  out.push_back(finding(
      Grade::kNote,
      fmt::format("The nearest weather station that counts, {}: temperatures here are sure to "
                  "±{:.1f} °C; beside a station they would be to ±{:.1f} °C.",
                  away(blend->stations.front()), here, beside),
      kNearer));
  add_station(blend->stations.front(), out.back());
  out.back().numbers.push_back(number("temperatures, plus or minus", here, "°C", 1));
}

void find_far_sunshine(const climate::PlaceClimate& climate, std::vector<Finding>& out) {
  if (!any_month(climate, Quantity::kSunshine, Origin::kStations, Origin::kSwing)) return;
  const climate::Blend* blend = climate.blend_of(Element::kSunshine);
  if (blend != nullptr && blend->far_km <= kFarSunshine_km) return;
  std::string says = "No weather station reports sunshine.";
  if (blend != nullptr)
    says = fmt::format("The nearest station that reports sunshine, {}.",
                       away(blend->stations.front()));
  if (climate.swing_share > 0)
    says += fmt::format(
        " The swing of temperature between night and day has a say of {:.0f} % in sunshine and "
        "light.",
        100 * climate.swing_share);
  says += fmt::format(" The year’s light is sure to ±{:.0f} %.", 100 * climate.year_global_share);
  out.push_back(finding(Grade::kNote, std::move(says), kNearer));
  if (blend != nullptr) add_station(blend->stations.front(), out.back());
  out.back().numbers.push_back(
      number("the year’s light, plus or minus", 100 * climate.year_global_share, "%", 0));
}

/// Figures of two origins need not fit.
void find_crossed(const climate::PlaceClimate& climate, std::vector<Finding>& out) {
  for (unsigned m = 1; m <= 12; ++m) {
    const climate::Month& month = climate.months[m - 1];
    if (!month.tmax || !month.tmin || *month.tmin <= *month.tmax) continue;
    out.push_back(finding(
        Grade::kShould,
        fmt::format("In {} the nights’ lowest ({:.1f} °C) is above the days’ highest ({:.1f} °C).",
                    month_name(m), in_celsius(*month.tmin), in_celsius(*month.tmax)),
        "Give both tmax_c and tmin_c of that month, from one and the same record."));
    out.back().numbers = {climate::trace_of(climate, m, Quantity::kTmax),
                          climate::trace_of(climate, m, Quantity::kTmin)};
  }
}

void find_doubts(const climate::PlaceClimate& climate, const std::vector<std::string>& doubts,
                 std::vector<Finding>& out) {
  if (!climate.file) return;
  const climate::FileUse& file = *climate.file;
  for (const std::string& doubt : doubts) {
    out.push_back(
        finding(Grade::kShould, doubt,
                fmt::format("See whether {} is the weather file that you mean.", file.name)));
    Finding& told = out.back();
    told.sources = {"fao56"};
    if (file.distance)
      told.numbers.push_back(
          number("how far it was measured", in_metres(*file.distance) / 1000, "km", 0));
    if (file.height_above)
      told.numbers.push_back(
          number("how much higher it was measured", in_metres(*file.height_above), "m", 0));
    for (Trace& trace : told.numbers) trace.where = file.name;
  }
}

}  // namespace

std::vector<Finding> climate_findings(const climate::PlaceClimate& climate,
                                      const std::vector<std::string>& doubts) {
  std::vector<Finding> out;
  find_doubts(climate, doubts, out);
  find_crossed(climate, out);
  find_far_temperature(climate, out);
  find_far_sunshine(climate, out);
  return out;
}

}  // namespace spadework::study
