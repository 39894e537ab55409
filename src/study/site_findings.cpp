#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "study/study.h"

namespace spadework::study {

std::vector<garden::Finding> clock_findings(const garden::Site& site) {
  constexpr double kOddClock_h = 3;  // no country's clocks stand farther from the sun's
  const TimeZone& zone = site.time_zone;
  if (zone.name() == "UTC" || zone.name().starts_with("Etc/")) return {};
  const auto offset_h = [&](unsigned month) {
    return zone.offset_s(zone.at_clock(make_date(kReferenceYear, month, 1), 12)) / 3600.0;
  };
  const double standard_h = std::min(offset_h(1), offset_h(7));
  const double ahead_h = std::remainder(standard_h - in_degrees(site.longitude) / 15, 24);
  if (std::abs(ahead_h) <= kOddClock_h) return {};
  garden::Finding finding;
  finding.grade = garden::Grade::kShould;
  finding.about = {"garden"};
  const double longitude_deg = in_degrees(site.longitude);
  finding.says = fmt::format(
      "By the clocks of {} the sun of {:.2f}° {} stands highest at {}: the place or the time zone "
      "is wrong.",
      zone.name(), std::abs(longitude_deg), longitude_deg < 0 ? "west" : "east",
      clock_text(std::fmod(12 + ahead_h + 24, 24), false));
  finding.mend = {
      "See whether the longitude, where west of Greenwich is negative (garden.longitude_deg), and "
      "the time zone (garden.time_zone) are right."};
  Trace ahead;
  ahead.name = "how far the clocks are ahead of the sun, without summer time";
  ahead.number = ahead_h;
  ahead.has_number = true;
  ahead.unit = "h";
  ahead.value = fmt::format("{:.1f} h", ahead_h);
  finding.numbers = {std::move(ahead)};
  finding.sources = {"closed-form"};
  return {finding};
}

}  // namespace spadework::study
