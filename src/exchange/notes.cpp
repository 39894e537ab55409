#include <fmt/format.h>

#include "exchange/file_text.h"
#include "exchange/readers.h"

namespace spadework::exchange {

namespace {

void note_missing_days(climate::Weather& weather) {
  using std::chrono::sys_days;
  if (weather.typical_year || weather.days.empty()) return;
  const LocalDate first = weather.days.front().date, last = weather.days.back().date;
  const auto span = (sys_days(last) - sys_days(first)).count() + 1;
  const auto missing = span - static_cast<long>(weather.days.size());
  if (missing > 0)
    weather.notes.push_back(fmt::format("{} between {} and {} {} not in the file.",
                                        missing == 1 ? "A day" : fmt::format("{} days", missing),
                                        iso_date(first), iso_date(last),
                                        missing == 1 ? "is" : "are"));
}

}  // namespace

void note_gaps(climate::Weather& weather) {
  note_missing_days(weather);
  std::size_t temperature = 0, rain = 0, sunshine = 0, global = 0, diffuse = 0;
  for (const climate::WeatherDay& day : weather.days) {
    temperature += day.tmax && day.tmin ? 0 : 1;
    rain += day.rain_mm ? 0 : 1;
    sunshine += day.sunshine_h ? 0 : 1;
    global += day.global_mj_m2 ? 0 : 1;
    diffuse += day.diffuse_mj_m2 ? 0 : 1;
  }
  const std::size_t days = weather.days.size();
  note_missing(weather.notes, temperature, days, "highest and lowest temperature");
  note_missing(weather.notes, rain, days, "rain");
  note_missing(weather.notes, sunshine, days, "sunshine");
  note_missing(weather.notes, global, days, "global radiation");
  if (diffuse < days) note_missing(weather.notes, diffuse, days, "diffuse radiation");
  if (weather.notes.size() > kMostNotes) weather.notes.resize(kMostNotes);
}

}  // namespace spadework::exchange
