// The solar position algorithm, step by step: where the sun stands to within 0.0003°, with every
// step kept so that each can be checked against the report's worked example. Most callers want
// `sky/solar_position.h`, which says the same in quantities.
#pragma once

#include <array>

namespace spadework::sky {

/// What the algorithm is asked. Latitude north and longitude east positive.
struct SpaInput {
  double julian_day = 0;  // universal time
  double delta_t_s = 0;   // terrestrial minus universal time
  double latitude_deg = 0, longitude_deg = 0;
  double elevation_m = 0;
  double pressure_hpa = 1010;  // annual mean, for the refraction
  double air_c = 10;           // annual mean, for the refraction
};

/// The Earth's place in its orbit and the nodding of its axis: what changes little in a day.
struct EarthState {
  double heliocentric_longitude_rad = 0;  // L, whole turns kept
  double heliocentric_latitude_rad = 0;   // B
  double distance_au = 0;                 // R
  double nutation_longitude_deg = 0;      // Δψ
  double nutation_obliquity_deg = 0;      // Δε
};

/// Every step, in the report's order and with its symbols.
struct SpaSteps {
  double julian_century = 0;                       // JC
  double julian_ephemeris_day = 0;                 // JDE
  double julian_ephemeris_century = 0;             // JCE
  double julian_ephemeris_millennium = 0;          // JME
  double heliocentric_longitude_deg = 0;           // L, 0 to 360
  double heliocentric_latitude_deg = 0;            // B
  double distance_au = 0;                          // R
  double geocentric_longitude_deg = 0;             // Θ, 0 to 360
  double geocentric_latitude_deg = 0;              // β
  std::array<double, 5> nutation_arguments_deg{};  // X0 to X4
  double nutation_longitude_deg = 0;               // Δψ
  double nutation_obliquity_deg = 0;               // Δε
  double mean_obliquity_arcsec = 0;                // ε0
  double obliquity_deg = 0;                        // ε
  double aberration_deg = 0;                       // Δτ
  double apparent_longitude_deg = 0;               // λ
  double mean_sidereal_time_deg = 0;               // ν0, 0 to 360
  double sidereal_time_deg = 0;                    // ν
  double right_ascension_deg = 0;                  // α, 0 to 360
  double declination_deg = 0;                      // δ
  double hour_angle_deg = 0;                       // H, 0 to 360, westward from south
  double parallax_deg = 0;                         // ξ
  double right_ascension_parallax_deg = 0;         // Δα
  double topocentric_right_ascension_deg = 0;      // α'
  double topocentric_declination_deg = 0;          // δ'
  double topocentric_hour_angle_deg = 0;           // H', −180 to 180
  double true_elevation_deg = 0;                   // e0
  double refraction_deg = 0;          // Δe, 0 when the whole disc is below the horizon
  double apparent_elevation_deg = 0;  // e
  double azimuth_deg = 0;             // Φ, 0 to 360, clockwise from north
  double equation_of_time_min = 0;    // E
};

/// The Earth's state at a Julian ephemeris day: the long series (195 + 63 terms), about 4 µs.
/// In:     Julian ephemeris day, valid for the years −2000 to 6000.
/// Errors: none; outside those years it is less exact.
/// Source: [spa] §3.2 and §3.4, Eq. 9–18.
[[nodiscard]] EarthState earth_state(double julian_ephemeris_day);

/// All steps from the Earth's state to the sun's azimuth and elevation at the site.
/// In:     `earth` at the input's Julian day plus ΔT.
/// Errors: none; latitude −90 to 90.
/// Source: [spa] §3.1 and §3.3 to §3.14, appendix A.1.
[[nodiscard]] SpaSteps spa(const SpaInput& input, const EarthState& earth);
/// The same with the long series summed for this instant.
[[nodiscard]] SpaSteps spa(const SpaInput& input);

}  // namespace spadework::sky
