// climate: a place's weather, month by month, and how it was come by.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <nlohmann/json.hpp>

#include "cli/table.h"
#include "cli/verbs.h"
#include "cli/weather_says.h"
#include "study/why_climate.h"

namespace spadework::cli {
namespace {

using climate::Origin;
using study::ClimateFigure;

constexpr int kTitleWidth = 24;
constexpr int kMonthWidth = 6;
constexpr int kYearWidth = 8;

/// A figure as it is shown, in metric or imperial units.
struct Shown {
  const char* key;
  const char* title;           // metric
  const char* imperial_title;  // the same where nothing else is said
  double scale = 1, zero = 0;  // imperial = metric · scale + zero
  int digits = 1, imperial_digits = 1;
  bool sum = false;  // the year's figure is a sum, else a mean of days
};
constexpr double kMmPerInch = 25.4;
constexpr Shown kShown[] = {
    {"tmax_c", "highest, °C", "highest, °F", 1.8, 32, 1, 0, false},
    {"tmin_c", "lowest, °C", "lowest, °F", 1.8, 32, 1, 0, false},
    {"rain_mm", "rain, mm", "rain, inches", 1 / kMmPerInch, 0, 0, 1, true},
    {"wet_days", "days with rain", "days with rain", 1, 0, 0, 0, true},
    {"sunshine_h_per_day", "sunshine, hours a day", "sunshine, hours a day", 1, 0, 1, 1, false},
    {"global_mj_m2_d", "radiation, MJ/m² a day", "radiation, MJ/m² a day", 1, 0, 1, 1, false},
    {"dli_mol_m2_d", "light, mol/m² a day", "light, mol/m² a day", 1, 0, 1, 1, false},
};

std::string decimals(double value, int digits) {
  const std::string text = fmt::format("{:.{}f}", value, digits);
  const bool nothing = text.find_first_not_of("-0.") == std::string::npos;
  return nothing ? text.substr(text.front() == '-' ? 1 : 0) : text;
}

class ClimateView {
 public:
  ClimateView(const study::ClimateYear& year, Units units)
      : year_(year),
        units_(units),
        imperial_(units == Units::kImperial),
        order_(month_order(year.stand.garden.site)) {}

  [[nodiscard]] std::string text() const {
    std::string out =
        bold(fmt::format("{}, the weather of an ordinary year", year_.stand.garden.site.title)) +
        "\n\n" + head();
    for (const Shown& shown : kShown) {
      out += left(imperial_ ? shown.imperial_title : shown.title, kTitleWidth) + line(shown) + "\n";
      out += either_way_line(shown);
    }
    out += "\n" + origins() + stations() + says();
    return out;
  }

  [[nodiscard]] nlohmann::json json() const {
    nlohmann::json months = nlohmann::json::array();
    for (std::size_t m = 0; m < 12; ++m) months.push_back(month_json(m));
    const climate::PlaceClimate& climate = year_.climate;
    const double sum = climate.year_global_mj_m2;
    nlohmann::json plus_minus = {{"global_mj_m2", nullptr}};
    if (climate.year_global_share) plus_minus["global_mj_m2"] = sum * *climate.year_global_share;
    return {{"garden", year_.stand.garden.site.title},
            {"scheme", year_.stand.garden.scheme},
            {"months", months},
            {"year", {{"global_mj_m2", sum}, {"plus_minus", plus_minus}}},
            {"stations", stations_json()},
            {"weather_file", file_json()},
            {"frost", nullptr},
            {"notes", notes_of(climate, units_)}};
  }

 private:
  [[nodiscard]] ClimateFigure figure(const Shown& shown, int month) const {
    return climate_figure(year_, static_cast<std::size_t>(month), shown.key);
  }
  [[nodiscard]] std::string say(const Shown& shown, double value) const {
    return imperial_ ? decimals(value * shown.scale + shown.zero, shown.imperial_digits)
                     : decimals(value, shown.digits);
  }
  [[nodiscard]] std::string height(Length h) const {
    const bool higher = h > Length();
    const std::string says = length_says(higher ? h : -h, units_);
    if (says.starts_with("0 ") || says.starts_with("-0 ")) return "as high";
    return says + (higher ? " higher" : " lower");
  }

  [[nodiscard]] std::string head() const {
    std::string out(kTitleWidth, ' ');
    for (const int m : order_)
      out += right(short_month_name(static_cast<unsigned>(m) + 1), kMonthWidth);
    return dim(out + right("year", kYearWidth)) + "\n";
  }

