#include "exchange/results_json.h"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "geometry/hatch.h"
#include "light/taker_inks.h"

namespace spadework::exchange {
namespace {

nlohmann::json month_json(const light::MonthSun& month, std::size_t m) {
  nlohmann::json json = {{"month", m + 1},
                         {"sun_h_per_day", month.sun_h_per_day},
                         {"sunshine_h_per_day", month.sunshine_h_per_day},
                         {"morning_h", month.morning_h},
                         {"midday_h", month.midday_h},
                         {"afternoon_h", month.afternoon_h},
                         {"dli_mol_m2_d", month.dli_mol_m2_d},
                         {"share_of_open", nullptr}};
  if (!std::isnan(month.share_of_open)) json["share_of_open"] = month.share_of_open;
  return json;
}

nlohmann::json takers_json(const light::Takers& takers) {
  nlohmann::json json = nlohmann::json::array();
  for (const light::Taker& taker : takers.takers) {
    json.push_back({{"id", taker.id},
                    {"sun_h_per_year", taker.sun_h_per_year},
                    {"light_mol_m2_per_year", taker.light_mol_m2_per_year}});
  }
  return json;
}

nlohmann::json clock_json(double hour) {
  if (std::isnan(hour)) return nullptr;
  return clock_text(hour, false);
}

std::string month_day(int day_of_year) {
  return iso_date(date_of_day(kReferenceYear, day_of_year)).substr(5);
}

nlohmann::json taker_json(const light::SunPrint& print, int taker) {
  if (taker == light::kNoTaker) return nullptr;
  if (taker == light::kSkylineTaker) return light::kSkylineId;
  return print.takers[static_cast<std::size_t>(taker)].id;
}

bool alike(const light::PrintCell& a, const light::PrintCell& b) {
  return a.strong == b.strong && a.lit == b.lit && a.once == b.once && a.twice == b.twice &&
         a.taker == b.taker && a.second == b.second;
}

nlohmann::json spans_json(const light::SunPrint& print, int column) {
  nlohmann::json spans = nlohmann::json::array();
  for (int row = 0; row < print.rows;) {
    const light::PrintCell& cell = print.at(column, row);
    int end = row + 1;
    while (end < print.rows && alike(cell, print.at(column, end))) ++end;
    if (cell.strong)
      spans.push_back({{"start", clock_text(row * print.step_h, false)},
                       {"end", clock_text(end * print.step_h, false)},
                       {"lit_share", cell.lit},
                       {"taken_once_share", cell.once},
                       {"taken_twice_share", cell.twice},
                       {"taker", taker_json(print, cell.taker)},
                       {"second", taker_json(print, cell.second)}});
    row = end;
  }
  return spans;
}

nlohmann::json print_takers_json(const light::SunPrint& print,
                                 const std::vector<std::string>& ranked) {
  light::TakerInks inks(ranked);
  for (const light::PrintTaker& taker : print.takers) inks.add({taker.id});
  nlohmann::json takers = nlohmann::json::array();
  for (const light::PrintTaker& taker : print.takers) {
    const geometry::Colour ink = geometry::colour_of(geometry::taker_ink(inks.ink(taker.id)));
    takers.push_back({{"id", taker.id},
                      {"letter", inks.letter(taker.id)},
                      {"ink", fmt::format("#{:02x}{:02x}{:02x}", ink.r, ink.g, ink.b)},
                      {"first_h_per_year", taker.first_h}});
  }
  if (print.skyline_first_h > 0) {
    const geometry::Colour grey = geometry::colour_of(geometry::Role::kSkyline);
    takers.push_back({{"id", light::kSkylineId},
                      {"letter", nullptr},
                      {"ink", fmt::format("#{:02x}{:02x}{:02x}", grey.r, grey.g, grey.b)},
                      {"first_h_per_year", print.skyline_first_h}});
  }
  return takers;
}

}  // namespace

nlohmann::json trace_json(const Trace& trace) {
  nlohmann::json json = {{"name", trace.name},
                         {"value", nullptr},
                         {"says", trace.value},
                         {"unit", trace.unit},
                         {"method", trace.method},
                         {"where", trace.where},
                         {"sources", trace.sources},
                         {"standing", standing_name(trace.standing)},
                         {"inputs", nlohmann::json::array()}};
  if (trace.has_number)
    json["value"] = trace.number;
  else if (!trace.value.empty() &&
           trace.unit.empty())  // what has a unit and no number is not there
    json["value"] = trace.value;
  for (const Trace& input : trace.inputs) json["inputs"].push_back(trace_json(input));
  return json;
}

nlohmann::json finding_json(const garden::Finding& finding) {
  nlohmann::json numbers = nlohmann::json::array();
  for (const Trace& number : finding.numbers) numbers.push_back(trace_json(number));
  return {{"grade", garden::grade_name(finding.grade)},
          {"about", finding.about},
          {"says", finding.says},
          {"numbers", numbers},
          {"sources", finding.sources},
          {"mend", finding.mend}};
}

nlohmann::json months_json(const light::YearSun& months) {
  nlohmann::json json = nlohmann::json::array();
  for (std::size_t m = 0; m < 12; ++m) json.push_back(month_json(months[m], m));
  return json;
}

nlohmann::json place_json(const study::Stand& stand, const light::PlaceSun& sun,
                          const std::array<int, 12>& days_in_month, const light::Takers& takers) {
  const double mean = light::mean_sun_h(sun.months, days_in_month,
                                        light::growing_months(stand.garden.site.latitude));
  nlohmann::json json = {{"id", sun.place.id},
                         {"kind", light::place_kind_name(sun.place.kind)},
                         {"area_m2", in_square_metres(sun.place.area)},
                         {"level_m", sun.place.level_m},
                         {"class", light::light_class_name(light::light_class(mean))},
                         {"months", months_json(sun.months)},
                         {"takers", takers_json(takers)},
                         {"lost_h", takers.lost_h},
                         {"taken_twice_h", takers.taken_twice_h}};
  if (sun.place.bearing) json["bearing_deg"] = in_degrees(*sun.place.bearing);
  return json;
}

nlohmann::json guessed_json(const study::Stand& stand) {
  nlohmann::json json = nlohmann::json::array();
  for (const garden::Entry& entry : stand.garden.entries) {
    if (!study::matters_for_light(entry.table)) continue;
    for (const std::string& key : entry.guessed())
      json.push_back((entry.id.empty() ? entry.table : entry.id) + "." + key);
  }
  return json;
}

nlohmann::json sun_print_json(const light::SunPrint& print,
                              const std::vector<std::string>& ranked) {
  nlohmann::json days = nlohmann::json::array();
  for (int column = 0; column < print.columns; ++column)
    days.push_back({{"date", month_day(print.day_of(column))},
                    {"sunrise", clock_json(print.rise_h[static_cast<std::size_t>(column)])},
                    {"sunset", clock_json(print.set_h[static_cast<std::size_t>(column)])},
                    {"spans", spans_json(print, column)}});
  return {{"place", print.place},
          {"step_min", print.step_h * 60},
          {"sun_h_per_year", print.lit_h},
          {"lost_h", print.lost_h},
          {"taken_twice_h", print.taken_twice_h},
          {"takers", print_takers_json(print, ranked)},
          {"days", std::move(days)}};
}

}  // namespace spadework::exchange
