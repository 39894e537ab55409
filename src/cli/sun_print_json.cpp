#include "cli/sun_print_json.h"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "geometry/hatch.h"
#include "light/taker_inks.h"

namespace spadework::cli {
namespace {

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

nlohmann::json takers_json(const light::SunPrint& print, const std::vector<std::string>& ranked) {
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
          {"takers", takers_json(print, ranked)},
          {"days", std::move(days)}};
}

}  // namespace spadework::cli
