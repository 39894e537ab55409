#include "climate/stations.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "climate/csv_row.h"

namespace spadework::climate {
namespace {

constexpr std::size_t kMostBytes = 64u << 20;
constexpr std::size_t kMostFields = 1000;  // of a row
constexpr const char* kFile = "stations.csv";

/// The columns' names without the month, in the order of Element.
constexpr std::array<const char*, kElements> kColumns = {
    "tmax",   "tmin",       "prec_mm",       "wet_days",   "sun_h_per_day",
    "vp_hpa", "frost_days", "abs_tmin_mean", "abs_tmin_sd"};

constexpr std::size_t kShown = 40;  // letters of a wrong field in a message

/// What each element can be on Earth, in its unit.
constexpr std::array<std::pair<double, double>, kElements> kPossible = {
    {{-80, 60}, {-90, 50}, {0, 5000}, {0, 31}, {0, 24}, {0, 80}, {0, 31}, {-95, 50}, {0, 40}}};

std::string place(int line, std::size_t column) {
  return fmt::format("{}:{}:{}", kFile, line, column + 1);
}

int column_of(const std::vector<std::string_view>& header, std::string_view name) {
  const auto found = std::find(header.begin(), header.end(), name);
  return found == header.end() ? -1 : static_cast<int>(found - header.begin());
}

tl::unexpected<Error> missing_column(const std::string& name) {
  return fail(ErrorCode::kMissingKey, place(1, 0),
              fmt::format("The table of stations has no column {}.", name),
              "The first line names the columns.");
}

/// The sources as the table names them.
std::string source_key(std::string_view source) {
  if (source == "DWD-CLIMAT") return "dwd-climat";
  if (source == "UKMO-historic") return "ukmo-historic";
  return "stations";
}

std::optional<double> plain_number(std::string_view text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value))
    return std::nullopt;
  return value;
}

struct PlaceColumns {
  int id = -1, name = -1, country = -1, latitude = -1, longitude = -1, elevation = -1;
  int last = -1;
};

Result<PlaceColumns> place_columns(const std::vector<std::string_view>& header) {
  PlaceColumns out;
  const std::pair<const char*, int*> wanted[] = {
      {"wmo_id", &out.id},    {"station", &out.name},  {"country", &out.country},
      {"lat", &out.latitude}, {"lon", &out.longitude}, {"elev_m", &out.elevation}};
  for (const auto& [name, column] : wanted) {
    *column = column_of(header, name);
    if (*column < 0) return missing_column(name);
    out.last = std::max(out.last, *column);
  }
  return out;
}

Result<Station> read_place(std::string_view row, int line, const PlaceColumns& at) {
  std::vector<std::string_view> fields(static_cast<std::size_t>(at.last) + 1);
  CsvRow reader(row);
  for (std::string_view& field : fields) {
    if (!reader.next(field))
      return fail(ErrorCode::kSyntax, place(line, row.size()), "The row ends too soon.",
                  "Every row has a field for each column of the first line.");
  }
  const auto text = [&](int column) { return fields[static_cast<std::size_t>(column)]; };
  const auto number = [&](int column, double low, double high) -> Result<double> {
    const std::string_view field = text(column);
    const std::string where = place(line, static_cast<std::size_t>(field.data() - row.data()));
    const auto value = plain_number(field);
    if (!value)
      return fail(ErrorCode::kWrongType, where,
                  fmt::format("“{}” is no number.", field.substr(0, kShown)),
                  "Write a number with a point: 48.41");
    if (*value < low || *value > high)
      return fail(ErrorCode::kImpossibleValue, where,
                  fmt::format("{} cannot be.", field.substr(0, kShown)),
                  fmt::format("It lies between {:g} and {:g}.", low, high));
    return *value;
  };
  const auto latitude = number(at.latitude, -90, 90);
  if (!latitude) return tl::unexpected<Error>(latitude.error());
  const auto longitude = number(at.longitude, -180, 180);
  if (!longitude) return tl::unexpected<Error>(longitude.error());
  const auto elevation = number(at.elevation, -450, 9000);
  if (!elevation) return tl::unexpected<Error>(elevation.error());
  if (text(at.id).empty())
    return fail(ErrorCode::kMissingKey, place(line, 0), "The station has no id.",
                "Each row begins with the station's id.");
  return Station{text(at.id),        text(at.name),       text(at.country),
                 degrees(*latitude), degrees(*longitude), metres(*elevation)};
}

