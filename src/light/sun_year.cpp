#include "light/sun_year.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "light/skyline.h"

namespace spadework::light {
namespace {

/// Things lower than this, as the receiver sees them, take next to nothing of the sky: under a
/// thousandth of it on a level plane.
constexpr double kLowestSky = 0.01746;  // tan 1°

std::uint8_t part_index(sky::PartOfDay part) {
  switch (part) {
    case sky::PartOfDay::kMorning:
      return 0;
    case sky::PartOfDay::kMidday:
      return 1;
    case sky::PartOfDay::kAfternoon:
      return 2;
  }
  return 1;
}

sky::Site site_of(const garden::Garden& garden) {
  return {garden.site.latitude, garden.site.longitude, garden.site.elevation};
}

SunSample sample_of(const sky::SunSample& sun, const sky::CloudySun& cloudy) {
  SunSample sample;
  sample.toward_sun = sun.towards;
  sample.beam_w_m2 = static_cast<float>(in_watts_per_m2(sun.clear.direct_normal));
  sample.day_of_year = static_cast<std::uint16_t>(day_of_year(sun.date));
  sample.month = static_cast<std::uint8_t>(sun.month() - 1);
  sample.part = part_index(sun.part);
  sample.light = static_cast<float>(cloudy.normal_mj_m2 * kMolPerMj);
  return sample;
}

/// Adds up the open sky, and keeps the suns that count as sunshine or bring light.
void gather(const garden::Garden& garden, const std::vector<sky::SunSample>& suns,
            const std::vector<sky::CloudySun>& cloudy, const Cloud& cloud, SunYear& out) {
  out.lowest_tangent = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < suns.size(); ++i) {
    const sky::SunSample& sun = suns[i];
    const SunSample sample = sample_of(sun, cloudy[i]);
    const bool strong = sun.clear.direct_normal > sky::kSunshineThreshold;
    const double days = out.days_in_month[sample.month];
    const double level = cloudy[i].normal_mj_m2 * std::sin(in_radians(sun.elevation));
    out.open_mol_m2_d[sample.month] += (level + cloudy[i].sky_mj_m2) * kMolPerMj / days;
    out.sky_mol_m2_d[sample.month] += cloudy[i].sky_mj_m2 * kMolPerMj / days;
    if (strong) out.open_sun_h[sample.month] += out.hours_each / days;
    if (!strong && !(sample.light > 0)) continue;
    if (sun.elevation <= skyline_altitude(garden.ground.horizon, sun.azimuth)) {
      out.behind.push_back(sample);
      continue;
    }
    out.samples.push_back(sample);
    if (strong)
      out.lowest_tangent = std::min(out.lowest_tangent, std::tan(in_radians(sun.elevation)));
  }
  for (std::size_t m = 0; m < 12; ++m) {
    if (out.open_sun_h[m] <= 0) continue;
    out.sunshine_h[m] = std::min(cloud.sunshine_h_per_day[m], out.open_sun_h[m]);
    out.overcast[m] = 1 - out.sunshine_h[m] / out.open_sun_h[m];
  }
  if (out.has_light()) out.lowest_tangent = std::min(out.lowest_tangent, kLowestSky);
}

}  // namespace

void SunYear::leave_out_all_but(const std::vector<int>& months) {
  for (std::vector<SunSample>* suns : {&samples, &behind}) {
    std::erase_if(*suns, [&](const SunSample& sample) {
      return std::find(months.begin(), months.end(), sample.month) == months.end();
    });
  }
}

void SunYear::look_at_every(int every) {
  SW_CHECK(every >= 1);
  if (every == 1) return;
  const auto place = [](const SunSample& s) {
    return std::pair(s.month, std::atan2(s.toward_sun.x, s.toward_sun.y));
  };
  std::stable_sort(samples.begin(), samples.end(),
                   [&](const SunSample& a, const SunSample& b) { return place(a) < place(b); });
  std::vector<SunSample> some;
  for (auto i = static_cast<std::size_t>(every / 2); i < samples.size();
       i += static_cast<std::size_t>(every))
    some.push_back(samples[i]);
  samples = std::move(some);
  hours_each *= every;
}

bool SunYear::has_light() const {
  return std::any_of(open_mol_m2_d.begin(), open_mol_m2_d.end(), [](double d) { return d > 0; });
}

SunYear sun_year(const garden::Garden& garden, const Cloud& cloud, int year) {
  const sky::YearSamples sky_year =
      sky::year_samples(year, site_of(garden), garden.site.plan_north);
  SunYear out;
  out.days_in_month = sky_year.days_in_month;
  gather(garden, sky_year.samples,
         sky::cloudy_suns(sky_year.samples, year, garden.site.latitude, cloud.radiation), cloud,
         out);
  return out;
}

SunYear sun_of_day(const garden::Garden& garden, LocalDate date, const Cloud& cloud) {
  constexpr double kStep_s = 240;
  const sky::DaySamples day = sky::day_samples(date, garden.site.time_zone, site_of(garden),
                                               garden.site.plan_north, kStep_s);
  SunYear out;
  out.days_in_month.fill(1);
  out.hours_each = day.step_h;
  gather(garden, day.samples,
         sky::cloudy_suns(day.samples, static_cast<int>(date.year()), garden.site.latitude,
                          cloud.radiation),
         cloud, out);
  return out;
}

SunYear sun_of_moment(const garden::Garden& garden, LocalDate date, double clock_h) {
  SunYear out;
  out.days_in_month.fill(1);
  const sky::Almanac almanac = sky::Almanac::of_year(static_cast<int>(date.year()));
  const sky::SunSample sun = sky::sun_sample(garden.site.time_zone.at_clock(date, clock_h), date,
                                             site_of(garden), garden.site.plan_north, almanac);
  if (in_radians(sun.elevation) > 0) gather(garden, {sun}, {sky::CloudySun{}}, {}, out);
  return out;
}

}  // namespace spadework::light
