// The chains behind light figures. For the study room alone.
#pragma once

#include <string>
#include <vector>

#include "study/study.h"
#include "study/why_pointer.h"

namespace spadework::study {

/// In: `year` holds the places, or the one spot, that the pointer names; of a day, that day alone.
/// Errors: kWrongUse, saying what the pointer could have named.
[[nodiscard]] Result<Trace> why_light(const Stand& stand, const PlacesYear& year,
                                      const facts::Catalogue& catalogue, const Pointer& pointer);

[[nodiscard]] tl::unexpected<Error> no_such_place(const std::string& id,
                                                  const std::vector<std::string>& ids,
                                                  const std::string& scheme);

}  // namespace spadework::study
