// The first measures of a plot: what tape, shadow, clock, fist and eye tell, and how surely.
// Nothing is kept: an edit does that.
#include <fmt/format.h>

#include <cmath>

#include "server/measure_asked.h"
#include "server/routes.h"

namespace spadework::server {
namespace {

Json corner_json(const ground::PlotCorner& corner) {
  return {{"at_m", {corner.at.x, corner.at.y}}, {"sigma_m", in_metres(corner.sigma_most)}};
}

Json suspects_json(const ground::PlotCheck& check, Units units) {
  Json rows = Json::array();
  for (const ground::Suspect& suspect : check.suspects)
    rows.push_back(
        {{"at", ground::length_pointer(suspect.number)},
         {"fits_m", in_metres(suspect.fits.value)},
         {"says", fmt::format("{} would fit.", length_says(suspect.fits.value, units, 2))}});
  return rows;
}

Result<Json> plot_measured(const Asked& asked) {
  ground::PlotByTape taped;
  taped.units = asked.units();
  const Json sides = asked.json().value("sides", Json());
  if (!sides.is_array() || sides.size() != 4) return missing("sides");
  for (std::size_t i = 0; i < 4; ++i) {
    const auto side = asked.length_of(sides[i], fmt::format("/sides/{}", i));
    if (!side) return tl::unexpected<Error>(side.error());
    taped.sides[i] = *side;
  }
  const auto diagonal = asked.length("diagonal");
  if (!diagonal) return tl::unexpected<Error>(diagonal.error());
  taped.diagonal = *diagonal;
  if (asked.has("second_diagonal")) {
    const auto second = asked.length("second_diagonal");
    if (!second) return tl::unexpected<Error>(second.error());
    taped.second_diagonal = *second;
  }
  const auto plot = ground::plot_by_tape(taped);
  if (!plot) return tl::unexpected<Error>(plot.error());
  Json corners = Json::array();
  for (const ground::PlotCorner& corner : plot->corners) corners.push_back(corner_json(corner));
  const Units units = asked.units();
  Json out = {{"corners", corners},
              {"area_m2", in_square_metres(plot->area.value)},
              {"area_sigma_m2", in_square_metres(plot->area.sigma)},
              {"says", fmt::format("{}, its corners {}.", area_says(plot->area.value, units, 0),
                                   sigma_says(plot->corner_sigma, units))},
              {"remedies", remedies_json(plot->remedies, [&](const ground::PlotRemedy& remedy) {
                 return sigma_says(remedy.corner_sigma_after, units);
               })}};
  if (plot->check) {
    out["fits"] = plot->check->fits;
    out["suspects"] = suspects_json(*plot->check, units);
  }
  return out;
}

Result<Json> skyline_measured(const Asked& asked) {
  const Json points = asked.json().value("points", Json());
  if (!points.is_array()) return missing("points");
  std::vector<ground::FistPoint> fists;
  for (const Json& point : points) {
    if (!point.is_object() || !point.value("bearing_deg", Json()).is_number() ||
        !point.value("fists", Json()).is_number())
      return missing("points");
    fists.push_back({degrees(point["bearing_deg"].get<double>()), point["fists"].get<double>()});
  }
  const auto skyline = ground::skyline_of_fists(fists);
  if (!skyline) return tl::unexpected<Error>(skyline.error());
  Json horizon = Json::array();
  for (const auto& point : skyline->points)
    horizon.push_back(
        {std::round(in_degrees(point.bearing)), std::round(in_degrees(point.altitude) * 10) / 10});
  return Json{
      {"horizon", horizon},
      {"says", "A fist at arm’s length is about 10°."},
      {"remedies", remedies_json(skyline->remedies, [](const ground::Remedy<Angle>& remedy) {
         return degrees_says(remedy.sigma_after);
       })}};
}

/// "knee" as a mark of the body.
std::optional<ground::BodyMark> body_mark_of(const std::string& word) {
  if (word == "ankle") return ground::BodyMark::kAnkle;
  if (word == "knee") return ground::BodyMark::kKnee;
  if (word == "waist") return ground::BodyMark::kWaist;
  if (word == "head") return ground::BodyMark::kHead;
  return std::nullopt;
}

Result<ground::Measured<Length>> falls_of(const Asked& asked) {
  const std::string mark = asked.json().value("mark", std::string());
  if (!mark.empty()) {
    const auto known = body_mark_of(mark);
    if (!known) return missing("mark");
    return ground::fall_by_body(*known, asked.json().value("times", 1.0));
  }
  const auto falls = asked.length("falls");
  if (!falls) return tl::unexpected<Error>(falls.error());
  return asked.json().value("levelled", false) ? ground::fall_by_level(*falls)
                                               : ground::fall_by_eye(*falls);
}

Result<Json> fall_measured(const Asked& asked, const garden::Site& site) {
  const auto falls = falls_of(asked);
  const auto way = asked.point("toward_m");
  const auto over = asked.length("over");
  if (!falls) return tl::unexpected<Error>(falls.error());
  if (!way) return tl::unexpected<Error>(way.error());
  if (!over) return tl::unexpected<Error>(over.error());
  if (!(geometry::length(*way) > 0)) return missing("toward_m");
  ground::FallTold told;
  told.falls = *falls;
  told.toward.value = ground::bearing_on_plan(*way, site.plan_north);
  const bool is_taped = asked.json().value("taped", false);
  told.over = is_taped ? ground::Measured<Length>{*over, ground::tape_sigma(*over)}
                       : ground::over_by_pacing(*over);
  const auto fall = ground::fall_told(told);
  if (!fall) return tl::unexpected<Error>(fall.error());
  const Units units = asked.units();
  const int digits = units == Units::kImperial ? 2 : 1;  // tenths of a foot, or of a metre
  return Json{
      {"falls_m", fall->falls_m},
      {"toward_deg", fall->toward_deg},
      {"over_m", fall->over_m},
      {"guessed", fall->guessed},
      {"grade", fall->grade.value},
      {"sigma", fall->grade.sigma},
      {"says", fall->falls_m > 0 ? fmt::format("It falls {} over {}: 1 in {:.0f}.",
                                               length_says(metres(fall->falls_m), units, digits),
                                               length_says(metres(fall->over_m), units, digits),
                                               1 / fall->grade.value)
                                 : fmt::format("It lies level over {}.",
                                               length_says(metres(fall->over_m), units, digits))},
      {"remedies", remedies_json(fall->remedies, [](const ground::Remedy<double>& remedy) {
         const double in_100 = 100 * remedy.sigma_after;
         return fmt::format("± {:.{}f} in 100", in_100, in_100 < 0.1 ? 2 : 1);
       })}};
}

}  // namespace

Answer measure_answer(OpenGarden::Held& garden, const Request& request) {
  const auto body = json_body(request);
  if (!body) return error_answer(body.error());
  const auto stand = garden.study().stand(body->value("scheme", std::string("found")));
  if (!stand) return error_answer(stand.error());
  const garden::Site& site = (*stand)->garden.site;
  const Asked asked(*body, site);
  const std::string what = body->value("what", std::string());
  const Result<Json> told = what == "plot"      ? plot_measured(asked)
                            : what == "noon"    ? noon_measured(asked)
                            : what == "north"   ? north_measured(asked)
                            : what == "shadow"  ? shadow_measured(asked, (*stand)->garden)
                            : what == "height"  ? height_measured(asked)
                            : what == "skyline" ? skyline_measured(asked)
                            : what == "fall"    ? fall_measured(asked, site)
                                                : Result<Json>(missing("what"));
  return told ? json_answer(*told) : error_answer(told.error());
}

}  // namespace spadework::server
