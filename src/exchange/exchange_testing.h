// For the tests of this room: files as texts, weather files made by line.
#pragma once

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "climate/csv_row.h"
#include "exchange/exchange.h"

namespace spadework::exchange {

inline std::string file_text(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  EXPECT_TRUE(in.good()) << path;
  return {std::istreambuf_iterator<char>(in), {}};
}

inline std::filesystem::path golden(const std::string& name) {
  return std::filesystem::path(SPADEWORK_SOURCE_DIR) / "tests/golden/weather" / name;
}

inline climate::Weather weather_of(std::string_view bytes, std::string_view name = "w.csv") {
  auto read = read_weather(bytes, name);
  EXPECT_TRUE(read) << (read ? "" : read.error().where + " " + read.error().message);
  return read ? *read : climate::Weather{};
}

/// The rows of a table, less its first line.
inline std::vector<std::vector<std::string>> table_rows(const std::string& text) {
  std::vector<std::vector<std::string>> out;
  climate::CsvLines lines(text);
  std::string_view line, field;
  lines.next(line);
  while (lines.next(line)) {
    climate::CsvRow row(line);
    out.emplace_back();
    while (row.next(field)) out.back().emplace_back(field);
  }
  return out;
}

/// An hourly file of days on end from 1 March 2019, with light from 7 to 17 h.
struct EpwText {
  std::string location = "LOCATION,Somewhere,-,-,made,-,48.0,-4.5,0.0,60";
  std::string comment = "COMMENTS 2,";
  std::string period = "DATA PERIODS,1,1,Data,Friday, 3/ 1, 3/ 3";
  std::vector<std::string> rows;

  explicit EpwText(int days = 3) {
    for (int day = 1; day <= days; ++day) {
      for (int hour = 1; hour <= 24; ++hour) rows.push_back(row(2019, 3, day, hour));
    }
  }
  static std::string row(int year, int month, int day, int hour) {
    const bool light = hour > 7 && hour <= 17;
    return fmt::format(
        "{},{},{},{},0,?,{},5,80,101000,9999,9999,300,{},{},{},999999,999999,999999,9999,180,3,5,5,"
        "9999,99999,9,999999999,999,.999,999,99,999,{},99",
        year, month, day, hour, 5 + (hour == 14 ? 10 : 0), light ? 300 : 0, light ? 200 : 0,
        light ? 150 : 0, hour == 3 ? 1.5 : 0);
  }
  /// A field (from 0) of a row becomes another.
  void put(std::size_t row, int field, std::string_view with) {
    std::string& line = rows[row];
    std::size_t from = 0;
    for (int i = 0; i < field; ++i) from = line.find(',', from) + 1;
    line.replace(from, line.find(',', from) - from, with);
  }
  [[nodiscard]] std::string text(const std::string& end = "\n") const {
    std::string out;
    for (const std::string& line :
         {location, std::string("DESIGN CONDITIONS,0"), std::string("TYPICAL/EXTREME PERIODS,0"),
          std::string("GROUND TEMPERATURES,0"), std::string("HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0"),
          std::string("COMMENTS 1,made"), comment, period})
      out += line + end;
    for (const std::string& each : rows) out += each + end;
    return out;
  }
};

}  // namespace spadework::exchange
