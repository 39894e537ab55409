// The figures of `climate` by the keys of its JSON, and the chains behind them.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "study/study.h"
#include "study/why_pointer.h"

namespace spadework::study {

/// The climate of a scheme with the light of its open ground.
struct ClimateYear {
  const Stand& stand;
  const climate::Stations& stations;
  const climate::PlaceClimate& climate;
  const light::SunYear& sun;
};

/// A figure of a month. Nothing where it is not known; no plus or minus where none is estimated.
struct ClimateFigure {
  std::optional<double> value, plus_minus;
  climate::Origin origin = climate::Origin::kUnknown;
};
/// The keys of a month's figures: `tmax_c`, …, `dli_mol_m2_d`.
[[nodiscard]] const std::vector<std::string>& climate_keys();
/// In: month 0 to 11; one of the keys.
[[nodiscard]] ClimateFigure climate_figure(const ClimateYear& year, std::size_t month,
                                           const std::string& key);

/// A station that has a part in any of the figures, and how much it weighs in each: by key.
struct StationPart {
  climate::StationUse station;
  std::map<std::string, double> weights;
};
/// In the order in which they count.
[[nodiscard]] std::vector<StationPart> station_parts(const climate::PlaceClimate& climate);

/// In:     a pointer to the climate: `/climate/months/5/KEY`, `…/plus_minus/KEY`,
///         `/climate/year/global_mj_m2`, `/climate/stations/ID/distance_km`, …
/// Errors: kWrongUse, saying what the pointer could have named.
[[nodiscard]] Result<Trace> why_climate(const ClimateYear& year, const Pointer& pointer);

}  // namespace spadework::study
