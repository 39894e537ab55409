// Radiation from the table of stations against measured radiation.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>

#include "climate/climate.h"
#include "climate/test_garden.h"
#include "climate/test_stations.h"
#include "tests/golden/climate/read_table.h"

namespace spadework::climate {
namespace {

struct Measured {
  std::string name;
  double latitude_deg = 0, longitude_deg = 0, elevation_m = 0;
  std::array<double, 12> global_mj_m2_d{}, tmax_c{}, tmin_c{};

  [[nodiscard]] double year() const {
    double sum = 0;
    for (unsigned m = 1; m <= 12; ++m)
      sum += global_mj_m2_d[m - 1] * days_in_month(kReferenceYear, m);
    return sum;
  }
};

std::vector<Measured> measured() {
  std::vector<Measured> out;
  for (const golden::Row& row : golden::climate_table("measured_radiation/measured.csv")) {
    if (out.empty() || out.back().name != row.text("place"))
      out.push_back({row.text("place"),
                     row.number("latitude_deg"),
                     row.number("longitude_deg"),
                     row.number("elevation_m"),
                     {},
                     {},
                     {}});
    const auto m = static_cast<std::size_t>(row.number("month")) - 1;
    out.back().global_mj_m2_d[m] = row.number("global_mj_m2_d");
    out.back().tmax_c[m] = row.number("tmax_c");
    out.back().tmin_c[m] = row.number("tmin_c");
  }
  return out;
}

PlaceClimate climate_at(const Measured& place) {
  static const Stations stations = shipped_stations();
  auto out = climate_of(garden_at(place.latitude_deg, place.longitude_deg, place.elevation_m),
                        stations, nullptr);
  EXPECT_TRUE(out.has_value()) << place.name;
  return out.value_or(PlaceClimate{});
}

TEST(EstimatedRadiation, OfTheYearIsWithin8PercentOfTheMeasured) {
  const auto places = measured();
  ASSERT_EQ(places.size(), 6u);
  for (const Measured& place : places) {
    const PlaceClimate here = climate_at(place);
    const double error = here.year_global_mj_m2 / place.year() - 1;
    std::string months;
    for (std::size_t m = 0; m < 12; ++m)
      months += fmt::format(" {:+.0f}",
                            100 * (here.months[m].global_mj_m2_d / place.global_mj_m2_d[m] - 1));
    fmt::print(
        "{:10} {:.0f} MJ/m² measured, {:+.1f} % (stated ±{:.1f} %), sunshine {:.0f} km away, "
        "swing {:.0f} %; months{} %\n",
        place.name, place.year(), 100 * error, 100 * *here.year_global_share,
        in_metres(here.blend_of(Element::kSunshine)->stations.front().distance) / 1000,
        100 * here.swing_share, months);
    EXPECT_LE(std::abs(error), 0.08) << place.name;
    for (std::size_t m = 0; m < 12; ++m)
      EXPECT_NEAR(here.months[m].global_mj_m2_d / place.global_mj_m2_d[m], 1, 0.30)
          << place.name << " month " << m + 1;
  }
}

// The measured years are others than the stations' (five years, or one put together), which tables
// made of the stations' own years know nothing of: so the bounds are a little under two in three.
TEST(PlusOrMinus, HoldsAboutTwoInThreeOfTheMeasuredMonths) {
  int radiation = 0, warmth = 0, months = 0;
  for (const Measured& place : measured()) {
    const PlaceClimate here = climate_at(place);
    for (std::size_t m = 0; m < 12; ++m) {
      const Month& month = here.months[m];
      ++months;
      if (std::abs(month.global_mj_m2_d - place.global_mj_m2_d[m]) <=
          *month.plus_minus.global_share * month.global_mj_m2_d)
        ++radiation;
      for (const double off :
           {in_celsius(*month.tmax) - place.tmax_c[m], in_celsius(*month.tmin) - place.tmin_c[m]})
        if (std::abs(off) <= *month.plus_minus.temperature_k) ++warmth;
    }
  }
  fmt::print("within plus or minus: radiation {} of {}, temperatures {} of {}\n", radiation, months,
             warmth, 2 * months);
  EXPECT_GE(radiation, 0.6 * months);
  EXPECT_GE(warmth, 0.6 * 2 * months);
}

}  // namespace
}  // namespace spadework::climate
