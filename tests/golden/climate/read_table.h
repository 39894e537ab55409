// Reads a golden table for a test: rows of named columns, the first line naming them.
#pragma once

#include <gtest/gtest.h>

#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

namespace spadework::golden {

class Row {
 public:
  explicit Row(std::map<std::string, std::string> cells) : cells_(std::move(cells)) {}
  [[nodiscard]] const std::string& text(const std::string& column) const {
    static const std::string kNone;
    const auto found = cells_.find(column);
    if (found != cells_.end()) return found->second;
    ADD_FAILURE() << "no column " << column;
    return kNone;
  }
  [[nodiscard]] bool has(const std::string& column) const { return !text(column).empty(); }
  [[nodiscard]] double number(const std::string& column) const { return std::stod(text(column)); }

 private:
  std::map<std::string, std::string> cells_;
};

inline std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells;
  std::istringstream in(line);
  for (std::string cell; std::getline(in, cell, ',');) cells.push_back(cell);
  if (!line.empty() && line.back() == ',') cells.emplace_back();
  return cells;
}

/// `name` within tests/golden/climate; fails the test if it is missing or ragged.
inline std::vector<Row> climate_table(const std::string& name) {
  std::ifstream in(std::string(SPADEWORK_SOURCE_DIR) + "/tests/golden/climate/" + name);
  EXPECT_TRUE(in.good()) << name;
  std::string line;
  std::getline(in, line);
  const std::vector<std::string> columns = cells_of(line);
  std::vector<Row> rows;
  while (std::getline(in, line)) {
    const std::vector<std::string> cells = cells_of(line);
    EXPECT_EQ(cells.size(), columns.size()) << name << ": " << line;
    std::map<std::string, std::string> row;
    for (std::size_t i = 0; i < columns.size() && i < cells.size(); ++i) row[columns[i]] = cells[i];
    rows.emplace_back(std::move(row));
  }
  EXPECT_FALSE(rows.empty()) << name;
  return rows;
}

}  // namespace spadework::golden
