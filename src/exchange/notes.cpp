#include <fmt/format.h>

#include "exchange/file_text.h"
#include "exchange/readers.h"

namespace spadework::exchange {

void note_gaps(climate::Weather& weather) {
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
