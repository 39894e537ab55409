// The chains behind light figures. For the study room alone.
#pragma once

#include <string>
#include <vector>

#include "study/study.h"

namespace spadework::study {

/// Errors: kWrongUse, saying what the pointer could have named.
[[nodiscard]] Result<Trace> why_light(const Stand& stand, const PlacesYear& year,
                                      const facts::Catalogue& catalogue,
                                      const std::string& pointer);

[[nodiscard]] tl::unexpected<Error> no_such_place(const std::string& id,
                                                  const std::vector<std::string>& ids,
                                                  const std::string& scheme);

}  // namespace spadework::study
