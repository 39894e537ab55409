// The sun print as data. For the cli room alone.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "light/light.h"

namespace spadework::cli {

/// Days with their spans of strong sun, each with the share of the place that is lit, taken by one
/// thing, and taken twice; who is first on the way to the sun, and of an hour taken twice who is
/// second. Times by the clock. `ranked`: the garden's takers, whose order gives letters and inks.
[[nodiscard]] nlohmann::json sun_print_json(const light::SunPrint& print,
                                            const std::vector<std::string>& ranked);

}  // namespace spadework::cli
