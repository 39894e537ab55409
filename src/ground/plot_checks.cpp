// What cannot be a plot, and which length is likely to be mistaken.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "ground/plot_parts.h"

namespace spadework::ground {
namespace {

using geometry::Vec2;

constexpr double kShortest_m = 0.1, kFarthest_m = 2000;  // as the document takes them
constexpr double kFlatWithin = 2;  // sigmas within which three corners count as in one line
constexpr double kSlipWithin = 2;  // sigmas within which a slip explains a length

std::string says(double length_m, Units units) { return length_says(metres(length_m), units, 2); }

std::string name_of(int number) {
  if (number == kFirstDiagonal) return "the diagonal from corner 1 to corner 3";
  if (number == kSecondDiagonal) return "the diagonal from corner 2 to corner 4";
  return fmt::format("side {}", number + 1);
}

Result<void> in_range(const SixLengths& lengths) {
  for (int i = 0; i < (lengths.both ? 6 : 5); ++i) {
    const double length_m = lengths.m[static_cast<std::size_t>(i)];
    if (length_m >= kShortest_m && length_m <= kFarthest_m) continue;
    return fail(ErrorCode::kImpossibleValue, length_pointer(i),
                fmt::format("{} cannot be {}", name_of(i), says(length_m, lengths.units)),
                fmt::format("give a length from {} to {}", says(kShortest_m, lengths.units),
                            says(kFarthest_m, lengths.units)));
  }
  return {};
}

Result<void> sides_reach_round(const SixLengths& lengths) {
  for (int i = 0; i < 4; ++i) {
    double others = 0;
    for (int k = 0; k < 4; ++k) others += k == i ? 0 : lengths.m[static_cast<std::size_t>(k)];
    const double side = lengths.m[static_cast<std::size_t>(i)];
    if (side < others) continue;
    return fail(ErrorCode::kImpossibleValue, length_pointer(i),
                fmt::format("side {} is {}, but the other three sides together are only {}: they "
                            "cannot reach round",
                            i + 1, says(side, lengths.units), says(others, lengths.units)),
                fmt::format("tape side {} again, and the others if it is right", i + 1));
  }
  return {};
}

/// Two sides and the diagonal over them, by their numbers.
struct Triangle {
  std::size_t a, b, diagonal;
};

/// What a diagonal may be: longer than `low` and shorter than `high`, by both triangles over it.
std::string range_says(const SixLengths& lengths, const Triangle& one, const Triangle& other) {
  const auto& m = lengths.m;
  const double low = std::max(std::abs(m[one.a] - m[one.b]), std::abs(m[other.a] - m[other.b]));
  const double high = std::min(m[one.a] + m[one.b], m[other.a] + m[other.b]);
  return fmt::format(
      "with these sides it is longer than {} and shorter than {}; tape it again, and "
      "sides {} and {} if it is right",
      says(low, lengths.units), says(high, lengths.units), one.a + 1, one.b + 1);
}

Result<void> diagonal_spans(const SixLengths& lengths, const Triangle& one, const Triangle& other,
                            double leeway_sigmas) {
  const auto& m = lengths.m;
  const double diagonal = m[one.diagonal];
  const double leeway = leeway_sigmas * std::hypot(lengths.sigma_m[one.a], lengths.sigma_m[one.b],
                                                   lengths.sigma_m[one.diagonal]);
  const double together = m[one.a] + m[one.b], apart = std::abs(m[one.a] - m[one.b]);
  const int number = static_cast<int>(one.diagonal);
  if (diagonal >= together + leeway) {
    return fail(ErrorCode::kImpossibleValue, length_pointer(number),
                fmt::format("{} is {}: too long, as sides {} and {} together are only {}",
                            name_of(number), says(diagonal, lengths.units), one.a + 1, one.b + 1,
                            says(together, lengths.units)),
                range_says(lengths, one, other));
  }
  if (diagonal <= apart - leeway) {
    const bool first_longer = m[one.a] > m[one.b];
    return fail(
        ErrorCode::kImpossibleValue, length_pointer(number),
        fmt::format("{} is {}: too short, as side {} is {} longer than side {}", name_of(number),
                    says(diagonal, lengths.units), (first_longer ? one.a : one.b) + 1,
                    says(apart, lengths.units), (first_longer ? one.b : one.a) + 1),
        range_says(lengths, one, other));
  }
  return {};
}

/// Corners 1, 2, 3 (or 3, 4, 1) must not lie in one line as far as the tape can tell.
Result<void> not_flat(const SixLengths& lengths, const Triangle& t, int corner) {
  const double a = lengths.m[t.a], b = lengths.m[t.b], p = lengths.m[t.diagonal];
  const double slack = std::min(a + b - p, p - std::abs(a - b));
  const double sigma =
      std::hypot(lengths.sigma_m[t.a], lengths.sigma_m[t.b], lengths.sigma_m[t.diagonal]);
  if (slack > kFlatWithin * sigma) return {};
  return fail(
      ErrorCode::kNoAnswer, length_pointer(static_cast<int>(t.diagonal)),
      fmt::format("corners 1, {} and 3 lie so nearly in one line that the tape cannot tell on "
                  "which side of it corner {} is",
                  corner, corner),
      fmt::format("tape how far corner {} stands off the line from corner 1 to corner 3 and draw "
                  "the outline by its corners; or begin at another corner",
                  corner));
}

constexpr Triangle kUnderFirst[2] = {{0, 1, 4}, {2, 3, 4}};
constexpr Triangle kUnderSecond[2] = {{1, 2, 5}, {3, 0, 5}};

/// The length between the far corners of two triangles on one edge, each told by its legs to the
/// edge's ends; on the same side of the edge or on both. Nothing if they cannot close.
std::optional<double> between_tops(double edge, Vec2 legs_p, Vec2 legs_q, bool same_side) {
  const auto top = [&](Vec2 legs) -> std::optional<Vec2> {
    const double x = (legs.x * legs.x - legs.y * legs.y + edge * edge) / (2 * edge);
    const double square = legs.x * legs.x - x * x;
    if (square < 0) return std::nullopt;
    return Vec2{x, std::sqrt(square)};
  };
  const auto p = top(legs_p), q = top(legs_q);
  if (!p || !q) return std::nullopt;
  return std::hypot(p->x - q->x, p->y - (same_side ? q->y : -q->y));
}

std::size_t number_between(std::size_t a, std::size_t b) {
  for (std::size_t i = 0; i < 6; ++i) {
    if ((kEnds[i].from == a && kEnds[i].to == b) || (kEnds[i].from == b && kEnds[i].to == a))
      return i;
  }
  return 6;
}

/// What one length has to be by the other five.
std::optional<double> fitting(const SixLengths& lengths, const geometry::Polygon& corners,
                              std::size_t number) {
  const auto [p, q] = kEnds[number];
  std::size_t rest[2] = {4, 4};
  for (std::size_t c = 0, n = 0; c < 4; ++c) {
    if (c != p && c != q) rest[n++] = c;
  }
  const auto [r, s] = rest;
  const auto m = [&](std::size_t a, std::size_t b) { return lengths.m[number_between(a, b)]; };
  const Vec2 edge = corners[s] - corners[r];
  const bool same_side = (geometry::cross(edge, corners[p] - corners[r]) > 0) ==
                         (geometry::cross(edge, corners[q] - corners[r]) > 0);
  return between_tops(m(r, s), {m(p, r), m(p, s)}, {m(q, r), m(q, s)}, same_side);
}

/// What was meant, and how usual such a slip is beside the others. Judgement, no source.
struct Meant {
  Slip slip = Slip::kNone;
  double length_m = 0, usual = 1;
};

/// What the hand may have meant instead of a figure: a unit or ten more or less, or two
/// neighbouring digits of the figure to a hundredth swapped.
std::vector<Meant> meant_instead(double length_m, double unit_m) {
  std::vector<Meant> out;
  for (const double sign : {-1.0, 1.0}) {
    out.push_back({Slip::kWholeUnit, length_m + sign * unit_m, 1});
    out.push_back({Slip::kTenUnits, length_m + sign * 10 * unit_m, 0.5});
  }
  const std::string digits = fmt::format("{}", std::llround(length_m / unit_m * 100));
  for (std::size_t i = 0; i + 1 < digits.size(); ++i) {
    if (digits[i] == digits[i + 1]) continue;
    std::string swapped = digits;
    std::swap(swapped[i], swapped[i + 1]);
    out.push_back({Slip::kDigitsSwapped, std::stod(swapped) / 100 * unit_m, 0.25});
  }
  return out;
}

/// A suspect with how likely its likeliest slip is, beside the others' (0: none).
struct Ranked {
  Suspect suspect;
  double likely = 0;
};

/// In: what the length has to be by the other five; the misclosure over its sigma, which is the
/// change wanted over the sigma of that, whichever length it is.
Ranked ranked(const SixLengths& lengths, std::size_t number, double fits_m, double in_sigmas) {
  const double taped_m = lengths.m[number];
  const double sigma_m = std::abs((fits_m - taped_m) / in_sigmas);
  Ranked out{
      {static_cast<int>(number), metres(taped_m), {metres(fits_m), metres(sigma_m)}, Slip::kNone},
      0};
  const double unit_m = lengths.units == Units::kMetric ? 1 : 0.3048;
  for (const Meant& meant : meant_instead(taped_m, unit_m)) {
    const double off = std::abs(meant.length_m - fits_m) / sigma_m;
    const double likely = meant.usual * std::exp(-off * off / 2);
    if (off > kSlipWithin || likely <= out.likely) continue;
    out.suspect.slip = meant.slip;
    out.likely = likely;
  }
  return out;
}

}  // namespace

SixLengths six_lengths(const PlotByTape& taped, const TapeErrors& tape) {
  SixLengths out;
  for (std::size_t i = 0; i < 4; ++i) out.m[i] = in_metres(taped.sides[i]);
  out.m[4] = in_metres(taped.diagonal);
  out.both = taped.second_diagonal.has_value();
  if (out.both) out.m[5] = in_metres(*taped.second_diagonal);
  for (std::size_t i = 0; i < 6; ++i)
    out.sigma_m[i] = in_metres(tape_sigma(metres(out.m[i]), tape));
  out.units = taped.units;
  return out;
}

Result<void> can_close(const SixLengths& lengths) {
  if (auto ok = in_range(lengths); !ok) return ok;
  if (auto ok = sides_reach_round(lengths); !ok) return ok;
  for (const int i : {0, 1}) {
    if (auto ok = diagonal_spans(lengths, kUnderFirst[i], kUnderFirst[1 - i], 0); !ok) return ok;
  }
  for (const int i : {0, 1}) {
    if (auto ok = not_flat(lengths, kUnderFirst[i], i == 0 ? 2 : 4); !ok) return ok;
  }
  if (!lengths.both) return {};
  for (const int i : {0, 1}) {
    if (auto ok = diagonal_spans(lengths, kUnderSecond[i], kUnderSecond[1 - i], kFitsWithin); !ok)
      return ok;
  }
  return {};
}

std::vector<Suspect> suspects_of(const SixLengths& lengths, const geometry::Polygon& corners,
                                 double in_sigmas) {
  std::vector<Ranked> all;
  for (std::size_t i = 0; i < 6; ++i) {
    if (const auto fits_m = fitting(lengths, corners, i))
      all.push_back(ranked(lengths, i, *fits_m, in_sigmas));
  }
  std::stable_sort(all.begin(), all.end(), [](const Ranked& a, const Ranked& b) {
    if (a.likely != b.likely) return a.likely > b.likely;
    const auto change = [](const Ranked& r) {
      return std::abs(in_metres(r.suspect.fits.value - r.suspect.taped));
    };
    return change(a) < change(b);
  });
  std::vector<Suspect> out;
  for (const Ranked& one : all) out.push_back(one.suspect);
  return out;
}

}  // namespace spadework::ground
