#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <nlohmann/json.hpp>

#include "cli/files.h"
#include "cli/light_pictures.h"
#include "cli/light_tables.h"
#include "cli/progress_bar.h"
#include "document/units.h"
#include "exchange/results_csv.h"
#include "exchange/results_json.h"
#include "study/why.h"

namespace spadework::cli {
namespace {

struct At {
  geometry::Vec2 plan;
  Length above;
  std::string says;
};

Result<At> parse_at(const std::string& text) {
  std::vector<double> parts;
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t end = std::min(text.find(',', at), text.size());
    std::string part = text.substr(at, end - at);
    part.erase(0, part.find_first_not_of(' '));
    double value = 0;
    const auto [stop, error] = std::from_chars(part.data(), part.data() + part.size(), value);
    if (error == std::errc() && stop == part.data() + part.size()) {
      parts.push_back(value);
    } else if (const auto length = document::parse_length(part)) {
      parts.push_back(in_metres(*length));
    } else {
      return fail(ErrorCode::kWrongUse, "--at", fmt::format("“{}” is no place in the plan.", text),
                  "Give --at X,Y in metres, or X,Y,Z with a height above the ground: --at 3.2,7.5");
    }
    at = end + 1;
  }
  const bool fits = parts.size() == 2 || parts.size() == 3;
  const auto far = [](double v) { return !(v >= -2000 && v <= 2000); };
  if (!fits || std::any_of(parts.begin(), parts.end(), far))
    return fail(ErrorCode::kWrongUse, "--at", fmt::format("“{}” is no place in the plan.", text),
                "Give --at X,Y in metres, or X,Y,Z with a height above the ground: --at 3.2,7.5");
  At at{{parts[0], parts[1]}, metres(parts.size() == 3 ? parts[2] : 0), text};
  if (at.above < metres(0))
    return fail(ErrorCode::kWrongUse, "--at", "A spot lies on the ground or above it.",
                "The third figure is a height above the ground: 0 or more.");
  return at;
}

tl::unexpected<Error> no_such(const char* option, const std::string& text, const char* hint) {
  return fail(ErrorCode::kWrongUse, option, fmt::format("“{}” is no such date.", text), hint);
}

Result<LocalDate> parse_day(const std::string& text) {
  if (const auto date = parse_date(text)) {
    const int year = static_cast<int>(date->year());
    if (year >= 1990 && year <= 2060) return *date;
    return fail(ErrorCode::kWrongUse, "--day", "Clocks are known from 1990 to 2060.",
                "Give a day in those years, or one without a year: --day 06-21");
  }
  if (const auto day = parse_month_day(text))
    return LocalDate(std::chrono::year(kReferenceYear), day->month(), day->day());
  return no_such("--day", text, "Give --day 2026-06-21, or 06-21 for any year.");
}

/// Options that cannot go together, so that none is passed over in silence.
Result<bool> check_together(const LightOptions& o) {
  struct Pair {
    bool both;
    const char* option;
    const char* message;
    const char* hint;
  };
  const bool picture = !o.svg.empty() || !o.png.empty();
  const auto ends = [](const std::string& name, std::string_view with) {
    return name.size() > with.size() && name.substr(name.size() - with.size()) == with;
  };
  const Pair pairs[] = {
      {ends(o.svg, ".png"), "--svg", "--svg writes SVG, and the name ends in .png.",
       "Write --png, or a name that ends in .svg."},
      {ends(o.png, ".svg"), "--png", "--png writes PNG, and the name ends in .svg.",
       "Write --svg, or a name that ends in .png."},
      {!o.at.empty() && !o.against.empty(), "--against", "--at and --against do not go together.",
       "Ask for the spot in one scheme and then in the other: --scheme NAME."},
      {!o.at.empty() && (picture || !o.grid.empty() || !o.print.empty()), "--at",
       "A spot has no picture and no grid of its own.", "Leave --at out."},
      {!o.at.empty() && !o.places.empty(), "--places", "--at and --places do not go together.",
       "Ask for one of them."},
      {!o.day.empty() && !o.month.empty(), "--month", "--day and --month do not go together.",
       "Ask for one of them."},
      {!o.print.empty() && (!o.day.empty() || !o.month.empty()), "--print",
       "A sun print shows the whole year.", "Leave --day and --month out."},
      {!picture && !o.common.json && !o.print.empty(), "--print", "A sun print is a picture.",
       "Say where it goes: --png FILE.png or --svg FILE.svg. As data: --json"},
      {!o.print.empty() && !o.against.empty(), "--against",
       "--print and --against do not go together.",
       "Ask for the print in one scheme and then in the other: --scheme NAME."},
      {!picture && !o.month.empty(), "--month", "--month is for a picture.",
       "Say where it goes: --png FILE.png or --svg FILE.svg"},
  };
  for (const Pair& pair : pairs) {
    if (pair.both) return fail(ErrorCode::kWrongUse, pair.option, pair.message, pair.hint);
  }
  return true;
}

/// The places asked for, in the garden's order.
PlacesView view_of(const study::Stand& stand, Units units, const study::PlacesYear& year,
                   const std::vector<std::string>& wanted) {
  PlacesView view{stand, units, year, {}, nullptr};
  for (const light::PlaceSun& sun : year.places) {
    if (wanted.empty() || std::find(wanted.begin(), wanted.end(), sun.place.id) != wanted.end())
      view.places.push_back(&sun);
  }
  return view;
}

/// Everything about one scheme that the verb shows.
class LightVerb {
 public:
  LightVerb(const LightOptions& options, study::Study& study) : options_(options), study_(study) {}