  [[nodiscard]] std::string line(const Shown& shown) const {
    std::string out;
    double sum = 0, days = 0;
    bool whole = true;
    for (const int m : order_) {
      const auto value = figure(shown, m).value;
      out += right(value ? say(shown, *value) : "·", kMonthWidth);
      const double weight =
          shown.sum ? 1 : days_in_month(kReferenceYear, static_cast<unsigned>(m) + 1);
      sum += value.value_or(0) * weight;
      days += weight;
      whole = whole && value;
    }
    return out + right(whole ? say(shown, shown.sum ? sum : sum / days) : "·", kYearWidth);
  }

  /// Whether it is told how sure the figure is, where that is known.
  [[nodiscard]] static bool is_estimated(const Shown& shown) {
    return std::string_view(shown.key) != "rain_mm" && std::string_view(shown.key) != "wet_days";
  }
  /// Nothing where no month's figure is unsure by what would show; “?” where nothing can say.
  [[nodiscard]] std::string either_way_line(const Shown& shown) const {
    std::string out;
    bool any = false;
    for (const int m : order_) {
      const ClimateFigure at = figure(shown, m);
      if (!at.plus_minus && at.value && is_estimated(shown)) {
        any = true;
        out += right("?", kMonthWidth);
        continue;
      }
      const std::string says =
          decimals(at.plus_minus.value_or(0) * (imperial_ ? shown.scale : 1), 1);
      any = any || says != "0.0";
      out += right(says == "0.0" ? "·" : says, kMonthWidth);
    }
    return any ? dim(left("  give or take", kTitleWidth) + out) + "\n" : "";
  }

  /// The months of a figure that were come by in one way, as a list; empty for all of them.
  [[nodiscard]] std::string months_of(const Shown& shown, Origin origin) const {
    std::vector<std::string> names;
    for (const int m : order_) {
      if (figure(shown, m).origin == origin)
        names.emplace_back(month_name(static_cast<unsigned>(m) + 1));
    }
    return names.size() == 12 ? "" : list_words(names, "and");
  }

  [[nodiscard]] std::string way_says(const Shown& shown, Origin origin) const {
    const bool light = std::string_view(shown.key) == "dli_mol_m2_d" ||
                       std::string_view(shown.key) == "global_mj_m2_d";
    const climate::PlaceClimate& climate = year_.climate;
    switch (origin) {
      case Origin::kOwnMonth:
        return light ? "from your own months" : "your own";
      case Origin::kWeatherFile:
        return "from " + climate.file->name;
      case Origin::kSwing:
        return "by the swing of temperature between night and day";
      case Origin::kStations:
        return climate.named_id ? "from the station that you name" : "from the stations around";
      case Origin::kUnknown:
        break;
    }
    return "not known";
  }

  /// One sentence a figure: whose it is, and in which months.
  [[nodiscard]] std::string origin_of(const Shown& shown) const {
    std::vector<std::string> ways;
    std::string last;
    for (const Origin origin : {Origin::kOwnMonth, Origin::kWeatherFile, Origin::kStations,
                                Origin::kSwing, Origin::kUnknown}) {
      const bool any = std::any_of(order_.begin(), order_.end(),
                                   [&](int m) { return figure(shown, m).origin == origin; });
      if (!any) continue;
      last = months_of(shown, origin);
      ways.push_back(way_says(shown, origin) + (last.empty() ? "" : " in " + last));
    }
    if (ways.size() > 1) {
      ways.back().erase(ways.back().size() - last.size());
      ways.back() += "the other months";
    }
    return fmt::format("{}", fmt::join(ways, ", "));
  }

  [[nodiscard]] std::string origins() const {
    // Figures of one and the same way are told together.
    std::vector<std::pair<std::vector<std::string>, std::string>> told;
    for (const Shown& shown : kShown) {
      if (std::string_view(shown.key) == "dli_mol_m2_d") continue;
      std::string title = shown.title;
      title = title.substr(0, title.find(','));
      const std::string way = origin_of(shown);
      const auto same = std::find_if(told.begin(), told.end(),
                                     [&](const auto& one) { return one.second == way; });
      if (same == told.end())
        told.push_back({{title}, way});
      else
        same->first.push_back(title);
    }
    std::string out;
    for (const auto& [titles, way] : told) {
      std::string says = list_words(titles, "and");
      says[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(says[0])));
      out += wrapped(fmt::format("{}: {}.", says, way), page_width(), 0) + "\n";
    }
    return out +
           wrapped(
               "Light in the open is made of the radiation; sunshine and radiation go "
               "together. “Give or take”: two times in three the truth lies within.",
               page_width(), 0) +
           "\n";
  }

