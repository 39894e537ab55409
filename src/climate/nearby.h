// A place's weather from the stations around it: nearest first, by distance and height.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "climate/stations.h"

namespace spadework::climate {

struct Place {
  Angle latitude, longitude;
  Length elevation;
};

/// A station's part in a figure.
struct StationUse {
  std::string id, name, country;
  std::string source;                 // key of data/sources.toml
  std::string period;                 // "2003-2021"
  Length distance;                    // from the place, along the ground
  Length height_above;                // of the station over the place
  double weight = 0;                  // those of one blend add up to 1
  std::array<double, 12> reported{};  // by month, as the station has it
};

/// One element at a place, blended from stations.
struct Blend {
  Element element = Element::kTmax;
  std::array<double, 12> value{};    // at the place, in the element's unit
  std::vector<StationUse> stations;  // nearest first, height counted
  double far_km = 0;    // how far the nearest counts: its distance with its height difference
  double height_m = 0;  // weighted mean height of the stations over the place
};

/// Which stations may take part.
struct Choice {
  std::optional<std::size_t> only;     // this one alone
  std::optional<std::size_t> without;  // all but this one
  double from_km = 0;                  // none that counts as nearer than this
};

/// A height difference counts as a hundred times as much distance. Source: [hutchinson1995].
inline constexpr double kHeightCounts = 100;
/// As many stations as make up a figure.
inline constexpr std::size_t kStationsInBlend = 6;
/// Temperature falls so much with height. Source: [standard-atmosphere].
inline constexpr double kLapse_k_per_km = 6.5;

/// How far a station counts: its distance with a hundred times its height difference, in square.
[[nodiscard]] double counted_km(Length distance, Length height_above);

/// The stations of a table, in the order in which they count for a place.
class Neighbours {
 public:
  Neighbours(const Stations& stations, const Place& place);

  /// An element at the place: the mean of the nearest stations that report it in every month,
  /// weighted by one over the square of the distance (height counted, and 25 km added in square so
  /// that a station next door does not speak alone). Temperatures are brought to the place's
  /// height; sunshine is blended as a share of the day's length.
  /// Out:    nothing if no station that may take part reports it.
  /// Errors: those of Stations::months.
  /// Source: [shepard1968], [hutchinson1995], [standard-atmosphere].
  [[nodiscard]] Result<std::optional<Blend>> blend(Element element, const Choice& choice) const;

  /// The first so many, or all if there are fewer.
  [[nodiscard]] std::vector<std::size_t> nearest(std::size_t how_many) const;
  [[nodiscard]] const Stations& stations() const { return *stations_; }

 private:
  struct Chosen {
    double counted_km = 0;
    Angle latitude;
    StationUse use;
  };
  [[nodiscard]] Result<std::vector<Chosen>> choose(Element element, const Choice& choice) const;
  [[nodiscard]] StationUse use_of(std::size_t station, const StationRecord& record,
                                  Element element) const;
  const Stations* stations_;
  Place place_;
  std::vector<std::pair<double, std::size_t>> order_;  // counted distance in km, station
};

/// The mean height of the six stations that are nearest along the ground, weighted as above: for a
/// place whose own height is not known.
[[nodiscard]] Length height_of_stations(const Stations& stations, Angle latitude, Angle longitude);

}  // namespace spadework::climate