  int run() {
    const auto stand = study_.stand(options_.common.scheme);
    if (!stand) return tell(stand.error());
    stand_ = *stand;
    units_ = units_of(options_.common, stand_->garden.site);
    if (const auto fits = check_together(options_); !fits) return tell(fits.error());
    if (!options_.day.empty()) {
      const auto date = parse_day(options_.day);
      if (!date) return tell(date.error());
      date_ = *date;
    }
    if (!options_.at.empty()) return spot();
    if (const int status = files(); status != 0) return status;
    if (wrote_files_ && options_.common.quiet) return 0;
    if (!options_.against.empty()) return against();
    return places();
  }

 private:
  int spot() {
    const auto at = parse_at(options_.at);
    if (!at) return tell(at.error());
    for (const garden::Building& building : stand_->garden.buildings) {
      if (!options_.common.quiet && geometry::contains(building.outline, at->plan))
        std::fputs(fmt::format("This spot is inside {}.\n", building.id).c_str(), stderr);
    }
    for (const garden::Finding& finding :
         study::off_survey(stand_->garden, "This spot", {at->plan}, units_)) {
      if (!options_.common.quiet) std::fputs((finding.says + "\n").c_str(), stderr);
    }
    if (date_) {
      const auto day = study_.spot_day(options_.common.scheme, at->plan, at->above, *date_);
      if (!day) return tell(day.error());
      if (!options_.common.json) {
        print_text(spot_day_text(*stand_, *day, at->says, *date_));
        return 0;
      }
      nlohmann::json intervals = nlohmann::json::array();
      for (const light::SunInterval& interval : day->intervals)
        intervals.push_back({clock_text(interval.start_h, true), clock_text(interval.end_h, true)});
      print_json({{"sun_h", day->sun_h},
                  {"intervals", intervals},
                  {"dli_mol_m2_d", day->dli_mol_m2_d},
                  {"date", iso_date(*date_)},
                  {"scheme", options_.common.scheme}});
      return 0;
    }
    const auto year = study_.spot_year(options_.common.scheme, at->plan, at->above);
    if (!year) return tell(year.error());
    if (options_.common.json) {
      light::PlaceSun sun{year->place, year->months};
      nlohmann::json json = header_json();
      json["places"] = {exchange::place_json(*stand_, sun, year->sun.days_in_month, year->takers)};
      json["places"][0]["area_m2"] = nullptr;  // a spot has none
      json["places"][0]["at"] = {at->plan.x, at->plan.y, in_metres(at->above)};
      print_json(json);
    } else {
      print_text(spot_year_table(*stand_, *year, at->says));
    }
    return 0;
  }

  int places() {
    if (const int status = check_places(); status != 0) return status;
    const auto year = compute(options_.common.scheme);
    if (!year) return tell(year.error());
    PlacesView view = view_of(*stand_, units_, **year, options_.places);
    if (!date_) {
      const auto takers = study_.takers(options_.common.scheme, options_.places);
      if (!takers) return tell(takers.error());
      view.takers = *takers;
    }
    if (options_.common.json) {
      nlohmann::json json = header_json();
      json["places"] = date_ ? day_json(view) : year_json(view);
      if (!options_.print.empty()) {
        const auto print = study_.print(options_.common.scheme, options_.print);
        if (!print) return tell(print.error());
        const auto ranked = study_.takers(options_.common.scheme);
        if (!ranked) return tell(ranked.error());
        json["print"] = exchange::sun_print_json(**print, (*ranked)->ranked);
      }
      print_json(json);
    } else {
      print_text(date_ ? day_table(view, *date_) : year_table(view));
    }
    return 0;
  }

  /// Tells a place that is not there.
  int check_places() {
    const auto ids = study_.place_ids(options_.common.scheme);
    if (!ids) return tell(ids.error());
    for (const std::string& id : options_.places) {
      if (std::find(ids->begin(), ids->end(), id) == ids->end())
        return tell(study::no_such_place(id, *ids, options_.common.scheme).value());
    }
    return 0;
  }

