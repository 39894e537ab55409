// Reads the closed forms of analytic.csv beside it for a test.
#pragma once

#include <gtest/gtest.h>

#include <fstream>
#include <map>
#include <string>
#include <vector>

namespace spadework::golden {

/// One row: the numbers of its name and its parameters by their letters, and the figure.
struct Case {
  std::string line;
  std::map<std::string, double> of;
  double value = 0;
};

inline std::vector<std::string> quoted_cells_of(const std::string& line) {
  std::vector<std::string> cells(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"') {
      quoted = !quoted;
    } else if (c == ',' && !quoted) {
      cells.emplace_back();
    } else {
      cells.back() += c;
    }
  }
  return cells;
}

/// "h=2_d=1" and "lat=0 dec=10": what follows each "=" by the letters before it.
inline void read_numbers(const std::string& text, std::map<std::string, double>& numbers) {
  for (std::size_t at = text.find('='); at != std::string::npos; at = text.find('=', at + 1)) {
    const std::size_t before = text.find_last_of(" _,", at);
    const std::size_t from = before == std::string::npos ? 0 : before + 1;
    numbers[text.substr(from, at - from)] = std::stod(text.substr(at + 1));
  }
}

/// The rows whose name begins so; their number is part of the claim.
inline std::vector<Case> cases(const std::string& kind, std::size_t expected) {
  std::ifstream in(std::string(SPADEWORK_SOURCE_DIR) + "/tests/golden/light/analytic.csv");
  std::vector<Case> found;
  for (std::string line; std::getline(in, line);) {
    const std::vector<std::string> cells = quoted_cells_of(line);
    if (cells[0].rfind(kind, 0) != 0) continue;
    Case one{line, {}, std::stod(cells.back())};
    for (std::size_t i = 0; i + 1 < cells.size(); ++i) read_numbers(cells[i], one.of);
    found.push_back(one);
  }
  EXPECT_EQ(found.size(), expected) << kind;
  return found;
}

}  // namespace spadework::golden
