// A section of the garden: its picture and the figures in it, of one moment.
#include <charconv>

#include "server/routes.h"
#include "server/when.h"
#include "sheets/sheets.h"
#include "study/section.h"

namespace spadework::server {
namespace {

Error wrong(const char* where, std::string message, std::string hint) {
  return {ErrorCode::kWrongUse, where, std::move(message), std::move(hint)};
}

std::optional<double> number_in(std::string_view text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (text.empty() || error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return value;
}

/// `3.2,-1`.
Result<geometry::Vec2> point_of(const Request& request, const char* key) {
  const std::string text = word_of(request, key, "");
  const std::size_t comma = text.find(',');
  if (comma != std::string::npos) {
    const auto x = number_in(std::string_view(text).substr(0, comma));
    const auto y = number_in(std::string_view(text).substr(comma + 1));
    if (x && y) return geometry::Vec2{*x, *y};
  }
  return tl::unexpected(
      wrong(key, text.empty() ? "A section wants a line." : "“" + text + "” is no place.",
            "Two numbers with a comma between, metres on the plan: 3.2,1.5"));
}

Result<std::optional<study::SectionMoment>> moment_of(const Request& request,
                                                      const study::Stand& stand) {
  const auto when = when_of(request, stand);
  if (!when) return tl::unexpected<Error>(when.error());
  if (!when->day) {
    if (!word_of(request, "clock", "").empty())
      return tl::unexpected(wrong("day", "On which day, at that time?", "Such as 06-21."));
    return std::optional<study::SectionMoment>();
  }
  if (!when->clock_h)
    return tl::unexpected(wrong("clock", "At what time of that day?",
                                "The sun of a section is that of one moment: a number of hours "
                                "from 0 to 24."));
  return std::optional<study::SectionMoment>({*when->day, *when->clock_h});
}

Json beds_json(const study::Section& section) {
  Json beds = Json::array();
  for (const study::SectionBed& bed : section.beds) {
    Json boards;
    if (bed.boards) boards = {{"top_m", bed.boards->top_m}, {"foot_m", bed.boards->foot_m}};
    beds.push_back({{"id", bed.id},
                    {"from_m", bed.from_m},
                    {"to_m", bed.to_m},
                    {"level_m", bed.level_m},
                    {"ground_from_m", bed.ground_from_m},
                    {"ground_to_m", bed.ground_to_m},
                    {"boards", std::move(boards)}});
  }
  return beds;
}

Json section_json(const study::Section& section) {
  Json ground = Json::array(), cuts = Json::array(), lit = Json::array(), sun;
  for (const geometry::Vec2 p : section.ground) ground.push_back({p.x, p.y});
  for (const study::SectionThing& cut : section.cuts)
    cuts.push_back({{"id", cut.id},
                    {"table", cut.table},
                    {"from_m", cut.from_m},
                    {"to_m", cut.to_m},
                    {"top_m", cut.top_m}});
  for (const study::SectionStretch& stretch : section.lit)
    lit.push_back({stretch.from_m, stretch.to_m});
  if (section.sun)
    sun = {{"up_deg", section.sun->up_deg},
           {"in_section_deg", section.sun->in_section_deg},
           {"from", section.sun->from_b ? "B" : "A"}};
  const study::SectionLevels levels = study::levels_of(section);
  return {{"length_m", section.length_m}, {"ground", std::move(ground)},
          {"low_m", levels.low_m},        {"high_m", levels.high_m},
          {"beds", beds_json(section)},   {"cuts", std::move(cuts)},
          {"lit", std::move(lit)},        {"sun", std::move(sun)},
          {"sun_says", section.sun_says}};
}

}  // namespace

Answer section_answer(OpenGarden::Held& garden, const std::string& id, const Request& request) {
  const std::string scheme = word_of(request, "scheme", "proposed");
  const auto stand = garden.study().stand(scheme);
  if (!stand) return error_answer(stand.error());
  const auto from = point_of(request, "from");
  if (!from) return error_answer(from.error());
  const auto to = point_of(request, "to");
  if (!to) return error_answer(to.error());
  const auto moment = moment_of(request, **stand);
  if (!moment) return error_answer(moment.error());
  const std::string scale = word_of(request, "mm_per_m", "");
  const double mm_per_m = scale.empty() ? 0 : number_in(scale).value_or(-1);
  const auto picture = study::section_picture(garden.study(), scheme, {*from, *to}, *moment,
                                              scale.empty() || mm_per_m != 0 ? mm_per_m : -1);
  if (!picture) return error_answer(picture.error());
  const bool to_keep = word_of(request, "format", "json") == "svg";
  sheets::SvgOptions options;
  options.embed_fonts = to_keep;  // the page has them
  const std::scoped_lock lock(garden.workshop().fonts_busy);
  auto svg = sheets::to_svg(picture->drawing, garden.workshop().fonts, options);
  if (!svg) return error_answer(svg.error());
  if (to_keep) return {200, "image/svg+xml", std::move(*svg), id + "-section.svg"};
  Json json = section_json(picture->section);
  json["svg"] = std::move(*svg);
  return json_answer(json);
}

}  // namespace spadework::server
