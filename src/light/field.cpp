#include "light/field.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <optional>

#include "base/check.h"
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

constexpr std::array<std::size_t, 12> kAllMonths{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11};

/// Of so many samples of a month.
float hours_of(std::uint32_t lit, const SunYear& year, std::size_t month) {
  return static_cast<float>(lit * year.hours_each / year.days_in_month[month]);
}

void write_hours(const FieldBand& band, const LitCounts& lit, const SunYear& year,
                 std::span<const std::size_t> months, Field& field) {
  for (const std::size_t m : months) {
    for (const FieldBand::Cell cell : band.cells)
      field.months[m][cell.of_field] =
          hours_of(lit.of_month(static_cast<int>(m), cell.of_receiver), year, m);
  }
}

void cast_band(const garden::Garden& garden, const FieldBand& band,
               const std::vector<garden::Body>& bodies, const SunYear& year, Field& field) {
  const Scene scene = scene_over(band, bodies, year);
  if (!year.has_light()) {
    write_hours(band, cast(scene, band.receiver, year.samples), year, kAllMonths, field);
    return;
  }
  const BeamLight sun = cast_light(scene, band.receiver, year.samples);
  const SkyLight sky = cast_sky(
      scene, band.receiver, sky_over(band.receiver, garden.ground.horizon, garden.site.plan_north));
  write_hours(band, sun.lit, year, kAllMonths, field);
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
                       const FieldMovesOptions& options)
    : year_(year), threads_(options.threads) {
  SW_CHECK(options.every >= 1);
  for (int month = 0; month < 12; ++month) {
    const auto& wanted = options.months;
    if (wanted.empty() || std::find(wanted.begin(), wanted.end(), month) != wanted.end())
      months_.push_back(static_cast<std::size_t>(month));
  }
  if (!options.months.empty()) year_.leave_out_all_but(options.months);
  year_.look_at_every(options.every);
  Field planned = field;
  bands_ = std::make_shared<const std::vector<FieldBand>>(bands_of(scenery, planned));
  CastOptions cast_options;
  // Many bands are shared out over the threads as wholes: see write().
  cast_options.threads = static_cast<int>(bands_->size()) >= 4 * threads_ ? 1 : threads_;
  cast_options.progress = options.progress;
  std::vector<std::optional<Moves>> made(bands_->size());
  parallel_for(static_cast<int>(made.size()), cast_options.threads == 1 ? threads_ : 1, [&](int i) {
    if (options.progress && options.progress->cancelled()) return;
    const FieldBand& band = (*bands_)[static_cast<std::size_t>(i)];
    made[static_cast<std::size_t>(i)].emplace(scene_over(band, bodies, year), band.receiver,
                                              year_.samples, thing, cast_options);
  });
  if (options.progress && options.progress->cancelled()) return;
  for (std::optional<Moves>& one : made) moves_.push_back(std::move(*one));
  for (std::size_t b = 0; b < moves_.size(); ++b)
    write_hours((*bands_)[b], moves_[b].without(), year_, months_, planned);
  for (const std::size_t m : months_) bare_[m] = planned.months[m];
  if (options.every == 1) return;
  std::vector<garden::Body> own;
  for (const garden::Body& body : bodies)
    if (body.thing == thing) own.push_back(body);
  with(own, planned);
  for (const std::size_t m : months_) {
    rest_[m].resize(field.months[m].size());
    std::transform(field.months[m].begin(), field.months[m].end(), planned.months[m].begin(),
                   rest_[m].begin(), std::minus());
    for (std::size_t i = 0; i < rest_[m].size(); ++i) bare_[m][i] = with_rest(m, i, bare_[m][i]);
  }
}

float FieldMoves::with_rest(std::size_t month, std::size_t cell, float hours) const {
  if (rest_[month].empty()) return hours;
  return std::clamp(hours + rest_[month][cell], 0.0F, static_cast<float>(year_.open_sun_h[month]));
}

void FieldMoves::with(const std::vector<garden::Body>& thing, Field& field) const {
  const Scene own(thing);
  for (const std::size_t m : months_) field.months[m] = bare_[m];
  parallel_for(static_cast<int>(moves_.size()), threads_, [&](int i) {
    const auto b = static_cast<std::size_t>(i);
    const LitCounts& without = moves_[b].without();
    const LitCounts lost = moves_[b].lost(own);
    for (const std::size_t m : months_) {
      if (!lost.any_in(static_cast<int>(m))) continue;
      for (const FieldBand::Cell cell : (*bands_)[b].cells) {
        const std::uint32_t fewer = lost.of_month(static_cast<int>(m), cell.of_receiver);
        if (fewer == 0) continue;
        const std::uint32_t lit = without.of_month(static_cast<int>(m), cell.of_receiver) - fewer;
        field.months[m][cell.of_field] = with_rest(m, cell.of_field, hours_of(lit, year_, m));
      }
    }
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

std::vector<std::optional<double>> bed_means(const Field& field, const std::vector<float>& figures,
                                             std::size_t beds) {
  std::vector<double> sums(beds), cells(beds);
  for (std::size_t i = 0; i < figures.size(); ++i) {
    if (field.lies_on[i] < 0 || std::isnan(figures[i])) continue;
    sums[static_cast<std::size_t>(field.lies_on[i])] += static_cast<double>(figures[i]);
    cells[static_cast<std::size_t>(field.lies_on[i])] += 1;
  }
  std::vector<std::optional<double>> means(beds);
  for (std::size_t b = 0; b < beds; ++b)
    if (cells[b] > 0) means[b] = sums[b] / cells[b];
  return means;
}

}  // namespace spadework::light
