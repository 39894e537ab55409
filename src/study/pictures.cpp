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

std::string head_says(const std::string& scheme, const std::vector<int>& months,
                      std::optional<LocalDate> date, std::optional<double> clock_h) {
  const std::string of = capital(scheme_says(scheme)), when = when_says(months, date);
  if (clock_h)
    return fmt::format("{}: sun and shade {}, {}, clear sky", of, when,
                       clock_text(*clock_h, false));
  return fmt::format("{}: hours of sun{}, {}, clear sky", of, date ? "" : " a day", when);
}

/// How much of each bed is in the sun, from the field of a moment.
std::vector<light::LightSheet::Figure> shares_of_beds(const light::Field& field,
                                                      const std::vector<float>& shares,
                                                      const garden::Garden& garden) {
  std::vector<double> sums(garden.beds.size()), cells(garden.beds.size());
  for (std::size_t i = 0; i < shares.size(); ++i) {
    if (field.lies_on[i] < 0 || std::isnan(shares[i])) continue;
    sums[static_cast<std::size_t>(field.lies_on[i])] += static_cast<double>(shares[i]);
    cells[static_cast<std::size_t>(field.lies_on[i])] += 1;
  }
  std::vector<light::LightSheet::Figure> figures;
  for (std::size_t b = 0; b < garden.beds.size(); ++b)
    if (cells[b] > 0) figures.push_back({garden.beds[b].id, sums[b] / cells[b]});
  return figures;
}

/// The field to be drawn; of a moment, 1 in the sun.
Result<Shared<light::Field>> field_drawn(Study& study, const std::string& scheme, double cell_m,
                                         std::optional<LocalDate> date,
                                         std::optional<double> clock_h) {
  if (!clock_h) return study.field_hours(scheme, cell_m, date);
  auto moment = study.field_of_moment(scheme, cell_m, *date, *clock_h);
  if (!moment) return tl::unexpected<Error>(moment.error());
  return std::make_shared<const light::Field>(std::move(*moment));
}

/// The field of a moment and of its beds: no day to take a mean of.
void show_moment(light::LightSheet& sheet, const std::vector<int>& months) {
  light::SunYear moment;
  moment.days_in_month.fill(1);
  sheet.one_moment = true;
  sheet.hours = light::field_mean(sheet.field, moment, months);
  sheet.figures = shares_of_beds(sheet.field, sheet.hours, sheet.garden);
}

Result<void> show_hours(light::LightSheet& sheet, Study& study, const std::string& scheme,
                        const std::vector<int>& months, std::optional<LocalDate> date) {
  const auto year = date ? study.places_day(scheme, *date) : study.places_year(scheme);
  if (!year) return tl::unexpected<Error>(year.error());
  sheet.hours = light::field_mean(sheet.field, (*year)->sun, months);
  for (const light::PlaceSun& place : (*year)->places)
    sheet.figures.push_back(
        {place.place.id, light::mean_sun_h(place.months, (*year)->sun.days_in_month, months)});
  return {};
}

}  // namespace

double drawn_cell_m(const garden::Garden& garden) {
  constexpr double kMostCells = 300'000;
  const geometry::Box2 box = garden::extent(garden);
  return std::max(0.1, std::sqrt(box.width() * box.height() / kMostCells));
}

Result<geometry::Drawing> light_picture(Study& study, const std::string& scheme,
                                        const std::vector<int>& asked,
                                        std::optional<LocalDate> date, double cell_m,
                                        std::optional<double> clock_h) {
  const auto stand = study.stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const garden::Garden& garden = (*stand)->garden;
  if (cell_m <= 0) cell_m = drawn_cell_m(garden);
  std::vector<int> months = asked;
  if (date) months = {static_cast<int>(static_cast<unsigned>(date->month())) - 1};
  if (months.empty()) months = light::growing_months(garden.site.latitude);
  if (!date) clock_h.reset();
  const auto field = field_drawn(study, scheme, cell_m, date, clock_h);
  if (!field) return tl::unexpected<Error>(field.error());
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
  if (clock_h) {
    show_moment(sheet, months);
  } else if (const auto done = show_hours(sheet, study, scheme, months, date); !done) {
    return tl::unexpected<Error>(done.error());
  }
  sheet.says = head_says(scheme, months, date, clock_h);
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
