#include "study/why_pointer.h"

#include <fmt/format.h>

#include <charconv>

namespace spadework::study {
namespace {

constexpr const char* kExample = "/light/places/ID/months/5/sun_h_per_day";

std::vector<std::string> steps_of(const std::string& pointer) {
  std::vector<std::string> steps;
  for (std::size_t at = 0; at < pointer.size();) {
    const std::size_t end = std::min(pointer.find('/', at + 1), pointer.size());
    std::string step = pointer.substr(at + 1, end - at - 1);
    for (const auto& [code, c] : {std::pair{"~1", "/"}, {"~0", "~"}}) {  // RFC 6901
      for (std::size_t k = step.find(code); k != std::string::npos; k = step.find(code, k + 1))
        step.replace(k, 2, c);
    }
    steps.push_back(std::move(step));
    at = end;
  }
  return steps;
}

std::optional<LocalDate> day_of(const std::string& text) {
  if (const auto date = parse_date(text)) return date;
  const auto day = parse_month_day(text);
  if (!day) return std::nullopt;
  return LocalDate(std::chrono::year(kReferenceYear), day->month(), day->day());
}

std::optional<Pointer::Spot> spot_of(const std::string& text) {
  std::vector<double> parts;
  const char* at = text.data();
  const char* const end = text.data() + text.size();
  while (parts.size() < 4) {
    double value = 0;
    const auto [stop, error] = std::from_chars(at, end, value);
    if (error != std::errc() || !(value >= -2000 && value <= 2000)) return std::nullopt;
    parts.push_back(value);
    if (stop == end) break;
    if (*stop != ',') return std::nullopt;
    at = stop + 1;
  }
  if (parts.size() < 2 || parts.size() > 3 || (parts.size() == 3 && parts[2] < 0))
    return std::nullopt;
  return Pointer::Spot{{parts[0], parts[1]}, metres(parts.size() == 3 ? parts[2] : 0)};
}

}  // namespace

std::optional<std::size_t> index_of(const std::string& text) {
  std::size_t index = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), index);
  if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return index;
}

std::optional<std::size_t> month_of(const std::string& text) {
  if (const auto index = index_of(text)) {
    if (*index < 12) return index;
    return std::nullopt;
  }
  for (unsigned m = 1; m <= 12; ++m) {
    if (text.size() >= 3 && nearest_word(text, {std::string(month_name(m))}) == month_name(m) &&
        slips_between(text.substr(1), month_name(m).substr(1, text.size() - 1)) == 0)
      return m - 1;
  }
  return std::nullopt;
}

tl::unexpected<Error> bad_pointer(const std::string& pointer, std::string hint) {
  return fail(ErrorCode::kWrongUse, pointer, "This points at no figure.", std::move(hint));
}

Result<Pointer> read_pointer(const std::string& text) {
  if (text.empty() || text[0] != '/')
    return bad_pointer(text, std::string("Begin with a slash: ") + kExample + ".");
  std::vector<std::string> steps = steps_of(text);
  Pointer pointer;
  pointer.text = text;
  if (steps[0] == "climate") {
    pointer.about = Pointer::About::kClimate;
    pointer.rest.assign(steps.begin() + 1, steps.end());
    return pointer;
  }
  std::size_t next = 1;
  if (steps.size() > 3 && steps[1] == "day") {
    pointer.day = day_of(steps[2]);
    if (!pointer.day) return bad_pointer(text, "A day is /light/day/2026-06-21/…, or 06-21.");
    next = 3;
  }
  const bool place = steps.size() > next + 1 && steps[next] == "places";
  const bool spot = steps.size() > next + 1 && steps[next] == "at";
  if (steps[0] != "light" || (!place && !spot))
    return bad_pointer(text, std::string("Figures of light are at ") + kExample +
                                 ", /light/at/X,Y/months/5/sun_h_per_day or "
                                 "/light/day/06-21/places/ID/sun_h; those of the weather at "
                                 "/climate/months/5/global_mj_m2_d.");
  if (spot) {
    pointer.spot = spot_of(steps[next + 1]);
    if (!pointer.spot) return bad_pointer(text, "A spot is /light/at/X,Y or /light/at/X,Y,Z.");
  } else {
    pointer.place = steps[next + 1];
  }
  pointer.rest.assign(steps.begin() + static_cast<std::ptrdiff_t>(next) + 2, steps.end());
  return pointer;
}

}  // namespace spadework::study