  int against() {
    const auto other_stand = study_.stand(options_.against);
    if (!other_stand) {
      Error error = other_stand.error();
      error.where = "--against";
      return tell(error);
    }
    const auto now = compute(options_.common.scheme), then = compute(options_.against);
    if (!now) return tell(now.error());
    if (!then) return tell(then.error());
    PlacesView now_view = view_of(*stand_, units_, **now, options_.places);
    PlacesView then_view = view_of(**other_stand, units_, **then, options_.places);
    if (options_.common.json && !date_) {
      const auto takers = study_.takers(options_.common.scheme, options_.places);
      const auto then_takers = study_.takers(options_.against, options_.places);
      if (!takers) return tell(takers.error());
      if (!then_takers) return tell(then_takers.error());
      now_view.takers = *takers;
      then_view.takers = *then_takers;
    }
    if (options_.common.json) {
      nlohmann::json json = header_json();
      json["against"] = options_.against;
      json["places"] = date_ ? day_json(now_view) : year_json(now_view);
      json["places_against"] = date_ ? day_json(then_view) : year_json(then_view);
      print_json(json);
    } else {
      print_text(date_ ? day_difference_table(now_view, then_view, *date_)
                       : difference_table(now_view, then_view));
    }
    return 0;
  }

  Result<study::Shared<study::PlacesYear>> compute(const std::string& scheme) {
    if (date_) return study_.places_day(scheme, *date_, options_.places);
    Progress progress;
    const ProgressBar bar(progress, "Casting the year’s shadows",
                          !options_.common.quiet && !options_.common.json);
    return study_.places_year(scheme, &progress, options_.places);
  }

  int files() {
    if (options_.grid.empty() && options_.svg.empty() && options_.png.empty()) return 0;
    wrote_files_ = true;
    if (!options_.grid.empty()) {
      Progress progress;
      const ProgressBar bar(progress, "Casting shadows over the garden",
                            !options_.common.quiet && !options_.common.json);
      const double cell = options_.cell_m > 0 ? options_.cell_m : 0.1;
      const auto field = date_ ? study_.field_of_day(options_.common.scheme, cell, *date_)
                               : study_.field(options_.common.scheme, cell, &progress);
      if (!field) return tell(field.error());
      const std::string csv =
          date_ ? exchange::day_field_csv(*stand_, **field, *date_)
                : exchange::field_csv(*stand_, **field,
                                      light::growing_months(stand_->garden.site.latitude));
      if (const auto written = write_file(options_.grid, csv); !written)
        return tell(written.error());
    }
    if (options_.svg.empty() && options_.png.empty()) return 0;
    return write_light_pictures(options_, study_, date_);
  }

  nlohmann::json header_json() const {
    return {{"garden", stand_->garden.site.title},
            {"scheme", options_.common.scheme},
            {"guessed", exchange::guessed_json(*stand_)}};
  }

  static nlohmann::json year_json(const PlacesView& view) {
    nlohmann::json json = nlohmann::json::array();
    for (const light::PlaceSun* sun : view.places)
      json.push_back(exchange::place_json(view.stand, *sun, view.year.sun.days_in_month,
                                          *view.takers->find(sun->place.id)));
    return json;
  }

  nlohmann::json day_json(const PlacesView& view) const {
    nlohmann::json json = nlohmann::json::array();
    const auto month = static_cast<std::size_t>(static_cast<unsigned>(date_->month()) - 1);
    for (const light::PlaceSun* sun : view.places) {
      const light::MonthSun& day = sun->months[month];
      json.push_back({{"id", sun->place.id},
                      {"kind", light::place_kind_name(sun->place.kind)},
                      {"area_m2", in_square_metres(sun->place.area)},
                      {"date", iso_date(*date_)},
                      {"sun_h", day.sun_h_per_day},
                      {"morning_h", day.morning_h},
                      {"midday_h", day.midday_h},
                      {"afternoon_h", day.afternoon_h},
                      {"dli_mol_m2_d", day.dli_mol_m2_d}});
      if (sun->place.bearing) json.back()["bearing_deg"] = in_degrees(*sun->place.bearing);
    }
    return json;
  }

  const LightOptions& options_;
  study::Study& study_;
  study::Shared<study::Stand> stand_;
  Units units_ = Units::kMetric;
  std::optional<LocalDate> date_;
  bool wrote_files_ = false;
};

}  // namespace

int light_verb(const LightOptions& options) {
  Opened opened = open_garden(options.common);
  if (!opened.study) return opened.status;
  LightOptions asked = options;
  // With a print the table is of its place, unless others are asked for.
  if (!asked.print.empty() && asked.places.empty()) asked.places = {asked.print};
  return LightVerb(asked, *opened.study).run();
}

}  // namespace spadework::cli
