#include "climate/radiation.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/golden/climate/read_table.h"

namespace spadework::climate {
namespace {

/// Figures of one worked example by symbol.
class Example {
 public:
  explicit Example(const std::string& number) {
    for (const golden::Row& row : golden::climate_table("fao56_examples/examples.csv")) {
      if (row.text("example") == number) figures_[row.text("symbol")] = row.number("value");
    }
  }
  double operator[](const std::string& symbol) const {
    EXPECT_TRUE(figures_.count(symbol)) << symbol;
    return figures_.count(symbol) ? figures_.at(symbol) : NAN;
  }
  [[nodiscard]] Sky sky() const {
    return sky_of_day(degrees((*this)["latitude"]), static_cast<int>((*this)["J"]));
  }

 private:
  std::map<std::string, double> figures_;
};

// Source: [fao56] Examples 8 and 9.
TEST(SkyOfDay, IsThatOfTheThirdOfSeptemberAt20South) {
  const Sky sky = Example("8").sky();
  EXPECT_NEAR(sky.extraterrestrial_mj_m2_d, Example("8")["Ra"], 0.05);
  EXPECT_NEAR(sky.day_length_h, Example("9")["N"], 0.05);
}

// Source: [fao56] Example 10.
TEST(RadiationFromSunshine, IsThatOfRioInMay) {
  const Example rio("10");
  EXPECT_NEAR(rio.sky().extraterrestrial_mj_m2_d, rio["Ra"], 0.05);
  EXPECT_NEAR(rio.sky().day_length_h, rio["N"], 0.05);
  EXPECT_NEAR(radiation_from_sunshine(rio["n"], rio.sky()), rio["Rs"], 0.05);
}

// Source: [fao56] Example 11.
TEST(NetLongWave, IsThatOfRioInMay) {
  const Example rio("10"), loss("11");
  const double global = radiation_from_sunshine(rio["n"], rio.sky());
  const double clear = clear_sky_radiation(metres(0), rio.sky());
  EXPECT_NEAR(clear, loss["Rso"], 0.05);
  EXPECT_NEAR(
      net_long_wave(celsius(loss["Tmax"]), celsius(loss["Tmin"]), loss["ea"], global, clear),
      loss["Rnl"], 0.05);
}

// Source: [fao56] Example 20.
TEST(RadiationFromSwing, IsThatOfLyonInJuly) {
  const Example lyon("20");
  EXPECT_NEAR(lyon.sky().extraterrestrial_mj_m2_d, lyon["Ra"], 0.01);
  EXPECT_NEAR(lyon["kRs"], kInlandSwing, 1e-9);
  EXPECT_NEAR(radiation_from_swing(celsius(lyon["Tmax"]), celsius(lyon["Tmin"]), kInlandSwing,
                                   metres(lyon["altitude"]), lyon.sky()),
              lyon["Rs"], 0.01);
  // The example takes the dew point at the night's lowest.
  EXPECT_NEAR(saturation_kpa(celsius(lyon["Tmin"])), lyon["ea"], 0.005);
}

// Source: [fao56] Annex 2, Tables 2.6 and 2.7.
TEST(SkyOfDay, IsThatOfTheBooksTables) {
  int cells = 0, to_the_digit = 0;
  for (const golden::Row& row : golden::climate_table("fao56_tables/tables.csv")) {
    const double latitude = row.number("latitude_deg");
    const Sky sky = sky_of_day(degrees(latitude), static_cast<int>(row.number("day_of_year")));
    const double printed = row.number("table_2_6_mj_m2_d");
    EXPECT_NEAR(sky.extraterrestrial_mj_m2_d, printed, latitude < 60 ? 0.11 : 0.16)
        << latitude << "° in " << row.text("month");
    ++cells;
    if (std::abs(sky.extraterrestrial_mj_m2_d - printed) <= 0.0501) ++to_the_digit;
    if (row.has("table_2_7_h")) {
      EXPECT_NEAR(sky.day_length_h, row.number("table_2_7_h"), 0.0501)
          << latitude << "° in " << row.text("month");
    }
  }
  EXPECT_EQ(cells, 84);
  EXPECT_GE(to_the_digit, 54) << "rounds to the printed digit";
}

TEST(SkyOfDay, KnowsPolarNightAndPolarDay) {
  EXPECT_EQ(sky_of_day(degrees(80), 355).day_length_h, 0);
  EXPECT_EQ(sky_of_day(degrees(80), 355).extraterrestrial_mj_m2_d, 0);
  EXPECT_DOUBLE_EQ(sky_of_day(degrees(80), 172).day_length_h, 24);
  EXPECT_DOUBLE_EQ(sky_of_day(degrees(-90), 355).day_length_h, 24);
  EXPECT_EQ(radiation_from_sunshine(5, sky_of_day(degrees(90), 355)), 0);
  EXPECT_EQ(sunshine_from_radiation(5, sky_of_day(degrees(90), 355)), 0);
}

TEST(SkyOfMonth, IsTheMeanOfItsDays) {
  double sum = 0;
  for (int day = 32; day <= 59; ++day) sum += sky_of_day(degrees(48.4), day).day_length_h;
  EXPECT_NEAR(sky_of_month(degrees(48.4), 2).day_length_h, sum / 28, 1e-12);
}

TEST(RadiationFromSunshine, TurnsRound) {
  const Sky sky = sky_of_month(degrees(52), 6);
  for (double hours = 0; hours <= sky.day_length_h; hours += 0.7)
    EXPECT_NEAR(sunshine_from_radiation(radiation_from_sunshine(hours, sky), sky), hours, 1e-9);
  EXPECT_EQ(radiation_from_sunshine(30, sky), radiation_from_sunshine(sky.day_length_h, sky));
  EXPECT_EQ(radiation_from_sunshine(-1, sky), radiation_from_sunshine(0, sky));
  EXPECT_EQ(sunshine_from_radiation(100, sky), sky.day_length_h);
}

TEST(RadiationFromSwing, NeverPassesTheClearSky) {
  const Sky sky = sky_of_month(degrees(30), 6);
  EXPECT_EQ(radiation_from_swing(celsius(45), celsius(5), kCoastSwing, metres(200), sky),
            clear_sky_radiation(metres(200), sky));
  EXPECT_EQ(radiation_from_swing(celsius(5), celsius(6), kInlandSwing, metres(0), sky), 0);
}

}  // namespace
}  // namespace spadework::climate
