// Front door of the climate room: what weather a garden has, month by month, and how sure that is.
//
//   auto stations = read_stations(embedded_file("stations.csv"));   // bytes that stay
//   auto here = climate_of(garden, *stations, weather_file);        // nullptr: no file
//   here->months[5].global_mj_m2_d;                                 // June, MJ/m² a day
//   here->months[5].plus_minus.global_share;                        // two times in three
//   trace_of(*here, 6, Quantity::kGlobal);                          // the chain behind it
//
// Of each figure the document's own month has the first word, then the weather file, then the
// stations. Sunshine and radiation go together by Ångström's equation: the first of the three that
// has either gives both. Where no station near enough reports sunshine, the swing of temperature
// between night and day speaks beside it (confidence.h).
//
//   stations.h     the table of stations, read quickly
//   nearby.h       a place's figures from the stations around it
//   radiation.h    the sky's energy, sunshine to radiation and back, the swing of temperature
//   confidence.h   how sure such figures are, by how far the stations stand
//   weather.h      days of weather, as `exchange/` reads them; file_months.h their months
//   own_months.h   what the document says of its climate
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "climate/file_months.h"
#include "climate/nearby.h"
#include "climate/own_months.h"
#include "climate/radiation.h"
#include "climate/stations.h"
#include "climate/weather.h"
#include "garden/garden.h"

namespace spadework::climate {

enum class Quantity {
  kTmax,            // °C
  kTmin,            // °C
  kRain,            // mm in the month
  kWetDays,         // days with 1 mm or more
  kVapourPressure,  // hPa
  kSunshine,        // h a day, to expect with the month's cloud
  kGlobal,          // MJ/m² a day on level ground
  kDiffuse,         // MJ/m² a day, without the beam
};
inline constexpr std::size_t kQuantities = 8;

/// How a figure was come by.
enum class Origin {
  kUnknown,      // there is none
  kOwnMonth,     // the document's own month
  kWeatherFile,  // the weather file
  kStations,     // the stations around, or the one that the document names
  kSwing,        // sunshine and radiation: mostly the swing of temperature
};
[[nodiscard]] std::string_view origin_name(Origin origin);  // "own_month", …

/// Two times in three the truth lies within; 0 for a figure that was given for this place, nothing
/// where no station is near enough to say.
struct PlusMinus {
  std::optional<double> temperature_k = 0;  // of tmax and of tmin
  std::optional<double> sunshine_h = 0;     // a day
  std::optional<double> global_share = 0;   // of the radiation
};

/// A mean day of a month; rain and wet days are of the whole month.
struct Month {
  std::optional<Temperature> tmax, tmin;
  std::optional<double> rain_mm, wet_days, vapour_pressure_hpa;
  double sunshine_h_per_day = 0;          // to expect, with the month's cloud
  double global_mj_m2_d = 0;              // on level ground in the open, without the skyline
  std::optional<double> diffuse_mj_m2_d;  // only where a weather file has it measured
  Sky sky;                                // above the air, and the day's length
  bool sunshine_given = false;            // the document or the file has sunshine itself
  bool global_given = false;              // … or radiation itself
  std::array<Origin, kQuantities> origin{};
  PlusMinus plus_minus;

  [[nodiscard]] Origin origin_of(Quantity quantity) const {
    return origin[static_cast<std::size_t>(quantity)];
  }
};

/// The weather file's part.
struct FileUse {
  std::string name, says, years;
  /// Where the file says that it was measured, seen from the garden.
  std::optional<Length> distance, height_above;
  double far_km = 0;  // how far that counts; 0 if the file does not say where
  std::array<FileMonth, 12> months;
};

/// A figure of sun that no sky over the garden gives, or two that do not fit.
struct CannotBe {
  Origin origin = Origin::kUnknown;
  std::string says, name;  // a plain sentence; what the figure is
  double given = 0, taken = 0;
  std::string unit;
};

struct PlaceClimate {
  Place place;
  bool elevation_given = false;  // else the height of the stations around stands in `place`
  std::array<Month, 12> months;
  double year_global_mj_m2 = 0;  // the sum of an ordinary year
  /// Plus or minus, as if all months erred alike; nothing where that of a month is not known.
  std::optional<double> year_global_share;
  std::vector<Blend> blends;            // the stations behind each element that needed them
  double swing_share = 0;               // how much of sunshine is the swing of temperature, 0 to 1
  std::optional<std::string> named_id;  // the station that the document names
  std::optional<FileUse> file;
  OwnClimate own;
  std::vector<std::string> file_notes;  // of the weather file, in plain sentences
  std::vector<CannotBe> cannot_be;      // of a weather file one at most, that of its first month

  /// Nothing where no month needed the element from stations.
  [[nodiscard]] const Blend* blend_of(Element element) const;
};

/// The climate of a garden.
/// In:     the garden of a scheme; the table of stations; the document's weather file, or nullptr.
/// Errors: kUnknownId if the document names a station that the table does not have, with the
///         nearest as hint; kWrongType or kImpossibleValue for a broken row; kNoAnswer if no
///         station has a temperature.
/// Source: [fao56] Eq. 35, 50; [standard-atmosphere]; [stations]; for the rest the headers above.
[[nodiscard]] Result<PlaceClimate> climate_of(const garden::Garden& garden,
                                              const Stations& stations, const Weather* file);

/// What is wanting, far or assumed, in plain sentences; those of the weather file last.
[[nodiscard]] std::vector<std::string> notes_of(const PlaceClimate& climate, Units units);

/// The garden's height above the sea: as given, else that of the stations around.
[[nodiscard]] Length elevation_of(const garden::Garden& garden, const Stations& stations);
/// Where it comes from. In: the document's line if it is given; the height that is taken.
[[nodiscard]] Trace elevation_trace(const std::optional<Trace>& given, Length taken);

/// Whether a weather file has no whole month of anything.
[[nodiscard]] bool gives_nothing(const FileUse& file);

/// "Brest (France), 12 km away and 120 m higher".
[[nodiscard]] std::string station_says(const StationUse& station, Units units);

/// The figure in the unit of Quantity, or nothing where it is not known.
[[nodiscard]] std::optional<double> value_of(const Month& month, Quantity quantity);

/// The chain behind a month's figure: method, stations with distance, height and weight, sources.
/// In:     month 1 to 12.
/// Out:    a trace without a number where the figure is not known.
[[nodiscard]] Trace trace_of(const PlaceClimate& climate, unsigned month, Quantity quantity);

}  // namespace spadework::climate
