// What measuring a guessed figure would narrow it to, in words.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "ground/first_measures.h"
#include "server/measure_asked.h"
#include "server/measure_words.h"

namespace spadework::server {
namespace {

/// A day with as much night as day: shadows are neither long nor short then.
const LocalDate kEvenDay = make_date(2026, 3, 21);

std::optional<double> number_of(const garden::Entry& entry, const std::string& key) {
  const garden::Value* value = entry.find(key);
  if (value == nullptr || value->number() == nullptr) return std::nullopt;
  return *value->number();
}

class Narrows {
 public:
  explicit Narrows(const garden::Garden& garden)
      : site_(garden.site),
        units_(site_.imperial ? Units::kImperial : Units::kMetric),
        place_{{site_.latitude, site_.longitude, site_.elevation}, site_.time_zone, metres(0)} {
    const ground::ShadowErrors pegged{.tip = ground::ShadowErrors{}.pegged};
    if (auto noon = ground::noon_shadow(place_, kEvenDay, metres(1), pegged)) noon_ = *noon;
  }

  [[nodiscard]] std::string says(const garden::Entry& entry, const std::string& key) const {
    if (entry.table == "garden") return of_the_place(key);
    if (entry.table == "ground") return of_the_ground(key);
    // Nobody is to look for a cable with a spade.
    if (entry.table == "service") return "Ask whose it is for the plan of it, and have it traced.";
    if (key == "depth_m") return "";
    if (entry.table == "boundary") return taped("Tape it", longest_of(entry, key));
    if (key == "height_m" || key == "eaves_m" || key == "ridge_m" || key == "crown_base_m")
      return by_shadow(number_of(entry, key));
    const auto value = number_of(entry, key);
    const bool is_length = key.ends_with("_m") && value;
    if (is_length || key == "at" || key == "line" || key == "outline" || key == "size")
      return taped("Tape it", value.value_or(10));
    return "";
  }

 private:
  [[nodiscard]] std::string of_the_place(const std::string& key) const {
    if (key == "plan_north_deg" && noon_) {
      return fmt::format("A stick’s shadow at noon, its end pegged: then {}.",
                         degrees_says(noon_->bearing.sigma));
    }
    if (key == "plan_north_deg") return "A shadow’s direction and the clock.";
    if (key == "elevation_m") return "Read the height above the sea from a map.";
    return "Give the plot’s own coordinates, from a map.";
  }
  [[nodiscard]] std::string of_the_ground(const std::string& key) const {
    if (key == "horizon") return better_says(ground::Better::kOwnFist, "") + ".";
    if (key == "over") return taped("Tape the way over which it falls", 20);
    if (key != "falls_m" && key != "toward_deg") return "";
    return fmt::format("{}: then {}.", better_says(ground::Better::kLevelFall, ""),
                       sigma_says(ground::fall_by_level(metres(1)).sigma, units_));
  }
  /// In: a length in metres, about.
  [[nodiscard]] std::string taped(const char* what, double metres_long) const {
    return fmt::format("{}: then {}.", what,
                       sigma_says(ground::tape_sigma(metres(metres_long)), units_));
  }
  /// As sure as its shadow at noon tells it.
  [[nodiscard]] std::string by_shadow(std::optional<double> height_m) const {
    const std::string what = "Tape its shadow and look at the clock";
    if (!noon_ || !height_m || !(*height_m > 0)) return what + ".";
    ground::TapedShadow shadow;
    shadow.along = noon_->shadow * *height_m;  // of a stick of one metre
    shadow.date = kEvenDay;
    shadow.clock_h = noon_->clock_h;
    const auto height = ground::height_from_shadow(place_, shadow);
    return height ? fmt::format("{}: then {}.", what, sigma_says(height->height.sigma, units_))
                  : what + ".";
  }
  [[nodiscard]] static double longest_of(const garden::Entry& entry, const std::string& key) {
    double longest = number_of(entry, key).value_or(10);
    const garden::Value* value = entry.find(key);
    if (value == nullptr || value->list() == nullptr) return longest;
    for (const garden::Value& one : *value->list())
      if (one.number() != nullptr) longest = std::max(longest, *one.number());
    return longest;
  }

  const garden::Site& site_;
  Units units_;
  ground::ShadowPlace place_;
  std::optional<ground::NoonShadow> noon_;
};

}  // namespace

Json narrows_json(const garden::Garden& garden) {
  const Narrows narrows(garden);
  Json json = Json::object();
  for (const garden::Entry& entry : garden.entries) {
    for (const std::string& key : entry.guessed()) {
      const std::string says = narrows.says(entry, key);
      const std::string& of = entry.id.empty() ? entry.table : entry.id;
      if (!says.empty()) json[of + "." + key] = says;
    }
  }
  return json;
}

}  // namespace spadework::server
