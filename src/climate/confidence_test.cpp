// How sure the figures are: the table of stations set against itself. Truth is what a station
// reports; of radiation, what Ångström's equation makes of the sunshine that it reports.
#include "climate/confidence.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "climate/nearby.h"
#include "climate/radiation.h"
#include "climate/test_stations.h"

namespace spadework::climate {
namespace {

constexpr std::size_t kRows = kFar_km.size();
constexpr std::size_t kColumns = kHigher_m.size();
constexpr double kDark_h = 1;
using Errors = std::vector<double>;

/// Two in three (68.27 %) are smaller.
double smaller_two_in_three(Errors errors) {
  for (double& error : errors) error = std::abs(error);
  const auto at = static_cast<std::size_t>(0.6827 * static_cast<double>(errors.size()));
  std::nth_element(errors.begin(), errors.begin() + static_cast<std::ptrdiff_t>(at), errors.end());
  return errors[at];
}

double mean(const Errors& errors) {
  return std::accumulate(errors.begin(), errors.end(), 0.0) / static_cast<double>(errors.size());
}

void append(Errors& to, const Errors& from) { to.insert(to.end(), from.begin(), from.end()); }

/// What one station left out has to say, or all of them.
struct LeftOut {
  Errors temperature[kRows][kColumns], sunshine[kRows][kColumns];  // K; share of the day's length
  // of sunshine in a month as share of the day's length, by row
  Errors alone[kRows], as_made[kRows], swing_beside[kRows];
  // of radiation in a year as share of itself; `sure` holds error over plus or minus
  Errors year[kRows], sure[kRows];
  Errors swing, swing_year;                         // all by 0.16
  Errors coast_16, coast_19, inland_16, inland_19;  // of the year, by Conrad's index

  void add(const LeftOut& other) {
    for (std::size_t i = 0; i < kRows; ++i) {
      for (std::size_t j = 0; j < kColumns; ++j) {
        append(temperature[i][j], other.temperature[i][j]);
        append(sunshine[i][j], other.sunshine[i][j]);
      }
      append(alone[i], other.alone[i]);
      append(swing_beside[i], other.swing_beside[i]);
      append(as_made[i], other.as_made[i]);
      append(year[i], other.year[i]);
      append(sure[i], other.sure[i]);
    }
    append(swing, other.swing);
    append(swing_year, other.swing_year);
    append(coast_16, other.coast_16);
    append(coast_19, other.coast_19);
    append(inland_16, other.inland_16);
    append(inland_19, other.inland_19);
  }
};

/// The column of a height difference: under 100 m, to 300 m, more.
std::size_t column_of(double height_m) {
  return std::abs(height_m) < 100 ? 0 : std::abs(height_m) < 300 ? 1 : 2;
}

using Hours = std::array<double, 12>;

/// One station against the others.
class OneLeftOut {
 public:
  OneLeftOut(const Stations& stations, std::size_t number)
      : number_(number),
        station_(stations.all()[number]),
        around_(stations, {station_.latitude, station_.longitude, station_.elevation}) {
    own_ = *stations.record(number);
    sunny_ = stations.has_all_months(number, Element::kSunshine);
    for (unsigned m = 1; m <= 12; ++m) skies_[m - 1] = sky_of_month(station_.latitude, m);
  }

  LeftOut compare() {
    if (sunny_) swing();
    for (std::size_t row = 0; row < kRows; ++row) {
      temperatures(row);
      if (sunny_) sunshine(row);
    }
    return std::move(out_);
  }

 private:
  [[nodiscard]] Blend predict(Element element, std::size_t row) const {
    return **around_.blend(element, Choice{std::nullopt, number_, row == 0 ? 0 : kFar_km[row]});
  }
  [[nodiscard]] static bool counts(const Blend& blend, std::size_t row) {
    return blend.far_km < 1.3 * kFar_km[row];
  }

  void temperatures(std::size_t row) {
    for (Element element : {Element::kTmax, Element::kTmin}) {
      const Blend blend = predict(element, row);
      if (!counts(blend, row)) return;
      for (std::size_t m = 0; m < 12; ++m)
        out_.temperature[row][column_of(blend.height_m)].push_back(blend.value[m] -
                                                                   *own_.of(element)[m]);
    }
  }

