#include "exchange/columns.h"

#include <array>
#include <vector>

namespace spadework::exchange {
namespace {

struct Unit {
  const char* name;
  double times, plus;
};

const std::vector<Unit>& units_of(Figure figure) {
  static const std::vector<Unit> none = {{"", 1, 0}};
  static const std::vector<Unit> warmth = {{"c", 1, 0},
                                           {"degc", 1, 0},
                                           {"deg_c", 1, 0},
                                           {"f", 5.0 / 9, -160.0 / 9},
                                           {"degf", 5.0 / 9, -160.0 / 9},
                                           {"deg_f", 5.0 / 9, -160.0 / 9}};
  static const std::vector<Unit> depth = {{"mm", 1, 0}, {"cm", 10, 0}, {"in", 25.4, 0}};
  static const std::vector<Unit> hours = {
      {"h", 1, 0}, {"hours", 1, 0}, {"hrs", 1, 0}, {"min", 1.0 / 60, 0}};
  static const std::vector<Unit> energy = {{"mj_m2", 1, 0},    {"mj_m2_d", 1, 0},
                                           {"mj_m_2", 1, 0},   {"j_cm2", 0.01, 0},
                                           {"kwh_m2", 3.6, 0}, {"wh_m2", 0.0036, 0}};
  switch (figure) {
    case Figure::kDate:
      return none;
    case Figure::kTmax:
    case Figure::kTmin:
      return warmth;
    case Figure::kRain:
      return depth;
    case Figure::kSunshine:
      return hours;
    case Figure::kGlobal:
    case Figure::kDiffuse:
      return energy;
  }
  return none;
}

struct Stem {
  const char* name;
  Figure figure;
};

constexpr Stem kStems[] = {{"date", Figure::kDate},
                           {"day", Figure::kDate},
                           {"tmax", Figure::kTmax},
                           {"t_max", Figure::kTmax},
                           {"tx", Figure::kTmax},
                           {"maxtp", Figure::kTmax},
                           {"max_temp", Figure::kTmax},
                           {"temp_max", Figure::kTmax},
                           {"tmin", Figure::kTmin},
                           {"t_min", Figure::kTmin},
                           {"tn", Figure::kTmin},
                           {"mintp", Figure::kTmin},
                           {"min_temp", Figure::kTmin},
                           {"temp_min", Figure::kTmin},
                           {"rain", Figure::kRain},
                           {"prec", Figure::kRain},
                           {"precip", Figure::kRain},
                           {"prcp", Figure::kRain},
                           {"precipitation", Figure::kRain},
                           {"rainfall", Figure::kRain},
                           {"rr", Figure::kRain},
                           {"sun", Figure::kSunshine},
                           {"sunshine", Figure::kSunshine},
                           {"sun_hours", Figure::kSunshine},
                           {"sunshine_duration", Figure::kSunshine},
                           {"global", Figure::kGlobal},
                           {"glorad", Figure::kGlobal},
                           {"ghi", Figure::kGlobal},
                           {"radiation", Figure::kGlobal},
                           {"global_radiation", Figure::kGlobal},
                           {"solar", Figure::kGlobal},
                           {"solar_radiation", Figure::kGlobal},
                           {"diffuse", Figure::kDiffuse},
                           {"dhi", Figure::kDiffuse},
                           {"diffuse_radiation", Figure::kDiffuse}};

/// Lower case; runs of anything but letters and digits become one `_`; "°" and "²" are understood.
std::string normal(std::string_view name) {
  std::string out;
  for (std::size_t i = 0; i < name.size() && out.size() < 100; ++i) {
    const char c = name[i];
    if (name.substr(i, 2) == "²") {
      out += '2';
      ++i;
    } else if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9')) {
      out += c;
    } else if (c >= 'A' && c <= 'Z') {
      out += static_cast<char>(c - 'A' + 'a');
    } else if (!out.empty() && out.back() != '_') {
      out += '_';
    }
  }
  while (!out.empty() && out.back() == '_') out.pop_back();
  return out;
}

}  // namespace

std::string_view figure_says(Figure figure) {
  static constexpr std::array<std::string_view, kFigures> kSays = {
      "date",     "highest temperature", "lowest temperature", "rain",
      "sunshine", "global radiation",    "diffuse radiation"};
  return kSays[static_cast<std::size_t>(figure)];
}

std::string_view figure_column(Figure figure) {
  static constexpr std::array<std::string_view, kFigures> kColumns = {
      "date", "tmax_c", "tmin_c", "rain_mm", "sunshine_h", "global_mj_m2", "diffuse_mj_m2"};
  return kColumns[static_cast<std::size_t>(figure)];
}

ColumnName read_column_name(std::string_view name) {
  const std::string whole = normal(name);
  ColumnName out;
  for (const Stem& stem : kStems) {
    const std::string_view word = stem.name;
    if (whole.substr(0, word.size()) != word) continue;
    const std::string_view rest = std::string_view(whole).substr(word.size());
    if (!rest.empty() && rest[0] != '_') continue;
    const std::string_view unit = rest.empty() ? rest : rest.substr(1);
    if (unit.empty()) out.figure = stem.figure;
    for (const Unit& each : units_of(stem.figure)) {
      if (unit != each.name) continue;
      out.figure = stem.figure;
      out.column = Column{stem.figure, each.times, each.plus};
      return out;
    }
  }
  return out;
}

}  // namespace spadework::exchange
