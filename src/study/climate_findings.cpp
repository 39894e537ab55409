#include <fmt/format.h>

#include <algorithm>

#include "climate/confidence.h"
#include "study/study.h"

namespace spadework::study {
namespace {

using climate::Element;
using climate::Origin;
using climate::Quantity;
using garden::Finding;
using garden::Grade;

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

/// Metric as a number, in the reader's units as words.
Trace far(std::string name, Length distance, Units units) {
  Trace trace = number(std::move(name), in_metres(distance) / 1000, "km", 0);
  trace.value = far_says(distance, units);
  return trace;
}

Trace higher(std::string name, Length by, Units units) {
  Trace trace = number(std::move(name), in_metres(by), "m", 0);
  trace.value = length_says(by, units);
  return trace;
}

void add_station(const climate::StationUse& station, Units units, Finding& out) {
  out.numbers.push_back(far("how far " + station.name + " is", station.distance, units));
  out.numbers.push_back(
      higher("how much higher " + station.name + " lies", station.height_above, units));
  out.sources = {"stations", station.source};
}

constexpr const char* kNearer =
    "Give the months that you know (climate.month), or the weather file of a place nearer by "
    "(climate.weather_file).";

void find_impossible(const climate::PlaceClimate& climate, std::vector<Finding>& out) {
  for (const climate::CannotBe& figure : climate.cannot_be) {
    const bool own = figure.origin == Origin::kOwnMonth;
    out.push_back(finding(own ? Grade::kMust : Grade::kShould, figure.says,
                          "Is it of another place, or in another unit? Radiation is in MJ/m² a "
                          "day: 1 kWh is 3.6 MJ."));
    out.back().numbers = {number(figure.name + " given", figure.given, figure.unit, 1),
                          number(figure.name + " taken", figure.taken, figure.unit, 1)};
    out.back().sources = {"fao56"};
  }
}

void find_far_temperature(const climate::PlaceClimate& climate, Units units,
                          std::vector<Finding>& out) {
  const climate::Blend* blend = climate.blend_of(Element::kTmax);
  if (blend == nullptr || blend->far_km <= climate::kFarForWarmth_km ||
      !any_month(climate, Quantity::kTmax, Origin::kStations, Origin::kStations))
    return;
  const auto& errors = climate::temperature_errors();
  const auto here = climate::tried_error_at(errors, blend->far_km, blend->height_m);
  const double beside = climate::error_at(errors, climate::kBeside_km, 0);
  std::string says = fmt::format("The nearest weather station that counts is {}: ",
                                 station_says(blend->stations.front(), units));
  if (here)
    says += fmt::format("temperatures here are sure to ±{}; beside a station they would be to ±{}.",
                        warmer_says(kelvins(*here), units), warmer_says(kelvins(beside), units));
  else
    says += "none is near enough to say how sure the temperatures here are.";
  out.push_back(finding(Grade::kNote, std::move(says), kNearer));
  add_station(blend->stations.front(), units, out.back());
  if (here) out.back().numbers.push_back(number("temperatures, plus or minus", *here, "°C", 1));
}

void find_far_sunshine(const climate::PlaceClimate& climate, Units units,
                       std::vector<Finding>& out) {
  if (!any_month(climate, Quantity::kSunshine, Origin::kStations, Origin::kSwing)) return;
  const climate::Blend* blend = climate.blend_of(Element::kSunshine);
  if (blend != nullptr && blend->far_km <= climate::kFarForSunshine_km) return;
  std::string says = "No weather station reports sunshine.";
  if (blend != nullptr)
    says = fmt::format("The nearest station that reports sunshine is {}.",
                       station_says(blend->stations.front(), units));
  if (climate.swing_share > 0)
    says += fmt::format(
        " The swing of temperature between night and day has a say of {:.0f} % in sunshine and "
        "light.",
        100 * climate.swing_share);
  if (climate.year_global_share)
    says +=
        fmt::format(" The year’s light is sure to ±{:.0f} %.", 100 * *climate.year_global_share);
  else
    says += " No station is near enough to say how sure the year’s light is.";
  out.push_back(finding(Grade::kNote, std::move(says), kNearer));
  if (blend != nullptr) add_station(blend->stations.front(), units, out.back());
  if (climate.year_global_share)
    out.back().numbers.push_back(
        number("the year’s light, plus or minus", 100 * *climate.year_global_share, "%", 0));
}

/// Figures of two origins need not fit.
void find_crossed(const climate::PlaceClimate& climate, Units units, std::vector<Finding>& out) {
  for (unsigned m = 1; m <= 12; ++m) {
    const climate::Month& month = climate.months[m - 1];
    if (!month.tmax || !month.tmin || *month.tmin <= *month.tmax) continue;
    out.push_back(finding(
        Grade::kShould,
        fmt::format("In {} the nights’ lowest ({}) is above the days’ highest ({}).", month_name(m),
                    warmth_says(*month.tmin, units), warmth_says(*month.tmax, units)),
        "Give both figures of that month, from one and the same record (climate.month)."));
    out.back().numbers = {climate::trace_of(climate, m, Quantity::kTmax),
                          climate::trace_of(climate, m, Quantity::kTmin)};
  }
}

void find_doubts(const climate::PlaceClimate& climate, const std::vector<std::string>& doubts,
                 Units units, std::vector<Finding>& out) {
  if (!climate.file) return;
  const climate::FileUse& file = *climate.file;
  for (const std::string& doubt : doubts) {
    out.push_back(
        finding(Grade::kShould, doubt,
                fmt::format("See whether {} is the weather file that you mean.", file.name)));
    Finding& told = out.back();
    told.sources = {"fao56"};
    if (file.distance)
      told.numbers.push_back(far("how far it was measured", *file.distance, units));
    if (file.height_above)
      told.numbers.push_back(higher("how much higher it was measured", *file.height_above, units));
    for (Trace& trace : told.numbers) trace.where = file.name;
  }
}

/// The document names a weather file, and there is none.
void find_no_file(const climate::PlaceClimate& climate, const std::vector<std::string>& doubts,
                  std::vector<Finding>& out) {
  const std::string& name = climate.own.weather_file;
  if (climate.file || name.empty()) return;
  const std::string why = doubts.empty()
                              ? fmt::format("The weather file {} is not with this garden", name)
                              : doubts.front();
  out.push_back(
      finding(Grade::kShould, why + ": the weather stations around stand in for it.",
              fmt::format("Give the garden {}, or another file of your own days.", name)));
  out.back().mend.push_back(
      "Or take the stations for good: leave the file out (climate.weather_file).");
}

/// A weather file without a whole month is as good as none.
void find_no_month(const climate::PlaceClimate& climate, std::vector<Finding>& out) {
  if (!climate.file || !gives_nothing(*climate.file)) return;
  out.push_back(finding(
      Grade::kShould,
      fmt::format("{} has no whole month of anything, so it is passed over.", climate.file->name),
      "A month counts if fewer than 11 of its days lack the figure and never 5 in a row, for rain "
      "if none does. Give a longer file, or leave it out (climate.weather_file)."));
  out.back().sources = {"wmo-1203"};
}

}  // namespace

std::vector<Finding> climate_findings(const climate::PlaceClimate& climate,
                                      const std::vector<std::string>& doubts, Units units) {
  std::vector<Finding> out;
  find_doubts(climate, doubts, units, out);
  find_no_file(climate, doubts, out);
  find_no_month(climate, out);
  find_crossed(climate, units, out);
  find_impossible(climate, out);
  find_far_temperature(climate, units, out);
  find_far_sunshine(climate, units, out);
  return out;
}

}  // namespace spadework::study
