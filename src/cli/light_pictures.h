// The pictures of `light`: a month, the growing months or a day over the plan, or a sun print.
#pragma once

#include <optional>

#include "cli/verbs.h"

namespace spadework::cli {

/// Writes --svg and --png. Out: the exit status.
int write_light_pictures(const LightOptions& options, study::Study& study,
                         std::optional<LocalDate> date);

}  // namespace spadework::cli
