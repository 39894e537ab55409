#include "cli/light_pictures.h"

#include <fmt/format.h>

#include <charconv>

#include "cli/files.h"
#include "embedded/embedded.h"
#include "sheets/sheets.h"
#include "study/pictures.h"

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

Result<geometry::Drawing> drawing_of(const LightOptions& options, study::Study& study,
                                     std::optional<LocalDate> date) {
  if (!options.print.empty())
    return study::print_picture(study, options.common.scheme, options.print);
  std::vector<int> months;
  if (!options.month.empty()) {
    const auto month = parse_month(options.month);
    if (!month) return tl::unexpected<Error>(month.error());
    months = {*month};
  }
  return study::light_picture(study, options.common.scheme, {months, date, {}}, options.cell_m);
}

}  // namespace

int write_light_pictures(const LightOptions& options, study::Study& study,
                         std::optional<LocalDate> date) {
  const auto drawing = drawing_of(options, study, date);
  if (!drawing) return tell(drawing.error());
  const auto written = write_pictures(options, *drawing);
  return written ? 0 : tell(written.error());
}

}  // namespace spadework::cli
