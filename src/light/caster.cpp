#include "light/caster.h"

#include <algorithm>
#include <bit>

#include "base/check.h"
#include "base/parallel.h"
#include "light/caster_rows.h"

namespace spadework::light {
namespace {

/// A sample's beam that counts, and where its sun goes.
struct CountedBeam {
  Beam beam;
  int part = 0;
};

/// Shade counted by the ends of dark runs: each row of a plane has one place more than columns; the
/// running sum along it is how often each cell was dark.
class RunEnds {
 public:
  RunEnds(int columns, std::size_t words) : columns_(columns), words_(words) {}

  void add(const std::uint64_t* dark, std::uint32_t* ends) const {
    std::uint64_t before = 0;  // the cell to the left is dark
    std::uint32_t change = 1;
    for (std::size_t word = 0; word < words_; ++word) {
      for (std::uint64_t turns = dark[word] ^ (dark[word] << 1 | before); turns != 0;
           turns &= turns - 1) {
        ends[word * 64 + static_cast<std::size_t>(std::countr_zero(turns))] += change;
        change = 0 - change;
      }
      before = dark[word] >> 63;
    }
    if (before != 0) --ends[columns_];
  }

 private:
  int columns_;
  std::size_t words_;
};

/// From run ends to how often each cell was sunlit of `times`, in place.
void sum_runs(std::vector<std::uint32_t>& plane, int columns, int rows, std::uint32_t times) {
  std::size_t from = 0, to = 0;
  for (int j = 0; j < rows; ++j, ++from) {
    std::uint32_t dark = 0;
    for (int i = 0; i < columns; ++i) {
      dark += plane[from++];
      plane[to++] = times - dark;
    }
  }
  plane.resize(to);
}

const Kernels& kernels_for(Backend backend) {
  return backend != Backend::kScalar && has_avx2() ? avx2_kernels() : scalar_kernels();
}

using BeamsByMonth = std::array<std::vector<CountedBeam>, kMonths>;

BeamsByMonth counted_beams(const Grid& grid, std::span<const SunSample> samples,
                           const CastOptions& options) {
  BeamsByMonth by_month;
  for (const SunSample& sample : samples) {
    SW_CHECK_LT(static_cast<int>(sample.month), kMonths);
    SW_CHECK_LT(static_cast<int>(sample.part), kParts);
    const bool bright = options.least_beam_w_m2 <= 0 ||
                        static_cast<double>(sample.beam_w_m2) > options.least_beam_w_m2;
    if (!bright) continue;
    if (const auto beam = beam_over(grid, sample))
      by_month[sample.month].push_back({*beam, sample.part});
  }
  return by_month;
}

/// A month over some of the rows: what one thread does at a time.
struct Share {
  int month = 0, first_row = 0, last_row = 0;
};

/// One share for each month that has beams; where there are fewer than threads, in bands of rows.
std::vector<Share> shares_of(const BeamsByMonth& by_month, int rows, int threads) {
  constexpr int kLeastBand = 16;
  const auto months = static_cast<int>(
      std::count_if(by_month.begin(), by_month.end(), [](const auto& b) { return !b.empty(); }));
  if (months == 0) return {};
  const int wanted = months >= threads ? 1 : (threads + months - 1) / months;
  const int bands = std::clamp(wanted, 1, std::max(1, rows / kLeastBand));
  std::vector<Share> shares;
  for (int month = 0; month < kMonths; ++month) {
    if (by_month[static_cast<std::size_t>(month)].empty()) continue;
    for (int band = 0; band < bands; ++band)
      shares.push_back({month, rows * band / bands, rows * (band + 1) / bands});
  }
  return shares;
}

class Counting {
 public:
  Counting(const Standing& standing, const CastOptions& options, LitCounts& counts)
      : standing_(standing), options_(options), counts_(counts) {}

  void count(const std::vector<CountedBeam>& beams, const Share& share) const {
    const Kernels& kernels = kernels_for(options_.backend);
    RowCaster rows(standing_, share.first_row, share.last_row, kernels);
    const RunEnds runs(standing_.grid().columns, rows.words());
    const auto stride = static_cast<std::size_t>(standing_.grid().columns) + 1;
    for (const CountedBeam& counted : beams) {
      if (options_.progress != nullptr) {
        if (options_.progress->cancelled()) return;
        if (share.first_row == 0) options_.progress->step();
      }
      std::uint32_t* ends = counts_.plane(share.month, counted.part).data() +
                            static_cast<std::size_t>(share.first_row) * stride;
      if (!rows.cast(counted.beam)) {
        for (int j = share.first_row; j < share.last_row; ++j, ends += stride)
          ++ends[0], --ends[stride - 1];
        continue;
      }
      for (int j = share.first_row; j < share.last_row; ++j, ends += stride) {
        const BeamRow row = rows.row(j);
        if (row.deep_from < row.deep_to)
          kernels.darken(row.depth, row.deep_from, row.deep_to, kMostDepth, row.dark);
        runs.add(row.dark, ends);
      }
    }
  }

 private:
  const Standing& standing_;
  const CastOptions& options_;
  LitCounts& counts_;
};

}  // namespace

LitCounts cast(const Scene& scene, const Receiver& receiver, std::span<const SunSample> samples,
               const CastOptions& options) {
  LitCounts counts(receiver.columns, receiver.rows);
  if (receiver.columns <= 0 || receiver.rows <= 0) return counts;
  const Standing standing(scene, receiver, options.left_out, options.ignore_m);
  const BeamsByMonth by_month = counted_beams(standing.grid(), samples, options);
  const std::size_t places =
      (static_cast<std::size_t>(receiver.columns) + 1) * static_cast<std::size_t>(receiver.rows);
  std::array<std::array<std::uint32_t, kParts>, kMonths> times{};
  for (std::size_t month = 0; month < by_month.size(); ++month) {
    for (const CountedBeam& counted : by_month[month]) {
      auto& plane = counts.plane(static_cast<int>(month), counted.part);
      if (plane.empty()) plane.resize(places);
      ++times[month][static_cast<std::size_t>(counted.part)];
    }
  }
  const std::vector<Share> shares = shares_of(by_month, receiver.rows, options.threads);
  const Counting counting(standing, options, counts);
  parallel_for(static_cast<int>(shares.size()), options.threads, [&](int i) {
    const Share& share = shares[static_cast<std::size_t>(i)];
    counting.count(by_month[static_cast<std::size_t>(share.month)], share);
  });
  if (options.progress != nullptr && options.progress->cancelled()) counts.set_incomplete();
  for (int month = 0; month < kMonths; ++month) {
    for (int part = 0; part < kParts; ++part) {
      auto& plane = counts.plane(month, part);
      const auto m = static_cast<std::size_t>(month), p = static_cast<std::size_t>(part);
      if (!plane.empty()) sum_runs(plane, receiver.columns, receiver.rows, times[m][p]);
    }
  }
  return counts;
}

}  // namespace spadework::light
