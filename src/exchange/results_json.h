// Results as JSON, metric and unrounded, the unit in each key; what does not exist is null.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "study/study.h"

namespace spadework::exchange {

/// A figure with the chain behind it.
[[nodiscard]] nlohmann::json trace_json(const Trace& trace);
[[nodiscard]] nlohmann::json finding_json(const garden::Finding& finding);
/// The light of a place, month by month, and what takes it.
[[nodiscard]] nlohmann::json place_json(const study::Stand& stand, const light::PlaceSun& place,
                                        const std::array<int, 12>& days_in_month,
                                        const light::Takers& takers);
[[nodiscard]] nlohmann::json months_json(const light::YearSun& months);
/// The guessed figures that light rests on: "medlar.height_m".
[[nodiscard]] nlohmann::json guessed_json(const study::Stand& stand);

/// Days with their spans of strong sun, each with the share of the place that is lit, taken by one
/// thing, and taken twice; who is first on the way to the sun, and of an hour taken twice who is
/// second. Times by the clock. `ranked`: the garden's takers, whose order gives letters and inks.
[[nodiscard]] nlohmann::json sun_print_json(const light::SunPrint& print,
                                            const std::vector<std::string>& ranked);

}  // namespace spadework::exchange
