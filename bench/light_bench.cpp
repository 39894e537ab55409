// How long the light takes, as a table in Markdown: medians of repeated runs on one thread. The
// answers are compared before anything is timed.
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

#include "light/light.h"
#include "sky/sky.h"

namespace {

using namespace spadework;
using geometry::Incline;
using geometry::Vec2;

/// A 20 × 15 m garden: 60 prisms (walls and boxes) and 12 crowns, on level ground.
std::vector<garden::Body> bench_garden() {
  Random random(20260117);
  std::vector<garden::Body> bodies;
  for (int i = 0; i < 60; ++i) {
    const Vec2 middle{random.between(0, 20), random.between(0, 15)};
    const bool wall = i % 2 == 0;
    const Vec2 size = wall ? Vec2{random.between(2, 8), 0.2}
                           : Vec2{random.between(0.5, 2), random.between(0.5, 2)};
    bodies.push_back({"b" + std::to_string(i),
                      geometry::prism(geometry::rectangle_about(middle, size, random.between(0, 3)),
                                      Incline{-0.2, {}}, Incline{random.between(0.4, 2.4), {}}),
                      garden::Through::kOpaque,
                      {1.0F}});
  }
  for (int i = 0; i < 12; ++i) {
    const geometry::RoundSolid crown{geometry::RoundShape::kEllipsoid,
                                     {random.between(0, 20), random.between(0, 15)},
                                     random.between(1, 2),
                                     random.between(4, 7),
                                     random.between(1, 2.5)};
    bodies.push_back({"c" + std::to_string(i), crown, garden::Through::kPerMetre, {0.6F}});
  }
  return bodies;
}

template <class Work>
double median_ms(int runs, Work work) {
  std::vector<double> times;
  for (int i = 0; i < runs; ++i) {
    const auto start = std::chrono::steady_clock::now();
    work();
    times.push_back(
        std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start)
            .count());
  }
  std::sort(times.begin(), times.end());
  return times[times.size() / 2];
}

/// The share of cells and suns on which the caster and single rays agree.
double agreement(const light::Scene& scene, const light::Receiver& receiver,
                 const std::vector<light::SunSample>& suns) {
  long same = 0, all = 0;
  for (std::size_t s = 0; s < suns.size(); s += 97) {
    const auto counts = light::cast(scene, receiver, std::span(&suns[s], 1), {});
    for (int r = 0; r < receiver.rows; r += 3) {
      for (int c = 0; c < receiver.columns; c += 3) {
        const auto cell = static_cast<std::size_t>(r * receiver.columns + c);
        const bool lit = counts.at(suns[s].month, suns[s].part, cell) > 0;
        const bool clear = light::along_ray(scene, light::cell_centre(receiver, c, r),
                                            suns[s].toward_sun, suns[s].day_of_year)
                               .sunlit();
        same += lit == clear;
        ++all;
      }
    }
  }
  return static_cast<double>(same) / static_cast<double>(all);
}

}  // namespace

int main() {
  garden::Garden garden;
  garden.site.latitude = degrees(48.41);
  garden.site.longitude = degrees(-4.36);
  const light::SunYear year = light::sun_year(garden);
  const light::Scene scene(bench_garden());
  const light::Receiver receiver = light::level_receiver({0, 0}, 0, 0.002, 0.1, 200, 150);
  const double same = agreement(scene, receiver, year.samples);
  if (same < 0.9995) {
    std::printf("The caster and single rays differ: %.5f agree.\n", same);
    return 1;
  }
  light::LitCounts counts;
  const double field =
      median_ms(7, [&] { counts = light::cast(scene, receiver, year.samples, {}); });
  const double suns = median_ms(7, [&] { (void)light::sun_year(garden); });
  std::printf("| what, on one thread | figure |\n| --- | --- |\n");
  std::printf("| suns of a year, over the threshold | %zu |\n", year.samples.size());
  std::printf("| caster against single rays, cells and suns that agree | %.5f |\n", same);
  std::printf("| finding the suns of a year | %.1f ms |\n", suns);
  std::printf("| sun hours of a year, 20 × 15 m at 10 cm, 60 prisms and 12 crowns | %.0f ms |\n",
              field);
  std::printf("| … for one cell and sun | %.2f ns |\n",
              field * 1e6 / (30000.0 * static_cast<double>(year.samples.size())));
  return 0;
}
