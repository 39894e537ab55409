#include "study/why_amounts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "study/why_sun.h"
#include "study/why_things.h"

namespace spadework::study {
namespace {

constexpr const char* kUnit = "mol/m²";

std::string when_of(std::size_t month, std::optional<LocalDate> day) {
  if (day) return "on " + iso_date(*day);
  return fmt::format("in {}", month_name(static_cast<unsigned>(month) + 1));
}

std::string a_day_says(double mol, bool one_day) {
  return fmt::format("{:.1f} {}{}", mol, kUnit, one_day ? "" : " a day");
}

Trace climate_trace(const climate::PlaceClimate& climate, std::size_t month,
                    climate::Quantity quantity) {
  return climate::trace_of(climate, static_cast<unsigned>(month) + 1, quantity);
}

Trace photons_trace() {
  Trace trace = number_trace("light for growth in a megajoule", light::kMolPerMj, "mol/MJ",
                             fmt::format("{:g} mol", light::kMolPerMj));
  trace.method = "45 % of the sun’s energy can be used by leaves, 4.48 µmol in a joule of it.";
  trace.sources = {"faust-logan"};
  return trace;
}

Trace clearness_trace(const climate::Month& month) {
  const double above = month.sky.extraterrestrial_mj_m2_d;
  const double clearness = above > 0 ? month.global_mj_m2_d / above : 0;
  Trace trace =
      number_trace("clearness of the month", clearness, "", fmt::format("{:.2f}", clearness));
  trace.method = "The radiation over what arrives above the air.";
  trace.sources = {"fao56"};
  return trace;
}

/// Of the open's light, what does not come from the sun or from close about it.
Trace open_sky_trace(const climate::PlaceClimate& climate, const light::SunYear& sun,
                     std::size_t month, bool one_day) {
  const double sky = sun.sky_mol_m2_d[month], all = sun.open_mol_m2_d[month];
  Trace trace = number_trace(
      "of it from the sky", sky, kUnit,
      fmt::format("{}, {:.0f} %", a_day_says(sky, one_day), all > 0 ? 100 * sky / all : 0));
  const bool measured = climate.months[month].diffuse_mj_m2_d.has_value();
  trace.method = fmt::format(
      "{} What is brighter about the sun counts with the beam: a share of it as large as the "
      "beam’s of what arrives above the air.",
      measured
          ? "The diffuse radiation that the weather file has measured, by Liu and Jordan’s "
            "course of the day."
          : "How much of it is diffuse goes by the month’s clearness, as Erbs and others found; "
            "by Liu and Jordan’s course of the day.");
  trace.sources = {"liu-jordan", "hay-davies"};
  if (measured) {
    trace.inputs.push_back(climate_trace(climate, month, climate::Quantity::kDiffuse));
  } else {
    trace.sources.emplace_back("erbs");
    trace.inputs.push_back(clearness_trace(climate.months[month]));
  }
  return trace;
}

/// The share of the sky that is taken as overcast.
Trace overcast_trace(const Asked& asked, std::size_t month) {
  const double share = asked.sun.overcast[month];
  Trace trace = number_trace("of the sky’s light, under cloud", share, "",
                             fmt::format("{:.0f} %", 100 * share));
  trace.method =
      "The share of the open’s clear-sky hours that the month’s cloud takes. An overcast sky is "
      "brightest overhead, the rest is taken as even. That the two are mixed so is our own rule.";
  trace.sources = {"cie-overcast"};
  trace.inputs.push_back(
      without_inputs(climate_trace(asked.climate, month, climate::Quantity::kSunshine)));
  const double open_h = asked.sun.open_sun_h[month];
  trace.inputs.push_back(
      number_trace("strong sun in the open", open_h, "h",
                   fmt::format("{:.1f} h{}", open_h, asked.day ? "" : " a day")));
  return trace;
}

/// What of the place's light comes straight from the sun, or nothing if that cannot be told.
std::optional<double> beam_of(const Asked& asked, std::size_t month) {
  light::SunYear sun = sun_in(asked.sun, {{static_cast<int>(month)}, {}}, Taken::kLight);
  sun.sky_mol_m2_d.fill(0);
  const auto beam = light::sun_of_places(asked.stand.garden, {asked.place.place},
                                         asked.stand.bodies, sun, 1, nullptr);
  if (!beam) return std::nullopt;
  return beam->front().months[month].dli_mol_m2_d;
}

void add_parts(const Asked& asked, std::size_t month, std::vector<Trace>& out) {
  const bool one_day = asked.day.has_value();
  const auto beam = beam_of(asked, month);
  if (!beam) return;
  out.push_back(number_trace("from the sun", *beam, kUnit, a_day_says(*beam, one_day)));
  out.back().method =
      "Each hour’s beam under the month’s cloud, with the bright sky about the sun, through what "
      "stands in its way, by its slant to the place.";
  out.back().sources = {"closed-form"};
  const double sky = asked.place.months[month].dli_mol_m2_d - *beam;
  const double open_sky = asked.sun.sky_mol_m2_d[month];
  out.push_back(number_trace("from the sky", sky, kUnit,
                             fmt::format("{}, {:.0f} % of the open’s", a_day_says(sky, one_day),
                                         open_sky > 0 ? 100 * sky / open_sky : 0)));
  out.back().method = fmt::format(
      "{} directions of the sky, each through what stands in its way; leaves as in the middle of "
      "the month. Light thrown back by the ground and by walls is not counted.",
      light::kSkyDirections);
  out.back().sources = {"vogel", "closed-form"};
  out.back().inputs.push_back(overcast_trace(asked, month));
}

}  // namespace

Trace open_light_trace(const climate::PlaceClimate& climate, const light::SunYear& sun,
                       std::size_t month, std::optional<LocalDate> day) {
  const double mol = sun.open_mol_m2_d[month];
  const climate::Month& m = climate.months[month];
  Trace trace = number_trace("light in the open " + when_of(month, day), mol, kUnit,
                             a_day_says(mol, day.has_value()));
  if (const double share = m.plus_minus.global_share.value_or(0); share > 0 && !day)
    trace.value = fmt::format("{:.1f} ± {:.1f} {} a day", mol, mol * share, kUnit);
  trace.method = fmt::format(
      "The radiation times the light in a megajoule, on level ground without skyline, shared out "
      "over the hours as Collares-Pereira and Rabl have it{}.",
      day ? ": of a mean day of the month, as long as that day" : "");
  trace.sources = {"collares-pereira-rabl", "duffie-beckman"};
  trace.inputs = {climate_trace(climate, month, climate::Quantity::kGlobal), photons_trace()};
  if (mol > 0) trace.inputs.push_back(open_sky_trace(climate, sun, month, day.has_value()));
  return trace;
}

Trace open_light_of_year(const climate::PlaceClimate& climate, const light::SunYear& sun) {
  const auto brightest = static_cast<std::size_t>(
      std::max_element(sun.open_mol_m2_d.begin(), sun.open_mol_m2_d.end()) -
      sun.open_mol_m2_d.begin());
  double sum = 0;
  Trace trace = number_trace("light in the open in a year", 0, kUnit, "");
  for (std::size_t m = 0; m < 12; ++m) {
    sum += sun.open_mol_m2_d[m] * sun.days_in_month[m];
    Trace month = open_light_trace(climate, sun, m, std::nullopt);
    trace.inputs.push_back(m == brightest ? std::move(month) : without_inputs(std::move(month)));
    if (m != brightest) trace.inputs.back().method.clear();
  }
  trace.number = sum;
  trace.value = fmt::format("{:.0f} {}", sum, kUnit);
  trace.method = fmt::format(
      "The months’ means times their days. {} is told to its end here; the "
      "others at /climate/months/0/dli_mol_m2_d and on.",
      month_name(static_cast<unsigned>(brightest) + 1));
  return trace;
}

Trace sunshine_trace(const Asked& asked, std::size_t month) {
  const light::MonthSun& figures = asked.place.months[month];
  Trace trace = number_trace(
      fmt::format("sunshine to expect at {} {}", place_says(asked), when_of(month, asked.day)),
      figures.sunshine_h_per_day, "h", fmt::format("{:.1f} h a day", figures.sunshine_h_per_day));
  trace.method =
      "What the month’s cloud leaves of the clear-sky hours: as large a share as it leaves of the "
      "open’s.";
  trace.inputs = {sun_trace(asked, {{static_cast<int>(month)}, {}}, figures.sun_h_per_day),
                  climate_trace(asked.climate, month, climate::Quantity::kSunshine)};
  if (asked.guessed({static_cast<int>(month)})) tell_guess(trace);
  return trace;
}

Trace dli_trace(const Asked& asked, std::size_t month) {
  const double mol = asked.place.months[month].dli_mol_m2_d;
  const Span span{{static_cast<int>(month)}, {}};
  const Rate rate = a_day(asked, span);
  Trace trace = number_trace(
      fmt::format("light for growth (DLI) at {} {}", place_says(asked), when_of(month, asked.day)),
      mol, kUnit, a_day_says(mol, asked.day.has_value()));
  trace.method =
      "Photons that leaves can use, from the sun and from the sky under the month’s cloud: the "
      "open’s less what things, the skyline and its own slope take.";
  trace.sources = {"closed-form"};
  add_parts(asked, month, trace.inputs);
  trace.inputs.push_back(open_light_trace(asked.climate, asked.sun, month, asked.day));
  const light::Takers takers = takers_in(asked, span, Taken::kLight);
  const double bare = mol + takers.lost_mol_m2 / rate.over;
  if (std::abs(bare - asked.sun.open_mol_m2_d[month]) >= rate.least) {
    trace.inputs.push_back(number_trace("its own slope, with nothing in the way", bare, kUnit,
                                        a_day_says(bare, asked.day.has_value())));
  }
  if (takers.lost_mol_m2 / rate.over >= rate.least)
    trace.inputs.push_back(taken_trace(asked, takers, Taken::kLight, rate));
  add_site(asked.stand, trace.inputs);
  add_skyline(asked.stand, trace.inputs);
  add_place(asked.stand, asked.place.place, asked.catalogue, trace.inputs);
  if (asked.guessed({static_cast<int>(month)})) tell_guess(trace);
  return trace;
}

Trace share_trace(const Asked& asked, std::size_t month) {
  const double share = asked.place.months[month].share_of_open;
  const std::string name = fmt::format("share of the open’s light at {} {}", place_says(asked),
                                       when_of(month, asked.day));
  Trace trace = number_trace(name, share, "share", fmt::format("{:.0f} %", 100 * share));
  if (std::isnan(share)) {
    trace.number = 0;
    trace.has_number = false;
    trace.value = "none: there is no light in that month";
    trace.inputs = {open_light_trace(asked.climate, asked.sun, month, asked.day)};
    return trace;
  }
  trace.method =
      "Its light over that of an open, level plot without skyline. On a slope to the sun it can be "
      "more than all.";
  Trace dli = dli_trace(asked, month);
  trace.inputs = {std::move(dli)};
  if (asked.guessed({static_cast<int>(month)})) tell_guess(trace);
  return trace;
}

}  // namespace spadework::study
