// The first measures of a plot: what tape, shadow, clock, fist and eye tell, and how surely.
// Nothing is kept: an edit does that.
#include <fmt/format.h>

#include <cmath>

#include "document/document.h"
#include "server/measure_words.h"
#include "server/routes.h"
#include "server/typed_figure.h"
#include "server/when.h"

namespace spadework::server {
namespace {

tl::unexpected<Error> missing(const std::string& key) {
  return fail(ErrorCode::kWrongUse, "/" + key, "A figure is missing.", "");
}

/// A text of TOML as it was before it was quoted: 40' 6".
std::string without_quotes(const std::string& toml) {
  std::string text;
  for (std::size_t i = 1; i + 1 < toml.size(); ++i) {
    if (toml[i] == '\\' && i + 2 < toml.size()) ++i;
    text += toml[i];
  }
  return text;
}

/// What was asked, its lengths as numbers of metres or as they were typed.
class Asked {
 public:
  Asked(const Json& json, const garden::Site& site) : json_(json), site_(site) {}

  [[nodiscard]] Units units() const { return site_.imperial ? Units::kImperial : Units::kMetric; }
  [[nodiscard]] bool has(const std::string& key) const {
    return json_.contains(key) && !json_[key].is_null();
  }
  [[nodiscard]] Result<Length> length(const std::string& key) const {
    return has(key) ? length_of(json_[key], "/" + key) : missing(key);
  }
  [[nodiscard]] Result<Length> length_of(const Json& value, const std::string& at) const {
    if (value.is_number()) return metres(value.get<double>());
    if (!value.is_string()) return missing(at.substr(1));
    auto toml = figure_toml(value.get<std::string>(), garden::ValueType::kLength, site_.imperial);
    if (!toml) return at_key(toml.error(), at);
    if (!toml->starts_with('"')) return metres(std::atof(toml->c_str()));
    const auto length = document::parse_length(without_quotes(*toml));
    return length ? *length : Result<Length>(at_key(length.error(), at));
  }
  [[nodiscard]] Result<double> number(const std::string& key) const {
    if (!has(key) || !json_[key].is_number()) return missing(key);
    return json_[key].get<double>();
  }
  [[nodiscard]] Result<geometry::Vec2> point(const std::string& key) const {
    const Json at = json_.value(key, Json());
    if (!at.is_array() || at.size() != 2 || !at[0].is_number() || !at[1].is_number())
      return missing(key);
    return geometry::Vec2{at[0].get<double>(), at[1].get<double>()};
  }
  [[nodiscard]] Result<LocalDate> date() const {
    const auto day = day_of(json_.value("day", std::string()));
    if (!day) return tl::unexpected<Error>(day.error());
    if (!*day) return missing("day");
    return **day;
  }
  [[nodiscard]] ground::ShadowPlace place() const {
    const double town_km = json_.value("place_sure_km", 0.0);
    return {{site_.latitude, site_.longitude, site_.elevation},
            site_.time_zone,
            metres(1000 * std::clamp(town_km, 0.0, 200.0))};
  }
  [[nodiscard]] ground::ShadowErrors errors() const {
    ground::ShadowErrors errors;
    if (json_.value("pegged", false)) errors.tip = errors.pegged;
    if (json_.value("clock_set", false)) errors.clock_min = errors.set_clock_min;
    return errors;
  }
  [[nodiscard]] const Json& json() const { return json_; }

