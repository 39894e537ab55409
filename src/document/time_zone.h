// Time zones from the system's tz database.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/date.h"
#include "base/result.h"

namespace spadework::document {

/// The zone of an IANA name ("Europe/Paris"), links ("Europe/Kyiv", "GB") included, with its clock
/// changes from 1990 to 2060. Beyond the years that the database lists, its rule for the years to
/// come is followed.
/// Errors: kUnknownKind with the nearest name; kCannotRead if there is no tz database.
[[nodiscard]] Result<TimeZone> load_time_zone(std::string_view name);

/// Every name that the database has.
[[nodiscard]] Result<std::vector<std::string>> time_zone_names();

/// The rule for the years to come, as the tz database writes it: "CET-1CEST,M3.5.0,M10.5.0/3".
/// Gives the periods that begin after `after` and before the end of `last_year`; none if the rule
/// has no clock change or is not understood. Source: [posix-tz]
[[nodiscard]] std::vector<TimeZone::Period> periods_of_rule(std::string_view rule, UtcTime after,
                                                            int last_year);

}  // namespace spadework::document
