#include "exchange/results_csv.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace spadework::exchange {
namespace {

/// "ground", or the bed's id.
std::string lies_on(const study::Stand& stand, const light::Field& field, std::size_t cell) {
  const std::int32_t on = field.lies_on[cell];
  return on == light::kOnGround ? "ground" : stand.garden.beds[static_cast<std::size_t>(on)].id;
}

const char* on_guesses(const study::OnGuesses& guesses, const std::string& place,
                       std::size_t month) {
  return guesses.rests(place, {static_cast<int>(month)}) ? "yes" : "no";
}

/// The mean of the growing months, as the picture has it: `month` says which they are.
void append_mean(std::string& out, const PlacesOf& of, const light::PlaceSun& place) {
  using light::MonthSun;
  const auto mean = [&](double MonthSun::*figure) {
    return light::mean_of(place.months, of.year.sun.days_in_month, of.growing, figure);
  };
  fmt::format_to(std::back_inserter(out),
                 "{},{},{},{} to {},{:.3f},{:.3f},{:.3f},{:.3f},{:.3f},{:.3f},{:.4f},{}\n",
                 of.scheme, place.place.id, light::place_kind_name(place.place.kind),
                 of.growing.front() + 1, of.growing.back() + 1, mean(&MonthSun::sun_h_per_day),
                 mean(&MonthSun::morning_h), mean(&MonthSun::midday_h),
                 mean(&MonthSun::afternoon_h), mean(&MonthSun::sunshine_h_per_day),
                 mean(&MonthSun::dli_mol_m2_d), mean(&MonthSun::share_of_open),
                 of.on_guesses.rests(place.place.id, of.growing) ? "yes" : "no");
}

}  // namespace

std::string field_csv(const study::Stand& stand, const light::Field& field,
                      const std::vector<int>& growing) {
  std::string out = "x_m,y_m,on";
  for (unsigned m = 1; m <= 12; ++m) out += fmt::format(",sun_h_per_day_{:02d}", m);
  out += ",sun_h_per_day_growing";
  for (unsigned m = 1; m <= 12; ++m) out += fmt::format(",dli_mol_m2_d_{:02d}", m);
  out += ",dli_mol_m2_d_growing\n";
  const std::array<int, 12> days = [] {
    std::array<int, 12> d{};
    for (unsigned m = 1; m <= 12; ++m) d[m - 1] = days_in_month(kReferenceYear, m);
    return d;
  }();
  auto back = std::back_inserter(out);
  for (int r = 0; r < field.rows; ++r) {
    for (int c = 0; c < field.columns; ++c) {
      const std::size_t i = field.index(c, r);
      if (field.lies_on[i] == light::kNoCell) continue;
      const geometry::Vec2 p = field.middle(c, r);
      fmt::format_to(back, "{:.3f},{:.3f},{}", p.x, p.y, lies_on(stand, field, i));
      for (const auto* figures : {&field.months, &field.dli}) {
        double sum = 0, over = 0;
        for (const std::vector<float>& month : *figures) fmt::format_to(back, ",{:.3f}", month[i]);
        for (const int m : growing) {
          const auto month = static_cast<std::size_t>(m);
          sum += static_cast<double>((*figures)[month][i]) * days[month];
          over += days[month];
        }
        fmt::format_to(back, ",{:.3f}", sum / over);
      }
      out += "\n";
    }
  }
  return out;
}

std::string day_field_csv(const study::Stand& stand, const light::Field& field, LocalDate date) {
  const auto month = static_cast<std::size_t>(static_cast<unsigned>(date.month()) - 1);
  std::string out = "x_m,y_m,on,sun_h,dli_mol_m2_d\n";
  auto back = std::back_inserter(out);
  for (int r = 0; r < field.rows; ++r) {
    for (int c = 0; c < field.columns; ++c) {
      const std::size_t i = field.index(c, r);
      if (field.lies_on[i] == light::kNoCell) continue;
      const geometry::Vec2 p = field.middle(c, r);
      fmt::format_to(back, "{:.3f},{:.3f},{},{:.3f},{:.3f}\n", p.x, p.y, lies_on(stand, field, i),
                     field.months[month][i], field.dli[month][i]);
    }
  }
  return out;
}

std::string places_csv(const std::vector<PlacesOf>& schemes) {
  std::string out =
      "scheme,place,kind,month,sun_h_per_day,morning_h,midday_h,afternoon_h,sunshine_h_per_day,"
      "dli_mol_m2_d,share_of_open,on_guesses\n";
  auto back = std::back_inserter(out);
  for (const PlacesOf& of : schemes) {
    for (const light::PlaceSun& place : of.year.places) {
      for (std::size_t m = 0; m < 12; ++m) {
        const light::MonthSun& month = place.months[m];
        fmt::format_to(back, "{},{},{},{},{:.3f},{:.3f},{:.3f},{:.3f},{:.3f},{:.3f},", of.scheme,
                       place.place.id, light::place_kind_name(place.place.kind), m + 1,
                       month.sun_h_per_day, month.morning_h, month.midday_h, month.afternoon_h,
                       month.sunshine_h_per_day, month.dli_mol_m2_d);
        if (!std::isnan(month.share_of_open)) fmt::format_to(back, "{:.4f}", month.share_of_open);
        fmt::format_to(back, ",{}\n", on_guesses(of.on_guesses, place.place.id, m));
      }
      append_mean(out, of, place);
    }
  }
  return out;
}

std::string places_day_csv(const std::vector<PlacesOf>& schemes, LocalDate date) {
  const auto month = static_cast<std::size_t>(static_cast<unsigned>(date.month()) - 1);
  std::string out = "scheme,place,kind,day,sun_h,morning_h,midday_h,afternoon_h,on_guesses\n";
  auto back = std::back_inserter(out);
  for (const PlacesOf& of : schemes) {
    for (const light::PlaceSun& place : of.year.places) {
      const light::MonthSun& day = place.months[month];
      fmt::format_to(back, "{},{},{},{},{:.3f},{:.3f},{:.3f},{:.3f},{}\n", of.scheme,
                     place.place.id, light::place_kind_name(place.place.kind),
                     iso_date(date).substr(5), day.sun_h_per_day, day.morning_h, day.midday_h,
                     day.afternoon_h, on_guesses(of.on_guesses, place.place.id, month));
    }
  }
  return out;
}

std::string beds_moment_csv(const std::vector<BedsOf>& schemes, LocalDate date, double clock_h) {
  const auto month = static_cast<std::size_t>(static_cast<unsigned>(date.month()) - 1);
  std::string out = "scheme,bed,day,clock,share_in_sun,on_guesses\n";
  auto back = std::back_inserter(out);
  for (const BedsOf& of : schemes) {
    for (std::size_t b = 0; b < of.beds.size(); ++b) {
      if (of.share_in_sun[b])
        fmt::format_to(back, "{},{},{},{},{:.3f},{}\n", of.scheme, of.beds[b],
                       iso_date(date).substr(5), clock_text(clock_h, false), *of.share_in_sun[b],
                       on_guesses(of.on_guesses, of.beds[b], month));
    }
  }
  return out;
}

}  // namespace spadework::exchange
