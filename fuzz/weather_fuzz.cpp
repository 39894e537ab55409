// Any bytes as a weather file: they are refused with a place and a cure, or give days that can be,
// whose months and doubts can be told.
#include <cmath>
#include <cstdint>
#include <string>
#include <string_view>

#include "climate/file_months.h"
#include "exchange/exchange.h"
#include "fuzz/claim.h"

namespace spadework::exchange {
namespace {

void claim_of_error(const Error& error) {
  claim(error.where.rfind("weather.csv:", 0) == 0, "where begins with the file", error.where);
  claim(error.where.find(':', 12) != std::string::npos, "where has a column", error.where);
  claim(!error.message.empty() && error.message.size() < 600, "a short message", error.message);
  claim(!error.hint.empty(), "an error says what would be right", error.message);
  claim(exit_status(error.code) == 1, "a broken file exits with 1", error.message);
}

void claim_within(const std::optional<double>& value, double most, const char* what) {
  claim(!value || (*value >= 0 && *value <= most && !std::signbit(*value)), what);
}

void claim_of_day(const climate::WeatherDay& day) {
  claim(day.date.ok(), "a day that is one");
  for (const auto& warmth : {day.tmin, day.tmax})
    claim(!warmth || std::abs(in_celsius(*warmth)) <= 95, "a temperature that can be");
  claim(!day.tmin || !day.tmax || *day.tmin <= *day.tmax, "lowest under highest");
  claim_within(day.rain_mm, 24 * 500, "rain that can be");
  claim_within(day.sunshine_h, 24, "sunshine that can be");
  claim_within(day.global_mj_m2, 24 * 1500 * 0.0036, "radiation that can be");
  claim_within(day.diffuse_mj_m2, 24 * 1500 * 0.0036, "diffuse radiation that can be");
}

void claim_of_month(const climate::FileMonth& month) {
  for (std::size_t k = 0; k < climate::kDayFigures; ++k)
    claim(!month.mean[k] || (std::isfinite(*month.mean[k]) && month.years[k] > 0),
          "a mean that is one");
}

void claim_of_sentences(const std::vector<std::string>& sentences, std::size_t most) {
  claim(sentences.size() <= most, "a handful of sentences");
  for (const std::string& each : sentences) {
    claim(!each.empty() && each.size() < 1000, "a short sentence", each);
    claim(each.find('\n') == std::string::npos, "one line", each);
  }
}

void fuzz(std::string_view bytes) {
  const auto read = read_weather(bytes, "weather.csv");
  if (!read) return claim_of_error(read.error());
  claim(!read->days.empty(), "a file that is read has days");
  for (std::size_t i = 0; i < read->days.size(); ++i) {
    claim_of_day(read->days[i]);
    claim(i == 0 || read->days[i - 1].date < read->days[i].date, "days by date, each once");
  }
  claim_of_sentences(read->notes, 8);
  for (const climate::FileMonth& month : climate::months_of(*read)) claim_of_month(month);
  claim_of_sentences(file_doubts(*read, degrees(48.4), degrees(-4.5), metres(60)), 6);
}

}  // namespace
}  // namespace spadework::exchange

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  spadework::exchange::fuzz({reinterpret_cast<const char*>(data), size});
  return 0;
}
