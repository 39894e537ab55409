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

std::string when_says(const When& when) {
  if (when.day)
    return fmt::format("on {} {}", static_cast<unsigned>(when.day->day()),
                       month_name(static_cast<unsigned>(when.day->month())));
  const std::string_view first = month_name(static_cast<unsigned>(when.months.front()) + 1);
  if (when.months.size() == 1) return std::string(first);
  return fmt::format("{} to {}", first, month_name(static_cast<unsigned>(when.months.back()) + 1));
}

/// Which trees are drawn in leaf.
int day_shown(const When& when, const garden::Site& site) {
  if (when.day) return day_of_year(*when.day);
  if (when.months.size() == 1)
    return day_of_year(
        make_date(kReferenceYear, static_cast<unsigned>(when.months.front()) + 1, 15));
  return site.latitude < degrees(0) ? 1 : 180;
}

std::string head_says(const std::string& scheme, const When& when) {
  const std::string of = capital(scheme_says(scheme)), time = when_says(when);
  if (when.clock_h)
    return fmt::format("{}: sun and shade {}, {}, clear sky", of, time,
                       clock_text(*when.clock_h, false));
  return fmt::format("{}: hours of sun{}, {}, clear sky", of, when.day ? "" : " a day", time);
}

/// Of a moment how much of each bed is in the sun, else the places' hours.
Result<std::vector<light::LightSheet::Figure>> figures_of(Study& study, const std::string& scheme,
                                                          const When& when, const FieldShown& shown,
                                                          const garden::Garden& garden) {
  std::vector<light::LightSheet::Figure> figures;
  if (when.clock_h) {
    const auto shares = light::bed_means(*shown.field, shown.hours, garden.beds.size());
    for (std::size_t b = 0; b < shares.size(); ++b)
      if (shares[b]) figures.push_back({garden.beds[b].id, *shares[b], false});
    return figures;
  }
  const auto year = when.day ? study.places_day(scheme, *when.day) : study.places_year(scheme);
  if (!year) return tl::unexpected<Error>(year.error());
  const auto guesses = study.on_guesses(scheme);
  if (!guesses) return tl::unexpected<Error>(guesses.error());
  for (const light::PlaceSun& place : (*year)->places)
    figures.push_back({place.place.id,
                       light::mean_sun_h(place.months, (*year)->sun.days_in_month, when.months),
                       (*guesses)->rests(place.place.id, when.months)});
  return figures;
}

}  // namespace

double drawn_cell_m(const garden::Garden& garden) {
  constexpr double kMostCells = 300'000;
  const geometry::Box2 box = garden::extent(garden);
  return std::max(0.1, std::sqrt(box.width() * box.height() / kMostCells));
}

Result<geometry::Drawing> light_picture(Study& study, const std::string& scheme, When when,
                                        double cell_m) {
  const auto stand = study.stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const garden::Garden& garden = (*stand)->garden;
  if (cell_m <= 0) cell_m = drawn_cell_m(garden);
  if (when.day) when.months = {static_cast<int>(static_cast<unsigned>(when.day->month())) - 1};
  if (when.months.empty()) when.months = light::growing_months(garden.site.latitude);
  if (!when.day) when.clock_h.reset();
  auto shown = field_shown(study, scheme, when, cell_m);
  if (!shown) return tl::unexpected<Error>(shown.error());
  const auto found = study.stand("found");
  if (!found) return tl::unexpected<Error>(found.error());
  auto figures = figures_of(study, scheme, when, *shown, garden);
  if (!figures) return tl::unexpected<Error>(figures.error());
  return light::light_drawing({garden, scheme == "found" ? nullptr : &(*found)->garden,
                               (*stand)->surface, study.catalogue(), *shown->field,
                               std::move(shown->hours), std::move(*figures),
                               head_says(scheme, when), when.day.has_value(),
                               day_shown(when, garden.site), when.clock_h.has_value()});
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
