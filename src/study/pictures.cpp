#include "study/pictures.h"

#include <fmt/format.h>

#include <cmath>

#include "light/light_drawing.h"
#include "light/print_drawing.h"
#include "study/answers.h"

namespace spadework::study {
namespace {

std::string capital(std::string says) {
  says[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(says[0])));
  return says;
}

std::string when_says(const std::vector<int>& months, std::optional<LocalDate> date) {
  if (date)
    return fmt::format("on {} {}", static_cast<unsigned>(date->day()),
                       month_name(static_cast<unsigned>(date->month())));
  const std::string_view first = month_name(static_cast<unsigned>(months.front()) + 1);
  if (months.size() == 1) return std::string(first);
  return fmt::format("{} to {}", first, month_name(static_cast<unsigned>(months.back()) + 1));
}

/// Which trees are drawn in leaf.
int day_shown(const std::vector<int>& months, std::optional<LocalDate> date,
              const garden::Site& site) {
  if (date) return day_of_year(*date);
  if (months.size() == 1)
    return day_of_year(make_date(kReferenceYear, static_cast<unsigned>(months.front()) + 1, 15));
  return site.latitude < degrees(0) ? 1 : 180;
}

}  // namespace

double drawn_cell_m(const garden::Garden& garden) {
  constexpr double kMostCells = 300'000;
  const geometry::Box2 box = garden::extent(garden);
  return std::max(0.1, std::sqrt(box.width() * box.height() / kMostCells));
}

Result<geometry::Drawing> light_picture(Study& study, const std::string& scheme,
                                        const std::vector<int>& asked,
                                        std::optional<LocalDate> date, double cell_m) {
  const auto stand = study.stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const garden::Garden& garden = (*stand)->garden;
  if (cell_m <= 0) cell_m = drawn_cell_m(garden);
  std::vector<int> months = asked;
  if (date) months = {static_cast<int>(static_cast<unsigned>(date->month())) - 1};
  if (months.empty()) months = light::growing_months(garden.site.latitude);
  const auto field = study.field_hours(scheme, cell_m, date);
  if (!field) return tl::unexpected<Error>(field.error());
  const auto year = date ? study.places_day(scheme, *date) : study.places_year(scheme);
  if (!year) return tl::unexpected<Error>(year.error());
  const auto found = study.stand("found");
  if (!found) return tl::unexpected<Error>(found.error());
  light::LightSheet sheet{garden,
                          scheme == "found" ? nullptr : &(*found)->garden,
                          (*stand)->surface,
                          study.catalogue(),
                          **field,
                          {},
                          {},
                          {},
                          date.has_value(),
                          180};
  sheet.hours = light::field_mean(**field, (*year)->sun, months);
  for (const light::PlaceSun& place : (*year)->places)
    sheet.figures.push_back(
        {place.place.id, light::mean_sun_h(place.months, (*year)->sun.days_in_month, months)});
  sheet.says = fmt::format("{}: hours of sun{}, {}, clear sky", capital(scheme_says(scheme)),
                           date ? "" : " a day", when_says(months, date));
  sheet.day_of_year = day_shown(months, date, garden.site);
  return light::light_drawing(sheet);
}

Result<geometry::Drawing> print_picture(Study& study, const std::string& scheme,
                                        const std::string& place) {
  const auto stand = study.stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const auto print = study.print(scheme, place);
  if (!print) return tl::unexpected<Error>(print.error());
  const auto year = study.places_year(scheme, nullptr, {place});
  if (!year) return tl::unexpected<Error>(year.error());
  const auto ranked = study.takers(scheme);
  if (!ranked) return tl::unexpected<Error>(ranked.error());
  const auto takers = study.takers(scheme, {place});
  if (!takers) return tl::unexpected<Error>(takers.error());
  light::PrintSheet sheet{(*stand)->garden,    **print,           *(*takers)->find(place),
                          scheme_says(scheme), (*ranked)->ranked, {}};
  const light::PlaceSun* sun = (*year)->find(place);
  for (std::size_t m = 0; m < 12; ++m) sheet.month_sun_h[m] = sun->months[m].sun_h_per_day;
  return light::print_drawing(sheet);
}

}  // namespace spadework::study
