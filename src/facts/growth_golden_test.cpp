// Published stage lengths and leaf areas of crops: tests/golden/growth.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <map>
#include <sstream>

#include "facts/test_catalogue.h"

namespace spadework::facts {
namespace {

std::vector<std::vector<std::string>> rows_of(const std::string& path) {
  std::vector<std::vector<std::string>> rows;
  std::istringstream in(file_text(path));
  std::string line;
  std::getline(in, line);
  while (std::getline(in, line)) {
    std::vector<std::string> cells;
    std::istringstream cut(line);
    for (std::string cell; std::getline(cut, cell, ',');) cells.push_back(cell);
    rows.push_back(std::move(cells));
  }
  return rows;
}

/// How FAO-56 calls the row that a crop's stages come from.
const std::map<std::string, std::string> kFaoNames = {{"beetroot", "beets table"},
                                                      {"spinach", "spinach"},
                                                      {"onion", "onion dry"},
                                                      {"spring-onion", "onion green"},
                                                      {"carrot", "carrots"},
                                                      {"celery", "celery"},
                                                      {"lettuce", "lettuce"},
                                                      {"cabbage", "cabbage"},
                                                      {"calabrese", "broccoli"},
                                                      {"cauliflower", "cauliflower"},
                                                      {"chinese-cabbage", "crucifers"},
                                                      {"kohlrabi", "crucifers"},
                                                      {"pak-choi", "crucifers"},
                                                      {"brussels-sprout", "crucifers"},
                                                      {"kale", "crucifers"},
                                                      {"collards", "crucifers"},
                                                      {"purple-sprouting", "crucifers"},
                                                      {"radish", "radish"},
                                                      {"courgette", "squash zucchini"},
                                                      {"cucumber", "cucumber"},
                                                      {"pumpkin", "pumpkin winter squash"},
                                                      {"squash-climbing", "pumpkin winter squash"},
                                                      {"broad-bean", "faba bean broad"},
                                                      {"french-bean-climbing", "beans green"},
                                                      {"french-bean-dwarf", "beans green"},
                                                      {"runner-bean", "beans green"},
                                                      {"lima-bean", "beans green"},
                                                      {"pea", "peas"},
                                                      {"sweetcorn", "maize sweet"},
                                                      {"aubergine", "eggplant"},
                                                      {"pepper", "sweet peppers bell"},
                                                      {"potato", "potato"},
                                                      {"tomato", "tomato"},
                                                      {"tomato-bush", "tomato"}};

// Allen et al. 1998, FAO-56, Table 11. [fao56]
TEST(StagesGolden, AreARowOfFao56WhereItIsTheSource) {
  const auto rows = rows_of("tests/golden/growth/fao56_stages.csv");
  std::size_t compared = 0;
  for (const Crop& crop : shipped().crops.all()) {
    const Fact<Stages>& stages = crop.growth.stages;
    if (crop.growth.way != GrowthWay::kSown || stages.sources.front() != "fao56") continue;
    const auto name = kFaoNames.find(crop.id);
    ASSERT_NE(name, kFaoNames.end()) << crop.id;
    const bool whole = stages.standing == Standing::kPublished;
    const bool printed = std::any_of(rows.begin(), rows.end(), [&](const auto& row) {
      const auto days = [&](std::size_t i) { return std::strtod(row[i].c_str(), nullptr); };
      return row[0] == name->second && days(1) == stages.value.initial_d &&
             days(2) == stages.value.development_d && days(4) == stages.value.late_d &&
             (whole ? days(3) == stages.value.mid_d : days(3) < stages.value.mid_d);
    });
    EXPECT_TRUE(printed) << crop.id;
    ++compared;
  }
  EXPECT_EQ(compared, kFaoNames.size());
}

const std::map<std::string, std::string> kSwatCodes = {{"sweetcorn", "SCRN"},
                                                       {"soya-bean", "SOYB"},
                                                       {"lima-bean", "LIMA"},
                                                       {"lentil", "LENT"},
                                                       {"peanut", "PNUT"},
                                                       {"pea", "PEAS"},
                                                       {"flax", "FLAX"},
                                                       {"potato", "POTA"},
                                                       {"sweet-potato", "SPOT"},
                                                       {"carrot", "CRRT"},
                                                       {"onion", "ONIO"},
                                                       {"spring-onion", "ONIO"},
                                                       {"sunflower", "SUNF"},
                                                       {"asparagus", "ASPR"},
                                                       {"calabrese", "BROC"},
                                                       {"cabbage", "CABG"},
                                                       {"cauliflower", "CAUF"},
                                                       {"celery", "CELR"},
                                                       {"lettuce", "LETT"},
                                                       {"spinach", "SPIN"},
                                                       {"french-bean-dwarf", "GRBN"},
                                                       {"runner-bean", "GRBN"},
                                                       {"french-bean-climbing", "GRBN"},
                                                       {"cucumber", "CUCM"},
                                                       {"aubergine", "EGGP"},
                                                       {"melon", "CANT"},
                                                       {"watermelon", "WMEL"},
                                                       {"pepper", "PEPR"},
                                                       {"strawberry", "STRW"},
                                                       {"tomato", "TOMA"},
                                                       {"tomato-bush", "TOMA"},
                                                       {"wheat", "DWHT"},
                                                       {"rye", "RYE"},
                                                       {"clover", "CLVR"}};

// SWAT, crop.dat. [swat-crops]
TEST(LeafAreaGolden, IsThatOfTheTableWhereItIsTheSource) {
  const auto rows = rows_of("tests/golden/growth/swat_crops.csv");
  std::size_t compared = 0;
  for (const Crop& crop : shipped().crops.all()) {
    if (crop.growth.leaf_area.sources.front() != "swat-crops") continue;
    const auto code = kSwatCodes.find(crop.id);
    ASSERT_NE(code, kSwatCodes.end()) << crop.id;
    const auto row =
        std::find_if(rows.begin(), rows.end(), [&](const auto& r) { return r[0] == code->second; });
    ASSERT_NE(row, rows.end()) << crop.id;
    EXPECT_EQ(crop.growth.leaf_area.value, std::strtod((*row)[2].c_str(), nullptr)) << crop.id;
    if (crop.growth.extinction.sources.front() == "swat-crops") {
      EXPECT_EQ(crop.growth.extinction.value, std::strtod((*row)[3].c_str(), nullptr)) << crop.id;
    }
    ++compared;
  }
  EXPECT_EQ(compared, kSwatCodes.size());
}

// Campillo et al. 2010: 0.75 to 0.85 for tomato, 0.60 to 0.70 for cauliflower. [campillo2010]
TEST(ExtinctionGolden, LiesInTheMeasuredRange) {
  EXPECT_NEAR(shipped().crops.find("tomato")->growth.extinction.value, 0.8, 0.05);
  EXPECT_NEAR(shipped().crops.find("cauliflower")->growth.extinction.value, 0.65, 0.05);
}

}  // namespace
}  // namespace spadework::facts
