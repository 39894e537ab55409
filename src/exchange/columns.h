// The columns of a daily CSV file: which figure a name stands for, and in which unit.
//
// A name is a figure and a unit, in any case, with `_`, blanks, points or brackets between:
// "tmax_c", "Tmax (°C)", "rain mm", "glorad_MJ_m2".
//   tmax tx maxtp t_max max_temp        c f          highest temperature
//   tmin tn mintp t_min min_temp        c f          lowest temperature
//   rain prec precip prcp precipitation rainfall rr   mm in cm
//   sun sunshine sun_hours              h min
//   global glorad ghi radiation solar   mj_m2 j_cm2 kwh_m2 wh_m2
//   diffuse dhi                         the same
//   date, day                           ISO dates
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace spadework::exchange {

enum class Figure { kDate, kTmax, kTmin, kRain, kSunshine, kGlobal, kDiffuse };
inline constexpr std::size_t kFigures = 7;

/// "highest temperature", …
[[nodiscard]] std::string_view figure_says(Figure figure);
/// The name to write: "tmax_c", …
[[nodiscard]] std::string_view figure_column(Figure figure);

struct Column {
  Figure figure{};
  double times = 1, plus = 0;  // the file's figure × times + plus is in °C, mm, h, MJ/m²
};

/// What a column's name stands for.
/// Out:    nothing for a name that is not known; a figure without `column` where only the unit is
///         missing or not known.
struct ColumnName {
  std::optional<Figure> figure;
  std::optional<Column> column;
};
[[nodiscard]] ColumnName read_column_name(std::string_view name);

}  // namespace spadework::exchange
