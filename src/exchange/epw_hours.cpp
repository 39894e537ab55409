#include "exchange/epw_hours.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

#include "climate/csv_row.h"
#include "exchange/file_text.h"
#include "exchange/readers.h"

namespace spadework::exchange {
namespace {

using climate::CsvLines;

constexpr std::size_t kMostHours = 24 * 366 * 100;
constexpr std::size_t kFewestFields = 16;  // up to the diffuse radiation
constexpr double kMostRadiation_wh_m2 = 1500;
constexpr double kMostRain_mm_h = 500;      // records: about 400
constexpr double kNightOffset_wh_m2 = -15;  // an instrument's zero wanders so far at night

std::string_view field_at(const std::vector<std::string_view>& fields, std::size_t i) {
  return i < fields.size() ? fields[i] : std::string_view();
}

/// A header's figure may be missing, but not nonsense.
Result<std::optional<double>> header_number(const FileLine& line, std::string_view field,
                                            std::string_view what, double low, double high) {
  if (field.empty() || field == "-" || lower(field) == "unknown") return std::optional<double>();
  const auto value = bounded_number(line, field, what, low, high);
  if (!value) return tl::unexpected<Error>(value.error());
  return std::optional<double>(*value);
}

/// "LOCATION,Denver Intl AP,CO,USA,TMY3,725650,39.83300,-104.6500,-7.0,1650.0"
std::optional<Error> read_location(const FileLine& line, EpwHeader& out) {
  const auto fields = fields_of(line.text);
  out.city = shown(field_at(fields, 1));
  out.region = shown(field_at(fields, 2));
  out.country = shown(field_at(fields, 3));
  out.source = shown(field_at(fields, 4));
  out.station = shown(field_at(fields, 5));
  struct Wanted {
    std::size_t field;
    const char* what;
    double low, high;
    std::optional<double>* to;
  };
  const Wanted wanted[] = {{6, "latitude", -90, 90, &out.latitude_deg},
                           {7, "longitude", -180, 180, &out.longitude_deg},
                           {8, "clock offset", -12, 14, &out.zone_h},
                           {9, "height above the sea", -1000, 9999.9, &out.elevation_m}};
  for (const Wanted& each : wanted) {
    const std::string_view field = each.field < fields.size() ? fields[each.field] : "";
    const auto value = field.empty() ? Result<std::optional<double>>(std::optional<double>())
                                     : header_number(line, field, each.what, each.low, each.high);
    if (!value) return value.error();
    *each.to = *value;
  }
  return std::nullopt;
}

/// " 1/ 1" or "1/1/2017".
std::optional<EpwPeriodDay> period_day(std::string_view text) {
  const std::size_t slash = text.find('/');
  if (slash == std::string_view::npos) return std::nullopt;
  const std::string_view rest = text.substr(slash + 1);
  const auto month = plain_number(trimmed(text.substr(0, slash)));
  const auto day = plain_number(trimmed(rest.substr(0, rest.find('/'))));
  if (!month || !day || *month < 1 || *month > 12 || *day < 1 || *day > 31) return std::nullopt;
  return EpwPeriodDay{static_cast<int>(*month), static_cast<int>(*day)};
}

/// "DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31": how many, rows an hour, name, weekday, first, last.
std::optional<Error> read_period(const FileLine& line, EpwHeader& out) {
  const auto fields = fields_of(line.text);
  const std::pair<std::size_t, const char*> ones[] = {{1, "spans of time"}, {2, "rows an hour"}};
  for (const auto& [i, what] : ones) {
    const std::string_view field = field_at(fields, i);
    const auto value = plain_number(field);
    if (value && *value == 1) continue;
    return Error{ErrorCode::kSyntax, i < fields.size() ? line.where(field) : line.where_end(),
                 fmt::format("The file says that it has “{}” {}.", shown(field), what),
                 "Only files of one span of time with one row an hour can be read."};
  }
  out.first = period_day(field_at(fields, 5));
  out.last = period_day(field_at(fields, 6));
  return std::nullopt;
}

/// "COMMENTS 2,Irradiance Time Offset (h):-0.8239"
void read_comment(std::string_view text, EpwHeader& out) {
  const std::string low = lower(text);
  const std::size_t at = low.find("irradiance time offset");
  if (at == std::string::npos) return;
  const std::size_t colon = low.find(':', at);
  if (colon == std::string::npos) return;
  std::string_view rest = text.substr(colon + 1);
  rest = trimmed(rest.substr(0, rest.find_first_of(",;\"")));
  const auto value = plain_number(rest);
  if (value && *value >= -12 && *value <= 12) out.sun_offset_h = value;
}

Result<EpwHeader> read_header(CsvLines& lines, std::string_view name) {
  EpwHeader out;
  FileLine line{name, {}, 1};
  constexpr int kMostHeaderLines = 30;
  while (out.lines < kMostHeaderLines && lines.next(line.text)) {
    line.number = lines.number();
    ++out.lines;
    const std::string begin = lower(line.text.substr(0, 12));
    std::optional<Error> error;
    if (out.lines == 1) error = read_location(line, out);
    if (begin.substr(0, 8) == "comments") read_comment(line.text, out);
    if (begin == "data periods") {
      error = read_period(line, out);
      if (!error) return out;
    }
    if (error) return tl::unexpected<Error>(std::move(*error));
    if (!begin.empty() && begin[0] >= '0' && begin[0] <= '9') break;
  }
  return fail(
      ErrorCode::kSyntax, line.where(line.text),
      "The header of this hourly weather file has no line DATA PERIODS.",
      "An EPW file begins with eight lines, from LOCATION to DATA PERIODS. Fetch it again.");
}

Result<int> whole_number(const FileLine& line, std::string_view field, std::string_view what,
                         int low, int high) {
  const auto value = bounded_number(line, field, what, low, high);
  if (!value) return tl::unexpected<Error>(value.error());
  if (*value != static_cast<int>(*value))
    return fail(ErrorCode::kWrongType, line.where(field),
                fmt::format("“{}” is no whole number; the {} stands here.", shown(field), what),
                "Fetch the file again.");
  return static_cast<int>(*value);
}

/// Figures at or over `missing_from`, and empty fields, are missing.
Result<std::optional<double>> hour_number(const FileLine& line, std::string_view field,
                                          std::string_view what, double low, double high,
                                          double missing_from) {
  if (field.empty()) return std::optional<double>();
  const auto any = plain_number(field);
  if (any && *any >= missing_from) return std::optional<double>();
  const auto value = bounded_number(line, field, what, low, high);
  if (!value) return tl::unexpected<Error>(value.error());
  return std::optional<double>(*value);
}

std::optional<Error> read_clock(const FileLine& line, const std::vector<std::string_view>& fields,
                                EpwHour& out) {
  struct Wanted {
    const char* what;
    int low, high;
    int* to;
  };
  const Wanted wanted[] = {{"year", 1800, 2200, &out.year},
                           {"month", 1, 12, &out.month},
                           {"day of the month", 1, 31, &out.day},
                           {"hour (1 to 24)", 1, 24, &out.hour}};
  for (std::size_t i = 0; i < std::size(wanted); ++i) {
    const auto value = whole_number(line, fields[i], wanted[i].what, wanted[i].low, wanted[i].high);
    if (!value) return value.error();
    *wanted[i].to = *value;
  }
  if (out.day > days_in_month(2024, static_cast<unsigned>(out.month)))
    return Error{
        ErrorCode::kImpossibleValue, line.where(fields[2]),
        fmt::format("{} has no day {}.", month_name(static_cast<unsigned>(out.month)), out.day),
        "Fetch the file again."};
  return std::nullopt;
}

Result<EpwHour> read_hour(const FileLine& line, const std::vector<std::string_view>& fields) {
  EpwHour out;
  out.line = line.number;
  if (auto error = read_clock(line, fields, out)) return tl::unexpected<Error>(std::move(*error));
  struct Wanted {
    std::size_t field;
    const char* what;
    double low, high, missing_from;
    std::optional<double>* to;
  };
  const double low = kNightOffset_wh_m2, high = kMostRadiation_wh_m2;
  const Wanted wanted[] = {// fields 7, 14, 15, 16 and 34 of the format
                           {6, "temperature", kColdest_c, kHottest_c, 99.9, &out.temperature_c},
                           {13, "global radiation", low, high, 9999, &out.global_wh_m2},
                           {14, "direct radiation", low, high, 9999, &out.beam_wh_m2},
                           {15, "diffuse radiation", low, high, 9999, &out.diffuse_wh_m2},
                           {33, "rainfall", 0, kMostRain_mm_h, 999, &out.rain_mm}};
  for (const Wanted& each : wanted) {
    const std::string_view field = field_at(fields, each.field);
    const auto value = hour_number(line, field, each.what, each.low, each.high, each.missing_from);
    if (!value) return tl::unexpected<Error>(value.error());
    *each.to = *value;
    if (each.low == low && each.to->has_value()) *each.to = std::max(0.0, **value);
  }
  return out;
}

std::optional<Error> wrong_fields(const FileLine& line, std::size_t fields, std::size_t wanted) {
  if (fields < kFewestFields && fields == wanted)
    return Error{ErrorCode::kSyntax, line.where_end(),
                 fmt::format("The first hour has {} fields; a row of this format has 35.", fields),
                 "Fetch the file again."};
  if (fields == wanted) return std::nullopt;
  const bool few = fields < wanted;
  return Error{ErrorCode::kSyntax, line.where_end(),
               fmt::format("This line has {} fields and not {} like the first.", fields, wanted),
               few ? "The file is cut off or damaged here. Fetch it again."
                   : "Are decimals written with a comma? Fetch the file again and do not save it "
                     "from a spreadsheet."};
}

}  // namespace

Result<EpwFile> read_epw_file(std::string_view bytes, std::string_view name) {
  CsvLines lines(bytes);
  EpwFile out;
  auto header = read_header(lines, name);
  if (!header) return tl::unexpected<Error>(header.error());
  out.header = std::move(*header);
  FileLine line{name, {}, 0};
  std::size_t wanted = 0;
  while (lines.next(line.text)) {
    line.number = lines.number();
    if (trimmed(line.text).empty()) continue;
    const auto fields = fields_of(line.text);
    if (wanted == 0) wanted = fields.size();
    if (auto error = wrong_fields(line, fields.size(), wanted))
      return tl::unexpected<Error>(std::move(*error));
    if (out.hours.size() == kMostHours)
      return fail(ErrorCode::kTooLarge, line.where(line.text),
                  "The weather file has more than a hundred years of hours.",
                  "Leave out what is older.");
    auto hour = read_hour(line, fields);
    if (!hour) return tl::unexpected<Error>(hour.error());
    out.hours.push_back(*hour);
  }
  if (out.hours.empty())
    return fail(ErrorCode::kSyntax, fmt::format("{}:{}:1", name, lines.number() + 1),
                "The weather file has a header and no hours.", "Fetch the file again.");
  return out;
}

}  // namespace spadework::exchange
