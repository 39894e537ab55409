// What is wanting, far or assumed, in plain sentences.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "climate/climate.h"
#include "climate/confidence.h"

namespace spadework::climate {
namespace {

std::string away(Length distance, Length height_above, Units units) {
  std::string out = far_says(distance, units) + " away";
  if (std::abs(in_metres(height_above)) < kHigh_m) return out;
  const bool higher = height_above > Length();
  return out + fmt::format(" and {} {}", length_says(higher ? height_above : -height_above, units),
                           higher ? "higher" : "lower");
}

std::vector<std::string> wanting_in(const FileUse& file) {
  const auto never = [&](DayFigure figure) {
    for (const FileMonth& month : file.months) {
      if (month.of(figure)) return false;
    }
    return true;
  };
  std::vector<std::string> out;
  if (never(DayFigure::kTmax) || never(DayFigure::kTmin)) out.emplace_back("temperature");
  if (never(DayFigure::kRain)) out.emplace_back("rain");
  if (never(DayFigure::kSunshine) && never(DayFigure::kGlobal)) out.emplace_back("sunshine");
  return out;
}

/// The sentences of one climate.
class Notes {
 public:
  Notes(const PlaceClimate& climate, Units units) : climate_(climate), units_(units) {}

  std::vector<std::string> all() {
    elevation();
    named();
    no_file();
    crossed();
    for (const CannotBe& figure : climate_.cannot_be) says_.push_back(figure.says);
    if (climate_.file) file(*climate_.file);
    far_warmth();
    far_sunshine();
    for (const std::string& note : climate_.file_notes) {
      if (!is_told(note)) says_.push_back(note);
    }
    return std::move(says_);
  }

 private:
  void elevation() {
    if (climate_.elevation_given) return;
    says_.push_back(fmt::format(
        "The garden’s height above the sea is not given: {} is taken, as of the stations around. "
        "Give its own for surer temperatures (garden.elevation_m).",
        length_says(climate_.place.elevation, units_)));
  }

  void far_warmth() {
    const Blend* blend = climate_.blend_of(Element::kTmax);
    if (blend == nullptr || blend->far_km <= kFarForWarmth_km) return;
    const std::string nearest = fmt::format("The nearest weather station that counts is {}: ",
                                            station_says(blend->stations.front(), units_));
    const auto error = tried_error_at(temperature_errors(), blend->far_km, blend->height_m);
    const std::string beside =
        warmer_says(kelvins(error_at(temperature_errors(), kBeside_km, 0)), units_);
    if (!error)
      says_.push_back(nearest + "none is near enough to say how sure the temperatures here are.");
    else
      says_.push_back(nearest +
                      fmt::format("temperatures here are sure to ±{}, beside a station they would "
                                  "be to ±{}.",
                                  warmer_says(kelvins(*error), units_), beside));
  }

  [[nodiscard]] bool sunshine_from_around() const {
    return std::any_of(climate_.months.begin(), climate_.months.end(), [](const Month& month) {
      const Origin origin = month.origin_of(Quantity::kSunshine);
      return origin == Origin::kStations || origin == Origin::kSwing;
    });
  }

  void far_sunshine() {
    if (!sunshine_from_around()) return;
    const Blend* blend = climate_.blend_of(Element::kSunshine);
    if (blend == nullptr) {
      says_.push_back(
          "No station reports sunshine: sunshine and radiation come from the swing of temperature "
          "between night and day.");
      return;
    }
    if (blend->far_km <= kFarForSunshine_km) return;
    std::string says = fmt::format("The nearest station that reports sunshine is {}. ",
                                   station_says(blend->stations.front(), units_));
    if (climate_.swing_share > 0)
      says += fmt::format(
          "So the swing of temperature between night and day has a say of {:.0f} % in sunshine and "
          "radiation. ",
          100 * climate_.swing_share);
    says_.push_back(says + how_sure(*blend));
  }