std::vector<std::string_view> split(std::string_view row) {
  std::vector<std::string_view> fields;
  CsvRow reader(row);
  std::string_view field;
  while (fields.size() < kMostFields && reader.next(field)) fields.push_back(field);
  return fields;
}

}  // namespace

std::string_view element_says(Element element) {
  static constexpr std::array<std::string_view, kElements> kSays = {"highest temperature",
                                                                    "lowest temperature",
                                                                    "rain",
                                                                    "wet days",
                                                                    "sunshine",
                                                                    "vapour pressure",
                                                                    "frost days",
                                                                    "month's lowest",
                                                                    "spread of the month's lowest"};
  return kSays[static_cast<std::size_t>(element)];
}

std::string_view element_unit(Element element) {
  static constexpr std::array<std::string_view, kElements> kUnits = {
      "°C", "°C", "mm", "days", "h a day", "hPa", "days", "°C", "K"};
  return kUnits[static_cast<std::size_t>(element)];
}

std::optional<std::size_t> Stations::find(std::string_view id) const {
  const auto found = std::find_if(stations_.begin(), stations_.end(),
                                  [&](const Station& station) { return station.id == id; });
  if (found == stations_.end()) return std::nullopt;
  return static_cast<std::size_t>(found - stations_.begin());
}

std::vector<std::string> Stations::ids() const {
  std::vector<std::string> out;
  out.reserve(stations_.size());
  for (const Station& station : stations_) out.emplace_back(station.id);
  return out;
}

std::string_view Stations::row(std::size_t station) const { return rows_[station]; }

Result<std::optional<double>> Stations::number(std::size_t station, std::string_view rest,
                                               Element element) const {
  // `rest` begins at the wanted field.
  CsvRow reader(rest);
  std::string_view field;
  if (!reader.next(field) || field.empty()) return std::optional<double>();
  const auto where = [&] {
    return place(lines_[station], static_cast<std::size_t>(field.data() - row(station).data()));
  };
  const auto value = plain_number(field);
  if (!value)
    return fail(ErrorCode::kWrongType, where(),
                fmt::format("“{}” is no number.", field.substr(0, kShown)),
                "Write a number with a point, or leave the field empty.");
  const auto [low, high] = kPossible[static_cast<std::size_t>(element)];
  if (*value < low || *value > high)
    return fail(
        ErrorCode::kImpossibleValue, where(),
        fmt::format("{} is no possible {}.", field.substr(0, kShown), element_says(element)),
        fmt::format("It lies between {:g} and {:g} {}.", low, high, element_unit(element)));
  return value;
}

bool Stations::has_all_months(std::size_t station, Element element) const {
  CsvRow reader(row(station));
  if (!reader.skip(columns_.january[static_cast<std::size_t>(element)])) return false;
  std::string_view field;
  for (int month = 0; month < 12; ++month) {
    if (!reader.next(field) || field.empty()) return false;
  }
  return true;
}

Result<MonthValues> Stations::months(std::size_t station, Element element) const {
  MonthValues out;
  CsvRow reader(row(station));
  const int first = columns_.january[static_cast<std::size_t>(element)];
  if (!reader.skip(first)) return out;
  for (int month = 0; month < 12; ++month) {
    const auto value = number(station, reader.rest(), element);
    if (!value) return tl::unexpected<Error>(value.error());
    out[static_cast<std::size_t>(month)] = *value;
    if (!reader.skip(1)) break;
  }
  return out;
}

