#include "cli/light_pictures.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>

#include "cli/files.h"
#include "cli/light_tables.h"
#include "embedded/embedded.h"
#include "light/light_drawing.h"
#include "light/print_drawing.h"
#include "sheets/sheets.h"

namespace spadework::cli {
namespace {

constexpr double kDotsPerMm = 8;

Result<int> parse_month(const std::string& text) {
  int number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error == std::errc() && end == text.data() + text.size() && number >= 1 && number <= 12)
    return number - 1;
  std::vector<std::string> names;
  for (unsigned m = 1; m <= 12; ++m) names.emplace_back(month_name(m));
  const std::string near = text.size() < 3 ? "" : nearest_word(text, names);
  for (unsigned m = 1; m <= 12; ++m) {
    if (near == month_name(m)) return static_cast<int>(m) - 1;
  }
  return fail(ErrorCode::kWrongUse, "--month", fmt::format("“{}” is no month.", text),
              "Give its name or number: --month jun, --month 6");
}

Result<bool> write_pictures(const LightOptions& options, const geometry::Drawing& drawing) {
  const auto fonts = sheets::Fonts::open(
      sheets::font_bytes([](std::string_view name) { return embedded_file(name); }));
  if (!fonts) return tl::unexpected<Error>(fonts.error());
  if (!options.svg.empty()) {
    const auto svg = sheets::to_svg(drawing, *fonts);
    if (!svg) return tl::unexpected<Error>(svg.error());
    if (const auto written = write_file(options.svg, *svg); !written)
      return tl::unexpected<Error>(written.error());
  }
  if (!options.png.empty()) {
    const auto png = sheets::to_png(drawing, *fonts, kDotsPerMm);
    if (!png) return tl::unexpected<Error>(png.error());
    const std::string_view bytes(reinterpret_cast<const char*>(png->data()), png->size());
    if (const auto written = write_file(options.png, bytes); !written)
      return tl::unexpected<Error>(written.error());
  }
  return true;
}

class Pictures {
 public:
  Pictures(const LightOptions& options, study::Study& study, const study::Stand& stand,
           std::optional<LocalDate> date)
      : options_(options), study_(study), stand_(stand), date_(date) {}

  Result<geometry::Drawing> draw() {
    if (!options_.print.empty()) return print();
    const std::string& scheme = options_.common.scheme;
    const auto field =
        date_ ? study_.field_of_day(scheme, cell_m(), *date_) : study_.field(scheme, cell_m());
    if (!field) return tl::unexpected<Error>(field.error());
    const auto year = date_ ? study_.places_day(scheme, *date_) : study_.places_year(scheme);
    if (!year) return tl::unexpected<Error>(year.error());
    std::string when;
    const auto months = months_shown(when);
    if (!months) return tl::unexpected<Error>(months.error());
    const auto found = study_.stand("found");
    if (!found) return tl::unexpected<Error>(found.error());
    light::LightSheet sheet{stand_.garden,
                            scheme == "found" ? nullptr : &(*found)->garden,
                            stand_.surface,
                            study_.catalogue(),
                            **field,
                            {},
                            {},
                            {},
                            date_.has_value(),
                            180};
    sheet.hours = light::field_mean(**field, (*year)->sun, *months);
    for (const light::PlaceSun& place : (*year)->places)
      sheet.figures.push_back(
          {place.place.id, light::mean_sun_h(place.months, (*year)->sun.days_in_month, *months)});
    sheet.says = fmt::format("{}: hours of sun{}, {}, clear sky", title_of(scheme),
                             date_ ? "" : " a day", when);
    sheet.day_of_year = day_shown(*months);
    return light::light_drawing(sheet);
  }

 private:
  /// As asked for; else 0.1 m, or in large gardens as fine as the paper shows.
  double cell_m() const {
    constexpr double kMostCells = 300'000;
    if (options_.cell_m > 0) return options_.cell_m;
    const geometry::Box2 box = garden::extent(stand_.garden);
    return std::max(0.1, std::sqrt(box.width() * box.height() / kMostCells));
  }

  static std::string title_of(const std::string& scheme) {
    std::string says = scheme_says(scheme);
    says[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(says[0])));
    return says;
  }

  Result<std::vector<int>> months_shown(std::string& when) const {
    if (date_) {
      const auto month = static_cast<unsigned>(date_->month());
      when = fmt::format("on {} {}", static_cast<unsigned>(date_->day()), month_name(month));
      return std::vector<int>{static_cast<int>(month) - 1};
    }
    if (!options_.month.empty()) {
      const auto month = parse_month(options_.month);
      if (!month) return tl::unexpected<Error>(month.error());
      when = month_name(static_cast<unsigned>(*month) + 1);
      return std::vector<int>{*month};
    }
    auto months = light::growing_months(stand_.garden.site.latitude);
    when = fmt::format("{} to {}", month_name(static_cast<unsigned>(months.front()) + 1),
                       month_name(static_cast<unsigned>(months.back()) + 1));
    return months;
  }

  int day_shown(const std::vector<int>& months) const {
    if (date_) return day_of_year(*date_);
    if (months.size() == 1)
      return day_of_year(make_date(kReferenceYear, static_cast<unsigned>(months.front()) + 1, 15));
    return stand_.garden.site.latitude < degrees(0) ? 1 : 180;
  }

  Result<geometry::Drawing> print() {
    const std::string& scheme = options_.common.scheme;
    const auto print = study_.print(scheme, options_.print);
    if (!print) return tl::unexpected<Error>(print.error());
    const auto year = study_.places_year(scheme, nullptr, {options_.print});
    if (!year) return tl::unexpected<Error>(year.error());
    const auto ranked = study_.takers(scheme);
    if (!ranked) return tl::unexpected<Error>(ranked.error());
    const auto takers = study_.takers(scheme, {options_.print});
    if (!takers) return tl::unexpected<Error>(takers.error());
    light::PrintSheet sheet{
        stand_.garden,       **print,           *(*takers)->find(options_.print),
        scheme_says(scheme), (*ranked)->ranked, {}};
    const light::PlaceSun* place = (*year)->find(options_.print);
    for (std::size_t m = 0; m < 12; ++m) sheet.month_sun_h[m] = place->months[m].sun_h_per_day;
    return light::print_drawing(sheet);
  }

  const LightOptions& options_;
  study::Study& study_;
  const study::Stand& stand_;
  std::optional<LocalDate> date_;
};

}  // namespace

int write_light_pictures(const LightOptions& options, study::Study& study,
                         const study::Stand& stand, std::optional<LocalDate> date) {
  const auto drawing = Pictures(options, study, stand, date).draw();
  if (!drawing) return tell(drawing.error());
  const auto written = write_pictures(options, *drawing);
  return written ? 0 : tell(written.error());
}

}  // namespace spadework::cli
