// One fact: a value, whose word it is, and how sure it is.
#pragma once

#include <string>
#include <vector>

#include "base/quantity.h"
#include "base/trace.h"

namespace spadework::facts {

template <class T>
struct Fact {
  T value{};
  std::vector<std::string> sources;  // keys of data/sources.toml, at least one
  Standing standing = Standing::kFromMemory;
};

/// From the least to the most that is usual.
struct Range {
  Length min, max;
};

/// A day of a year of 365 days, 1 for 1 January.
struct YearDay {
  int number = 1;
  friend bool operator==(YearDay, YearDay) = default;
};

/// The fact as the first link of a chain of reasons: its value with the unit, its sources and its
/// standing. `name` says what it is: "light through the medlar's leaves".
/// In:  a share from 0 to 1 or a plain number in `unit`; or a length (shown in metres), an angle
///      (degrees), a day ("20 April") or a range ("0.5 to 2 m", whose number is the larger).
/// Out: a trace without inputs; never fails.
[[nodiscard]] Trace trace_of(const Fact<double>& fact, std::string name, std::string unit);
[[nodiscard]] Trace trace_of(const Fact<Length>& fact, std::string name);
[[nodiscard]] Trace trace_of(const Fact<Angle>& fact, std::string name);
[[nodiscard]] Trace trace_of(const Fact<YearDay>& fact, std::string name);
[[nodiscard]] Trace trace_of(const Fact<Range>& fact, std::string name);

}  // namespace spadework::facts