  [[nodiscard]] double year_of(const Hours& sunshine_h) const {
    double sum = 0;
    for (unsigned m = 1; m <= 12; ++m)
      sum += radiation_from_sunshine(sunshine_h[m - 1], skies_[m - 1]) *
             days_in_month(kReferenceYear, m);
    return sum;
  }
  [[nodiscard]] Hours own_hours() const {
    Hours out{};
    for (std::size_t m = 0; m < 12; ++m)
      out[m] = std::min(own_.of(Element::kSunshine)[m].value_or(0), skies_[m].day_length_h);
    return out;
  }
  void by_month(const Hours& predicted, Errors& out) const {
    const Hours truth = own_hours();
    for (std::size_t m = 0; m < 12; ++m) {
      if (skies_[m].day_length_h >= kDark_h)
        out.push_back((predicted[m] - truth[m]) / skies_[m].day_length_h);
    }
  }

  void swing() {
    const Blend tmax = predict(Element::kTmax, 0), tmin = predict(Element::kTmin, 0);
    const auto hours = [&](double coefficient) {
      Hours out{};
      for (std::size_t m = 0; m < 12; ++m)
        out[m] = sunshine_from_radiation(
            radiation_from_swing(celsius(tmax.value[m]), celsius(tmin.value[m]), coefficient,
                                 station_.elevation, skies_[m]),
            skies_[m]);
      return out;
    };
    swing_h_ = hours(kInlandSwing);
    by_month(swing_h_, out_.swing);
    const double truth = year_of(own_hours());
    const double inland = year_of(swing_h_) / truth - 1;
    const double coast = year_of(hours(kCoastSwing)) / truth - 1;
    out_.swing_year.push_back(inland);
    double warmest = -99, coldest = 99;
    for (std::size_t m = 0; m < 12; ++m) {
      const double at = (*own_.of(Element::kTmax)[m] + *own_.of(Element::kTmin)[m]) / 2;
      warmest = std::max(warmest, at);
      coldest = std::min(coldest, at);
    }
    const bool maritime = continentality(kelvins(warmest - coldest), station_.latitude) < 20;
    (maritime ? out_.coast_16 : out_.inland_16).push_back(inland);
    (maritime ? out_.coast_19 : out_.inland_19).push_back(coast);
  }

  void sunshine(std::size_t row) {
    const Blend blend = predict(Element::kSunshine, row);
    if (!counts(blend, row)) return;
    by_month(blend.value, out_.sunshine[row][column_of(blend.height_m)]);
    by_month(blend.value, out_.alone[row]);
    const double error = error_at(sunshine_errors(), blend.far_km, blend.height_m);
    const auto mixed = [&](double share) {
      Hours out{};
      for (std::size_t m = 0; m < 12; ++m)
        out[m] = (1 - share) * blend.value[m] + share * swing_h_[m];
      return out;
    };
    by_month(swing_h_, out_.swing_beside[row]);
    const double share = swing_share(error);
    const Hours made = mixed(share);
    by_month(made, out_.as_made[row]);
    const double year = year_of(made) / year_of(own_hours()) - 1;
    out_.year[row].push_back(year);
    double sum = 0, off = 0;
    for (unsigned m = 1; m <= 12; ++m) {
      const int days = days_in_month(kReferenceYear, m);
      sum += radiation_from_sunshine(made[m - 1], skies_[m - 1]) * days;
      off +=
          kBeamShare * sunshine_error(share, error) * skies_[m - 1].extraterrestrial_mj_m2_d * days;
    }
    out_.sure[row].push_back(year / (off / sum));
  }

