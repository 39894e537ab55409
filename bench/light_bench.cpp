// How long the light takes and how much room it needs, as tables in Markdown. Answers are compared
// before anything is timed; an answer that differs ends the run.
#include <cstdio>

#include "bench_garden.h"
#include "rows.h"

namespace spadework::bench {

namespace {

constexpr int kRuns = 7;
constexpr int kMoves = 200;

/// Everything `light` tells of the field but takers.
void whole_year(const light::Scene& scene, const light::Receiver& field,
                const std::vector<light::SunSample>& suns, int threads) {
  light::CastOptions options;
  options.threads = threads;
  (void)light::cast_light(scene, field, suns, options);
  (void)light::cast_sky(scene, field, light::sky_over(field, {}, degrees(0)), options);
}

/// One thing of the garden somewhere else.
std::vector<garden::Body> moved(Random& random, bool leafy) {
  const geometry::Vec2 middle{random.between(3, 17), random.between(3, 12)};
  if (leafy)
    return {{"c3",
             geometry::RoundSolid{geometry::RoundShape::kEllipsoid, middle, 1.5, 6, 2.2},
             garden::Through::kPerMetre,
             {0.6F}}};
  return {{"b7",
           geometry::prism(geometry::rectangle_about(middle, {3, 0.2}, random.between(0, 3)),
                           geometry::Incline{-0.2, {}}, geometry::Incline{2, {}}),
           garden::Through::kOpaque,
           {1.0F}}};
}

light::Scene scene_with(const std::vector<garden::Body>& thing) {
  std::vector<garden::Body> all;
  for (const garden::Body& body : bodies())
    if (body.thing != thing[0].thing) all.push_back(body);
  all.insert(all.end(), thing.begin(), thing.end());
  return light::Scene(all);
}

void moves_of(bool leafy) {
  const auto suns = light::sun_year(site()).samples;
  const light::Moves kept(light::Scene(bodies()), ground(), suns, leafy ? "c3" : "b7");
  Random random(99);
  std::vector<double> times;
  light::LitCounts counts;
  for (int i = 0; i < kMoves; ++i) {
    const auto thing = moved(random, leafy);
    times.push_back(time_ms([&] { counts = kept.with(thing); }));
    if (i % 20 == 0)
      must(counts == light::cast(scene_with(thing), ground(), suns), "a move and the year anew");
  }
  row(leafy ? "a leafy tree among others moved: sun hours of the field, exact"
            : "a wall moved: sun hours of the field, exact",
      fmt::format("{:.1f} ms (longest {:.1f})", median(times),
                  *std::max_element(times.begin(), times.end())),
      "16 ms");
}

light::Place bed(const std::string& id, geometry::Vec2 corner) {
  light::Place place;
  place.id = id;
  place.receivers = {light::level_receiver(corner, 0, 0.2, 0.1, 12, 36)};
  place.receivers[0].counted.assign(12 * 36, 1);
  return place;
}

void candidates() {
  const auto suns = light::sun_year(site(), cloud());
  std::vector<std::vector<garden::Body>> trees;
  for (int i = 0; i < 10'000; ++i)
    trees.push_back(
        {{"new",
          geometry::RoundSolid{
              geometry::RoundShape::kEllipsoid, {i % 100 * 0.2, i / 100 * 0.15}, 1.5, 5, 1.5},
          garden::Through::kPerMetre,
          {0.6F}}});
  const light::Scene scene(bodies());
  for (const int every : {1, 8}) {
    light::CandidateOptions options;
    options.every = every;
    options.threads = 2;
    std::vector<light::Loss> losses;
    const double ms = time_ms([&] {
      losses = light::losses(site(), bed("bed", {8, 6}), scene, trees, suns, options);
    });
    must(losses.size() == trees.size(), "candidates");
    row(fmt::format("10,000 places of a tree: what a bed of 1.2 × 3.6 m would lose{}",
                    every == 1 ? ", exact" : ", by every eighth sun"),
        fmt::format("{:.1f} s", ms / 1000));
  }
}

/// The most memory that this program has had, MB.
double most_memory_mb() {
  double mb = 0;
  FILE* status = std::fopen("/proc/self/status", "r");
  if (status == nullptr) return 0;
  char line[256];
  while (std::fgets(line, sizeof line, status) != nullptr) {
    long kb = 0;
    if (std::sscanf(line, "VmHWM: %ld kB", &kb) == 1) mb = static_cast<double>(kb) / 1024;
  }
  std::fclose(status);
  return mb;
}

}  // namespace

void memory() {
  heading("Memory");
  whole_year(light::Scene(bodies()), ground(), light::sun_year(site(), cloud()).samples, 2);
  row("the most that this program took for hours and light of the year on two threads",
      fmt::format("{:.0f} MB", most_memory_mb()), "200 MB");
}

void on_two_threads() {
  heading("Two threads");
  const light::Scene scene(bodies());
  const auto field = ground();
  const auto suns = light::sun_year(site()).samples;
  const auto all = light::sun_year(site(), cloud()).samples;
  light::CastOptions two;
  two.threads = 2;
  must(light::cast(scene, field, suns) == light::cast(scene, field, suns, two), "two threads");
  const Pair hours = in_turn(
      kRuns, [&] { (void)light::cast(scene, field, suns, two); },
      [&] { (void)light::cast(scene, field, suns); });
  const Pair light = in_turn(
      kRuns, [&] { whole_year(scene, field, all, 2); }, [&] { whole_year(scene, field, all, 1); });
  row("sun hours: two threads, one", fmt::format("{:.0f} ms, {:.0f} ms", hours.one, hours.other));
  row("**sun hours: times as fast**", fmt::format("**{:.2f}**", hours.ratio()), "1.7");
  row("hours and light: two threads, one",
      fmt::format("{:.0f} ms, {:.0f} ms", light.one, light.other), "150 ms after letting go");
  row("**hours and light: times as fast**", fmt::format("**{:.2f}**", light.ratio()), "1.7");
}

void moves() {
  heading(
      "One thing moved, on one thread: the median of 200 moves, every 20th compared with the "
      "year cast anew");
  moves_of(false);
  moves_of(true);
  candidates();
}

void takers() {
  heading("Takers");
  const auto suns = light::sun_year(site(), cloud());
  const light::Scene scene(bodies());
  const garden::Garden garden = site();
  const double ms = time_ms([&] {
    for (int i = 0; i < 40; ++i) {
      const geometry::Vec2 corner{1 + 2.3 * (i % 8), 0.5 + 2.8 * (i / 8)};
      (void)light::takers_of(garden, bed("bed", corner), scene, suns);
    }
  });
  row("takers of 40 beds of 1.2 × 3.6 m at 10 cm, one thread", fmt::format("{:.2f} s", ms / 1000),
      "2 s");
}

void larger() {
  heading("Finer and larger, one thread: the time may grow no faster than cells × directions");
  const auto suns = light::sun_year(site()).samples;
  std::vector<light::SunSample> half;
  for (std::size_t i = 0; i < suns.size(); i += 2) half.push_back(suns[i]);
  const auto year_ms = [&](double cell_m, double wider, const auto& some) {
    const light::Scene scene(bodies(wider));
    const auto field = ground(cell_m, wider);
    std::vector<double> times;
    for (int run = 0; run < kRuns; ++run)
      times.push_back(time_ms([&] { (void)light::cast(scene, field, some); }));
    return median(times);
  };
  const double usual = year_ms(0.1, 1, suns);
  const auto tell = [&](const std::string& what, double from, double to, int times) {
    row(what, fmt::format("{:.0f} ms → {:.0f} ms: × {:.1f}", from, to, to / from),
        fmt::format("× {} at most", times));
  };
  tell("2,048 suns → 4,096", year_ms(0.1, 1, half), usual, 2);
  tell("10 cm → 5 cm", usual, year_ms(0.05, 1, suns), 4);
  tell("20 × 15 m → 40 × 30 m", usual, year_ms(0.1, 2, suns), 4);
  tell("20 × 15 m at 10 cm → 40 × 30 m at 5 cm", usual, year_ms(0.05, 2, suns), 16);
}

}  // namespace spadework::bench

int main() {
  using namespace spadework::bench;
  memory();  // first: it tells the most that there has been
  against_embree();
  on_two_threads();
  moves();
  takers();
  larger();
  return 0;
}
