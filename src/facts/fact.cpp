#include "facts/fact.h"

#include <fmt/format.h>

#include <utility>

#include "base/date.h"

namespace spadework::facts {
namespace {

template <class T>
Trace first_link(const Fact<T>& fact, std::string name) {
  Trace trace;
  trace.name = std::move(name);
  trace.sources = fact.sources;
  trace.standing = fact.standing;
  return trace;
}

template <class T>
Trace numbered(const Fact<T>& fact, std::string name, double number, std::string unit) {
  Trace trace = first_link(fact, std::move(name));
  trace.number = number;
  trace.has_number = true;
  trace.value =
      unit.empty() ? fmt::format("{:.4g}", number) : fmt::format("{:.4g} {}", number, unit);
  trace.unit = std::move(unit);
  return trace;
}

}  // namespace

Trace trace_of(const Fact<double>& fact, std::string name, std::string unit) {
  return numbered(fact, std::move(name), fact.value, std::move(unit));
}

Trace trace_of(const Fact<Length>& fact, std::string name) {
  return numbered(fact, std::move(name), in_metres(fact.value), "m");
}

Trace trace_of(const Fact<Angle>& fact, std::string name) {
  return numbered(fact, std::move(name), in_degrees(fact.value), "deg");
}

Trace trace_of(const Fact<YearDay>& fact, std::string name) {
  Trace trace = numbered(fact, std::move(name), fact.value.number, "day of the year");
  const LocalDate date = date_of_day(kReferenceYear, fact.value.number);
  trace.value = fmt::format("{} {}", static_cast<unsigned>(date.day()),
                            month_name(static_cast<unsigned>(date.month())));
  return trace;
}

Trace trace_of(const Fact<Range>& fact, std::string name) {
  const double low = in_metres(fact.value.min), high = in_metres(fact.value.max);
  Trace trace = numbered(fact, std::move(name), high, "m");
  if (low < high) trace.value = fmt::format("{:.4g} to {:.4g} m", low, high);
  return trace;
}

}  // namespace spadework::facts