  std::size_t number_;
  const Station& station_;
  Neighbours around_;
  StationRecord own_;
  bool sunny_ = false;
  std::array<Sky, 12> skies_;
  Hours swing_h_{};
  LeftOut out_;
};

const LeftOut& left_out() {
  static const LeftOut all = [] {
    const Stations stations = shipped_stations();
    std::vector<LeftOut> each(stations.all().size());
    parallel_for(static_cast<int>(each.size()), hardware_threads(), [&](int i) {
      const auto number = static_cast<std::size_t>(i);
      each[number] = OneLeftOut(stations, number).compare();
    });
    LeftOut sum;
    for (const LeftOut& one : each) sum.add(one);
    return sum;
  }();
  return all;
}

/// The table as it is made: two in three errors of each cell, never less than nearer or leveller.
void expect_made_so(const ErrorTable& shipped, const Errors (&errors)[kRows][kColumns], double step,
                    const char* what) {
  ErrorTable made{};
  for (std::size_t i = 0; i < kRows; ++i) {
    std::string line = fmt::format("{:24} {:4.0f} km:", what, kFar_km[i]);
    for (std::size_t j = 0; j < kColumns; ++j) {
      if (errors[i][j].size() >= 20) made[i][j] = smaller_two_in_three(errors[i][j]);
      if (i > 0) made[i][j] = std::max(made[i][j], made[i - 1][j]);
      if (j > 0) made[i][j] = std::max(made[i][j], made[i][j - 1]);
      line += fmt::format("  {:.4f} of {:5}", made[i][j], errors[i][j].size());
      EXPECT_NEAR(shipped[i][j], made[i][j], 0.51 * step) << what << " " << i << " " << j;
    }
    fmt::print("{}\n", line);
  }
}

TEST(Confidence, TablesAreThoseOfTheStationsLeftOut) {
  expect_made_so(temperature_errors(), left_out().temperature, 0.01, "temperature, K");
  expect_made_so(sunshine_errors(), left_out().sunshine, 0.001, "sunshine, share of day");
  const double swing = smaller_two_in_three(left_out().swing);
  fmt::print(
      "sunshine from the swing, share of day: {:.4f}; radiation of the year {:.4f}, {:+.4f} "
      "on average\n",
      swing, smaller_two_in_three(left_out().swing_year), mean(left_out().swing_year));
  EXPECT_NEAR(kSwingError, swing, 0.00051);
}

double correlation(const Errors& a, const Errors& b) {
  double ab = 0, aa = 0, bb = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    ab += a[i] * b[i];
    aa += a[i] * a[i];
    bb += b[i] * b[i];
  }
  return ab / std::sqrt(aa * bb);
}

TEST(Confidence, FarStationsAndTheSwingErrAlikeAsFarAsIsSaid) {
  Errors stations, swing;
  for (std::size_t i = 4; i < kRows; ++i) {
    append(stations, left_out().alone[i]);
    append(swing, left_out().swing_beside[i]);
    fmt::print("{:4.0f} km: errors go together {:.3f}\n", kFar_km[i],
               correlation(left_out().alone[i], left_out().swing_beside[i]));
  }
  const double alike = correlation(stations, swing);
  fmt::print("all from 400 km: {:.4f}\n", alike);
  EXPECT_NEAR(kErrAlike, alike, 0.0051);
}

TEST(Confidence, WithTheSwingIsNowhereWorseThanStationsAloneAndFarOffBetterThanEither) {
  const double swing = smaller_two_in_three(left_out().swing);
  for (std::size_t i = 0; i < kRows; ++i) {
    const double alone = smaller_two_in_three(left_out().alone[i]);
    const double made = smaller_two_in_three(left_out().as_made[i]);
    fmt::print("{:4.0f} km: stations {:.4f}, as made {:.4f}\n", kFar_km[i], alone, made);
    EXPECT_LE(made, alone + 0.0005) << kFar_km[i];
    EXPECT_LT(made, swing) << kFar_km[i];
    if (kFar_km[i] >= 800) {
      EXPECT_LT(made, 0.95 * alone) << kFar_km[i];
    }
  }
}

TEST(Confidence, TheYearsPlusOrMinusHoldsAtLeastTwoInThree) {
  for (std::size_t i = 0; i < kRows; ++i) {
    const Errors& sure = left_out().sure[i];
    const auto within =
        std::count_if(sure.begin(), sure.end(), [](double e) { return std::abs(e) <= 1; });
    const double share = static_cast<double>(within) / static_cast<double>(sure.size());
    fmt::print(
        "{:4.0f} km: year's radiation off by {:.3f} two in three, {:+.3f} on average, within "
        "plus or minus {:.0f} % of {}\n",
        kFar_km[i], smaller_two_in_three(left_out().year[i]), mean(left_out().year[i]), 100 * share,
        sure.size());
    EXPECT_GE(share, 0.66);
    EXPECT_LE(share, 0.90);
  }
}

/// Why the coefficient 0.19 is not used: it was meant for coasts; by the index of continentality
/// it makes maritime stations worse.
TEST(Confidence, TheCoastsCoefficientIsWorseAtMaritimeStationsToo) {
  const LeftOut& all = left_out();
  fmt::print(
      "year by the swing, maritime ({}): 0.16 off by {:.3f} ({:+.3f}), 0.19 by {:.3f} "
      "({:+.3f}); inland ({}): {:.3f} ({:+.3f}), {:.3f} ({:+.3f})\n",
      all.coast_16.size(), smaller_two_in_three(all.coast_16), mean(all.coast_16),
      smaller_two_in_three(all.coast_19), mean(all.coast_19), all.inland_16.size(),
      smaller_two_in_three(all.inland_16), mean(all.inland_16), smaller_two_in_three(all.inland_19),
      mean(all.inland_19));
  EXPECT_LT(smaller_two_in_three(all.coast_16), smaller_two_in_three(all.coast_19));
  EXPECT_LT(smaller_two_in_three(all.inland_16), smaller_two_in_three(all.inland_19));
}

}  // namespace
}  // namespace spadework::climate
