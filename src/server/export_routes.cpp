// What is taken along: the sun print in bytes, pictures and tables.
#include <cmath>

#include "exchange/results_csv.h"
#include "light/taker_inks.h"
#include "server/routes.h"
#include "server/when.h"
#include "sheets/sheets.h"
#include "study/pictures.h"

namespace spadework::server {
namespace {

constexpr double kDotsPerMm = 8;
constexpr unsigned char kSkylineByte = 254, kNobodyByte = 255;

unsigned char taker_byte(int taker) {
  if (taker == light::kSkylineTaker) return kSkylineByte;
  if (taker == light::kNoTaker || taker >= kSkylineByte) return kNobodyByte;
  return static_cast<unsigned char>(taker);
}

Json print_head(const light::SunPrint& print, const light::Place* place,
                const std::vector<std::string>& ranked) {
  light::TakerInks inks(ranked);
  for (const light::PrintTaker& taker : print.takers) inks.add({taker.id});
  Json takers = Json::array();
  for (const light::PrintTaker& taker : print.takers)
    takers.push_back(taker_json(taker.id, place, taker.first_h, inks));
  return {{"place", print.place},
          {"is_face", print.is_face},
          {"first_day", print.first_day},
          {"day_step", print.day_step},
          {"columns", print.columns},
          {"step_h", print.step_h},
          {"rows", print.rows},
          {"month_sun_h", print.month_sun_h},
          {"lit_h", print.lit_h},
          {"lost_h", print.lost_h},
          {"taken_twice_h", print.taken_twice_h},
          {"takers", std::move(takers)}};
}

/// Of every month, or of a day.
Result<std::string> places_table(study::Study& study, const std::vector<std::string>& schemes,
                                 const study::When& when) {
  std::vector<study::Shared<study::PlacesYear>> years;
  std::vector<study::Shared<study::OnGuesses>> guesses;
  std::vector<exchange::PlacesOf> of;
  for (const std::string& scheme : schemes) {
    const auto year = when.day ? study.places_day(scheme, *when.day) : study.places_year(scheme);
    if (!year) return tl::unexpected<Error>(year.error());
    const auto on_guesses = study.on_guesses(scheme);
    if (!on_guesses) return tl::unexpected<Error>(on_guesses.error());
    years.push_back(*year);
    guesses.push_back(*on_guesses);
    const auto stand = study.stand(scheme);
    if (!stand) return tl::unexpected<Error>(stand.error());
    of.push_back({scheme, *years.back(), *guesses.back(),
                  light::growing_months((*stand)->garden.site.latitude)});
  }
  return when.day ? exchange::places_day_csv(of, *when.day) : exchange::places_csv(of);
}

/// How much of each bed is in the sun.
Result<std::string> moment_table(study::Study& study, const std::vector<std::string>& schemes,
                                 const study::When& when) {
  std::vector<study::Shared<study::OnGuesses>> guesses;
  std::vector<exchange::BedsOf> of;
  for (const std::string& scheme : schemes) {
    const auto stand = study.stand(scheme);
    if (!stand) return tl::unexpected<Error>(stand.error());
    const garden::Garden& garden = (*stand)->garden;
    const auto shown = study::field_shown(study, scheme, when, study::drawn_cell_m(garden));
    if (!shown) return tl::unexpected<Error>(shown.error());
    const auto on_guesses = study.on_guesses(scheme);
    if (!on_guesses) return tl::unexpected<Error>(on_guesses.error());
    guesses.push_back(*on_guesses);
    std::vector<std::string> beds;
    for (const garden::Bed& bed : garden.beds) beds.push_back(bed.id);
    of.push_back({scheme, std::move(beds),
                  light::bed_means(*shown->field, shown->hours, garden.beds.size()),
                  *guesses.back()});
  }
  return exchange::beds_moment_csv(of, *when.day, *when.clock_h);
}

}  // namespace

Answer print_answer(OpenGarden::Held& garden, const Request& request, Progress* progress) {
  const std::string scheme = word_of(request, "scheme", "proposed");
  const std::string id = word_of(request, "place", "");
  const auto print = garden.study().print(scheme, id);
  if (!print) return error_answer(print.error());
  const auto all = garden.study().takers(scheme, {}, progress);
  if (!all) return error_answer(all.error());
  const auto year = garden.study().places_year(scheme, nullptr, {id});
  if (!year) return error_answer(year.error());
  const light::PlaceSun* place = (*year)->find(id);
  std::string cells;
  cells.reserve((*print)->cells.size() * 4);
  for (const light::PrintCell& cell : (*print)->cells) {
    cells += static_cast<char>(std::lround(cell.lit_of_facing() * 255));
    cells += static_cast<char>((cell.day ? 1 : 0) + (cell.strong ? 2 : 0));
    cells += static_cast<char>(taker_byte(cell.taker));
    cells += static_cast<char>(taker_byte(cell.second));
  }
  return packed(print_head(**print, place == nullptr ? nullptr : &place->place, (*all)->ranked),
                cells);
}

Answer picture_answer(OpenGarden::Held& garden, const std::string& id, const Request& request) {
  const std::string scheme = word_of(request, "scheme", "proposed");
  const std::string format = word_of(request, "format", "svg");
  const std::string place = word_of(request, "print", "");
  if (format != "svg" && format != "png")
    return error_answer({ErrorCode::kWrongUse, "format", "A picture is an svg or a png.", ""});
  const auto stand = garden.study().stand(scheme);
  if (!stand) return error_answer(stand.error());
  const auto when = when_of(request, **stand);
  if (!when) return error_answer(when.error());
  const auto drawing = place.empty() ? study::light_picture(garden.study(), scheme, *when, 0,
                                                            word_of(request, "against", ""))
                                     : study::print_picture(garden.study(), scheme, place);
  if (!drawing) return error_answer(drawing.error());
  const std::string name = place.empty()
                               ? id + (word_of(request, "against", "").empty() ? "-light" : "-won")
                               : id + "-sun-on-" + place;
  const std::scoped_lock lock(garden.workshop().fonts_busy);
  if (format == "svg") {
    auto svg = sheets::to_svg(*drawing, garden.workshop().fonts);
    if (!svg) return error_answer(svg.error());
    return {200, "image/svg+xml", std::move(*svg), name + ".svg"};
  }
  const auto png = sheets::to_png(*drawing, garden.workshop().fonts, kDotsPerMm);
  if (!png) return error_answer(png.error());
  return {200, "image/png", std::string(png->begin(), png->end()), name + ".png"};
}

Answer table_answer(OpenGarden::Held& garden, const std::string& id, const Request& request) {
  const std::string scheme = word_of(request, "scheme", "proposed");
  const std::string of = word_of(request, "of", "places");
  const auto stand = garden.study().stand(scheme);
  if (!stand) return error_answer(stand.error());
  if (of == "places") {
    const auto when = when_of(request, **stand);
    if (!when) return error_answer(when.error());
    std::vector<std::string> schemes{scheme};
    const std::string against = word_of(request, "against", "");
    if (!against.empty()) schemes.push_back(against);
    const auto csv = when->clock_h ? moment_table(garden.study(), schemes, *when)
                                   : places_table(garden.study(), schemes, *when);
    if (!csv) return error_answer(csv.error());
    return {200, "text/csv; charset=utf-8", *csv, id + "-light.csv"};
  }
  if (of != "field")
    return error_answer({ErrorCode::kWrongUse, "of", "A table is of places or of the field.", ""});
  const auto date = day_of(word_of(request, "day", ""));
  if (!date) return error_answer(date.error());
  if (*date) {
    const auto of_day =
        garden.study().field_of_day(scheme, study::drawn_cell_m((*stand)->garden), **date);
    if (!of_day) return error_answer(of_day.error());
    return {200, "text/csv; charset=utf-8", exchange::day_field_csv(**stand, **of_day, **date),
            id + "-light-field.csv"};
  }
  const auto field = garden.study().field(scheme, study::drawn_cell_m((*stand)->garden));
  if (!field) return error_answer(field.error());
  return {
      200, "text/csv; charset=utf-8",
      exchange::field_csv(**stand, **field, light::growing_months((*stand)->garden.site.latitude)),
      id + "-light-field.csv"};
}

}  // namespace spadework::server
