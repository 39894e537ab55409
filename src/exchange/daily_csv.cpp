#include <fmt/format.h>

#include <algorithm>
#include <unordered_map>

#include "climate/csv_row.h"
#include "exchange/columns.h"
#include "exchange/file_text.h"
#include "exchange/readers.h"

namespace spadework::exchange {
namespace {

using climate::CsvLines;
using climate::Weather;
using climate::WeatherDay;

constexpr std::size_t kMostDays = 366 * 300;

const char* const kColumnsHint =
    "The first line names the columns with their units: date and any of tmax_c, tmin_c, rain_mm, "
    "sunshine_h, global_mj_m2, diffuse_mj_m2.";

struct Table {
  std::vector<std::optional<Column>> columns;  // as they stand; nothing for what is not used
  std::size_t date = 0;
  std::vector<std::string> unknown, without_unit;
};

std::optional<Error> other_separator(const FileLine& line) {
  if (line.text.find(',') != std::string_view::npos) return std::nullopt;
  for (const auto& [separator, what] : {std::pair(';', "semicolons"), std::pair('\t', "tabs")}) {
    const std::size_t at = line.text.find(separator);
    if (at == std::string_view::npos) continue;
    return Error{ErrorCode::kSyntax, line.where(line.text.substr(at)),
                 fmt::format("The columns are separated by {}.", what),
                 "Save the file with commas between the columns and points in the numbers."};
  }
  return std::nullopt;
}

/// "a, b and 12 more".
std::string some_of(std::vector<std::string> words) {
  constexpr std::size_t kMost = 6;
  const std::size_t more = words.size() > kMost ? words.size() - kMost : 0;
  if (more > 0) {
    words.resize(kMost);
    words.push_back(fmt::format("{} more", more));
  }
  return list_words(words, "and");
}

tl::unexpected<Error> no_columns(const FileLine& line, const Table& table, bool has_date,
                                 const std::vector<std::string_view>& fields) {
  if (!fields.empty() && parse_date(fields[0]))
    return fail(ErrorCode::kMissingKey, line.where(line.text),
                "The first line holds figures and not the names of the columns.", kColumnsHint);
  if (!line.text.empty() && (line.text[0] == '<' || line.text[0] == '{' || line.text[0] == '['))
    return fail(ErrorCode::kSyntax, line.where(line.text),
                "This is a web page or program data and no weather file.",
                "Name an hourly EPW file or a CSV file with a line a day.");
  if (!table.without_unit.empty() && has_date)
    return fail(ErrorCode::kMissingKey, line.where(line.text),
                fmt::format("The columns do not say their units: {}.", some_of(table.without_unit)),
                kColumnsHint);
  return fail(ErrorCode::kMissingKey, line.where(line.text),
              has_date ? "No column has weather that can be used." : "No column is called “date”.",
              kColumnsHint);
}

Result<Table> read_names(const FileLine& line) {
  if (auto error = other_separator(line)) return tl::unexpected<Error>(std::move(*error));
  const auto fields = fields_of(line.text);
  if (fields.size() > kMostColumns)
    return fail(ErrorCode::kTooLarge, line.where(line.text),
                fmt::format("The file has more than {} columns.", kMostColumns),
                "Leave out those that are not weather.");
  Table out;
  std::array<bool, kFigures> seen{};
  for (std::size_t i = 0; i < fields.size(); ++i) {
    const ColumnName name = read_column_name(fields[i]);
    out.columns.push_back(name.column);
    if (!name.column) {
      auto& list = name.figure ? out.without_unit : out.unknown;
      if (!fields[i].empty()) list.push_back(shown(fields[i]));
      continue;
    }
    const auto figure = static_cast<std::size_t>(name.column->figure);
    if (seen[figure])
      return fail(ErrorCode::kConflict, line.where(fields[i]),
                  fmt::format("Two columns give the {}; “{}” is the second.",
                              figure_says(name.column->figure), shown(fields[i])),
                  "Rename or leave out the one that is not to be used.");
    seen[figure] = true;
    if (name.column->figure == Figure::kDate) out.date = i;
  }
  const bool has_date = seen[0];
  if (!has_date || std::count(seen.begin() + 1, seen.end(), true) == 0)
    return no_columns(line, out, has_date, fields);
  return out;
}

bool is_missing(std::string_view field) {
  if (!field.empty() && field[0] >= '0' && field[0] < '9') return false;
  const std::string low = lower(field);
  for (const char* mark : {"", "-", "na", "n/a", "nan", "null", "none", "-999", "-9999", "9999",
                           "-999.0", "-9999.0", "9999.0", "-999.9", "-9999.9", "9999.9"}) {
    if (low == mark) return true;
  }
  return false;
}

struct Bounds {
  double low, high;
};

Bounds bounds_of(Figure figure) {
  switch (figure) {
    case Figure::kTmax:
    case Figure::kTmin:
      return {kColdest_c, kHottest_c};
    case Figure::kRain:
      return {0, kMostRain_mm_d};
    case Figure::kSunshine:
      return {0, 24};
    default:
      return {0, kMostRadiation_mj_m2_d};
  }
}

void put(WeatherDay& day, Figure figure, double value) {
  switch (figure) {
    case Figure::kDate:
      break;
    case Figure::kTmax:
      day.tmax = celsius(value);
      break;
    case Figure::kTmin:
      day.tmin = celsius(value);
      break;
    case Figure::kRain:
      day.rain_mm = value;
      break;
    case Figure::kSunshine:
      day.sunshine_h = value;
      break;
    case Figure::kGlobal:
      day.global_mj_m2 = value;
      break;
    case Figure::kDiffuse:
      day.diffuse_mj_m2 = value;
      break;
  }
}

std::optional<Error> read_field(const FileLine& line, std::string_view field, const Column& column,
                                WeatherDay& day) {
  if (is_missing(field)) return std::nullopt;
  const Bounds may = bounds_of(column.figure);
  const auto of_file = [&](double value) { return (value - column.plus) / column.times; };
  const auto value =
      bounded_number(line, field, figure_says(column.figure), of_file(may.low), of_file(may.high));
  if (!value) {
    Error error = value.error();
    if (column.figure == Figure::kRain && error.code == ErrorCode::kImpossibleValue &&
        field.substr(0, 1) == "-")
      error.hint = "Rain is 0 or more. If it marks a trace write 0, if a gap leave it empty.";
    return error;
  }
  // 0 is added so that "-0.00" is none.
  put(day, column.figure, std::clamp(*value * column.times + column.plus, may.low, may.high) + 0.0);
  return std::nullopt;
}

std::optional<Error> impossible_day(const FileLine& line, const WeatherDay& day) {
  if (day.tmax && day.tmin && *day.tmin > *day.tmax)
    return Error{
        ErrorCode::kImpossibleValue, line.where(line.text),
        fmt::format("The lowest temperature of {}, {:g} °C, is above the highest, {:g} °C.",
                    iso_date(day.date), in_celsius(*day.tmin), in_celsius(*day.tmax)),
        "Are the two columns interchanged? Else leave the wrong figure empty."};
  if (day.diffuse_mj_m2 && day.global_mj_m2 && *day.diffuse_mj_m2 > *day.global_mj_m2 * 1.05 + 0.3)
    return Error{ErrorCode::kImpossibleValue, line.where(line.text),
                 fmt::format("The diffuse radiation of {}, {:g} MJ/m², is more than the global "
                             "radiation, {:g}.",
                             iso_date(day.date), *day.diffuse_mj_m2, *day.global_mj_m2),
                 "The global radiation holds the diffuse. Are the two columns interchanged?"};
  return std::nullopt;
}

Result<WeatherDay> read_day(const FileLine& line, const std::vector<std::string_view>& fields,
                            const Table& table) {
  WeatherDay day;
  const std::string_view text = fields[table.date];
  const auto date = parse_date(text);
  if (!date)
    return fail(ErrorCode::kWrongType, line.where(text),
                fmt::format("“{}” is no date.", shown(text)),
                "Write year, month and day: 2026-03-01.");
  day.date = *date;
  for (std::size_t i = 0; i < fields.size(); ++i) {
    if (!table.columns[i] || i == table.date) continue;
    if (auto error = read_field(line, fields[i], *table.columns[i], day))
      return tl::unexpected<Error>(std::move(*error));
  }
  if (auto error = impossible_day(line, day)) return tl::unexpected<Error>(std::move(*error));
  return day;
}

std::optional<Error> wrong_fields(const FileLine& line, std::size_t fields, std::size_t wanted) {
  if (fields == wanted) return std::nullopt;
  const bool few = fields < wanted;
  return Error{
      ErrorCode::kSyntax, line.where_end(),
      fmt::format("This line has {} fields, and the first line names {}.", fields, wanted),
      few ? "If the file is cut off here, fetch it again; else add the commas of the empty fields."
          : "Are decimals written with a comma? Write them with a point, as in 12.5."};
}

void note_columns(const Table& table, Weather& out) {
  if (!table.unknown.empty())
    out.notes.push_back(fmt::format("Not used: {}.", some_of(table.unknown)));
  if (!table.without_unit.empty())
    out.notes.push_back(
        fmt::format("Not used, for the name says no unit: {}.", some_of(table.without_unit)));
}

struct Reading {
  Table table;
  Weather weather;
  std::unordered_map<long, int> lines;  // of each day
};

std::optional<Error> read_line(const FileLine& line, Reading& reading) {
  const auto fields = fields_of(line.text);
  if (auto error = wrong_fields(line, fields.size(), reading.table.columns.size())) return error;
  auto day = read_day(line, fields, reading.table);
  if (!day) return day.error();
  const long key = std::chrono::sys_days(day->date).time_since_epoch().count();
  const auto [at, is_new] = reading.lines.emplace(key, line.number);
  if (!is_new)
    return Error{
        ErrorCode::kConflict, line.where(fields[reading.table.date]),
        fmt::format("{} is there twice: already in line {}.", iso_date(day->date), at->second),
        "A file of days has a line a day. Hourly figures are read from EPW files."};
  if (reading.weather.days.size() == kMostDays)
    return Error{ErrorCode::kTooLarge, line.where(line.text),
                 "The weather file has more than 300 years of days.", "Leave out what is older."};
  reading.weather.days.push_back(*day);
  return std::nullopt;
}

bool passes_over(std::string_view text) { return trimmed(text).empty() || text[0] == '#'; }

}  // namespace

Result<Weather> read_daily_csv(std::string_view bytes, std::string_view name) {
  CsvLines lines(bytes);
  FileLine line{name, {}, 1};
  bool named = false;
  Reading reading;
  while (lines.next(line.text)) {
    line.number = lines.number();
    if (passes_over(line.text)) continue;
    if (named) {
      if (auto error = read_line(line, reading)) return tl::unexpected<Error>(std::move(*error));
      continue;
    }
    auto table = read_names(line);
    if (!table) return tl::unexpected<Error>(table.error());
    reading.table = std::move(*table);
    named = true;
  }
  Weather& out = reading.weather;
  if (out.days.empty())
    return fail(ErrorCode::kSyntax, fmt::format("{}:{}:1", name, lines.number() + 1),
                "The weather file has no days.", kColumnsHint);
  out.name = std::string(name);
  std::sort(out.days.begin(), out.days.end(),
            [](const WeatherDay& a, const WeatherDay& b) { return a.date < b.date; });
  out.says = fmt::format("days from {} to {}", iso_date(out.days.front().date),
                         iso_date(out.days.back().date));
  note_columns(reading.table, out);
  note_gaps(out);
  return std::move(reading.weather);
}

}  // namespace spadework::exchange
