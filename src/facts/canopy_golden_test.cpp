// Published figures for light through crowns: tests/golden/canopy.
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdlib>
#include <map>
#include <optional>
#include <sstream>

#include "facts/test_catalogue.h"

namespace spadework::facts {
namespace {

/// "0.20" or "0.25-0.35" or nothing.
struct Printed {
  bool given = false;
  double low = 0, high = 0;
};

struct CanopyRow {
  std::string what, quantity, status;
  Printed leaf_on, leaf_off;
};

Printed printed(const std::string& text) {
  Printed out;
  if (text.empty() || std::isdigit(static_cast<unsigned char>(text[0])) == 0) return out;
  char* end = nullptr;
  out.given = true;
  out.low = out.high = std::strtod(text.c_str(), &end);
  if (*end == '-') out.high = std::strtod(end + 1, nullptr);
  return out;
}

std::vector<std::string> cells(const std::string& line) {
  std::vector<std::string> out(1);
  bool quoted = false;
  for (char c : line) {
    if (c == '"') {
      quoted = !quoted;
    } else if (c == ',' && !quoted) {
      out.emplace_back();
    } else {
      out.back() += c;
    }
  }
  return out;
}

std::vector<CanopyRow> canopy_rows() {
  std::vector<CanopyRow> rows;
  std::istringstream in(file_text("tests/golden/canopy/canopy.csv"));
  std::string line;
  std::getline(in, line);
  while (std::getline(in, line)) {
    const auto c = cells(line);
    if (c.size() != 6) {
      ADD_FAILURE() << line;
      continue;
    }
    rows.push_back({c[0], c[3], c[4], printed(c[1]), printed(c[2])});
  }
  return rows;
}

/// The kinds that a row speaks of, by how it begins.
const std::multimap<std::string, std::string> kKindsOfRows = {
    {"Acer saccharum (wall", "sugar-maple"},
    {"Acer platanoides/saccharum/Platanus", "norway-maple"},
    {"Acer platanoides/saccharum/Platanus", "plane"},
    {"Pyrus calleryana", "callery-pear"},
    {"Acer rubrum", "red-maple"},
    {"Zelkova serrata", "zelkova"},
    {"Gymnocladus dioicus", "kentucky-coffee-tree"},
    {"Gleditsia triacanthos", "honey-locust"},
    {"Acer negundo", "box-elder"},
    {"Melia azedarach umbraculifera", "umbrella-chinaberry"},
    {"Morus alba", "white-mulberry"},
    {"Melia azedarach", "chinaberry"},
    {"Aesculus hippocastanum", "horse-chestnut"},
    {"Tilia cordata", "small-leaved-lime"},
    {"Celtis occidentalis", "hackberry"},
};

std::vector<std::string> kinds_of(const std::string& what) {
  std::string longest;
  for (const auto& [begins, kind] : kKindsOfRows) {
    if (what.compare(0, begins.size(), begins) == 0 && begins.size() > longest.size()) {
      longest = begins;
    }
  }
  std::vector<std::string> kinds;
  const auto [from, to] = kKindsOfRows.equal_range(longest);
  for (auto it = from; it != to; ++it) kinds.push_back(it->second);
  return kinds;
}

void expect_as_printed(const CanopyRow& row, const Printed& there,
                       const std::optional<Fact<double>>& here) {
  EXPECT_EQ(there.given, here.has_value()) << row.what;
  if (!there.given || !here) return;
  EXPECT_GE(here->value, there.low - 0.0005) << row.what;
  EXPECT_LE(here->value, there.high + 0.0005) << row.what;
  const Standing expected = there.low < there.high ? Standing::kDerived
                            : row.status == "read" ? Standing::kPublished
                                                   : Standing::kSecondHand;
  EXPECT_EQ(here->standing, expected) << row.what;
}

// Source of each row: its last column; citations in data/sources.toml.
TEST(CanopyGolden, TotalSolarThroughCrownsIsAsPrinted) {
  std::size_t compared = 0;
  for (const CanopyRow& row : canopy_rows()) {
    if (row.status == "derived" || row.quantity == "DIRECT BEAM") continue;
    for (const std::string& id : kinds_of(row.what)) {
      const TreeKind* tree = shipped().trees.find(id);
      ASSERT_NE(tree, nullptr) << id;
      expect_as_printed(row, row.leaf_on, tree->total_through.leaf_on);
      expect_as_printed(row, row.leaf_off, tree->total_through.leaf_off);
      ++compared;
    }
  }
  EXPECT_EQ(compared, kKindsOfRows.size());
}

// Konarska et al. 2014: direct beam through five kinds in Gothenburg.
TEST(CanopyGolden, BeamThroughFullCrownsLiesInTheMeasuredRange) {
  const auto rows = canopy_rows();
  const auto row = std::find_if(rows.begin(), rows.end(),
                                [](const CanopyRow& r) { return r.quantity == "DIRECT BEAM"; });
  ASSERT_NE(row, rows.end());
  int found = 0;
  for (const TreeKind& tree : shipped().trees.all()) {
    const Fact<double>& on = tree.beam_through.leaf_on;
    if (on.sources != std::vector<std::string>{"konarska2014"}) continue;
    EXPECT_GE(on.value, row->leaf_on.low) << tree.id;
    EXPECT_LE(on.value, row->leaf_on.high) << tree.id;
    EXPECT_EQ(on.standing, Standing::kDerived) << tree.id;
    ++found;
  }
  EXPECT_GE(found, 15);
}

/// Mean over the shadow of a sphere of the beam that passes it (Beer-Lambert), x = depth per metre
/// times the sphere's width.
double mean_through_sphere(double x) { return 2 * (1 - (1 + x) * std::exp(-x)) / (x * x); }

// Closed form; K = 0.6 for apple (Jackson 1981), 0.65 per metre from 0.4 to 0.9 of canopy.csv.
TEST(CanopyGolden, BeamThroughOrchardTreesIsTheClosedFormOfASphere) {
  const TreeKind* apple = shipped().trees.find("apple");
  ASSERT_NE(apple, nullptr);
  const double x = 0.65 * in_metres(apple->beam_through.of_crown.value);
  EXPECT_NEAR(apple->beam_through.leaf_on.value, mean_through_sphere(x), 0.005);
  EXPECT_NEAR(apple->beam_through.leaf_off.value, mean_through_sphere(x / 4), 0.005);
  EXPECT_GE(apple->beam_through.leaf_on.value, 0.15);  // "gives T 0.15-0.35 on, 0.5-0.8 off"
  EXPECT_LE(apple->beam_through.leaf_on.value, 0.35);
  EXPECT_GE(apple->beam_through.leaf_off.value, 0.5);
  EXPECT_LE(apple->beam_through.leaf_off.value, 0.8);
}

// Gardner and Sydnor 1984 measured total solar; the sky gives 0.15 of a clear day's (from memory).
TEST(CanopyGolden, BeamDerivedFromATotalLeavesTheSkyOut) {
  int found = 0;
  for (const TreeKind& tree : shipped().trees.all()) {
    const auto& total = tree.total_through;
    if (!total.leaf_on || total.leaf_on->sources.front() != "gardner1984") continue;
    EXPECT_NEAR(tree.beam_through.leaf_on.value, (total.leaf_on->value - 0.15) / 0.85, 0.005);
    EXPECT_NEAR(tree.beam_through.leaf_off.value, (total.leaf_off->value - 0.15) / 0.85, 0.005);
    EXPECT_EQ(tree.beam_through.leaf_on.standing, Standing::kDerived);
    ++found;
  }
  EXPECT_EQ(found, 5);
}

}  // namespace
}  // namespace spadework::facts