 private:
  static tl::unexpected<Error> at_key(Error error, const std::string& at) {
    error.where = at;
    return tl::unexpected<Error>(std::move(error));
  }
  const Json& json_;
  const garden::Site& site_;
};

/// What would narrow a figure, each with how sure it would then be, in words.
template <class Remedies, class Says>
Json remedies_json(const Remedies& remedies, Says after) {
  Json rows = Json::array();
  for (const auto& remedy : remedies)
    rows.push_back(
        {{"by", ground::better_name(remedy.by)},
         {"at", remedy.at},
         {"says", fmt::format("{}: then {}.", better_says(remedy.by, remedy.at), after(remedy))}});
  return rows;
}

std::string degrees_says(Angle angle) {
  const double degrees = in_degrees(angle);
  return degrees < 10 ? fmt::format("± {:.1f}°", degrees) : fmt::format("± {:.0f}°", degrees);
}

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

Result<Json> noon_measured(const Asked& asked) {
  const auto date = asked.date();
  if (!date) return tl::unexpected<Error>(date.error());
  const auto noon = ground::noon_shadow(asked.place(), *date, metres(1), asked.errors());
  if (!noon) return tl::unexpected<Error>(noon.error());
  const int minutes = static_cast<int>(std::lround(noon->clock_h * 60));
  const std::string clock = fmt::format("{:02}:{:02}", minutes / 60 % 24, minutes % 60);
  const char* way = noon->points_north ? "north" : "south";
  return Json{{"clock_h", noon->clock_h},
              {"clock", clock},
              {"points", way},
              {"sigma_deg", in_degrees(noon->bearing.sigma)},
              {"says", fmt::format("At {} a stick’s shadow points true {}.", clock, way)},
              {"remedies", remedies_json(noon->remedies, [](const ground::Remedy<Angle>& remedy) {
                 return degrees_says(remedy.sigma_after);
               })}};
}

Result<Json> north_measured(const Asked& asked) {
  const auto foot = asked.point("foot_m"), tip = asked.point("tip_m");
  const auto date = asked.date();
  const auto clock = asked.number("clock");
  if (!foot) return tl::unexpected<Error>(foot.error());
  if (!tip) return tl::unexpected<Error>(tip.error());
  if (!date) return tl::unexpected<Error>(date.error());
  if (!clock) return tl::unexpected<Error>(clock.error());
  const auto north =
      ground::plan_north_from_shadow(asked.place(), {*foot, *tip, *date, *clock}, asked.errors());
  if (!north) return tl::unexpected<Error>(north.error());
  const double turn = in_degrees(north->plan_north.value);
  return Json{{"plan_north_deg", std::round(turn * 10) / 10},
              {"sigma_deg", in_degrees(north->plan_north.sigma)},
              {"says", fmt::format("The page’s up lies {:.0f}° clockwise from true north, {}.",
                                   turn, degrees_says(north->plan_north.sigma))},
              {"remedies", remedies_json(north->remedies, [](const ground::Remedy<Angle>& remedy) {
                 return degrees_says(remedy.sigma_after);
               })}};
}

/// The tops whose shadows show which way north lies: of a tree or a post its own, of a wall those
/// of its ends, of a building those of its eaves' corners.
struct Top {
  geometry::Vec2 foot;
  Length height;
};
std::vector<Top> tops_of(const garden::Garden& garden, const std::string& id) {
  std::vector<Top> tops;
  for (const auto& t : garden.trees)
    if (t.id == id) tops.push_back({t.at, t.height});
  for (const auto& t : garden.walls)
    if (t.id == id) tops = {{t.line.front(), t.height}, {t.line.back(), t.height}};
  for (const auto& t : garden.supports)
    if (t.id == id) tops.push_back({t.line.front(), t.height});
  for (const auto& t : garden.buildings)
    if (t.id == id)
      for (const geometry::Vec2 corner : t.outline) tops.push_back({corner, t.eaves});
  for (const auto& t : garden.objects)
    if (t.id == id)
      for (const geometry::Vec2 corner : t.outline) tops.push_back({corner, t.height});
  return tops;
}

Result<Json> shadow_measured(const Asked& asked, const garden::Garden& garden) {
  const auto date = asked.date();
  const auto clock = asked.number("clock");
  if (!date) return tl::unexpected<Error>(date.error());
  if (!clock) return tl::unexpected<Error>(clock.error());
  const std::string thing = asked.json().value("thing", std::string());
  Json ends = Json::array();
  for (const Top& top : tops_of(garden, thing)) {
    const auto tip = ground::shadow_on_level(asked.place(), top.foot, top.height,
                                             garden.site.plan_north, *date, *clock);
    if (!tip) return tl::unexpected<Error>(tip.error());
    ends.push_back({{"foot_m", {top.foot.x, top.foot.y}}, {"tip_m", {tip->x, tip->y}}});
  }
  if (ends.empty()) return missing("thing");
  return Json{{"ends", ends},
              {"says", fmt::format("The shadow of {} ends here, if north is as drawn.", thing)},
              {"remedies", Json::array()}};
}

Result<Json> height_measured(const Asked& asked) {
  const auto along = asked.length("along");
  const auto date = asked.date();
  const auto clock = asked.number("clock");
  if (!along) return tl::unexpected<Error>(along.error());
  if (!date) return tl::unexpected<Error>(date.error());
  if (!clock) return tl::unexpected<Error>(clock.error());
  ground::TapedShadow shadow;
  shadow.along = *along, shadow.date = *date, shadow.clock_h = *clock;
  if (asked.has("rise")) {
    const auto rise = asked.length("rise");
    if (!rise) return tl::unexpected<Error>(rise.error());
    shadow.rise = ground::fall_by_level(*rise);
  }
  const auto height = ground::height_from_shadow(asked.place(), shadow, asked.errors());
  if (!height) return tl::unexpected<Error>(height.error());
  const Units units = asked.units();
  return Json{
      {"height_m", in_metres(height->height.value)},
      {"sigma_m", in_metres(height->height.sigma)},
      {"says", fmt::format("{} high, {}.", length_says(height->height.value, units, 1),
                           sigma_says(height->height.sigma, units))},
      {"remedies", remedies_json(height->remedies, [&](const ground::Remedy<Length>& remedy) {
         return sigma_says(remedy.sigma_after, units);
       })}};
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
  return Json{{"falls_m", fall->falls_m},
              {"toward_deg", fall->toward_deg},
              {"over_m", fall->over_m},
              {"guessed", fall->guessed},
              {"grade", fall->grade.value},
              {"sigma", fall->grade.sigma},
              {"says", fmt::format("It falls {} over {}: 1 in {:.0f}.",
                                   length_says(metres(fall->falls_m), units, 1),
                                   length_says(metres(fall->over_m), units, 1),
                                   fall->grade.value > 0 ? 1 / fall->grade.value : 0)},
              {"remedies", remedies_json(fall->remedies, [](const ground::Remedy<double>& remedy) {
                 return fmt::format("± {:.1f} in 100", 100 * remedy.sigma_after);
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
