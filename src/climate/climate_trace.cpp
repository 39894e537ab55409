// The chain behind each figure of a month.
#include <fmt/format.h>

#include <cmath>

#include "climate/climate.h"
#include "climate/confidence.h"

namespace spadework::climate {
namespace {

struct Says {
  const char* name;
  const char* unit;
  int digits;
};

Says says_of(Quantity quantity) {
  static constexpr std::array<Says, kQuantities> kSays = {
      {{"highest temperature", "°C", 1},
       {"lowest temperature", "°C", 1},
       {"rain", "mm", 0},
       {"days with rain", "days", 1},
       {"vapour pressure", "hPa", 1},
       {"sunshine", "h a day", 1},
       {"radiation", "MJ/m² a day", 1},
       {"diffuse radiation", "MJ/m² a day", 1}}};
  return kSays[static_cast<std::size_t>(quantity)];
}

std::string name_of(Quantity quantity, unsigned month) {
  return fmt::format("{} in {}", says_of(quantity).name, month_name(month));
}

Trace number(std::string name, double value, const char* unit, int digits) {
  Trace out;
  out.name = std::move(name);
  out.number = value;
  out.has_number = true;
  out.unit = unit;
  out.value = fmt::format("{:.{}f} {}", value, digits, unit);
  return out;
}

double plus_minus_of(const Month& month, Quantity quantity) {
  switch (quantity) {
    case Quantity::kTmax:
    case Quantity::kTmin:
      return month.origin_of(quantity) == Origin::kOwnMonth
                 ? 0
                 : month.plus_minus.temperature_k.value_or(0);
    case Quantity::kSunshine:
      return month.plus_minus.sunshine_h.value_or(0);
    case Quantity::kGlobal:
      return month.plus_minus.global_share.value_or(0) * month.global_mj_m2_d;
    default:
      return 0;
  }
}

Trace figure(const PlaceClimate& climate, unsigned month, Quantity quantity) {
  const Month& m = climate.months[month - 1];
  const Says says = says_of(quantity);
  const auto value = value_of(m, quantity);
  if (!value) {
    Trace out;
    out.name = name_of(quantity, month);
    out.value = "not known";
    return out;
  }
  Trace out = number(name_of(quantity, month), *value, says.unit, says.digits);
  const double error = plus_minus_of(m, quantity);
  if (error > 0) {
    out.value =
        fmt::format("{:.{}f} ± {:.{}f} {}", *value, says.digits, error, says.digits, says.unit);
    if (m.origin_of(quantity) != Origin::kOwnMonth) out.sources.emplace_back("stations");
  }
  return out;
}

Trace station_trace(const StationUse& use, Element element, unsigned month) {
  const double reported = use.reported[month - 1];
  Trace out = number(fmt::format("{}, {} ({})", use.name, use.country, use.id), reported,
                     std::string(element_unit(element)).c_str(), 1);
  const double height_m = in_metres(use.height_above);
  out.value +=
      fmt::format(", {:.0f} km away, {:.0f} m {}, weighs {:.0f} %", in_metres(use.distance) / 1000,
                  std::abs(height_m), height_m < 0 ? "lower" : "higher", 100 * use.weight);
  out.method = fmt::format("Mean of {}.", use.period);
  out.sources = {use.source};
  out.standing = Standing::kPublished;
  return out;
}

void add_stations(const PlaceClimate& climate, Element element, unsigned month, Trace& out) {
  const Blend* blend = climate.blend_of(element);
  if (blend == nullptr) return;
  for (const StationUse& use : blend->stations)
    out.inputs.push_back(station_trace(use, element, month));
  out.method = blend->stations.size() == 1
                   ? "As this station has it"
                   : "The mean of the nearest stations, each weighted by one over the square of "
                     "its distance, a height difference counted a hundredfold";
  out.sources.insert(out.sources.end(), {"shepard1968", "hutchinson1995"});
  if (element == Element::kTmax || element == Element::kTmin) {
    out.method += ", brought to the garden’s height at 6.5 K a kilometre";
    out.sources.emplace_back("standard-atmosphere");
  } else if (element == Element::kSunshine) {
    out.method += ", as a share of the day’s length";
  }
  out.method += ".";
}

Trace file_trace(const PlaceClimate& climate, DayFigure figure, unsigned month, const char* unit) {
  const FileMonth& m = climate.file->months[month - 1];
  Trace out = number(climate.file->name, m.of(figure).value_or(0), unit, 1);
  out.method = fmt::format("The mean of {} in the file ({}, {} of them whole enough). {}",
                           month_name(month), climate.file->years,
                           m.years[static_cast<std::size_t>(figure)], climate.file->says);
  out.where = climate.file->name;
  out.sources = {"wmo-1203"};
  out.standing = Standing::kMeasured;
  return out;
}

/// What the document and the file have of a quantity.
const std::optional<Given>* own_of(const OwnMonth& own, Quantity quantity) {
  switch (quantity) {
    case Quantity::kTmax:
      return &own.tmax_c;
    case Quantity::kTmin:
      return &own.tmin_c;
    case Quantity::kRain:
      return &own.rain_mm;
    case Quantity::kWetDays:
      return &own.rain_days;
    case Quantity::kVapourPressure:
      return &own.humidity_share;
    case Quantity::kSunshine:
      return &own.sunshine_h_per_day;
    case Quantity::kGlobal:
      return &own.radiation_mj_m2_per_day;
    case Quantity::kDiffuse:
      break;
  }
  return nullptr;
}

DayFigure day_figure_of(Quantity quantity) {
  switch (quantity) {
    case Quantity::kTmax:
      return DayFigure::kTmax;
    case Quantity::kTmin:
      return DayFigure::kTmin;
    case Quantity::kSunshine:
      return DayFigure::kSunshine;
    case Quantity::kGlobal:
      return DayFigure::kGlobal;
    case Quantity::kDiffuse:
      return DayFigure::kDiffuse;
    default:
      return DayFigure::kRain;
  }
}

Element element_of(Quantity quantity) {
  switch (quantity) {
    case Quantity::kTmax:
      return Element::kTmax;
    case Quantity::kTmin:
      return Element::kTmin;
    case Quantity::kRain:
      return Element::kRain;
    case Quantity::kWetDays:
      return Element::kWetDays;
    case Quantity::kVapourPressure:
      return Element::kVapourPressure;
    default:
      return Element::kSunshine;
  }
}

/// Given as such by the document, the file or the stations; not made of something else.
void explain_given(const PlaceClimate& climate, unsigned month, Quantity quantity, Trace& out) {
  const Month& m = climate.months[month - 1];
  switch (m.origin_of(quantity)) {
    case Origin::kOwnMonth: {
      const auto* own = own_of(climate.own.months[month - 1], quantity);
      if (own == nullptr || !*own) break;
      out.method = "Your own month.";
      out.inputs.push_back((*own)->trace);
      out.standing = (*own)->trace.standing;
      break;
    }
    case Origin::kWeatherFile:
      out.method = "As the weather file has it.";
      out.inputs.push_back(
          file_trace(climate, day_figure_of(quantity), month, says_of(quantity).unit));
      break;
    case Origin::kStations:
    case Origin::kSwing:
      add_stations(climate, element_of(quantity), month, out);
      break;
    case Origin::kUnknown:
      break;
  }
}

Trace swing_trace(const PlaceClimate& climate, unsigned month) {
  const Month& m = climate.months[month - 1];
  const double global =
      radiation_from_swing(m.tmax.value_or(Temperature()), m.tmin.value_or(Temperature()),
                           kInlandSwing, climate.place.elevation, m.sky);
  Trace out = number(fmt::format("sunshine by the swing of temperature in {}", month_name(month)),
                     sunshine_from_radiation(global, m.sky), "h a day", 1);
  out.value += fmt::format(", weighs {:.0f} %", 100 * climate.swing_share);
  out.method = fmt::format(
      "Radiation is 0.16 times the root of the swing between night and day times what arrives "
      "above the air: {:.1f} MJ/m² a day; sunshine by Ångström’s equation turned round.",
      global);
  out.inputs = {trace_of(climate, month, Quantity::kTmax),
                trace_of(climate, month, Quantity::kTmin)};
  out.sources = {"fao56"};
  return out;
}

Trace sky_trace(const Month& m, unsigned month, bool day_length) {
  Trace out = day_length
                  ? number(fmt::format("the day’s length in {}", month_name(month)),
                           m.sky.day_length_h, "h", 1)
                  : number(fmt::format("what arrives above the air in {}", month_name(month)),
                           m.sky.extraterrestrial_mj_m2_d, "MJ/m² a day", 1);
  out.method = "The mean over the month’s days, from the latitude.";
  out.sources = {"fao56"};
  return out;
}

void explain_sunshine(const PlaceClimate& climate, unsigned month, Trace& out) {
  const Month& m = climate.months[month - 1];
  const Origin origin = m.origin_of(Quantity::kSunshine);
  if (origin == Origin::kStations || origin == Origin::kSwing) {
    add_stations(climate, Element::kSunshine, month, out);
    if (climate.swing_share <= 0) return;
    out.method += fmt::format(
        "{}{:.0f} % by the swing of temperature between night and day, so that the error of both "
        "together is least.",
        out.method.empty() ? "" : " These are far off: ", 100 * climate.swing_share);
    out.inputs.push_back(swing_trace(climate, month));
  } else if (m.sunshine_given) {
    explain_given(climate, month, Quantity::kSunshine, out);
  } else {
    out.method = "From radiation, by Ångström’s equation turned round (0.25 and 0.50).";
    out.inputs = {trace_of(climate, month, Quantity::kGlobal), sky_trace(m, month, false),
                  sky_trace(m, month, true)};
    out.sources.emplace_back("fao56");
  }
}

void explain_global(const PlaceClimate& climate, unsigned month, Trace& out) {
  const Month& m = climate.months[month - 1];
  if (m.global_given) {
    explain_given(climate, month, Quantity::kGlobal, out);
    return;
  }
  out.method =
      "By Ångström’s equation: of what arrives above the air an overcast day lets through 0.25, "
      "and full sunshine adds 0.50.";
  out.inputs = {trace_of(climate, month, Quantity::kSunshine), sky_trace(m, month, false),
                sky_trace(m, month, true)};
  out.sources.insert(out.sources.end(), {"fao56", "frere-popov1979"});
}

}  // namespace

Trace elevation_trace(const std::optional<Trace>& given, Length taken) {
  if (given) return *given;
  Trace out = number("garden.elevation_m", in_metres(taken), "m", 0);
  out.method = "Not given: the mean height of the weather stations around.";
  out.standing = Standing::kAssumed;
  out.sources = {"stations"};
  return out;
}

Trace trace_of(const PlaceClimate& climate, unsigned month, Quantity quantity) {
  Trace out = figure(climate, month, quantity);
  if (!out.has_number) return out;
  if (quantity == Quantity::kSunshine) {
    explain_sunshine(climate, month, out);
  } else if (quantity == Quantity::kGlobal) {
    explain_global(climate, month, out);
  } else {
    explain_given(climate, month, quantity, out);
    const Origin origin = climate.months[month - 1].origin_of(quantity);
    if (quantity == Quantity::kVapourPressure && origin == Origin::kOwnMonth) {
      out.method = "Your own humidity, of what air at the month’s temperatures can hold.";
      out.inputs.push_back(trace_of(climate, month, Quantity::kTmax));
      out.inputs.push_back(trace_of(climate, month, Quantity::kTmin));
      out.sources.emplace_back("fao56");
    }
    const bool warmth = quantity == Quantity::kTmax || quantity == Quantity::kTmin;
    if (warmth && origin == Origin::kStations)
      out.inputs.push_back(elevation_trace(climate.own.elevation, climate.place.elevation));
  }
  return out;
}

}  // namespace spadework::climate