  [[nodiscard]] std::string how_sure(const Blend& blend) const {
    const auto stations = tried_error_at(sunshine_errors(), blend.far_km, blend.height_m);
    if (!stations) return "No station is near enough to say how sure sunshine and light here are.";
    return fmt::format(
        "Sunshine here is sure to ±{:.1f} h of a day of 12 hours, beside a station it would be to "
        "±{:.1f} h.",
        12 * sunshine_error(climate_.swing_share, *stations),
        12 * error_at(sunshine_errors(), kBeside_km, 0));
  }

  void named() {
    if (!climate_.named_id) return;
    std::vector<std::string> wanting;
    for (const Blend& blend : climate_.blends) {
      if (blend.stations.size() != 1 || blend.stations.front().id != *climate_.named_id)
        wanting.emplace_back(element_says(blend.element));
    }
    if (wanting.empty()) return;
    says_.push_back(
        fmt::format("Station {} does not report {} in every month: the stations around stand in.",
                    *climate_.named_id, list_words(wanting)));
  }

  void no_file() {
    if (climate_.file || climate_.own.weather_file.empty()) return;
    says_.push_back(fmt::format("{} was not read: the stations around stand in for it.",
                                climate_.own.weather_file));
  }

  /// Figures of two origins need not fit.
  void crossed() {
    for (unsigned m = 1; m <= 12; ++m) {
      const Month& month = climate_.months[m - 1];
      if (!month.tmax || !month.tmin || *month.tmin <= *month.tmax) continue;
      says_.push_back(fmt::format(
          "In {} the nights’ lowest ({}) is above the days’ highest ({}): give both, from "
          "one and the same record.",
          month_name(m), warmth_says(*month.tmin, units_), warmth_says(*month.tmax, units_)));
    }
  }

  /// Whether a note of the weather file says again what it has no whole month of.
  [[nodiscard]] bool is_told(const std::string& note) const {
    static constexpr std::pair<std::string_view, std::string_view> kSaid[] = {
        {"temperature", "The file has no highest and lowest temperature."},
        {"rain", "The file has no rain."},
        {"sunshine", "The file has no sunshine."},
        {"sunshine", "The file has no global radiation."}};
    if (!climate_.file) return false;
    const std::vector<std::string> wanting = wanting_in(*climate_.file);
    return std::any_of(std::begin(kSaid), std::end(kSaid), [&](const auto& said) {
      return note == said.second &&
             std::find(wanting.begin(), wanting.end(), said.first) != wanting.end();
    });
  }

  void file(const FileUse& file) {
    const std::vector<std::string> wanting = wanting_in(file);
    if (gives_nothing(file)) {
      says_.push_back(fmt::format(
          "{} has no whole month of anything: the stations around stand in where the document "
          "gives nothing.",
          file.name));
      return;
    }
    if (!wanting.empty())
      says_.push_back(
          fmt::format("{} has no whole month of {}: that comes from the stations around where the "
                      "document does not give it.",
                      file.name, list_words(wanting)));
    const Length height =
        climate_.elevation_given ? file.height_above.value_or(Length()) : Length();
    if (file.distance &&
        (in_metres(*file.distance) / 1000 > kBeside_km || std::abs(in_metres(height)) >= kHigh_m))
      says_.push_back(fmt::format("{} was measured {}. Its figures are taken as they are.",
                                  file.name, away(*file.distance, height, units_)));
  }

  const PlaceClimate& climate_;
  Units units_;
  std::vector<std::string> says_;
};

}  // namespace

bool gives_nothing(const FileUse& file) {
  return std::all_of(file.months.begin(), file.months.end(), [](const FileMonth& month) {
    return std::none_of(month.mean.begin(), month.mean.end(),
                        [](const auto& mean) { return mean.has_value(); });
  });
}

std::string station_says(const StationUse& station, Units units) {
  return fmt::format("{} ({}), {}", station.name, station.country,
                     away(station.distance, station.height_above, units));
}

std::vector<std::string> notes_of(const PlaceClimate& climate, Units units) {
  return Notes(climate, units).all();
}

}  // namespace spadework::climate
