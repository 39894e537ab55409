// From the hours of an EPW file to days: their order, the years they stand for, sums and extremes.
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "climate/radiation.h"
#include "exchange/epw_hours.h"
#include "exchange/file_text.h"
#include "exchange/readers.h"

namespace spadework::exchange {
namespace {

using climate::Weather;
using climate::WeatherDay;

constexpr double kSunshine_w_m2 = 120;
constexpr double kMj_in_wh = 0.0036;

/// Hours from the start of a year of 366 days.
int hour_of_leap_year(const EpwHour& at) {
  return (day_of_year(
              make_date(2024, static_cast<unsigned>(at.month), static_cast<unsigned>(at.day))) -
          1) *
             24 +
         at.hour - 1;
}

std::string says_hour(const EpwHour& at) {
  return fmt::format("{} {} hour {}", at.day, month_name(static_cast<unsigned>(at.month)), at.hour);
}

std::string where_of(std::string_view name, const EpwHour& at) {
  return fmt::format("{}:{}:1", name, at.line);
}

constexpr int kYear_h = 366 * 24;
constexpr int kLeapDay_h = 59 * 24;  // 29 February begins

/// How many hours lie between two rows: 0 if one follows the other. 29 February may be left out.
int hours_between(const EpwHour& before, const EpwHour& after) {
  const int from = hour_of_leap_year(before) + 1, to = hour_of_leap_year(after);
  const int gap = (to - from + 2 * kYear_h) % kYear_h;
  const bool over_leap_day = from <= kLeapDay_h && gap >= 24 && from + gap >= kLeapDay_h + 24;
  return over_leap_day ? gap - 24 : gap;
}

/// The hours follow each other, day and month alone considered.
std::optional<Error> out_of_order(const std::vector<EpwHour>& hours, std::string_view name) {
  for (std::size_t i = 1; i < hours.size(); ++i) {
    const EpwHour &before = hours[i - 1], &after = hours[i];
    const int gap = hours_between(before, after);
    if (gap == 0) continue;
    const std::string where = where_of(name, after);
    const std::string hint = "Each hour of each day has its row, in order. Fetch the file again.";
    if (hour_of_leap_year(before) == hour_of_leap_year(after))
      return Error{ErrorCode::kConflict, where,
                   fmt::format("The hour is there twice: {}.", says_hour(after)), hint};
    if (gap > kYear_h / 2)
      return Error{ErrorCode::kSyntax, where,
                   fmt::format("The hours are out of order: {} comes after {}.", says_hour(after),
                               says_hour(before)),
                   hint};
    return Error{ErrorCode::kSyntax, where,
                 fmt::format("{} missing between {} and {}.",
                             gap == 1 ? "An hour is" : fmt::format("{} hours are", gap),
                             says_hour(before), says_hour(after)),
                 hint};
  }
  return std::nullopt;
}

/// Whole days, and those that the header promises.
std::optional<Error> wrong_ends(const EpwFile& file, std::string_view name) {
  const EpwHour &first = file.hours.front(), &last = file.hours.back();
  const std::string hint = "The file has lost rows. Fetch it again.";
  if (first.hour != 1)
    return Error{ErrorCode::kSyntax, where_of(name, first),
                 fmt::format("The file begins with {}.", says_hour(first)), hint};
  if (const int gap = 24 - last.hour; gap != 0)
    return Error{
        ErrorCode::kSyntax, where_of(name, last),
        fmt::format("The file ends with {}: {} of that day {} missing.", says_hour(last),
                    gap == 1 ? "an hour" : fmt::format("{} hours", gap), gap == 1 ? "is" : "are"),
        hint};
  const auto differs = [](const std::optional<EpwPeriodDay>& wanted, const EpwHour& is) {
    const bool leap_end =
        wanted && wanted->month == 2 && is.month == 2 && wanted->day >= 28 && is.day >= 28;
    return wanted && !leap_end && (wanted->month != is.month || wanted->day != is.day);
  };
  for (const auto& [wanted, is, word] : {std::tuple(file.header.first, &first, "begin"),
                                         std::tuple(file.header.last, &last, "end")}) {
    if (!differs(wanted, *is)) continue;
    return Error{
        ErrorCode::kSyntax, where_of(name, *is),
        fmt::format("The header says that the hours {} on {} {}, and they {} on {} {}; "
                    "there are {} rows.",
                    word, wanted->day, month_name(static_cast<unsigned>(wanted->month)), word,
                    is->day, month_name(static_cast<unsigned>(is->month)), file.hours.size()),
        hint};
  }
  return std::nullopt;
}

bool says_typical(const EpwHeader& header) {
  const std::string source = lower(header.source);
  for (const char* word : {"tmy", "typical", "iwec", "wyec"}) {
    if (source.find(word) != std::string::npos) return true;
  }
  return source == "try";  // test reference year
}

/// Whether the years of the rows are no calendar's.
bool is_typical(const EpwFile& file) {
  if (says_typical(file.header)) return true;
  for (std::size_t i = 1; i < file.hours.size(); ++i) {
    const EpwHour &before = file.hours[i - 1], &after = file.hours[i];
    const bool new_year = after.month == 1 && before.month == 12;
    if (after.year != before.year + (new_year ? 1 : 0)) return true;
  }
  return false;
}

/// One figure of a day's 24 hours, if all have it.
template <class Get>
std::optional<double> sum_of(const EpwHour* hours, Get get) {
  double sum = 0;
  for (int i = 0; i < 24; ++i) {
    const std::optional<double> value = get(hours[i]);
    if (!value) return std::nullopt;
    sum += *value;
  }
  return sum;
}

/// An hour without light has no sun, whatever is known of the beam. Source: [wmo8].
std::optional<double> sun_of_hour(const EpwHour& hour) {
  if (hour.beam_wh_m2) return *hour.beam_wh_m2 > kSunshine_w_m2 ? 1 : 0;
  if (hour.global_wh_m2 && *hour.global_wh_m2 == 0) return 0;
  return std::nullopt;
}

WeatherDay day_of(const EpwHour* hours, LocalDate date) {
  WeatherDay day;
  day.date = date;
  if (sum_of(hours, [](const EpwHour& h) { return h.temperature_c; })) {
    const auto [low, high] = std::minmax_element(
        hours, hours + 24,
        [](const EpwHour& a, const EpwHour& b) { return *a.temperature_c < *b.temperature_c; });
    day.tmin = celsius(*low->temperature_c);
    day.tmax = celsius(*high->temperature_c);
  }
  const auto energy = [&](std::optional<double> EpwHour::*which) -> std::optional<double> {
    const auto sum = sum_of(hours, [which](const EpwHour& h) { return h.*which; });
    if (!sum) return std::nullopt;
    return *sum * kMj_in_wh;
  };
  day.global_mj_m2 = energy(&EpwHour::global_wh_m2);
  day.diffuse_mj_m2 = energy(&EpwHour::diffuse_wh_m2);
  day.rain_mm = sum_of(hours, [](const EpwHour& h) { return h.rain_mm; });
  day.sunshine_h = sum_of(hours, sun_of_hour);
  return day;
}

/// A day's figures against each other and against what reaches the air.
std::optional<Error> impossible_day(const WeatherDay& day, const EpwHour* hours,
                                    const EpwHeader& header, std::string_view name) {
  const std::string where = where_of(name, *hours);
  const std::string date = says_hour(*hours).substr(0, says_hour(*hours).find(" hour"));
  if (day.global_mj_m2 && header.latitude_deg) {
    // A twentieth and 1 MJ/m² more, for twilight and measuring.
    const double above = climate::sky_of_day(degrees(*header.latitude_deg), day_of_year(day.date))
                             .extraterrestrial_mj_m2_d;
    if (*day.global_mj_m2 > above * 1.05 + 1)
      return Error{ErrorCode::kImpossibleValue, where,
                   fmt::format("The radiation of {}, {:.1f} MJ/m², is more than the {:.1f} that "
                               "reaches the air above latitude {:g}.",
                               date, *day.global_mj_m2, above, *header.latitude_deg),
                   "Is the latitude in the first line right? Else the radiation is in another "
                   "unit than Wh/m²."};
  }
  if (day.diffuse_mj_m2 && day.global_mj_m2 && *day.diffuse_mj_m2 > *day.global_mj_m2 * 1.05 + 0.3)
    return Error{ErrorCode::kImpossibleValue, where,
                 fmt::format("The diffuse radiation of {}, {:.1f} MJ/m², is more than the global "
                             "radiation, {:.1f}.",
                             date, *day.diffuse_mj_m2, *day.global_mj_m2),
                 "The global radiation holds the diffuse. Are two columns interchanged?"};
  return std::nullopt;
}

/// The date of a row, or nothing for 29 February where it has none.
std::optional<LocalDate> date_of(const EpwHour& at, bool typical) {
  const LocalDate date = make_date(typical ? kReferenceYear : at.year,
                                   static_cast<unsigned>(at.month), static_cast<unsigned>(at.day));
  if (!date.ok()) return std::nullopt;
  return date;
}

std::optional<Error> add_days(const EpwFile& file, std::string_view name, Weather& out) {
  std::size_t leap_days = 0;
  std::set<LocalDate> seen;
  for (std::size_t i = 0; i + 24 <= file.hours.size(); i += 24) {
    const EpwHour* hours = &file.hours[i];
    const auto date = date_of(*hours, out.typical_year);
    if (!date) {
      ++leap_days;
      continue;
    }
    if (!seen.insert(*date).second)
      return Error{ErrorCode::kConflict, where_of(name, *hours),
                   fmt::format("The day is there twice: {} {}.", hours->day,
                               month_name(static_cast<unsigned>(hours->month))),
                   "A file of a typical year has each day once. Fetch it again."};
    out.days.push_back(day_of(hours, *date));
    if (auto error = impossible_day(out.days.back(), hours, file.header, name)) return error;
  }
  if (leap_days > 0) out.notes.push_back("29 February is left out.");
  std::sort(out.days.begin(), out.days.end(),
            [](const WeatherDay& a, const WeatherDay& b) { return a.date < b.date; });
  return std::nullopt;
}

std::string says_of(const EpwFile& file) {
  std::string place;
  for (const std::string* word : {&file.header.city, &file.header.region, &file.header.country}) {
    if (word->empty() || *word == "-" || lower(*word) == "unknown") continue;
    place += (place.empty() ? "" : ", ") + *word;
  }
  int first = file.hours[0].year, last = first;
  for (const EpwHour& hour : file.hours) {
    first = std::min(first, hour.year);
    last = std::max(last, hour.year);
  }
  return fmt::format(
      "{}{}{}, hours of {}", place.empty() ? "place without a name" : place,
      file.header.source.empty() ? "" : " · ", file.header.source,
      first == last ? fmt::format("{}", first) : fmt::format("{} to {}", first, last));
}

void add_header(const EpwFile& file, Weather& out) {
  const EpwHeader& header = file.header;
  out.says = says_of(file);
  if (header.latitude_deg) out.latitude = degrees(*header.latitude_deg);
  if (header.longitude_deg) out.longitude = degrees(*header.longitude_deg);
  if (header.elevation_m) out.elevation = metres(*header.elevation_m);
  out.clock_offset_h = header.zone_h;
  out.told_sun_offset_h = header.sun_offset_h;
  double sum = 0, moment = 0;
  for (const EpwHour& hour : file.hours) {
    sum += hour.global_wh_m2.value_or(0);
    moment += hour.global_wh_m2.value_or(0) * (hour.hour - 0.5);
  }
  if (sum > 0) out.sun_middle_h = moment / sum;
  if (header.sun_offset_h)
    out.notes.push_back(fmt::format(
        "The file's radiation runs {:.2f} h {} its clocks, as its header says; sums of days are as "
        "they are.",
        std::abs(*header.sun_offset_h), *header.sun_offset_h < 0 ? "ahead of" : "behind"));
}

/// Files without rain often write 0 for each hour.
void leave_out_dry_year(Weather& out) {
  constexpr std::size_t kMostDryDays = 300;
  double sum = 0;
  std::size_t known = 0;
  for (const WeatherDay& day : out.days) {
    sum += day.rain_mm.value_or(0);
    known += day.rain_mm ? 1 : 0;
  }
  if (sum > 0 || known < kMostDryDays) return;
  for (WeatherDay& day : out.days) day.rain_mm.reset();
  out.notes.push_back("Every hour's rain is 0 in the file: taken as not known.");
}

}  // namespace

Result<Weather> read_epw(std::string_view bytes, std::string_view name) {
  const auto file = read_epw_file(bytes, name);
  if (!file) return tl::unexpected<Error>(file.error());
  if (auto error = out_of_order(file->hours, name)) return tl::unexpected<Error>(std::move(*error));
  if (auto error = wrong_ends(*file, name)) return tl::unexpected<Error>(std::move(*error));
  Weather out;
  out.name = std::string(name);
  out.typical_year = is_typical(*file);
  add_header(*file, out);
  if (auto error = add_days(*file, name, out)) return tl::unexpected<Error>(std::move(*error));
  leave_out_dry_year(out);
  note_gaps(out);
  return out;
}

}  // namespace spadework::exchange