Result<StationRecord> Stations::record(std::size_t station) const {
  StationRecord out;
  for (std::size_t i = 0; i < kElements; ++i) {
    auto values = months(station, static_cast<Element>(i));
    if (!values) return tl::unexpected<Error>(values.error());
    out.months[i] = *values;
  }
  const std::vector<std::string_view> fields = split(row(station));
  const auto text = [&](int column) {
    return column >= 0 && static_cast<std::size_t>(column) < fields.size()
               ? fields[static_cast<std::size_t>(column)]
               : std::string_view();
  };
  const auto count = [&](int column) {
    return static_cast<int>(std::clamp(plain_number(text(column)).value_or(0), 0.0, 1000.0));
  };
  out.period = std::string(text(columns_.period));
  out.source = source_key(text(columns_.source));
  out.years = count(columns_.years);
  out.winter_lowest_mean_c = plain_number(text(columns_.winter_mean));
  out.winter_lowest_c = plain_number(text(columns_.winter_lowest));
  out.winters = count(columns_.winters);
  return out;
}

std::optional<Error> Stations::find_columns(const std::vector<std::string_view>& header) {
  for (std::size_t i = 0; i < kElements; ++i) {
    for (int month = 0; month < 12; ++month) {
      const std::string name = fmt::format("{}_{}", kColumns[i], month + 1);
      const int column = column_of(header, name);
      if (month == 0) columns_.january[i] = column;
      if (column < 0 || column != columns_.january[i] + month) return missing_column(name).value();
    }
  }
  const std::pair<const char*, int*> more[] = {{"n_years_min", &columns_.years},
                                               {"period", &columns_.period},
                                               {"source", &columns_.source},
                                               {"annual_min_mean", &columns_.winter_mean},
                                               {"annual_min_lowest", &columns_.winter_lowest},
                                               {"annual_min_n", &columns_.winters}};
  for (const auto& [name, column] : more) {
    *column = column_of(header, name);
    if (*column < 0) return missing_column(name).value();
  }
  return std::nullopt;
}

Result<Stations> read_stations(std::string_view bytes) {
  if (bytes.size() > kMostBytes)
    return fail(ErrorCode::kTooLarge, kFile, "The table of stations is over 64 MB.",
                "It has a row for each station.");
  CsvLines lines(bytes);
  std::string_view line;
  if (!lines.next(line))
    return fail(ErrorCode::kSyntax, place(1, 0), "The table of stations is empty.",
                "The first line names the columns.");
  const std::vector<std::string_view> header = split(line);
  const auto at = place_columns(header);
  if (!at) return tl::unexpected<Error>(at.error());
  Stations out;
  if (auto error = out.find_columns(header)) return tl::unexpected<Error>(*error);
  while (lines.next(line)) {
    if (line.empty()) continue;
    auto station = read_place(line, lines.number(), *at);
    if (!station) return tl::unexpected<Error>(station.error());
    out.stations_.push_back(*station);
    out.rows_.push_back(line);
    out.lines_.push_back(lines.number());
  }
  if (out.stations_.empty())
    return fail(ErrorCode::kSyntax, place(2, 0), "The table of stations has no station.",
                "Each line after the first is one.");
  return out;
}

Length distance_between(Angle latitude_a, Angle longitude_a, Angle latitude_b, Angle longitude_b) {
  constexpr double kEarth_m = 6371000;
  const double north = std::sin(in_radians(latitude_b - latitude_a) / 2);
  const double east = std::sin(in_radians(longitude_b - longitude_a) / 2);
  const double h = north * north + std::cos(in_radians(latitude_a)) *
                                       std::cos(in_radians(latitude_b)) * east * east;
  return metres(2 * kEarth_m * std::asin(std::sqrt(std::clamp(h, 0.0, 1.0))));
}

}  // namespace spadework::climate
