#include "light/spot.h"

#include <cmath>

#include "light/ray.h"
#include "light/skyline.h"

namespace spadework::light {
namespace {

constexpr double kStep_s = 120;
constexpr double kEnd_s = 1;  // ends of intervals are found to within this

class Day {
 public:
  Day(const garden::Garden& garden, const Scene& scene, const Receiver& receiver, LocalDate date)
      : garden_(garden),
        scene_(scene),
        receiver_(receiver),
        date_(date),
        site_{garden.site.latitude, garden.site.longitude, garden.site.elevation},
        almanac_(sky::Almanac::of_year(static_cast<int>(date.year()))) {}

  [[nodiscard]] bool sunny(UtcTime t) const {
    const sky::SunSample sun = sky::sun_sample(t, date_, site_, garden_.site.plan_north, almanac_);
    if (sun.elevation <= degrees(0) || sun.clear.direct_normal <= sky::kSunshineThreshold)
      return false;
    if (sun.elevation <= skyline_altitude(garden_.ground.horizon, sun.azimuth)) return false;
    if (dot(receiver_.w_axis, sun.towards) <= 0) return false;
    return along_ray(scene_, cell_centre(receiver_, 0, 0), sun.towards, day_of_year(date_))
        .sunlit();
  }

  [[nodiscard]] UtcTime turn_between(UtcTime low, UtcTime high) const {
    const bool at_low = sunny(low);
    while (high.unix_s - low.unix_s > kEnd_s) {
      const UtcTime middle{(low.unix_s + high.unix_s) / 2};
      (sunny(middle) == at_low ? low : high) = middle;
    }
    return UtcTime{(low.unix_s + high.unix_s) / 2};
  }

  [[nodiscard]] SpotDay find() const {
    SpotDay day;
    const TimeZone& zone = garden_.site.time_zone;
    day.events = sky::sun_events(date_, zone, site_, almanac_);
    const double start = day.events.starts.unix_s, end = day.events.ends.unix_s;
    const auto clock = [&](UtcTime t) { return zone.clock_hour(date_, t); };
    UtcTime began{start};
    bool was = sunny(began);
    for (double s = start; s < end;) {
      const double next = std::min(end, s + kStep_s);
      const bool now = sunny(UtcTime{next});
      if (now != was) {
        const UtcTime turn = turn_between(UtcTime{s}, UtcTime{next});
        if (was) day.intervals.push_back({clock(began), clock(turn)});
        if (was) day.sun_h += (turn.unix_s - began.unix_s) / 3600;
        began = turn;
        was = now;
      }
      s = next;
    }
    if (was) {
      day.intervals.push_back({clock(began), clock(UtcTime{end})});
      day.sun_h += (end - began.unix_s) / 3600;
    }
    return day;
  }

 private:
  const garden::Garden& garden_;
  const Scene& scene_;
  const Receiver& receiver_;
  LocalDate date_;
  sky::Site site_;
  sky::Almanac almanac_;
};

}  // namespace

SpotDay spot_day(const garden::Garden& garden, const Scene& scene, const Receiver& receiver,
                 LocalDate date) {
  return Day(garden, scene, receiver, date).find();
}

}  // namespace spadework::light
