// Sun hours, and every output of `light` but takers, beside Embree: answers first, then time.
#include <cmath>
#include <limits>

#include "bench_garden.h"
#include "embree_side.h"
#include "rows.h"

namespace spadework::bench {

namespace {

using light::BeamLight;
using light::LitCounts;
using light::Receiver;
using light::SkyLight;

constexpr int kRuns = 3;

/// The mean difference of two fields over the larger of their means.
struct Difference {
  double off = 0, all = 0;
  void add(double one, double other) { off += std::abs(one - other), all += std::abs(other); }
  [[nodiscard]] double share() const { return off / all; }
};

double hours_differ(const LitCounts& ours, const LitCounts& theirs) {
  Difference difference;
  const auto cells = static_cast<std::size_t>(ours.columns() * ours.rows());
  for (int month = 0; month < light::kMonths; ++month)
    for (int part = 0; part < light::kParts; ++part)
      for (std::size_t cell = 0; cell < cells; ++cell)
        difference.add(ours.at(month, part, cell), theirs.at(month, part, cell));
  return difference.share();
}

double planes_differ(const std::vector<float>& ours, const std::vector<float>& theirs) {
  Difference difference;
  for (std::size_t cell = 0; cell < theirs.size(); ++cell)
    difference.add(static_cast<double>(ours[cell]), static_cast<double>(theirs[cell]));
  return difference.share();
}

/// The query that takes least time for every 32nd sun.
Query best_query(const EmbreeSide& embree, const Receiver& ground,
                 const std::vector<light::SunSample>& suns) {
  std::vector<light::SunSample> some;
  for (std::size_t i = 0; i < suns.size(); i += 32) some.push_back(suns[i]);
  Query best = Query::kSingle;
  double least = std::numeric_limits<double>::infinity();
  for (const Query query : kQueries) {
    std::vector<double> times;
    for (int run = 0; run < kRuns; ++run)
      times.push_back(time_ms([&] { (void)embree.hours(ground, some, query); }));
    const double ns = median(times) * 1e6 / static_cast<double>(some.size()) / ground.cells();
    row("Embree, " + query_name(query) + ": a cell and direction", fmt::format("{:.1f} ns", ns));
    if (ns < least) least = ns, best = query;
  }
  return best;
}

void hours(const EmbreeSide& embree, Query query, const light::Scene& scene,
           const Receiver& ground) {
  const auto suns = light::sun_year(site()).samples;
  LitCounts ours, theirs;
  const Pair time = in_turn(
      kRuns, [&] { ours = light::cast(scene, ground, suns); },
      [&] { theirs = embree.hours(ground, suns, query); });
  const double differ = hours_differ(ours, theirs);
  must(differ < 0.001, fmt::format("sun hours, by {:.4f} %", 100 * differ));
  row("sun hours: suns over the threshold", fmt::format("{}", suns.size()));
  row("sun hours: mean difference from Embree's", fmt::format("{:.4f} %", 100 * differ), "0.1 %");
  row("sun hours: Spadework, Embree", fmt::format("{:.0f} ms, {:.0f} ms", time.one, time.other));
  row("sun hours: a cell and direction",
      fmt::format("{:.2f} ns", time.one * 1e6 / ground.cells() / static_cast<double>(suns.size())));
  row("**sun hours: share of Embree's time**", fmt::format("**1/{:.0f}**", time.ratio()), "1/40");
}

void everything(const EmbreeSide& embree, Query query, const light::Scene& scene,
                const Receiver& ground) {
  const auto suns = light::sun_year(site(), cloud()).samples;
  const auto sky = light::sky_over(ground, {}, degrees(0));
  BeamLight our_beam, their_beam;
  SkyLight our_sky, their_sky;
  const Pair time = in_turn(
      kRuns,
      [&] {
        our_beam = light::cast_light(scene, ground, suns);
        our_sky = light::cast_sky(scene, ground, sky);
      },
      [&] {
        their_beam = embree.light(ground, suns, query);
        their_sky = embree.sky(ground, sky, query);
      });
  double differ = hours_differ(our_beam.lit, their_beam.lit);
  for (std::size_t month = 0; month < 12; ++month)
    differ =
        std::max(differ, planes_differ(our_beam.beam_mol_m2[month], their_beam.beam_mol_m2[month]));
  differ = std::max({differ, planes_differ(our_sky.uniform[0], their_sky.uniform[0]),
                     planes_differ(our_sky.overcast[0], their_sky.overcast[0])});
  must(differ < 0.001, fmt::format("light, by {:.4f} %", 100 * differ));
  row("hours and light: suns, directions of the sky",
      fmt::format("{}, {}", suns.size(), sky.size()));
  row("hours and light: largest mean difference of a month's beam or the sky from Embree's",
      fmt::format("{:.4f} %", 100 * differ), "0.1 %");
  row("hours and light: Spadework, Embree",
      fmt::format("{:.0f} ms, {:.0f} ms", time.one, time.other));
  row("**hours and light: share of Embree's time**", fmt::format("**1/{:.0f}**", time.ratio()),
      "1/20");
}

}  // namespace

void against_embree() {
  heading(
      "A year over 20 × 15 m at 10 cm, 60 prisms and 12 crowns, one thread each, beside "
      "Embree's best query");
  const EmbreeSide embree(bodies());
  const light::Scene scene(bodies());
  const Receiver field = ground();
  const Query query = best_query(embree, field, light::sun_year(site()).samples);
  hours(embree, query, scene, field);
  everything(embree, query, scene, field);
}

}  // namespace spadework::bench