  [[nodiscard]] std::string stations() const {
    static constexpr std::pair<const char*, int> kColumns[] = {
        {"tmax_c", 9}, {"rain_mm", 7}, {"wet_days", 10}, {"sunshine_h_per_day", 10}};
    const auto parts = study::station_parts(year_.climate);
    if (parts.empty()) return "";
    int width = 8;
    for (const study::StationPart& part : parts) width = std::max(width, shown_width(name(part)));
    std::string out =
        "\n" +
        dim(left("stations", width) + right("away", 11) + right("", 15) + right("warmth", 9) +
            right("rain", 7) + right("wet days", 10) + right("sunshine", 10)) +
        "\n";
    for (const study::StationPart& part : parts) {
      out += left(name(part), width) + right(far_says(part.station.distance, units_), 11) +
             right(height(part.station.height_above), 15);
      for (const auto& [key, column] : kColumns) {
        const auto weight = part.weights.find(key);
        out +=
            right(weight == part.weights.end() ? "·" : fmt::format("{:.0f}%", 100 * weight->second),
                  column);
      }
      out += "\n";
    }
    return out;
  }
  [[nodiscard]] static std::string name(const study::StationPart& part) {
    return fmt::format("{} ({})", part.station.name, part.station.id);
  }

  [[nodiscard]] std::string says() const {
    const climate::PlaceClimate& climate = year_.climate;
    std::string out =
        "\n" +
        wrapped(fmt::format("The sun brings {:.0f} MJ to a square metre in a year; {}.",
                            climate.year_global_mj_m2, year_sure_says(climate)),
                page_width(), 0) +
        "\n";
    if (climate.file) out += wrapped(file_says(*climate.file), page_width(), 0) + "\n";
    for (const std::string& note : notes_of(climate, units_))
      out += wrapped(note, page_width(), 0) + "\n";
    return out;
  }

  /// "dublin.csv: days from 1991-01-01 to 2020-07-31."
  static std::string file_says(const climate::FileUse& file) {
    std::string out = file.name + ": " + (file.says.empty() ? file.years : file.says);
    if (out.find(file.years) == std::string::npos) out += ", " + file.years;
    return out + ".";
  }

  [[nodiscard]] nlohmann::json month_json(std::size_t m) const {
    nlohmann::json json = {{"month", m + 1},
                           {"origin", nlohmann::json::object()},
                           {"plus_minus", nlohmann::json::object()}};
    for (const std::string& key : study::climate_keys()) {
      const ClimateFigure figure = climate_figure(year_, m, key);
      json[key] = nullptr;
      if (figure.value) json[key] = *figure.value;
      json["origin"][key] = climate::origin_name(figure.origin);
      json["plus_minus"][key] = nullptr;
      if (figure.plus_minus) json["plus_minus"][key] = *figure.plus_minus;
    }
    return json;
  }

  [[nodiscard]] nlohmann::json stations_json() const {
    nlohmann::json json = nlohmann::json::array();
    for (const study::StationPart& part : study::station_parts(year_.climate)) {
      const climate::StationUse& use = part.station;
      json.push_back({{"id", use.id},
                      {"name", use.name},
                      {"country", use.country},
                      {"distance_km", in_metres(use.distance) / 1000},
                      {"height_above_m", in_metres(use.height_above)},
                      {"years", use.period},
                      {"source", use.source},
                      {"weights", part.weights}});
    }
    return json;
  }

  [[nodiscard]] nlohmann::json file_json() const {
    if (!year_.climate.file) return nullptr;
    const climate::FileUse& file = *year_.climate.file;
    nlohmann::json json = {{"name", file.name},
                           {"says", file.says},
                           {"years", file.years},
                           {"distance_km", nullptr},
                           {"height_above_m", nullptr}};
    if (file.distance) json["distance_km"] = in_metres(*file.distance) / 1000;
    if (file.height_above) json["height_above_m"] = in_metres(*file.height_above);
    return json;
  }

  const study::ClimateYear& year_;
  Units units_;
  bool imperial_;
  std::vector<int> order_;
};

}  // namespace

int climate_verb(const CommonOptions& options) {
  const Opened opened = open_garden(options);
  if (!opened.study) return opened.status;
  const auto stand = opened.study->stand(options.scheme);
  if (!stand) return tell(stand.error());
  const auto climate = opened.study->climate(options.scheme);
  if (!climate) return tell(climate.error());
  const auto sun = opened.study->open_sun(options.scheme);
  if (!sun) return tell(sun.error());
  const study::ClimateYear year{**stand, stations(), **climate, *sun};
  const ClimateView view(year, units_of(options, (*stand)->garden.site));
  if (options.json)
    print_json(view.json());
  else
    print_text(view.text());
  return 0;
}

}  // namespace spadework::cli
