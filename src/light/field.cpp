#include "light/field.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/parallel.h"
#include "light/field_plan.h"
#include "light/sky_light.h"

namespace spadework::light {
namespace {

Scene scene_over(const FieldBand& band, const std::vector<garden::Body>& bodies,
                 const SunYear& year) {
  return Scene(bodies_in_reach(std::span(&band.receiver, 1), bodies, band.own, band.replaces,
                               year.lowest_tangent));
}

void write_hours(const FieldBand& band, const LitCounts& lit, const SunYear& year, Field& field) {
  for (std::size_t m = 0; m < 12; ++m) {
    for (const FieldBand::Cell cell : band.cells)
      field.months[m][cell.of_field] =
          static_cast<float>(lit.of_month(static_cast<int>(m), cell.of_receiver) * year.hours_each /
                             year.days_in_month[m]);
  }
}

void cast_band(const garden::Garden& garden, const FieldBand& band,
               const std::vector<garden::Body>& bodies, const SunYear& year, Field& field) {
  const Scene scene = scene_over(band, bodies, year);
  if (!year.has_light()) {
    write_hours(band, cast(scene, band.receiver, year.samples), year, field);
    return;
  }
  const BeamLight sun = cast_light(scene, band.receiver, year.samples);
  const SkyLight sky = cast_sky(
      scene, band.receiver, sky_over(band.receiver, garden.ground.horizon, garden.site.plan_north));
  write_hours(band, sun.lit, year, field);
  for (std::size_t m = 0; m < 12; ++m) {
    for (const FieldBand::Cell cell : band.cells)
      field.dli[m][cell.of_field] = static_cast<float>(dli_of(year, sun, sky, m, cell.of_receiver));
  }
}

}  // namespace

Result<Field> sun_field(const Scenery& scenery, const std::vector<garden::Body>& bodies,
                        const SunYear& year, double cell_m, int threads, Progress* progress) {
  auto field = empty_field(scenery, cell_m);
  if (!field) return field;
  if (year.has_light()) field->dli = field->months;
  const std::vector<FieldBand> bands = bands_of(scenery, *field);
  if (progress) progress->start(static_cast<long>(bands.size()));
  // Each band writes to its own cells.
  parallel_for(static_cast<int>(bands.size()), threads, [&](int i) {
    if (progress && progress->cancelled()) return;
    cast_band(scenery.garden, bands[static_cast<std::size_t>(i)], bodies, year, *field);
    if (progress) progress->step();
  });
  if (progress && progress->cancelled())
    return fail(ErrorCode::kNoAnswer, "", "The work was stopped before it was done.");
  return field;
}

FieldMoves::FieldMoves(const Scenery& scenery, const std::vector<garden::Body>& bodies,
                       const SunYear& year, const Field& field, const std::string& thing,
                       int threads)
    : year_(year), threads_(threads) {
  Field planned = field;
  bands_ = std::make_shared<const std::vector<FieldBand>>(bands_of(scenery, planned));
  moves_.reserve(bands_->size());
  CastOptions options;
  options.threads = threads;
  for (const FieldBand& band : *bands_)
    moves_.emplace_back(scene_over(band, bodies, year), band.receiver, year.samples, thing,
                        options);
}

void FieldMoves::with(const std::vector<garden::Body>& thing, Field& field) const {
  parallel_for(static_cast<int>(moves_.size()), threads_, [&](int i) {
    const auto band = static_cast<std::size_t>(i);
    write_hours((*bands_)[band], moves_[band].with(thing), year_, field);
  });
}

std::vector<float> field_mean(const Field& field, const SunYear& year,
                              const std::vector<int>& months) {
  std::vector<float> mean(field.lies_on.size(), std::numeric_limits<float>::quiet_NaN());
  for (std::size_t i = 0; i < mean.size(); ++i) {
    if (field.lies_on[i] == kNoCell) continue;
    double sum = 0, days = 0;
    for (const int m : months) {
      const auto month = static_cast<std::size_t>(m);
      sum += static_cast<double>(field.months[month][i]) * year.days_in_month[month];
      days += year.days_in_month[month];
    }
    mean[i] = static_cast<float>(sum / days);
  }
  return mean;
}

}  // namespace spadework::light
