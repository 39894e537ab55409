// What is asked of a first measure, and what narrows it, in JSON. For the server room alone.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <string>

#include "document/document.h"
#include "ground/first_measures.h"
#include "server/answers.h"
#include "server/measure_words.h"
#include "server/typed_figure.h"
#include "server/when.h"

namespace spadework::server {

/// Errors: always kWrongUse, at the key.
inline tl::unexpected<Error> missing(const std::string& key) {
  return fail(ErrorCode::kWrongUse, "/" + key, "A figure is missing.", "");
}

/// A text of TOML as it was before it was quoted: 40' 6".
inline std::string without_quotes(const std::string& toml) {
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

inline std::string degrees_says(Angle angle) {
  const double degrees = in_degrees(angle);
  return degrees < 10 ? fmt::format("± {:.1f}°", degrees) : fmt::format("± {:.0f}°", degrees);
}

// measure_shadows.cpp: what shadows tell, and where they end. Each has the errors of
// ground/shadows.h, and kWrongUse for what is missing.

[[nodiscard]] Result<Json> noon_measured(const Asked& asked);
[[nodiscard]] Result<Json> north_measured(const Asked& asked);
/// Of a thing of the garden: the ends of its tops' shadows on level ground.
[[nodiscard]] Result<Json> shadow_measured(const Asked& asked, const garden::Garden& garden);
[[nodiscard]] Result<Json> height_measured(const Asked& asked);

}  // namespace spadework::server
